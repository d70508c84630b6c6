"""How many digits of a doubt are worth printing."""

from __future__ import annotations

from math import floor, log10


def good_to(value_mm: float) -> str:
    """What a reading is good to, in one digit, in two where the first is a 1 or a 2: more would be made up.

    Source: JCGM 100:2008, 7.2.6 (two digits at most).

    >>> good_to(0.396875), good_to(0.03), good_to(0.0585), good_to(0.0146), good_to(12.7)
    ('0.4', '0.03', '0.06', '0.015', '13')
    """
    if value_mm <= 0:
        return "0"
    size = floor(log10(value_mm))
    digits = 2 if value_mm / 10**size < 3 - 1e-9 else 1
    return f"{round(value_mm, digits - 1 - size):.10g}"
