"""One thing of a typed line, read from a piece that names no other thing: words, marks, condition, facing, sizes."""

from __future__ import annotations

import re
from collections.abc import Sequence

from stackcheck.formats.bench_count import pieces_said, sizes_in
from stackcheck.formats.bench_facing import direction_in, facing_pattern, feature_named
from stackcheck.formats.bench_figures import Figure, figures_in, shared
from stackcheck.formats.bench_read import Question, ReadPart
from stackcheck.formats.bench_signs import other_signs
from stackcheck.formats.bench_sizes import sized
from stackcheck.formats.bench_threads import threads_in
from stackcheck.formats.bench_words import (
    CAME,
    CAME_OFF,
    CARD,
    CLOSED,
    CLOSURES,
    COMPARED,
    FEEL,
    FEELS,
    LAY,
    LOOK,
    LOOKS,
    LOOKS_LIKE,
    NO_LENGTH,
    NOTE,
    ONLY_FELT,
    READ_BACK,
    SAME,
    SAME_BOTH_WAYS,
    STUCK,
    TURNING_KINDS,
    UNKNOWN,
    word_for,
)  # fmt: skip
from stackcheck.formats.typed_text import TypedText
from stackcheck.formats.words import FACING_NOT_TOLD, designation_in, kinds_in
from stackcheck.model.part import SIZE_NAMES
from stackcheck.model.reference import Reference
from stackcheck.pattern import Pattern
from stackcheck.units import read_reading
from stackcheck.units.instruments import TYPED_HOW
from stackcheck.value import replace

_MARKED = Pattern(
    r"\b(?:marked|stamped|part number|number|no\.?(?= ?\d{3}))\s*:?\s*"
    r"(?P<mark>\"[^\"]+\"|(?=[\w/-]*\d)[\w/-]+(?![\w/-]|[.,]\d)(?: (?:C[2-5]|2?RS\d?|2?Z{1,2})\b)*"
    r"(?-i: [A-Z0-9]{1,5}\b)*)",
    re.IGNORECASE,
)
_PART_NUMBER = Pattern(r"\b[A-Z]{1,4}-\d{2,}[A-Z]?\b")
_JOINING = Pattern(r"^(?:a|an|the|one) (?=\w)|(?<=\w) (?:was|is|were|are|has|with|and|the|a)$", re.IGNORECASE)
_ABSENT = Pattern(r"^(?:no|nothing)\b|\b(?:missing|not there|absent)\b", re.IGNORECASE)
_UNCOUNTED = Pattern(r"\bnot counted\b|\b\d{1,3} not measured\b", re.IGNORECASE)
_TOOL_BEHIND = Pattern(rf"(?<![\d\"m])(?:,\s*|\s)(?:all )?{TYPED_HOW.pattern}\s*$", re.IGNORECASE)


_DEGREES = r"[+-]?\d+(?:[.,]\d+)?(?: ?(?:\.\.|±|to) ?\d+(?:[.,]\d+)?)?[^\w,;.]{0,3}[CF]\b"
_HOW_WARM = Pattern(rf"\bat {_DEGREES}(?:,? (?:instrument|tool)(?: at)? {_DEGREES})?")
_UNIT_OF_HEAT = Pattern(r"(?<=\d)\W*([CF])\b")


