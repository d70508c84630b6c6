"""What a joint loses when its faces settle: faces counted from the stack, the loss by the joint diagram, and through bearings."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from stackcheck.cli import main
from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.network import solve
from stackcheck.mechanics.axial.stiffness import MODULUS_MPA
from stackcheck.mechanics.axial.threads import embedding_loss
from stackcheck.mechanics.clamped_network import AXLE, ClampedNetwork
from stackcheck.mechanics.effects import changed_by
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.heat import COLD
from stackcheck.mechanics.joint_pull import grip_stiffness
from stackcheck.mechanics.settling import FACE_MM, SHARE, ends_mm, pairs_of_faces, settling, threads_of
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.finding import Extra, Missing
from stackcheck.model.reference import Joint
from stackcheck.value import replace
from tests.builders import found, reference, size
from tests.mechanics.small import nut_hub
from tests.mechanics.test_joint_pull import FIXED, torque

LIBRARY_ROOT = Path(__file__).parents[2]
LIBRARY = Library(LIBRARY_ROOT / "reference_assemblies")
OURS = replace(nut_hub(), joints=(FIXED,))


def pinned(*members: str, face: float = 24.0) -> tuple:
    """Rings between the head and the nut of a bolt, all of steel, 20 long, 10/24; head and nut press on all of their face."""
    plain = reference(
        f"bolt {' '.join(members)} nut",
        sizes={name.split("*")[0]: {"length": (20.0,), "bore": (10.0,), "outside": (24.0,)} for name in members},
    )
    joint = Joint(
        name="bolt",
        clamps=(members[0].split("*")[0], members[-1].split("*")[0]),
        thread="M10x1.5",
        torque=torque(40),
        friction=(0.14, 0.14),
        face=size(face),
    )
    return replace(plain, joints=(joint,)), joint


def m10_in_a_bore_of_10(length: float) -> float:
    """Half way between its stress area and the bore by what it gives, half a diameter of thread and 0.4 of head (VDI 2230, from memory)."""
    thin, full = np.pi / 4 * (10 - 0.9382 * 1.5) ** 2, np.pi / 4 * 10**2
    return MODULUS_MPA["steel"] / (
        length * (1 / thin + 1 / full) / 2 + 0.5 * 10 / (np.pi / 4 * (10 - 1.2269 * 1.5) ** 2) + 0.4 * 10 / full
    )


@pytest.mark.parametrize(
    ("members", "faces"), [(("ring-1",), 2), (("ring-1", "ring-2"), 3), (("ring-1", "ring-2*3", "ring-3"), 6)]
)
def test_faces_are_counted_from_head_to_nut_with_those_inside_a_pack(members, faces):
    own, joint = pinned(*members)
    assert pairs_of_faces(as_wanted(own), joint) == faces


def test_two_nuts_on_one_axle_settle_in_two_threads():
    """A nut at either end: 3 µm of thread more than under a head; the shoulder of an axle has none."""
    plain = reference(
        "nut-1 ring nut-2",
        kinds={"nut-1": "nut", "nut-2": "nut"},
        sizes={"ring": {"length": (20.0,), "bore": (10.0,), "outside": (24.0,)}},
    )
    joint = Joint(name="bolt", clamps=("ring", "ring"), thread="M10x1.5", torque=torque(40), friction=(0.14, 0.14))
    own = replace(plain, joints=(joint,))
    assert threads_of(as_wanted(own), joint) == 2
    one, bolt = pinned("ring-1")
    assert threads_of(as_wanted(one), bolt) == 1
    assert ends_mm(2) - ends_mm(1) == pytest.approx(0.003)
    assert settling(as_wanted(own), joint, 40e3, thread_of(joint)).threads == 2


def test_an_extra_ring_has_one_more_pair_of_faces_and_a_missing_one_less():
    own = pairs_of_faces(as_wanted(OURS), FIXED)
    ring = Extra(entries=(1,), after="collar-short", before="bearing@left")
    assert pairs_of_faces(changed_by(OURS, found("?ring/length=3±0.02/bore=20.5/outside=28"), ring), FIXED) == own + 1
    assert pairs_of_faces(changed_by(OURS, found(""), Missing(places=("collar-short",))), FIXED) == own - 1


def test_the_loss_is_that_of_the_joint_diagram():
    """Three pairs of faces on 40 mm of steel 10/24 and M10: f_z = 3 x 2 + 5 = 11 µm over the give of both (VDI 2230, from memory);
    the usual figure is midway between a quarter of that and all of it.
    """
    own, joint = pinned("ring-1", "ring-2")
    answer = settling(as_wanted(own), joint, 40e3, thread_of(joint)).loss_n
    axle = m10_in_a_bore_of_10(40)
    stack = MODULUS_MPA["steel"] * np.pi / 4 * (24**2 - 10**2) / 40
    assert answer.usual == pytest.approx(0.625 * 0.011 / (1 / axle + 1 / stack))
    assert answer.least < 0.5 * answer.usual and answer.most > 1.5 * answer.usual


def test_a_light_pull_settles_down_to_a_quarter_of_the_guide_values():
    """VDI 2230 of 1986 (from memory): 3.29 (l/d)^0.34 µm for all faces together; 5.3 of our 11 µm at l/d = 4, less where there are more."""
    own, joint = pinned("ring-1", "ring-2")
    (cause,) = [
        each
        for each in settling(as_wanted(own), joint, 40e3, thread_of(joint)).loss_n.causes
        if each.name.startswith("share")
    ]
    assert cause.at_least == pytest.approx(0.25 * cause.at_most)
    assert 0.25 < 3.29 * 4**0.34 / 11 < 1


def test_what_a_pull_ends_at_is_no_spring_of_the_joint():
    """The pump's shaft is 120 long between its shoulders; its nut presses washer and bearings against one of them, 33.25 in all."""
    pump = LIBRARY.reference("bilge-pump/shaft-bearings")
    terms = joint_forces(as_wanted(pump), pump.joints[0]).terms
    assert sum(part.length_mm for part in terms.parts) == pytest.approx(33.25)
    assert [part.name for part in terms.parts if part.stiffness_n_per_mm] == [
        "Tab washer of the shaft nut",
        "Thrust bearing",
        "Thrust bearing",
    ]


