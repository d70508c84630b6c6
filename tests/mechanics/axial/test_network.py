"""Laws of the axial network, on random networks and on small ones where a hand sum goes wrong."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from stackcheck.mechanics.axial.laws import (
    PLAIN,
    Element,
    body,
    bolt,
    crush,
    deep_groove,
    disc,
    held,
    one_way_bearing,
    spring,
    tension,
)
from stackcheck.mechanics.axial.loose import reach
from stackcheck.mechanics.axial.network import Network, NetworkError, solve
from stackcheck.mechanics.axial.plain import balance as balance_plainly
from stackcheck.mechanics.axial.springs import DiscSpring, SnapsThrough, disc_stack, free_height
from stackcheck.mechanics.axial.tighten import Joint, frozen, tightened
from stackcheck.mechanics.disc_groups import groups
from tests.discs import disc_force

thorough = settings(max_examples=40, deadline=None)


def force(state, name: str) -> float:
    return float(state.forces[name][0])


@st.composite
def networks(draw) -> Network:
    """Faces on a line between two walls, joined at random; held so that there is a state."""
    size = draw(st.integers(2, 6))
    faces = ["left", *(f"f{i}" for i in range(size)), "right"]
    where = {face: 10.0 * i for i, face in enumerate(faces)}
    elements = [
        held(f"keeps {face}", "left", face, length=where[face], k=draw(st.floats(10, 1e3))) for face in faces[1:-1]
    ]
    for i in range(draw(st.integers(size, 3 * size))):
        a, b = sorted(draw(st.lists(st.sampled_from(range(len(faces))), min_size=2, max_size=2, unique=True)))
        length = where[faces[b]] - where[faces[a]] + draw(st.floats(-1, 1))
        k = draw(st.floats(1e3, 1e6))
        kind = draw(st.sampled_from(["push", "pull", "held", "balls", "groove"]))
        between = (f"e{i}", faces[a], faces[b])
        if kind == "balls":
            elements.append(
                one_way_bearing(*between, start=length, c=k, exponent=1.5, side=draw(st.sampled_from([1, -1])))
            )
        elif kind == "groove":
            elements.append(deep_groove(*between, distance=0.3, cos_free_angle=0.98, zk=k, middle=length))
        else:
            elements.append({"push": body, "pull": bolt, "held": held}[kind](*between, length=length, k=k))
    loads = {face: draw(st.floats(-5e3, 5e3)) for face in faces[1:-1]}
    return Network(elements=tuple(elements), fixed={"left": 0.0, "right": where["right"]}, loads=loads)


def energy(network: Network, x: np.ndarray) -> tuple[float, np.ndarray]:
    """Energy and its slope, element by element; the energy of a law by a fine sum over its force (Gauss-Legendre)."""
    free = [face for face in network.faces if face not in network.fixed]
    at = dict(network.fixed) | dict(zip(free, x))
    slope = dict.fromkeys(network.faces, 0.0)
    total = 0.0
    nodes, weights = np.polynomial.legendre.leggauss(64)
    for element in network.elements:
        e = at[element.b] - at[element.a]
        pull = float(element.law(np.array([e]), *element.values)[0][0])
        start = float(element.values[0])
        stretch = (e - start) / 2
        total += stretch * float(weights @ element.law(start + stretch * (nodes + 1), *element.values)[0])
        slope[element.b] += pull
        slope[element.a] -= pull
    for face, load in network.loads.items():
        total -= load * at[face]
        slope[face] -= load
    return total, np.array([slope[face] for face in free])


@thorough
@given(network=networks())
def test_a_general_minimiser_finds_the_same_forces(network):
    """scipy.optimize.minimize (trust-region Newton conjugate gradient is not given the curvature: BFGS) from our faces moved."""
    state = solve(network)
    free = [face for face in network.faces if face not in network.fixed]
    x = np.array([float(state.positions[face][0]) for face in free])
    largest = max(abs(float(f[0])) for f in state.forces.values())
    value, slope = energy(network, x)
    assert np.abs(slope).max() <= 1e-6 * max(largest, 2.0)
    found = minimize(
        lambda y: energy(network, y),
        x + 1e-3,
        jac=True,
        method="L-BFGS-B",
        options={"maxiter": 20_000, "maxfun": 40_000, "ftol": 0, "gtol": 1e-9 * max(largest, 1.0)},
    )
    assert found.fun >= value - 1e-6 * max(abs(value), 1.0)


@thorough
@given(network=networks(), moved=st.floats(-50, 50), seed=st.integers(0, 2**16))
def test_the_forces_are_the_same_from_wherever_one_starts(network, moved, seed):
    generator = np.random.default_rng(seed)
    start = {face: moved + float(generator.uniform(-20, 20)) for face in network.faces}
    one, other = solve(network), solve(network, start)
    largest = max(abs(float(f[0])) for f in one.forces.values())
    for name in one.forces:
        assert force(one, name) == pytest.approx(force(other, name), abs=1e-6 * max(largest, 1.0))


@thorough
@given(network=networks(), moved=st.floats(-1, 1))
def test_plain_numbers_find_the_forces_that_arrays_find(network, moved):
    """What a few whole steps in plain numbers do not settle is left to the arrays, and never settled elsewhere."""
    start = {face: 10.0 * i + moved for i, face in enumerate(network.faces)}
    plainly = solve(network, start)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("stackcheck.mechanics.axial.plain.STEPS", 0)
        in_arrays = solve(network, start)
    largest = max(abs(float(f[0])) for f in in_arrays.forces.values())
    for name in in_arrays.forces:
        assert force(plainly, name) == pytest.approx(force(in_arrays, name), abs=1e-6 * max(largest, 1.0))


@thorough
@given(network=networks())
def test_steps_of_a_searched_length_find_the_forces_that_whole_steps_find(network):
    """What whole steps do not settle is left to the search along each step."""
    whole = solve(network)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("stackcheck.mechanics.axial.plain.STEPS", 0)
        patch.setattr("stackcheck.mechanics.axial.newton.WHOLE_STEPS", 1)
        searched = solve(network)
    largest = max(abs(float(f[0])) for f in whole.forces.values())
    for name in whole.forces:
        assert force(searched, name) == pytest.approx(force(whole, name), abs=1e-6 * max(largest, 1.0))


@thorough
@given(network=networks())
def test_every_force_is_in_balance_and_bodies_never_pull(network):
    state = solve(network)
    largest = max([abs(float(f[0])) for f in state.forces.values()] + [abs(load) for load in network.loads.values()])
    assert state.out_of_balance <= 1e-9 * largest + 2e-6  # the last bits of a position times the stiffness
    for element in network.elements:
        if element.law is spring:
            *_, least, most = element.values
            assert least <= force(state, element.name) <= most


@pytest.mark.parametrize(
    ("fixed", "loads"), [({"f0": 0.0, "f40": 39.9}, {"f20": 5e3}), ({"f0": 0.0}, {"f40": -5e3})],
    ids=["between two walls", "against one wall"],
)  # fmt: skip
def test_plain_numbers_find_the_forces_of_as_many_elements_as_they_take(fixed, loads):
    """A row of forty, half of its faces held by a soft support each."""
    faces = [f"f{i}" for i in range(41)]
    row = [body(f"row {i}", *pair, length=1.0, k=1e6) for i, pair in enumerate(pairwise(faces))]
    soft = [held(f"support {i}", "f0", faces[i], length=i - 0.01 * (i % 3), k=200.0) for i in range(1, 21)]
    network = Network(elements=(*row, *soft), fixed=fixed, loads=loads)
    start = {face: float(i) for i, face in enumerate(faces)} | fixed
    _, _, forces, out, _ = balance_plainly(network.elements, fixed, loads, start)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("stackcheck.mechanics.axial.plain.STEPS", 0)
        in_arrays = solve(network, start)
    assert out <= 1e-9 * 5e3 + 1e-6
    assert forces == pytest.approx([force(in_arrays, each.name) for each in network.elements], abs=1e-6 * 5e3)


def test_a_number_that_an_array_holds_alone_is_as_good_as_a_plain_one():
    """What comes from an earlier state is an array of one value."""
    pulls = [12.5e3, np.float64(12.5e3), np.array(12.5e3), np.array([12.5e3])]
    assert {force(solve(hub(pull=pull), DRAWN), "tube") for pull in pulls} == {force(solve(hub(), DRAWN), "tube")}


@pytest.mark.parametrize(("tube", "steps"), [(58.0, 1), (58.3, 4)], ids=["nothing preloaded", "tube too long"])
def test_a_hub_is_in_balance_after_few_steps(tube, steps):
    """Between two bearings it floats to where both carry alike: from one of them alone it would come back slowly."""
    assert solve(hub(tube=tube), DRAWN).steps <= steps


def test_many_variants_side_by_side_are_each_the_single_one():
    tubes = np.array([57.98, 58.00, 58.02, 58.30])
    many = solve(hub(tube=tubes), DRAWN)
    for i, tube in enumerate(tubes):
        one = solve(hub(tube=float(tube)), DRAWN)
        for name, values in one.forces.items():
            assert float(np.broadcast_to(many.forces[name], 4)[i]) == pytest.approx(float(values[0]), abs=1e-4)


# A hub on two deep-groove bearings: axle, collars, spacer tube inside; the hub between the outer rings.

DRAWN = {
    "head": 0.0, "a1": 18.0, "m1": 25.0, "t1": 32.0, "t2": 90.0, "m2": 97.0, "a2": 104.0, "nut": 126.0,
    "o1": 25.0, "s1": 32.0, "s2": 90.0, "o2": 97.0,
}  # fmt: skip
RING = 8e6


def hub(
    *, pull: object = 12.5e3, tube: object = 58.0, seats: object = 57.95, collars: tuple[object, object] = (18.0, 22.0),
    behind_outer: float = 0.0, outer_held: bool = True,
) -> Network:  # fmt: skip
    """The outer rings stand against the shoulders of the hub; `outer_held`: a press fit keeps them there."""
    seated = held if outer_held else body
    elements = [
        tension("axle", "head", "nut", force=pull),
        body("left collar", "head", "a1", length=collars[0], k=2e6), body("left ring, outside half", "a1", "m1", length=7.0, k=RING),
        body("left ring, inside half", "m1", "t1", length=7.0, k=RING), body("tube", "t1", "t2", length=tube, k=1.05e6),
        body("right ring, inside half", "t2", "m2", length=7.0, k=RING), body("right ring, outside half", "m2", "a2", length=7.0, k=RING),
        body("right collar", "a2", "nut", length=collars[1], k=2e6),
        deep_groove("left balls", "m1", "o1", distance=0.28, cos_free_angle=1 - 0.010 / 0.56, zk=9e5),
        deep_groove("right balls", "m2", "o2", distance=0.28, cos_free_angle=1 - 0.010 / 0.56, zk=9e5),
        held("hub", "s1", "s2", length=seats, k=9e5),
        seated("left outer ring", "o1", "s1", length=7.0 + behind_outer, k=RING),
        seated("right outer ring", "s2", "o2", length=7.0, k=RING),
    ]  # fmt: skip
    return Network(elements=tuple(elements), fixed={"head": 0.0})


def preload(network: Network) -> float:
    return abs(force(solve(network, DRAWN), "left balls"))


def test_tension_by_torque_does_not_rise_with_the_length_of_the_stack():
    longer = solve(hub(collars=(18.5, 22.0)), DRAWN)
    assert force(longer, "axle") == force(solve(hub(), DRAWN), "axle") == 12.5e3


def test_tension_by_angle_rises_with_the_stiffness_that_it_meets():
    """ΔF = (P θ/360)/(1/k_b + 1/k): M16x1.5 turned 8° on with k_b 2.0e5 and k 1.1e6 gains 5.64 kN."""
    stack = Network(elements=(body("stack", "head", "nut", length=60.0, k=1.1e6),), fixed={"head": 0.0})
    joint = Joint(name="bolt", head="head", nut="nut", force=5e3, k=2.0e5, turned_deg=8.0, pitch_mm=1.5)
    at = tightened(stack, (joint,), {"nut": 60.0})
    assert force(solve(frozen(stack, (joint,), at), {"nut": 60.0}), "bolt") - 5e3 == pytest.approx(5640, abs=5)


def test_the_clamp_shortens_the_tube_so_that_equal_lengths_leave_less_than_none():
    """58 long, 12.5 kN: 0.012 mm shorter, and the rings with it."""
    state = solve(hub(tube=57.95), DRAWN)
    assert 57.95 - float(state.distance("t1", "t2")[0]) == pytest.approx(0.012, abs=0.001)


def test_the_place_of_a_ring_decides_what_it_does():
    """The same 0.5 mm: beside the tube it loads the balls one way, behind an outer ring the other way, outboard not at all."""
    plain = solve(hub(), DRAWN)
    inboard = solve(hub(tube=58.5), DRAWN)
    behind = solve(hub(behind_outer=0.5), DRAWN)
    outboard = solve(hub(collars=(18.5, 22.0)), DRAWN)
    assert force(plain, "left balls") == pytest.approx(0, abs=1e-3)
    assert force(inboard, "left balls") > 1e3
    assert force(behind, "left balls") < -1e3
    assert force(outboard, "left balls") == pytest.approx(0, abs=1e-3)
    assert float(outboard.positions["m1"][0] - plain.positions["m1"][0]) == pytest.approx(0.5, abs=1e-6)


def test_outer_rings_that_may_slide_turn_preload_into_nothing_where_they_stand_against_shoulders_inside():
    """A tube too long then lets them walk; one too short still presses them against the shoulders."""
    assert preload(hub(tube=58.5)) > 1e3
    assert preload(hub(tube=58.5, outer_held=False)) == pytest.approx(0, abs=1e-3)
    assert preload(hub(tube=57.5, outer_held=False)) > 1e3


def test_swapped_unequal_collars_change_no_force_and_move_the_hub():
    plain, swapped = solve(hub(), DRAWN), solve(hub(collars=(22.0, 18.0)), DRAWN)
    for name in plain.forces:
        assert force(swapped, name) == pytest.approx(force(plain, name), abs=1e-3)
    assert float(swapped.positions["m1"][0] - plain.positions["m1"][0]) == pytest.approx(4.0, abs=1e-6)


def test_the_preload_of_a_two_bearing_loop_is_that_of_the_closed_form():
    """2 (δ(F) + play/2) + F (1/k_h + 1/k_o + 1/k_s + 1/k_i) = |H - S + N (1/k_s + 1/k_i)|, balls as the network's own law."""
    tube, clamp = 58.35, 12.5e3
    network = hub(tube=tube)
    f = preload(network)
    k_i, k_o = RING / 2, RING / 2
    stretch = abs(57.95 - tube + clamp * (1 / 1.05e6 + 1 / k_i)) - f * (1 / 9e5 + 1 / k_o + 1 / 1.05e6 + 1 / k_i)
    balls = next(element for element in network.elements if element.name == "left balls")
    assert float(balls.law(np.array([stretch / 2]), *balls.values)[0][0]) == pytest.approx(f, rel=1e-6)


