"""A weak place of a reference: a value with a sentence, what mends it, and where in the file that is."""

from __future__ import annotations

from stackcheck.value import Value

TO_MEND, OPEN = "to mend", "left open"
"""The file contradicts itself, a standard or what parts can do;
or it leaves something unsaid, and so must every answer.
"""


class Weakness(Value, kw_only=True):
    """One weak place. `about` names it so that its line is found:
    ("parts", "collar", "length"), ("places", "seal@left"), ...
    """

    check: str
    grade: str
    about: tuple[str, ...]
    sentence: str
    mend: str


def mm(value: float) -> str:
    """A length as it stands in these sentences: to a hundredth, or a thousandth where it has one."""
    text = f"{round(value, 3) + 0.0:.3f}"
    return text.removesuffix("0")


_NOTHING_MM = 1e-9
"""What adding up leaves of nothing."""


def room(low: float, high: float, name: str = "gap") -> str:
    """A gap or clearance between two figures, an overlap where it is less than nothing: "overlap 0.07 to gap 0.05"."""
    low, high = (0.0 if abs(end) < _NOTHING_MM else end for end in (low, high))
    if low * high >= 0:
        return (
            f"{name} {mm(low)} to {mm(high)}" if high > 0 or low == high == 0 else f"overlap {mm(-high)} to {mm(-low)}"
        )
    return f"overlap {mm(-low)} to {name} {mm(high)}"


def wanted(least: float | None, most: float | None, name: str = "gap") -> str:
    """Limits of a gap or clearance in the same words; an open side is said as such."""
    if least is not None and most is not None:
        return room(least, most, name)
    limit = least if most is None else most
    words = room(limit, limit, name).partition(" to ")[0]
    return f"{words} or {'more' if most is None else 'less'}"
