"""Gaps as found: which reading decides, what the limits say, and when nobody has looked."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.chain import as_found_loops, as_found_sum, loops
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loops import against
from stackcheck.model.finding import Missing, Standing
from stackcheck.model.found import Measured
from stackcheck.model.part import Reading
from stackcheck.model.reference import Gap
from stackcheck.value import replace
from tests.builders import found, reading, reference
from tests.mechanics.small import axle_hub, explained, mirrored

WHOLE = {"spacer": 1}


def seat_gap(as_found, *, entries=WHOLE, hub=None):
    ref = hub or axle_hub()
    states = as_found_loops(ref, as_found, explained(ref, entries=entries))
    return next(state for state in states if state.loop.name == "seat gap")


def figures(interval: Interval) -> tuple[float, float, float]:
    return tuple(round(value, 6) for value in (interval.nominal_mm, interval.least_mm, interval.most_mm))


def test_a_reading_takes_the_place_of_the_limits():
    """58.00 ± 0.01 less 57.95 ± 0.02."""
    state = seat_gap(found("spacer/length=58.00±0.01"))
    assert (figures(state.gap), state.verdict) == ((0.05, 0.02, 0.08), "agrees")
    assert state.as_measured.largest.name == "hub"


def test_a_spacer_that_may_be_too_short_cannot_be_told():
    """57.96 ± 0.03 less 57.95 ± 0.02: -0.04 to 0.06, allowed 0 to 0.1."""
    state = seat_gap(found("spacer/length=57.96±0.03"))
    assert (figures(state.gap), state.verdict) == ((0.01, -0.04, 0.06), "cannot tell")


def test_a_spacer_that_is_too_short_whatever_the_hub_measures_differs():
    assert seat_gap(found("spacer/length=57.80±0.03")).verdict == "differs"


def test_nothing_measured_is_not_looked_at():
    """The reference closes, but nobody knows whether this machine does."""
    state = seat_gap(found("spacer"))
    assert (figures(state.gap), state.verdict, state.as_measured) == ((0.05, 0.01, 0.09), "not looked at", None)


@pytest.mark.parametrize("how", ["marking", "drawing", "guess"])
def test_a_width_read_off_a_marking_is_no_measurement(how):
    """It leaves the limits of the reference where they are, and the gap as unseen as before."""
    marked = replace(found("spacer").entry(1), sizes=(("length", reading(58.0, 0.001, how)),))
    state = seat_gap(replace(found("spacer"), entries=(marked,)))
    assert (figures(state.gap), state.verdict) == ((0.05, 0.01, 0.09), "not looked at")


def test_a_marked_size_that_is_another_one_moves_the_limits_with_it():
    """A tube marked 57.5 is some 0.02 either side of that; the gap is -0.45, from -0.49 to -0.41."""
    marked = replace(found("spacer").entry(1), sizes=(("length", reading(57.5, 0.0, "marking")),))
    assert figures(seat_gap(replace(found("spacer"), entries=(marked,))).gap) == (-0.45, -0.49, -0.41)


def test_a_part_that_is_not_there_makes_a_gap_that_was_looked_at():
    ref = axle_hub()
    line = tuple(standing for standing in explained(ref).line if standing.home != "spacer")
    states = as_found_loops(ref, found(""), explained(ref, Missing(places=("spacer",)), line=line))
    verdicts = {state.loop.name: state.verdict for state in states}
    assert verdicts == {"seat gap": "differs", "free gap": "differs"}


def test_a_missing_bearing_leaves_its_loop_without_an_answer_and_says_what_is_needed():
    ref = axle_hub()
    line = tuple(standing for standing in explained(ref).line if standing.home != "bearing@right")
    states = as_found_loops(ref, found("spacer/length=58.00±0.01"), explained(ref, line=line))
    state = next(state for state in states if state.loop.name == "seat gap")
    assert (state.gap, state.verdict, state.needs) == (None, "cannot tell", ("the right bearing in its place",))


@pytest.mark.parametrize(
    "feeler, verdict", [((0.05, 0.02), "agrees"), ((0.2, 0.02), "differs"), ((0.09, 0.02), "cannot tell")]
)
def test_a_gap_that_was_measured_decides_before_any_sum(feeler, verdict):
    """The sum says 57.80 - 57.95, an overlap; a feeler between the faces knows better, and the sum stands beside it."""
    as_found = replace(
        found("spacer/length=57.80±0.02"), measured=(Measured(gap="seat gap", reading=reading(*feeler, "feeler")),)
    )
    state = seat_gap(as_found)
    assert (state.measured.value_mm, state.verdict) == (feeler[0], verdict)
    assert figures(state.gap) == (-0.15, -0.19, -0.11)


@pytest.mark.parametrize(
    "feeler, contradicted", [((0.05, 0.02), True), ((-0.1, 0.02), False), ((-0.08, 0.03), False), ((-0.3, 0.02), True)]
)
def test_a_measured_gap_that_the_parts_cannot_leave_is_told_as_a_contradiction(feeler, contradicted):
    """By the parts -0.19 to -0.11; a reading that reaches into that contradicts nothing."""
    as_found = replace(
        found("spacer/length=57.80±0.02"), measured=(Measured(gap="seat gap", reading=reading(*feeler, "feeler")),)
    )
    assert seat_gap(as_found).contradicted is contradicted


def test_the_finest_of_several_measurements_counts():
    readings = (reading(0.2, 0.1, "calliper"), reading(0.05, 0.01, "feeler"), reading(0.09, 0.0, "guess"))
    as_found = replace(found("spacer"), measured=tuple(Measured(gap="seat gap", reading=each) for each in readings))
    assert seat_gap(as_found).measured.how == "feeler"


def test_a_length_taken_on_the_assembly_counts_like_one_taken_on_the_part():
    """Seat to seat by depth gauge 57.97 ± 0.01, tube 58.00 ± 0.01."""
    depth = Measured(place="hub", size="length", reading=reading(57.97, 0.01, "depth gauge"))
    state = seat_gap(replace(found("spacer/length=58.00±0.01"), measured=(depth,)))
    assert (figures(state.gap), state.verdict) == ((0.03, 0.01, 0.05), "agrees")


def test_a_marking_on_the_part_or_a_guess_hides_no_measurement_of_its_place():
    """The tube is marked 58, somebody guessed 58.5, and it was measured between the bearings: 57.99 ± 0.01."""
    marked = replace(found("spacer").entry(1), sizes=(("length", reading(58.0, 0.0, "marking")),))
    taken = (reading(58.5, 0.0, "guess"), reading(57.99, 0.01, "calliper"))
    there = tuple(Measured(place="spacer", size="length", reading=each) for each in taken)
    state = seat_gap(replace(found("spacer"), entries=(marked,), measured=there))
    assert (figures(state.gap), state.verdict) == ((0.04, 0.01, 0.07), "agrees")


gaps = st.tuples(*[st.integers(-64, 64)] * 2).map(
    lambda ends: Interval(nominal_mm=sum(ends) / 128, least_mm=min(ends) / 64, most_mm=max(ends) / 64)
)
bounds = st.none() | st.integers(-64, 64).map(lambda figure: figure / 64)


@given(gaps, bounds, bounds)
def test_a_verdict_holds_for_every_gap_in_the_interval(gap, least, most):
    """Sure only where every possible gap says the same; a limit that is not given allows everything on its side."""
    allowed = [
        (least is None or least <= at) and (most is None or at <= most)
        for at in (gap.least_mm + share * (gap.most_mm - gap.least_mm) / 64 for share in range(65))
    ]
    verdict = against(gap, (least, most))
    if verdict == "agrees":
        assert all(allowed)
    elif verdict == "differs":
        assert not any(allowed)
    if least is None or most is None:
        assert verdict == ("agrees" if all(allowed) else "cannot tell" if any(allowed) else "differs")


def test_limits_are_kept_on_both_sides_to_the_last_bit_of_decimal_figures():
    """0.1 + 0.2 is above 0.3 in binary arithmetic and must touch a limit of 0.3 all the same."""
    assert against(Interval(nominal_mm=0.1 + 0.2, least_mm=0.1 + 0.2, most_mm=0.1 + 0.2), (None, 0.3)) == "agrees"


def test_a_loop_is_the_same_from_the_other_side():
    own = {state.loop.name: figures(state.gap) for state in loops(axle_hub())}
    assert own == {"seat gap": (0.05, 0.01, 0.09), "free gap": (3.2, 2.88, 3.76)}
    assert {state.loop.name: figures(state.gap) for state in loops(mirrored(axle_hub()))} == own


def test_bearings_that_both_paths_share_add_only_how_far_their_inner_rings_stand_out():
    """Both inner rings stand 0.10 out of their outer rings, away from the tube: 58.00 - 57.95 - 2 x 0.10 = -0.15.

    `inner_standout` is toward the first end, at the first place of the part; the right bearing faces the other way.
    """
    ref = axle_hub(bearing={"length": (14.0,), "inner_standout": (0.1,)})
    facing = {"bearing@left": "first", "bearing@right": "second"}
    ref = replace(
        ref, places=tuple(replace(place, facing=facing.get(place.name, place.facing)) for place in ref.places)
    )
    state = next(state for state in loops(ref) if state.loop.name == "seat gap")
    assert figures(state.gap)[0] == -0.15


def test_the_standout_of_a_bearing_turned_round_is_on_its_other_side():
    ref = axle_hub(bearing={"length": (14.0,), "inner_standout": (0.1,)})
    own = next(state for state in loops(ref) if state.loop.name == "seat gap")
    assert figures(own.gap)[0] == 0.05  # -0.1 on the left, +0.1 on the right
    line = tuple(replace(s, turned=True) if s.home == "bearing@left" else s for s in explained(ref).line)
    state = next(s for s in as_found_loops(ref, found(""), explained(ref, line=line)) if s.loop.name == "seat gap")
    assert figures(state.gap)[0] == 0.25


def test_an_extra_that_may_lie_in_either_stack_makes_the_gap_wide_and_says_what_would_settle_it():
    """A ring 0.5 thick of unknown diameters behind the left bearing: in the tube's path or in the hub's."""
    ref = axle_hub()
    line = list(explained(ref).line)
    spot = next(i for i, standing in enumerate(line) if standing.home == "bearing@left")
    as_found = found("?ring/length=0.5±0.01")
    believed = explained(ref, line=(*line[: spot + 1], Standing(entry=1), *line[spot + 1 :]))
    state = next(s for s in as_found_loops(ref, as_found, believed) if s.loop.name == "seat gap")
    assert figures(state.gap) == (0.05, -0.5, 0.6)
    assert state.verdict == "cannot tell"
    assert "bore and outside diameter of entry 1" in " ".join(state.needs)


@pytest.mark.parametrize(
    "typed, standing, length",
    [
        (
            "shim*3/length=0.5±0.01",
            3,
            (1.5, 1.47, 1.53),
        ),  # one piece was measured: three times the reading and its offset
        ("shim*3/length=1.5±0.01", 3, (1.5, 1.49, 1.51)),  # the pack was measured: once
        ("shim*3/length=1.5±0.03", 2, (1.0, 0.98, 1.02)),  # two of that pack
    ],
)
def test_a_reading_of_equal_pieces_is_of_one_or_of_the_pack_whichever_it_is_nearer_to(typed, standing, length):
    ref = reference("shim*3 cap", sizes={"shim": {"length": (0.5, 0.49, 0.51)}, "cap": {"length": (4.0,)}})
    line = (Standing(entry=1, part="shim", home="shim", count=standing), Standing(part="cap", home="cap"))
    total = as_found_sum(ref, found(typed), explained(ref, line=line), "stack 1")
    assert figures(total.terms[0].interval) == pytest.approx(length)


def test_a_reading_without_limits_in_the_reference_is_as_good_as_any():
    ref = axle_hub(spacer={})
    read = Reading(text="58.00", value_mm=58.0, good_to_mm=0.01, how="micrometer")
    as_found = replace(found("spacer"), entries=(replace(found("spacer").entry(1), sizes=(("length", read),)),))
    assert seat_gap(as_found, hub=ref).verdict == "agrees"
    assert seat_gap(found("spacer"), hub=ref).needs == ("length of spacer",)


def test_the_room_behind_a_step_of_a_bolt_is_the_line_less_its_shank():
    """As references.md has it: 8 + 90 + 8 under the head, the step 102 under it: 4 to the washer, of which 1 is wanted."""
    sizes = {
        "bolt": {"length": (7.5,)},
        "plate": {"length": (8.0,)},
        "ring": {"length": (90.0,)},
        "step": {"length": (102.0,)},
        "washer": {"length": (2.5,)},
    }
    plain = reference("bolt plate@left! ring plate@right! washer", "bolt step! washer", sizes=sizes)
    line, own = plain.stacks
    room = Gap(name="room", least_mm=1.0, source="the bench")
    own = replace(own, items=(*own.items[:-1], room, own.items[-1]))
    (state,) = loops(replace(plain, stacks=(line, own)))
    assert (state.loop.name, state.gap.nominal_mm, state.verdict) == ("room", 4.0, "agrees")