def test_the_preload_cannot_exceed_the_clamp():
    """From there on the tube is loose and the balls carry all of it."""
    state = solve(hub(tube=57.95 - 0.9, pull=3e3), DRAWN)
    assert force(state, "tube") == pytest.approx(0, abs=1e-6)
    assert abs(force(state, "left balls")) == pytest.approx(3e3, rel=1e-6)


def test_a_missing_collar_leaves_torque_right_and_clamp_nil_once_the_thread_ends():
    """The nut meets the end of its thread: the stop carries everything."""
    stop = body("end of the thread", "head", "nut", length=120.0, k=5e6)
    whole, short = hub(), hub(collars=(18.0, 0.5))
    at_stop = solve(Network(elements=(*short.elements, stop), fixed=short.fixed), DRAWN)
    reaching = solve(Network(elements=(*whole.elements, stop), fixed=whole.fixed), DRAWN)
    assert force(reaching, "tube") == pytest.approx(-12.5e3, rel=1e-6)
    assert force(at_stop, "axle") == 12.5e3
    assert force(at_stop, "tube") == 0
    assert force(at_stop, "end of the thread") == pytest.approx(-12.5e3, rel=1e-6)


def test_a_body_between_faces_that_stand_still_never_pulls():
    for apart, pushes in ((1.5, 0.0), (1.0, 0.0), (0.5, 5e4)):
        stands = Network(elements=(body("body", "l", "r", length=1.0, k=1e5),), fixed={"l": 0.0, "r": apart})
        assert -force(solve(stands), "body") == pytest.approx(pushes)


