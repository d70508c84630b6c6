"""Pieces of a pack that differ in the same way are one point, with every place and entry in it."""

from __future__ import annotations

from stackcheck.present.words import sentence
from stackcheck.result import compare
from stackcheck.value import replace
from tests.builders import clutch, found, reading

PLATES = "pressure friction steel friction steel friction steel friction backing"
LIMITS = {"friction": {"length": (3.0, 2.9, 3.1)}, "steel": {"length": (2.0, 1.9, 2.1)}}


def compared(*lengths: float):
    """The pack with its four friction plates measured."""
    typed, worn = found(PLATES), iter(lengths)
    entries = tuple(
        replace(entry, sizes=(("length", reading(next(worn), 0.01)),)) if entry.part == "friction" else entry
        for entry in typed.entries
    )
    return compare(clutch(sizes=LIMITS), replace(typed, entries=entries))


def test_four_equally_worn_plates_are_one_finding_with_their_places_and_entries():
    """One worn pack is one thing to put right; nobody counts four mistakes."""
    comparison = compared(2.8, 2.8, 2.8, 2.8)
    (result,) = comparison.findings
    assert result.finding.kind == "size_differs"
    assert sorted(result.finding.entries) == [2, 4, 6, 8]
    assert sorted(result.finding.places) == [f"friction@{n}" for n in (1, 2, 3, 4)]
    (change,) = result.effect.changes
    assert round(change.change.nominal_mm, 6) == -0.8
    words = sentence(result.finding, comparison.reference, comparison.found)
    assert words.startswith("friction 1, friction 2, friction 3 and friction 4: length 2.80")


def test_a_plate_worn_otherwise_stands_by_itself():
    findings = [result.finding for result in compared(2.8, 2.7, 2.8, 3.0).findings]
    assert sorted(sorted(finding.entries) for finding in findings) == [[2, 6], [4]]
