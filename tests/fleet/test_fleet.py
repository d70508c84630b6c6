"""The shipped fleet: every reference is sound, closes, and says what the trade would want to know of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.formats.library import Library
from stackcheck.mechanics.chain import loops, stack_sum
from stackcheck.model.caution import BANK
from stackcheck.model.machine import MACHINE_FILE

LIBRARY = Library(Path(__file__).parent.parent.parent / "reference_assemblies")
SMALLEST_FLEET = 12


@pytest.fixture(scope="module", params=list(LIBRARY.files))
def reference(request):
    return LIBRARY.reference(request.param)


def everything():
    return [LIBRARY.reference(id) for id in LIBRARY.files]


def test_the_fleet_holds_five_machines_each_with_its_own_file_and_assemblies():
    assert len(LIBRARY.machines) == 5
    assert len(LIBRARY.files) >= SMALLEST_FLEET
    assert {id.partition("/")[0] for id in LIBRARY.files} == {machine.id for machine in LIBRARY.machines}
    for machine in LIBRARY.machines:
        assert machine.points, machine.id
        assert (LIBRARY.folder / machine.id / MACHINE_FILE).exists()


def test_every_file_opens_by_saying_what_it_is_and_how_it_is_held_together():
    for path in LIBRARY.files.values():
        opening = [line for line in path.read_text(encoding="utf-8").partition("\n\n")[0].splitlines()]
        assert len(opening) >= 3 and all(line.startswith("# ") for line in opening), path


def test_every_gap_with_limits_closes_in_the_worst_case(reference):
    """A gap that a nut sets when it is fitted is measured, never added up: it has nothing to close."""
    summed = [state for state in loops(reference) if state.verdict != "no limits" and not state.loop.set_by]
    assert [state.loop.name for state in summed if state.verdict != "agrees"] == []
    assert all(state.gap is not None for state in summed)


def test_every_loop_is_one_that_somebody_meant(reference):
    """Two stacks that share two places enclose a loop; one without a named gap would be an accident of the file."""
    assert [loop.name for loop in reference.loops if not loop.stated] == []


def test_every_limit_names_its_source(reference):
    assert all(limit.source for limit in (*reference.limits, *reference.pairings))
    assert all(gap.source for stack in reference.stacks for gap in stack.gaps if gap.least_mm is not None)


def test_pairings_hold_between_the_limits_of_their_two_sizes(reference):
    for pairing in reference.pairings:
        outer = reference.part(pairing.outer[0]).size(pairing.outer[1])
        inner = reference.part(pairing.inner[0]).size(pairing.inner[1])
        assert pairing.least_mm - 1e-9 <= outer.low_mm - inner.high_mm, pairing.what
        assert outer.high_mm - inner.low_mm <= pairing.most_mm + 1e-9, pairing.what


def test_a_part_with_a_feature_says_at_each_place_where_it_points(reference):
    silent = [place.name for place in reference.places if reference.part_at(place.name).feature and not place.facing]
    assert silent == []


def test_single_direction_bearings_always_have_a_wanted_facing(reference):
    kinds = {"angular bearing", "taper bearing"}
    assert all(place.facing for place in reference.places if reference.part_at(place.name).kind in kinds)


def test_the_two_of_an_unequal_pair_name_each_other(reference):
    for part in reference.parts:
        for duty in part.duties:
            if duty.name == "pair":
                partner = reference.part(duty.detail)
                assert part.id in [other.detail for other in partner.duties if other.name == "pair"]


def test_sizes_that_must_be_measured_have_limits(reference):
    assert all(part.size(name).has_limits for part in reference.parts for name in part.must_measure)


def test_every_caution_is_one_of_the_bank(reference):
    assert set(reference.cautions) <= set(BANK)


KINDS_OF_ASSEMBLY = {
    "through axle with spacer tube": lambda r: (
        "axle" in kinds(r) and "spacer tube" in kinds(r) and "collar" in kinds(r)
    ),
    "taper hub with castellated nut and split pin": lambda r: {"taper bearing", "hub", "split pin"} <= kinds(r),
    "steering head": lambda r: any(part.has_duty("steering") for part in r.parts),
    "pump seal with its working length": lambda r: any(loop.name == "seal working length" for loop in r.loops),
    "back-to-back pair of angular bearings": lambda r: facings(r, "angular bearing") == ["second", "first"],
    "clutch pack of six and six plates": lambda r: count(r, "friction plate") == count(r, "steel plate") == 6,
    "pinion with a counted shim pack": lambda r: any(
        p.count > 1 and r.part_at(p.name).kind == "shim ring" for p in r.places
    ),
    "disc springs, each with its facing": lambda r: len(facings(r, "disc spring")) == 6,
    "shaft held by circlips": lambda r: count(r, "circlip") >= 3,
    "grinder arbor with hollow flanges": lambda r: "wheel" in kinds(r) and len(facings(r, "flange")) == 4,
    "sizes in inches": lambda r: units(r) == {"in"},
    "inch and millimetre in one file": lambda r: units(r) == {"in", "mm"},
    "a place that may be absent": lambda r: any(place.may_be_absent for place in r.places),
    "a unit that may stay closed": lambda r: bool(r.units),
    "accepted alternates": lambda r: any(part.accepts for part in r.parts),
    "look-alikes": lambda r: any(part.has_duty("look-alike") for part in r.parts),
    "a draft": lambda r: r.source.is_draft,
    "known from a parts picture": lambda r: r.source.kind == "parts picture",
    "known from an own record": lambda r: r.source.kind == "own record",
}


def kinds(reference) -> set[str]:
    return {part.kind for part in reference.parts}


def count(reference, kind: str) -> int:
    return sum(reference.part_at(place.name).kind == kind for place in reference.places)


def units(reference) -> set[str]:
    texts = [size.text for part in reference.parts for _, size in part.sizes]
    return {unit for unit in ("in", "mm") if any(f" {unit}" in text for text in texts)}


def facings(reference, kind: str) -> list[str]:
    return [reference.place(name).facing for name in reference.line if reference.part_at(name).kind == kind]


@pytest.mark.parametrize("wanted", KINDS_OF_ASSEMBLY)
def test_the_fleet_has_one(wanted):
    assert any(KINDS_OF_ASSEMBLY[wanted](reference) for reference in everything())


def test_the_clutch_travel_is_the_drum_less_its_pack_worked_by_hand():
    """32.80 - (6 x 1.60 + 6 x 2.40 + 5.00 + 3.00) = 0.80; worst case 0.02 + 12 x 0.01 + 0.01 + 0.02 = 0.17 either way."""
    (state,) = loops(LIBRARY.reference("orchard-tractor/clutch-pack"))
    assert (state.gap.least_mm, state.gap.most_mm) == pytest.approx((0.63, 0.97))


def test_the_seal_works_at_the_length_that_shaft_plate_and_seat_give_it():
    """48.5 - (12.0 + 8.0) = 28.5; worst case 0.1 + 0.05 + 0.1 = 0.25 either way."""
    state = next(
        state
        for state in loops(LIBRARY.reference("bilge-pump/seal-and-impeller"))
        if state.loop.name == "seal working length"
    )
    assert (state.gap.least_mm, state.gap.most_mm) == pytest.approx((28.25, 28.75))


def test_the_axle_stack_of_the_front_hub_is_126_long():
    """18 + 14 + 58 + 14 + 22."""
    reference = LIBRARY.reference("freight-tricycle/front-hub")
    inside = [
        reference.part(id).size("length").nominal_mm
        for id in ("collar-short", "bearing", "spacer-tube", "bearing", "collar-long")
    ]
    assert sum(inside) == stack_sum(reference, "axle stack").total.nominal_mm == 126.0