def test_two_nested_tubes_share_a_force_the_longer_one_first():
    """N1 = k1 u, N2 = k2 (u - Δ)."""
    nested = Network(
        elements=(body("long", "wall", "plate", length=50.1, k=2e5), body("short", "wall", "plate", length=50.0, k=3e5)),
        fixed={"wall": 0.0}, loads={"plate": -40e3},
    )  # fmt: skip
    state = solve(nested, {"plate": 50.0})
    u = (40e3 + 3e5 * 0.1) / 5e5
    assert -force(state, "long") == pytest.approx(2e5 * u, rel=1e-9)
    assert -force(state, "short") == pytest.approx(3e5 * (u - 0.1), rel=1e-9)


def test_both_legs_pulled_share_a_mismatch_by_their_softness():
    """F = mismatch/(1/k1 + 1/k2); leg 1 moves mismatch k2/(k1 + k2)."""
    legs = Network(
        elements=(
            held("left leg", "left", "inner left", length=0.0, k=200.0), held("axle", "inner left", "inner right", length=131.0, k=1e8),
            held("right leg", "right", "inner right", length=0.0, k=100.0),
        ),
        fixed={"left": 0.0, "right": 129.0},
    )  # fmt: skip
    state = solve(legs, {"inner right": 129.0})
    assert abs(force(state, "axle")) == pytest.approx(2 / (1 / 200 + 1 / 100), rel=1e-4)
    assert abs(float(state.positions["inner left"][0])) == pytest.approx(2 * 100 / 300, rel=1e-4)


