"""A part as somebody writes it in one line of a parts list: "long collar 22.0 ±0.05 bore 20 H8 od 30 #FT-1207 x2".

Figures with x between them are outside, bore and length (the larger of the first two is the outside); a single figure
without a name is the length; every other size follows its name. "#" stands before the part's number, "x2" or "2 off" at
the end is the count. What is left is the name.
"""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.formats.sizes import size_of
from stackcheck.formats.spoken_numbers import spoken_numbers
from stackcheck.formats.words import designation_in, kind_of_name
from stackcheck.model.part import Size
from stackcheck.units import read_limits
from stackcheck.value import Value

_CALLED = {
    "length": "length", "thickness": "length", "width": "length",
    "bore": "bore", "id": "bore", "inside": "bore", "hole": "bore", "outside": "outside", "od": "outside",
    "outer diameter": "outside", "seat": "seat", "shoulder": "shoulder", "across flats": "across_flats",
    "af": "across_flats", "free length": "free_length",
    "thread": "thread_diameter", "pitch": "thread_pitch", "groove": "groove", "ball": "ball",
    "inner ring width": "inner_width", "outer ring width": "outer_width",
}  # fmt: skip
_NAME = re.compile(
    rf"(?<![\w-])(?:{'|'.join(sorted(map(re.escape, _CALLED), key=len, reverse=True))})\b\.?(?=\s*[:=]?\s*[\d.,Øø⌀±])",
    re.IGNORECASE,
)
_FIGURE = r"\d+(?:[.,]\d+)?|[.,]\d+"
_INCHES = r"in\b(?!\s+(?:the|an?|its|this|that|front|between|drum|hub|bore)\b)"
"""The unit, never the word of "in the drum bore"."""
_UNIT = rf"(\s*(?:mm\b|{_INCHES}|thou\b))?"
_TIMES = re.compile(
    rf"(?<![\w.,])(?:({_FIGURE})[x×]({_FIGURE})(?:[x×]({_FIGURE}))?"
    rf"|({_FIGURE})\s*[x×]\s*({_FIGURE})\s*[x×]\s*({_FIGURE}))(?![\w]){_UNIT}"
)
_THREAD = re.compile(rf"\bM({_FIGURE})(?:[x×]({_FIGURE}))?(?:[x×]({_FIGURE}))?\b")
_COARSEST_PITCH = 6
_THICK = {"split pin": "shaft", "bolt": "thread_diameter", "axle": "seat", "shaft": "seat", "arbor": "seat"}
"""Kinds of which two figures are how thick and how long -> the size that the thickness is."""
_CIRCLIP_IS_THIN = 3
"""A circlip is thinner than this part of what it is made for, and its own bore is never so small.
Common practice, no source.
"""
_FIRST_COUNT = re.compile(r"^\s*(\d{1,3})\s+(?=[A-Za-z -]*[A-Za-z]s\b)")
_ADJECTIVES = re.compile(r"\s*\b(?:long|wide|thick|high)\b")
_BRACKETED = re.compile(r"(?:(?<=\d)\s*(?:long|wide|thick|high))?\s*\(?\s*(±\s*[\d.,]*\d)(?:\s*\))?", re.IGNORECASE)
"""Limits in brackets or behind "high": they belong to the figure before."""
_NUMBER = re.compile(r"#\s*([\w./-]+)")
_COUNT = re.compile(r"(?:(?<=\s)[x×]\s*(\d{1,4})|\b(\d{1,4})\s*(?:off|pieces?|pcs))\s*$", re.IGNORECASE)
_BARE = re.compile(rf"(?<![\w.,/-])(?:(?:\d+[ -])?\d+/\d+|{_FIGURE})(?![\w/])")
_PLAIN_FIGURE = re.compile(rf"({_FIGURE}(?:\.\.(?:{_FIGURE}))?)(\s*(?:±|[+-]).*)?(?<![A-Za-z\"])")
_BEHIND = re.compile(
    rf"\s*(?:(?:±|\+|-)\s*[\d.,/ +-]*|\.\.\s*[\d.,]+|[A-Za-z]{{1,2}}\d{{1,2}}\b|mm\b|{_INCHES}|thou\b|\")"
)
_LIMITS = re.compile(r"\s*(?:±|[+-](?=\d))\s*[\d.,][\d.,/ +-]*|\s*\.\.\s*[\d.,]+")
"""Limits behind the last of the figures with x between them."""


