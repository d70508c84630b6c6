"""What was measured between two faces, and what the pieces of a pack measure together, in a typed line.

    "3.0 goes in, 3.5 does not", "3.0..3.5"   a gap by feeler
    "6 friction plates, as a pack 16.78 cal"  a pack beside its pieces
"""

from __future__ import annotations

import re
from itertools import pairwise

from stackcheck.formats.bench_figures import FIGURE, Figure, _figure
from stackcheck.formats.spoken_numbers import spoken_numbers
from stackcheck.formats.typed_text import TypedText
from stackcheck.value import replace

_GOES = r"(?:(?:goes|fits|passes|slides)(?: in| through)?|in|yes)"
_NOT = r"(?:does(?: not|n'?t)|won'?t|will not|no|not)(?: (?:go|fit|pass)(?: in| through)?)?"
_BREAK = r"\s*(?:[,;.]|\bbut\b|\band\b)?\s*(?:but |and )?"
_GO_FIRST = re.compile(rf"\s*{_GOES}{_BREAK}", re.IGNORECASE)
_NOT_FIRST = re.compile(rf"\s*{_NOT}{_BREAK}", re.IGNORECASE)
_GO_LAST = re.compile(rf"\s*(?:{_GOES})[\s.]*", re.IGNORECASE)
_NOT_LAST = re.compile(rf"\s*(?:{_NOT})[\s.]*", re.IGNORECASE)
_NAMED = re.compile(r"\s*(?:gap|end float|float|free travel|backlash|rock|clearance)(?: of| is| was)?\s*:?\s*", re.IGNORECASE)
_PACK = re.compile(r"(?:^|[,;]\s*|\s)(?P<words>(?:as a |together as a |shim |the )?(?:pack|stack)(?: of| is| was| measures)?:?|together)\s+(?=[\d.])", re.IGNORECASE)


def read_gap(text: str, *, default_unit: str, how: str) -> str:
    """The gap that the whole line tells, "" where it tells none.

    >>> read_gap("3.0 goes in, 3.5 does not", default_unit="mm", how="")
    '3.0..3.5 mm feeler'
    """
    line = TypedText(text, spoken_numbers(text)).plain
    named = _NAMED.match(line)
    begin = named.end() if named else 0
    found = [match for match in FIGURE.finditer(line, begin) if match["number"]]
    if not found or line[begin : found[0].start()].strip():
        return ""
    rest = [line[a.end() : b.start()] for a, b in pairwise(found)] + [line[found[-1].end() :]]
    figures = [_figure(match) for match in found]
    if len(found) == 2:
        for first, last, way in ((_GO_FIRST, _NOT_LAST, 1), (_NOT_FIRST, _GO_LAST, -1)):
            if first.fullmatch(rest[0]) and last.fullmatch(rest[1]):
                low, high = figures[::way]
                if ".." in low.digits + high.digits:
                    return ""
                return _gap(replace(low, digits=f"{low.digits}..{high.digits}", unit=low.unit or high.unit, how=low.how or high.how), default_unit, how)
    if len(found) == 1 and not rest[0].strip(" .") and (named or ".." in figures[0].digits):
        return _gap(figures[0], default_unit, how)
    return ""


def _gap(figure: Figure, default_unit: str, how: str) -> str:
    ready = replace(figure, how=figure.how or how or "feeler")
    ready.value_mm(default_unit)
    return ready.text(default_unit)


def read_pack(text: str, *, default_unit: str, how: str) -> tuple[str, str]:
    """The line without what its pieces measure together, blanks in its stead, and that size; "" where nothing says so.

    >>> read_pack("pack 0.80", default_unit="mm", how="mic")
    ('         ', '0.80 mm mic')
    """
    match = _PACK.search(text)
    figure = FIGURE.match(text, match.end()) if match else None
    if match is None or figure is None or not figure["number"]:
        return text, ""
    read = _figure(figure)
    read = replace(read, how=read.how or how)
    read.value_mm(default_unit)
    return text[: match.start()] + " " * (figure.end() - match.start()) + text[figure.end() :], read.text(default_unit)
