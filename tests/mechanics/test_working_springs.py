"""A coil spring at the length that its place leaves it: the spring of the pump's mechanical seal, by hand.

48.5 of shaft less 12 of plate and 8 of seat leave 28.5; the turning part takes 14.5 of it, 14.0 are for the spring: 18.5 by
itself, 4.5 shorter at 18 N/mm is 81 N.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
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
