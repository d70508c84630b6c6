"""What the pieces of a size text mean together: a size with its limits, or a measured reading."""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.pattern import Pattern
from stackcheck.units.instruments import INSTRUMENTS
from stackcheck.units.known import DIMENSIONS, INCH_MM, ZERO_AT
from stackcheck.units.scan import ABOUT, DIAMETER, FIT, NUMBER, RANGE, Number, Scanner
from stackcheck.value import Value

LARGEST = {"length": 1e5}
"""No part is longer than 100 m; other amounts stop at `_LARGEST`."""

RULE_STEP_MM = INCH_MM / 64
"""What inches off a rule are good to."""
_LARGEST = 1e12
_MOST_CHARACTERS = 120
_POWER = Pattern(r"\d[eE][+-]?\d+|\*\*|\bnan\b|\binf(?:inity)?\b", re.IGNORECASE)
_WARM = Pattern(
    r"[\s,]+at (?P<part>[+-−]?\s*\d[^,;]*?)(?:[,;]?\s*(?:instrument|tool)(?: at)? (?P<tool>[+-−]?\s*\d[^,;]*))?$",
    re.IGNORECASE,
)
"""How warm the part was, and the instrument, behind a reading."""
_HYPHEN = Pattern(r"-(?! ?/)")


class Written(Value):
    """What a text says, in our inside unit. `least` and `most` are None without limits; `fit` is "H8" or ""."""

    text: str
    nominal: float
    least: float | None = None
    most: float | None = None
    fit: str = ""


class WrittenReading(Value):
    """A measured length [mm]: the middle value, all readings, the instrument and half the interval that holds it.

    `step_mm` is the smallest step of the digits written; `own_good_to` tells whether the ± was written beside it.
    `part_at` and `tool_at` say how warm part and instrument were [°C], None where nobody says.
    """

    text: str
    value_mm: float
    good_to_mm: float
    how: str
    readings_mm: tuple[float, ...]
    step_mm: float = 0.0
    own_good_to: bool = False
    part_at: Written | None = None
    tool_at: Written | None = None


class Figure(Value):
    """One figure as typed: its value and the smallest step of its digits, both in our inside unit."""

    text: str
    value: float
    step: float


def read_figure(text: object, *, dimension: str, default_unit: str) -> Figure:
    """Read one figure of any dimension, as a gauge shows it; it may be below zero.

    Args:
        text: "2.45 bar", "50,02", "-3.5 °C", ...
        dimension: a key of `DIMENSIONS`; a unit of another kind is refused.
        default_unit: the unit of a bare number.
    Raises:
        SizeError: says which piece cannot be read and how to write it.

    >>> read_figure("2.45", dimension="pressure", default_unit="bar")
    Figure(text='2.45', value=0.245, step=0.001)
    """
    text = _checked(text, dimension)
    scan = Scanner(text, dimension)
    number = scan.signed()
    factor = scan.factor(scan.unit() or default_unit)
    scan.finish()
    _check_bounds(Written(text, number.value * factor), dimension, may_be_negative=True)
    return Figure(text, _tidy(number.value * factor), _tidy(number.step * factor))


