"""The referee worked by hand: every row of the price table, then the traps that a comparison falls into."""

from __future__ import annotations

import pytest

from stackcheck.value import replace
from tests.builders import clutch, found, hub, reading, reference
from tests.referee import least_account, least_price

EIGHT = reference("a b c d e f g h")
SPRINGS = reference("nut spring@1> spring@2< spring@3> spring@4< ring")
WASHERS = {"length": (2.0, 1.95, 2.05)}
SHIMS = reference("gear shim*3 bearing nut")

ONE_STACK = {
    "the same": ("a b c d e f g h", 0),
    "an extra part": ("a b x c d e f g h", 100),
    "a part missing": ("a b c d e f h", 100),
    "a part out of place": ("a c d e b f g h", 101),
    "two parts swapped": ("a f c d e b g h", 100),
    "two neighbours swapped, which is also a move of either": ("b a c d e f g h", 100),
    "a run of two moved": ("c d e a b f g h", 102),
    "a run of three moved past three, either run": ("a e f g b c d h", 103),
    "a run of two end for end, without faces, is a swap": ("a b d c e f g h", 100),
    "a run of three end for end, without faces, is a swap": ("a d c b e f g h", 100),
    "a run of four end for end": ("a b f e d c g h", 105),
    "a run of five end for end": ("a f e d c b g h", 106),
    "a swap and a move": ("b c d e f a h g", 201),
    "a move and a missing part": ("a c d e b f h", 201),
    "three swaps": ("b a d c f e g h", 300),
    "a run moves as neighbours although one of it is missing": ("d e f a c g h", 202),
    "entered from the other end": ("h g f e d c b a", 100),
    "entered from the other end, and one missing": ("h g f e d c a", 200),
}


@pytest.mark.parametrize("line, price", ONE_STACK.values(), ids=ONE_STACK)
def test_one_stack_of_parts_that_differ(line, price):
    assert least_price(EIGHT, found(line)) == price


FACES = reference("a> b> c> d> e<")
NUMBERED = reference(
    "a ring-b c ring-d",
    numbers={"ring-b": "N-1", "ring-d": "N-2"},
    accepts={"ring-b": ("N-9",)},
    sizes={"ring-b": {"length": (10.0, 9.95, 10.05)}, "ring-d": {"length": (12.0, 11.95, 12.05)}},
)

