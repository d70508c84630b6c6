"""The thread in a typed line: "M16 x 1.5", with a length behind it or not, or an inch thread like "1/2-20 UNF"."""

from __future__ import annotations

import re

from stackcheck.formats.typed_text import TypedText
from stackcheck.pattern import Pattern

_THREAD = Pattern(
    r"\bM ?(?P<size>(?!0)\d{1,3}(?:\.\d)?)"
    r"(?:\s*[x×*]\s*(?P<second>\d+(?:[.,]\d+)?))?(?:\s*[x×*]\s*(?P<third>\d+(?:[.,]\d+)?))?(?![\w.,/])",
    re.IGNORECASE,
)
_INCH_THREAD = Pattern(
    r"(?<![\w./-])(?P<size>\d+ \d+/\d+|\d+/\d+|\d+)(?: ?in\b| ?\")?"
    r"\s*-\s*(?P<turns>\d{1,2})\s*(?P<form>UNF|UNC|UNEF|UN|BSF|BSW|BSC)\b",
    re.IGNORECASE,
)


def threads_in(text: TypedText) -> tuple[dict[str, str], list[str]]:
    """The sizes that the thread gives, crossed out in the text, and the words that stay in the note."""
    if match := text.take(_INCH_THREAD):
        sizes = {"thread_diameter": f"{match['size']} in", "thread_pitch": f"1/{int(match['turns']) or 1} in"}
        return sizes, [f"thread {text.as_typed(*match.span())}"]
    match = text.take(_THREAD)
    if match is None:
        return {}, []
    sizes = {"thread_diameter": f"{match['size']} mm"}
    for second in filter(None, (match["second"], match["third"])):
        figure = second.replace(",", ".")
        is_pitch = "thread_pitch" not in sizes and float(figure) <= max(float(match["size"]) / 4, 0.5)
        sizes["thread_pitch" if is_pitch else "length"] = f"{figure} mm"
    return sizes, []
