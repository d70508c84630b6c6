"""What press fits hold: against Lamé's thick rings solved by sympy, the catalogue's short form, and the shipped fits."""

from __future__ import annotations

from pathlib import Path

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.press_fit import probable_clearance
from stackcheck.mechanics.slip_force import effective, pressure, slip_force, slip_forces

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")


def lame(d: float, overlap: float, hollow: float, wide: float, e_in: float, e_out: float) -> float:
    """Two rings in plane stress, u = A r + B/r each, free inside and outside, pressed alike where they meet."""
    a1, b1, a2, b2, p = sympy.symbols("a1 b1 a2 b2 p")
    nu, r = sympy.Rational(3, 10), sympy.Rational(d) / 2

    def stress(a, b, e, radius):
        return e / (1 - nu**2) * (a * (1 + nu) - b * (1 - nu) / radius**2)

    inner = b1 if hollow == 0 else stress(a1, b1, e_in, sympy.Rational(hollow) / 2)
    equations = [
        inner, stress(a1, b1, e_in, r) + p, stress(a2, b2, e_out, r) + p, stress(a2, b2, e_out, sympy.Rational(wide) / 2),
        (a2 * r + b2 / r) - (a1 * r + b1 / r) - sympy.Rational(overlap) / 2,
    ]  # fmt: skip
    return float(sympy.solve(equations, [a1, b1, a2, b2, p])[p])


@pytest.mark.parametrize(("d", "overlap", "hollow", "wide", "e_in", "e_out"), [
    (20.0, 0.01, 0.0, 28.0, 206e3, 206e3), (47.0, 0.025, 39.0, 70.0, 206e3, 70e3), (35.0, 0.02, 12.0, 45.0, 206e3, 206e3),
])  # fmt: skip
def test_the_pressure_is_that_of_two_thick_rings(d, overlap, hollow, wide, e_in, e_out):
    ours = pressure(
        diameter_mm=d,
        overlap_mm=overlap,
        inside_bore_mm=hollow,
        outside_mm=wide,
        inside_mpa=e_in,
        outside_part_mpa=e_out,
    )
    assert ours == pytest.approx(lame(d, overlap, hollow, wide, e_in, e_out), rel=1e-9)


@given(st.floats(5, 100), st.floats(0.001, 0.1), st.floats(1.05, 3))
def test_a_ring_on_a_solid_shaft_is_the_short_form_of_the_catalogue(d, overlap, ratio):
    """NSK, Rolling Bearings catalogue, fits (from memory): p = E/2 · Δ/d · (1 - k²), k = d/D."""
    ours = pressure(diameter_mm=d, overlap_mm=overlap, inside_bore_mm=0, outside_mm=ratio * d)
    assert ours == pytest.approx(206e3 / 2 * overlap / d * (1 - 1 / ratio**2))


def test_twice_the_overlap_holds_twice_as_much_and_none_holds_nothing():
    held = [
        slip_force(pressure_mpa=pressure(diameter_mm=20, overlap_mm=effective(overlap, 20), inside_bore_mm=0, outside_mm=28), diameter_mm=20, width_mm=14, friction=0.12)
        for overlap in (0.0, 0.01, 0.02)
    ]  # fmt: skip
    assert held[0] == 0 and held[2] == pytest.approx(2 * held[1])


def test_the_pinion_bearings_are_tight_on_their_shaft_and_may_be_tight_in_the_web():
    """35 k6 on a bore of 35 0/-0.012 by its pairing, -0.030 to 0: some kilonewtons; 72 K7 is a transition fit."""
    reference = LIBRARY.reference("orchard-tractor/pinion-shaft")
    (loop,) = [loop for loop in reference.loops if loop.name == "end float of the pinion"]
    held = dict(slip_forces(as_wanted(reference), loop))
    inner, outer = held["inner ring at bearing@gear"], held["outer ring at bearing@gear"]
    by_hand = 0.12 * 206e3 / 2 * 0.020 * 35 / 37 / 35 * (1 - (35 / 46.285) ** 2) * 3.14159265 * 35 * 17
    assert inner.usual == pytest.approx(by_hand, rel=1e-6)
    # ISO 286: 72 K7 is +9/-21; ISO 492 Normal: a ring of 72 is 0/-13. A third of -21..+22 from the go side is -6.67.
    overlap = 0.021 - (0.021 + 0.009 + 0.013) / 3
    assert probable_clearance(-0.021, 0.022) == pytest.approx(-overlap, abs=1e-12)
    # Lamé, steel in a steel web 1.4 times its seat: p = E Δ/d / ((1.4² + 1)/(1.4² - 1) + (d² + b²)/(d² - b²)).
    bore_of_ring = 72 - 0.27 * 37
    give = (1.96 + 1) / (1.96 - 1) + (72**2 + bore_of_ring**2) / (72**2 - bore_of_ring**2)
    pressed = 206e3 * overlap * 72 / 74 / 72 / give
    assert outer.usual == pytest.approx(0.12 * pressed * 3.14159265 * 72 * 17, rel=1e-6)
    assert outer.usual == pytest.approx(870, abs=5) and outer.least == 0 < outer.most
    # At most 21 µm overlap, in a wall of 3 times the seat, at friction 0.18; 95 in 100 draws stay below that.
    give = 10 / 8 + (72**2 + bore_of_ring**2) / (72**2 - bore_of_ring**2)
    assert outer.most < 0.18 * 206e3 * 0.021 * 72 / 74 / 72 / give * 3.14159265 * 72 * 17
    assert joint_forces(as_wanted(reference), reference.joints[0]).loops[0].press_fits == tuple(
        slip_forces(as_wanted(reference), loop)
    )


def test_an_aluminium_hub_that_is_warm_lets_go_of_its_rings():
    """47 across, (23.5 - 11.5) millionths, 40 K: 0.0226 of the 0.033 that they overlap at most; a hotter axle holds the inner ones faster."""
    hub = LIBRARY.reference("freight-tricycle/front-hub")
    (loop,) = [each for each in hub.loops if each.name == "seat gap"]
    cold, warm, hot_axle = (
        dict(slip_forces(as_wanted(hub), loop, heat))
        for heat in (Heat(), Heat(at_c=60.0), Heat(named=(("axle", 60.0),)))
    )
    outer, inner = "outer ring at bearing@left", "inner ring at bearing@left"
    assert cold[outer].usual > 900 and warm[outer].usual == 0
    assert warm[outer].most < 0.4 * cold[outer].most
    assert warm[inner] == cold[inner] and hot_axle[inner].most > cold[inner].most
    assert joint_forces(as_wanted(hub), hub.joints[0], heat=Heat(at_c=60.0)).loops[0].press_fits == tuple(
        slip_forces(as_wanted(hub), loop, Heat(at_c=60.0))
    )


def test_a_fit_that_nobody_gives_holds_nothing_that_could_be_told():
    reference = LIBRARY.reference("boat-trailer/hub")
    assert [name for loop in reference.loops for name, _ in slip_forces(as_wanted(reference), loop)] == []
