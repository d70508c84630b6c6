"""The figures of a typed line: where they stand, their units, how they were got, and the size names beside them.

A figure is a number, a fraction or a range with what belongs to it. Neighbours that differ by no more than measuring
does are several readings of one size. Which size a bare figure is, the kind of part says: see
`stackcheck.formats.bench_sizes`.
"""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.formats.typed_text import CROSSED, TypedText
from stackcheck.pattern import Pattern
from stackcheck.units import INCH_MM, read_reading
from stackcheck.units.instruments import TYPED_HOW
from stackcheck.value import Value, replace

_NUMBER = r"\d+[ -]\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*|[.,]\d+(?:[.,]\d+)*"
_NOT_INCH = r"(?!\s+(?:the|a|an|place|tray|rag|box|bag|tin|my|its|drip|oil|seat|one|two|both)\b)"
_UNIT = rf"mm\b|millimet(?:re|er)s?\b|cm\b|[uµ]m\b|microns?\b|inch(?:es)?\b|in\b{_NOT_INCH}|\"|''|thou\b|thousandths?\b"
_JOIN = r"\s*(?:[xX×*]|\bby\b)\s*"
_HOW = (
    rf"(?:,?\s*\(\s*{TYPED_HOW.pattern.replace('typed', 'how_in')}\s*\)"
    rf"|,?\s*(?:all )?{TYPED_HOW.pattern.replace('typed', 'how')})"
)
_REMARK = r"(?:\s*\((?:middle )?\d[^()\x00]*\))"
FIGURE = Pattern(
    rf"(?<![\w.,/°#-])(?P<about>(?:about|approx\.?|roughly|ca\.?|~)\s*)?(?P<sign>[Øø⌀]\s*)?(?P<number>{_NUMBER})"
    rf"(?:\s*(?P<unit_first>{_UNIT}))?(?:\s*(?:\.\.\.?|\bto\b|-(?=\d))\s*(?P<high>{_NUMBER}))?"
    rf"(?:\s*(?P<unit>{_UNIT}))?(?:\s*(?P<own>(?:±|\+/-|\+-)\s*(?:{_NUMBER})))?"
    rf"(?:\s*(?P<unit_last>{_UNIT}))?{_REMARK}?{_HOW}?"
    rf"(?![\w/]|[.,]\d)|(?<![\w.,/°#-])(?P<joined>{_NUMBER})(?=[xX×*]\s*[\d.,]|(?:od|id|OD|ID)\b|\s*x\b)",
    re.IGNORECASE,
)
_UNIT_WORDS = {
    "millimetre": "mm", "millimeter": "mm", "inch": "in", "inches": "in", '"': "in", "''": "in",
    "thousandth": "thou", "µm": "um", "micron": "um",
}  # fmt: skip
_INCH_LIKE = Pattern(r"\.\d{3,4}")
_BETWEEN = Pattern(rf"[ \t]*(?:[,;&+]|\band\b)?[ \t]*|{CROSSED}*")

NAMES = {
    "inner_width": r"inner (?:ring )?width",
    "outer_width": r"outer (?:ring )?width",
    "free_length": r"free (?:length|height)",
    "across_flats": r"across (?:the )?flats|a/?f|spanner size",
    "groove_width": r"groove width",
    "thread_pitch": r"pitch",
    "ball": r"ball (?:dia(?:meter)?|size)",
    "seat": r"seat(?: dia(?:meter)?)?",
    "shoulder": r"shoulder(?: dia(?:meter)?)?",
    "disc_thickness": r"sheet|disc thickness",
    "outside": r"o\.?d\b\.?|outside(?: dia(?:meter)?)?(?! cal)"
    r"|outer(?: dia(?:meter)?)?(?! ring)|dia(?:meter)?|over all",
    "bore": r"i\.?d\b\.?|bore|hole|inside(?: dia(?:meter)?)?(?! cal)|inner(?: dia(?:meter)?)?(?! ring)",
    "width": r"wide|width",
    "height": r"high|height|tall",
    "thickness": r"thick(?:ness)?|thk",
    "length": r"long|length",
}
"""Size name -> what people type for it beside a figure;
width, height and thickness are led to their size by the kind.
"""

