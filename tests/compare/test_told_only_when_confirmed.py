"""What the witness does not rebuild is passed over where it rebuilds another; slips of many kinds; what the counts leave unseen."""

from random import Random

import pytest

from stackcheck.compare import explanations, replay, same_arrangement, slips
from tests.builders import found, reference
from tests.referee.cases import random_case
from tests.referee.fleet import far_apart, fleet, recovered, trials


def test_a_member_nobody_entered_on_which_two_slips_disagree_leaves_the_other_explanation():
    """Two swaps would have the leg stand on both sides of the washer; one swap in a list from the other end does not."""
    rng = Random("32/8511")
    places, mistakes = rng.randint(2, 8), rng.choice((0, 1, 1, 2, 2, 3))
    ref, list_, _ = random_case(rng, places=places, mistakes=mistakes)
    least = explanations(ref, list_)[0]
    assert [f.kind for f in least.findings] == ["swapped", "entered_from_other_end"]
    assert (least.price, least.proved_least) == (200, True)
    assert same_arrangement(ref, replay(ref, least, list_), least.line)


@pytest.mark.parametrize("seed, number", [(1, 84), (3, 25), (3, 120)])
def test_slips_of_many_kinds_on_a_shipped_reference_are_told_at_no_more_than_planted(seed, number):
    """Moved one by one the parts of these lists cost half as much again, and one answer was not rebuilt."""
    ((_, ref, list_, planted),) = trials(seed, number + 1, first=number)
    least = explanations(ref, list_)[0]
    assert least.price <= planted
    assert same_arrangement(ref, replay(ref, least, list_), least.line)


def test_slips_far_apart_are_told_as_planted():
    references = fleet()
    for trial in range(12):
        _, ref = references[trial * 5 % len(references)]
        assert list(recovered(ref, *far_apart(Random(f"few/{trial}"), ref))) == []


def test_when_no_more_slips_may_be_tried_the_answer_is_not_called_proved(monkeypatch):
    """The count bounds the work; what it leaves unseen is never claimed."""
    wanted, list_ = reference("a b c d e f g h"), found("a g e f b c d h")
    monkeypatch.setattr(slips, "MOST_SLIPS_TRIED", 5)
    cut = explanations(wanted, list_)[0]
    monkeypatch.undo()
    whole = explanations(wanted, list_)[0]
    assert whole.proved_least and whole.price <= cut.price
    assert not cut.proved_least and cut.bound <= whole.price
