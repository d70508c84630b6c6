"""What was measured between two faces, and what the pieces of a pack measure together, in a typed line.

"3.0 goes in, 3.5 does not", "3.0..3.5"   a gap by feeler
"6 friction plates, as a pack 16.78 cal"  a pack beside its pieces
"""

from __future__ import annotations

import re
from itertools import pairwise

from stackcheck.formats.bench_figures import FIGURE, Figure, figure_of
from stackcheck.formats.bench_read import Question
from stackcheck.formats.spoken_numbers import spoken_numbers
from stackcheck.formats.typed_text import TypedText
from stackcheck.pattern import Pattern
from stackcheck.value import Value, replace

_GOES = r"(?:(?:goes|fits|passes|slides)(?: in| through)?|in|yes)"
_NOT = r"(?:does(?: not|n'?t)|won'?t|will not|no|not)(?: (?:go|fit|pass)(?: in| through)?)?"
_BREAK = r"\s*(?:[,;.]|\bbut\b|\band\b)?\s*(?:but |and )?"
_GO_FIRST = Pattern(rf"\s*{_GOES}{_BREAK}", re.IGNORECASE)
_NOT_FIRST = Pattern(rf"\s*{_NOT}{_BREAK}", re.IGNORECASE)
_GO_LAST = Pattern(rf"\s*(?:{_GOES})[\s.]*", re.IGNORECASE)
_NOT_LAST = Pattern(rf"\s*(?:{_NOT})[\s.]*", re.IGNORECASE)
_FINEST_FEELER_MM = 0.03
_NAMED = Pattern(
    r"\s*(?:between (?:the )?(?:[^\W\d]+ ){0,4}?[^\W\d]+(?= [\d.])|gap|end float|float|free travel"
    r"|backlash|rock|clearance)(?: of| is| was)?\s*:?\s*",
    re.IGNORECASE,
)
_PACK_OF = Pattern(
    r"\s*(?:a |the )?(?:shim )?(?:pack|stack) of (?P<things>(?:\d{1,3} )?[^\W\d][^\d,;]*?)[\s,:]+"
    r"(?P<figure>[\d.][^;]*)",
    re.IGNORECASE,
)
_PACK = Pattern(
    r"(?:^|[,;]\s*|\s)(?P<words>(?:as a |together as a |shim |the )?(?:pack|stack)(?: of| is| was| measures)?:?"
    r"|together)\s+(?=[\d.])",
    re.IGNORECASE,
)


class Gap(Value, kw_only=True):
    """A gap as a size text, what it was called, and what has to be asked about it."""

    text: str
    name: str = ""
    question: Question | None = None


def read_gap(text: str, *, default_unit: str, how: str) -> Gap | None:
    """The gap that the whole line tells, None where it tells none.

    >>> read_gap("3.0 goes in, 3.5 does not", default_unit="mm", how="").text
    '3.0..3.5 mm feeler'
    """
    line = TypedText(text, spoken_numbers(text)).plain
    named = _NAMED.match(line)
    begin = named.end() if named else 0
    found = [match for match in FIGURE.finditer(line, begin) if match["number"]]
    if not found or line[begin : found[0].start()].strip():
        return None
    rest = [line[a.end() : b.start()] for a, b in pairwise(found)] + [line[found[-1].end() :]]
    figures = [figure_of(match) for match in found]
    words = line[:begin].strip(" :")
    if len(found) == 2:
        for first, last, way in ((_GO_FIRST, _NOT_LAST, 1), (_NOT_FIRST, _GO_LAST, -1)):
            low, high = figures[::way]
            if first.fullmatch(rest[0]) and last.fullmatch(rest[1]) and ".." not in low.digits + high.digits:
                both = replace(
                    low, digits=f"{low.digits}..{high.digits}", unit=low.unit or high.unit, how=low.how or high.how
                )
                return _gap(words, both, default_unit, how or "feeler")
    is_range = ".." in figures[0].digits
    if len(found) == 1 and not rest[0].strip(" .") and (named or is_range):
        return _gap(words, figures[0], default_unit, how or ("feeler" if is_range else ""))
    return None


def _gap(words: str, figure: Figure, default_unit: str, how: str) -> Gap:
    """The gap; written as inches are, in a mm job, it is asked about unless no feeler is so thin."""
    figure = replace(figure, how=figure.how or how)
    inches = replace(figure, unit="in")
    ends = figure.digits.split("..")
    if default_unit == "in" or figure.unit or not all(replace(figure, digits=end).is_inch_like for end in ends):
        figure.value_mm(default_unit)
        return Gap(text=figure.text(default_unit), name=words)
    if figure.value_mm(default_unit) < _FINEST_FEELER_MM:
        return Gap(text=inches.text(), name=words)
    own = replace(figure, unit=default_unit)
    choices = tuple((one.text(), f"{words} {one.text()}".strip()) for one in (own, inches))
    question = Question(
        about="unit", text=f"{own.text()} or {inches.text()} ({inches.value_mm():.2f} mm)?", choices=choices
    )
    return Gap(text=own.text(), name=words, question=question)


def read_pack(text: str, *, default_unit: str, how: str) -> tuple[str, str]:
    """The line without what its pieces measure together, blanks in its stead, and that size; "" where nothing says so.

    >>> read_pack("pack 0.80", default_unit="mm", how="mic")
    ('         ', '0.80 mm mic')
    """
    if (
        (whole := _PACK_OF.fullmatch(text))
        and (figure := FIGURE.fullmatch(text, whole.start("figure")))
        and figure["number"]
    ):
        start, end = whole.span("things")
        body = " " * start + text[start:end] + " " * (len(text) - end)
        return body, replace(figure_of(figure), how=figure_of(figure).how or how).text(default_unit)
    match = _PACK.search(text)
    figure = FIGURE.match(text, match.end()) if match else None
    if match is None or figure is None or not figure["number"] or re.match(r" [^\W\d]", text[figure.end() :]):
        return text, ""
    read = figure_of(figure)
    read = replace(read, how=read.how or how)
    read.value_mm(default_unit)
    return text[: match.start()] + " " * (figure.end() - match.start()) + text[figure.end() :], read.text(default_unit)