class DrawnPart(Value, kw_only=True):
    """One line of a parts list: the name and what was said beside it; `sizes` are texts as written, each readable."""

    text: str
    name: str
    kind: str = ""
    number: str = ""
    standard: str = ""
    count: int = 1
    sizes: tuple[tuple[str, str], ...] = ()


def read_drawn_part(text: str) -> DrawnPart:
    """Read one line.

    Raises:
        SizeError: a size that cannot be read, or one given twice.

    >>> part = read_drawn_part("long collar 22.0 ±0.05 bore 20 H8 od 30 #FT-1207 x2")
    >>> part.name, part.number, part.count, part.sizes
    ('long collar', 'FT-1207', 2, (('length', '22.0 mm ±0.05'), ('bore', '20 H8'), ('outside', '30 mm')))
    >>> read_drawn_part("washer 37x21x3").sizes
    (('outside', '37 mm'), ('bore', '21 mm'), ('length', '3 mm'))
    >>> read_drawn_part("crank washer 34x17x3.0 ±0.1").sizes[2], read_drawn_part("two shims 0.30 ±0.02").count
    (('length', '3.0 mm ±0.1'), 2)
    >>> read_drawn_part("nut 14.8 high (±0.2)").name, read_drawn_part("nut 14.8 high (±0.2)").sizes
    ('nut', (('length', '14.8 mm ±0.2'),))
    >>> read_drawn_part("split pin 4x32").sizes
    (('length', '32 mm'), ('shaft', '4 mm'))
    >>> read_drawn_part("bolt M16x100").sizes
    (('thread_diameter', '16 mm'), ('thread_pitch', '2 mm'), ('length', '100 mm'))
    """
    rest, number, count = _in_figures(_BRACKETED.sub(r" \1", text.strip())), "", 1
    if match := _NUMBER.search(rest):
        number, rest = match[1], rest[: match.start()] + rest[match.end() :]
    times = _TIMES.search(rest)
    match = _COUNT.search(rest.rstrip(), times.end() if times else 0) or _FIRST_COUNT.match(rest)
    if match:
        count, rest = int(next(filter(None, match.groups()))), rest[: match.start()] + rest[match.end() :]
    standard = designation_in(rest)
    if standard:
        rest = rest.replace(standard, " ", 1)
    name, sizes = read_drawn_sizes(rest)
    name = " ".join(name.strip(" ,;:-").split())
    kind = kind_of_name(name)
    sizes = thick_and_long(kind, sizes)
    return DrawnPart(
        text=text, name=name, kind=kind, number=number, standard=standard, count=max(1, count), sizes=sizes
    )


def _in_figures(text: str) -> str:
    """ "two shims" as "2 shims"; any other number in words stays a word of the name."""
    start, end, figure = next(iter(spoken_numbers(text)), (-1, 0, ""))
    counted = f"{figure}{text[end:]}"
    return counted if start == 0 and _FIRST_COUNT.match(counted) else text


