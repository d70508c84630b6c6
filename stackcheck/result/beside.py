"""Between which parts an extra one is told: its neighbours in the stack in which it lies.

In the list a seal may come off between a washer and the bearing that the washer lies against; it is no neighbour of the
washer, which stands on the axle. Where bore and outside diameter leave several stacks open, or it lies at the end of
one, it stays told as the list has it. Members that never came off are passed over: nobody saw on which side of them it
lay.
"""

from __future__ import annotations

from stackcheck.mechanics.arrangement import Arrangement, Member, as_believed
from stackcheck.model.finding import Explanation, Extra
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.value import replace


def told_in_its_stack(reference: Reference, found: Found, explanation: Explanation) -> Explanation:
    if not any(isinstance(finding, Extra) and not finding.loose for finding in explanation.findings):
        return explanation
    arrangement = as_believed(reference, found, explanation)
    findings = tuple(
        _beside(arrangement, finding) if isinstance(finding, Extra) and not finding.loose else finding
        for finding in explanation.findings
    )
    return replace(explanation, findings=findings)


def _beside(arrangement: Arrangement, finding: Extra) -> Extra:
    lines = []
    for stack in arrangement.reference.stacks:
        members = [member for member in arrangement.members(stack.name) if not _never_came_off(arrangement, member)]
        own = [
            i
            for i, member in enumerate(members)
            if member.standing.entry in finding.entries and member.standing.home is None
        ]
        if own:
            lines.append((members, own))
    if len(lines) != 1:
        return finding
    ((members, own),) = lines
    if own[0] == 0 or own[-1] + 1 == len(members):
        return finding
    sides = [members[own[0] - 1], members[own[-1] + 1]]
    if any(side.standing.entry is None or side.place is None for side in sides):
        return finding  # inside a unit that was not stripped, or beside another part that has no place
    return replace(finding, after=sides[0].place, before=sides[1].place)


def _never_came_off(arrangement: Arrangement, member: Member) -> bool:
    standing = member.standing
    return standing.entry is None and standing.home is not None and arrangement.reference.part_at(standing.home).fixed