def read_limits(
    text: object, *, dimension: str = "length", default_unit: str = "mm", may_be_negative: bool = False
) -> Written:
    """Read a size with its limits, as a drawing gives it.

    Args:
        text: "22.0 mm ±0.05", "22 +0.02/-0.05 mm", "18.35..18.45 mm", "20 H8", "1 1/2 in", "0,5 mm", ...
        dimension: a key of `DIMENSIONS`; a unit of another kind is refused.
        default_unit: the unit of a bare length; an amount of any other kind names its own.
        may_be_negative: a gap, a clearance or a temperature may be below zero, a length may not.
    Raises:
        SizeError: says which piece cannot be read and how to write it.

    >>> read_limits("22 +0.02/-0.05 mm")
    Written(text='22 +0.02/-0.05 mm', nominal=22.0, least=21.95, most=22.02, fit='')
    """
    text = _checked(text, dimension)
    scan = Scanner(text, dimension)
    if dimension == "length":
        scan.take(DIAMETER)
    else:
        default_unit = ""
    first, unit = scan.signed(), scan.unit()
    if scan.take(RANGE):
        second = scan.signed()
        second_unit = scan.unit()
        scan.finish()
        least = _tidy(_inside(scan, first.value, unit or second_unit or default_unit))
        most = _tidy(_inside(scan, second.value, second_unit or unit or default_unit))
        if least > most:
            raise SizeError(scan.text, f"the low limit stands first: {second.said}..{first.said}")
        written = Written(text, _tidy((least + most) / 2), least, most)
    elif dimension == "length" and (fit := scan.take(FIT)):
        unit = unit or scan.unit() or default_unit
        scan.finish()
        written = Written(text, _tidy(first.value * scan.factor(unit)), fit=fit)
    else:
        deviations = scan.deviations()
        last_unit = deviations[2] if deviations else ""
        unit = unit or last_unit or scan.unit() or default_unit
        scan.finish()
        nominal = _inside(scan, first.value, unit)
        written = Written(text, _tidy(nominal))
        if deviations is not None:
            factor = scan.factor(last_unit or unit)
            least, most = (_tidy(nominal + deviation * factor) for deviation in deviations[:2])
            written = Written(text, _tidy(nominal), least, most)
    _check_bounds(written, dimension, may_be_negative)
    return written


def _inside(scan: Scanner, value: float, unit: str) -> float:
    """A value in our inside unit, counted from our own zero."""
    return value * scan.factor(unit) + ZERO_AT.get(unit, 0.0)


def read_reading(text: object, *, default_unit: str = "mm", may_be_zero: bool = False) -> WrittenReading:
    """Read a measured length: one or more readings or a range, how it was got, perhaps its own ±, and how warm it was.

    Args:
        text: "18.02 cal", "57.94 57.95 57.94 mic", "3.0..3.5 feeler", "15/16 in rule", "22.02 cal ±0.02",
            "58.02 mic at 60 °C, instrument 20 °C".
        default_unit: the unit of a bare number.
        may_be_zero: a gap may be nothing at all, a part may not.
    Raises:
        SizeError: says which piece cannot be read and how to write it.

    Several readings use the middle one. `good_to_mm` is the stated ±, else what the instrument is good to
    (`INSTRUMENTS`), never less than half of the last digit written, and wide enough to hold every reading; a range is
    good to half its width. Inches written whole or as a fraction, with no instrument, are taken for a rule reading,
    good to 1/64 in; any other figure with no instrument is good to what a calliper gives.

    >>> read_reading("57.94 57.95 57.94 mic").value_mm
    57.94
    """
    text = _checked(text, "length")
    cold, part_at, tool_at = _how_warm(text)
    scan = Scanner(cold, "length")
    is_about = bool(scan.take(ABOUT))
    scan.take(DIAMETER)
    numbers, unit = [scan.signed()], scan.unit()
    is_range = bool(scan.take(RANGE) or scan.take(_HYPHEN))
    if is_range:
        numbers.append(scan.number())
        unit = scan.unit() or unit
    scan.skip_breaks()
    while scan.at(NUMBER):
        numbers.append(scan.number())
        unit = scan.unit() or unit
        scan.skip_breaks()
    how = scan.how()
    unit = unit or scan.unit() or default_unit
    own = scan.plus_minus()
    how = how or scan.how() or ("guess" if is_about else "")
    scan.finish()
    factor = scan.factor(unit)
    if not how and own is None and not is_range and _is_off_a_rule(numbers, factor):
        how = "rule"
    values = tuple(_tidy(number.value * factor) for number in numbers)
    if is_range and (len(values) > 2 or values[0] > values[1]):
        raise SizeError(scan.text, f"a range has two figures, the smaller first: {min(values):g}..{max(values):g} mm")
    if min(values) < 0 or not (may_be_zero or max(values) > 0):
        raise SizeError(numbers[0].said, "a measured length is above 0; leave out what was not measured")
    middle = _middle(values)
    own_good_to = None if own is None else own[0].value * scan.factor(own[1] or unit)
    good_to = max(abs(value - middle) for value in values)
    if own_good_to is not None or not is_range:
        good_to = max(good_to, _good_to_mm(numbers, factor, how) if own_good_to is None else own_good_to)
    _check_bounds(Written(text, max(values)), "length", may_be_negative=False)
    step = _step_mm(numbers, factor, how)
    return WrittenReading(
        text, _tidy(middle), _tidy(good_to), how, values, _tidy(step), own is not None or is_range, part_at, tool_at
    )