_NAME = Pattern(r"\b(?P<name>" + "|".join(f"(?:{phrase})" for phrase in NAMES.values()) + r")(?!\w)", re.IGNORECASE)
_ATTACHED = Pattern(r"(?<=\d)(?P<name>od|id)\b", re.IGNORECASE)
_TOOL = Pattern(_HOW, re.IGNORECASE)
_BEFORE_NAME = Pattern(r"\s*(?:in\s+)?")
_BEHIND_NAME = Pattern(r"\s*(?:of|is|was|=|:)?\s*")


class Figure(Value, kw_only=True):
    """One figure of a line: its place in `TypedText.plain`, the digits (several readings apart by blanks),
    unit and how.

    `group` numbers the run of figures joined by x that it is in; `name` is the size name beside it.
    """

    start: int
    end: int
    digits: str
    unit: str = ""
    own: str = ""
    how: str = ""
    about: bool = False
    name: str = ""
    joined: bool = False
    run: int = 0

    @property
    def is_fraction(self) -> bool:
        return "/" in self.digits

    @property
    def is_whole(self) -> bool:
        return self.digits.isdigit() and not (self.unit or self.how or self.own or self.name or self.about)

    @property
    def is_inch_like(self) -> bool:
        """Written as inches are: ".060", no unit and no nought before the point."""
        return not self.unit and all(_INCH_LIKE.fullmatch(digits) for digits in self.digits.split(" "))

    def text(self, default_unit: str = "mm") -> str:
        """The size text that `read_reading` reads."""
        unit = self.unit or ("in" if self.is_fraction else default_unit)
        digits = re.sub(r"(?<![\d.])\.(?=\d)", "0.", self.digits.replace("..", "\x01")).replace("\x01", "..")
        if "/" in digits and unit == "mm":  # "half a millimetre" is no fraction of a rule
            digits = f"{_number(digits):g}"
        words = ("about" if self.about else "", digits, unit, self.own, self.how)
        return " ".join(word for word in words if word)

    def value_mm(self, default_unit: str = "mm") -> float:
        """Raises SizeError."""
        return read_reading(self.text(default_unit), may_be_zero=True).value_mm


def _number(digits: str) -> float:
    return read_reading(f"{digits} mm", may_be_zero=True).value_mm


def figures_in(text: TypedText) -> list[Figure]:
    """The figures still open, in sequence, with the names beside them. Crosses nothing out."""
    found: list[Figure] = []
    for match in FIGURE.finditer(text.open):
        joined = (
            bool(found) and re.fullmatch(_JOIN, text.open[found[-1].end : match.start()], re.IGNORECASE) is not None
        )
        near = bool(found) and (joined or _BETWEEN.fullmatch(text.open, found[-1].end, match.start()) is not None)
        run = found[-1].run + (not near) if found else 0
        found.append(replace(figure_of(match), joined=joined, run=run))
    return _named(text, found)


def figure_of(match: re.Match[str]) -> Figure:
    """The figure that a match of `FIGURE` tells."""
    start, end = match.span()
    if match["joined"]:
        return Figure(start=start, end=end, digits=_digits(match["joined"]))
    unit = match["unit_first"] or match["unit"] or match["unit_last"] or ""
    unit = _UNIT_WORDS.get(unit.lower(), _UNIT_WORDS.get(unit.lower().removesuffix("s"), unit.lower()))
    own = match["own"] or ""
    high = f"..{_digits(match['high'])}" if match["high"] else ""
    return Figure(
        start=start, end=end, digits=_digits(match["number"]) + high, unit=unit, about=bool(match["about"]),
        own="±" + _digits(own.lstrip("±+/- ")) if own else "", how=(match["how"] or match["how_in"] or "").lower(),
    )  # fmt: skip


def _digits(number: str) -> str:
    """The number with a point for a lone decimal comma; what cannot be read stays as it is, to be refused as typed."""
    number = re.sub(r"(?<=\d)-(?=\d+/)", " ", number)
    return number.replace(",", ".") if re.fullmatch(r"\d*,(?!\d{3}$)\d+|,\d+|0,\d+", number) else number


def _named(text: TypedText, figures: list[Figure]) -> list[Figure]:
    """Each size name goes to the figure before it or else to the one behind it, as the line began to do it."""
    names = [match for pattern in (_NAME, _ATTACHED) for match in pattern.finditer(text.open)]
    names = [match for match in names if not _is_adjective(text, match)]
    ways = [_name_by(text, figures, names, first) for first in ("before", "behind")]
    left = [sum(1 for figure in way if figure.name) for way in ways]
    return (
        ways[1]
        if left[1] > left[0] or (left[0] == left[1] and _crooked(ways[0]) and not _crooked(ways[1]))
        else ways[0]
    )


