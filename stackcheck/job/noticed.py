"""What was noticed before and while loosening, as symptoms that every finding is held against.

A member that moved out when its clamp was loosened had been pulled in. Answers in other words are kept and held against
nothing: a symptom is only made of what is plainly one.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from stackcheck.errors import SizeError
from stackcheck.formats.readings import reading_of
from stackcheck.job.distances_seen import stood_off
from stackcheck.model.found import Symptom
from stackcheck.model.part import Reading
from stackcheck.model.reference import Reference

if TYPE_CHECKING:
    from stackcheck.job.state import Job

_MOVED = re.compile(r"\bmoved (?P<way>out|in)\b(?P<rest>.*)")


def symptoms_of(job: Job) -> tuple[Symptom, ...]:
    """The symptoms among the answers: what moved on release, drag, rock, what stood off."""
    noticed = []
    for key, answer in job.answers.items():
        said = answer.lower()
        if key.startswith("loosened:") and (moved := _MOVED.search(said)):
            noticed.append(_moved(job.reference, key.partition(":")[2], moved["way"], moved["rest"], answer))
        elif key == "before:turns" and "drag" in said:
            noticed.append(Symptom(what="drag", note=answer))
        elif key == "before:rock" and said and not re.match(r"no\b|none|nothing", said):
            noticed.append(Symptom(what="rock", note=answer))
    return (*(each for each in noticed if each is not None), *stood_off(job))


def _moved(reference: Reference, joint: str, way: str, rest: str, answer: str) -> Symptom | None:
    """The member that stays on beside a clamp, and the end that it went to when the clamp was loosened."""
    clamps = next((each.clamps for each in reference.joints if each.name == joint), ())
    member = next((place for place in clamps if reference.has_place(place) and reference.part_at(place).fixed), "")
    if not member:
        return None
    first = 2 * reference.line.index(member) < len(reference.line)
    return Symptom(
        what="moved on release",
        place=member,
        toward="first" if first == (way == "out") else "second",
        by=_how_far(rest),
        note=answer,
    )


def _how_far(words: str) -> Reading | None:
    try:
        return reading_of(words.strip(" ,;")) if words.strip(" ,;") else None
    except SizeError:
        return None
