"""What we believe before anybody measures: wear, coats, kinds taken for one another, priors. Data, with a reason each.

The figures stand in `data/beliefs.csv`; nearly all are our own judgement and say so. A workshop changes one there and
every answer follows. The sizes must decide, not these: tests turn each a few times larger and smaller.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

DATA = Path(__file__).parent / "data"


def belief(topic: str, name: str) -> float:
    """One figure.

    >>> belief("wear worn", "length")
    0.08
    """
    return beliefs(topic)[name]


def beliefs(topic: str) -> dict[str, float]:
    """All figures of one topic by name."""
    return _by_topic()[topic]


@cache
def _by_topic() -> dict[str, dict[str, float]]:
    topics: dict[str, dict[str, float]] = {}
    for record in records("beliefs.csv"):
        topics.setdefault(record["topic"], {})[record["name"]] = float(record["value"])
    return topics


@cache
def family(kind: str) -> str:
    """The family of a kind, the kind itself where it has none: kinds of one family are named for one another."""
    return _families().get(kind, kind)


@cache
def _families() -> dict[str, str]:
    return {record["kind"]: record["family"] for record in records("families.csv")}


def records(file: str) -> list[dict[str, str]]:
    """The lines of one data file."""
    with open(DATA / file, encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))
