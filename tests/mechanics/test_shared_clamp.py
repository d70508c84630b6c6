"""A clamp on two paths side by side, such as one tube inside another: against the network, by hand, and in its words."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.laws import body, tension
from stackcheck.mechanics.axial.network import Network, solve
from stackcheck.mechanics.axial.stiffness import tube_stiffness
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.shared_clamp import shared_between
from stackcheck.model.part import Amount
from stackcheck.model.reference import Joint, Reference
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
