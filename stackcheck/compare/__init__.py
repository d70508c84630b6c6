"""Engine one: which fewest physical mistakes explain what came off?

Pure functions, model in, model out. `explanations` gives the least explanation first and those that come close;
`replay` applies one to the reference and must give what was found. How it is done: `search` tries the ways to read the
list, `pairing` gives every piece a home, `knots` finds the slips that the sequence needs, `telling` makes the findings.
"""

from __future__ import annotations

from stackcheck.compare.fixed import seated
from stackcheck.compare.replay import replay, same_arrangement
from stackcheck.model.finding import Explanation
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.value import replace

__all__ = ["explanations", "replay", "same_arrangement"]


def explanations(
    reference: Reference, found: Found, *, margin: int = 100, most: int = 4
) -> tuple[Explanation, ...]:
    """The least explanation, then at most `most` less one others that cost less than `margin` points more."""
    from stackcheck.compare.search import Search
    from stackcheck.compare.separate import separation
    from stackcheck.compare.telling import Teller

    search = Search(reference, found)
    result = search.readings(margin)
    told: list[Explanation] = []
    seen = set()
    for reading in result.readings:
        explanation = Teller(found, search.spots, search.identity, reading).explanation()
        says = _says(reference, explanation)
        if says in seen:
            continue
        seen.add(says)
        explanation = seated(reference, found, explanation)
        if not told or _tells_another_state(reference, found, told[0], explanation):
            separated_by = separation(reference, found, told[0], explanation) if told else ""
            proved = result.bound >= result.readings[0].price
            told.append(replace(explanation, proved_least=proved, bound=result.bound, separated_by=separated_by))
        if len(told) == most:
            break
    return tuple(told)


def _tells_another_state(reference: Reference, found: Found, least: Explanation, other: Explanation) -> bool:
    """Whether the other reading holds, and would have the machine stand otherwise: a swap told as a move helps nobody."""
    if same_arrangement(reference, least.line, other.line):
        return False
    return same_arrangement(reference, replay(reference, other, found), other.line)


def _says(reference: Reference, explanation: Explanation) -> tuple:
    """What an explanation claims, whichever of equal parts it names."""

    def part(place: str) -> str:
        return reference.place(place).part if reference.has_place(place) else place

    return tuple(
        sorted((f.kind, tuple(sorted(map(part, f.places))), tuple(sorted(f.entries)))
        for f in (*explanation.findings, *explanation.notes))
    )
