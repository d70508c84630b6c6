"""A long list in a muddle is answered too: within counted steps, and told as not proved where they do not suffice."""

from random import Random

import pytest

from stackcheck.compare import explanations
from stackcheck.compare.search import Search
from stackcheck.compare.slips import MOST_LOOKS
from tests.builders import found, reference

PARTS = [f"part-{i}" for i in range(80)]
MOST_OF_ONE_LINE = MOST_LOOKS // 4


def shuffled(parts, seed):
    parts = list(parts)
    Random(seed).shuffle(parts)
    return parts


@pytest.mark.parametrize(
    "line",
    [shuffled(PARTS, 1), PARTS[:40] + PARTS[:39:-1], [Random(i).choice(PARTS) for i in range(80)]],
    ids=["shuffled", "one half the other way round", "drawn from a box"],
)
def test_the_work_for_a_long_list_is_counted_and_bounded(line):
    """Somebody waits at the bench: a tool that thinks for minutes is taken to hang."""
    search = Search(reference(" ".join(PARTS)), found(" ".join(line)))
    search.readings(margin=100)
    assert search.budget.looks > -MOST_OF_ONE_LINE


def test_a_muddle_that_is_not_proved_the_least_says_so_with_its_bound():
    least, *_ = explanations(reference(" ".join(PARTS)), found(" ".join(shuffled(PARTS, 1))))
    assert not least.proved_least
    assert 0 < least.bound < least.price


def test_a_list_of_equal_parts_with_faces_from_the_other_end_is_answered():
    """Equal parts with a face never pass one another; where no sequence is found for them they stand in their own."""
    wanted = [f"ring-{i % 5}@{i}{'<>'[i % 3 == 0]}" for i in range(30)]
    line = [place.split("@")[0] + place[-1] for place in wanted[::-1]]
    least, *_ = explanations(reference(" ".join(wanted)), found(" ".join(line)))
    assert not {f.kind for f in least.findings} & {"extra", "missing"}


def test_a_long_list_that_agrees_from_the_other_end_is_read_from_there_first():
    """As typed it would take all the steps, and nothing would be left for the end that it was entered from."""
    line = PARTS[::-1]
    line[10], line[50] = line[50], line[10]
    search = Search(reference(" ".join(PARTS)), found(" ".join(line)))
    result = search.readings(margin=100)
    assert result.readings[0].typed.mirrored
    assert search.budget.looks > MOST_LOOKS // 2


def test_a_thousand_parts_from_the_other_end_are_answered_with_their_mistakes():
    """However long the list: no depth of the machine's own stands in the way."""
    wanted = [f"part-{i}" for i in range(1000)]
    line = list(wanted)
    del line[200]
    line.insert(402, line.pop(400))
    line[600], line[601] = line[601], line[600]
    line.insert(800, "washer")
    least, *_ = explanations(reference(" ".join(wanted)), found(" ".join(line[::-1])))
    assert {"entered_from_other_end", "missing", "extra"} < {f.kind for f in least.findings}
    assert len(least.findings) == 5
