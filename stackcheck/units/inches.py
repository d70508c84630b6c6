"""Which texts were written in inches, and a length as somebody reads it off an inch micrometer."""

from __future__ import annotations

import re

from stackcheck.pattern import Pattern
from stackcheck.units.known import INCH_MM

_INCHES = Pattern(r"\d\s*(?:in|inch|inches|thou)\b|\d\s*[\"″]", re.IGNORECASE)


def in_inches(text: str) -> bool:
    """Whether the figure of a text is one of inches: "15/16 in", "60 thou", 1/2".

    >>> [in_inches(text) for text in ("15/16 in", "125 thou ±5 thou", '1/2"', "22.0 mm", "47 N7")]
    [True, True, True, False, False]
    """
    return bool(_INCHES.search(text))


def inch_figure(value_mm: float) -> str:
    """A length in inches to a thousandth, or to a ten-thousandth where it has one.

    >>> [inch_figure(value) for value in (17.526, 0.0127, 12.7)]
    ['0.690', '0.0005', '0.500']
    """
    return f"{value_mm / INCH_MM:.4f}".removesuffix("0")
