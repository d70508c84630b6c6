"""A clamp on two paths side by side, such as one tube inside another: against the network, by hand, and in its words."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.laws import body, bolt, tension
from stackcheck.mechanics.axial.network import Network, solve
from stackcheck.mechanics.axial.stiffness import tube_stiffness
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.side_by_side import Beside, Gives, paths_beside, shared_between
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.part import Amount
from stackcheck.model.reference import Joint, Reference
from stackcheck.present.shared_clamp_words import shared_lines
from stackcheck.result.forces import all_forces
from stackcheck.value import replace
from tests.builders import reference, size

NUT = Joint(
    name="nut", clamps=("flange@left", "flange@right"), thread="M20", friction=(0.14, 0.14), face=size(30.0),
    torque=Amount(text="200 N·m", dimension="torque", nominal=200e3),
)  # fmt: skip


def nested(inner: float, outer: float, *, off: float = 0.0, beside: str = "collar", **more) -> Reference:
    """Two tubes between two flanges, these long, each `off` either way."""
    own = reference(
        "flange@left spacer flange@right nut", f"flange@left {beside} flange@right",
        sizes={
            "flange": {"length": (10.0, 10.0, 10.0), "bore": (20.5,), "outside": (44.0,)},
            "spacer": {"length": (inner, inner - off, inner + off), "bore": (20.5,), "outside": (30.0,)},
            "nut": {"length": (16.0, 16.0, 16.0)},
            beside: {"length": (outer, outer - off, outer + off), "bore": (34.0,), "outside": (44.0,)},
        },
        **more,
    )  # fmt: skip
    return replace(own, joints=(NUT,))


def told(own: Reference):
    return joint_forces(as_wanted(own), own.joints[0])


@given(
    st.floats(0, 1e5), st.floats(1e5, 1e7), st.floats(1e5, 1e7), st.floats(-0.2, 0.2)
)  # fmt: skip
def test_two_paths_share_as_the_network_has_it(force, k1, k2, longer):
    elements = (
        body("first", "a", "b", length=60.0 + longer, k=k1), body("second", "a", "b", length=60.0, k=k2),
        tension("bolt", "a", "b", force=force),
    )  # fmt: skip
    state = solve(Network(elements=elements, fixed={"a": 0.0}), {"b": 60.0})
    carried = shared_between(force_n=force, first_n_per_mm=k1, second_n_per_mm=k2, longer_mm=longer)
    for name, ours in zip(("first", "second"), carried):
        assert -float(state.forces[name][0]) == pytest.approx(ours, abs=1e-6 * max(force, 1.0) + 1e-3)


def test_equally_long_tubes_share_by_their_stiffness():
    forces = told(nested(60.0, 60.0))
    (shared,) = forces.shared
    stiff = [
        tube_stiffness(outside_mm=d, bore_mm=b, length_mm=60, modulus_mpa=206e3) for d, b in ((30, 20.5), (44, 34))
    ]
    total = sum(force.usual for force in shared.carried_n)
    assert total == pytest.approx(forces.tension_n.usual)
    assert shared.carried_n[0].usual / total == pytest.approx(stiff[0] / sum(stiff), rel=0.15)  # pressed over a cone


def test_a_longer_tube_bears_all_until_the_other_is_reached():
    (shared,) = told(nested(60.2, 60.0)).shared
    assert shared.carried_n[1].most == 0
    (other,) = told(nested(60.0, 60.2)).shared
    assert other.carried_n[0].most == 0


def test_where_a_hundredth_decides_the_shorter_tube_may_bear_something_or_nothing():
    """57 kN press the inner tube 0.044 shorter; the outer one is 0.02 to 0.08 shorter than it."""
    (shared,) = told(nested(60.05, 60.0, off=0.015)).shared
    assert shared.carried_n[1].least == 0 < shared.carried_n[1].most
    assert shared.carried_n[1].main_cause.startswith("difference of the two paths")


@pytest.mark.parametrize(
    "own",
    [
        replace(nested(60.0, 60.0), joints=(replace(NUT, clamps=("flange@left", "spacer")),)),
        nested(60.0, 60.0, beside="spring", kinds={"spring": "spring washer"}),
        reference("nut flange@left ring flange@right", "flange@left frame! flange@right"),
    ],
    ids=["not all of it in the grip", "a spring beside it", "a frame beside it"],
)
def test_what_is_no_pair_of_paths_in_a_grip_shares_nothing(own):
    own = own if own.joints else replace(own, joints=(NUT,))
    assert told(own).shared == ()


@given(
    st.floats(1e3, 1e5), st.floats(1e5, 1e7), st.floats(1e5, 1e7), st.floats(-0.1, 0.1), st.floats(1e5, 1e6)
)  # fmt: skip
def test_grip_and_axle_give_as_the_network_has_it(force, own, other, longer, rest):
    """A screw shorter by its travel than all the free lengths: the same force, and the same travel for it."""
    beside = Beside(
        loop=None, own_places=(), other_stack="", other_places=(), own_n_per_mm=own, other_n_per_mm=other,
        longer_mm=longer,
    )  # fmt: skip
    gives = Gives(row=1 / rest + 1 / own + 1 / 3e5, beside=(beside,))
    travel = float(gives.travel(force))
    assert float(gives.force(travel)) == pytest.approx(force, rel=1e-9)
    elements = (
        body("own", "a", "b", length=60.0 + longer, k=own), body("other", "a", "b", length=60.0, k=other),
        body("rest", "b", "c", length=20.0, k=rest),
        bolt("screw", "a", "c", length=80.0 + max(longer, 0.0) - travel, k=3e5),
    )  # fmt: skip
    state = solve(Network(elements=elements, fixed={"a": 0.0}), {"b": 60.0, "c": 80.0})
    assert float(state.forces["screw"][0]) == pytest.approx(force, rel=1e-6)


def turned(own: Reference) -> Reference:
    angle = Amount(text="60 deg", dimension="angle", nominal=60.0)
    snug = Amount(text="20 N·m", dimension="torque", nominal=20e3)
    return replace(own, joints=(replace(NUT, torque=snug, angle=angle),))


def test_an_angle_pulls_harder_where_two_tubes_bear_and_as_one_where_the_other_is_never_reached():
    alone = turned(reference(
        "flange@left spacer flange@right nut",
        sizes={
            "flange": {"length": (10.0, 10.0, 10.0), "bore": (20.5,), "outside": (44.0,)},
            "spacer": {"length": (60.0, 60.0, 60.0), "bore": (20.5,), "outside": (30.0,)},
            "nut": {"length": (16.0, 16.0, 16.0)},
        },
    ))  # fmt: skip
    one = told(alone).tension_n.usual
    assert told(turned(nested(60.0, 58.0))).tension_n.usual == pytest.approx(one, rel=1e-6)
    assert told(turned(nested(60.0, 60.0))).tension_n.usual > 1.02 * one


def test_settling_takes_more_where_two_tubes_bear_for_the_grip_is_stiffer():
    alone, both = (told(nested(60.0, other)).settling.loss_n.usual for other in (58.0, 60.0))
    assert both > 1.02 * alone


def test_each_of_two_paths_is_crushed_by_its_own_share():
    """Inner tube π/4 (30² - 20.5²) = 377 mm², outer one π/4 (44² - 34²) = 613 mm²; each its force over its area."""

    def pressed(outer: float, torque: float):
        amount = Amount(text="", dimension="torque", nominal=torque)
        own = nested(60.0, outer, kinds={"spacer": "spacer tube"})
        forces = joint_forces(as_wanted(own), replace(own.joints[0], torque=amount))
        stresses = {each.what[0]: each.stress_mpa.usual for each in forces.crushing if len(each.what) == 1}
        return stresses, [force.usual for force in forces.shared[0].carried_n]

    alone, (bears, nothing) = pressed(58.0, 600e3)
    assert nothing == 0.0 and alone == {"spacer": pytest.approx(bears / 376.8, rel=1e-3)}
    assert pressed(60.0, 600e3)[0] == {}  # 63 kN on the one and 102 on the other: both below 235 N/mm²
    both, (inner, outer) = pressed(60.0, 1000e3)
    assert both == {"spacer": pytest.approx(inner / 376.8, rel=1e-3), "collar": pytest.approx(outer / 612.6, rel=1e-3)}


def test_with_a_third_path_beside_them_no_division_is_told():
    """Each pair by itself would be told a share that the third path takes away."""
    own = reference(
        "flange@left spacer flange@right nut", "flange@left collar flange@right", "flange@left ring flange@right",
        sizes={
            "flange": {"length": (10.0, 10.0, 10.0), "bore": (20.5,), "outside": (60.0,)},
            "spacer": {"length": (60.0, 60.0, 60.0), "bore": (20.5,), "outside": (30.0,)},
            "collar": {"length": (60.0, 60.0, 60.0), "bore": (34.0,), "outside": (44.0,)},
            "ring": {"length": (60.0, 60.0, 60.0), "bore": (48.0,), "outside": (58.0,)},
            "nut": {"length": (16.0, 16.0, 16.0)},
        },
    )  # fmt: skip
    own = replace(own, joints=(NUT,))
    shared = told(own).shared
    assert len(shared) >= 2 and all(each.carried_n is None for each in shared)
    assert paths_beside(Unknowns(), as_wanted(own), own.joints[0]) == ()
    (joint,) = all_forces(own, None).joints
    lines = shared_lines(joint, with_found=False)
    assert lines and all("cannot tell how it divides" in line and "third path" in line for line in lines)
