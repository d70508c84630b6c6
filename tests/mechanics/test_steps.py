"""A part with steps is the row of tubes that it is made of: stiffness, heat, faces, which way round it stands."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from stackcheck.mechanics.arrangement import arranged, as_wanted, reference_line, standing_in
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.axle import Rod, Stretch, axle_stiffness
from stackcheck.mechanics.bodies import Missing, body_stiffness, step_stiffness
from stackcheck.mechanics.bridges import PRESSES_BOTH, bridges
from stackcheck.mechanics.crushing import crushing
from stackcheck.mechanics.faces import face_size
from stackcheck.mechanics.force_terms import force_terms
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.heat_of_bearings import axle_expansion
from stackcheck.mechanics.joint_pull import grip_stiffness
from stackcheck.mechanics.lengths import Readings, Ruler
from stackcheck.mechanics.steps import steps_of
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns, with_variants
from stackcheck.mechanics.warm_joint import outgrows
from stackcheck.model.expansion import expansion_along
from stackcheck.model.finding import Standing, Swapped
from stackcheck.model.found import Entry, MeasuredSection
from stackcheck.model.part import Reading, Section
from stackcheck.value import replace
from tests.builders import size
from tests.mechanics.small import nut_hub
from tests.mechanics.test_pressed_faces import clamped

STEEL_MPA = 206e3


def section(length: float, outside: float, bore: float, material: str = "") -> Section:
    return Section(length=size(length), outside=size(outside), bore=size(bore), material=material)


def area(outside: float, bore: float) -> float:
    return pi / 4 * (outside**2 - bore**2)


FLANGED = (section(4, 40, 20), section(18, 30, 20))
steps = st.lists(
    st.builds(
        section,
        st.floats(0.5, 40),
        st.floats(30, 80),
        st.floats(10, 25),
        st.sampled_from(["", "steel", "aluminium", "brass"]),
    ),
    min_size=1,
    max_size=5,
)


def stepped(sections, **fields):
    """A stepped collar alone between a shoulder and a nut, and its joint."""
    total = sum(each.length.nominal_mm for each in sections)
    sizes = {"tube-1": {"length": (5.0,), "bore": (12.0,), "outside": (40.0,)}, "collar": {"length": (total,)},
             "tube-2": {"length": (7.0,), "bore": (15.0,), "outside": (35.0,)}}  # fmt: skip
    return clamped("tube-1 collar tube-2", sizes, face=40, collar={"sections": tuple(sections)} | fields)


def in_a_row(sections, material: str = ""):
    """The same metal as parts of their own, one behind the other."""
    names = [f"piece-{i}" for i in range(1, len(sections) + 1)]
    sizes = {"tube-1": {"length": (5.0,), "bore": (12.0,), "outside": (40.0,)},
             "tube-2": {"length": (7.0,), "bore": (15.0,), "outside": (35.0,)}}  # fmt: skip
    parts = {}
    for name, each in zip(names, sections):
        sizes[name] = {what: (getattr(each, what).nominal_mm,) for what in ("length", "outside", "bore")}
        parts[name] = {"material": each.material or material}
    members = " ".join(["tube-1", *names, "tube-2"])
    return clamped(members, sizes, face=40, **parts)


def grip(own, joint, unknowns=None):
    return grip_stiffness(unknowns or Unknowns(), as_wanted(own), joint, thread_of(joint))


def alone(part_of, home: str, length: float, turned: bool = False):
    return body_stiffness(
        Unknowns(), Ruler(reference=part_of), replace(standing_in(part_of.place(home)), turned=turned), length
    )


def test_a_flanged_collar_by_hand():
    """By hand: 4/(206 000 x 942.5) + 18/(206 000 x 392.7) = 2.431e-7 mm/N; one tube of 30/20 would be 12 in 100 softer,
    one of 40/20 more than twice as stiff.
    """
    own, _ = stepped(FLANGED)
    by_hand = 1 / (4 / (STEEL_MPA * area(40, 20)) + 18 / (STEEL_MPA * area(30, 20)))
    assert alone(own, "collar", 22.0) == pytest.approx(by_hand) == pytest.approx(4.113e6, rel=1e-3)


@given(sections=steps, material=st.sampled_from(["", "aluminium"]))
def test_it_is_as_stiff_as_the_same_metal_given_as_several_parts_in_a_row(sections, material):
    """Under the same neighbours: the pressure cones go on from step to step as they do from part to part."""
    whole, joint = stepped(sections, material=material)
    row, of_row = in_a_row(sections, material)
    assert grip(whole, joint) == pytest.approx(grip(row, of_row))


@given(sections=steps)
def test_and_so_for_every_half_angle_of_the_cone(sections):
    whole, row = (
        with_variants(lambda u, own=own, joint=joint: grip(own, joint, u)[0])[1]
        for own, joint in (stepped(sections), in_a_row(sections))
    )
    assert np.size(whole) > 1
    assert whole == pytest.approx(row)


@given(sections=steps)
def test_its_warmth_makes_it_longer_by_the_sum_of_its_steps(sections):
    whole, joint = stepped(sections)
    row, of_row = in_a_row(sections)
    heat = Heat(at_c=75.0)
    grown = [outgrows(Unknowns(), as_wanted(own), its, heat) for own, its in ((whole, joint), (row, of_row))]
    assert grown[0] == pytest.approx(grown[1], abs=1e-12)
    assert expansion_along(whole.part("collar")) == pytest.approx(
        sum(each.length.nominal_mm * expansion_along(row.part(f"piece-{i}")) for i, each in enumerate(sections, 1))
        / sum(each.length.nominal_mm for each in sections)
    )


def test_a_doubt_of_one_bore_goes_into_the_series_as_the_derivative_says():
    """Against linear propagation by the uncertainties package: bore 20 ±0.05 of the thin step."""
    bore = ufloat(20.0, 0.05)
    exact = 1 / (4 / (STEEL_MPA * area(40, 20)) + 18 / (STEEL_MPA * pi / 4 * (30.0**2 - bore**2)))
    low, high = (alone(stepped((FLANGED[0], section(18, 30, 20 + sign * 0.05)))[0], "collar", 22.0) for sign in (1, -1))
    assert (high - low) / 2 == pytest.approx(exact.std_dev, rel=1e-3)


@given(sections=steps)
def test_cut_in_two_a_step_changes_nothing(sections):
    first = sections[0]
    halves = [replace(first, length=size(first.length.nominal_mm / 2))] * 2
    assert grip(*stepped(sections)) == pytest.approx(grip(*stepped([*halves, *sections[1:]])))


@given(sections=steps, count=st.integers(1, 4))
def test_a_pack_of_equal_ones_is_the_row_as_many_times(sections, count):
    own, _ = stepped(sections)
    total = sum(each.length.nominal_mm for each in sections)
    pack = replace(standing_in(own.place("collar")), count=count)
    ruler = Ruler(reference=own)
    assert body_stiffness(Unknowns(), ruler, pack, count * total) == pytest.approx(alone(own, "collar", total) / count)


def test_one_measured_longer_has_each_step_longer_in_proportion():
    own, _ = stepped(FLANGED)
    told = steps_of(Ruler(reference=own), standing_in(own.place("collar")), 22.44)
    assert [step.length_mm for step in told] == pytest.approx([4.08, 18.36])


def test_turned_round_it_shows_its_steps_from_the_other_end():
    own, _ = stepped(FLANGED)
    ruler = Ruler(reference=own)
    stood, turned = (replace(standing_in(own.place("collar")), turned=way) for way in (False, True))
    part = own.part("collar")
    assert [step.number for step in steps_of(ruler, turned)] == [2, 1]
    assert [face_size(ruler, way, part, "first", "outside") for way in (stood, turned)] == [40.0, 30.0]
    assert [face_size(ruler, way, part, "second", "outside") for way in (stood, turned)] == [30.0, 40.0]


def test_at_a_place_that_looks_the_other_way_than_the_first_they_run_the_other_way():
    own, _ = stepped(FLANGED)
    places = tuple(replace(place, facing="first") if place.name == "collar" else place for place in own.places)
    second = replace(own.place("collar"), name="collar@second", facing="second")
    own = replace(own, places=(*places, second))
    numbers = [
        [step.number for step in steps_of(Ruler(reference=own), standing_in(own.place(name)))]
        for name in ("collar", "collar@second")
    ]
    assert numbers == [[1, 2], [2, 1]]


def test_swapped_with_its_partner_each_looks_as_the_other_place_wants():
    """The flanges stay outside: neither is turned round, and neither presses the outer ring of a bearing."""
    own = flanged_hub()
    places = {place.name: place for place in own.places}
    line = tuple(
        Standing(part=places[OTHER.get(name, name)].part, home=OTHER.get(name, name), entry=i)
        for i, name in enumerate(own.line, 1)
    )
    entries = tuple(each.entry for each in line if each.home in OTHER)
    at = arranged(Ruler(reference=own), line, [Swapped(places=tuple(OTHER), entries=entries)])
    numbers = {each.home: [step.number for step in steps_of(at.ruler, each)] for each in line if each.home in OTHER}
    assert numbers == {"collar-short": [2, 1], "collar-long": [2, 1]}
    assert not bridges(at) and not bridges(as_wanted(own))


OTHER = {"collar-short": "collar-long", "collar-long": "collar-short"}


def flanged_hub():
    """The hub with a flange at the outer end of each collar, wide enough to reach the outer ring of a bearing."""
    flange, sleeve = section(4, 46, 20), section(14, 28, 20)
    rows = {
        "collar-short": (18.0, (flange, sleeve)),
        "collar-long": (22.0, (replace(sleeve, length=size(18.0)), flange)),
    }
    own = nut_hub()
    return replace(
        own,
        parts=tuple(
            replace(part, sections=rows[part.id][1], sizes=(("length", size(rows[part.id][0])),))
            if part.id in rows
            else part
            for part in own.parts
        ),
    )


def test_counted_as_one_tube_by_neither_of_its_diameters():
    """One outside for the whole would be wrong by 12 in 100 one way and by a factor of two the other."""
    own, _ = stepped(FLANGED)
    thin, wide = (STEEL_MPA * area(outside, 20) / 22 for outside in (30, 40))
    assert 1.1 * thin < alone(own, "collar", 22.0) < 0.5 * wide


def test_a_flange_turned_toward_the_bearing_presses_both_its_rings():
    """The face that touches is that of the end section: it does so one way round and not the other."""
    own = flanged_hub()
    line = tuple(
        replace(each, turned=each.home == "collar-short", entry=i if each.home == "collar-short" else None)
        for i, each in enumerate(reference_line(own), 1)
    )
    (bridge,) = bridges(arranged(Ruler(reference=own), line, ()))
    assert (bridge.standing.part, bridge.answer, bridge.reaches_mm) == ("collar-short", PRESSES_BOTH, 46.0)


def test_the_least_section_gives_first_and_is_named():
    sections = (section(10, 40, 20), section(5, 23, 20), section(10, 40, 20))
    own, joint = stepped(sections, kind="collar", material="steel")
    told = crushing(as_wanted(own), joint, 100e3)
    assert told[0].what == ("section 2 of the collar",)
    assert told[0].stress_mpa.usual == pytest.approx(
        force_terms(as_wanted(own), joint, 100e3).torque.tension_n / area(23, 20)
    )
    assert "section 1 of the collar" not in [what for each in told for what in each.what]


def test_the_terms_open_each_section():
    own, joint = stepped(FLANGED)
    terms = force_terms(as_wanted(own), joint, 40e3)
    collar = next(part for part in terms.parts if part.sections)
    assert [each.name for each in collar.sections] == ["section 1, 40/20 mm", "section 2, 30/20 mm"]
    assert sum(each.length_mm for each in collar.sections) == pytest.approx(collar.length_mm)
    assert sum(1 / each.stiffness_n_per_mm for each in collar.sections) == pytest.approx(1 / collar.stiffness_n_per_mm)


def test_a_section_of_an_unknown_metal_is_a_range_of_its_own():
    own, _ = stepped((FLANGED[0], section(18, 30, 20, "resin")))
    unknowns = Unknowns()
    (_, flange), _ = step_stiffness(unknowns, Ruler(reference=own), standing_in(own.place("collar")), 22.0)
    assert [unknown.name for unknown in unknowns.known] == ["stiffness of section 2 of the collar"]
    assert flange == pytest.approx(STEEL_MPA * area(40, 20) / 4)


def test_turned_round_to_another_length_nobody_knows_how_stiff_it_is():
    """It stands on other faces then: its tubes say nothing of that."""
    own, _ = stepped(FLANGED, sizes=(("length", size(22.0)), ("length_when_turned", size(18.0))))
    unknowns, turned = Unknowns(), Standing(part="collar", home="collar", turned=True)
    body_stiffness(unknowns, Ruler(reference=own), turned, 18.0)
    assert [unknown.name for unknown in unknowns.known] == ["stiffness of the collar"]


M16 = Thread(d_mm=16, pitch_mm=1.5)


def ends_give() -> float:
    return 0.5 * 16 / (pi / 4 * M16.root_mm**2) + 0.4 * 16 / (pi / 4 * 16**2)


def test_a_stepped_shank_by_hand_and_nothing_of_it_is_guessed():
    """60 of 20 mm, 40 of 18 mm bored 8 mm, and 30 of thread as far as the nut."""
    unknowns = Unknowns()
    shank = (Rod(60.0, area(20, 0), STEEL_MPA), Rod(40.0, area(18, 8), STEEL_MPA))
    k = axle_stiffness(unknowns, M16, [Stretch(130.0, 20.0)], shank=shank)
    gives = 60 / area(20, 0) + 40 / area(18, 8) + 30 / M16.stress_area_mm2 + ends_give()
    assert k == pytest.approx(STEEL_MPA / gives)
    assert not unknowns.known


@given(length=st.floats(1, 200))
def test_a_shank_is_cut_off_at_the_nut_and_goes_on_as_thread(length):
    shank = (Rod(60.0, area(20, 0), STEEL_MPA), Rod(40.0, area(18, 0), 0.5 * STEEL_MPA))
    k = axle_stiffness(Unknowns(), M16, [Stretch(length, 20.0)], shank=shank)
    gives = min(length, 60) / area(20, 0) + 2 * max(0.0, min(length - 60, 40)) / area(18, 0)
    gives += max(0.0, length - 100) / M16.stress_area_mm2
    assert k == pytest.approx(STEEL_MPA / (gives + ends_give()))


def test_a_shank_lies_within_what_is_guessed_of_an_axle_between_its_thread_and_the_bores():
    own, joint = stepped(FLANGED)
    drawn = replace(joint, shank=(Section(length=size(20.0), outside=size(12.0)),))
    guessed, axle = with_variants(lambda u: grip(own, joint, u)[1])
    assert "thickness of the axle" in [unknown.name for unknown in guessed.known]
    drawn_unknowns, _ = with_variants(lambda u: grip(replace(own, joints=(drawn,)), drawn, u)[1])
    assert "thickness of the axle" not in [unknown.name for unknown in drawn_unknowns.known]
    thick = replace(joint, shank=(Section(length=size(34.0), outside=size(12.0)),))
    assert grip(own, thick)[1] < min(axle)


def test_a_shank_of_two_metals_grows_by_the_sum_of_its_steps():
    own, joint = stepped(FLANGED)
    shank = (section(30, 20, 5, "steel"), section(10, 20, 5, "aluminium"))
    assert axle_expansion(own, replace(joint, shank=shank)) == pytest.approx((30 * 11.5e-6 + 10 * 23.5e-6) / 40)
    assert axle_expansion(own, joint) == 11.5e-6


def test_a_shank_of_a_metal_nobody_knows_here_is_asked_for():
    own, joint = stepped(FLANGED)
    with pytest.raises(Missing, match="modulus of resin"):
        grip(own, replace(joint, shank=(section(30, 20, 5, "resin"),)))


def measured_section(length: float, outside: float, bore: float) -> MeasuredSection:
    return MeasuredSection(
        **{
            name: Reading(text=f"{figure} cal", value_mm=figure, good_to_mm=0.03, how="calliper")
            for name, figure in (("length", length), ("outside", outside), ("bore", bore))
        }
    )


def test_steps_measured_on_what_came_off_count_before_those_of_the_reference():
    """As it lay, first end to second: nobody turns them again for a part that is turned round."""
    own, _ = stepped(FLANGED)
    entry = Entry(
        number=1, what="collar", part="collar", sections=(measured_section(18, 30, 20), measured_section(4, 41, 20))
    )
    ruler = Ruler(reference=own, readings=Readings(entries={1: entry}), as_found=True)
    turned = Standing(entry=1, part="collar", home="collar", turned=True)
    by_hand = 1 / (18 / (STEEL_MPA * area(30, 20)) + 4 / (STEEL_MPA * area(41, 20)))
    assert body_stiffness(Unknowns(), ruler, turned, 22.0) == pytest.approx(by_hand)
    assert [face_size(ruler, turned, own.part("collar"), end, "outside") for end in ("first", "second")] == [30.0, 41.0]


def test_a_stray_that_the_reference_does_not_know_is_told_by_its_measured_steps():
    own, _ = stepped(FLANGED)
    entry = Entry(number=1, what="some sleeve", sections=(measured_section(5, 30, 20), measured_section(3, 26, 20)))
    ruler = Ruler(reference=own, readings=Readings(entries={1: entry}), as_found=True)
    unknowns, stray = Unknowns(), Standing(entry=1)
    by_hand = 1 / (5 / (STEEL_MPA * area(30, 20)) + 3 / (STEEL_MPA * area(26, 20)))
    assert body_stiffness(unknowns, ruler, stray, 8.0) == pytest.approx(by_hand)
    assert not unknowns.known
