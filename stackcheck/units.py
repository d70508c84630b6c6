"""What a size text says: "22.0 mm ±0.05", "20 H8", "15/16 in", "57.94 57.95 57.94 mic" -> numbers in mm.

A text is a number (decimal point or comma, fraction, mixed fraction) with a unit, then limits or the way it was got.
The digits written tell the resolution. Inside: mm, N, N·mm, degrees, °C, MPa, N/mm. The common units stand in a small
table, because a whole comparison takes less time than loading pint; every other spelling is put to pint, and a test
holds the table against pint. This is the only module that knows pint. It does not look up fits: see
`stackcheck.formats.sizes`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from stackcheck.errors import SizeError

INCH_MM = 25.4
"""One inch, exactly (international yard and pound agreement of 1959; ISO 31-1:1992)."""

_POUND_FORCE_N = 4.4482216152605
"""One pound-force, from the pound 0.453 592 37 kg and standard gravity 9.806 65 m/s² (NIST SP 811, 2008, B.8)."""

COMMON_UNITS: dict[str, tuple[str, float]] = {
    "mm": ("length", 1.0), "cm": ("length", 10.0), "m": ("length", 1000.0),
    "um": ("length", 0.001), "µm": ("length", 0.001), "μm": ("length", 0.001), "micron": ("length", 0.001),
    "in": ("length", INCH_MM), "inch": ("length", INCH_MM), '"': ("length", INCH_MM), "″": ("length", INCH_MM),
    "thou": ("length", INCH_MM / 1000), "mil": ("length", INCH_MM / 1000),
    "N": ("force", 1.0), "kN": ("force", 1000.0), "lbf": ("force", _POUND_FORCE_N), "kgf": ("force", 9.80665),
    "N·m": ("torque", 1000.0), "N*m": ("torque", 1000.0), "Nm": ("torque", 1000.0), "N·mm": ("torque", 1.0),
    "lbf·ft": ("torque", _POUND_FORCE_N * 12 * INCH_MM), "lbf·in": ("torque", _POUND_FORCE_N * INCH_MM),
    "kgf·m": ("torque", 9806.65),
    "deg": ("angle", 1.0), "°": ("angle", 1.0), "degC": ("temperature", 1.0), "°C": ("temperature", 1.0),
    "MPa": ("pressure", 1.0), "N/mm²": ("pressure", 1.0), "bar": ("pressure", 0.1),
    "N/mm": ("stiffness", 1.0), "kN/mm": ("stiffness", 1000.0),
}  # fmt: skip
"""Spelling -> (what it measures, how many of our inside units it is)."""

DIMENSIONS = {
    "length": ("mm", '"22.0 mm", "15/16 in", "60 thou"'),
    "force": ("N", '"400 N", "12 kN"'),
    "torque": ("N·mm", '"40 N·m", "30 lbf·ft"'),
    "angle": ("deg", '"60 deg"'),
    "temperature": ("degC", '"20 °C"'),
    "pressure": ("MPa", '"2.5 bar", "1 MPa"'),
    "stiffness": ("N/mm", '"250 N/mm"'),
}
"""What may be said: dimension -> (our inside unit, how to write it). Nothing else is read."""

INSTRUMENTS: dict[str, tuple[float, tuple[str, ...]]] = {
    "calliper": (0.03, ("cal", "calliper", "caliper", "callipers", "calipers", "vernier")),
    "inside calliper": (0.05, ("inside cal", "inside calliper", "inside caliper")),
    "micrometer": (0.01, ("mic", "micrometer", "mike")),
    "rule": (0.5, ("rule", "ruler", "tape")),
    "dial": (0.02, ("dial", "dial gauge", "clock")),
    "depth gauge": (0.05, ("depth", "depth gauge")),
    "depth micrometer": (0.01, ("depth mic", "depth micrometer")),
    "feeler": (0.03, ("feeler", "feelers", "feeler gauge")),
    "straightedge": (0.05, ("straightedge",)),
    "pin gauge": (0.01, ("pin", "pin gauge")),
    "marking": (0.0, ("mark", "marking", "marked")),
    "drawing": (0.0, ("drawing",)),
    "guess": (1.0, ("guess", "guessed", "about")),
}
"""Way of getting a size -> (good to [mm], what people type). Good-to values: common practice, no source."""

_HOW = {typed: name for name, (_, words) in INSTRUMENTS.items() for typed in words}
_UNSAID_GOOD_TO_MM = INSTRUMENTS["calliper"][0]
_LONGEST_MM = 1e5
_LARGEST = 1e12
_MOST_CHARACTERS = 120

_NUMBER = re.compile(r"(\d+)[ -](\d+)/(\d+)|(\d+)/(\d+)|(\d+(?:[.,]\d+)?|[.,]\d+)")
_SIGN = re.compile(r"[+\-−]")
_PLUS_MINUS = re.compile(r"±|\+/-|\+-")
_RANGE = re.compile(r"\.\.\.?|…|\bto\b")
_FIT = re.compile(r"(?:[A-Z]{1,2}|[a-z]{1,2})\d{1,2}(?![A-Za-z0-9/²·])")
_UNIT = re.compile(r"[A-Za-zµμ°\"″][A-Za-z0-9µμ°·*/^²³]{0,19}")
_WORDS = re.compile(r"[A-Za-z]+(?: [A-Za-z]+)*")
_POWER = re.compile(r"[\dA-Za-z.]*\d[eE][+-]?\d+|\*\*|\bnan\b|\binf(?:inity)?\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Written:
    """What a text says, in our inside unit. `least` and `most` are None where it gives no limits; `fit` is "H8" or ""."""

    text: str
    nominal: float
    least: float | None = None
    most: float | None = None
    fit: str = ""


@dataclass(frozen=True, slots=True)
class WrittenReading:
    """A measured length [mm]: the middle value, all readings, the instrument and half the interval that holds the truth."""

    text: str
    value_mm: float
    good_to_mm: float
    how: str
    readings_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class _Number:
    value: float
    step: float
    is_fraction: bool
    said: str


def read_limits(
    text: object, *, dimension: str = "length", default_unit: str = "mm", may_be_negative: bool = False
) -> Written:
    """Read a size with its limits, as a drawing gives it.

    Args:
        text: "22.0 mm ±0.05", "22 +0.02/-0.05 mm", "18.35..18.45 mm", "20 H8", "1 1/2 in", "0,5 mm", ...
        dimension: a key of `DIMENSIONS`; a unit of another kind is refused.
        default_unit: the unit of a bare number.
        may_be_negative: a gap, a clearance or a temperature may be below zero, a length may not.
    Raises:
        SizeError: says which piece cannot be read and how to write it.
    """
    scan = _Scanner(_checked(text, dimension), dimension, default_unit)
    low = scan.signed()
    unit = scan.unit()
    scan.skip()
    if scan.take(_RANGE):
        high = scan.signed()
        high_unit = scan.unit()
        factor = scan.factor(unit or high_unit)
        least, most = low.value * factor, high.value * scan.factor(high_unit or unit)
        scan.finish()
        if least > most:
            raise SizeError(scan.text, f"the low limit stands first: {high.said}..{low.said}")
        return _bounded(scan.text, Written(scan.text, _tidy((least + most) / 2), _tidy(least), _tidy(most)), may_be_negative)
    fit = scan.take(_FIT) if dimension == "length" and not _is_unit(scan.rest()) else ""
    if fit:
        unit = unit or scan.unit()
        scan.finish()
        return _bounded(scan.text, Written(scan.text, _tidy(low.value * scan.factor(unit)), fit=fit), may_be_negative)
    deviations = scan.deviations()
    unit = unit or scan.unit() or (deviations[2] if deviations else "")
    scan.finish()
    nominal = low.value * scan.factor(unit)
    if deviations is None:
        return _bounded(scan.text, Written(scan.text, _tidy(nominal)), may_be_negative)
    factor = scan.factor(deviations[2] or unit)
    least, most = nominal + deviations[0] * factor, nominal + deviations[1] * factor
    return _bounded(scan.text, Written(scan.text, _tidy(nominal), _tidy(least), _tidy(most)), may_be_negative)


def read_reading(text: object, *, default_unit: str = "mm") -> WrittenReading:
    """Read a measured length: one or more readings or a range, then how it was got, then perhaps its own ±.

    Args:
        text: "18.02 cal", "57.94 57.95 57.94 mic", "3.0..3.5 feeler", "15/16 in rule", "22.02 cal ±0.02".
        default_unit: the unit of a bare number.
    Raises:
        SizeError: says which piece cannot be read and how to write it.

    Several readings use the middle one. `good_to_mm` is the stated ±, else the instrument's value (`INSTRUMENTS`), never
    less than half of the last digit written; a range is good to half its width. A fraction with no instrument is taken
    for a rule reading, good to 1/64 in; a figure with no instrument is good to what a calliper gives.
    """
    scan = _Scanner(_checked(text, "length"), "length", default_unit)
    numbers, unit, is_range = [scan.signed()], scan.unit(), False
    scan.skip()
    if scan.take(_RANGE):
        is_range = True
        numbers.append(scan.signed())
        unit = scan.unit() or unit
    else:
        while scan.at(_NUMBER):
            numbers.append(scan.signed())
            unit = scan.unit() or unit
    how = scan.how()
    unit = unit or scan.unit()
    own = scan.plus_minus()
    how = how or scan.how()
    scan.finish()
    factor = scan.factor(unit)
    values = tuple(_tidy(number.value * factor) for number in numbers)
    if is_range and values[0] > values[1]:
        raise SizeError(scan.text, f"the smaller figure stands first: {numbers[1].said}..{numbers[0].said}")
    if any(not value > 0 for value in values) and not is_range:
        raise SizeError(numbers[0].said, "a measured length is above 0; leave out what was not measured")
    if own is not None:
        good_to = own[0].value * scan.factor(own[1] or unit)
    else:
        good_to = _good_to_mm(numbers, values, factor, how)
    if is_range:
        middle, good_to = (values[0] + values[1]) / 2, max(good_to if own else 0.0, (values[1] - values[0]) / 2)
    else:
        middle = sorted(values)[len(values) // 2]
    _bounded(scan.text, Written(scan.text, middle), may_be_negative=False)
    return WrittenReading(scan.text, _tidy(middle), _tidy(good_to), how, values)


def _good_to_mm(numbers: list[_Number], values: tuple[float, ...], factor: float, how: str) -> float:
    half_digit = max(number.step for number in numbers) * factor / 2
    if numbers[0].is_fraction and how in ("", "rule"):
        return INCH_MM / 64 if factor == INCH_MM else half_digit
    if how in ("marking", "drawing"):
        return 0.0
    if how == "guess":
        return max(INSTRUMENTS["guess"][0], values[0] / 10)
    return max(INSTRUMENTS[how][0] if how else _UNSAID_GOOD_TO_MM, 0.0 if numbers[0].is_fraction else half_digit)


def _checked(text: object, dimension: str) -> str:
    example = DIMENSIONS[dimension][1].split(", ")[0]
    if not isinstance(text, str):
        said = str(text) if isinstance(text, (int, float)) else type(text).__name__
        raise SizeError(said[:40], f"write it as text with its unit: {example}")
    stripped = text.strip()
    if len(stripped) > _MOST_CHARACTERS:
        raise SizeError(stripped[:20], f"far too long for a size; write it like {example}")
    if not stripped:
        raise SizeError(text, f"nothing written; write it like {example}, or leave the key out")
    power = _POWER.search(stripped)
    if power:
        raise SizeError(power.group(), f"write the plain number with its unit, like {example}")
    return stripped


def _bounded(text: str, written: Written, may_be_negative: bool) -> Written:
    low = written.nominal if written.least is None else written.least
    high = written.nominal if written.most is None else written.most
    if not may_be_negative and (low < 0 or written.nominal < 0):
        raise SizeError(text, "comes out below zero: check the figure and its limits")
    if not abs(high) < _LARGEST or not abs(low) < _LARGEST:
        raise SizeError(text, "far too large for a part: check the figure and its unit")
    return written


def _tidy(value: float) -> float:
    """Drops the last bits that a factor of 25.4 leaves behind: a picometre is far below any size on a bench."""
    return round(value, 9)


class _Scanner:
    """Reads a text piece by piece from the left and can say which piece stopped it."""

    def __init__(self, text: str, dimension: str, default_unit: str):
        self.text, self.dimension, self.default_unit, self.position = text, dimension, default_unit, 0

    def rest(self) -> str:
        return self.text[self.position :]

    def skip(self) -> None:
        while self.position < len(self.text) and self.text[self.position] in " \t,;":
            self.position += 1

    def at(self, pattern: re.Pattern[str]) -> bool:
        self.skip()
        return pattern.match(self.text, self.position) is not None

    def take(self, pattern: re.Pattern[str]) -> str:
        self.skip_spaces()
        match = pattern.match(self.text, self.position)
        if match is None:
            return ""
        self.position = match.end()
        return match.group()

    def skip_spaces(self) -> None:
        while self.position < len(self.text) and self.text[self.position] in " \t":
            self.position += 1

    def signed(self) -> _Number:
        self.skip_spaces()
        sign = self.take(_SIGN)
        number = self.number()
        return _Number(-number.value, number.step, number.is_fraction, "-" + number.said) if sign in "-−" and sign else number

    def number(self) -> _Number:
        self.skip_spaces()
        match = _NUMBER.match(self.text, self.position)
        if match is None:
            said = self.rest().split(" ")[0] or self.text
            raise SizeError(said, f"a number is wanted here, like {DIMENSIONS[self.dimension][1]}")
        self.position = match.end()
        whole, over, under, over2, under2, plain = match.groups()
        if plain is None:
            denominator = int(under or under2)
            if denominator == 0:
                raise SizeError(match.group(), "a fraction cannot have 0 below the stroke")
            value = int(whole or 0) + int(over or over2) / denominator
            return _Number(value, 1 / denominator, True, match.group())
        if re.fullmatch(r"[1-9]\d{0,2},\d{3}", plain):
            raise SizeError(plain, f"may be read two ways; write {plain.replace(',', '.')} or {plain.replace(',', '')}")
        point = plain.replace(",", ".")
        if "." in point and self.text[self.position : self.position + 1] in (".", ",") and self.rest()[1:2].isdigit():
            raise SizeError(plain + self.rest().split(" ")[0], "two decimal points in one number")
        decimals = len(point.partition(".")[2])
        return _Number(float(point), 10.0**-decimals, False, plain)

    def unit(self) -> str:
        """The unit at this spot, or "" where something else stands (a way of measuring, a fit, a sign)."""
        self.skip_spaces()
        match = _UNIT.match(self.text, self.position)
        if match is None or self.at(_RANGE) or self._how_here() or _FIT.match(self.text, self.position):
            return ""
        self.position = match.end()
        return match.group()

    def _how_here(self) -> str:
        words = _WORDS.match(self.text, self.position)
        if words is None:
            return ""
        pieces = words.group().lower().split(" ")
        for count in range(min(len(pieces), 2), 0, -1):
            if " ".join(pieces[:count]) in _HOW:
                return " ".join(pieces[:count])
        return ""

    def how(self) -> str:
        self.skip()
        if self.rest().lower().startswith("by "):
            self.position += 3
        typed = self._how_here()
        self.position += len(typed)
        return _HOW.get(typed, "")

    def plus_minus(self) -> tuple[_Number, str] | None:
        self.skip()
        if not self.take(_PLUS_MINUS):
            return None
        number = self.number()
        return number, self.unit()

    def deviations(self) -> tuple[float, float, str] | None:
        """(lower, upper, unit) of "±0.05" or "+0.02/-0.05", None where none stand here."""
        self.skip_spaces()
        if self.take(_PLUS_MINUS):
            half = self.number()
            return -half.value, half.value, self.unit()
        if not _SIGN.match(self.text, self.position) and "/" not in self.rest():
            return None
        start = self.position
        first = self.signed()
        first_unit = self.unit()
        self.skip_spaces()
        if self.text[self.position : self.position + 1] != "/":
            raise SizeError(self.text[start:], 'give both limits: "+0.02/-0.05", or "±0.05"')
        self.position += 1
        second = self.signed()
        unit = self.unit() or first_unit
        return min(first.value, second.value), max(first.value, second.value), unit

    def factor(self, unit: str) -> float:
        dimension, factor = _unit(unit or self.default_unit)
        if dimension != self.dimension:
            inside, examples = DIMENSIONS[self.dimension]
            measured = f"measures {dimension}" if dimension else "is no unit known here"
            raise SizeError(unit or self.text, f"{unit!r} {measured}; a {self.dimension} is wanted, like {examples}")
        return factor

    def finish(self) -> None:
        self.skip()
        if self.position < len(self.text):
            said = self.rest()
            hint = f"cannot be read after {self.text[: self.position].strip()!r}; write it like {DIMENSIONS[self.dimension][1]}"
            raise SizeError(said[:40], hint)


def _is_unit(text: str) -> bool:
    match = _UNIT.match(text.strip())
    return match is not None and match.group() in COMMON_UNITS


def _unit(spelling: str) -> tuple[str, float]:
    known = COMMON_UNITS.get(spelling)
    return known if known is not None else unit_from_pint(spelling)


@lru_cache(maxsize=256)
def unit_from_pint(spelling: str) -> tuple[str, float]:
    """What pint makes of a unit: (dimension, how many of our inside units), or ("", 0.0) where it knows none of ours."""
    if not re.fullmatch(r"[A-Za-zµμ°\"″]+(?:\^?[23²³])?(?:[·*/][A-Za-zµμ°]+(?:\^?[23²³])?){0,3}", spelling):
        return "", 0.0
    import pint

    registry = _registry()
    try:
        unit = registry.parse_units(spelling.replace("·", "*").replace("²", "**2").replace("³", "**3"))
        for dimension, (inside, _) in DIMENSIONS.items():
            wanted = registry.parse_units(inside.replace("·", "*"))
            if unit.dimensionality == wanted.dimensionality and (dimension == "angle") == (unit.dimensionality == {}):
                if dimension == "temperature":
                    return (dimension, 1.0) if unit == wanted else ("", 0.0)
                return dimension, float(registry.Quantity(1.0, unit).to(wanted).magnitude)
    except (pint.errors.PintError, ValueError, TypeError, ArithmeticError, AttributeError, KeyError):
        return "", 0.0  # pint names no common base for what it raises on a spelling that it cannot take apart
    return "", 0.0


@lru_cache(maxsize=1)
def _registry():
    import pint

    return pint.UnitRegistry(cache_folder=None)