def test_a_loose_part_lies_anywhere_between_its_neighbours():
    loose = Network(
        elements=(body("collar", "left", "ring", length=10.0, k=1e6), body("sleeve", "ring", "right", length=5.0, k=1e6)),
        fixed={"left": 0.0, "right": 15.4},
    )  # fmt: skip
    state = solve(loose, {"ring": 10.1})
    assert reach(loose, state, "ring") == (pytest.approx(10.0), pytest.approx(10.4))


def test_end_float_is_the_reach_of_the_member_that_moves():
    """play - |mismatch|, counted once: both bearings move together."""
    network = hub(tube=57.95 + 12.5e3 * (1 / 1.05e6 + 2 / RING))
    state = solve(network, DRAWN)
    low, high = reach(network, state, "s1")
    play = 2 * 0.28 * (1 - (1 - 0.010 / 0.56) ** 2) ** 0.5
    assert high - low == pytest.approx(play, abs=1e-6)


def test_a_joint_that_nothing_opposes_clamps_nothing():
    slack = Network(
        elements=(tension("axle", "head", "nut", force=1e3), bolt("strap", "head", "nut", length=5.0, k=1e3)),
        fixed={"head": 0.0},
    )
    with pytest.raises(NetworkError, match="nothing is clamped"):
        solve(slack)


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_is_refused(value):
    with pytest.raises(NetworkError, match="no number"):
        solve(Network(elements=(body("ring", "a", "b", length=value, k=1e6),), fixed={"a": 0.0}))


