"""Cautions: what to mind with one's hands, each shown only where something in this job calls for it.

The bank holds the wording; a caution is triggered by the reference itself (`cautions = ["E3"]` in its file, for what a
whole machine demands), by the parts it holds, or by a finding. A caution answers no finding and cannot be accepted away.
All wording is ours; common practice, no source, unless a document is named.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.result.points import CANNOT_TELL, Point

if TYPE_CHECKING:
    from stackcheck.result.comparison import FindingResult


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    id: str
    text: str


BANK: dict[str, str] = {
    "S1": "Hold the machine on stands or a fixed support rated for it, on firm ground, wheels chocked. A jack lifts; it does not hold.",
    "S2": "Before the axle comes out: what carries the weight of fork, wheel or shaft then?",
    "S3": "Lift with gear rated for the weight; know the weight; nobody under it.",
    "S4": "Unload it and keep it from tipping.",
    "E1": "Spring under load: release it slowly with a holder made for it, face out of the line, glasses on.",
    "E3": "Switch off, lock, tag, try to start: nothing electrical, hydraulic, under pressure, lifted or hot may be able to move it. Your site's lock-off rule comes first.",
    "E4": "Pressure, hot or harmful liquid may be trapped even when valves are shut; water may run back when a seal is opened.",
    "E5": "Isolate the battery and wait as the maker says; cables at the axle are easily crushed.",
    "E6": "Let the air out before undoing anything that holds rim halves.",
    "E7": "Ring-test and look at the wheel, match its speed to the spindle, stand aside at first start: the maker's manual says how.",
    "B1": "The hub stands elsewhere than in the reference. Check disc in the carrier on both sides, pads, hose at full steer and full travel.",
    "B3": "Keep grease and cleaner off disc, drum and linings; contaminated linings are renewed.",
    "B4": "Dust of old linings may contain asbestos: do not blow, brush or sand it; wet wipe or a vacuum made for it.",
    "B5": "A ring or a thicker circlip takes up the travel, not the missing plate's share of the torque.",
    "W1": "Wheels come off after work more often than at other times. Tighten by the maker's value and pattern; tighten again after the distance the maker gives.",
    "W2": "A retention or anti-turn part may carry no load and still be what keeps the wheel in. Count it in.",
    "W3": "A member that floats finds its own place, in the sequence of the maker, before its clamp is tightened.",
    "W4": "Check thread in the nut: full engagement, and the locking hole or slot where it should be.",
    "W5": "Adjust, lock, then look again: locking changes it.",
    "R2": "A bearing taken out through its balls is not refitted.",
    "R4": "First bearing fully home, spacer tube in, second bearing only until it touches. Turn by hand after each.",
    "R5": "Set end float or preload by the maker's method and turn the shaft while setting; feel alone is not a measure.",
    "R6": "Compare width, ring faces, seals and inner slack mark of another bearing with the listed one before fitting.",
    "R7": "Renew both halves of a taper bearing together and do not mix pairs.",
    "R8": "Seals taken out are renewed; look which side faced the oil before prising.",
    "R9": "One bearing bad: look at its partner, the other wheel and whatever loaded it.",
    "R10": "Seal faces are not touched with fingers; set the working length from the maker's face, on a clean shaft.",
    "L1": "Single-use: new one fitted? Old ones go in the bin now, not in the tray.",
    "L3": "Split pin, tab or wire: new, of the full size, bent as the maker shows. A thin pin lets the nut walk.",
    "L4": "A crush sleeve crushes once. If over-tightened, a new sleeve: backing off leaves no preload.",
    "L6": "Circlip: home in its groove all round? Turn it a little. Stretched ones are renewed.",
    "T1": "Tightening value from the maker's manual for this machine and year, with its thread condition (dry, oiled, compound).",
    "T2": "The tightening value has no thread condition: dry and oiled threads differ much in pull. Ask.",
    "M1": "A limit here is finer than the tool used; use a micrometer or dial.",
    "M2": "Measure the pack as a pack too: it reads thicker than its sum.",
    "M5": "Part found loose: which machine? Measure it, and count the packs of every job on the bench before any is closed.",
    "X1": "Where you are, some of this work may be reserved to licensed people or need inspection afterwards. Ask the local authority.",
}  # fmt: skip
"""Caution id -> wording."""


@dataclass(frozen=True, slots=True)
class _Job:
    reference: Reference
    found: Found | None
    findings: tuple[FindingResult, ...]
    points: tuple[Point, ...]

    def kinds(self) -> set[str]:
        return {self.reference.part_at(place.name).kind for place in self.reference.places}

    def duty(self, *names: str) -> bool:
        return any(part.has_duty(name) for part in self.reference.parts for name in names)

    def finding_at(self, kinds: Iterable[str], part_kinds: Iterable[str]) -> bool:
        return any(
            self.reference.part_at(place).kind in part_kinds
            for result in self.findings
            if result.finding.kind in kinds
            for place in result.finding.places
        )

    def shifted(self) -> bool:
        return any(abs(shift.mm) > 0.05 for result in self.findings if result.effect for shift in result.effect.shifts)

    def has(self, *kinds: str) -> bool:
        return any(result.finding.kind in kinds for result in self.findings)


_PLATES = ("plate", "friction plate", "steel plate", "pressure plate")
_BEARINGS = ("ball bearing", "angular bearing", "taper bearing", "needle bearing")

_TRIGGERS: tuple[tuple[str, Callable[[_Job], bool]], ...] = (
    ("B1", lambda job: job.shifted() and job.duty("brake")),
    ("B5", lambda job: job.finding_at(("missing", "count_differs"), _PLATES)),
    ("W2", lambda job: any(job.reference.part_at(place).has_duty(duty) for result in job.findings
                           for place in result.finding.places for duty in ("retention", "anti-turn"))),
    ("B3", lambda job: job.duty("brake") and job.finding_at(("turned_round", "missing"), ("seal",))),
    ("R6", lambda job: job.finding_at(("different_part",), _BEARINGS)),
    ("R9", lambda job: job.finding_at(("condition",), _BEARINGS)),
    ("M5", lambda job: job.found is not None and any(entry.is_loose for entry in job.found.entries)),
    ("M1", lambda job: any(point.state == CANNOT_TELL and point.reading is not None for point in job.points)),
    ("E1", lambda job: bool(job.kinds() & {"disc spring", "spring", "spring washer"} or job.kinds() & set(_PLATES))),
    ("R5", lambda job: bool(job.kinds() & {"taper bearing", "angular bearing"})),
    ("R4", lambda job: "spacer tube" in job.kinds() and bool(job.kinds() & set(_BEARINGS))),
    ("W4", lambda job: job.has("extra", "missing", "count_differs", "size_differs") and bool(job.reference.joints)),
    ("W3", lambda job: any(support.floating for support in job.reference.supports)),
    ("L4", lambda job: "crush sleeve" in job.kinds()),
    ("L3", lambda job: bool(job.kinds() & {"split pin", "tab washer"})),
    ("L1", lambda job: job.duty("new every time")),
    ("R10", lambda job: "mechanical seal" in job.kinds()),
    ("R8", lambda job: "seal" in job.kinds()),
    ("L6", lambda job: "circlip" in job.kinds()),
    ("M2", lambda job: "shim ring" in job.kinds()),
    ("T2", lambda job: any(joint.torque and not joint.thread_condition for joint in job.reference.joints)),
    ("T1", lambda job: bool(job.reference.joints)),
    ("X1", lambda job: job.duty("brake", "steering", "retention")),
)  # fmt: skip
"""Most serious first among those that a finding or a part calls for; the reference's own stand between the two."""

_BY_FINDING = 8
"""The first rows speak of what was found and come before what the whole machine demands."""


def triggered(
    reference: Reference, found: Found | None, findings: tuple[FindingResult, ...], points: tuple[Point, ...]
) -> tuple[Caution, ...]:
    """The cautions of this job, most serious first, each once."""
    job = _Job(reference, found, findings, points)
    called = [id for id, calls in _TRIGGERS[:_BY_FINDING] if calls(job)]
    called += [id for id in reference.cautions if id in BANK]
    called += [id for id, calls in _TRIGGERS[_BY_FINDING:] if calls(job)]
    return tuple(Caution(id=id, text=BANK[id]) for id in dict.fromkeys(called))
