"""Takes a size text apart from the left, piece by piece, and can say which piece stopped it."""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.pattern import Pattern
from stackcheck.units.instruments import HOW, TYPED_HOW
from stackcheck.units.known import DIMENSIONS, find_unit
from stackcheck.value import Value

PLUS_MINUS = Pattern(r"±|\+ ?/ ?-|\+-")
RANGE = Pattern(r"\.\.\.?|\bto\b", re.IGNORECASE)
DIAMETER = Pattern(r"(?:[Øø⌀]|dia(?:meter)?\b\.?|d\b|d(?=\d))", re.IGNORECASE)
ABOUT = Pattern(r"(?:about|approx(?:imately)?|roughly|ca|circa)\b\.?|[~≈]", re.IGNORECASE)
FIT = Pattern(r"(?:[A-Z]{1,2}|[a-z]{1,2})\d{1,2}(?![A-Za-z0-9/²·])")
NUMBER = Pattern(r"(\d+)[ -](\d+)/(\d+)|(\d+)/(\d+)|(\d+(?:[.,]\d+)?|[.,]\d+)")
_SIGN = Pattern(r"[+-]")
_DEVIATION = Pattern(r"[+-]|0(?:[.,]0*)? ?/ ?[+-]")
_STROKE = Pattern("/")
_OTHER_LIMIT = Pattern(r"[+-]|0")
_WORD = r"[A-Za-zµ°][A-Za-z0-9µ°²³^]*"
_UNIT = Pattern(rf"\"|''|{_WORD}(?:[·*/.-]{_WORD})*(?:\.(?!\.))?")
_TWO_WAYS = Pattern(r"[1-9]\d{0,2},\d{3}")
_REMARK = Pattern(r"\([^()]*\)$")

_PLAIN = str.maketrans({
    "−": "-", "–": "-", "\u00a0": " ", "\u2009": " ", "\u202f": " ", "″": '"', "”": '"', "“": '"', "μ": "µ", "⋅": "·",
    "…": "..", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
})  # fmt: skip
"""Signs that a keyboard or a telephone puts for the plain ones."""


def plain_signs(text: str) -> str:
    """The text with plain signs for those that a telephone puts: "½" -> " 1/2", "”" -> a double quote."""
    return text.translate(_PLAIN)


class Number(Value):
    """A number as written: its value, the smallest step of its last digit, and its own spelling."""

    value: float
    step: float
    is_fraction: bool
    said: str


class Scanner:
    """`position` moves to the right with every piece taken; blanks before a piece are skipped."""

    def __init__(self, text: str, dimension: str):
        self.text, self.dimension, self.position = plain_signs(text).strip(), dimension, 0

    @property
    def rest(self) -> str:
        return self.text[self.position :]

    def at(self, pattern: Pattern) -> re.Match[str] | None:
        self._skip(" \t")
        return pattern.match(self.text, self.position)

    def take(self, pattern: Pattern) -> str:
        """The piece that matches here, "" where none does."""
        match = self.at(pattern)
        if match is None:
            return ""
        self.position = match.end()
        return match.group()

    def skip_breaks(self) -> None:
        self._skip(" \t,;")

    def _skip(self, signs: str) -> None:
        while self.text[self.position : self.position + 1] in signs and self.position < len(self.text):
            self.position += 1

    def signed(self) -> Number:
        sign = self.take(_SIGN)
        number = self.number()
        return Number(-number.value, number.step, number.is_fraction, "-" + number.said) if sign == "-" else number

    def number(self) -> Number:
        match = self.at(NUMBER)
        if match is None:
            raise SizeError(self.rest.split(" ")[0] or self.text, f"a number is wanted here, like {self._examples}")
        self.position = match.end()
        whole, over, under, over_alone, under_alone, plain = match.groups()
        if plain is None:
            below = int(under or under_alone)
            if below == 0:
                raise SizeError(match.group(), "a fraction cannot have 0 below the stroke")
            return Number(int(whole or 0) + int(over or over_alone) / below, 1 / below, True, match.group())
        if _TWO_WAYS.fullmatch(plain):
            raise SizeError(plain, f"may be read two ways; write {plain.replace(',', '.')} or {plain.replace(',', '')}")
        if re.match(r"[.,]\d", self.rest):
            raise SizeError(plain + self.rest.split(" ")[0], "two decimal points in one number")
        point = plain.replace(",", ".")
        return Number(float(point), 10.0 ** -len(point.partition(".")[2]), False, plain)

    def unit(self) -> str:
        """The unit at this spot, "" where something else stands (a way of measuring, a fit, a sign)."""
        if not self.at(_UNIT) or self.at(RANGE) or self.at(TYPED_HOW) or self.at(FIT):
            return ""
        return self.take(_UNIT)

    def how(self) -> str:
        """The way of getting the size at this spot, by our name, perhaps in brackets; "" where none stands."""
        self.skip_breaks()
        start, bracket = self.position, self.text.startswith("(", self.position)
        self.position += bracket
        match = self.at(TYPED_HOW)
        if match is None or (bracket and not self.text.startswith(")", match.end())):
            self.position = start
            return ""
        self.position = match.end() + bracket
        return HOW[match["typed"].lower()]

    def plus_minus(self) -> tuple[Number, str] | None:
        """The figure and unit behind a "±", None where none stands here."""
        self.skip_breaks()
        if not self.take(PLUS_MINUS):
            return None
        return self.number(), self.unit()

    def deviations(self) -> tuple[float, float, str] | None:
        """(lower, upper, unit) of "±0.05" or "+0.02/-0.05", None where none stand here."""
        half = self.plus_minus()
        if half is not None:
            return -half[0].value, half[0].value, half[1]
        if not self.at(_DEVIATION):
            return None
        start = self.position
        first, first_unit = self.signed(), self.unit()
        self.take(_STROKE)
        if not self.at(_OTHER_LIMIT):
            wanted = 'give both limits, like "+0.02/-0.05" or "0/-0.05"; a range is written "18.35..18.45"'
            raise SizeError(self.text[start:], wanted)
        second = self.signed()
        unit = self.unit() or first_unit
        return min(first.value, second.value), max(first.value, second.value), unit

    def factor(self, unit: str) -> float:
        """How many of our inside units one of these is. Raises SizeError where it measures something else."""
        if not unit:
            raise SizeError(
                self.text,
                f"no unit stands behind the figure; {self._article} {self.dimension} is wanted, like {self._examples}",
            )
        dimension, factor = find_unit(unit)
        if dimension != self.dimension:
            what = f"measures {dimension}" if dimension else "is no unit known here"
            raise SizeError(unit, f"{unit} {what}; {self._article} {self.dimension} is wanted, like {self._examples}")
        return factor

    def finish(self) -> None:
        """Raises SizeError where anything but a remark in brackets is still to come."""
        self.skip_breaks()
        if self.rest and not self.at(_REMARK):
            read = self.text[: self.position].rstrip()
            wanted = f"cannot be read behind {read}; write it like {self._examples}, a remark in (brackets)"
            raise SizeError(self.rest, wanted)

    @property
    def _examples(self) -> str:
        return DIMENSIONS[self.dimension][1]

    @property
    def _article(self) -> str:
        return "an" if self.dimension == "angle" else "a"