@pytest.mark.parametrize("k", [0.0, -1e5])
def test_a_stiffness_not_above_nothing_is_refused(k):
    with pytest.raises(NetworkError, match="stiffness"):
        solve(Network(elements=(body("ring", "a", "b", length=1.0, k=k),), fixed={"a": 0.0}))


OURS = DiscSpring(outside_mm=45, inside_mm=22.4, thickness_mm=2.0, cone_mm=1.1)


def spring_force(turned: str, height: float) -> float:
    counts = groups([way == "b" for way in turned])
    stack = Network(elements=disc_stack("springs", "seat", "plate", OURS, counts), fixed={"seat": 0.0, "plate": height})
    start = {f"springs {i}": 2.0 * i for i in range(1, len(counts))}
    return -force(solve(stack, start), "springs, group 1")


def test_one_disc_turned_round_changes_free_length_and_force_together():
    """Six discs laid a a b b a a: free 15.30, at 14.10 4759 N; the last turned: free 16.40, at 14.10 4296 N."""
    assert free_height(OURS, groups([False, False, True, True, False, False])) == pytest.approx(15.30)
    assert free_height(OURS, groups([False, False, True, True, False, True])) == pytest.approx(16.40)
    assert spring_force("aabbaa", 14.10) == pytest.approx(4759, abs=1)
    assert spring_force("aabbab", 14.10) == pytest.approx(4296, abs=1)


