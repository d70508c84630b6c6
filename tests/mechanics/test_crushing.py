"""What a clamp may crush: stress by hand, the worst first, and nothing said where the metal is not known or bears it."""

from __future__ import annotations

from math import pi

import pytest

from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.crushing import FACE_MPA, YIELDS_MPA, crushing
from stackcheck.mechanics.forces import joint_forces
from tests.mechanics.test_pressed_faces import TUBE, clamped

STEEL = {"material": "steel"}


def pressed(members: str, sizes: dict, newton_metres: float, **more):
    own, joint = clamped(members, sizes, **more)
    return crushing(as_wanted(own), joint, newton_metres * 1000), joint_forces(
        as_wanted(own), joint, torque_nmm=newton_metres * 1000
    ).tension_n


def test_a_thin_tube_yields_by_its_whole_section():
    thin = {"tube": TUBE | {"outside": (24.0,)}}
    (found,), tension = pressed("tube", thin, 120, face=30, tube=STEEL)
    assert found.what == ("tube",)
    assert found.stress_mpa.usual == pytest.approx(tension.usual / (pi / 4 * (24**2 - 20**2)))
    assert found.stress_mpa.most > found.limit_mpa == YIELDS_MPA["steel"]


def test_a_narrow_tube_sinks_into_an_aluminium_hub():
    sizes = {"tube": TUBE | {"outside": (23.0,)}, "hub": {"length": (40.0,), "bore": (20.0,), "outside": (80.0,)}}
    found, tension = pressed("tube hub", sizes, 100, face=70, hub={"material": "aluminium"}, tube=STEEL)
    between = next(each for each in found if each.what == ("tube", "hub"))
    assert (between.metal, between.limit_mpa) == ("aluminium", FACE_MPA["aluminium"])
    assert between.stress_mpa.usual == pytest.approx(tension.usual / (pi / 4 * (23**2 - 20**2)))
    shares = [each.stress_mpa.most / each.limit_mpa for each in found]
    assert shares == sorted(shares, reverse=True) and min(shares) > 1


def test_what_bears_its_clamp_or_is_of_a_metal_nobody_said_is_not_mentioned():
    assert pressed("tube", {"tube": TUBE}, 20, face=28, tube=STEEL)[0] == ()
    assert pressed("wheel", {"wheel": TUBE | {"outside": (22.0,)}}, 120, face=30)[0] == ()
    assert pressed("tube", {"tube": TUBE | {"outside": (22.0,)}}, 120, face=30, tube={"material": "rubber"})[0] == ()


def test_the_shipped_joints_crush_nothing_at_their_torque():
    from tests.mechanics.test_forces import wanted

    assert [wanted(id).crushing for id in ("front-hub", "pinion-shaft", "bench-grinder/arbor", "steering-head")] == [
        ()
    ] * 4
