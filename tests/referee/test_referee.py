"""The referee itself: every row of the price table worked by hand, the traps, and laws that any referee must obey."""

from __future__ import annotations

import pytest

from tests.builders import clutch, found, hub, reference
from tests.referee import least_price

EIGHT = reference("a b c d e f g h")

ONE_STACK = {
    "the same": ("a b c d e f g h", 0),
    "an extra part": ("a b x c d e f g h", 100),
    "a part missing": ("a b c d e f h", 100),
    "a part out of place": ("a c d e b f g h", 101),
    "two parts swapped": ("a f c d e b g h", 100),
    "two neighbours swapped": ("b a c d e f g h", 100),
    "a run of two moved": ("c d e a b f g h", 102),
    "a run of three moved past three": ("a e f g b c d h", 103),
    "a run of two end for end is a swap": ("a b d c e f g h", 100),
    "a run of three end for end is a swap": ("a d c b e f g h", 100),
    "a run of four end for end": ("a b f e d c g h", 105),
    "a swap and a move": ("b c d e f a h g", 201),
    "a move and a missing part": ("a c d e b f h", 201),
    "three swaps": ("b a d c f e g h", 300),
    "a run moves as neighbours although one of it is missing": ("d e f a c g h", 202),
    "entered from the other end": ("h g f e d c b a", 100),
    "entered from the other end, and one missing": ("h g f e d c a", 200),
}  # fmt: skip


@pytest.mark.parametrize("line, price", ONE_STACK.values(), ids=ONE_STACK)
def test_one_stack_of_parts_that_differ(line, price):
    assert least_price(EIGHT, found(line)) == price


def test_a_list_from_both_ends_reads_as_one_line():
    assert least_price(EIGHT, found("a b c", "h g f e d")) == 0


def test_entries_whose_end_nobody_said_are_tried_at_both():
    assert least_price(EIGHT, found("a b c", "h g f", unsaid="d e")) == 0


def test_parts_the_stacks_do_not_order_may_come_off_in_either_sequence():
    seal_first = "seal> collar-short< bearing spacer hub bearing collar-long> seal<"
    collar_first = "collar-short< seal> bearing hub spacer bearing seal< collar-long>"
    assert least_price(hub(), found(seal_first)) == least_price(hub(), found(collar_first)) == 0


def test_a_lost_plate_in_a_clutch_pack_is_one_missing_plate():
    assert least_price(clutch(), found("pressure friction steel friction friction steel friction backing")) == 100
