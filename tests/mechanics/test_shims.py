"""Which pieces of a box reach a gap, and which slot of a castellated nut leaves a play."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.nut_slots import positions, slots_within, thread_pitch_mm
from stackcheck.mechanics.shims import choose, wanted_thickness
from stackcheck.model.part import Shim, Size


def box(**counts: int) -> tuple[Shim, ...]:
    """box(t10=4, t30=2): thicknesses in hundredths of a millimetre, exactly that."""
    return tuple(
        Shim(thickness=Size(text="", nominal_mm=mm, least_mm=mm, most_mm=mm), count=count)
        for mm, count in ((int(name[1:]) / 100, count) for name, count in counts.items())
    )


def chosen(bare: float, target: tuple[float, float], shims: tuple[Shim, ...], **more):
    return choose(shims, bare_gap=Interval.exactly(bare), opens=False, target=target, **more)


def test_fewer_pieces_come_before_a_nearer_gap():
    packs = chosen(0.62, (0.0, 0.1), box(t50=1, t55=1, t10=5, t7=8)).packs
    assert packs[0].counts == (0, 1, 0, 0)
    assert [pack.pieces for pack in packs] == sorted(pack.pieces for pack in packs)


def test_among_as_many_pieces_the_gap_nearest_to_the_middle_comes_first():
    packs = chosen(1.0, (0.1, 0.45), box(t60=1, t70=1, t80=1)).packs
    assert [pack.gap.nominal_mm for pack in packs] == pytest.approx([0.3, 0.2, 0.4])


def test_packs_of_equal_thickness_and_number_are_all_named():
    packs = chosen(1.0, (0.39, 0.41), box(t20=2, t30=2, t40=2)).packs
    assert {pack.counts for pack in packs} == {(1, 0, 1), (0, 2, 0)}


def test_nothing_at_all_is_a_pack_too():
    assert chosen(0.05, (0.0, 0.1), box(t50=1)).packs[0].pieces == 0


def test_none_fits_names_the_nearest_to_either_side():
    choice = chosen(1.0, (0.30, 0.35), box(t50=1, t90=1))
    assert choice.packs == ()
    assert [pack.gap.nominal_mm for pack in choice.nearest] == pytest.approx([0.1, 0.5])


def test_a_place_of_one_ring_gets_one_ring():
    packs = chosen(4.0, (0.6, 1.0), box(t300=2, t320=1, t20=3), pieces=1).packs
    assert [pack.counts for pack in packs] == [(0, 1, 0), (1, 0, 0)]


def test_a_thicker_pack_opens_a_gap_that_it_stands_beside():
    choice = choose(box(t50=6), bare_gap=Interval.exactly(-1.43), opens=True, target=(0.0, 0.14))
    assert choice.packs[0].counts == (3,)
    assert choice.packs[0].gap.nominal_mm == pytest.approx(0.07)


@given(
    counts=st.lists(st.integers(1, 3), min_size=1, max_size=4), steps=st.lists(st.integers(1, 12), min_size=4, max_size=4, unique=True),
    bare=st.integers(0, 60), low=st.integers(-5, 20), width=st.integers(0, 10),
)  # fmt: skip
def test_the_first_pack_is_the_best_of_all_that_the_box_allows(counts, steps, bare, low, width):
    """Beside it: every set of the box, one by one."""
    shims = box(**{f"t{5 * step}": count for step, count in zip(steps, counts)})
    target = (low / 20, (low + width) / 20)
    middle = sum(target) / 2
    every = [
        (sum(used), round(abs(gap - middle), 6))
        for used in product(*(range(count + 1) for count in counts))
        if target[0] - 1e-9
        <= (gap := bare / 20 - sum(n * shim.thickness.nominal_mm for n, shim in zip(used, shims)))
        <= target[1] + 1e-9
    ]
    packs = chosen(bare / 20, target, shims).packs
    assert bool(packs) == bool(every)
    if packs:
        assert (packs[0].pieces, round(abs(packs[0].gap.nominal_mm - middle), 6)) == min(every)


def test_the_thickness_wanted_brings_the_gap_between_its_limits_whatever_the_rest_is():
    bare = Interval(nominal_mm=1.0, least_mm=0.97, most_mm=1.02)
    low, high = wanted_thickness(bare_gap=bare, opens=False, target=(0.2, 0.3))
    assert bare.most_mm - low == pytest.approx(0.3)
    assert bare.least_mm - high == pytest.approx(0.2)


def test_no_thickness_is_sure_where_the_rest_varies_more_than_the_target():
    wide = Interval(nominal_mm=1.0, least_mm=0.9, most_mm=1.1)
    assert wanted_thickness(bare_gap=wide, opens=True, target=(0.2, 0.3)) is None


@pytest.mark.parametrize("shims, target", [((), (0.2, 0.1)), (box(t0=1), (0.0, 0.1))])
def test_what_cannot_be_is_refused(shims, target):
    with pytest.raises(ValueError):
        chosen(1.0, target, shims)


def test_a_second_hole_helps_only_where_it_falls_elsewhere_between_the_slots():
    assert positions(10, (0, 90)) == (0, 18)
    assert positions(8, (0, 90)) == (0,)
    assert positions(6, (0, 180)) == (0,)


def test_half_the_step_of_a_coarse_thread_is_half_the_play():
    """M24x2 with ten slots: 0.2 mm a slot, 0.1 mm with a second hole at a right angle."""
    play, target = Interval.exactly(0.30), (0.0, 0.25)
    one = slots_within(play=play, thread_pitch_mm=2, slots=10, target=target)
    two = slots_within(play=play, thread_pitch_mm=2, slots=10, holes_deg=(0, 90), target=target)
    assert [round(slot.play.nominal_mm, 3) for slot in one] == [0.1, 0.3]
    assert [round(slot.play.nominal_mm, 3) for slot in two] == [0.1, 0.2, 0.3]


def test_where_no_slot_leaves_the_play_the_neighbours_are_shown():
    slots = slots_within(play=Interval.exactly(0.15), thread_pitch_mm=1.5, slots=6, target=(0.03, 0.08))
    assert [round(slot.play.nominal_mm, 3) for slot in slots] == [-0.1, 0.15]


@given(
    play=st.floats(0.01, 0.5), pitch=st.sampled_from([1.0, 1.5, 1.5875, 2.0]), slots=st.integers(3, 12),
    low=st.floats(0.0, 0.1), width=st.floats(0.0, 0.1),
)  # fmt: skip
def test_turning_back_by_what_a_slot_is_away_gives_the_play_that_was_measured(play, pitch, slots, low, width):
    for slot in slots_within(
        play=Interval.exactly(play), thread_pitch_mm=pitch, slots=slots, target=(low, low + width)
    ):
        assert slot.play.nominal_mm - slot.turned_deg * pitch / 360 == pytest.approx(play, abs=1e-9)
        assert round(slot.turned_deg * slots / 360, 6) == round(round(slot.turned_deg * slots / 360), 6)


@pytest.mark.parametrize(
    "thread, pitch",
    [
        ("M20x1.5", 1.5),
        ("M16 x 2", 2),
        ("3/4-16 UNF", 25.4 / 16),
        ("1 1/8-12", 25.4 / 12),
        ("M20", 2.5),
        ("M14 left hand", 2.0),
        ("M21", None),
        ("14 fine", None),
        ("M20x0", None),
        ("", None),
    ],
)
def test_the_pitch_is_read_off_the_thread(thread, pitch):
    assert thread_pitch_mm(thread) == (pytest.approx(pitch) if pitch else None)
