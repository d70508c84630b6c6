"""Laws of adding lengths: worst case, openable sums, and what exchanging, adding and taking away does to them."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.chain import as_found_sum, distance, stack_sum
from stackcheck.mechanics.effects import effect
from stackcheck.mechanics.lengths import Interval, total_of
from stackcheck.mechanics.sums import stack_lengths
from stackcheck.model.finding import CountDiffers, Extra, Missing, Swapped
from stackcheck.model.found import Found
from tests.builders import found, reference
from tests.mechanics.small import axle_hub, explained, limits, mirrored, row, rows

NOTHING = Found(reference="bench/stack", revision="A", entries=())


def interval(size: tuple[float, float, float]) -> Interval:
    return Interval(nominal_mm=size[0], least_mm=size[1], most_mm=size[2])


intervals = limits().map(interval)


def inside(value: float, interval: Interval) -> bool:
    return interval.least_mm <= value <= interval.most_mm


def test_a_spring_without_a_length_fills_its_room_and_the_parts_beside_it_are_added_up():
    """Nothing is missing: how long it is when fitted is what the others leave it; limits that nobody gives are ±0.1."""
    own = reference(
        "seat head spring ring", sizes={"seat": {"length": (9, 8.9, 9.1)}, "head": {"length": (12, 11.9, 12.1)},
                                        "spring": {"free_length": (40,)}, "ring": {"length": (3,)}},
    )  # fmt: skip
    told = stack_sum(own, "stack 1")
    assert (told.total, told.needs, told.fills) == (None, (), ("spring",))
    assert told.beside_them == interval((24, 23.7, 24.3)) and told.spread is None


def test_a_bush_in_the_bore_of_its_wheel_is_not_added_up_beside_it():
    """It lies inside the length of the wheel; beside a washer that it bears on it counts."""
    sizes = {each: {"length": (20,)} for each in ("wheel", "bush", "washer")}
    own = reference("wheel bush", "washer bush", sizes=sizes)
    assert (stack_sum(own, "stack 1").total, stack_sum(own, "stack 1").passing) == (None, "bush")
    assert stack_sum(own, "stack 2").total.nominal_mm == 40


def test_another_length_that_nobody_gave_beside_a_spring_is_needed_still():
    told = stack_sum(reference("seat spring ring", sizes={"ring": {"length": (3,)}}), "stack 1")
    assert (told.needs, told.fills, told.beside_them) == (("length of seat",), ("spring",), None)


@given(st.data(), st.lists(st.tuples(st.sampled_from([1, -1]), intervals), min_size=1, max_size=8))
def test_the_worst_case_holds_every_sum_of_lengths_within_their_limits_and_is_reached(data, signed):
    total = Interval.exactly(0.0)
    for sign, one in signed:
        total = total + one if sign > 0 else total - one
    drawn = [(sign, one, data.draw(st.integers(0, 4)) / 4) for sign, one in signed]
    assert inside(sum(sign * (one.least_mm + at * (one.most_mm - one.least_mm)) for sign, one, at in drawn), total)
    assert total.most_mm == sum(one.most_mm if sign > 0 else -one.least_mm for sign, one in signed)
    assert total.least_mm == sum(one.least_mm if sign > 0 else -one.most_mm for sign, one in signed)


@given(intervals, st.integers(1, 9), st.data())
def test_as_many_pieces_and_a_piece_that_counts_or_not_hold_what_they_stand_for(one, pieces, data):
    single = data.draw(st.sampled_from([one.least_mm, one.middle_mm, one.most_mm]))
    assert inside(pieces * single, one.times(pieces))
    assert inside(single, one.or_nothing()) and inside(0.0, one.or_nothing())


@given(rows())
def test_a_sum_is_its_terms_and_its_terms_are_the_parts_in_their_sequence(lengths):
    total = stack_sum(row(lengths), "stack 1")
    assert total.total == total_of(total.terms)
    assert [term.interval for term in total.terms] == [interval(size) for size in lengths]


@given(rows())
def test_a_stack_is_as_long_as_the_steps_from_face_to_face_along_it(lengths):
    ref = row(lengths)
    names = [f"{place}/left" for place in ref.line] + [f"{ref.line[-1]}/right"]
    steps = [distance(ref, a, b).total.nominal_mm for a, b in pairwise(names)]
    assert sum(steps) == stack_sum(ref, "stack 1").total.nominal_mm


@given(rows(), st.data())
def test_exchanging_two_parts_changes_no_total(lengths, data):
    ref = row(lengths)
    one, other = sorted(data.draw(st.lists(st.integers(0, len(lengths) - 1), min_size=2, max_size=2, unique=True)))
    believed = list(explained(ref).line)
    believed[one], believed[other] = believed[other], believed[one]
    swap = Swapped(places=(ref.line[one], ref.line[other]))
    assert (
        as_found_sum(ref, NOTHING, explained(ref, swap, line=tuple(believed)), "stack 1").total
        == stack_sum(ref, "stack 1").total
    )
    assert effect(ref, NOTHING, swap).changes == ()


@given(rows(), st.integers(0, 5), st.integers(1, 640))
def test_an_extra_lengthens_the_stacks_it_lies_in_by_its_length_and_no_others(lengths, spot, sixty_fourths):
    """Two stacks that share nothing but their ends: the extra lies between two neighbours of the first."""
    long = sixty_fourths / 64
    spot %= len(lengths) - 1
    names = [f"ring-{number}" for number in range(len(lengths))]
    sizes = {name: {"length": size, "bore": (20.0,), "outside": (30.0,)} for name, size in zip(names, lengths)}
    sizes["case"] = {"length": (50.0,), "bore": (40.0,), "outside": (60.0,)}
    ref = reference(" ".join(["leg@left!", *names, "leg@right!"]), "leg@left! case! leg@right!", sizes=sizes)
    as_found = found(f"?washer/length={long}±0/bore=20±0/outside=30±0")
    changes = effect(ref, as_found, Extra(entries=(1,), after=names[spot], before=names[spot + 1])).changes
    assert [(change.stack, change.change) for change in changes] == [("stack 1", Interval.exactly(long))]


@given(rows(), st.data())
def test_a_part_left_out_shortens_its_stack_by_its_length(lengths, data):
    ref = row(lengths)
    gone = data.draw(st.integers(0, len(lengths) - 1))
    (change,) = effect(ref, NOTHING, Missing(places=(ref.line[gone],))).changes
    assert change.change == -interval(lengths[gone])
    line = tuple(standing for standing in explained(ref).line if standing.home != ref.line[gone])
    believed = as_found_sum(ref, NOTHING, explained(ref, line=line), "stack 1").total
    assert believed == stack_sum(row(lengths[:gone] + lengths[gone + 1 :]), "stack 1").total


@given(rows())
def test_a_stack_is_as_long_from_the_other_side(lengths):
    assert stack_sum(mirrored(row(lengths)), "stack 1").total == stack_sum(row(lengths), "stack 1").total


def test_a_stack_with_an_unknown_length_is_as_much_shorter_as_what_is_gone():
    """Told that no stack changes, somebody would look no further for the shim that is gone."""
    ref = reference("ring*2 nut", sizes={"ring": {"length": (0.4,)}})
    gone = CountDiffers(places=("ring",), found=1, wanted=2)
    assert [
        (change.stack, round(change.change.nominal_mm, 6)) for change in effect(ref, found("ring*1 nut"), gone).changes
    ] == [("stack 1", -0.4)]


def test_one_of_two_pieces_of_unknown_length_leaves_a_change_that_cannot_be_told():
    ref = reference("ring*2 nut", sizes={"nut": {"length": (8.0,)}})
    gone = CountDiffers(places=("ring",), found=1, wanted=2)
    assert [(change.stack, change.change) for change in effect(ref, found("ring*1 nut"), gone).changes] == [
        ("stack 1", None)
    ]


def test_nothing_is_added_up_where_a_bolt_only_says_what_it_bears_on():
    """Bolt and washer are no length of anything: the bolt reaches through all the others."""
    sizes = {"bolt": {"length": (125.0,)}, "washer": {"length": (2.5,)}, "ring": {"length": (6.0,)}}
    ref = reference("washer ring", "bolt washer", sizes=sizes)
    assert [(stack_sum(ref, stack.name).total is None, stack_sum(ref, stack.name).passing) for stack in ref.stacks] == [
        (False, ""),
        (True, "bolt"),
    ]
    assert [change.stack for change in effect(ref, NOTHING, Missing(places=("washer",))).changes] == ["stack 1"]


def test_a_difference_counts_only_what_differs_even_where_a_length_is_not_known():
    """The shaft has no length: nobody can add up the stack, but the ring that is gone is known."""
    wanted = as_wanted(
        reference("nut ring shaft", sizes={"nut": {"length": (8.0,)}, "ring": {"length": (2.0, 2.0, 2.0)}})
    )
    without = as_wanted(reference("nut shaft", sizes={"nut": {"length": (8.0,)}}))
    ours, theirs = stack_lengths(without, "stack 1")[0], stack_lengths(wanted, "stack 1")[0]
    assert ours.total is None and ours.needs == ("length of shaft",)
    assert ours.less(theirs).total == Interval.exactly(-2.0)


def test_of_packs_that_differ_in_count_only_the_pieces_over_differ():
    """The third gasket is 0.13 to 0.17 thick; the two below it are the same two, whatever they measure."""
    sizes = {"gasket": {"length": (0.15, 0.13, 0.17)}}
    two, three = (as_wanted(reference(f"cover gasket*{count} bracket", sizes=sizes)) for count in (2, 3))
    ours, theirs = stack_lengths(three, "stack 1")[0], stack_lengths(two, "stack 1")[0]
    gasket = Interval(nominal_mm=0.15, least_mm=0.13, most_mm=0.17)
    assert (ours.less(theirs).total, theirs.less(ours).total) == (gasket, -gasket)


@pytest.mark.parametrize(
    "line, between, length",
    [
        (
            "nut leg@left! ring cap leg@right! washer",
            ("leg@left", "leg@right"),
            6.0,
        ),  # outside the legs is outside the sum
        ("washer leg! ring cap", ("leg", ""), 6.0),  # one face: to the end that has more places
        ("cap ring leg! washer", ("", "leg"), 6.0),
        ("nut ring cap", ("", ""), 16.0),  # no face: all of it
        (
            "leg@left! ring body! cap leg@right!",
            ("leg@left", "leg@right"),
            56.0,
        ),  # a fixed part with a length is a member
    ],
)
def test_a_stack_is_summed_between_its_outermost_faces(line, between, length):
    """A face is a fixed member that has no length of its own."""
    lengths = {"nut": 10.0, "washer": 3.0, "ring": 2.0, "cap": 4.0, "body": 50.0}
    ref = reference(line, sizes={name: {"length": (size,)} for name, size in lengths.items() if name in line})
    total = stack_sum(ref, "stack 1")
    assert (total.between, total.total.nominal_mm) == (between, length)


def test_a_missing_length_is_named_and_leaves_no_total():
    total = stack_sum(reference("leg@left! ring cap leg@right!", sizes={"ring": {"length": (2.0,)}}), "stack 1")
    assert (total.total, total.needs) == (None, ("length of cap",))


def test_ring_widths_count_before_the_length_in_the_stack_of_their_ring():
    """A taper bearing: the inner ring 20 wide, the outer 16, both together 21."""
    ref = axle_hub(bearing={"length": (21.0,), "inner_width": (20.0,), "outer_width": (16.0,)})
    assert stack_sum(ref, "axle stack").total.nominal_mm == 18 + 20 + 58 + 20 + 22
    assert stack_sum(ref, "hub stack").total.nominal_mm == pytest.approx(7 + 16 + 57.95 + 16 + 7)


def test_equal_pieces_count_as_often_as_they_stand_there():
    ref = reference(
        "ring shim*4 cap",
        sizes={
            "ring": {"length": (2.0, 2.0, 2.0)},
            "shim": {"length": (0.5, 0.25, 0.75)},
            "cap": {"length": (4.0, 4.0, 4.0)},
        },
    )
    assert stack_sum(ref, "stack 1").total == Interval(nominal_mm=8.0, least_mm=7.0, most_mm=9.0)
