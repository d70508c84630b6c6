"""Decisions about findings: which finding one is about, what is still undecided, what stays on the bench."""

from __future__ import annotations

from stackcheck.job.events import NEEDS_INITIALS, NEEDS_REASON, Compared, Decided, Fitted, Off
from stackcheck.job.folder import JobFolder
from stackcheck.job.state import Job
from stackcheck.model.finding import NOTES, Finding
from stackcheck.result.comparison import Comparison

OUT = frozenset({"scrap", "leave out", "belongs to", "renew", "hold", "ask"})
"""Decisions after which the part that came off is not expected to be fitted again."""
KEPT = frozenset({"keep as is", "repair"})


def key_of(finding: Finding) -> str:
    """What a decision names a finding by: its kind, places and entries;
    the same finding keeps it when others come or go.
    """
    return f"{finding.kind}:{','.join(finding.places)}:{','.join(map(str, finding.entries))}"


def record_comparison(folder: JobFolder, comparison: Comparison) -> None:
    """Put into the journal that the list was compared, unless it says so already of the list as it is."""
    job = folder.job
    told = Compared(
        verdict=comparison.verdict, findings=tuple(key_of(result.finding) for result in comparison.findings)
    )
    last = job.last(Compared)
    if job.closed is None and (
        last is None or job.changed_after_comparing or (last.verdict, last.findings) != (told.verdict, told.findings)
    ):
        folder.record(told)


def undecided(job: Job, comparison: Comparison) -> tuple[Finding, ...]:
    """Findings that nobody has decided on yet."""
    return tuple(
        result.finding
        for result in comparison.findings
        if result.finding.kind not in NOTES and key_of(result.finding) not in job.decisions
    )


def retains(job: Job, finding: Finding) -> bool:
    """Whether a part that this finding is about keeps something from coming off or turning."""
    reference = job.reference
    ids = [reference.place(place).part for place in finding.places if reference.has_place(place)]
    offs = [job.offs[number - 1] for number in finding.entries if number <= len(job.offs)]
    ids += [off.part or (reference.place(off.place).part if off.place else "") for off in offs]
    return any(
        reference.part(id).has_duty(duty) for id in ids if reference.has_part(id) for duty in ("retention", "anti-turn")
    )


def lacking_words(decision: str, reason: str, by: str, *, retains: bool) -> str:
    """What a decision still needs, "" where it can be recorded.

    Leaving out a part that retains something asks for a reason and initials, like everything that keeps a difference.
    """
    needs_reason = decision in NEEDS_REASON or (decision == "leave out" and retains)
    needs_initials = decision in NEEDS_INITIALS or (decision == "leave out" and retains)
    lacking = [
        *(["a reason (--reason)"] if needs_reason and not reason else []),
        *(["initials (--by)"] if needs_initials and not by else []),
    ]
    return " and ".join(lacking)


def spare(job: Job) -> tuple[tuple[int, Off], ...]:
    """Entries on the bench that were neither fitted again nor decided out: before closing there should be none."""
    fitted = {event.entry for event in job.of(Fitted)}
    renewed = {event.place for event in job.of(Fitted) if event.item}
    out = {number for decided in job.decisions.values() if decided.decision in OUT for number in entries_about(decided)}
    return tuple(
        (number, off)
        for number, off in enumerate(job.offs, start=1)
        if number not in fitted and number not in out and not (off.place and off.place in renewed)
    )


def entries_about(decided: Decided) -> set[int]:
    """The numbers of the entries that a decision is about."""
    return {int(number) for number in decided.about.rpartition(":")[2].split(",") if number.isdecimal()}


def kept(job: Job) -> tuple[Decided, ...]:
    """Differences that somebody kept: they stay visible for ever."""
    return tuple(decided for decided in job.decisions.values() if decided.decision in KEPT)
