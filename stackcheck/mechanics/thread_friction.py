"""What friction a thread and the face under its nut have, by the condition that somebody wrote beside the torque.

The rows stand in `data/thread_friction.csv`, each with its source; a workshop that knows better changes one there, or
writes `friction = [0.10, 0.14]` in the joint of its reference. Friction is the largest unknown of every torque: always
a range.
"""

from __future__ import annotations

import csv
import re
from functools import cache
from pathlib import Path

from stackcheck.mechanics.axial.threads import FRICTION
from stackcheck.model.reference import Joint
from stackcheck.value import Value

DATA = Path(__file__).parent / "data/thread_friction.csv"
NOT_KNOWN = "common practice, no source"


class Friction(Value, kw_only=True):
    """Coefficients of thread and face: low, usual, high;
    `said` is the condition they are for, "" where none was known.
    """

    least: float
    usual: float
    most: float
    source: str
    said: str = ""


def friction_of(joint: Joint) -> Friction:
    """By the reference's own figures, else by the condition it names, else the wide range of a thread nobody looked at.

    A text that names two conditions ("thread oiled, face dry") has the range of both.
    """
    if joint.friction:
        least, most = joint.friction[0], joint.friction[-1]
        usual = joint.friction[1] if len(joint.friction) == 3 else (least + most) / 2
        return Friction(least=least, usual=usual, most=most, source="the reference", said=joint.thread_condition)
    named = [
        friction for words, friction in conditions() if any(_names(joint.thread_condition, word) for word in words)
    ]
    if not named:
        return Friction(least=FRICTION[0], usual=FRICTION[1], most=FRICTION[2], source=NOT_KNOWN)
    return Friction(
        least=min(each.least for each in named),
        usual=sum(each.usual for each in named) / len(named),
        most=max(each.most for each in named),
        source="; ".join(dict.fromkeys(each.source for each in named)),
        said=", ".join(each.said for each in named),
    )


@cache
def conditions() -> tuple[tuple[tuple[str, ...], Friction], ...]:
    """Every row: the words it goes by, and its friction."""
    with open(DATA, encoding="utf-8", newline="") as handle:
        return tuple(
            (
                (row["condition"], *row["also"].split("|")),
                Friction(
                    least=float(row["least"]),
                    usual=float(row["usual"]),
                    most=float(row["most"]),
                    source=row["source"],
                    said=row["condition"],
                ),
            )
            for row in csv.DictReader(handle)
        )


def _names(said: str, word: str) -> bool:
    return re.search(rf"(?<!un)(?<![\w-]){re.escape(word)}(?!\w)", said.lower()) is not None
