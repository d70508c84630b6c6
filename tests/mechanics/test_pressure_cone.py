"""The pressure cone against printed worked examples, against quadrature, and by its own laws."""

from __future__ import annotations

from itertools import pairwise
from math import inf, log, pi, radians, tan

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad

from stackcheck.mechanics.axial.stiffness import tube_stiffness
from stackcheck.mechanics.pressure_cone import WHOLE_FACE, Annulus, Body, cone_stiffness, growth, pressed

G = float(growth(30.0))
LBF_PER_IN = 4.4482216 / 25.4  # N/mm
PSI = 4.4482216 / 25.4**2  # MPa


def row(parts: list[tuple[float, float]], *, hole: float, face: float, width: float = 1e4) -> list[float]:
    """Stiffness of each of a row of wide plates (length, modulus) under head and nut of one face."""
    bodies = [Body(section=Annulus(width, hole), length_mm=length) for length, _ in parts]
    ends = Annulus(face, hole)
    pressing = pressed(bodies, grows=G, before=ends, after=ends)
    return [
        float(cone_stiffness(section=body.section, first=each.first, second=each.second, length_mm=body.length_mm, modulus_mpa=modulus))
        for body, each, (_, modulus) in zip(bodies, pressing, parts)
    ]  # fmt: skip


def in_row(stiffness) -> float:
    return 1 / sum(1 / k for k in stiffness)


def test_a_steel_plate_on_a_cast_iron_one_is_as_stiff_as_printed():
    """Solutions of Shigley, 8th ed. (2008), problem 8-21 (read): M12, faces 18, 20 mm of steel (207 GPa) on 25 mm of cast
    iron (100 GPa): frusta 4470, 52 230 and 2074 MN/m, together 1379 MN/m."""
    steel, iron = row([(20.0, 207e3), (25.0, 100e3)], hole=12, face=18)
    assert steel / 1e3 == pytest.approx(4470, rel=0.001)
    assert iron / 1e3 == pytest.approx(in_row((52_230, 2074)), rel=0.001)
    assert in_row((steel, iron)) / 1e3 == pytest.approx(1379, abs=1)


def test_four_frusta_of_an_inch_joint_are_as_stiff_as_printed():
    """The same, problem 8-24 (read): 1/2 in, faces 0.75, steel 0.5 in, cast iron 0.625, steel washer 0.095 at the nut, E 30 and
    14.5 Mpsi: 33.30, 173.8, 21.47 and 97.27, together 10.79 Mlbf/in. Printed with D rounded to a thousandth of an inch."""
    parts = [(0.5, 30e6), (0.625, 14.5e6), (0.095, 30e6)]
    found = row([(length * 25.4, modulus * PSI) for length, modulus in parts], hole=0.5 * 25.4, face=0.75 * 25.4)
    steel, iron, washer = (k / LBF_PER_IN / 1e6 for k in found)
    assert steel == pytest.approx(33.30, abs=0.01)
    assert iron == pytest.approx(in_row((173.8, 21.47)), rel=0.002)
    assert washer == pytest.approx(97.27, rel=0.001)
    assert in_row((steel, iron, washer)) == pytest.approx(10.79, abs=0.01)


def test_the_cone_of_the_textbook_joint_crosses_the_parting_line_as_drawn():
    """Shigley, 9th ed. (2011), example 8-2, figure 8-17 (read): washer 0.095, steel 0.5, cast iron 0.75 in under faces of 0.75: the
    cone is 1.437 wide where steel meets iron and 1.527 in the middle, 0.6725 from either end."""
    bodies = [Body(section=Annulus(1e3, 0.5), length_mm=length) for length in (0.095, 0.5, 0.75)]
    ends = Annulus(0.75, 0.5)
    pressing = pressed(bodies, grows=G, before=ends, after=ends)
    assert float(pressing[1].second.outside) == pytest.approx(1.437, abs=0.0005)
    assert 0.75 + G * 0.6725 == pytest.approx(1.527, abs=0.0005)


def test_half_a_wide_plate_is_the_frustum_of_the_textbook():
    """Shigley, 9th ed., eq. 8-20 (formula read)."""
    d, face, t, modulus = 16.0, 24.0, 25.0, 206e3
    printed = (
        0.5774 * pi * modulus * d / log((1.155 * t + face - d) * (face + d) / ((1.155 * t + face + d) * (face - d)))
    )
    assert 2 * row([(2 * t, modulus)], hole=d, face=face)[0] == pytest.approx(printed, rel=1e-3)


diameters = st.floats(5, 40)
more = st.floats(0.5, 60)


@st.composite
def shapes(draw):
    bore = draw(diameters)
    outside = bore + draw(more)
    faces = []
    for _ in range(2):
        inner = bore + draw(st.floats(0, 0.5)) * (outside - bore)
        faces.append(Annulus(inner + draw(st.floats(0.1, 1.0)) * (outside - inner), inner))
    return Annulus(outside, bore), *faces, draw(st.floats(1, 80))


