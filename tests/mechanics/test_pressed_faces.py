"""Which part of a face presses: neighbours, nut, hollow flanges, and what nobody gave, on small assemblies."""

from __future__ import annotations

from math import pi
from pathlib import Path

import pytest

from stackcheck.errors import InputError
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.stiffness import tube_stiffness
from stackcheck.mechanics.grip_gives import grip_gives
from stackcheck.mechanics.pressed_faces import pressed_faces
from stackcheck.mechanics.pressure_cone import Annulus, cone_stiffness
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns, with_variants
from stackcheck.model.reference import Joint
from stackcheck.value import replace
from tests.builders import reference, size
from tests.mechanics.test_joint_pull import torque

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
TUBE = {"length": (40.0,), "bore": (20.0,), "outside": (28.0,)}
PULLEY = {"length": (40.0,), "bore": (20.0,), "outside": (80.0,)}


def clamped(members: str, sizes: dict, *, face: float | None = None, **parts):
    """Members between a shoulder and a nut, and the joint that clamps them; `parts` change fields of a part by its id."""
    plain = reference(f"shoulder! {members} nut", sizes=sizes)
    names = members.replace(">", "").split()
    joint = Joint(
        name="nut",
        clamps=(names[0], names[-1]),
        thread="M16x1.5",
        torque=torque(40),
        friction=(0.14, 0.14),
        face=None if face is None else size(face),
    )
    changed = tuple(replace(part, **parts.get(part.id, {})) for part in plain.parts)
    return replace(plain, parts=changed, joints=(joint,)), joint


def stiffness(own, joint) -> dict[str, float]:
    return {
        member.standing.home: float(1 / soft)
        for member, soft, _ in grip_gives(Unknowns(), as_wanted(own), joint)
        if soft > 0
    }


def test_a_pulley_between_tubes_bears_as_far_as_the_cones_reach():
    own, joint = clamped("tube-1 pulley tube-2", {"tube-1": TUBE, "pulley": PULLEY, "tube-2": TUBE}, face=40)
    found = stiffness(own, joint)
    tube = tube_stiffness(outside_mm=28, bore_mm=20, length_mm=40, modulus_mpa=206e3)
    assert found["tube-1"] == pytest.approx(tube) == pytest.approx(found["tube-2"])
    ring = Annulus(28.0, 20.0)
    assert found["pulley"] == pytest.approx(
        float(cone_stiffness(section=Annulus(80.0, 20.0), first=ring, second=ring, length_mm=40, modulus_mpa=206e3)),
        rel=1e-9,
    )
    assert found["pulley"] < 0.2 * tube_stiffness(outside_mm=80, bore_mm=20, length_mm=40, modulus_mpa=206e3)


def test_the_nut_presses_with_its_face():
    """Given, or as wide as its flats, or 1.6 times the thread: the same face that its mean radius is taken from."""
    sizes = {"plate": {"length": (2.0,), "bore": (17.0,), "outside": (60.0,)}}
    wide, joint = clamped("plate", sizes, face=60)
    by_flats, plain = clamped("plate", sizes, nut={"sizes": (("across_flats", size(24.0)),)})
    guessed, _ = clamped("plate", sizes)
    narrow = [stiffness(own, its)["plate"] for own, its in ((by_flats, plain), (guessed, plain), (wide, joint))]
    assert narrow == sorted(narrow) and narrow[1] < 0.5 * narrow[2]
    (pressing,) = pressed_faces(
        Unknowns(),
        arranged := as_wanted(guessed),
        "stack 1",
        arranged.members("stack 1")[1:2],
        joint=plain,
        thread=thread_of(plain),
    )
    assert pressing.second == Annulus(1.6 * 16, 17.0)
    assert float(pressing.first.outside) == pytest.approx(1.6 * 16 + 2 * 1.1547005)


