"""Cautions: what to mind with one's hands, each shown only where something in this job calls for it.

The wording stands in `stackcheck.model.caution`; a caution is triggered by the reference itself (`cautions = ["E3"]` in
its file, for what a whole machine demands), by the parts it holds, or by a finding. A caution answers no finding and
cannot be accepted away.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from stackcheck.model.caution import BANK, Caution
from stackcheck.model.found import MOVED, Found
from stackcheck.model.part import ROLLING_BEARINGS
from stackcheck.model.reference import Reference
from stackcheck.result.points import CANNOT_TELL, Point
from stackcheck.value import Value

if TYPE_CHECKING:
    from stackcheck.result.comparison import FindingResult


class _Job(Value):
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

_Triggers = tuple[tuple[str, Callable[[_Job], bool]], ...]

_BY_FINDING: _Triggers = (
    ("E2", lambda job: job.found is not None and any(symptom.what == MOVED for symptom in job.found.symptoms)),
    ("B1", lambda job: job.shifted() and job.duty("brake")),
    ("B5", lambda job: job.finding_at(("missing", "count_differs"), _PLATES)),
    ("W2", lambda job: any(job.reference.part_at(place).has_duty(duty) for result in job.findings
                           for place in result.finding.places for duty in ("retention", "anti-turn"))),
    ("B3", lambda job: job.duty("brake") and job.finding_at(("turned_round", "missing"), ("seal",))),
    ("R6", lambda job: job.finding_at(("different_part",), ROLLING_BEARINGS)),
    ("R9", lambda job: job.finding_at(("condition",), ROLLING_BEARINGS)),
    ("M5", lambda job: job.found is not None and any(entry.is_loose for entry in job.found.entries)),
    ("M1", lambda job: any(point.state == CANNOT_TELL and point.reading is not None for point in job.points)),
)  # fmt: skip
"""What was found calls for these; they come before what the whole machine demands. Most serious first."""

_BY_PART: _Triggers = (
    ("E1", lambda job: bool(job.kinds() & {"disc spring", "spring", "spring washer"} or job.kinds() & set(_PLATES))),
    ("R5", lambda job: bool(job.kinds() & {"taper bearing", "angular bearing"})),
    ("R4", lambda job: "spacer tube" in job.kinds() and bool(job.kinds() & ROLLING_BEARINGS)),
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
"""The parts of the assembly call for these; they come after the reference's own. Most serious first."""


def triggered(
    reference: Reference, found: Found | None, findings: tuple[FindingResult, ...], points: tuple[Point, ...]
) -> tuple[Caution, ...]:
    """The cautions of this job, most serious first, each once."""
    job = _Job(reference, found, findings, points)
    called = [id for id, calls in _BY_FINDING if calls(job)]
    called += reference.cautions
    called += [id for id, calls in _BY_PART if calls(job)]
    return tuple(Caution(id=id, text=BANK[id]) for id in dict.fromkeys(called))
