"""How a size can be got, what people type for it, and what it is good to.

`good_to_mm` is what a plain reading is taken to be good to (a whole interval). The finer figures make a standard
uncertainty where sizes have to tell one part from another: smallest step, error limit outside and inside, handling.
"""

from __future__ import annotations

import re
from math import sqrt

from stackcheck.pattern import Pattern
from stackcheck.value import Value


class Instrument(Value, kw_only=True):
    """One way of getting a size [mm].

    `error_outside_mm` and `error_inside_mm` are limits of error; None where the tool cannot take such a size.
    `resolution_mm` is the smallest step the tool ever shows; the digits written may be coarser. `inside_flat_mm` is the
    width of the flats of the inside jaws. `minutes` is what one reading costs, from fetching to writing it down.
    """

    good_to_mm: float
    typed: tuple[str, ...]
    resolution_mm: float = 0.01
    error_outside_mm: float | None = None
    error_inside_mm: float | None = None
    feel_mm: float = 0.0
    inside_flat_mm: float = 0.0
    minutes: float = 1.0
    source: str = "common practice, no source"


_862 = (
    "DIN 862 from a public extract (edition not known): 0.05 for scales of 0.1 and 0.05, 0.02 for finer ones, "
    "0.02 more inside and in depth; handling from memory"
)
_863 = "DIN 863-1 from a public extract (edition not known): 0.004 up to 50 mm; handling from memory"
_MEMORY = "from memory"

INSTRUMENTS: dict[str, Instrument] = {
    "calliper": Instrument(
        good_to_mm=0.03,
        typed=("cal", "calliper", "caliper", "callipers", "calipers", "vernier", "verniers"),
        error_outside_mm=0.02,
        error_inside_mm=0.04,
        feel_mm=0.02,
        inside_flat_mm=0.4,
        source=_862,
    ),
    "calliper 0.05": Instrument(
        good_to_mm=0.05,
        typed=("cal 0.05", "calliper 0.05", "caliper 0.05"),
        resolution_mm=0.05,
        error_outside_mm=0.05,
        error_inside_mm=0.07,
        feel_mm=0.02,
        inside_flat_mm=0.4,
        source=_862,
    ),
    "calliper 0.1": Instrument(
        good_to_mm=0.08,
        typed=("cal 0.1", "calliper 0.1", "caliper 0.1"),
        resolution_mm=0.1,
        error_outside_mm=0.05,
        error_inside_mm=0.07,
        feel_mm=0.02,
        inside_flat_mm=0.4,
        source=_862,
    ),
    "inside calliper": Instrument(
        good_to_mm=0.05,
        typed=("inside cal", "inside calliper", "inside caliper"),
        error_inside_mm=0.04,
        feel_mm=0.03,
        inside_flat_mm=0.4,
        source=_862,
    ),
    "micrometer": Instrument(
        good_to_mm=0.01,
        typed=("mic", "mics", "micrometer", "mike"),
        resolution_mm=0.001,
        error_outside_mm=0.004,
        feel_mm=0.003,
        minutes=2.0,
        source=_863,
    ),
    "rule": Instrument(
        good_to_mm=0.5,
        typed=("rule", "ruler", "tape"),
        resolution_mm=0.5,
        error_outside_mm=0.3,
        error_inside_mm=0.3,
        feel_mm=0.15,
        minutes=0.5,
        source=_MEMORY,
    ),
    "dial": Instrument(
        good_to_mm=0.02,
        typed=("dial", "dial gauge", "clock"),
        error_outside_mm=0.015,
        feel_mm=0.005,
        minutes=5.0,
    ),
    "depth gauge": Instrument(
        good_to_mm=0.05, typed=("depth", "depth gauge"), error_outside_mm=0.04, feel_mm=0.02, source=_862
    ),
    "depth micrometer": Instrument(
        good_to_mm=0.01, typed=("depth mic", "depth micrometer"), error_outside_mm=0.005, feel_mm=0.005, minutes=2.0
    ),
    "feeler": Instrument(
        good_to_mm=0.03,
        typed=("feeler", "feelers", "feeler gauge"),
        error_outside_mm=0.01,
        feel_mm=0.02,
    ),
    "straightedge": Instrument(good_to_mm=0.05, typed=("straightedge",), error_outside_mm=0.05),
    "pin gauge": Instrument(
        good_to_mm=0.01,
        typed=("pin", "pin gauge"),
        error_inside_mm=0.003,
        feel_mm=0.005,
        minutes=4.0,
        source=_MEMORY,
    ),
    "marking": Instrument(good_to_mm=0.0, typed=("mark", "marking", "marked")),
    "drawing": Instrument(good_to_mm=0.0, typed=("drawing",)),
    "guess": Instrument(
        good_to_mm=1.0, typed=("guess", "guessed", "about", "by eye", "eye"), error_outside_mm=1.0, error_inside_mm=1.0
    ),
}
"""Our name for a way of getting a size -> what is known of it. Good-to values: common practice, no source."""

