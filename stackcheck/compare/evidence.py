"""Why a finding says what it says: short sentences from sizes, numbers and facing."""

from __future__ import annotations

from stackcheck.compare.identity import ALTERNATE, DIFFERENT, OVERRULED, SAME, Identity, Match
from stackcheck.compare.sizes import miss_mm, size_verdict
from stackcheck.model.found import Entry
from stackcheck.model.part import SIZE_NAMES, Part, Reading, Size
from stackcheck.model.reference import Reference
from stackcheck.units.digits import good_to


def millimetres(value: float) -> str:
    text = f"{value:.3f}".rstrip("0")
    whole, _, digits = text.partition(".")
    return f"{whole}.{digits:0<2} mm" if len(digits) < 2 else f"{text} mm"


def limits(size: Size) -> str:
    if size.least_mm is not None and size.most_mm is not None:
        return f"{millimetres(size.least_mm)[:-3]} to {millimetres(size.most_mm)}"
    if size.least_mm is not None:
        return f"at least {millimetres(size.least_mm)}"
    return f"at most {millimetres(size.most_mm)}" if size.most_mm is not None else millimetres(size.nominal_mm)


def who(reference: Reference, identity: Identity, entry: Entry, part: Part, match: Match) -> tuple[str, ...]:
    """What the entry was taken for, and from what."""
    lines = []
    if entry.marked:
        lines.append(f"number {entry.marked} read off entry {entry.number}")
    named = identity.named(entry)
    if match.how == SAME and not entry.marked:
        lines.append(f"entry {entry.number} was {'entered as' if entry.sure else 'taken for'} {part.name}")
    elif match.how == ALTERNATE:
        lines.append(f"the reference accepts it for {part.number or part.name}")
    elif match.how == OVERRULED and named:
        lines.append(f"entry {entry.number} fits as {part.name}, not as {named.name}")
    elif match.how == DIFFERENT and named:
        other = f"{named.name}, not {part.name}" if named.id != part.id else f"another {part.kind} than {part.name}"
        lines.append(f"entry {entry.number} is {other}")
    elif named is None:
        lines.append(f"entry {entry.number} {'does not fit' if match.how == DIFFERENT else 'fits'} as {part.name}")
    for name, reading in entry.sizes:
        size = part.size(name)
        if size is not None and match.how != DIFFERENT or size is not None and (named is None or not entry.sure):
            lines.append(fit(name, reading, size))
    if match.how == DIFFERENT:
        lines += [
            f"easily taken for it: {duty.detail}" for duty in part.duties if duty.name == "look-alike" and duty.detail
        ]
    return tuple(lines)


def fit(name: str, reading: Reading, size: Size) -> str:
    """How one reading stands to the limits of a drawing.

    >>> collar = Size(text="22 mm", nominal_mm=22.0, least_mm=21.95, most_mm=22.05)
    >>> fit("length", Reading(text="", value_mm=21.9, good_to_mm=0.02), collar)
    'length 21.90 mm (good to 0.02), wanted 21.95 to 22.05 mm: 0.05 mm below the low limit'
    """
    words = f"{SIZE_NAMES.get(name, name).removesuffix(' along the axis')} {millimetres(reading.value_mm)}"
    if reading.good_to_mm:
        words += f" (good to {good_to(reading.good_to_mm)})"
    verdict = size_verdict(reading, size)
    if verdict == "no limits":
        return f"{words}, nominal {millimetres(size.nominal_mm)}, no limits given"
    words += f", wanted {limits(size)}: "
    if verdict == "in":
        return words + "inside"
    if verdict == "close":
        return words + "a limit lies within what the reading is good to"
    miss = miss_mm(reading, size)
    return words + f"{millimetres(abs(miss))} " + ("above the high limit" if miss > 0 else "below the low limit")


def facing(reference: Reference, part: Part, toward: str, wanted: str) -> str:
    feature = part.feature or "feature"
    if toward == wanted:
        return f"{feature} points to {reference.end_name(toward)}, though its run was turned end for end"
    return f"{feature} points to {reference.end_name(toward)}, wanted to {reference.end_name(wanted)}"