@given(shapes())
def test_it_is_the_integral_over_the_section_that_the_cones_leave(shape):
    section, first, second, length = shape
    (each,) = pressed([Body(section=section, length_mm=length)], grows=G, before=first, after=second)
    assume(not each.bends)
    first, second = each.first, each.second
    assume(first.outside - first.bore > 0.05 and second.outside - second.bore > 0.05)

    def softness(x: float) -> float:
        outside = min(section.outside, first.outside + G * x, second.outside + G * (length - x))
        bore = max(section.bore, first.bore - G * x, second.bore - G * (length - x))
        return 4 / (pi * 206e3 * (outside**2 - bore**2))

    k = float(cone_stiffness(section=section, first=first, second=second, length_mm=length, modulus_mpa=206e3))
    widths = (
        section.outside - first.outside,
        first.bore - section.bore,
        section.outside - second.outside,
        second.bore - section.bore,
    )
    spots = [spot / G for spot in widths[:2]] + [length - spot / G for spot in widths[2:]]
    corners = sorted([0.0, length, *[spot for spot in spots if 0 < spot < length]])
    whole = sum(quad(softness, *piece, epsabs=0)[0] for piece in pairwise(corners))  # smooth between two corners
    assert k == pytest.approx(1 / whole, rel=1e-5)
    tube = tube_stiffness(outside_mm=section.outside, bore_mm=section.bore, length_mm=length, modulus_mpa=206e3)
    assert k <= tube * (1 + 1e-9)
    turned = cone_stiffness(section=section, first=second, second=first, length_mm=length, modulus_mpa=206e3)
    assert float(turned) == pytest.approx(k, rel=1e-9)


def test_a_collar_as_narrow_as_its_faces_stays_a_tube():
    collar = Annulus(30.0, 20.0)
    pressing = pressed(
        [Body(section=collar, length_mm=18.0)], grows=G, before=Annulus(45.0, 20.0), after=Annulus(60.0, 18.0)
    )[0]
    k = cone_stiffness(section=collar, first=pressing.first, second=pressing.second, length_mm=18.0, modulus_mpa=206e3)
    assert float(k) == pytest.approx(
        tube_stiffness(outside_mm=30, bore_mm=20, length_mm=18, modulus_mpa=206e3), rel=1e-12
    )


def test_cutting_a_plate_in_slices_changes_nothing():
    """A cone does not feel a flat joint between parts of one width and material."""
    whole = row([(40.0, 206e3)], hole=12, face=20, width=70)[0]
    assert in_row(row([(3.0, 206e3), (17.0, 206e3), (20.0, 206e3)], hole=12, face=20, width=70)) == pytest.approx(
        whole, rel=1e-9
    )


def test_a_cone_stops_at_the_outside_of_the_part_and_starts_anew_behind_a_narrow_one():
    bodies = [
        Body(section=Annulus(80.0, 20.0), length_mm=40.0),
        Body(section=Annulus(28.0, 20.0), length_mm=5.0),
        Body(section=Annulus(80.0, 20.0), length_mm=1.0),
    ]
    first, tube, last = pressed(bodies, grows=G)
    assert float(first.second.outside) == 28.0 == float(tube.first.outside)
    assert float(first.first.outside) == pytest.approx(28 + 40 * G)
    assert float(last.second.outside) == pytest.approx(28 + G)


def test_faces_that_do_not_overlap_bend_the_part_and_hand_no_cone_on():
    """A hollow flange touches the wheel with its rim and the bearing with its hub."""
    rim = Body(section=Annulus(60.0, 16.0), length_mm=9.0, first=Annulus(60.0, 54.0))
    wheel, flange, ring = pressed(
        [Body(section=Annulus(150.0, 16.0), length_mm=20.0), rim, Body(section=Annulus(28.0, 20.0), length_mm=14.0)],
        grows=G,
    )
    assert flange.bends and not wheel.bends and not ring.bends
    assert float(wheel.second.outside) == 60.0


def test_many_angles_side_by_side_are_each_the_single_one():
    angles = np.array([25.0, 30.0, 33.0])
    section, face = Annulus(80.0, 16.0), Annulus(24.0, 16.0)
    together = cone_stiffness(
        section=section, first=face, second=face, length_mm=30, modulus_mpa=206e3, grows=growth(angles)
    )
    alone = [
        float(
            cone_stiffness(section=section, first=face, second=face, length_mm=30, modulus_mpa=206e3, grows=growth(a))
        )
        for a in angles
    ]
    assert together == pytest.approx(alone, rel=1e-12)
    assert alone[0] < alone[1] < alone[2]


def test_what_is_no_shape_is_refused():
    face = Annulus(30.0, 20.0)
    for wrong in (
        {"length_mm": 0.0},
        {"length_mm": float("nan")},
        {"section": Annulus(20.0, 20.0)},
        {"first": Annulus(19.0, 20.0)},
    ):
        with pytest.raises(ValueError):
            cone_stiffness(
                **{
                    "section": Annulus(40.0, 20.0),
                    "first": face,
                    "second": face,
                    "length_mm": 10.0,
                    "modulus_mpa": 206e3,
                }
                | wrong
            )
    assert tan(radians(30)) * 2 == pytest.approx(G)
    assert WHOLE_FACE.outside == inf
