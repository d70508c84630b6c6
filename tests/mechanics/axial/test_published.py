"""The axial engine against worked examples that others have published; the source stands beside each.

"read": the printed numbers were seen in public text; "memory": printed answer from memory of the book, worked again here.
"""

from math import pi

import numpy as np
import pytest

from stackcheck.mechanics.axial.bearings import axial_play, palmgren_balls, unloads_at
from stackcheck.mechanics.axial.laws import body, held, one_way_bearing
from stackcheck.mechanics.axial.network import Network, solve
from stackcheck.mechanics.axial.springs import DiscSpring, coil_stiffness
from stackcheck.mechanics.axial.threads import Thread, tension_from, torque_for
from stackcheck.mechanics.axial.tighten import Joint, Warm, frozen, tightened
from tests.discs import disc_force

LBF_N, INCH_MM = 4.4482216, 25.4


def force(state, name: str) -> float:
    return float(state.forces[name][0])


def test_a_bolted_joint_shares_an_outside_load_by_stiffness():
    """Shigley, 9th ed., example 8-3 (a) (read): F_i 25 kip, P 6 kip, k_b 6.50, k_m 13.8 Mlbf/in, A_t 0.373 in²:
    C 0.320, bolt 67.02 and 72.17 kpsi."""
    per_mm = LBF_N * 1e6 / INCH_MM
    members = Network(elements=(body("members", "head", "nut", length=100.0, k=13.8 * per_mm),), fixed={"head": 0.0})
    joint = Joint(name="bolt", head="head", nut="nut", force=25e3 * LBF_N, k=6.50 * per_mm)
    at = tightened(members, (joint,), {"nut": 100.0})
    pulled = frozen(members, (joint,), at)
    loaded = solve(Network(elements=pulled.elements, fixed=pulled.fixed, loads={"nut": 6e3 * LBF_N}), {"nut": 100.0})
    stress_before, stress_after = (f / LBF_N / 0.373 / 1e3 for f in (25e3 * LBF_N, force(loaded, "bolt")))
    assert stress_before == pytest.approx(67.02, abs=0.005)
    assert stress_after == pytest.approx(72.17, abs=0.005)
    assert (force(loaded, "bolt") - 25e3 * LBF_N) / (6e3 * LBF_N) == pytest.approx(0.320, abs=0.0005)


def test_a_torque_by_the_short_form():
    """Shigley, 9th ed., example 8-3 (b) (memory): K 0.2, 3/4 in, 25 kip: 3750 lbf·in. By the book's own words (memory) K is
    about 0.20 for friction 0.15 of thread and face in any size, r 0.625 d: so the whole sum comes within that rounding."""
    thread = Thread(d_mm=0.75 * INCH_MM, pitch_mm=INCH_MM / 16)
    whole = torque_for(
        tension_n=25e3 * LBF_N,
        thread=thread,
        thread_friction=0.15,
        face_friction=0.15,
        face_radius_mm=0.625 * thread.d_mm,
    )
    assert whole / (25e3 * LBF_N * thread.d_mm) == pytest.approx(0.19, abs=0.005)
    assert whole / (LBF_N * INCH_MM) == pytest.approx(3750, rel=0.06)


@pytest.mark.parametrize("friction, tension_kn", [(0.10, 18.6), (0.14, 13.7), (0.20, 9.8)])
def test_the_tension_of_an_arbor_nut_by_its_friction(friction, tension_kn):
    """Worked by hand with Shigley, eq. 8-26: M16x1.5, mean radius 10.4, 40 N·m."""
    tension = tension_from(
        torque_nmm=40e3, thread=Thread(d_mm=16, pitch_mm=1.5), thread_friction=friction, face_friction=friction,
        face_radius_mm=10.4,
    )  # fmt: skip
    assert tension == pytest.approx(1e3 * tension_kn, abs=50)


COARSE = ((10, 1.5), (16, 2.0), (24, 3.0), (30, 3.5))


