"""Putting right on the page: the buying list, what goes into which place, how every fastener stands."""

from __future__ import annotations

from typing import Any

from starlette.responses import Response

from stackcheck.formats.sizes import amount_of
from stackcheck.job.buying import ARRIVED, READY, Item, buying
from stackcheck.job.events import FASTENER_STATES, Arrived, Fastened, Ordered, ToBuy
from stackcheck.job.fit_remarks import fit_remarks, is_out, still_inside, torque_remark
from stackcheck.job.fitting import fasteners
from stackcheck.job.folder import JobFolder
from stackcheck.job.standing import compared
from stackcheck.job.state import Job
from stackcheck.page.fitting import fitted, next_places
from stackcheck.page.minding import minded
from stackcheck.page.visit import Visit, after, told_blocks
from stackcheck.present.event_words import event_words
from stackcheck.present.putting_right_page import (
    arrived_words,
    fitting_page,
    inside_words,
    item_number,
    item_sizes,
    remark_words,
)
from stackcheck.result.cautions import triggered
from stackcheck.value import replace


def buy(visit: Visit, folder: JobFolder) -> Response:
    if visit.is_post:
        return _taken(visit, folder, _bought(visit, folder))
    items = [_item(folder.job, item) for item in buying(folder.job)]
    return visit.page("buy.html", job=folder.job, items=items)


def _item(job: Job, item: Item) -> dict[str, Any]:
    """One line of the list in words, and what may be said of it."""
    facts = (
        ("number", item_number(item)),
        ("size", item_sizes(job, item)),
        ("why", item.why),
        ("number on what arrived", item.marked),
        ("measured", arrived_words(item)),
    )
    return {
        "name": item.name, "count": item.count, "state": item.state, "facts": [fact for fact in facts if fact[1]],
        "is_here": item.state in (ARRIVED, READY), "to_measure": bool(item.not_measured),
    }  # fmt: skip


def _bought(visit: Visit, folder: JobFolder) -> str:
    """Records what became of an item, or a new one; returns why not."""
    item, state, names = visit.said("item"), visit.said("state"), {item.name for item in buying(folder.job)}
    if state == "to buy":
        if not item or item in names:
            return "Say what is to be bought." if not item else "That is on the buying list already."
        folder.record(ToBuy(item=item, by=visit.by))
    elif item not in names or state not in ("ordered", "arrived"):
        return "That is not on the buying list any more."
    else:
        folder.record(
            Ordered(item=item, by=visit.by)
            if state == "ordered"
            else Arrived(item=item, marked=visit.said("marked"), by=visit.by)
        )
    return ""


def _taken(visit: Visit, folder: JobFolder, refused: str, *said: str) -> Response:
    """Back to the screen with the last thing said in words, or with the reason why nothing was."""
    back = after(visit, folder)
    return (
        visit.refused(refused, back=back)
        if refused
        else visit.go_to(back, f"Kept: {event_words(folder.job.live[-1], folder.job.reference)}.", *said)
    )


def fit(visit: Visit, folder: JobFolder) -> Response:
    if visit.is_post and not visit.said("joint") and (inside := still_inside(folder.job, visit.said("place"))):
        if not visit.said("out"):
            asks = inside_words(folder.job, visit.said("place"), inside)
            return visit.page(
                "fit_inside.html",
                422,
                job=folder.job,
                asks=asks,
                place=visit.said("place"),
                what=visit.said("what"),
                toward=visit.said("toward"),
            )
        folder.record(is_out(inside, visit.by))
    if visit.is_post:
        said: list[str] = []
        return _taken(visit, folder, (_fastened if visit.said("joint") else _fitted)(visit, folder, said), *said)
    job = folder.job
    return visit.page(
        "fit.html",
        job=job,
        places=next_places(job) if job.offs else [],
        blocks=told_blocks(fitting_page(job)),
        joints=fasteners(job.reference),
        states=FASTENER_STATES,
        minded=minded(job.reference, triggered(job.reference, None, (), ())),
    )


def _fitted(visit: Visit, folder: JobFolder, said: list[str]) -> str:
    event = fitted(folder.job, visit.said("place"), visit.said("what"), visit.said("toward"))
    if isinstance(event, str):
        return event
    job = folder.record(replace(event, by=visit.by))
    said += [remark_words(job, remark) for remark in fit_remarks(job, compared(job), event)]
    return ""


def _fastened(visit: Visit, folder: JobFolder, said: list[str]) -> str:
    joint, state, value = visit.said("joint"), visit.said("state"), visit.said("value", 60)
    if joint not in fasteners(folder.job.reference) or state not in FASTENER_STATES:
        return "Say which fastener, and how it stands."
    if value:
        amount_of("torque", value)
    event = Fastened(joint=joint, state=state, value=value, thread=visit.said("thread", 60), by=visit.by)
    job = folder.record(event)
    if remark := torque_remark(job, event):
        said.append(remark_words(job, remark))
    return ""