def test_discs_in_series_each_carry_the_force_of_one():
    assert spring_force("ab", 2 * (OURS.free_mm - 0.5)) == pytest.approx(disc_force(OURS, 0.5), rel=1e-9)
    assert spring_force("aa", 2 * OURS.thickness_mm + OURS.cone_mm - 0.5) == pytest.approx(
        2 * disc_force(OURS, 0.5), rel=1e-9
    )


def test_a_disc_that_snaps_through_gets_no_single_answer():
    with pytest.raises(SnapsThrough, match="several heights"):
        disc_stack("spring", "a", "b", DiscSpring(outside_mm=50, inside_mm=25.4, thickness_mm=1.0, cone_mm=1.6), (1,))


BETWEEN = ("", "a", "b")
ONE_OF_EACH = {
    "body": body(*BETWEEN, length=0.1, k=2e5), "bolt": bolt(*BETWEEN, length=0.1, k=2e5), "one piece": held(*BETWEEN, length=0.1, k=2e5),
    "tightened joint": tension(*BETWEEN, force=1e4), "deep groove": deep_groove(*BETWEEN, distance=0.3, cos_free_angle=0.98, zk=9e5),
    "one way": one_way_bearing(*BETWEEN, start=0.1, c=1e5, exponent=1.5, side=1),
    "disc": Element(name="", a="a", b="b", law=disc, values=(3.1, 2.0, 2.0, 1.1, 9e3)), "crush sleeve": Element(name="", a="a", b="b", law=crush, values=(0.1, 2e5, 1e4)),
}  # fmt: skip


@pytest.mark.parametrize("element", ONE_OF_EACH.values(), ids=ONE_OF_EACH)
@given(e=st.floats(-3, 3))
def test_a_law_says_the_same_of_a_plain_number_and_of_an_array(element, e):
    one, many = element.law(e, *element.values, PLAIN), element.law(np.array([e, e]), *element.values)
    for number, values in zip(one, many):
        assert list(values) == pytest.approx([number, number], rel=1e-12)


@pytest.mark.parametrize("element", ONE_OF_EACH.values(), ids=ONE_OF_EACH)
@given(e=st.floats(-3, 3))
def test_the_slope_of_a_law_is_the_slope_of_its_force(element, e):
    step = 1e-6
    before, at, after = (element.law(np.array([e + d]), *element.values) for d in (-step, 0.0, step))
    if abs(float(after[1][0]) - float(before[1][0])) <= 1e-2 * max(abs(float(at[1][0])), 1.0):  # no kink between
        assert (float(after[0][0]) - float(before[0][0])) / (2 * step) == pytest.approx(
            float(at[1][0]), rel=1e-3, abs=1.0
        )
    assert float(at[1][0]) >= 0