def read_drawn_sizes(text: str) -> tuple[str, tuple[tuple[str, str], ...]]:
    """What stands before the sizes, and the sizes as written. Raises SizeError."""
    found: list[tuple[str, str]] = []
    match = _TIMES.search(text)
    if match:
        written = [figure for figure in (match.groups()[:3] if match[1] else match.groups()[3:6]) if figure]
        texts = [f"{figure}{match[7] or ''}" for figure in written]
        if limits := _LIMITS.match(text, match.end()):
            texts[-1] += f" {limits.group().strip(' ,')}"
        if float(written[0].replace(",", ".")) < float(written[1].replace(",", ".")):
            texts[:2] = texts[1::-1]
        found += zip(("outside", "bore", "length"), texts)
        text = f"{text[: match.start()]} {text[limits.end() if limits else match.end() :]}"
    if match := _THREAD.search(text):
        found += [(name, f"{figure} mm") for name, figure in _thread(*match.groups()) if figure]
        text = f"{text[: match.start()]} {text[match.end() :]}"
    named = list(_NAME.finditer(text))
    head_end = named[0].start() if named else len(text)
    head = text[:head_end]
    if bare := _BARE.search(head):
        end = bare.end()
        while behind := _BEHIND.match(head, end):
            end = behind.end()
        found.append(("length", head[bare.start() : end].strip(" ,;")))
        if adjective := _ADJECTIVES.match(head, end):
            end = adjective.end()
        head = f"{head[: bare.start()]} {head[end:]}"
    for index, match in enumerate(named):
        end = named[index + 1].start() if index + 1 < len(named) else len(text)
        name = _CALLED[match.group().rstrip(".").lower()]
        found.append((name, text[match.end() : end].strip(" ,;:=")))
    found = [(name, with_unit(said)) for name, said in found]
    for name, said in found:
        if sum(name == other for other, _ in found) > 1:
            both = " and ".join(text or "nothing" for other, text in found if other == name)
            raise SizeError(both, f"cannot be read: the {name} is given twice")
        drawn_size(said)
    return head, tuple(found)


def _thread(diameter: str, second: str | None, third: str | None) -> tuple[tuple[str, str | None], ...]:
    """M16x1.5 has a pitch, M16x100 a length, M16x1.5x100 both:
    no metric thread is coarser than 6 mm (ISO 261, from memory).
    """
    if not second and not third:
        second = coarse_pitch(diameter)
    elif second and not third and float(second.replace(",", ".")) > _COARSEST_PITCH:
        second, third = coarse_pitch(diameter), second
    return ("thread_diameter", diameter), ("thread_pitch", second), ("length", third)


def coarse_pitch(diameter: str) -> str | None:
    """The pitch of a thread of which only the diameter is said, M12: the coarse one (ISO 261);
    None for a size not in it.

    >>> coarse_pitch("12")
    '1.75'
    """
    from stackcheck.tables import UnknownStandard, resolve

    try:
        hardware = resolve(f"ISO 261 M{diameter.replace(',', '.')}")
    except UnknownStandard:
        return None
    return next((f"{size.nominal_mm:.9g}" for size in hardware.sizes if size.name == "thread_pitch"), None)


def thick_and_long(kind: str, sizes: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    """A pin of 4x32 is no ring: the lesser figure is how thick it is, the greater how long. A circlip of 47x1.75 is
    made for 47 mm of shaft, or of bore, and 1.75 mm thick."""
    said = dict(sizes)
    if kind == "circlip" and "length" not in said and {"outside", "bore"} <= said.keys():
        across, through = (drawn_size(said[name]).nominal_mm for name in ("outside", "bore"))
        renamed = {"outside": "shaft", "bore": "length"} if across > _CIRCLIP_IS_THIN * through else {}
        return tuple((renamed.get(name, name), text) for name, text in sizes)
    if kind not in _THICK or "length" in said or not {"outside", "bore"} <= said.keys() or _THICK[kind] in said:
        return sizes
    renamed = {"outside": "length", "bore": _THICK[kind]}
    return tuple((renamed.get(name, name), text) for name, text in sizes)


def with_unit(text: str) -> str:
    """The text with mm behind the figure where no unit was written: "22.0 ±0.05" -> "22.0 mm ±0.05"."""
    match = _PLAIN_FIGURE.fullmatch(text.strip())
    return f"{match[1]} mm{match[2] or ''}" if match and not re.search("[A-Za-z]", match[2] or "") else text


def drawn_size(text: str) -> Size:
    """The text as a size of a part. Raises SizeError."""
    size = size_of(read_limits(text))
    if not size.nominal_mm > 0:
        raise SizeError(text, "a part has a size above nothing")
    return size
