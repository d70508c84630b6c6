"""Laws that any referee must obey, on cases drawn at random: what changes nothing, and what was planted bounds the price."""

from __future__ import annotations

from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from stackcheck.model.found import Found
from stackcheck.model.reference import Reference, Stack
from stackcheck.value import replace
from tests.referee import least_price
from tests.referee.cases import random_case
from tests.referee.identity import place_price
from tests.referee.sides import OTHER_WAY, Wanted


@st.composite
def cases(draw, most_places: int = 6) -> tuple[Reference, Found, int]:
    rng = Random(draw(st.integers(0, 2**32)))
    return random_case(rng, places=rng.randint(2, most_places), mistakes=rng.choice((0, 1, 1, 2)))


law = settings(max_examples=60, deadline=None)


@law
@given(case=cases())
def test_what_was_planted_is_never_explained_at_a_higher_price(case):
    reference, found, planted = case
    assert least_price(reference, found) <= planted


@law
@given(case=cases())
def test_mirroring_list_and_reference_together_changes_nothing(case):
    reference, found, _ = case
    found = with_every_end_said(found)
    places = tuple(replace(place, facing=OTHER_WAY.get(place.facing, "")) for place in reference.places)
    stacks = tuple(Stack(name=stack.name, items=stack.items[::-1]) for stack in reference.stacks)
    entries = tuple(
        replace(
            entry, end=None if entry.end is None else 1 - entry.end, toward=OTHER_WAY.get(entry.toward, entry.toward)
        )
        for entry in found.entries
    )
    mirrored = replace(reference, places=places, stacks=stacks), replace(found, entries=entries)
    assert least_price(*mirrored) == least_price(reference, found)


def with_every_end_said(found: Found) -> Found:
    """A list without any end is read from the first end: mirrored, that must be said."""
    if any(entry.end is not None for entry in found.entries if not entry.is_loose):
        return found
    return replace(found, entries=tuple(replace(entry, end=0) for entry in found.entries))


@law
@given(case=cases(), random=st.randoms(use_true_random=False))
def test_relabelling_places_changes_nothing(case, random):
    """Neither names nor the sequence in which places, parts and stacks are written enter the comparison."""
    reference, found, _ = case
    names = [place.name for place in reference.places]
    other = dict(
        zip(names, random.sample([f"place {number}" for number in range(len(names))], len(names)), strict=True)
    )
    shuffled = replace(
        reference,
        parts=tuple(random.sample(reference.parts, len(reference.parts))),
        places=tuple(
            replace(place, name=other[place.name]) for place in random.sample(reference.places, len(reference.places))
        ),
        stacks=tuple(
            Stack(name=stack.name, items=tuple(other[name] for name in stack.places))
            for stack in random.sample(reference.stacks, len(reference.stacks))
        ),
    )
    assert least_price(shuffled, found) == least_price(reference, found)


@law
@given(case=cases())
def test_exchanging_neighbours_that_no_stack_orders_changes_nothing(case):
    reference, found, _ = case
    if len({replace(entry, number=0) for entry in found.entries}) < len(found.entries):
        return  # equal neighbours may be one entry typed twice
    price = least_price(reference, found)
    for at, (one, next_one) in enumerate(zip(found.entries, found.entries[1:], strict=False)):
        if one.end == next_one.end is not None and free(reference, found, one, next_one):
            entries = list(found.entries)
            entries[at : at + 2] = [replace(next_one, number=one.number), replace(one, number=next_one.number)]
            assert least_price(reference, replace(found, entries=tuple(entries))) == price


def free(reference: Reference, found: Found, one, next_one) -> bool:
    """Whether all places that the one may stand in are unordered to all places of the other."""
    wanted = Wanted(reference, found)
    spots = [[s for s in wanted.spots if place_price(reference, e, s.part) is not None] for e in (one, next_one)]
    return not any(wanted.lies_before(a, b) or wanted.lies_before(b, a) for a in spots[0] for b in spots[1])


@law
@given(case=cases())
def test_splitting_a_count_changes_nothing(case):
    reference, found, _ = case
    single = [replace(entry, count=1) for entry in found.entries for _ in range(entry.count)]
    if any(entry.tag or entry.sizes for entry in found.entries if entry.count > 1):
        return  # pieces split off would look like entries typed twice
    split = replace(found, entries=tuple(replace(entry, number=number) for number, entry in enumerate(single, 1)))
    assert least_price(reference, split) == least_price(reference, found)
