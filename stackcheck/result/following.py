"""Which finding follows from which: one physical mistake is one point, however many limits it crosses.

A tube that is short leaves a gap too small; a thin axle leaves room in every bore that stands on it; a washer of
another kind in the place of a washer is one thing missing and one thing over. Each of these is a finding of its own,
and is told beside the one that it follows from. A finding follows from at most one, which follows from none.
"""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.mechanics.effects import CROSSES, Effect
from stackcheck.model.finding import Explanation, Extra, Finding, GapDiffers, Missing, PairingDiffers, SizeDiffers
from stackcheck.model.reference import Reference

Told = tuple[Finding, Effect | None]


def causes(reference: Reference, explanation: Explanation, findings: Sequence[Told]) -> list[int | None]:
    """For every finding the number of the one that it follows from, None for a mistake of its own."""
    stands_in = _stand_ins(reference, explanation, [finding for finding, _ in findings])
    return [stands_in.get(number, _cause(reference, findings, number)) for number in range(len(findings))]


def _cause(reference: Reference, findings: Sequence[Told], number: int) -> int | None:
    own = findings[number][0]
    if isinstance(own, GapDiffers):
        if (typed := _typed_beside(reference, findings, own)) is not None:
            return typed
        moved = [other for other, (_, effect) in enumerate(findings) if _moves(effect, own)]
        moved += [other for other, (_, effect) in enumerate(findings) if _accounts_for(effect, own)]
        return _first_of(findings, moved[0]) if moved else _moved_together(findings, own)
    if isinstance(own, PairingDiffers):
        spoilt = (other for other, (finding, _) in enumerate(findings) if _spoils(reference, finding, own))
        return next((_first_of(findings, other) for other in spoilt), None)
    if isinstance(own, SizeDiffers):
        first = _first_of(findings, number)
        return None if first == number else first
    return None


def _first_of(findings: Sequence[Told], number: int) -> int:
    """The first finding that says of the same part that it is another one or of another size."""
    own = findings[number][0]
    same = (
        other
        for other, (finding, _) in enumerate(findings[:number])
        if finding.kind in ("different_part", "size_differs")
        and (finding.places, finding.entries) == (own.places, own.entries)
    )
    return next(same, number)


def _moves(effect: Effect | None, gap: GapDiffers) -> bool:
    """Whether an effect alone brings the gap out of its limits on the side where it was found."""
    after = (
        change.after
        for change in (effect.loop_changes if effect else ())
        if change.loop == gap.what and change.crosses_limit == CROSSES
    )
    least = gap.limits_mm[0]
    return any(each is not None and _is_below(each.most_mm, least) == _is_below(gap.gap_mm[1], least) for each in after)


def _accounts_for(effect: Effect | None, gap: GapDiffers) -> bool:
    """Whether an effect moves a gap that nobody measured by as much as it lies outside:
    without that mistake the sum might agree.

    So it is where many lengths are those of the reference still,
    whose limits leave open what the effect alone would do.
    """
    if effect is None or gap.measured:
        return False
    least, most = gap.limits_mm
    below = least - gap.gap_mm[1] if least is not None else 0.0
    above = gap.gap_mm[0] - most if most is not None else 0.0
    moves = [
        change.after.nominal_mm - change.before.nominal_mm
        for change in effect.loop_changes if change.loop == gap.what and change.after and change.before
    ]  # fmt: skip
    return any(move <= -below < 0 or move >= above > 0 for move in moves)


def _moved_together(findings: Sequence[Told], gap: GapDiffers) -> int | None:
    """The first of several findings none of which brings the gap out of its limits for sure, and all of them do:
    worn plates.
    """
    changes = [
        (number, change)
        for number, (_, effect) in enumerate(findings)
        for change in (effect.loop_changes if effect else ())
        if change.loop == gap.what and change.before is not None and change.after is not None
    ]
    if not changes:
        return None
    before = changes[0][1].before.nominal_mm
    after = before + sum(change.after.nominal_mm - change.before.nominal_mm for _, change in changes)
    least, most = gap.limits_mm
    is_below = least is not None and gap.gap_mm[1] < least
    is_out = least is not None and after < least if is_below else most is not None and after > most
    return _first_of(findings, changes[0][0]) if is_out else None


def _typed_beside(reference: Reference, findings: Sequence[Told], gap: GapDiffers) -> int | None:
    """The size measured on the assembly, in the loop of this gap, that is further out than the gap is:
    the sum is out by it alone.
    """
    loop = next((loop for loop in reference.loops if loop.name == gap.what), None)
    if loop is None or gap.measured:
        return None
    places = {
        loop.start,
        loop.end,
        *(item for path in (loop.open_path, loop.closed_path) for item in path if isinstance(item, str)),
    }
    least, most = gap.limits_mm
    excess = max(least - gap.gap_mm[1] if least is not None else 0.0, gap.gap_mm[0] - most if most is not None else 0.0)
    typed = (
        number
        for number, (finding, effect) in enumerate(findings)
        if isinstance(finding, SizeDiffers) and effect is None and set(finding.places) & places
        and abs(finding.reading.value_mm - finding.size.nominal_mm) + finding.reading.good_to_mm >= excess > 0
    )  # fmt: skip
    return next(typed, None)


def _is_below(high_mm: float, least_mm: float | None) -> bool:
    return least_mm is not None and high_mm < least_mm


def _spoils(reference: Reference, finding: Finding, pairing: PairingDiffers) -> bool:
    """Whether a pairing is off because of a part that is another one, or whose paired size is outside its limits."""
    if not set(finding.places) & set(pairing.places):
        return False
    if finding.kind == "different_part":
        return True
    if not isinstance(finding, SizeDiffers):
        return False
    paired = {side for each in reference.pairings if each.what == pairing.what for side in (each.outer, each.inner)}
    return (reference.place(finding.places[0]).part, finding.size_name) in paired


def _stand_ins(reference: Reference, explanation: Explanation, findings: Sequence[Finding]) -> dict[int, int]:
    """Things of no place that stand exactly where something is missing:
    number of the extra -> number of the missing.
    """
    empty = [number for number, finding in enumerate(findings) if isinstance(finding, Missing)]
    over = [number for number, finding in enumerate(findings) if isinstance(finding, Extra) and not finding.loose]
    if not empty or not over:
        return {}
    at = {standing.home: position for position, standing in enumerate(explanation.line) if standing.home}
    entered = {
        standing.entry: position for position, standing in enumerate(explanation.line) if standing.entry is not None
    }
    stands_in: dict[int, int] = {}
    for number in over:
        position = entered.get(findings[number].entries[0])
        for missing in empty:
            if (
                position is not None
                and missing not in stands_in.values()
                and _is_there(reference, findings[missing].places[0], at, position)
            ):
                stands_in[number] = missing
                break
    return stands_in


def _is_there(reference: Reference, place: str, at: dict[str, int], position: int) -> bool:
    """Whether a position of the line lies between the neighbours of a place, in every stack that the place is in."""
    stacks = [stack.places for stack in reference.stacks if place in stack.places]
    for places in stacks:
        here = places.index(place)
        before = next((at[name] for name in reversed(places[:here]) if name in at), -1)
        after = next((at[name] for name in places[here + 1 :] if name in at), len(at) + position + 1)
        if not before < position < after:
            return False
    return bool(stacks)
