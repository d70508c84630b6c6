"""A part described by hand on the command line: "washer 28x20x0.5 mic, painted, not magnetic" -> an entry.

Two or three figures with x between them are outside, bore and thickness; of the first two the larger one is the outside,
because shim rings are written the other way about. "?" stands for a size that was not measured. Single sizes may be
named: bore=20.1 "outside=30.2 cal". A way of measuring behind the figures counts for all that name none.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from stackcheck.errors import InputError, Mistake, SizeError
from stackcheck.formats.readings import as_reading
from stackcheck.formats.source import did_you_mean
from stackcheck.formats.words import SIZES_ALSO_CALLED, designation_in, kind_of
from stackcheck.model.found import Entry
from stackcheck.model.part import SIZE_NAMES, Reading
from stackcheck.units import read_reading
from stackcheck.units.instruments import HOW

_FIGURE = r"(?:\d+(?:[.,]\d+)?|[.,]\d+|\?)"
_FIGURES = re.compile(rf"(?P<figures>{_FIGURE}(?:[xX×]{_FIGURE}){{1,2}})(?P<unit>mm|in|thou)?,?")
_UNITS = ("mm", "in", "thou", "cm")
_LOOKS = ("painted", "dirty", "greasy", "rusty", "worn", "new", "used", "clean", "magnetic", "not", "no", "non-magnetic", "marked", "lies", "with", "a", "chamfered", "dished", "broken", "hard", "steel", "stainless", "brass", "bronze", "aluminium", "rubber", "plastic", "from", "found")  # fmt: skip
NAMED = "explain"


def read_typed_part(words: Sequence[str]) -> Entry:
    """Read the words of one part.

    Raises:
        InputError: a size that cannot be, an unknown way of measuring or size name; every mistake of the words.
    """
    reader = _Words(words)
    entry = reader.entry()
    if reader.mistakes:
        raise InputError(reader.mistakes, consequence="Nothing was explained.")
    return entry


class _Words:
    def __init__(self, words: Sequence[str]):
        self.words = _joined([word for said in words for word in ([said] if "=" in said else said.split())])
        self.mistakes: list[Mistake] = []
        self.how, self.unit = "", ""
        self.raw: dict[str, str] = {}
        self.said: list[str] = []
        self.marked = ""

    def entry(self) -> Entry:
        behind_figures = False
        for word in self.words:
            bare = word.strip(",.;")
            match = _FIGURES.fullmatch(word)
            if match:
                self._figures(match["figures"], match["unit"] or "")
            elif "=" in word:
                self._named(word)
            elif self._is_how(bare):
                self.how = bare
            elif bare in _UNITS and self.raw:
                self.unit = bare
            elif behind_figures and bare.lower() not in _LOOKS and not kind_of(bare):
                self._mistake(f'"{bare}" is no way of measuring known here', did_you_mean(bare, list(HOW)), bare)
            else:
                self.said.append(word)
            behind_figures = bool(match) or (behind_figures and bare in _UNITS)
        sizes = {name: reading for name, text in self.raw.items() if (reading := self._reading(name, text))}
        self._check(sizes)
        what = " ".join(self.said)
        return Entry(
            number=1, what=what or "part", kind=kind_of(what), marked=self.marked or designation_in(what),
            sizes=tuple((name, sizes[name]) for name in SIZE_NAMES if name in sizes),
        )  # fmt: skip

    def _is_how(self, word: str) -> bool:
        """Whether a word says how the sizes were got; "no marking" says something else, and so does a second one."""
        denied = self.said and self.said[-1].lower() in ("no", "not")
        return word.lower() in HOW and not self.how and not denied and bool(self.raw or not self.said)

    def _figures(self, figures: str, unit: str) -> None:
        first, second, *third = re.split("[xX×]", figures)
        if "?" not in (first, second) and float(first.replace(",", ".")) < float(second.replace(",", ".")):
            first, second = second, first
        self.unit = unit or self.unit
        for name, figure in zip(("outside", "bore", "length"), (first, second, *third)):
            if figure != "?":
                self.raw[name] = figure

    def _named(self, word: str) -> None:
        name, _, text = word.partition("=")
        own = SIZES_ALSO_CALLED.get(name.strip().lower(), name.strip().lower())
        if own in ("number", "marked", "marking"):
            self.marked = text.strip()
        elif own not in SIZE_NAMES:
            self._mistake(f'unknown size "{name}"', did_you_mean(own, [*SIZE_NAMES, *SIZES_ALSO_CALLED, "number"]), name)
        else:
            self.raw[own] = text.strip().rstrip(",")

    def _reading(self, name: str, text: str) -> Reading | None:
        pieces = [text]
        if not re.search(r"[A-Za-z\"]", text):
            pieces += [self.unit, self.how]
        try:
            return as_reading(read_reading(" ".join(piece for piece in pieces if piece)))
        except SizeError as problem:
            self._mistake(f"the {name} cannot be read", problem.wanted, problem.said)
            return None

    def _check(self, sizes: dict[str, Reading]) -> None:
        bore, outside = sizes.get("bore"), sizes.get("outside")
        if bore and outside and bore.low_mm >= outside.high_mm:
            self._mistake(f"the bore {bore.text} is not smaller than the outside {outside.text}", "exchange the two, or measure again", bore.text)

    def _mistake(self, what: str, wanted: str, said: str) -> None:
        self.mistakes.append(Mistake(file=NAMED, what=what, wanted=wanted, said=said))


def _joined(words: list[str]) -> list[str]:
    """The words, with ways of measuring of two words ("inside cal", "cal 0.1") as one."""
    joined: list[str] = []
    for word in words:
        pair = f"{joined[-1]} {word.strip(',')}" if joined else ""
        if pair.lower() in HOW:
            joined[-1] = pair
        else:
            joined.append(word)
    return joined
