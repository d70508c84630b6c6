"""A part described by hand on the command line: "washer 28x20x0.5 mic, painted, not magnetic" -> an entry.

Figures with x between them, or a run of bare ones, are sizes by the rule of `bare_sizes`, most often the two diameters
in either sequence and then the thickness. "?" stands for a size that was not measured. Sizes may be named instead:
bore=20.1, or "bore 20.1 outside 30 cal". A unit or a way of measuring at the end counts for every size that has none of
its own. Every figure is read as a size, a mark or a designation, or refused by name; none is passed over.
`typed_tokens` takes the text apart, this module reads.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from stackcheck.errors import InputError, Mistake, SizeError
from stackcheck.formats.bare_sizes import ONE, diameters, names_of, size_by_kind
from stackcheck.formats.bench_words import CLOSED, FEELS, LOOKS
from stackcheck.formats.near_words import did_you_mean
from stackcheck.formats.readings import as_reading
from stackcheck.formats.typed_tokens import MARKS, Token, size_called, tokens
from stackcheck.formats.words import designation_in, kind_of
from stackcheck.model.found import Entry
from stackcheck.model.part import SIZE_NAMES, Reading
from stackcheck.pattern import Pattern
from stackcheck.units import read_reading
from stackcheck.units.instruments import INSTRUMENTS
from stackcheck.value import Value

_LOOKS = frozenset({
    "painted", "paint", "dirty", "greasy", "rusty", "worn", "new", "used", "unused", "clean", "cleaned", "magnetic",
    "magnet", "not", "no", "without", "non-magnetic", "marked", "marking", "lies", "lay", "flat", "with", "a", "the",
    "chamfered", "chamfer", "dished", "cupped", "conical", "broken", "half", "cracked", "hard", "hardened", "steel",
    "stainless", "brass", "bronze", "copper", "aluminium", "rubber", "plastic", "nylon", "fibre", "paper", "from",
    "found", "tab", "tabs", "teeth", "toothed", "split", "step", "plain", "thin", "thick", "soft", "it", "is", "hollow",
    "torn", "flattened", "lip", "lips", "rim", "face", "faces", "edge", "on", "both", "one", "side", "chipped", "burst",
    "swollen", "brittle", "oily", "wet", "old", "rubs", "cut",
})  # fmt: skip
"""Words for a part that no table of the bench has; what `_is_look` knows is never taken for a way of measuring."""
THREADED = frozenset({"nut", "bolt"})
_THREAD = Pattern(r"M(?P<thread_diameter>\d{1,3}(?:[.,]\d+)?)(?:[x×](?P<thread_pitch>\d(?:[.,]\d+)?))?", re.IGNORECASE)
"""A metric thread as it is called; it is no size of anything but a nut or a bolt."""
FLAT = frozenset(
    {
        "washer",
        "shim ring",
        "thrust washer",
        "tab washer",
        "spring washer",
        "gasket",
        "ring",
        "disc",
        "plate",
        "steel plate",
        "friction plate",
    }
)
_NO_BORE = 8
"""No flat ring is so many times as large outside as in its bore:
ISO 7094 has 3.6 at most, a stamped cover washer perhaps 6.
"""
_ALIKE = 1.05
"""Bare figures nearer one another than this are more likely several readings of one size.
Common practice, no source.
"""
_NAME_IT = "name the size, like bore=17; or write two diameters, or two diameters and a thickness, with x between them"


class TypedPart(Value, kw_only=True):
    """What was typed: the entry, and the words that stood behind the first size, which only `explain` can use."""

    entry: Entry
    behind: str = ""


def read_typed_part(
    words: Sequence[str], command: str = "explain", consequence: str = "Nothing was explained."
) -> TypedPart:
    """Read the words of one part.

    Raises:
        InputError: a size that cannot be, an unknown way of measuring or size name, a figure that is nothing of all
            this; every mistake of the words.

    >>> part = read_typed_part(["washer", "3/4x1/2x1/16", "in"]).entry
    >>> part.kind, [(name, reading.value_mm) for name, reading in part.sizes]
    ('washer', [('length', 1.5875), ('bore', 12.7), ('outside', 19.05)])
    """
    reader = _Words(words, command)
    typed = reader.part()
    if reader.mistakes:
        raise InputError(reader.mistakes, consequence=consequence)
    return typed


class _Piece(Value, kw_only=True):
    """One size as typed: its text, and the unit and way of measuring in it;
    `is_closed` takes no way of measuring from elsewhere.
    """

    text: str
    unit: str = ""
    how: str = ""
    is_closed: bool = False


class _Words:
    def __init__(self, words: Sequence[str], command: str):
        self.tokens, self.next, self.command = tokens(words), 0, command
        self.mistakes: list[Mistake] = []
        self.pieces: dict[str, _Piece] = {}
        self.said: list[str] = []
        self.behind: list[str] = []
        self.unit = self.how = self.marked = ""
        self.count = 1
        self.kind = kind_of(
            " ".join(token.text for token in self.tokens if token.kind in ("word", "designation", "how"))
        )

    def part(self) -> TypedPart:
        behind_figures = False
        while token := self._peek():
            if token.kind == "name":
                self._named()
            elif token.kind == "figure" and self._is_count():
                self.count = int(self._take().text)
            elif token.kind == "figure":
                self._bare()
            elif token.kind == "how" and self._is_common_how():
                self.how = self._take().text
            elif token.kind == "unit" and behind_figures and not self.unit:
                self.unit = self._take().text
                continue
            else:
                self._word(self._take(), behind_figures)
                behind_figures = behind_figures and token.kind == "comma"
                continue
            behind_figures = token.kind != "how" and not (self.pieces and next(reversed(self.pieces.values())).how)
        what = " ".join(self.said).rstrip(",")
        kind = kind_of(what)
        sizes = {name: reading for name, piece in self.pieces.items() if (reading := self._reading(name, piece))}
        bore, outside = sizes.get("bore"), sizes.get("outside")
        if bore and outside and bore.value_mm >= outside.value_mm:
            what_is_so = f"the bore {bore.text} is not smaller than the outside {outside.text}"
            wanted = "exchange the two, or measure again; a solid part has no bore"
            if any(not self.pieces[name].unit for name in ("bore", "outside")) and (
                unit := self.unit or next(reversed(self.pieces.values())).unit
            ):
                wanted = (
                    "a unit at the end counts for every size without its own: "
                    f'write "{self.pieces["bore"].text} mm" if it is not in {unit}; else {wanted}'
                )
            self._mistake(what_is_so, wanted, bore.text)
        entry = Entry(
            number=1, what=what or "part", kind=kind, marked=self.marked or designation_in(what), count=self.count,
            sizes=tuple((name, sizes[name]) for name in SIZE_NAMES if name in sizes),
        )  # fmt: skip
        return TypedPart(entry=entry, behind=" ".join(self.behind))

    def _peek(self, ahead: int = 0) -> Token | None:
        position = self.next + ahead
        return self.tokens[position] if position < len(self.tokens) else None

    def _kind(self, ahead: int = 0) -> str:
        token = self._peek(ahead)
        return token.kind if token else ""

    def _take(self) -> Token:
        self.next += 1
        return self.tokens[self.next - 1]

    def _named(self) -> None:
        """A size behind its name: readings of it, their unit, how, and a ± of its own."""
        name = size_by_kind(size_called(self._take().text), self.kind)
        text = [self._take().text]
        if name == "ball" and not (
            self.said and self.said[-1].lower().startswith("ball")
        ):  # the name of the thing as well as of its size
            self.said.append("ball")
        if text == ["?"]:
            return
        while (self._kind() in ("figure", "to") and self._kind(1) != "cross") or (
            self._kind() == "comma" and self._kind(1) == "figure"
        ):
            token = self._take()
            text.append(token.text if token.kind != "comma" else "")
        self._put(name, self._ended(text))

    def _bare(self) -> None:
        """Sizes without a name: with x between them, or as a run of figures."""
        start = self.next
        pieces, crosses = [self._piece()], 0
        while self._kind() == "cross":
            self._take()
            pieces.append(self._piece())
            crosses += 1
        while not crosses and (self._kind() == "figure" or (self._kind() == "comma" and self._kind(1) == "figure")):
            self.next += self._kind() == "comma"
            pieces.append(self._piece())
        said = " ".join(token.text for token in self.tokens[start : self.next])
        if not crosses and len(pieces) > 1 and (trouble := _read_two_ways([piece.text for piece in pieces])):
            self._mistake(f'"{said}" {trouble}', "write x between the sizes, or name them: bore=17", said)
        elif len(pieces) == 2 and self._is_flat(pieces):
            wanted = f"name them: outside={pieces[0].text} thickness={pieces[1].text}"
            self._mistake(f'"{said}" may be two diameters, or an outside diameter and a thickness', wanted, said)
        elif names := self._names(pieces):
            for name, piece in zip(names, pieces):
                if name and piece.text != "?":
                    self._put(name, piece)
            last = pieces[-1]
            self.unit, self.how = self.unit or last.unit, self.how or ("" if last.is_closed else last.how)
        else:
            self._mistake(f"{len(pieces)} size{'s' if len(pieces) > 1 else ''} without a name: {said}", _NAME_IT, said)

    def _names(self, pieces: list[_Piece]) -> Sequence[str]:
        """What the pieces are, () where the rule has no answer;
        one that was not measured is taken in its usual place.
        """
        if len(pieces) == 1:
            return (ONE[self.kind],) if self.kind in ONE else ()
        readings = [None if piece.text == "?" else self._read(self._completed(piece, pieces[-1])) for piece in pieces]
        if all(readings):
            return names_of([reading.value_mm for reading in readings], self.kind)
        if len(pieces) > 3:
            return ()
        first = diameters([reading.value_mm for reading in readings[:2]]) if all(readings[:2]) else ("outside", "bore")
        return (*first, "length")[: len(pieces)]

    def _is_flat(self, pieces: list[_Piece]) -> bool:
        """Whether the second of two figures is no bore that a flat part could have beside the first."""
        readings = [piece.text != "?" and self._read(self._completed(piece, pieces[-1])) for piece in pieces]
        return all(readings) and self.kind in FLAT and readings[0].value_mm > _NO_BORE * readings[1].value_mm

    def _piece(self) -> _Piece:
        return self._ended([self._take().text])

    def _ended(self, text: list[str]) -> _Piece:
        """A size with the unit, the way of measuring and the ± that stand behind its figures."""
        unit = how = ""
        if self._kind() == "unit":
            unit = self._take().text
        if self._kind() == "how":
            how = self._take().text
        ends = [unit, how]
        is_closed = self._kind() == "plus_minus" and self._kind(1) == "figure"
        if is_closed:
            ends += [self._take().text + self._take().text, self._take().text if self._kind() == "unit" else ""]
        return _Piece(text=" ".join(filter(None, text + ends)), unit=unit, how=how, is_closed=is_closed)

    def _put(self, name: str, piece: _Piece) -> None:
        if name in self.pieces:
            said = f"{self.pieces[name].text}, {piece.text}"
            self._mistake(
                f"the {name} is given twice: {said}",
                "give several readings of one size behind its name: bore 17.1 17.2",
                piece.text,
            )
        self.pieces[name] = piece

    def _is_count(self) -> bool:
        """Whether a whole figure at the start says how many there are: a word follows it, and the sizes after that."""
        later = [token.kind for token in self.tokens[2:]]
        is_word = self._kind(1) == "word" or (self._kind(1) == "name" and self._peek(1).text.lower().startswith("ball"))
        return (
            self.next == 0
            and self._peek().text.isdigit()
            and int(self._peek().text) > 0
            and is_word
            and bool({"figure", "name"} & set(later))
            and bool(self.kind)
        )

    def _is_common_how(self) -> bool:
        """Whether a way of measuring counts for the sizes;
        "no marking" says something else, and so does a second one.
        """
        denied = self.said and self.said[-1].lower() in ("no", "not", "without")
        return not self.how and not denied and bool(self.pieces or not self.said)

    def _word(self, token: Token, behind_figures: bool) -> None:
        """A word of the description, a mark or a designation; anything else with a figure in it is refused."""
        word = token.text
        if token.kind == "comma":
            if self.said and not self.said[-1].endswith(","):
                self.said[-1] += ","
            return
        if token.kind == "other name":
            name, _, text = word.partition("=")
            own = name.strip().lower()
            if own in MARKS:
                self.marked = text.strip().rstrip(",;")
            elif size := size_called(own):
                self._mistake(
                    f'the {size} "{text}" cannot be read', 'write it like bore=17.10 or bore="17.10 cal"', text
                )
            else:
                self._mistake(
                    f'unknown size "{name.strip()}"', did_you_mean(own, [*SIZE_NAMES, "number"]), name.strip()
                )
            return
        if token.kind == "mark":
            self.marked = word.split()[-1]
        elif self.kind in THREADED and (thread := _THREAD.fullmatch(word)):
            for size, figure in thread.groupdict().items():
                if figure:
                    self._put(size, _Piece(text=figure.replace(",", "."), is_closed=True))
            self.said.append(word)
            return
        elif token.kind != "designation" and any(sign.isdigit() for sign in word):
            self._mistake(
                f'"{word}" is not read: it is no size, no way of measuring and no standard part known here',
                "name a size, like bore=17; a mark is written number=FT-1207, a count or a thread left out",
                word,
            )
            return
        elif behind_figures and token.kind in ("word", "unit") and not _is_look(word):
            self._mistake(
                f'"{word}" is no way of measuring known here',
                did_you_mean(word, [typed for tool in INSTRUMENTS.values() for typed in tool.typed[:1]]),
                word,
            )
            return
        self.said.append(word)
        if self.pieces:
            self.behind.append(word)

    def _reading(self, name: str, piece: _Piece) -> Reading | None:
        last = next(reversed(self.pieces.values()))
        end = _Piece(text="", unit=self.unit or last.unit, how=self.how or ("" if last.is_closed else last.how))
        try:
            return as_reading(read_reading(self._completed(piece, end)))
        except SizeError as problem:
            self._mistake(f'the {name} "{piece.text}" cannot be read', problem.wanted, problem.said)
            return None

    def _completed(self, piece: _Piece, end: _Piece) -> str:
        """What stands at the end counts for every size that has none of its own."""
        unit = "" if piece.unit or piece.is_closed else end.unit or self.unit
        how = "" if piece.how or piece.is_closed else end.how or self.how
        text = piece.text
        if unit and piece.how:
            text = f"{text.removesuffix(piece.how).rstrip()} {unit} {piece.how}"
        elif unit:
            text += f" {unit}"
        return f"{text} {how}".rstrip()

    def _read(self, text: str) -> Reading | None:
        try:
            return as_reading(read_reading(text))
        except SizeError:
            return None  # said when the size is read by its name

    def _mistake(self, what: str, wanted: str, said: str) -> None:
        self.mistakes.append(Mistake(file=self.command, what=what, wanted=wanted, said=said))


def _is_look(word: str) -> bool:
    """Whether a word says something of a part, and never how it was measured."""
    word = word.lower().rstrip(".")
    return (
        word in _LOOKS
        or bool(LOOKS.fullmatch(word) or FEELS.fullmatch(word) or CLOSED.fullmatch(word))
        or bool(kind_of(word))
    )


def _read_two_ways(figures: list[str]) -> str:
    """Why a run of bare figures has no one meaning, "" where it has."""
    if figures[0].isdigit() and designation_in(figures[0]):
        return "may be sizes, or the number of a bearing and sizes of it"
    bare = [figure.split()[0] for figure in figures]
    if any(first.isdigit() and "/" in second for first, second in pairwise(bare)):
        return "can be read two ways"
    values = [float(figure.replace(",", ".")) for figure in bare if "/" not in figure and figure != "?"]
    if len(values) > 1 and max(values) < _ALIKE * min(values):
        return "may be several readings of one size"
    return ""
