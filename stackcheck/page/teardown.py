"""The teardown on the page: one question a screen, its answer, undo, photos, a second look by somebody else."""

from __future__ import annotations

import json
from typing import Any

from starlette.responses import JSONResponse, Response

from stackcheck.bench.questions import Question, all_questions, lasting_name, next_question, other_end
from stackcheck.bench.second_look import comparison_words, next_second_look, second_answer
from stackcheck.formats.photo_file import bring_in
from stackcheck.job.events import Answered, Photographed
from stackcheck.job.folder import JobFolder
from stackcheck.job.state import Job
from stackcheck.page.answers import ahead, take
from stackcheck.page.minding import minded
from stackcheck.page.outlines import shape_of
from stackcheck.page.visit import Visit
from stackcheck.present.job_page import came_off_words
from stackcheck.result.cautions import triggered


def question(
    visit: Visit, folder: JobFolder, said: tuple[str, ...] = (), asked: dict[str, Any] | None = None, status: int = 200
) -> Response:
    job = folder.job
    following = next_question(job)
    if following is None or job.closed is not None:
        return visit.page("done.html", job=job, words=came_off_words(job), said=said)
    return visit.page(
        "question.html",
        status,
        job=job,
        question=told(job, following),
        said=said,
        asked=asked,
        row=_row(job),
        saved=job.live[-1].at[11:16],
        minded=None if job.offs else minded(job.reference, triggered(job.reference, None, (), ())),
        first=json.dumps(told(job, following)),
        ahead=json.dumps([told(*each) for each in ahead(job)[1:]]),
        number=job.events[-1].number,
    )


QUICK = {
    "before:turns": ("free", "drags once a turn", "hard"), "before:rock": ("no play", "play felt"),
    "before:lock": ("yes", "no"), "before:paint": ("yes", "no"), "inside": ("yes",), "marks:": ("plain",),
}  # fmt: skip
"""How the key of a question in words begins -> the words that most answer it with: a button each."""


def told(job: Job, question: Question) -> dict[str, Any]:
    """A question as the page needs it."""
    quick = next((words for key, words in QUICK.items() if question.key.startswith(key)), ())
    sized = question.kind in ("reading", "count") or (question.key.startswith("before:") and " to " in question.key)
    return {
        "name": lasting_name(job, question),
        "text": question.text,
        "where": question.where
        or (f"Entry {question.entry}, {job.offs[question.entry - 1].what}." if question.entry else ""),
        "kind": question.kind,
        "zero": question.zero,
        "choices": [choice.shown for choice in question.choices],
        "pad": f"7 8 9 DEL mm 4 5 6 cal in 1 2 3 mic thou / 0 . {'.. feeler' if question.gap else 'x rule'}",
        "quick": quick,
        "sized": sized or (bool(question.place) and question.kind == "part"),
        "other_end": other_end(job, question),
        "offered": bool(question.place) and question.kind == "part",
        "facing": question.key.startswith("facing:"),
        "shape": _shape(job, question) if question.key.startswith("facing:") else "",
    }


def _shape(job: Job, question: Question) -> str:
    """The outline that shows the feature of the part that a question about direction is about."""
    part = job.reference.part_at(job.offs[question.entry - 1].place)
    return shape_of(part.kind, part.feature)


def _row(job: Job) -> str:
    """The row on the rag: how many came off each end."""
    ends = job.reference.ends
    return " · ".join(f"{end}: {sum(off.end == end for off in job.offs)} off" for end in ends)


def answer(visit: Visit, folder: JobFolder) -> Response:
    form = visit.form
    taken = take(
        folder,
        name=form.get("name", ""),
        text=form.get("text", "")[:2000],
        sent=visit.sent,
        by=visit.by,
        typed=form.get("typed", "")[:2000],
    )
    asked = None
    said = taken.said
    if taken.step is not None and taken.step.again:
        said = (taken.step.again,)
    elif taken.step is not None and taken.step.ask is not None:
        asked = {
            "text": taken.step.ask.text,
            "choices": taken.step.ask.choices,
            "name": form.get("name", ""),
            "typed": form.get("text", ""),
        }
    if visit.wants_json:
        return JSONResponse(reply(folder.job, said, asked, again=taken.step is not None))
    if taken.step is None:
        return visit.go_to(f"/job/{folder.name}", *said)
    return question(visit, folder, said, asked, 422)


def reply(
    job: Job, said: tuple[str, ...], asked: dict[str, Any] | None = None, *, again: bool = False
) -> dict[str, Any]:
    """What a phone is told after an answer: what was said of it, and the questions that follow."""
    following = next_question(job)
    return {
        "said": list(said),
        "again": again,
        "asked": asked,
        "next": told(job, following) if following else None,
        "row": _row(job),
        "ahead": [told(*each) for each in ahead(job)[1:]],
        "saved": job.live[-1].at[11:16],
        "number": job.events[-1].number,
    }


def photo(visit: Visit, folder: JobFolder) -> Response:
    if not visit.is_post:
        numbers = [int(card) for card in folder.job.cards if card.isdecimal()]
        return visit.page("photo.html", job=folder.job, card=max(numbers, default=0) + 1)
    card = visit.said("card", 20)
    if not card:
        return visit.refused("Which card is in the picture?")
    file = ""
    if visit.photo:
        beside = folder.path / f".upload-{folder.job.events[-1].number}"
        beside.write_bytes(visit.photo)
        try:
            file = bring_in(beside, folder.path, card)
        finally:
            beside.unlink(missing_ok=True)
    asked = next((each for each in all_questions(folder.job) if each.key == "before:photo"), None)
    answered = (
        [Answered(key=asked.key, question=asked.text, answer=f"card {card}", by=visit.by)] if asked is not None else []
    )
    folder.record(*answered, Photographed(card=card, entry=len(folder.job.offs), file=file, by=visit.by))
    return visit.go_to(f"/job/{folder.name}", f"Photo kept, card {card}.")


def second(visit: Visit, folder: JobFolder) -> Response:
    if not visit.by:
        return visit.page("initials.html", job=folder.job)
    if visit.is_post:
        second_answer(folder, visit.form.get("name", ""), visit.form.get("text", "")[:200], by=visit.by)
        return visit.go_to(f"/job/{folder.name}/second")
    following = next_second_look(folder.job, visit.by)
    if following is None:
        return visit.page("initials.html", job=folder.job, said=comparison_words(folder.job, visit.by))
    return visit.page("second.html", job=folder.job, question=told(folder.job, following))


def state(visit: Visit, folder: JobFolder) -> Response:
    """The number of the last event: another device asks whether something was added."""
    return JSONResponse({"number": folder.job.events[-1].number})
