"""What the record of a job adds to a strip report: decisions, gauges, open items, buying list, photos, as fitted."""

from __future__ import annotations

from stackcheck.errors import InputError
from stackcheck.job.deciding import key_of
from stackcheck.job.events import Fitted, GaugesCompared, Photographed
from stackcheck.job.fitting import as_fitted
from stackcheck.job.folder import JobFolder
from stackcheck.job.open_items import open_items
from stackcheck.job.state import Job
from stackcheck.present.blocks import Block, Text
from stackcheck.present.job_page import item_words
from stackcheck.present.job_state import state_of
from stackcheck.present.putting_right_page import buying_page
from stackcheck.report.content import JobParts, Picture
from stackcheck.report.photos import photo
from stackcheck.result import compare
from stackcheck.result.comparison import Comparison


def job_parts(folder: JobFolder, comparison: Comparison, now: str) -> JobParts:
    """Everything of a job that a report shows beside its comparison."""
    job = folder.job
    items = open_items(job, comparison)
    return JobParts(
        decisions=tuple(
            (number, _decision(job, comparison, number)) for number in range(1, len(comparison.findings) + 1)
        ),
        gauges=_gauges(folder),
        open_items=tuple(Text(f"{item.kind}: {item_words(job, item, now)}", mark="- ") for item in items),
        buying=tuple(block for block in buying_page(job) if not _is_heading(block, "BUYING LIST")),
        photos=tuple(_photo(folder, event) for event in job.of(Photographed)),
        fitted=compare(comparison.reference, as_fitted(job)) if job.of(Fitted) else None,
        recorded=_recorded(job, state_of(job, items)),
    )


def _decision(job: Job, comparison: Comparison, number: int) -> str:
    decided = job.decisions.get(key_of(comparison.findings[number - 1].finding))
    if decided is None:
        return "undecided"
    reason, by = (f": {decided.reason}" if decided.reason else ""), (f" ({decided.by})" if decided.by else "")
    return f"{decided.decision}{reason}{by}"


def _is_heading(block: Block, words: str) -> bool:
    return getattr(block, "text", "") == words


def _gauges(folder: JobFolder) -> tuple[Block, ...]:
    """The latest comparison of gauges that the job holds."""
    event = folder.job.last(GaugesCompared)
    if event is None:
        return ()
    from stackcheck.formats.gauges_file import read_gauges
    from stackcheck.mechanics.gauges import compare_gauges
    from stackcheck.present.gauges_page import gauges_page

    return tuple(gauges_page(compare_gauges(read_gauges(folder.path / event.file))))


def _photo(folder: JobFolder, event: Photographed) -> Picture:
    """The photo of a card; one that was not brought in, or cannot be shown, is named and not shown."""
    words = event.of or (f"entry {event.entry}" if event.entry else "no words were said about it")
    if not event.file:
        return Picture(words=f"{words} (not brought into the job)", card=event.card)
    try:
        return photo(folder.path / event.file, words=words, card=event.card)
    except InputError as problem:
        return Picture(words=f"{words} (not shown: {problem.mistakes[0].what})", card=event.card)


def _recorded(job: Job, state: str) -> tuple[str, ...]:
    people = dict.fromkeys(event.by for event in job.live if event.by)
    lines = [
        (
            f"Job {job.name}: {state}. {len(job.live)} answers, {job.live[0].at[:10]} to {job.live[-1].at[:10]}, "
            f"by {', '.join(people) or 'nobody named'}."
        )
    ]
    if job.begun.why:
        lines.append(f"Opened because: {job.begun.why}.")
    if job.closed is not None:
        lines.append(f"Closed by {job.closed.by or 'nobody named'} with {job.closed.open_items} open.")
    return tuple(lines)