def test_a_hollow_flange_bends_and_its_stiffness_is_a_range():
    sizes = {
        "tube": TUBE,
        "flange": {"length": (9.0,), "bore": (16.0,), "outside": (60.0,), "feature_face_bore": (54.0,)},
        "wheel": PULLEY,
    }
    own, joint = clamped("tube flange> wheel", sizes)
    unknowns, _ = with_variants(lambda u: grip_gives(u, as_wanted(own), joint)[1][1])
    assert [unknown.name for unknown in unknowns.known if "bends" in unknown.name] == [
        "stiffness of the flange, which bends between its two faces"
    ]
    assert stiffness(own, joint)["tube"] == pytest.approx(
        tube_stiffness(outside_mm=28, bore_mm=20, length_mm=40, modulus_mpa=206e3)
    )


def test_a_material_that_is_not_known_here_is_no_steel():
    own, joint = clamped("tube", {"tube": TUBE}, tube={"material": "rubber"})
    unknowns, _ = with_variants(lambda u: grip_gives(u, as_wanted(own), joint)[0][1])
    assert "stiffness of the tube" in [unknown.name for unknown in unknowns.known]


def test_a_part_behind_one_of_unknown_section_is_still_held_to_the_cone():
    """No force spreads faster than the cone, whatever the part between is made like."""
    sizes = {"tube": TUBE, "boss": {"length": (2.0,)}, "pulley": PULLEY}
    own, joint = clamped("tube boss pulley", sizes, face=80)
    spread = 28 + 2 * 1.1547005
    by_hand = cone_stiffness(
        section=Annulus(80.0, 20.0),
        first=Annulus(spread, 20.0),
        second=Annulus(80.0, 20.0),
        length_mm=40,
        modulus_mpa=206e3,
    )
    assert stiffness(own, joint)["pulley"] == pytest.approx(float(by_hand), rel=1e-6)
    assert stiffness(own, joint)["tube"] == pytest.approx(206e3 * pi / 4 * (28**2 - 20**2) / 40)


@pytest.mark.parametrize(("line", "said"), [
    ('face_outside = "34 mm"', "the face reaches beyond the part"),
    ('feature_face_bore = "18 mm"', "the face reaches beyond the part"),
    ('feature_face_bore = "30 mm"', "no face is left"),
    ('face_outside = "20 mm"', "no face is left"),
])  # fmt: skip
def test_a_face_that_can_be_none_of_its_part_is_refused_with_its_line(tmp_path, line, said):
    """The short collar of the front hub is 30 wide on a bore of 20."""
    text = (Path(__file__).parents[2] / "reference_assemblies/freight-tricycle/front-hub.toml").read_text(
        encoding="utf-8"
    )
    file = tmp_path / "front-hub.toml"
    file.write_text(text.replace('name = "Short collar"', f'name = "Short collar"\n{line}'), encoding="utf-8")
    with pytest.raises(InputError, match=said) as told:
        read_reference(file)
    assert line in str(told.value)


def test_a_thin_plate_whose_section_nobody_gave_may_be_as_stiff_as_steel_all_through_and_paper_never():
    """The tab washer beside the lamp bracket, 1.5 long, has 5e7 N/mm; the bracket itself, 2.5 long, was never given more than 1e7."""
    head, grinder = (LIBRARY.reference(name) for name in ("freight-tricycle/steering-head", "bench-grinder/arbor"))
    asked = {}
    for own in (head, grinder):
        unknowns, _ = with_variants(
            lambda u, own=own: [soft for _, soft, _ in grip_gives(u, as_wanted(own), own.joints[0])]
        )
        asked |= {each.name: each for each in unknowns.known}
    bracket, paper = (
        asked["stiffness of the lamp bracket"],
        next(each for name, each in asked.items() if "paper disc" in name),
    )
    assert (
        "stiffness of the wheel flange, which bends between its two faces" in asked
    )  # rim to the wheel, boss to the nut
    assert bracket.most > 7.3 and bracket.usual == (bracket.least + bracket.most) / 2
    assert (paper.least, paper.usual, paper.most) == (5, 6, 7)
