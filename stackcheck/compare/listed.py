"""Whether the line of an explanation is the list that was typed: the half of the witness that looks at the entries."""

from __future__ import annotations

from stackcheck.model.finding import Explanation
from stackcheck.model.found import Found


def is_what_was_found(explanation: Explanation, found: Found) -> bool:
    """Whether the line holds every entry in the sequence it came off, as often as it was entered, and no other."""
    gone = {f.entries[1] for f in explanation.findings if f.kind == "entered_twice"}
    mirrored = any(f.kind == "entered_from_other_end" for f in explanation.findings)
    counts: dict[int, int] = {}
    sequence: list[int] = []
    for standing in explanation.line:
        if standing.entry is not None:
            counts[standing.entry] = counts.get(standing.entry, 0) + standing.count
            if not sequence or sequence[-1] != standing.entry:
                sequence.append(standing.entry)
    listed = [entry for entry in found.entries if not entry.is_loose and entry.number not in gone]
    if counts != {entry.number: entry.count for entry in listed} or len(sequence) != len(listed):
        return False
    position = {number: i for i, number in enumerate(sequence)}
    unsaid = all(entry.end is None for entry in listed)
    for end in (0, 1):
        numbers = [position[e.number] for e in listed if (0 if unsaid else e.end) == end]
        if numbers != sorted(numbers, reverse=(end == 1) != mirrored):
            return False
    firsts = [position[e.number] for e in listed if e.end == 0]
    seconds = [position[e.number] for e in listed if e.end == 1]
    if mirrored:
        firsts, seconds = seconds, firsts
    return not firsts or not seconds or max(firsts) < min(seconds)
