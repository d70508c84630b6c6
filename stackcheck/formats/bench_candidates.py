"""Which parts of a reference a typed part can be: kind and sizes first, the words for it second; at most three.

Each candidate brings its reason in words of difference, never the size that is expected: "same bore and OD, 0.50
thicker". Nothing is chosen here. Where the measuring cannot tell two candidates apart, both say so.
"""

from __future__ import annotations

from stackcheck.formats.bare_sizes import along
from stackcheck.formats.bench_read import ReadPart
from stackcheck.formats.words import plain
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.units import read_reading
from stackcheck.value import Value

MOST = 3
DIAMETER_OFF_MM, LENGTH_OFF_MM = 2.0, 5.0
"""How far a size may be off before a part is offered no more; never silently taken for wear."""
LIKE_ENOUGH = 60
"""Names less alike than this (of 100) say nothing."""
_ALONG = {
    "thick": ("thicker", "thinner"),
    "wide": ("wider", "narrower"),
    "high": ("higher", "lower"),
    "long": ("longer", "shorter"),
}
_BIGGER = {"bore": ("wider in the bore", "smaller in the bore"), "outside": ("larger outside", "smaller outside")}
_SHORT = {"outside": "OD", "length": "length"}


class _Judged(Value, kw_only=True):
    part: Part
    kind_agrees: bool
    off: tuple[tuple[str, float], ...]
    alike: float

    @property
    def agrees(self) -> bool:
        return bool(self.off) and all(off == 0 for _, off in self.off)

    @property
    def rank(self) -> tuple[bool, float, bool, float]:
        return (not self.kind_agrees, sum(abs(off) for _, off in self.off), not self.off, -self.alike)


def candidates(part: ReadPart, reference: Reference) -> tuple[tuple[str, str], ...]:
    """(part id, why in words) of the parts that come off which the typed one can be, nearest first.

    A part is offered for its number, for its kind or sizes, or for its name. A size that is far off rules it out.
    """
    numbered = [
        one for one in reference.parts if part.marked and plain(part.marked) in map(plain, (one.number, *one.accepts))
    ]
    if len(numbered) == 1:
        return ((numbered[0].id, f"marked {part.marked}"),)
    judged = [_judged(part, one) for one in reference.parts if not one.fixed]
    offered = sorted((one for one in judged if _is_near(one, part)), key=lambda one: one.rank)[:MOST]
    return tuple((one.part.id, _why(one, offered)) for one in offered)


def _judged(typed: ReadPart, part: Part) -> _Judged:
    off = []
    for name, text in typed.sizes:
        size = part.size(name)
        if size is not None:
            reading = read_reading(text)
            away = reading.value_mm - min(max(reading.value_mm, size.low_mm), size.high_mm)
            off.append((name, 0.0 if abs(away) <= reading.good_to_mm + 1e-9 else away))
    return _Judged(
        part=part,
        kind_agrees=bool(typed.kind) and _is_kind(part.kind, typed.kind),
        off=tuple(off),
        alike=_alike(typed.what, part),
    )


def _is_kind(kind: str, typed: str) -> bool:
    """ "ball bearing" is what people call any bearing, "ring" and "washer" any flat ring."""
    flat = ("ring", "washer", "shim ring", "thrust washer")
    return (
        kind == typed
        or (typed == "ball bearing" and kind.endswith(" bearing"))
        or (kind in flat and typed in flat)
        or kind.endswith(f" {typed}")
    )


def _alike(what: str, part: Part) -> float:
    """How much the words are like the best name of the part, 0 to 100."""
    if not what:
        return 0.0
    from rapidfuzz import fuzz  # only where a part has to be found

    names = {plain(name) for name in (part.name, part.id, *part.also)}
    return max(fuzz.token_sort_ratio(plain(what), name) for name in names)


def _is_near(one: _Judged, typed: ReadPart) -> bool:
    if any(abs(off) > (LENGTH_OFF_MM if name == "length" else DIAMETER_OFF_MM) for name, off in one.off):
        return False
    return one.kind_agrees or one.alike >= LIKE_ENOUGH or (not typed.kind and one.agrees)


def _why(one: _Judged, offered: list[_Judged]) -> str:
    agreeing = [_SHORT.get(name, name.replace("_", " ")) for name, off in one.off if off == 0]
    said = [f"same {', '.join(agreeing[:-1])}{' and ' if agreeing[1:] else ''}{agreeing[-1]}"] if agreeing else []
    for name, off in one.off:
        if off:
            along_axis = _ALONG[along(one.part.kind) or "long"] if name == "length" else None
            more, less = along_axis or _BIGGER.get(
                name, (f"more {name.replace('_', ' ')}", f"less {name.replace('_', ' ')}")
            )
            said.append(f"{abs(off):.2f} {more if off > 0 else less}")
    if one.alike == 100:
        said.append("called so")
    elif not said:
        said.append("same kind" if one.kind_agrees else "a name like it")
    others = [
        other.part.name
        for other in offered
        if other is not one
        and (other.kind_agrees, other.off, other.alike == 100) == (one.kind_agrees, one.off, one.alike == 100)
    ]
    if others:
        said.append(f"{'the sizes cannot tell it' if one.off else 'not to be told'} from {' and '.join(others)}")
    return ", ".join(said)