@pytest.mark.parametrize("d, pitch", COARSE)
@pytest.mark.parametrize("friction", [0.10, 0.15, 0.20])
def test_most_of_a_torque_is_friction_and_the_short_sum_of_its_terms_a_little_less(d, pitch, friction):
    """VDI 2230 and Motosh: T = F (0.159 P + 0.577 d2 μ + r μ) (from memory), 0.2 to 0.6 % less; 83 to 95 % is friction."""
    thread, radius = Thread(d_mm=d, pitch_mm=pitch), 0.65 * d
    whole = torque_for(
        tension_n=1.0, thread=thread, thread_friction=friction, face_friction=friction, face_radius_mm=radius
    )
    smooth = torque_for(tension_n=1.0, thread=thread, thread_friction=0, face_friction=0, face_radius_mm=radius)
    short = 0.159 * pitch + 0.577 * thread.flank_mm * friction + radius * friction
    assert 0.83 <= 1 - smooth / whole <= 0.95
    assert 0.001 <= 1 - short / whole <= 0.0065


def test_a_bar_held_at_both_ends_shares_two_loads_between_its_ends():
    """Timoshenko, Strength of Materials I, 3rd ed. 1955, p. 26 problem 10 (read): 1000 lb at 0.3 l from one end, 500 lb at
    0.4 l from the other: 900 and 600 lb."""
    pieces = [(3, "top", "p"), (3, "p", "q"), (4, "q", "bottom")]
    bar = Network(
        elements=tuple(held(f"{a}{b}", a, b, length=float(l), k=1e6 / l) for l, a, b in pieces),
        fixed={"top": 0.0, "bottom": 10.0}, loads={"p": 1000.0, "q": 500.0},
    )  # fmt: skip
    state = solve(bar, {"p": 3.0, "q": 6.0})
    assert force(state, "topp") == pytest.approx(900)
    assert -force(state, "qbottom") == pytest.approx(600)


def test_a_second_spring_carries_only_after_the_gap_is_closed():
    """Bhandari, Design of Machine Elements, example 10.19 (read): springs of free lengths 15 mm apart under 1000 N:
    706.02 and 293.98 N, pressed 24.99 and 9.99 mm."""
    outer = coil_stiffness(wire_mm=6, coil_mm=36, coils=10, shear_mpa=81_370)
    inner = coil_stiffness(wire_mm=5, coil_mm=30, coils=8, shear_mpa=81_370)
    nested = Network(
        elements=(body("outer", "seat", "plate", length=100.0, k=outer), body("inner", "seat", "plate", length=85.0, k=inner)),
        fixed={"seat": 0.0}, loads={"plate": -1000.0},
    )  # fmt: skip
    state = solve(nested, {"plate": 100.0})
    assert -force(state, "outer") == pytest.approx(706.02, abs=0.005)
    assert -force(state, "inner") == pytest.approx(293.98, abs=0.005)
    assert 100 - float(state.positions["plate"][0]) == pytest.approx(24.99, abs=0.005)


def test_a_tube_warmed_against_a_wall_beyond_its_gap():
    """Bhandari, example 4.22 (read): steel tube 200 mm, 300 mm², 25 to 250 °C, gap 0.15 mm, E 207 000, α 10.8e-6: 104 328 N."""
    tube = Network(
        elements=(body("tube", "wall", "end", length=200 * (1 + 10.8e-6 * 225), k=207_000 * 300 / 200),),
        fixed={"wall": 0.0, "end": 200.15},
    )  # fmt: skip
    assert -force(solve(tube), "tube") == pytest.approx(104_328, abs=1)


def test_a_nut_turned_a_quarter_on_a_bolt_in_a_tube():
    """A textbook's companion script, example 8.23 (inputs read, answer worked again): steel bolt 20 in a copper tube 28/40,
    600 mm, quarter turn of pitch 2; E 2e5 and 1.2e5: 91.73 and 44.96 N/mm², 28 817 N."""
    bolt_area, tube_area = pi / 4 * 400, pi / 4 * (1600 - 784)
    tube = Network(
        elements=(body("tube", "head", "nut", length=600.0, k=1.2e5 * tube_area / 600),), fixed={"head": 0.0}
    )
    joint = Joint(
        name="bolt", head="head", nut="nut", force=0.0, k=2e5 * bolt_area / 600, turned_deg=90.0, pitch_mm=2.0
    )
    state = solve(frozen(tube, (joint,), tightened(tube, (joint,), {"nut": 600.0})), {"nut": 600.0})
    assert force(state, "bolt") == pytest.approx(28_817, abs=1)
    assert force(state, "bolt") / bolt_area == pytest.approx(91.73, abs=0.005)
    assert -force(state, "tube") / tube_area == pytest.approx(44.96, abs=0.005)


