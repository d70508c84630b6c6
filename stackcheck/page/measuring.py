"""Measuring on the page: what arrived before it is fitted, and what the reference wants measured and nobody did.

The size that is wanted is shown only after one's own was entered.
"""

from __future__ import annotations

from starlette.responses import Response

from stackcheck.bench.measuring import take_size
from stackcheck.job.buying import buying
from stackcheck.job.folder import JobFolder, now
from stackcheck.job.open_items import OpenItem, open_items
from stackcheck.job.state import Job, finest
from stackcheck.model.part import SIZE_NAMES
from stackcheck.page.visit import Visit
from stackcheck.present.job_page import item_words
from stackcheck.present.names import capital_first, size_words
from stackcheck.present.putting_right_page import arrived_words
from stackcheck.value import Value, replace

FAR = "That is far from the earlier reading. If it was a slip: UNDO."


class ToMeasure(Value, kw_only=True):
    """One size to be taken: of what, which, and both in words; `is_new` for something that arrived.

    `why` says why a size that was read is asked for again.
    """

    what: str
    size: str
    words: str
    is_new: bool = False
    why: str = ""


def measure(visit: Visit, folder: JobFolder) -> Response:
    what, size, reading = visit.said("what"), visit.said("size", 40), visit.said("reading")
    if visit.is_post:
        if not reading:
            return visit.refused("No figure was said.", back=f"/job/{folder.name}/measure")
        taken = take_size(folder, what, size, reading, is_same=bool(visit.said("same")), by=visit.by)
        if taken.choices:
            return visit.page(
                "measured_again.html", 422, job=folder.job, asks=taken.asks, choices=taken.choices, size=size
            )
        return visit.go_to(
            f"/job/{folder.name}/measure",
            *taken.said,
            *([FAR] if taken.is_far else []),
            *_against_reference(folder.job, what),
        )
    wanted = to_measure(folder.job)
    chosen = next((each for each in wanted if (each.what, each.size) == (what, size)), None) or (
        wanted[0] if wanted else None
    )
    return visit.page("measure.html", job=folder.job, chosen=chosen, others=[each for each in wanted if each != chosen])


def to_measure(job: Job) -> list[ToMeasure]:
    """Every size that is open: of what arrived first, because nothing is fitted before."""
    wanted: list[ToMeasure] = []
    for item in open_items(job, job.comparison):
        if item.kind == "arrived, not measured":
            wanted += [
                ToMeasure(
                    what=item.what,
                    size=size,
                    words=f"{capital_first(item.what)}, the new one: {size_words(size)}",
                    is_new=True,
                )
                for size in item.sizes
            ]
        elif item.kind in ("not measured", "cannot tell") and (each := _point(job, item)) is not None:
            wanted.append(each)
    return sorted(wanted, key=lambda each: not each.is_new)


def _point(job: Job, item: OpenItem) -> ToMeasure | None:
    """A size or gap of the reference that was not measured, or too roughly; not a facing."""
    words = capital_first(item_words(job, replace(item, kind="not measured") if item.place else item, now()))
    if not item.place and not item.entry:
        return ToMeasure(what=item.what, size="", words=words)
    return (
        ToMeasure(
            what=str(item.entry) if item.entry else item.place, size=item.what, words=words, why=_still_open(job, item)
        )
        if item.what in SIZE_NAMES
        else None
    )


def _still_open(job: Job, item: OpenItem) -> str:
    """Why a size that was read does not settle its point, "" where nothing was read of it."""
    read = job.readings(entry=item.entry) if item.entry else job.readings(place=item.place)
    if item.kind != "cannot tell" or not read.get(item.what):
        return ""
    best = finest(read[item.what])
    return f"Read {best.text}, good to {best.good_to_mm:.2g} mm: too near a limit for that to tell. Measure it finer."


def _against_reference(job: Job, what: str) -> list[str]:
    """What arrived against the reference, now that its own size is on record."""
    return [f"{item.name}: {arrived_words(item)}." for item in buying(job) if item.name == what and item.measured]
