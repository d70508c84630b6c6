"""Where a castellated nut can be locked, and what play it leaves there.

The nut can stand wherever one of its slots meets a hole for the pin. Slots repeat every 360°/slots, so a hole counts
only by where it falls in that pitch: a second hole helps only if it falls elsewhere in the pitch than the first.
Loosening by an angle opens the play by the pitch of the thread for each turn. Nothing here chooses to go tighter than
asked.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import ceil, floor

from stackcheck.mechanics.lengths import Interval
from stackcheck.tables import UnknownStandard, resolve
from stackcheck.value import Value

_SAME_DEG = 1e-6
_METRIC = re.compile(r"M\s*\d+(?:[.,]\d+)?\s*[x×]\s*(\d+(?:[.,]\d+)?)\b", re.IGNORECASE)
_COARSE = re.compile(r"M\s*(\d+(?:[.,]\d+)?)(?![\d.,]|\s*[x×\d])", re.IGNORECASE)
_INCH = re.compile(r"(?:\d+\s+)?\d+(?:/\d+)?\s*-\s*(\d+)\b")


class Slot(Value, kw_only=True):
    """One position: loosened by `turned_deg` from where the nut stands (below 0: tightened),
    and the play there [mm].
    """

    turned_deg: float
    play: Interval


def positions(slots: int, holes_deg: Sequence[float] = (0.0,)) -> tuple[float, ...]:
    """Where within one pitch of the slots the nut can be locked [degrees], the first hole at 0.

    Args:
        slots: slots around the nut, at least 1.
        holes_deg: where the holes of the pin stand around the axle [degrees]; a hole through and through is two.
    Raises:
        ValueError: no slot, no hole.

    Source: geometry.

    >>> positions(10, (0, 90))  # the second hole falls half way between
    (0.0, 18.0)
    >>> positions(8, (0, 90))  # it falls on the first and gains nothing
    (0.0,)
    """
    if slots < 1 or not holes_deg:
        raise ValueError("a nut has at least one slot, an axle at least one hole")
    pitch = 360 / slots
    found: list[float] = []
    for hole in holes_deg:
        place = (hole - holes_deg[0]) % pitch
        if not any(min(abs(place - known), pitch - abs(place - known)) < _SAME_DEG for known in found):
            found.append(place)
    return tuple(sorted(found))


def thread_pitch_mm(thread: str) -> float | None:
    """The pitch [mm] that a thread's designation states (ISO 965-1: M20x1.5, and M20 for the coarse pitch, which is that
    of ISO 261; ASME B1.1: 3/4-16 UNF), None where it states none.

    >>> thread_pitch_mm("M20x1.5"), thread_pitch_mm("3/4-16 UNF"), thread_pitch_mm("M20"), thread_pitch_mm("Tr 20")
    (1.5, 1.5875, 2.5, None)
    """
    if metric := _METRIC.match(thread.strip()):
        return float(metric[1].replace(",", ".")) or None
    if inch := _INCH.match(thread.strip()):
        return 25.4 / int(inch[1]) if int(inch[1]) else None
    return _coarse_pitch_mm(thread.strip())


def _coarse_pitch_mm(thread: str) -> float | None:
    coarse = _COARSE.match(thread)
    try:
        row = resolve(f"ISO 261 M{float(coarse[1].replace(',', '.')):g}") if coarse else None
    except UnknownStandard:
        return None
    return row and row.size("thread_pitch").nominal_mm


def slots_within(
    *,
    play: Interval,
    thread_pitch_mm: float,
    slots: int,
    holes_deg: Sequence[float] = (0.0,),
    target: tuple[float, float],
) -> tuple[Slot, ...]:
    """The positions whose play may lie within the target, and the next one to either side, tightest first.

    play(turned) = play now + turned · P/360

    Args:
        play: play with the nut where it stands now, in a position where it can be locked [mm].
        thread_pitch_mm: pitch of the thread P [mm], above 0.
        slots, holes_deg: as for `positions`.
        target: least and most play wanted [mm].
    Raises:
        ValueError: a pitch not above 0, or a target that ends before it begins.

    Valid while the nut presses on nothing that gives:
    below zero play it loads the bearings, and the play says nothing more.
    Source: geometry of a thread; the sequence of the holes is common practice, no source.

    >>> near = slots_within(play=Interval.exactly(0.30), thread_pitch_mm=1.5, slots=6, target=(0.03, 0.08))
    >>> [(slot.turned_deg, round(slot.play.nominal_mm, 3)) for slot in near]
    [(-60.0, 0.05), (0.0, 0.3)]
    """
    if not thread_pitch_mm > 0:
        raise ValueError("the pitch of a thread is above 0")
    if not target[0] <= target[1]:
        raise ValueError("the target ends before it begins")
    pitch_deg = 360 / slots
    opened_mm = thread_pitch_mm / 360
    lowest = floor((target[0] - play.most_mm) / opened_mm / pitch_deg) - 1
    highest = ceil((target[1] - play.least_mm) / opened_mm / pitch_deg) + 1
    turns = sorted(
        step * pitch_deg + place for step in range(lowest, highest + 1) for place in positions(slots, holes_deg)
    )
    all_slots = [Slot(turned_deg=turned, play=play + Interval.exactly(turned * opened_mm)) for turned in turns]
    inside = [
        i for i, slot in enumerate(all_slots) if slot.play.most_mm >= target[0] and slot.play.least_mm <= target[1]
    ]
    if not inside:
        first = next(i for i, slot in enumerate(all_slots) if slot.play.nominal_mm > target[1])
        return tuple(all_slots[first - 1 : first + 1])
    shown = all_slots[max(0, inside[0] - 1) : inside[-1] + 2]
    return tuple(slot for slot in shown if slot.play.most_mm > 0 or slot.turned_deg == 0)