HOW = {typed: name for name, tool in INSTRUMENTS.items() for typed in tool.typed}
"""What people type -> our name for it."""

TYPED_HOW = Pattern(
    r"(?:by |with )?(?P<typed>" + "|".join(sorted(map(re.escape, HOW), key=len, reverse=True)) + r")\b\.?",
    re.IGNORECASE,
)
"""A way of getting a size as it stands in a text, longest spelling first."""


def standard_uncertainty(
    tool: Instrument, *, step_mm: float = 0.0, inside: bool = False, readings: int = 1
) -> float | None:
    """Standard uncertainty of one size by this tool [mm]; None where the tool cannot take such a size.

    u = sqrt(r²/12 + MPE²/3 + feel²/n): rounding to the step r and the limit of error are uniform, handling shrinks with
    the number of readings. Several readings by a coarse scale stay as coarse as it is.

    Args:
        tool: what measured.
        step_mm: the smallest step of the digits written [mm], 0 for those of the tool; the coarser of the two counts.
        inside: a bore rather than an outside size or a thickness.
        readings: how often it was read, 1 or more.
    Source: JCGM 100:2008, 4.3.7 (uniform limits) and 5.1.2 (independent contributions).

    >>> coarse, fine = INSTRUMENTS["calliper 0.1"], INSTRUMENTS["calliper"]
    >>> round(standard_uncertainty(coarse), 3), round(standard_uncertainty(fine, inside=True), 3)
    (0.045, 0.031)
    """
    limit = tool.error_inside_mm if inside else tool.error_outside_mm
    if limit is None:
        return None
    step = max(step_mm, tool.resolution_mm)
    return sqrt(step**2 / 12 + limit**2 / 3 + tool.feel_mm**2 / readings)


def bore_from_chord(read_mm: float, flat_mm: float) -> float:
    """The diameter of a bore [mm] that jaws with flats of this width [mm] read as `read_mm`.

    The flats touch as two chords: read² + flat² = diameter². The reading is short by flat²/(2 d) in the first place.
    Source: plane geometry.

    >>> round(bore_from_chord(5, 0.4) - 5, 3), round(bore_from_chord(20, 0.4) - 20, 3)
    (0.016, 0.004)
    """
    return sqrt(read_mm**2 + flat_mm**2)


def is_measured(value_mm: float, how: str) -> bool:
    """False for a reading below half of what the tool can show: that is "not measured", never a small size.

    Args:
        value_mm: the reading [mm], 0 or more.
        how: a key of `INSTRUMENTS`, or "" where it was not said, which is taken as measured.
    Common practice, no source.

    >>> is_measured(0.04, "calliper 0.1"), is_measured(0.04, "micrometer")
    (False, True)
    """
    return not how or value_mm >= INSTRUMENTS[how].resolution_mm / 2
