"""Which size a bare figure of a line is: by the rule of `bare_sizes`, and where it does not say, a question is put.

One figure is the length, of balls the diameter. Several figures behind several pieces are one figure a piece. What is
left over stays unread, and so in the note.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import pairwise

from stackcheck.errors import SizeError
from stackcheck.formats.bare_sizes import (
    LENGTHS_MM,
    NO_DIAMETERS,
    ONE,
    OTHER_LENGTHS_MM,
    diameters,
    names_of,
    size_by_kind,
)
from stackcheck.formats.bench_figures import LARGEST_USUAL_MM, Figure, are_readings, as_readings
from stackcheck.pattern import Pattern
from stackcheck.value import Value, replace

DIAMETERS_MM = (1, 400)

BY_SPANNER = frozenset({"nut", "bolt"})

_DECIMAL = Pattern(r"\d*\.\d+")
MOST_APART = 4
"""Pieces of one pack differ by no more than this factor; otherwise several figures are the sizes of one part."""


class Doubt(Value, kw_only=True):
    """Something that may mean two things: `choices` are pairs of
    the words shown and what would be typed for which figures.
    """

    about: str
    text: str
    choices: tuple[tuple[str, tuple[tuple[Figure, str], ...]], ...] = ()


class Sized(Value, kw_only=True):
    """Figures with their size names; `pieces` are one figure a piece where several pieces were measured one by one."""

    sizes: tuple[tuple[str, Figure], ...] = ()
    pieces: tuple[Figure, ...] = ()
    doubts: tuple[Doubt, ...] = ()


def sized(
    figures: Sequence[Figure], *, kind: str, count: int, plural: bool, unit: str, known: Collection[str] = ()
) -> Sized:
    """Give every figure its size. `known` are sizes that the line has told otherwise (a thread). Raises SizeError."""
    pieces, rest = _pieces(figures, count if count > 1 else 0, plural, unit)
    groups = _grouped(rest, unit)
    named: dict[str, Figure] = {}
    bare: list[Figure] = []
    for figure in groups:
        name = size_by_kind(figure.name, kind)
        if name and name not in named and name not in known:
            named[name] = figure
        elif not name:
            bare.append(figure)
    doubts: list[Doubt] = []
    taken = {*named, *known, *(["length"] if pieces else [])}
    for name, figure in _by_kind(bare, kind, taken, unit):
        doubt = _of_what(figure, name, kind, unit)
        if doubt is None:
            named[name] = figure
        else:
            doubts.append(doubt)
    if unit != "in" and (runs := _inch_runs([*named.items(), *(("length", figure) for figure in pieces)], kind, unit)):
        named = {name: _in_inches(figure, runs) for name, figure in named.items()}
        pieces = [_in_inches(figure, runs) for figure in pieces]
    settled = {name: _settled(figure, name, kind, unit, doubts) for name, figure in named.items()}
    pieces = [_settled(figure, "length", kind, unit, doubts) for figure in pieces]
    doubts += _crooked(settled)
    return Sized(sizes=tuple(settled.items()), pieces=tuple(pieces), doubts=tuple(doubts))


def _pieces(figures: Sequence[Figure], count: int, plural: bool, unit: str) -> tuple[list[Figure], list[Figure]]:
    """The figures that are one a piece, and the others."""
    bare = [figure for figure in figures if not (figure.name or figure.joined)]
    if bare and figures[-1].joined:
        bare = []
    joined_heads = [a for a, b in pairwise(figures) if b.joined]
    bare = [figure for figure in bare if figure not in joined_heads]
    if not (plural or count) or len(bare) < 2:
        return [], list(figures)
    if count and len(bare) == count + 2 and not joined_heads:
        bare = bare[2:]
    values = [figure.value_mm(unit) for figure in bare]
    each_its_own = count == len(bare) and (joined_heads or count != 3)
    if (
        min(values) <= 0
        or (count and len(bare) > count)
        or (max(values) / min(values) > MOST_APART and not each_its_own)
    ):
        return [], list(figures)
    return bare, [figure for figure in figures if figure not in bare]


def _grouped(figures: Sequence[Figure], unit: str) -> list[Figure]:
    """Runs of bare figures that are readings of one size, as one figure each;
    a name at either end of a run is its name.
    """
    groups: list[list[Figure]] = []
    for figure in figures:
        last = groups[-1] if groups else None
        joins = last is not None and last[-1].run == figure.run and not figure.joined
        if joins and not (figure.name and any(one.name for one in last)) and not (len(last) > 1 and last[-1].name):
            last.append(figure)
        else:
            groups.append([figure])
    return [one for group in groups for one in ([as_readings(group)] if are_readings(group, unit) else group)]


def _by_kind(bare: list[Figure], kind: str, taken: set[str], unit: str) -> list[tuple[str, Figure]]:
    scheme: Sequence[str] = ()
    bare = _one_row(bare)
    values = [figure.value_mm(unit) for figure in bare]
    free = [name for name in ("outside", "bore", "length") if name not in taken]
    if len(bare) == 1:
        usual = ONE.get(kind, "length")
        scheme = (usual,) if usual not in taken else free[:1] if kind not in NO_DIAMETERS else ()
    elif len(bare) == 2 and len(free) < 3:
        scheme = () if len(free) < 2 else diameters(values) if "length" in taken else free
    elif len(bare) != 2 or kind or bare[1].joined:
        scheme = names_of(values, kind)
    return [] if taken & set(scheme) else [(name, figure) for name, figure in zip(scheme, bare) if name]


def _one_row(bare: list[Figure]) -> list[Figure]:
    """Figures apart from one another are no sizes of one row; the last row counts ("item 4 washer 3 mm")."""
    return [figure for figure in bare if figure.run == bare[-1].run]


def _of_what(figure: Figure, name: str, kind: str, unit: str) -> Doubt | None:
    """A lone figure that the kind does not explain: no shim is 45 thick, and a nut has a spanner size too."""
    said = figure.text(unit)
    if name == "length" and kind in BY_SPANNER and (figure.is_whole or figure.is_fraction) and not figure.how:
        choices = ((f"{said} across the flats", f"{said} across flats"), (f"{said} high", f"{said} high"))
        return _doubt("size", f"{said}: across the flats, or the height?", figure, choices)
    if name == "length" and kind and figure.value_mm(unit) > LENGTHS_MM.get(kind, OTHER_LENGTHS_MM)[1]:
        choices = (
            (f"{said} outside", f"{said} od"),
            (f"{said} bore", f"{said} bore"),
            (f"{said} thick", f"{said} thick"),
        )
        return _doubt("size", f"{said}: outside, bore or thickness?", figure, choices)
    return None


def _doubt(about: str, text: str, figure: Figure, choices: Sequence[tuple[str, str]]) -> Doubt:
    return Doubt(about=about, text=text, choices=tuple((shown, ((figure, words),)) for shown, words in choices))


def _fits(figure: Figure, name: str, kind: str) -> bool:
    least, most = LENGTHS_MM.get(kind, OTHER_LENGTHS_MM) if name in ("length", "ball") else DIAMETERS_MM
    return least <= figure.value_mm() <= most


def _inch_runs(figures: Sequence[tuple[str, Figure]], kind: str, unit: str) -> set[int]:
    """The runs of figures that one of their own shows to be in inches: a fraction, or written as inches are and far too
    small in mm; -1 stands for everything written as inches are."""
    shown = {
        figure.run
        for name, figure in figures
        if figure.unit in ("in", "thou") or (figure.is_fraction and not figure.unit)
        or (figure.is_inch_like and not _fits(replace(figure, unit=unit), name, kind)
            and _fits(replace(figure, unit="in"), name, kind))
    }  # fmt: skip
    return shown | ({-1} if shown else set())


def _in_inches(figure: Figure, runs: set[int]) -> Figure:
    inches = replace(figure, unit="in")
    is_meant = figure.is_inch_like or (figure.run in runs and _DECIMAL.fullmatch(figure.digits))
    return inches if is_meant and not figure.unit and inches.value_mm() <= LARGEST_USUAL_MM else figure


def _settled(figure: Figure, name: str, kind: str, unit: str, doubts: list[Doubt]) -> Figure:
    """The figure with its unit. Written as inches are, in a mm job, it is asked about; in an inch job a size that no
    part has in inches is in mm."""
    if figure.unit or figure.is_fraction:
        return figure
    own = replace(figure, unit=unit)
    if unit == "in":
        in_mm = replace(figure, unit="mm")
        return in_mm if not figure.is_inch_like and not _fits(own, name, kind) and _fits(in_mm, name, kind) else own
    inches = replace(figure, unit="in")
    if figure.is_inch_like and _fits(own, name, kind) and _fits(inches, name, kind):
        shown = (own.text(), f"{inches.text()} ({inches.value_mm():.2f} mm)")
        choices = tuple((words, typed_again(one)) for words, one in zip(shown, (own, inches)))
        doubts.append(_doubt("unit", f"{shown[0]} or {shown[1]}?", figure, choices))
    return own


def typed_again(figure: Figure) -> str:
    """The figure as it would be typed to leave no doubt, its size name behind it."""
    return " ".join(filter(None, (figure.text(), SPOKEN.get(figure.name, figure.name.replace("_", " ")))))


SPOKEN = {"outside": "od", "length": "long", "width": "wide", "height": "high", "thickness": "thick"}


def _crooked(sizes: dict[str, Figure]) -> list[Doubt]:
    bore, outside = sizes.get("bore"), sizes.get("outside")
    if bore is None or outside is None or bore.value_mm() < outside.value_mm():
        return []
    text = f"bore {bore.text()} is not smaller than the outside {outside.text()}: exchanged?"
    if bore.value_mm() == outside.value_mm():
        raise SizeError(
            bore.text(), "bore and outside cannot be the same: look which figure is which, or measure again"
        )
    instead = ((bore, f"{bore.text()} od"), (outside, f"{outside.text()} bore"))
    return [Doubt(about="bore", text=text, choices=((f"bore {outside.text()}, OD {bore.text()}", instead),))]