TABLE = {
    "turned round": (FACES, found("a> b< c> d> e<"), 100),
    "two neighbours turned round and swapped are a run end for end": (FACES, found("a> c< b< d> e<"), 103),
    "a run of three end for end with its faces": (FACES, found("a> d< c< b< e<"), 104),
    "a face nobody saw is not compared": (FACES, found("a b c> d e<"), 0),
    "a face is compared only where the place wants one": (EIGHT, found("a> b< c d e f g h"), 0),
    "out of place, turned and worn is rather another part, with an empty place for its number": (
        reference("a b> c d e f", sizes={"b": WASHERS}), found("a c d e f b</length=2.2"), 210),
    "another number of the same kind": (NUMBERED, found("a ?ring#N-7 c ring-d"), 100),
    "another kind is extra and missing": (NUMBERED, found("a ?pin#N-7 c ring-d"), 200),
    "an accepted number": (NUMBERED, found("a ?ring#N-9 c ring-d"), 5),
    "an unknown part": (NUMBERED, found("a ?ring c ring-d"), 10),
    "an unknown part of unknown kind": (NUMBERED, found("a ? c ring-d"), 10),
    "an unknown part of another kind": (NUMBERED, found("a ?pin c ring-d"), 200),
    "a guess that is right": (NUMBERED, found("a ring-b~ c ring-d"), 0),
    "a guess overruled": (NUMBERED, found("a ring-d~ c ring-d"), 40),
    "certain parts swapped": (NUMBERED, found("a ring-d c ring-b"), 100),
    "a size outside its limits": (NUMBERED, found("a ring-b/length=10.2±0.02 c ring-d"), 60),
    "a size that cannot tell": (NUMBERED, found("a ring-b/length=10.2±0.2 c ring-d"), 0),
    "a certain part far outside": (NUMBERED, found("a ring-b/length=11.0±0.02 c ring-d"), 60),
    "a guessed part far outside is another part": (NUMBERED, found("a ring-b~/length=11.0±0.02 c ring-d"), 100),
    "an unknown part far outside is another part": (NUMBERED, found("a ?ring/length=11.0±0.02 c ring-d"), 100),
    "an unknown part outside its limits": (NUMBERED, found("a ?ring/length=10.2±0.02 c ring-d"), 70),
    "a shim short": (SHIMS, found("gear shim*2 bearing nut"), 100),
    "two shims short": (SHIMS, found("gear shim bearing nut"), 105),
    "two shims over": (SHIMS, found("gear shim*5 bearing nut"), 105),
    "three entries of one are one entry of three": (SHIMS, found("gear shim shim shim bearing nut"), 0),
    "a pack of shims swapped with a bearing": (SHIMS, found("gear bearing shim*3 nut"), 100),
    "entered twice under one tag": (EIGHT, found("a b+T1 c d b+T1 e f g h"), 40),
    "neighbours equal in every field, with a size": (NUMBERED, found("a ring-b/length=10.0 ring-b/length=10.0 c ring-d"), 95),
    "neighbours equal, nothing measured": (NUMBERED, found("a ring-b ring-b c ring-d"), 100),
    "one found loose whose place is empty": (EIGHT, found("a b d e f g h c%"), 100),
    "one found loose that has no place": (EIGHT, found("a b c d e f g h x%"), 100),
}  # fmt: skip


@pytest.mark.parametrize("wanted, came_off, price", TABLE.values(), ids=TABLE)
def test_each_row_of_the_price_table(wanted, came_off, price):
    assert least_price(wanted, came_off) == price


def test_a_width_read_off_a_marking_is_no_measurement():
    came_off = found("a ring-b/length=11.0 c ring-d")
    marked = replace(came_off.entries[1], sizes=(("length", reading(11.0, how="marking")),))
    came_off = replace(came_off, entries=(came_off.entries[0], marked, *came_off.entries[2:]))
    assert least_price(NUMBERED, came_off) == 0


def test_a_place_that_may_be_empty_costs_nothing():
    assert least_price(reference("a b? c"), found("a c")) == least_price(reference("a b? c"), found("a b c")) == 0


def test_fixed_members_are_never_missing_and_are_marks_that_both_sides_obey():
    between = reference("a leg! b c")
    assert least_price(between, found("a b c")) == least_price(between, found("a leg b c")) == 0
    assert least_price(between, found("a b leg c")) == 101  # not a swap: the leg never came off
    assert least_price(between, found("leg a b c")) == 101


def test_a_list_from_both_ends_reads_as_one_line():
    assert least_price(EIGHT, found("a b c", "h g f e d")) == 0


def test_entries_whose_end_nobody_said_are_tried_at_both():
    assert least_price(EIGHT, found("a b c", "h g f", unsaid="d e")) == 0


STOPPED = {
    "nothing passed it": (found("a b", finished=False), 0),
    "from both ends": (found("a b", "h g", finished=False), 0),
    "one between is missing": (found("a c", finished=False), 100),
    "two between make the deep one out of place": (found("a d", finished=False), 101),
    "two deep ones kept in place prove what they passed": (found("a b f g", finished=False), 102),
    "seen from the second end": (found("", "h f", finished=False), 100),
    "a swap among what was reached": (found("b a c", finished=False), 100),
}


@pytest.mark.parametrize("came_off, price", STOPPED.values(), ids=STOPPED)
def test_a_teardown_that_stopped_early(came_off, price):
    assert least_price(EIGHT, came_off) == price


