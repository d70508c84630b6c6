"""A typed line in the signs that the patterns know:
spoken numbers as figures, "1/2" for "½", "20 x 47 x 14" for "20-47-14".

Only what to put in place of what is told here; `typed_text.TypedText` keeps both, so that nothing typed is lost.
"""

from __future__ import annotations

from stackcheck.formats.spoken_numbers import spoken_numbers
from stackcheck.pattern import Pattern

_SIGNS = {
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
    "″": '"', "”": '"', "“": '"', "…": "..", "−": "-", "–": "-", "μ": "µ", "’": "'",
}  # fmt: skip
_LISTED = Pattern(r"(?<![\d.,/-])\d{1,3}(?:\.\d+)?([-/])\d{1,3}(?:\.\d+)?\1\d{1,3}(?![\d/-])")
_TIMES = Pattern(r"(?<=\d) ?[xX×*] ?(?=[\d.,])")


def other_signs(piece: str) -> list[tuple[int, int, str]]:
    """What the patterns read in other words: spoken numbers, signs of a telephone, "20-47-14"."""
    found = spoken_numbers(piece)
    found += [(place, place + 1, _SIGNS[sign]) for place, sign in enumerate(piece) if sign in _SIGNS]
    for match in _LISTED.finditer(piece):
        found += [
            (match.start() + place, match.start() + place + 1, " x ")
            for place, sign in enumerate(match.group())
            if sign == match[1]
        ]
    found += [(*match.span(), " x ") for match in _TIMES.finditer(piece)]
    return sorted(found)
