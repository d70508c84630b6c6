"""How a size can be got, what people type for it, what it is good to, and what it is poor at.

The standard uncertainty of a reading is that of JCGM 100:2008, 4.3.7 and 4.3.9, with rounding and error limit taken as
rectangular: u² = r²/12 + E²/3 + h²/n. Error limits of callipers and micrometers up to 50 mm: DIN 862 and DIN 863, from an
extract of both; those of the others, handling and good-to values: common practice, no source.
"""

from __future__ import annotations

import math
import re

from stackcheck.value import Value


class Instrument(Value, kw_only=True):
    """A way of getting a size; lengths in mm, None where it does not measure or cannot reach.

    `good_to_mm` is half the interval taken to hold the true size. `resolution_mm` is its finest step, `error_mm` its
    error limit outside, `inside_error_mm` in a bore, `handling_mm` the scatter of one reading by hand.
    """

    words: tuple[str, ...]
    good_to_mm: float
    resolution_mm: float | None = None
    error_mm: float | None = None
    inside_error_mm: float | None = None
    handling_mm: float = 0.0
    poor_at: str = ""


def _tool(words: str, good_to: float, step: float, error: float | None, inside: float | None, hand: float, poor_at: str) -> Instrument:
    return Instrument(
        words=tuple(words.split(", ")), good_to_mm=good_to, resolution_mm=step, error_mm=error, inside_error_mm=inside,
        handling_mm=hand, poor_at=poor_at,
    )  # fmt: skip


INSTRUMENTS: dict[str, Instrument] = {
    "calliper": _tool(
        "cal, calliper, caliper, callipers, calipers, vernier, verniers", 0.03, 0.02, 0.02, 0.04, 0.02,
        "shims, and small bores, which its flat inside jaws read short",
    ),
    "coarse calliper": _tool(
        "coarse cal, coarse calliper, coarse caliper", 0.1, 0.1, 0.05, 0.07, 0.02, "shims, and neighbours a tenth apart",
    ),
    "inside calliper": _tool(
        "inside cal, inside calliper, inside caliper", 0.05, 0.02, None, 0.04, 0.02, "small bores, which flat jaws read short",
    ),
    "micrometer": _tool("mic, mics, micrometer, mike", 0.01, 0.01, 0.004, None, 0.003, "bores, which it cannot reach"),
    "rule": _tool("rule, ruler, tape", 0.5, 0.5, 0.3, 0.3, 0.15, "anything where half a millimetre matters"),
    "dial": _tool("dial, dial gauge, clock", 0.02, 0.01, 0.02, None, 0.01, "whole sizes: it shows a difference"),
    "depth gauge": _tool("depth, depth gauge", 0.05, 0.02, 0.04, 0.04, 0.02, "faces too narrow for its foot"),
    "depth micrometer": _tool("depth mic, depth micrometer", 0.01, 0.01, 0.005, 0.005, 0.005, "faces too narrow for its foot"),
    "feeler": _tool("feeler, feelers, feeler gauge", 0.03, 0.05, 0.01, 0.01, 0.02, "gaps that are wedge-shaped or not flat"),
    "straightedge": _tool("straightedge", 0.05, 0.05, 0.02, None, 0.02, "a figure: it shows that something stands out"),
    "pin gauge": _tool("pin, pin gauge", 0.01, 0.01, None, 0.003, 0.005, "worn bores: it finds the narrowest diameter only"),
    "marking": Instrument(words=("mark", "marking", "marked"), good_to_mm=0.0, poor_at="what the part is now: it says what it was made as"),
    "drawing": Instrument(words=("drawing",), good_to_mm=0.0, poor_at="what the part is now: it says what it was meant to be"),
    "guess": Instrument(words=("guess", "guessed", "about", "by eye", "eye"), good_to_mm=1.0, poor_at="telling neighbours apart"),
}
"""Every way of getting a size, by our name for it."""


def standard_uncertainty_mm(how: str, *, inside: bool = False, readings: int = 1, step_mm: float = 0.0) -> float | None:
    """Standard uncertainty of a size read with an instrument.

    u² = r²/12 + E²/3 + h²/n with resolution r, error limit E and handling h.

    Args:
        how: a key of `INSTRUMENTS`.
        inside: True for a bore.
        readings: how many times it was read, 1 or more; only handling gets smaller.
        step_mm: smallest step written [mm], 0 or more, where that is coarser than the instrument.
    Returns:
        Standard uncertainty [mm], None where the instrument does not measure such a size.
    Raises:
        KeyError: no such instrument.
        ValueError: `readings` is below 1 or `step_mm` below 0.

    Valid to 50 mm. Left out: temperature, form of the part.
    Source: JCGM 100:2008, 4.3.7, 4.3.9 and 5.1.2.

    >>> round(standard_uncertainty_mm("coarse calliper"), 3), round(standard_uncertainty_mm("micrometer"), 3)
    (0.045, 0.005)
    """
    tool = INSTRUMENTS[how]
    if not readings >= 1:
        raise ValueError(f"readings = {readings}: at least 1")
    if not step_mm >= 0:
        raise ValueError(f"step_mm = {step_mm}: 0 or more")
    error = tool.inside_error_mm if inside else tool.error_mm
    if error is None or tool.resolution_mm is None:
        return None
    step = max(tool.resolution_mm, step_mm)
    return math.sqrt(step**2 / 12 + error**2 / 3 + tool.handling_mm**2 / readings)


def is_measured(value_mm: float, how: str) -> bool:
    """False for a reading below half of what the instrument can show: that is "not measured", never a small size.

    Args:
        value_mm: the reading [mm], 0 or more.
        how: a key of `INSTRUMENTS`, or "" where it was not said, which is taken as measured.

    Common practice, no source.

    >>> is_measured(0.04, "coarse calliper"), is_measured(0.04, "micrometer")
    (False, True)
    """
    step = INSTRUMENTS[how].resolution_mm if how else None
    return step is None or value_mm >= step / 2


def bore_from_flat_jaws_mm(read_mm: float, *, flat_mm: float) -> float:
    """The diameter of a bore that jaws with a flat touch only at the corners of the flat, and so read short.

    d² = m² + f²: reading m and flat f are the sides of a rectangle whose corners lie on the bore.

    Args:
        read_mm: the reading [mm], above 0.
        flat_mm: width of the flat on each jaw [mm], 0 for a knife edge.
    Returns:
        Diameter of the bore [mm].
    Raises:
        ValueError: an argument breaks a bound above.

    Valid for a round bore and two equal flats. Source: Pythagoras.

    >>> round(bore_from_flat_jaws_mm(4.984, flat_mm=0.4), 3)
    5.0
    """
    if not read_mm > 0:
        raise ValueError(f"read_mm = {read_mm}: above 0")
    if not flat_mm >= 0:
        raise ValueError(f"flat_mm = {flat_mm}: 0 or more")
    return math.hypot(read_mm, flat_mm)


HOW = {typed: name for name, tool in INSTRUMENTS.items() for typed in tool.words}
"""What people type -> our name for it."""

TYPED_HOW = re.compile(
    r"(?:by |with )?(?P<typed>" + "|".join(sorted(map(re.escape, HOW), key=len, reverse=True)) + r")\b\.?", re.IGNORECASE
)
"""A way of getting a size as it stands in a text, longest spelling first."""
