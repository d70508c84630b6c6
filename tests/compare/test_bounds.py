"""What is told of the least price never exceeds it: neither the bound of an answer nor the one taken before any search."""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stackcheck.compare import explanations, parted
from stackcheck.compare.prices import end_for_end
from stackcheck.compare.search import Search
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from tests.builders import found, reference
from tests.referee import least_price
from tests.referee.cases import random_case

LONG = [f"part-{i}" for i in range(50)]
FACING = ("", "<", ">")


@st.composite
def cases(draw, places: tuple[int, int], mistakes: int):
    rng = Random(draw(st.integers(0, 10**6)))
    return random_case(rng, places=rng.randint(*places), mistakes=rng.randint(1, mistakes))


def told_before_any_search(reference: Reference, found: Found) -> int:
    """The bound of the cheapest way to read the list."""
    search = Search(reference, found)
    return min(
        typed.price + parted.least_price(search.spots, search.identity, search._sides(typed))
        for typed in search._ways()
    )


@settings(max_examples=60, deadline=None, derandomize=True)
@given(cases((2, 7), 3))
def test_no_bound_that_is_told_exceeds_the_price_of_the_referee(case):
    ref, list_, _ = case
    assert explanations(ref, list_)[0].bound <= least_price(ref, list_)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(cases((15, 30), 4))
def test_the_bound_from_parted_neighbours_never_exceeds_what_was_planted(case):
    ref, list_, planted = case
    assert told_before_any_search(ref, list_) <= planted


@pytest.mark.parametrize("start, end", [(0, 50), (4, 44), (10, 32), (0, 16)])
def test_a_long_run_turned_end_for_end_is_one_slip_by_either_measure(start, end):
    """Every pair of neighbours in it stands the other way round, which is no more than one slip."""
    line = [*LONG[:start], *reversed(LONG[start:end]), *LONG[end:]]
    wanted, list_ = reference(" ".join(LONG)), found(" ".join(line))
    assert told_before_any_search(wanted, list_) <= end_for_end(end - start)
    least = explanations(wanted, list_)[0]
    if (start, end) == (0, 50):
        assert [f.kind for f in least.findings] == ["entered_from_other_end"]
    else:
        assert (least.price, [f.kind for f in least.findings]) == (end_for_end(end - start), ["run_end_for_end"])


def test_members_that_nobody_enters_part_no_neighbours():
    wanted = reference(" ".join([*LONG[:10], "leg@1! leg@2! cap?", *LONG[10:20]]))
    assert told_before_any_search(wanted, found(" ".join(LONG[:20]))) == 0


def test_what_was_not_reached_parts_no_neighbours():
    wanted = reference(" ".join(LONG))
    list_ = found(" ".join(LONG[:9]), " ".join(LONG[:-10:-1]), finished=False)
    assert told_before_any_search(wanted, list_) == 0
    assert explanations(wanted, list_)[0].findings == ()


def test_how_many_slips_all_other_pieces_need_does_not_depend_on_when_it_is_asked():
    """Asked in the middle of a search it was told of what was not placed yet alone, and far more lines were tried."""
    parts = [f"kind{i}" for i in range(50)]
    line = ["?" if part in ("kind9", "kind21", "kind33") else part for part in parts if part != "kind2"]
    line.insert(17, line.pop(15))
    line[27], line[28] = line[28], line[27]
    line.insert(39, "washer")
    wanted, list_ = reference(" ".join(parts)), found(" ".join(line))
    search, again = Search(wanted, list_), Search(wanted, list_)
    search.readings(margin=100)
    (typed, pairing), *_ = search.tried
    asked = dict(pairing._needed_without)
    fresh = again._pairing(typed)
    fresh.search(limit=0)
    assert asked and asked == {p: fresh._without(p) for p in asked}
