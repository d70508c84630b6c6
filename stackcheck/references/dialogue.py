"""The guided dialogue that makes a reference: in the words of the bench, from the first end to the second.

First who says so and what the ends are called, then part by part as they sit; then what only the whole line shows: what
stands between the outer rings of the bearings, how far apart the fixed members are, what clamps, and whether a brake,
the steering or somebody's limbs depend on it. Nothing is guessed in silence: what is usual is offered with where it
comes from, and what is not known stays out and is said at the end.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from stackcheck.catalogue.known import standard_parts
from stackcheck.errors import SizeError
from stackcheck.formats.drawn_sizes import drawn_size, read_drawn_part, with_unit
from stackcheck.formats.said_beside import Beside, said_beside
from stackcheck.formats.words import kind_of_name
from stackcheck.model.coverage import read_coverage
from stackcheck.model.part import KINDS, PASS_THROUGH, RING_BEARINGS
from stackcheck.model.place_words import end_called
from stackcheck.model.reference import SOURCE_KINDS, Source
from stackcheck.references import ask, duties
from stackcheck.references.ask import Dialogue
from stackcheck.references.draft import (
    TO_BEARING,
    TO_OUTSIDE,
    Draft,
    DraftGap,
    DraftPart,
    again,
    read_back,
    who_gives,
    who_says,
)
from stackcheck.references.suggest import PRACTICE, standards_with, usual
from stackcheck.references.whole_line import whole_line
from stackcheck.tables import resolve
from stackcheck.value import replace

IN_BORE = "in the bore, beside a bearing"
ON_SHAFT = {"seal": "on the shaft, clamped between the rings", "circlip": "on the shaft"}
"""Kinds that sit in a bore or on the shaft -> what the second is called."""
_INSIDE = re.compile(r"\b(?:DIN 472|internal|inside|inner|bore)\b", re.IGNORECASE)
_AROUND = re.compile(r"\b(?:DIN 471|external|outside|outer|shaft)\b", re.IGNORECASE)
STEP = (
    "A step of it inside the stack, and the room to it, are not asked here: "
    'write them by hand, see "A step inside a stack" in the manual.'
)

Drawing = Callable[[Draft], tuple[str, ...]]

USUAL_KINDS = ("collar", "washer", "spacer tube", "ring", "nut", "seal", "ball bearing", "hub", "leg")
SIZE_WORDS = ("length", "bore", "outside", "seat", "shoulder", "thread", "pitch", "across flats")
_GAP = "gap"
HELP = (
    "One part a line, as you would say it: long collar 22.0 ±0.05 bore 20 H8 od 30 #FT-1207",
    "Figures with x are outside x bore x length; a bearing by its number; leg, bracket: what stays on the machine too.",
    "gap 2.5..4.0: a gap left open on purpose, where it lies. -: take the last one back. Empty: no more.",
)


TITLE = "What is it? (a title, like: front hub on a through axle)"


def dialogue(draw: Drawing, *, last: str = "") -> Dialogue[Draft]:
    """The whole dialogue; returns what was said as a draft.
    `last` is asked at the very end, for somebody to look again.
    """
    draft = yield from _head()
    yield from ask.say(*HELP)
    draft = yield from _rows(draft, draw)
    draft = yield from whole_line(draft)
    draft = yield from duties.of_line(draft)
    if last:
        yield from ask.say(*draw(draft))
        yield from ask.text(last)
    return draft


def _head() -> Dialogue[Draft]:
    title = yield from ask.text(TITLE, must=True)
    first = yield from ask.text("What is the first end called?", empty="left")
    second = yield from ask.text("And the second end?", empty="right" if first == "left" else "", must=True)
    seen_from = yield from ask.text(f"How does somebody know which end is {first}? ({first} = ...)", must=True)
    covers = yield from ask.text("Which years or serials does it cover? (2008 to 2013, 400 and up; empty: not said)")
    coverage = read_coverage(covers)
    which = (yield from ask.choose("These are:", ("years", "serials"), none="neither")) if coverage else ""
    kinds = list(SOURCE_KINDS)
    kind = yield from ask.choose("Who says how it should be?", kinds, empty="memory")
    what = yield from ask.text("Which sheet, edition, page, machine? (empty: not said)")
    source = Source(kind=kind, what=what, state="draft")
    return Draft(
        title=title,
        ends=(first.lower(), second.lower()),
        seen_from=seen_from,
        source=source,
        covers="" if which else covers,
        head=(f"{title}.",),
        **({which: coverage} if which else {}),
    )


def _rows(draft: Draft, draw: Drawing) -> Dialogue[Draft]:
    while True:
        first, number = draft.ends[0], len(draft.parts) + 1
        what = "What comes next" if draft.rows else f"What comes first, from the {end_called(first)}"
        question = f"{first.capitalize()} {number}. {what}?"
        line = (yield ask.Ask(text=question, takes_back=bool(draft.rows), words=_words(draft))).strip()
        if line == "-":
            draft = replace(draft, rows=draft.rows[:-1])
        elif not line:
            if len(draft.parts) < 2:
                yield ask.Again("a stack has two parts at least")
                continue
            if (
                len(draft.parts) > 2
                or (yield from ask.choose(f"{len(draft.parts)} parts: end of the list?", ("yes", "no"), empty="yes"))
                == "yes"
            ):
                return draft
            continue
        elif line.lower().startswith(_GAP):
            gap = yield from _gap(draft, line)
            draft = replace(draft, rows=(*draft.rows, gap)) if gap else draft
        else:
            row = yield from _row(draft, line)
            draft = replace(draft, rows=(*draft.rows, row)) if row else draft
        if draft.rows:
            yield from ask.say(*draw(draft))


def _words(draft: Draft) -> tuple[str, ...]:
    """What a line may begin with or hold: parts named already, kinds, the words for sizes, standard parts."""
    named = (row.name.lower() for row in draft.parts)
    return tuple(dict.fromkeys((*named, *KINDS, _GAP, *SIZE_WORDS, *(part.name for _, part in standard_parts()))))


def _gap(draft: Draft, line: str) -> Dialogue[DraftGap | None]:
    if not draft.rows or isinstance(draft.rows[-1], DraftGap):
        yield ask.Again("a gap lies between two parts: name the part before it first")
        return None
    said = line[len(_GAP) :].strip(" :")
    limits = said or (yield from ask.text("From, to? (2.5..4.0; empty: no limits)"))
    if limits:
        try:
            size = drawn_size(limits)
        except SizeError as problem:
            yield ask.Again(f'"{problem.said}" cannot be read: {problem.wanted}')
            return None
        if not size.has_limits:
            yield ask.Again("a gap has two figures: gap 2.5..4.0")
            return None
        least, most = (f"{value:.9g} mm" for value in (size.least_mm, size.most_mm))
    else:
        least = most = ""
    name = yield from ask.text("What is this gap called?", empty="free gap")
    source = (yield from ask.text(who_gives(draft), empty=who_says(draft))) if limits else ""
    set_by = yield from ask.text(
        "What sets it when it is fitted, a nut say? (empty: nothing, the parts do by their lengths)"
    )
    return DraftGap(name=name, least=least, most=most, set_by=set_by, source=source)


def _row(draft: Draft, line: str) -> Dialogue[DraftPart | None]:
    line, said = said_beside(line, draft.ends)
    try:
        drawn = read_drawn_part(line)
    except SizeError as problem:
        why = problem.wanted if problem.wanted.startswith("cannot be read") else f"cannot be read: {problem.wanted}"
        yield ask.Again(f'in this line "{" ".join(problem.said.split())}" {why}. Mend it, or take it out of the line')
        return None
    if not (drawn.name or drawn.standard):
        yield ask.Again(f'nothing says what it is: "collar {line}"')
        return None
    twin = again(draft, drawn)
    if twin is not None:
        yield from ask.say(f"The same part again: {read_back(twin)}.")
        return (yield from _facing(draft, replace(twin, count=drawn.count, remark=""), said))
    kind = resolve(drawn.standard).kind if drawn.standard else drawn.kind
    kind = kind or (yield from _kind(drawn.name))
    name = drawn.name or kind
    row = DraftPart(
        name=name[:1].upper() + name[1:],
        kind=kind,
        number=drawn.number,
        standard=drawn.standard,
        sizes=drawn.sizes,
        count=drawn.count,
    )
    yield from ask.say("; ".join((read_back(row), *said.words)) + ".")
    row = yield from _standard(row)
    row = yield from duties.of_part(row, said)
    if row.kind == "split pin" and "shaft" in dict(row.sizes):
        row = replace(row, remarks=(*row.remarks, ("shaft", "how thick: the hole it is made for")))
    row = replace(row, torque=said.torque, thread_condition=said.thread_condition)
    row = yield from _where_it_sits(row, said)
    if row.passes_through and row.kind in PASS_THROUGH:
        yield from ask.say(STEP)
    if not row.passes_through:
        row = yield from _limits((yield from _length(row)))
    return (yield from _facing(draft, row, said))


def _kind(name: str) -> Dialogue[str]:
    while True:
        answer = yield from ask.choose(f"What kind of part is the {name}?", USUAL_KINDS, free=True)
        kind = answer if answer in KINDS else kind_of_name(answer)
        if kind:
            return kind
        yield ask.Again(f'"{answer}" is no kind known here; one of: {", ".join(KINDS)}')


def _where_it_sits(row: DraftPart, said: Beside) -> Dialogue[DraftPart]:
    """A seal or circlip sits in the bore of what runs on the bearing, or on the shaft: only there is it in the line."""
    if row.kind not in ON_SHAFT:
        return row
    in_bore = said.in_bore
    if row.kind == "circlip" and in_bore is None:
        in_bore = (
            True
            if _INSIDE.search(f"{row.name} {row.standard}")
            else False
            if _AROUND.search(f"{row.name} {row.standard}")
            else None
        )
    if in_bore is None:
        in_bore = (
            yield from ask.choose(f"The {row.name.lower()} sits:", (IN_BORE, ON_SHAFT[row.kind]), empty=IN_BORE)
        ) == IN_BORE
    else:
        yield from ask.say(f"The {row.name.lower()} sits {IN_BORE if in_bore else ON_SHAFT[row.kind]}.")
    made_for = {"shaft": "seat"} if row.kind == "circlip" and in_bore else {}
    return replace(row, in_bore=in_bore, sizes=tuple((made_for.get(name, name), text) for name, text in row.sizes))


def _standard(row: DraftPart) -> Dialogue[DraftPart]:
    """A part with the sizes of a standard part may be one: then its sizes and limits are known."""
    sizes = {name: drawn_size(text).nominal_mm for name, text in row.sizes}
    known = () if row.standard else standards_with(row.kind, sizes)
    if not known:
        return row
    answer = yield from ask.choose(
        "Standard parts of these sizes. Take sizes and limits of:", known, none="none of them"
    )
    return replace(row, standard=answer, sizes=()) if answer else row


def _length(row: DraftPart) -> Dialogue[DraftPart]:
    """A nut ends the stack, and without its length nothing is added up."""
    if row.kind != "nut" or row.standard or "length" in dict(row.sizes):
        return row
    size = yield from ask.readable(
        f"How long is the {row.name.lower()} along the axis? (10.8 ±0.2; empty: not known)",
        lambda text: drawn_size(text) and with_unit(text),
    )
    return replace(row, sizes=(*row.sizes, ("length", size))) if size else row


def _limits(row: DraftPart) -> Dialogue[DraftPart]:
    """A length without limits decides nothing: the usual ones are offered,
    and that nobody gave them is written beside.
    """
    length = dict(row.sizes).get("length")
    if length is None or drawn_size(length).has_limits:
        return row
    offered = usual(row.kind).limits
    while True:
        answer = yield from ask.choose(
            f"Limits of the length {length}?", (f"{offered} ({PRACTICE})",), none="none known", free=True, figures=True
        )
        if not answer:
            return replace(row, remarks=(*row.remarks, ("length", "no limits known")))
        is_offer = answer.startswith(offered) and PRACTICE in answer
        text = f"{length} {offered if is_offer else answer}"
        try:
            drawn_size(text)
            break
        except SizeError as problem:
            yield ask.Again(
                f'"{problem.said}" cannot be read: {problem.wanted}; write it like ±0.05, or 0 for none known'
            )
    sizes = tuple((name, text if name == "length" else said) for name, said in row.sizes)
    return replace(
        row, sizes=sizes, remarks=(*row.remarks, ("length", f"limits: {PRACTICE}")) if is_offer else row.remarks
    )


def _facing(draft: Draft, row: DraftPart, said: Beside) -> Dialogue[DraftPart]:
    """Never "which way round?": one feature, and what it points to. The end nearer to the first is always number 1."""
    own = usual(row.kind)
    if row.fixed or (row.same_both_ways and not said.feature):
        return row
    row = replace(row, feature=said.feature or row.feature, same_both_ways=False)
    if said.toward:
        return replace(
            row,
            toward={"bearing": TO_BEARING, "outside": TO_OUTSIDE}.get(said.toward, said.toward)
            if said.toward not in draft.ends
            else said.toward,
        )
    if not row.feature and not own.asks_facing:
        return replace(row, same_both_ways=True)
    feature = row.feature
    if not feature:
        answer = yield from ask.choose(
            f"{row.name}: what shows which way round it is?", own.features, none="same both ways", free=True
        )
        if not answer:
            return replace(row, same_both_ways=True)
        feature = answer
    beside = row.kind == "seal" or (draft.parts and draft.parts[-1].kind in RING_BEARINGS)
    toward = yield from ask.choose(
        f"{feature.capitalize()} toward:", (*draft.ends, TO_BEARING) if beside else draft.ends, none="not known"
    )
    if not toward:
        return replace(row, feature="", toward="", remark=f"{feature}: which way it points is not known yet")
    return replace(row, feature=feature, toward=toward)
