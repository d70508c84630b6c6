"""Amounts of any dimension, where the text itself must say by its unit what is measured: "0.2 bar", "0.6..0.7 mm"."""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.model.gauges import Scale
from stackcheck.units import find_unit, read_limits

_UNIT_BEHIND = re.compile(r'([A-Za-zµ°"][^\d\s]*)\s*$')
EXAMPLE = '"0.2 bar", "0.6..0.7 mm" or "3 °C"'


def scale_of(text: str) -> Scale:
    """The unit behind an amount and what it measures. Raises SizeError.

    >>> scale_of("0.2 bar").dimension, scale_of("0.6..0.7 mm").unit
    ('pressure', 'mm')
    """
    unit = _UNIT_BEHIND.search(text)
    if unit is None:
        raise SizeError(text, f"write it with its unit, like {EXAMPLE}")
    dimension, factor = find_unit(unit[1])
    if not dimension:
        raise SizeError(unit[1], f"is no unit known here; write it like {EXAMPLE}")
    return Scale(dimension, unit[1], factor)


def read_range(text: str, scale: Scale) -> tuple[float, float]:
    """Low and high limit in our inside unit. Raises SizeError."""
    written = read_limits(text, dimension=scale.dimension, default_unit=scale.unit, may_be_negative=True)
    if written.least is None or written.most is None:
        raise SizeError(text, 'write least..most, like "0.6..0.7 mm"; "at most 3 mm" is "0..3 mm"')
    return written.least, written.most


def read_distance(text: str, scale: Scale) -> float:
    """How far readings may be apart, in our inside unit. Raises SizeError."""
    written = read_limits(text, dimension=scale.dimension, default_unit=scale.unit)
    if written.least is not None or written.fit or not written.nominal > 0:
        raise SizeError(text, 'write one figure above 0, like "0.2 bar"')
    return written.nominal