def _how_warm(text: str) -> tuple[str, Written | None, Written | None]:
    """The text without what it says of warmth; how warm the part and the instrument were."""
    match = _WARM.search(text)
    if match is None:
        return text, None, None
    part, tool = (
        said and read_limits(said.strip(), dimension="temperature", may_be_negative=True)
        for said in match.group("part", "tool")
    )
    return text[: match.start()], part, tool


def _good_to_mm(numbers: list[Number], factor: float, how: str) -> float:
    half_digit = max(number.step for number in numbers) * factor / 2
    if _is_off_a_rule(numbers, factor) and how == "rule":
        return RULE_STEP_MM
    if how in ("marking", "drawing"):
        return 0.0
    if how == "guess":
        return max(INSTRUMENTS["guess"].good_to_mm, numbers[0].value * factor / 10)
    return max(INSTRUMENTS[how or "calliper"].good_to_mm, 0.0 if numbers[0].is_fraction else half_digit)


def _is_off_a_rule(numbers: list[Number], factor: float) -> bool:
    """Whether inches stand here as a rule shows them: whole or with a fraction, never with a decimal point."""
    return factor == INCH_MM and all(number.is_fraction or number.step == 1 for number in numbers)


def _step_mm(numbers: list[Number], factor: float, how: str) -> float:
    """The smallest step of the digits written [mm]; a fraction shows none, so it has that of its instrument."""
    if _is_off_a_rule(numbers, factor):
        return RULE_STEP_MM if how == "rule" else 0.0
    return max(number.step for number in numbers) * factor


def _middle(values: tuple[float, ...]) -> float:
    ranked = sorted(values)
    return (ranked[(len(ranked) - 1) // 2] + ranked[len(ranked) // 2]) / 2


def _checked(text: object, dimension: str) -> str:
    """The text without blanks around it; refuses at once what is no size text of any kind."""
    inside, examples = DIMENSIONS[dimension]
    example = examples.split(", ")[0]
    if isinstance(text, (int, float)) and not isinstance(text, bool):
        said = repr(text) if abs(text) < 10**20 else ""
        own = f'"{said} {inside}"' if re.fullmatch(r"\d+(\.\d+)?", said) else example
        raise SizeError(said, f"write it as text with its unit: {own}")
    if not isinstance(text, str):
        raise SizeError("", f"write it as text with its unit: {example}")
    stripped = text.strip()
    if len(stripped) > _MOST_CHARACTERS:
        raise SizeError(stripped[:20], f"far too long for a size; write it like {example}")
    if not stripped:
        raise SizeError(text, f"nothing is written; write it like {example}, or leave the key out")
    if power := _POWER.search(stripped):
        raise SizeError(power.group(), f"write the plain number with its unit, like {example}")
    return stripped


def _check_bounds(written: Written, dimension: str, may_be_negative: bool) -> None:
    figures = [figure for figure in (written.nominal, written.least, written.most) if figure is not None]
    if not may_be_negative and min(figures) < 0:
        raise SizeError(written.text, "comes out below zero: look at the figure and its limits")
    if not max(map(abs, figures)) <= LARGEST.get(dimension, _LARGEST):
        raise SizeError(written.text, "far too large for a part: look at the figure and its unit")


def _tidy(value: float) -> float:
    """Drops the last bits that a factor of 25.4 leaves behind: a picometre is far below any size on a bench."""
    return round(value, 9)
