"""Text as it can be shown: no sign that a document may not hold or that turns the text after it round."""

from __future__ import annotations

import unicodedata

_TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c")


def shown(text: str, longest: int = 0) -> str:
    """On one line, without control signs and signs of direction, cut to `longest` letters where that is above 0."""
    signs = "".join(sign for sign in text if sign not in _TURNING)
    clean = "".join(_or_mark(sign) for sign in " ".join(signs.split()))
    return clean if not longest or len(clean) <= longest else clean[: longest - 1].rstrip() + "…"


def _or_mark(sign: str) -> str:
    """A mark in the place of what XML may not hold or no font shows."""
    return "\ufffd" if unicodedata.category(sign) in ("Cc", "Cs", "Cn") or ord(sign) in (0xFFFE, 0xFFFF) else sign


_NARROW, _WIDE = frozenset("iIjl.,:;'|!()[] ftr-"), frozenset("mwMW@%—…")


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """About how wide a text is set, rather too wide than too narrow, in the unit of `size`."""
    width = sum(_letter_width(sign) for sign in text)
    return width * size * (1.1 if bold else 1.0)


def _letter_width(sign: str) -> float:
    if sign in _NARROW:
        return 0.41
    if sign in _WIDE or unicodedata.east_asian_width(sign) in "WF":
        return 1.0
    return 0.74 if sign.isupper() else 0.65
