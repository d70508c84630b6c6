"""A spring at the length that its place leaves it: that of the pump's mechanical seal, and a wave washer, by hand.

48.5 of shaft less 12 of plate and 8 of seat leave 28.5; the turning part takes 14.5 of it, 14.0 are for the spring: 18.5 by
itself, 4.5 shorter at 18 N/mm is 81 N.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.compare import explanations
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference
from stackcheck.mechanics.arrangement import as_believed, as_wanted
from stackcheck.mechanics.working_springs import working_springs
from stackcheck.present.working_springs_page import working_spring_words
from stackcheck.value import replace
from tests.builders import size

ROOT = Path(__file__).parents[2]
PUMP = Library(ROOT / "reference_assemblies").reference("seal-and-impeller")


def spring(reference=PUMP):
    (only,) = working_springs(as_wanted(reference))
    return only


def pump(part: str, **sizes):
    """The pump with other sizes of one part."""
    return replace(PUMP, parts=tuple(
        replace(each, sizes=(*((n, s) for n, s in each.sizes if n not in sizes), *sizes.items())) if each.id == part else each for each in PUMP.parts
    ))  # fmt: skip


def test_the_spring_of_the_seal_presses_as_by_hand():
    assert spring().length.nominal_mm == pytest.approx(14.0)
    assert spring().force_n.usual == pytest.approx(81.0)
    assert spring().force_n.least < 65
    assert spring().force_n.most > 97


def test_a_shorter_shaft_presses_it_by_its_stiffness():
    shorter = spring(pump("shaft-reach", length=size(47.5)))
    assert shorter.force_n.usual - spring().force_n.usual == pytest.approx(18.0)


def test_a_room_longer_than_the_spring_presses_nothing():
    assert "nothing presses on it" in working_spring_words(spring(pump("seal-spring", free_length=size(13.0))))


def test_no_force_is_told_where_the_coils_touch():
    words = working_spring_words(spring(pump("seal-spring", length=size(14.2))))
    assert "touch, at 14.20; no force is told" in words


def test_what_is_missing_is_named():
    parts = tuple(replace(part, stiffness=None) if part.kind == "spring" else part for part in PUMP.parts)
    assert (
        working_spring_words(spring(replace(PUMP, parts=parts)))
        == "cannot tell: needs stiffness of the spring of the mechanical seal, or its wire, outside diameter and working coils"
    )


def test_stack_says_it_of_the_pump(capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    main(["stack", "seal-and-impeller"])
    out = " ".join(capsys.readouterr().out.split())
    assert (
        "SPRINGS at the length they are fitted to - spring of the mechanical seal: 13.65 to 14.35 long, pressed with "
        in out
    )


ROLLER = """
kind = "reference assembly"
format = 1

[assembly]
id = "roller"
title = "Roller with a wave washer"
revision = "A"
ends = ["drive", "idle"]
ends_seen_from = "standing at the motor, drive at the left hand"
source = { kind = "own record", state = "draft" }

[parts.shaft]
name = "Roller shaft, shoulder to shoulder"
kind = "shaft"
length = "200.0 mm ±0.1"
fixed = true

[parts.frame]
name = "Frame, floor of seat to floor of seat"
kind = "housing"
length = "230.3 mm ±0.15"
fixed = true

[parts.floor]
name = "Floor of a seat"
kind = "housing"
fixed = true

[parts.bearing]
name = "Roller bearing"
standard = "6204"
same_both_ways = true

[parts.wave]
name = "Wave washer"
kind = "spring washer"
length = "0.50 mm ±0.03"
free_length = "4.2 mm ±0.3"
stiffness = "35..45 N/mm"
same_both_ways = true

[[stacks]]
name = "shaft stack"
order = [
  "floor@drive", "bearing@drive", "shaft", "bearing@idle", "wave",
  { gap = "room of the waves", least = "1.5 mm", most = "2.8 mm", source = "own record" },
  "floor@idle",
]

[[stacks]]
name = "frame"
order = ["floor@drive", "frame", "floor@idle"]
"""


@pytest.fixture
def roller(tmp_path):
    path = tmp_path / "belt" / "roller.toml"
    path.parent.mkdir()
    path.write_text(ROLLER, encoding="utf-8")
    return read_reference(path)


def list_of(tmp_path, *lines: str) -> Path:
    """The roller as found, with more said of its wave washer."""
    path = tmp_path / "found.toml"
    head = 'kind = "as found"\nformat = 1\nreference = "belt/roller"\nrevision = "A"\nfinished = true\n'
    rows = ['end = "idle"\nwhat = "wave washer"\n' + "\n".join(lines), *['end = "idle"\nwhat = "bearing"'] * 2]
    path.write_text(head + "".join(f"\n[[off]]\n{row}\n" for row in rows), encoding="utf-8")
    return path


def test_a_wave_washer_beside_a_ring_that_slides_presses_by_the_room_it_has(roller):
    """230.3 less 200 and two rings, each 13.88 to 14.00 wide, leave 2.42 in the middle; 1.78 at 40 N/mm are 71 N."""
    wave = spring(roller)
    assert (wave.length.least_mm, wave.length.most_mm) == (pytest.approx(2.05), pytest.approx(2.79))
    assert wave.force_n.usual == pytest.approx(40 * (4.2 - 2.42))


def test_a_free_length_that_was_measured_counts_in_the_place_of_the_reference(roller, tmp_path):
    found, _ = read_found(list_of(tmp_path, 'free_length = "3.42 cal"'), lambda _: roller)
    (wave,) = working_springs(as_believed(roller, found, explanations(roller, found)[0]))
    assert wave.force_n.usual == pytest.approx(40 * (3.42 - 2.42))


def test_a_wave_washer_without_room_is_said_to_be_flat(roller):
    flat = replace(roller, parts=tuple(
        replace(each, sizes=(("length", size(228.4)),)) if each.id == "frame" else each for each in roller.parts
    ))  # fmt: skip
    assert "may be pressed flat, at 0.50; no force is told" in working_spring_words(spring(flat))


def test_between_bearings_that_a_joint_clamps_it_is_told_with_their_preload_alone():
    assert working_springs(as_wanted(Library(ROOT / "reference_assemblies").reference("arbor"))) == ()


def said(capsys, *words: str) -> str:
    main(list(words))
    return " ".join(capsys.readouterr().out.split())


def test_a_tired_wave_washer_is_told_by_what_it_presses_with_and_not_as_one_that_nothing_presses(
    roller, tmp_path, capsys
):
    path = str(list_of(tmp_path, 'free_length = "2.92 cal"'))
    library = ("--library", str(tmp_path))
    assert "it fills the room of the waves: how far" in said(capsys, "compare", path, *library)
    answer = said(capsys, "stack", "roller", "--found", path, *library)
    assert "differs: force of the wave washer" in answer


def test_what_is_asked_for_next_is_the_stiffness_of_the_spring_on_a_scale_and_no_bore(roller, tmp_path, capsys):
    """Its stiffness is given as a range: a calliper over its wire narrows nothing."""
    wide = ROLLER.replace("35..45 N/mm", "20..60 N/mm").replace("±0.15", "±0.02").replace("200.0 mm ±0.1", "200.0 mm")
    (tmp_path / "belt" / "roller.toml").write_text(wide.replace("4.2 mm ±0.3", "4.2 mm"), encoding="utf-8")
    answer = said(capsys, "stack", "roller", "--library", str(tmp_path))
    assert "the wave washer pressed to its fitted length on a scale: " in answer
    assert "of the range of the force of the wave washer" in answer