class PartReader:
    """Reads one piece; the answer stands in `parts` (several for pieces measured one by one) and `questions`."""

    def __init__(
        self,
        piece: str,
        *,
        before: str,
        behind: str,
        reference: Reference | None,
        ends: Sequence[str],
        unit: str,
        how: str,
        kind: str,
    ):
        self.text = TypedText(piece, other_signs(piece))
        self.before, self.behind = before, behind
        self.reference, self.ends, self.unit, self.how = reference, ends, unit, how
        self.questions: list[Question] = []
        self.notes: list[str] = []
        self.kind, self.plural, self.thing = "", False, (0, 0)
        self.parts = self._read(kind)

    def _read(self, asked_kind: str) -> list[ReadPart]:
        text = self.text
        if note := text.take(NOTE):
            self.notes.append(text.as_typed(note.start() + note.group().index(":") + 1, note.end()).removesuffix("."))
        warm = text.take(_HOW_WARM)
        self.warm = _UNIT_OF_HEAT.sub(r" °\1", f" {text.as_typed(*warm.span())}") if warm else ""
        unknown = bool(text.take(UNKNOWN))
        same = bool(text.take(SAME))
        text.take(STUCK)
        self.uncounted = uncounted = text.take(_UNCOUNTED)
        if uncounted:
            self.notes.append(text.as_typed(*uncounted.span()))
        for match in iter(lambda: text.take(READ_BACK), None):
            pass
        card = text.take(CARD)
        feature, toward = self._facing()
        self._find_kind()
        self.kind = self.kind or asked_kind
        marked = self._marked()
        if marked and not self.kind:
            self.kind = _kind_of_designation(marked)
        threads, inch_thread = threads_in(text)
        self.notes += inch_thread
        for match in iter(lambda: text.take(COMPARED), None):
            self.notes.append(text.as_typed(*match.span()))
        for match in iter(lambda: text.take(NO_LENGTH), None):
            self.notes.append(text.as_typed(*match.span()))
        lay = list(iter(lambda: text.take(LAY), None))
        came = text.take(CAME)
        look = self._closures()
        look += self._looks()
        look += [match["word"].lower() for match in iter(lambda: text.take(LOOKS_LIKE), None)]
        feel = self._feel()
        end = self._end()
        how = self._tool_behind()
        count, figures = pieces_said(text, sizes_in(text), kind=self.kind, thing=self.thing, plural=self.plural)
        read = sized(
            shared(figures, how or self.how, self.unit), kind=self.kind, count=count or 1, plural=self.plural,
            unit=self.unit, known=threads,
        )  # fmt: skip
        for doubt in read.doubts:
            choices = tuple((shown, self._typed_with(instead)) for shown, instead in doubt.choices)
            self.questions.append(Question(about=doubt.about, text=doubt.text, choices=choices))
        used = sorted((*(figure for _, figure in read.sizes), *read.pieces), key=lambda figure: figure.start)
        for before, figure in zip((None, *used), used):
            side_by_side = (
                before
                and before.run == figure.run
                and not any(before.end <= one.start < figure.start for one in figures)
            )
            text.cross(before.end if side_by_side else figure.start, figure.end)
        what, rest = self._words_left()
        sizes = dict(threads) | {name: figure.text(self.unit) + self.warm for name, figure in read.sizes}
        for size in (*sizes.values(), *(piece.text(self.unit) for piece in read.pieces)):
            read_reading(size)
        where = next((match["where"] for match in lay if match["where"]), "")
        part = ReadPart(
            what=what, kind=self.kind, marked=marked, count=count or 1, end=end, sizes=_in_sequence(sizes),
            feature=feature, toward=toward, feel=tuple(feel), look=tuple(dict.fromkeys(look)),
            came_off=word_for(came["word"], CAME_OFF) if came else "",
            place_seen="found loose" if lay else "", where=where.lower(), card=card["card"] if card else "",
            note="; ".join([*rest, *self.notes]), same_as_other_side=same, unknown=unknown,
        )  # fmt: skip
        self._ask_about_the_count(part, bool(count or read.pieces))
        return self._one_by_one(part, count, read.pieces)

    def _ask_about_the_count(self, part: ReadPart, is_counted: bool) -> None:
        if self.plural and part.what.lower().endswith("s") and not is_counted and not self.uncounted:
            choice = ("not counted", self._typed_and("not counted"))
            self.questions.append(Question(about="count", text=f"How many {part.what}?", choices=(choice,)))
        if _ABSENT.search(part.what):
            choice = ("nothing, this is a note", f"{self.before}note: {self.text.typed}{self.behind}")
            self.questions.append(
                Question(about="missing", text=f"{part.what}: did anything come off?", choices=(choice,))
            )

    def _one_by_one(self, part: ReadPart, count: int, pieces: Sequence[Figure]) -> list[ReadPart]:
        if not pieces:
            return [part]
        singles = [
            replace(part, count=1, sizes=_in_sequence(dict(part.sizes) | {"length": piece.text(self.unit) + self.warm}))
            for piece in pieces
        ]
        missing = count - len(pieces)
        if missing > 0:
            if not self.uncounted:
                choice = (f"{missing} not measured", self._typed_and(f"{missing} not measured"))
                self.questions.append(
                    Question(
                        about="count",
                        text=f"{count} pieces said, {len(pieces)} figures: {missing} not measured?",
                        choices=(choice,),
                    )
                )
            singles.append(replace(part, count=missing))
        return singles

    def _typed_with(self, instead: Sequence[tuple[Figure, str]]) -> str:
        """The whole line, with other words for some figures."""
        pieces, here = [], 0
        for figure, words in sorted(instead, key=lambda one: one[0].start):
            start, end = self.text.place_typed(figure.start, figure.end)
            pieces += [self.text.typed[here:start], words]
            here = end
        return self.before + "".join(pieces) + self.text.typed[here:] + self.behind

    def _typed_and(self, words: str) -> str:
        return f"{self.before}{self.text.typed.rstrip(' .,;')}, {words}{self.behind}"

    def _facing(self) -> tuple[str, str]:
        features = (
            tuple(dict.fromkeys(part.feature for part in self.reference.parts if part.feature))
            if self.reference
            else ()
        )
        pattern = facing_pattern(features, self._end_names())
        match = pattern.search(self.text.open)
        if match is None:
            return "", FACING_NOT_TOLD[same.group().lower()] if (same := self.text.take(SAME_BOTH_WAYS)) else ""
        toward, end = match["toward"] or match["named"] or "", match.end()
        if match["chain"]:
            names = [
                *self._end_names(),
                *(name for part in self._parts() for name in (part.name, part.id)),
                *self._places(),
            ]
            toward = direction_in(match["chain"], names)
            end = match.start("chain") + len(toward)
        self.text.cross(match.start(), end)
        toward = FACING_NOT_TOLD.get(toward.lower(), toward)
        return feature_named(match["feature"], features), f"away from {toward}" if (
            match["prep"] or ""
        ).lower() == "away from" else toward

    def _tool_behind(self) -> str:
        """A way of measuring behind everything, for the figures that name none: "18.02 collar, calliper"."""
        match = _TOOL_BEHIND.search(self.text.open, self.thing[1])
        figures = figures_in(self.text)
        if (
            match is None
            or not figures
            or any(figure.start < match.end() and match.start() < figure.end for figure in figures)
        ):
            return ""
        self.text.cross(*match.span())
        return match["typed"].lower()

    def _parts(self):
        return self.reference.parts if self.reference else ()

    def _places(self) -> list[str]:
        return [place.name for place in self.reference.places] if self.reference else []

    def _end_names(self) -> dict[str, int]:
        names = {name: side for side, name in enumerate(self.ends)}
        short = {name.removesuffix(" end"): side for name, side in names.items() if name.endswith(" end")}
        return short | names

    def _find_kind(self) -> None:
        """The first thing that is named: a part of the reference by its name, or a kind."""
        open = self.text.open
        kinds = kinds_in(open)
        names = [(name, part.kind) for part in self._parts() for name in (part.name, *part.also) if name]
        names += [(part.id.replace("-", " "), part.kind) for part in self._parts() if "-" in part.id]
        for name, kind in sorted(names, key=lambda one: -len(one[0])):
            if (match := re.search(rf"\b{re.escape(name)}\b", open, re.IGNORECASE)) and (
                not kinds or (match.start() <= kinds[0][1] + 1 and match.end() >= kinds[0][1])
            ):
                self.kind, self.thing = kind, match.span()
                return
        if kinds:
            start, end, self.kind = kinds[0]
            self.thing = (start, end)
            word = open[start:end].lower()
            self.plural = (word.endswith("s") and not word.endswith("ss")) or word in ("friction", "steel")
            if self._narrow(kinds[1:]):
                return
            if self.reference and self.kind not in {part.kind for part in self._parts()}:
                family = [part.kind for part in self._parts() if part.kind.endswith(f" {self.kind.rpartition(' ')[2]}")]
                if len(set(family)) == 1 and word.removesuffix("s") in ("bearing", "brg", "washer", "plate", "seal"):
                    self.kind = family[0]

    def _narrow(self, others: Sequence[tuple[int, int, str]]) -> bool:
        """ "tail bearing, taper": a word alone that says which bearing, or which plate, it is."""
        for start, end, kind in others:
            alone = re.search(r"[,;]\s*$", self.text.open[:start]) and re.match(
                r"\s*(?:[,;.\x00]|$)", self.text.open[end:]
            )
            if alone and kind != self.kind and kind.rpartition(" ")[2] == self.kind.rpartition(" ")[2]:
                self.kind = kind
                self.text.cross(start, end)
                return True
        return False

    def _marked(self) -> str:
        """A part number of the reference, the designation of a standard part, or what is said to be marked on it."""
        text = self.text
        for part in self._parts():
            for number in (part.number, *part.accepts):
                if number and (match := text.take(re.compile(rf"\b{re.escape(number)}(?!\w)", re.IGNORECASE))):
                    self.kind = self.kind or part.kind
                    return text.as_typed(*match.span())
        if match := text.take(_MARKED):
            return match["mark"].strip('"')
        if match := text.take(_PART_NUMBER):
            return match.group()
        if (
            self.kind
            and not self.kind.endswith("bearing")
            and not re.search(r"\b(?:DIN|ISO)\b", text.open, re.IGNORECASE)
        ):
            return ""
        designation = designation_in(text.open)
        if not designation:
            return ""
        start = text.open.index(designation)
        text.cross(start, start + len(designation))
        if self.thing[0] == self.thing[1]:
            self.thing = (start, start + len(designation))
        return text.as_typed(start, start + len(designation))

    def _closures(self) -> list[str]:
        return self._words(CLOSED, CLOSURES) if self.kind.endswith("bearing") else []

    def _looks(self) -> list[str]:
        return [
            " ".join(
                filter(None, ((match["of"] or "").lower(), word_for(match["word"], LOOK), (match["at"] or "").lower()))
            )
            for match in iter(lambda: self._take_outside_thing(LOOKS), None)
        ]

    def _words(self, pattern: re.Pattern[str], words: dict[str, str]) -> list[str]:
        return [word_for(match["word"], words) for match in iter(lambda: self._take_outside_thing(pattern), None)]

    def _take_outside_thing(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """The first match that is not part of the name of the thing itself ("insert lock nut", "loose balls")."""
        for match in pattern.finditer(self.text.open):
            if match.end() <= self.thing[0] or match.start() >= self.thing[1]:
                self.text.cross(*match.span())
                return match
        return None

    def _feel(self) -> list[str]:
        text, feel = self.text, []
        for match in iter(lambda: self._take_outside_thing(FEELS), None):
            word, where = word_for(match["word"], FEEL), match["where"] or ""
            if not self.kind or self.kind in TURNING_KINDS:
                feel.append(f"{word} {where.lower()}".strip())
                continue
            typed = text.as_typed(*match.span())
            self.notes.append(typed)
            if word in ONLY_FELT:
                start, end = text.place_typed(*match.span())
                line = self.before + text.typed[:start].rstrip(" ,;") + "{}" + text.typed[end:] + self.behind
                choices = (
                    (f"the bearing beside it is {word}", line.format("") + f", note: the bearing beside it {typed}"),
                    (f"the {self.kind} itself", line.format(f", looks {word}")),
                )
                self.questions.append(
                    Question(about="feel", text=f"{word.capitalize()} - the bearing beside it?", choices=choices)
                )
        return feel

    def _end(self) -> int | None:
        for name, side in sorted(self._end_names().items(), key=lambda one: -len(one[0])):
            said = re.escape(name)
            if match := self.text.take(re.compile(rf"^\s*{said}(?: end)? ?\d{{1,2}}\s*[:.,]", re.IGNORECASE)):
                self.notes.append(self.text.as_typed(*match.span()).rstrip(":."))
                return side
            pattern = (
                r"(?:(?:^|(?<=[,;\x00]))\s*(?:(?:came )?(?:off|from|at|on) )?(?:the )?"
                rf"{said}(?: end| side| hand)?\s*(?=[,;:.\x00]|$|\d+[,:.])"
                rf"|\b(?:off|from) (?:the )?{said}(?: end| side)?\b|^\s*{said}(?: end)?\s*:)"
            )
            if self.text.take(re.compile(pattern, re.IGNORECASE)):
                return side
        return None

    def _words_left(self) -> tuple[str, list[str]]:
        """The words for the thing, and what stays in the note."""
        text, (start, end) = self.text, self.thing
        if start == end:
            pieces = text.left(0, len(text.open))
            is_words = bool(pieces) and re.search(r"[^\W\d]", pieces[0])
            return (pieces[0], pieces[1:]) if is_words else ("", pieces)
        open = text.open
        begin = max((match.end() for match in re.finditer(r"[,;:\x00]", open[:start])), default=0)
        stop = next((match.start() for match in re.finditer(r"[,;\x00]|\. ?$|\d", open[end:])), len(open) - end) + end
        what = _JOINING.sub("", " ".join(text.left(begin, stop)))
        return what, [*text.left(0, begin), *text.left(stop, len(open))]


def _kind_of_designation(marked: str) -> str:
    from stackcheck.tables import UnknownStandard, resolve

    try:
        return resolve(marked).kind
    except UnknownStandard:
        return ""


def _in_sequence(sizes: dict[str, str]) -> tuple[tuple[str, str], ...]:
    return tuple((name, sizes[name]) for name in SIZE_NAMES if name in sizes)
