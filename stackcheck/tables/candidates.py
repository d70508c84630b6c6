"""Every standard part as a candidate for a part on the bench: limits of bore, outside and thickness, and nothing else.

    candidates()            all rows of all tables
    equal_limits(parts)     those with the same kind and the same limits together: sizes alone cannot tell them apart

A size that a row does not have is None. A nut has no bore here (its thread is no plain bore) and no outside (it is no
circle); a circlip has the diameter it has when free.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from stackcheck.model.hardware import HardwareRow
from stackcheck.tables.catalogue import SPECS
from stackcheck.tables.loader import table_rows
from stackcheck.value import Value

Limits = tuple[float, float]
"""Least and most [mm]."""

MEASURED = {"bore": "bore", "outside": "outside", "thickness": "length"}
"""What is measured on a stray part -> the size of a row that limits it."""


class StandardPart(Value, kw_only=True):
    """One row of a table as a candidate; limits are (least, most) [mm], as new and bare."""

    kind: str
    standard: str
    designation: str
    bore_mm: Limits | None = None
    outside_mm: Limits | None = None
    thickness_mm: Limits | None = None
    features: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()

    @property
    def limits(self) -> tuple[Limits | None, Limits | None, Limits | None]:
        """Limits of bore, outside and thickness [mm]."""
        return self.bore_mm, self.outside_mm, self.thickness_mm


@cache
def candidates() -> tuple[StandardPart, ...]:
    """Every row of every table, in the sequence of the shelf.

    >>> next(part for part in candidates() if part.designation == "ISO 7089 M16").bore_mm
    (17.0, 17.27)
    """
    return tuple(_candidate(row) for spec in SPECS for row in table_rows(spec.id).values())


def _candidate(row: HardwareRow) -> StandardPart:
    sizes = {size.name: (size.least_mm, size.most_mm) for size in row.sizes}
    return StandardPart(
        kind=row.kind,
        standard=row.standard,
        designation=row.designation,
        features=row.features,
        sources=row.sources,
        **{f"{measured}_mm": sizes.get(name) for measured, name in MEASURED.items()},
    )


def equal_limits(parts: Iterable[StandardPart]) -> tuple[tuple[StandardPart, ...], ...]:
    """The parts in classes of equal kind and equal limits, in the sequence of the first member of each.

    >>> chosen = [part for part in candidates() if part.designation in ("ISO 7089 M16", "ISO 7090 M16")]
    >>> [[part.designation for part in same] for same in equal_limits(chosen)]
    [['ISO 7089 M16', 'ISO 7090 M16']]
    """
    classes: dict[tuple[object, ...], list[StandardPart]] = {}
    for part in parts:
        classes.setdefault((part.kind, *part.limits), []).append(part)
    return tuple(map(tuple, classes.values()))