def _is_adjective(text: TypedText, match: re.Match[str]) -> bool:
    """ "long collar": a word of the name, no name of a size."""
    from stackcheck.formats.words import kinds_in

    if match.group().lower() not in (
        "long",
        "thick",
        "wide",
        "high",
        "tall",
        "inner",
        "outer",
        "inside",
        "outside",
        "seat",
    ):
        return False
    behind = re.match(r" (?:\w+ ){0,1}", text.open[match.end() :])
    if behind is None:
        return False
    kinds = kinds_in(text.open[match.end() :][:40])
    return bool(kinds) and kinds[0][0] in (1, behind.end())


def _name_by(text: TypedText, figures: list[Figure], names: list[re.Match[str]], first: str) -> list[Figure]:
    named = list(figures)
    for match in sorted(names, key=re.Match.start):
        name = next(name for name, phrase in NAMES.items() if re.fullmatch(phrase, match["name"], re.IGNORECASE))
        spots = {}
        for place, figure in enumerate(named):
            if figure.name:
                continue
            if figure.end <= match.start() and _BEFORE_NAME.fullmatch(text.open, figure.end, match.start()):
                spots["before"] = place
            if figure.start >= match.end() and _BEHIND_NAME.fullmatch(text.open, match.end(), figure.start):
                spots["behind"] = place
        place = spots.get(first, next(iter(spots.values()), None))
        if place is not None:
            figure = named[place]
            end, how = max(figure.end, match.end()), figure.how
            if not how and (tool := _TOOL.match(text.open, end)):
                end, how = tool.end(), (tool["how"] or tool["how_in"]).lower()
            named[place] = replace(figure, name=name, start=min(figure.start, match.start()), end=end, how=how)
    return named


def _crooked(figures: list[Figure]) -> bool:
    sizes = {}
    for figure in figures:
        try:
            sizes[figure.name] = figure.value_mm()
        except SizeError:
            return True
    return "bore" in sizes and "outside" in sizes and sizes["bore"] >= sizes["outside"]


def shared(figures: list[Figure], how: str, default_unit: str) -> list[Figure]:
    """What stands behind the last figures also stands behind those before it that have none of their own.

    A unit of small steps ("thou", "um") counts for its own run only; an inch that would make a figure larger than parts
    are does not count for it either. `how` is the way of measuring for those that name none.
    """
    unit, unit_run, tool = "", -1, ""
    ready = []
    for figure in reversed(figures):
        if figure.unit:
            unit, unit_run = figure.unit, figure.run
        elif not figure.is_fraction and unit and (unit_run == figure.run or unit in ("mm", "in")):
            grown = replace(figure, unit=unit)
            if unit == default_unit or _value_or_nothing(grown) <= LARGEST_USUAL_MM:
                figure = grown
        tool = figure.how or tool
        ready.append(replace(figure, how=figure.how or tool or ("" if figure.is_fraction else how)))
    return ready[::-1]


LARGEST_USUAL_MM = 12 * INCH_MM


def _value_or_nothing(figure: Figure) -> float:
    try:
        return figure.value_mm()
    except SizeError:
        return 0.0


def are_readings(figures: list[Figure], default_unit: str = "mm") -> bool:
    """Whether these are several readings of one size: they differ by no more than measuring does."""
    if len(figures) < 2 or any(figure.joined or figure.is_fraction or ".." in figure.digits for figure in figures):
        return False
    values = [figure.value_mm(default_unit) for figure in figures]
    return max(values) - min(values) <= max(0.02 * min(values), 0.03)


def as_readings(figures: list[Figure]) -> Figure:
    """Several readings as one figure."""
    first, last = figures[0], figures[-1]
    unit, how, own = (
        next((said for figure in reversed(figures) if (said := getattr(figure, field))), "")
        for field in ("unit", "how", "own")
    )
    name = next((figure.name for figure in figures if figure.name), "")
    return replace(
        first, end=last.end, digits=" ".join(figure.digits for figure in figures), unit=unit, how=how, own=own,
        name=name,
    )  # fmt: skip