def pair_under_load(preload_n: float, load_n: float, ca: float, cb: float, exponent: float):
    """Two bearings back to back, set to a preload by their offsets, with a load that helps the first."""
    offsets = ((preload_n / ca) ** (1 / exponent), (preload_n / cb) ** (1 / exponent))
    pair = Network(
        elements=(
            one_way_bearing("first", "shaft", "case", start=-offsets[0], c=ca, exponent=exponent, side=1),
            one_way_bearing("second", "shaft", "case", start=offsets[1], c=cb, exponent=exponent, side=-1),
        ),
        fixed={"case": 0.0}, loads={"shaft": -load_n},
    )  # fmt: skip
    return solve(pair)


@pytest.mark.parametrize("exponent, factor", [(1.5, 2.83), (10 / 9, 2.16)])
def test_the_second_of_a_preloaded_pair_lets_go_at_a_known_multiple_of_the_preload(exponent, factor):
    """SNFA precision bearing catalogue, limiting axial load (read): 2.83 P for balls; 2.16 by the same reasoning for tapers."""
    assert unloads_at(1.0, exponent) == pytest.approx(factor, abs=0.005)
    just_before = pair_under_load(500.0, 500 * unloads_at(1.0, exponent) * 0.999, 1e5, 1e5, exponent)
    beyond = pair_under_load(500.0, 500 * unloads_at(1.0, exponent) * 1.001, 1e5, 1e5, exponent)
    assert 0 < -force(just_before, "second") < 1
    assert force(beyond, "second") == 0


@pytest.mark.parametrize("in_tandem, helps, back", [(1, 2.83, 2.83), (2, 4.16, 2.08)])
def test_a_tandem_against_one_lets_go_later_one_way_than_the_other(in_tandem, helps, back):
    """SNFA precision bearing catalogue, limiting axial load (read): back to back 2.83 P; two in tandem against one
    4.16 P on the tandem, 2.08 P on the single one."""
    preload, c = 500.0, 1e5
    for ca, cb, factor in ((in_tandem * c, c, helps), (c, in_tandem * c, back)):
        just_before, beyond = (
            pair_under_load(preload, share * factor * preload, ca, cb, 1.5) for share in (0.995, 1.005)
        )
        assert 0 < -force(just_before, "second") < 5
        assert force(beyond, "second") == 0


@pytest.mark.parametrize("in_tandem, printed", [(2, 0.63), (3, 0.48), (4, 0.40)])
def test_bearings_in_tandem_give_less_under_one_load(in_tandem, printed):
    """SNFA precision bearing catalogue, tandem factor W (read): 0.63, 0.48, 0.40 of the deflection of one."""
    rows = tuple(
        one_way_bearing(f"row {i}", "shaft", "case", start=0.0, c=1e5, exponent=1.5, side=1) for i in range(in_tandem)
    )

    def moved(elements) -> float:
        state = solve(Network(elements=elements, fixed={"case": 0.0}, loads={"shaft": -1e3}), {"shaft": -0.01})
        return float(state.positions["shaft"][0])

    assert moved(rows) / moved(rows[:1]) == pytest.approx(printed, abs=0.005)


def test_unequal_linear_bearings_unload_as_the_catalogue_says():
    """SKF General Catalogue, preload (formula read): K_a = F0 (1 + cA/cB); cA 300, cB 200 kN/mm, F0 8 kN: 20.0 kN."""
    state = pair_under_load(8e3, 20e3, 300e3, 200e3, 1.0)
    assert force(state, "second") == pytest.approx(0, abs=0.01)
    assert force(state, "first") == pytest.approx(20e3, abs=0.01)