def test_a_narrow_face_leaves_a_softer_stack_that_loses_less():
    """The same 40 mm under faces of 16: two frusta of 30° to the outside of 24, a tube between them.

    Source: Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 8-20.
    """
    own, joint = pinned("ring-1", "ring-2", face=16.0)
    reach = (24 - 16) / 1.1547005
    frustum = 0.57735027 * np.pi * 206e3 * 10 / np.log((1.1547005 * reach + 6) * 26 / ((1.1547005 * reach + 26) * 6))
    tube = 206e3 * np.pi / 4 * (24**2 - 10**2) / (40 - 2 * reach)
    axle = m10_in_a_bore_of_10(40)
    answer = settling(as_wanted(own), joint, 40e3, thread_of(joint)).loss_n
    assert answer.usual == pytest.approx(0.625 * 0.011 / (1 / axle + 2 / frustum + 1 / tube), rel=1e-6)


def test_no_joint_loses_more_than_it_has():
    own, joint = pinned("ring-1")
    weak = replace(joint, torque=torque(1))
    answer = joint_forces(as_wanted(replace(own, joints=(weak,))), weak)
    assert answer.settling.loss_n.most == pytest.approx(answer.tension_n.usual)


def test_a_longer_stack_of_the_same_parts_loses_less():
    short, joint = pinned("ring-1")
    long = replace(
        short,
        parts=tuple(
            replace(part, sizes=(("length", size(80.0)), *part.sizes[1:])) if part.sizes else part
            for part in short.parts
        ),
    )
    losses = [settling(as_wanted(own), joint, 40e3, thread_of(joint)).loss_n.usual for own in (short, long)]
    assert losses[1] < 0.5 * losses[0]


def test_where_the_bearings_have_play_the_network_loses_what_the_row_of_springs_does():
    """Two independent ways: frozen threads and shortened bodies, and f_z over the sum of compliances."""
    unknowns, arrangement, thread = Unknowns(), as_wanted(OURS), thread_of(FIXED)
    (loop,) = [loop for loop in OURS.loops if loop.name == "seat gap"]
    pulls = []
    for settled in (False, True):
        network, drawn, _ = ClampedNetwork(arrangement, FIXED, loop, unknowns, False).state(
            60e3, thread, COLD, settled=settled
        )
        pulls.append(float(np.ravel(solve(network, drawn).forces[AXLE])[0]))
    stack, axle = grip_stiffness(unknowns, arrangement, FIXED, thread)
    faces = pairs_of_faces(arrangement, FIXED)
    by_row = embedding_loss(
        faces=faces,
        bolt_n_per_mm=axle,
        stack_n_per_mm=stack,
        face_mm=SHARE[1] * FACE_MM[1],
        thread_mm=SHARE[1] * ends_mm(1),
    )
    assert pulls[0] - pulls[1] == pytest.approx(by_row, rel=0.02)


def test_the_network_loses_by_the_faces_beyond_the_clamped_places_too():
    """Two position shims stand under the pinion's bearing, beyond the places that the joint names: 11 pairs of faces, not 9."""
    pinion = LIBRARY.reference("orchard-tractor/pinion-shaft")
    hard = replace(
        pinion,
        joints=(replace(pinion.joints[0], torque=torque(120, None, None), friction=(0.17, 0.17), prevailing=None),),
    )
    joint, unknowns = hard.joints[0], Unknowns()
    thread = thread_of(joint)
    (loop,) = [loop for loop in hard.loops if loop.name == "end float of the pinion"]
    pulls = []
    for settled in (False, True):
        built = ClampedNetwork(as_wanted(hard), joint, loop, unknowns, False)
        network, drawn, _ = built.state(120e3, thread, COLD, settled=settled)
        pulls.append(float(np.ravel(solve(network, drawn).forces[AXLE])[0]))
    by_row = settling(as_wanted(hard), joint, 120e3, thread).loss_n.usual
    assert pulls[0] - pulls[1] == pytest.approx(by_row, rel=0.03)


def test_bearings_that_carry_the_clamp_are_soft_and_lose_less_of_it():
    """Without its spacer tube the hub carries the clamp through the balls, which give far more than a tube."""
    forces = joint_forces(changed_by(OURS, found(""), Missing(places=("spacer",))), FIXED)
    (loop,) = forces.loops
    assert loop.settled_slides.usual < loop.slides.usual
    assert forces.settling.loss_n.usual < 0.7 * joint_forces(as_wanted(OURS), FIXED).settling.loss_n.usual
    assert loop.slides.usual - loop.settled_slides.usual == pytest.approx(forces.settling.loss_n.usual, rel=0.05)


def test_the_loss_is_told_as_a_range_without_a_usual_figure(capsys, monkeypatch):
    """At a light torque "about 2.7 kN" was all of the guide values, which hold near the yield of the bolt."""
    monkeypatch.chdir(LIBRARY_ROOT)
    main(["stack", "front-hub", "--terms"])
    out = " ".join(capsys.readouterr().out.split())
    assert (
        "loses 1.2 to 5.3 kN when 8 pairs of new faces and the thread have settled; most of the range from the" in out
    )
    assert "8 pairs of faces and the thread settle 4 to 29 µm" in out
    assert "most of the range from the share of the guide values that settles" in out
