"""Engine one: which fewest physical mistakes explain what came off?

Pure functions, model in, model out. `explanations` gives the least explanation first and those that come close;
`replay` applies one to the reference and must give what was found. How it is done: `search` tries the ways to read the
list, `pairing` gives every piece a home, `knots` finds the slips that the sequence needs, `telling` makes the findings.
"""

from __future__ import annotations

from stackcheck.compare.fixed import seated
from stackcheck.compare.replay import replay
from stackcheck.compare.sameness import same_arrangement
from stackcheck.model.finding import Explanation
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.value import replace

__all__ = ["explanations", "replay", "same_arrangement"]


def explanations(reference: Reference, found: Found, *, margin: int = 100, most: int = 4) -> tuple[Explanation, ...]:
    """The least explanation, then at most `most` less one others that cost less than `margin` points more.

    What its replay does not confirm is passed over, however little it costs; where it confirms none, as in a long
    muddle, the least is told as not proved.
    """
    from stackcheck.compare.search import Search
    from stackcheck.compare.separate import separation
    from stackcheck.compare.telling import Teller

    search = Search(reference, found)
    result = search.readings(margin)
    told: list[Explanation] = []
    passed_over: list[Explanation] = []
    seen = set()
    for reading in result.readings:
        explanation = Teller(found, search.spots, search.identity, search.pieces(reading.typed), reading).explanation()
        says = _says(reference, explanation)
        if says in seen:
            continue
        seen.add(says)
        explanation, confirmed = seated(search.spots, found, explanation)
        if not confirmed:
            passed_over.append(replace(explanation, proved_least=False, bound=result.bound))
        elif not told:
            proved = result.bound >= explanation.price
            told.append(replace(explanation, proved_least=proved, bound=result.bound))
        elif not same_arrangement(reference, told[0].line, explanation.line, spots=search.spots):
            # A swap told as a move helps nobody: another explanation has the machine stand otherwise.
            separated_by = separation(reference, found, told[0], explanation)
            told.append(
                replace(explanation, proved_least=told[0].proved_least, bound=result.bound, separated_by=separated_by)
            )
        if len(told) == most:
            break
    return tuple(told or passed_over[:1])


def _says(reference: Reference, explanation: Explanation) -> tuple:
    """What an explanation claims, whichever of equal parts it names."""

    def part(place: str) -> str:
        return reference.place(place).part if reference.has_place(place) else place

    return tuple(
        sorted(
            (f.kind, tuple(sorted(map(part, f.places))), tuple(sorted(f.entries)))
            for f in (*explanation.findings, *explanation.notes)
        )
    )
