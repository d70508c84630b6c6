"""What a size text says: "22.0 mm ±0.05", "20 H8", "15/16 in", "57.94 57.95 57.94 mic" -> numbers in mm.

A text is a number (decimal point or comma, fraction, mixed fraction) with a unit, then limits or the way it was got.
The digits written tell the resolution. Inside: mm, N, N·mm, degrees, °C, MPa, N/mm. Only this package knows pint, in
`known`; `scan` takes a text apart, `read` says what the pieces mean together. Fits are not looked up here: see
`stackcheck.formats.sizes`.
"""

from stackcheck.units.inches import in_inches, inch_figure
from stackcheck.units.instruments import INSTRUMENTS, TYPED_HOW, is_measured
from stackcheck.units.known import COMMON_UNITS, DIMENSIONS, INCH_MM, find_unit, unit_from_pint
from stackcheck.units.read import Figure, Written, WrittenReading, read_figure, read_limits, read_reading
from stackcheck.units.scan import plain_signs

__all__ = [
    "COMMON_UNITS", "DIMENSIONS", "INCH_MM", "INSTRUMENTS", "TYPED_HOW", "Figure", "Written", "WrittenReading",
    "find_unit", "in_inches", "inch_figure",
    "is_measured", "plain_signs", "read_figure", "read_limits", "read_reading", "unit_from_pint",
]  # fmt: skip