@pytest.mark.parametrize("preload, printed", [(65, 3.0), (195, 4.2), (390, 5.3)])
def test_the_rigidity_of_a_preloaded_pair_of_angular_bearings(preload, printed):
    """SNFA catalogue, series of 15°, 13 balls of 7.14 (read): R_a = 2.83 P_r/δ, printed 3.0, 4.2, 5.3 daN/µm. Its own
    constant is 2e-3 in daN where Palmgren's is 4.36e-4 in N, and prints are rounded: good to 4 %."""
    c = palmgren_balls(balls=13, ball_mm=7.14, contact_deg=15)
    deflection_um = 1e3 * (preload / c) ** (2 / 3)
    assert 2.83 * preload / 10 / deflection_um == pytest.approx(printed, rel=0.04)


@pytest.mark.parametrize(
    "size, printed",
    [((50, 25.4, 3, 1.1), 12_000), ((50, 25.4, 2, 1.4), 4760), ((50, 25.4, 1.25, 1.6), 1550)],
)  # fmt: skip
def test_the_force_of_a_disc_spring_at_three_quarters_of_its_cone(size, printed):
    """DIN 2093:1992 (now EN 16983), F at 0.75 h0 (memory, worked again): 12 000, 4760, 1550 N as printed, rounded to three figures."""
    spring = DiscSpring(**dict(zip(("outside_mm", "inside_mm", "thickness_mm", "cone_mm"), size)))
    assert disc_force(spring, 0.75 * spring.cone_mm) == pytest.approx(printed, rel=2.5e-3)


def test_axial_play_of_a_deep_groove_bearing():
    """NSK, Rolling Bearings catalogue, section 15.3 and Table 15.4 (read): 6205, K 1.06, clearance 0.010: about 0.106 mm."""
    assert axial_play(groove_distance_mm=(1.06 / 2) ** 2, radial_clearance_mm=0.010) == pytest.approx(0.106, abs=0.001)


def test_a_warm_shaft_in_a_colder_housing_grows_by_the_difference():
    """150 mm of steel shaft and cast iron, 40 K warmer all over: 0.006 mm; against aluminium 0.072 mm (expansions from memory)."""
    for housing, grown in ((10.5e-6, 0.006), (23.5e-6, 0.072)):
        assert abs(150 * 40 * (11.5e-6 - housing)) == pytest.approx(grown, abs=0.0005)


def test_a_clamped_stack_of_another_metal_gains_tension_when_warm():
    """ΔF = (Σ α_i L_i ΔT - α_b L ΔT)/(1/k_b + 1/k): the closed form of the joint diagram."""
    stack = Network(elements=(body("sleeve", "head", "nut", length=60.0, k=4e5),), fixed={"head": 0.0})
    joint = Joint(name="bolt", head="head", nut="nut", force=10e3, k=2e5, expansion_per_k=11.5e-6)
    at = tightened(stack, (joint,), {"nut": 60.0})
    warm = frozen(stack, (joint,), at, warm={"sleeve": Warm(kelvin=50, expansion_per_k=23.5e-6)}, joint_kelvin=50)
    grip = float(at.distance("head", "nut")[0])
    wanted = 10e3 + (23.5e-6 * 60 * 50 - 11.5e-6 * grip * 50) / (1 / 2e5 + 1 / 4e5)
    assert force(solve(warm, {"nut": 60.0}), "bolt") == pytest.approx(wanted, rel=1e-9)


def test_the_tension_of_many_frictions_is_that_of_each():
    """A nut of which little is known takes what the torque has, and never more than all of it."""
    own = {"torque_nmm": 40e3, "thread": Thread(d_mm=16, pitch_mm=1.5), "face_radius_mm": 10.4}
    mu, prevailing = np.array([0.10, 0.14, 0.20]), np.array([0.0, 5e3, 41e3])
    many = tension_from(thread_friction=mu, face_friction=mu, prevailing_nmm=prevailing, **own)
    each = [
        tension_from(thread_friction=one, face_friction=one, prevailing_nmm=lost, **own)
        for one, lost in zip(mu.tolist(), prevailing.tolist())
    ]
    assert many.tolist() == each
    assert each[-1] == 0
    with pytest.raises(ValueError, match="not below 0"):
        tension_from(thread_friction=-mu, face_friction=mu, **own)
