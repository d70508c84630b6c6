"""Findings that follow from sizes once it is known what stands where: gaps, pairings, conditions.

The comparison of sequence and identity (`stackcheck.compare`) knows nothing of sums; these checks know nothing of
sequence. Each is one small independent function from the comparison so far to a tuple of findings.
"""

from __future__ import annotations

from stackcheck.compare.sizes import size_verdict
from stackcheck.mechanics.chain import LoopState
from stackcheck.mechanics.effects import Effect
from stackcheck.model.finding import Condition, Explanation, Finding, GapDiffers, PairingDiffers, SizeDiffers
from stackcheck.model.found import Found
from stackcheck.model.part import Reading
from stackcheck.model.reference import Reference
from stackcheck.result.points import size_reading

DO_NOT_REFIT = {
    "feel": (
        "gritty", "rough", "rumbly", "rumbles", "noisy", "notchy", "catches", "loose", "play", "rock", "seized",
        "grinding",
    ),
    "look": (
        "pitted", "scored", "torn", "blue", "crack", "cracks", "broken", "chipped",
        "blue or brown (heat)", "pits", "flaking", "dents", "ring has turned in its seat", "cage bent", "seal torn",
        "seal pushed in", "cracked", "bent", "mushroomed", "stripped thread", "stretched", "crushed",
        "pulled through the balls",
    ),
}  # fmt: skip
"""Feel and look that speak against refitting as it is (common practice, no source). A cause is never concluded."""

NOTHING_AGAINST = {
    "feel": ("smooth", "dry", "tight", "turns"),
    "look": (
        "no marks seen",
        "no damage seen",
        "clean",
        "new",
        "witness mark",
        "paint mark",
        "old paint mark",
        "grease",
        "no tab",
        "no teeth",
        "no cup",
        "no marks",
    ),
}
"""Feel and look that speak against nothing; what stands in neither list is repeated as said, and not judged."""

STRUCTURAL = frozenset(
    {
        "missing",
        "different_part",
        "swapped",
        "turned_round",
        "out_of_place",
        "run_moved",
        "run_end_for_end",
        "extra",
        "count_differs",
    }
)


def gap_findings(loops: tuple[LoopState, ...], effects: tuple[tuple[Finding, Effect], ...]) -> tuple[GapDiffers, ...]:
    """Gaps outside their limits; one that a part in the wrong place already accounts for is told there, not twice."""
    told = {
        change.loop
        for finding, effect in effects
        if finding.kind in STRUCTURAL
        for change in effect.loop_changes
        if change.crosses_limit == "crosses"
    }
    findings = []
    for state in loops:
        if state.verdict != "differs" or state.loop.name in told:
            continue
        reading = state.measured
        low, high = (reading.low_mm, reading.high_mm) if reading else (state.gap.least_mm, state.gap.most_mm)
        findings.append(
            GapDiffers(
                what=state.loop.name, gap_mm=(low, high), limits_mm=(state.loop.least_mm, state.loop.most_mm),
                measured=reading is not None, after=state.loop.gap_between[0], before=state.loop.gap_between[1],
            )
        )  # fmt: skip
    return tuple(findings)


def measured_size_findings(reference: Reference, found: Found) -> tuple[SizeDiffers, ...]:
    """Sizes measured on the assembly, not on a part that came off, that lie outside their limits."""
    findings = []
    for item in found.measured:
        size = reference.part_at(item.place).size(item.size) if item.place else None
        if size is not None and item.reading.is_measurement and size_verdict(item.reading, size) in ("out", "gross"):
            findings.append(SizeDiffers(places=(item.place,), size_name=item.size, reading=item.reading, size=size))
    return tuple(findings)


def pairing_findings(reference: Reference, found: Found, explanation: Explanation) -> tuple[PairingDiffers, ...]:
    """Pairs of sizes of which at least one was measured and whose clearance lies wholly outside its limits."""
    findings = []
    for pairing in reference.pairings:
        for outer in _sizes_at(reference, found, explanation, *pairing.outer):
            for inner in _sizes_at(reference, found, explanation, *pairing.inner):
                if not (outer[3] or inner[3]):
                    continue
                low, high = outer[0] - inner[1], outer[1] - inner[0]
                too_small = pairing.least_mm is not None and high < pairing.least_mm
                too_large = pairing.most_mm is not None and low > pairing.most_mm
                if too_small or too_large:
                    findings.append(
                        PairingDiffers(
                            what=pairing.what, places=(outer[2], inner[2]), clearance_mm=(low, high),
                            limits_mm=(pairing.least_mm, pairing.most_mm),
                        )
                    )  # fmt: skip
    return tuple(findings)


def _sizes_at(
    reference: Reference, found: Found, explanation: Explanation, part: str, size: str
) -> list[tuple[float, float, str, bool]]:
    """(low, high, place, measured) of one size at every place of a part:
    as read, else by the limits of the reference.
    """
    standing = {spot.home: spot for spot in explanation.line if spot.home}
    limits = reference.part(part).size(size)
    sizes = []
    for place in reference.places_of(part):
        spot = standing.get(place.name)
        if spot is None:
            continue
        entry = found.entry(spot.entry) if spot.entry is not None else None
        reading: Reading | None = size_reading(found, place.name, entry, size)
        if reading is not None:
            sizes.append((reading.low_mm, reading.high_mm, place.name, True))
        elif limits is not None:
            sizes.append((limits.low_mm, limits.high_mm, place.name, False))
    return sizes


def condition_findings(found: Found, explanation: Explanation) -> tuple[Condition, ...]:
    """Entries whose feel or look speaks against refitting them as they are."""
    homes = {spot.entry: spot.home for spot in explanation.line if spot.entry is not None}
    findings = []
    for entry in found.entries:
        words = tuple(
            word for name in ("feel", "look") for word in getattr(entry, name) if _says_any(word, DO_NOT_REFIT[name])
        )
        if words:
            home = homes.get(entry.number)
            findings.append(Condition(places=(home,) if home else (), entries=(entry.number,), words=words))
    return tuple(findings)


def not_judged(found: Found) -> tuple[tuple[int, str], ...]:
    """(entry, words) of every feel and look that is neither for nor against refitting as far as we know."""
    return tuple(
        (entry.number, word)
        for entry in found.entries
        for name in ("feel", "look")
        for word in getattr(entry, name)
        if not _says_any(word, (*DO_NOT_REFIT[name], *NOTHING_AGAINST[name]))
    )


def _says_any(word: str, known: tuple[str, ...]) -> bool:
    """Whether one of the known words stands in it: "rough and noisy", "witness mark on one face"."""
    said = f" {word.strip().lower()} "
    return any(f" {each} " in said.replace(",", " ").replace(";", " ") for each in known)