def test_a_finished_teardown_has_no_place_that_was_not_reached():
    assert least_price(EIGHT, found("a b")) == 600


def test_a_place_unordered_to_all_that_was_found_is_not_reached():
    assert least_price(hub(), found("collar-short<", finished=False)) == 0
    assert least_price(hub(), found("seal> collar-short< bearing spacer", finished=False)) == 0


def test_counted_places_are_unreached_copy_by_copy():
    assert least_price(SHIMS, found("gear shim", "nut", finished=False)) == 0
    assert least_price(SHIMS, found("gear shim bearing", finished=False)) == 101  # a bearing found early


def test_parts_the_stacks_do_not_order_may_come_off_in_either_sequence():
    seal_first = "seal> collar-short< bearing spacer hub bearing collar-long> seal<"
    collar_first = "collar-short< seal> bearing hub spacer bearing seal< collar-long>"
    assert least_price(hub(), found(seal_first)) == least_price(hub(), found(collar_first)) == 0


def test_an_operation_may_start_from_any_line_of_the_same_arrangement():
    """Collar and bearing are neighbours of one another in one of these lines only; the run of the two is one slip."""
    wanted = reference("collar bearing spacer nut", "seal bearing hub")
    assert least_price(wanted, found("seal spacer nut collar bearing hub")) == 102


def test_two_disc_springs_the_wrong_way_are_two_turned_springs():
    assert least_price(SPRINGS, found("nut spring> spring> spring< spring< ring")) == 200


def test_equal_parts_exchanged_are_no_finding():
    account = least_account(clutch(), found("pressure friction steel friction steel friction steel friction backing"))
    assert (account.price, account.words) == (0, ())


def test_a_lost_plate_in_a_clutch_pack_is_one_missing_plate():
    assert least_price(clutch(), found("pressure friction steel friction friction steel friction backing")) == 100


def test_a_line_that_reads_the_same_from_both_ends_agrees_from_either():
    assert least_price(reference("cap@1 ring@1 tube ring@2 cap@2"), found("", "cap ring tube ring cap")) == 0


def test_a_part_of_the_right_kind_that_stands_in_anothers_place():
    """The ring of d stands for b, whose own ring is gone: another part in b, and d not reached."""
    assert least_price(NUMBERED, found("a ring-d c", finished=False)) == 100


def test_two_equal_entries_with_two_places_are_two_parts():
    twins = reference("a ring@1 ring@2 b", sizes={"ring": WASHERS})
    assert least_price(twins, found("a ring/length=2.0 ring/length=2.0 b")) == 0


def test_an_unnamed_washer_goes_where_the_line_needs_fewer_slips():
    pump = reference("a washer-thin b washer-thick c", sizes={"washer-thin": WASHERS, "washer-thick": WASHERS})
    assert least_price(pump, found("a b ?washer/length=2.0 c")) == 110


def test_a_number_listed_in_one_place_and_accepted_in_another_prefers_the_listed_one():
    wanted = reference(
        "ring-a b ring-c", numbers={"ring-a": "N-1", "ring-c": "N-2"}, accepts={"ring-a": ("N-2",)}
    )  # fmt: skip
    assert least_price(wanted, found("?ring#N-2 b ring-c")) == 5
    assert least_price(wanted, found("b ?ring#N-2")) == 100


def test_a_unit_that_was_not_stripped_is_one_place():
    closed = reference("a b c d e", units={"cartridge": ("b", "c", "d")})
    assert least_price(closed, found("a cartridge e")) == 0
    assert least_price(closed, found("cartridge a e")) == 100
    assert least_price(closed, found("a cartridge c e")) == 100


def test_unreached_places_cannot_be_moved_and_are_not_passed_unseen():
    """Found are a and b together; u, unreached between them, keeps them from having moved as one run (102)."""
    wanted = reference("x y a u b")
    assert least_price(wanted, found("a b x y", finished=False)) == 202
