"""Item marks: numbers by the line of the reference, letters for what stays on the machine,
X1, X2 for what has no place.
"""

from __future__ import annotations

from stackcheck.result.comparison import Comparison


def item_marks(comparison: Comparison) -> dict[object, str]:
    """Place or standing -> item mark: numbers for what comes off, letters for what stays, X for what has no place."""
    reference = comparison.reference
    marks: dict[object, str] = {}
    number = letter = 0
    for name in reference.line:
        if reference.part_at(name).fixed:
            marks[name] = _letters(letter)
            letter += 1
        else:
            number += 1
            marks[name] = str(number)
    strays = [standing for standing in comparison.best.line if standing.home is None]
    for position, standing in enumerate(sorted(strays, key=lambda each: each.entry or 0), start=1):
        marks[standing] = f"X{position}"
    loose = [
        result.finding
        for result in comparison.findings
        if result.finding.kind == "extra" and getattr(result.finding, "loose", False)
    ]
    for position, entry in enumerate((entry for finding in loose for entry in finding.entries), start=len(strays) + 1):
        marks[entry] = f"X{position}"
    return Marks(marks)


class Marks(dict):
    """Marks by place or standing, asked by who stands there as well."""

    def __missing__(self, who: object) -> str:
        return self[who[0]] if isinstance(who, tuple) and who[0] in self else ""


def _letters(position: int) -> str:
    return chr(ord("A") + position) if position < 26 else _letters(position // 26 - 1) + chr(ord("A") + position % 26)
