"""The path through the outer rings: what stands between them, what sits in its bore, and how much shorter it may be.

Asked where a line has two bearings: the inner rings are clamped in the line itself, and the outer ones need a stack of
their own. Where nobody knows it, only what sits in a bore is set apart.
"""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.formats.drawn_sizes import DrawnPart, read_drawn_part
from stackcheck.formats.said_beside import said_beside
from stackcheck.model.part import RING_BEARINGS
from stackcheck.references import ask
from stackcheck.references.ask import Dialogue
from stackcheck.references.draft import (
    MAIN,
    TO_BEARING,
    Draft,
    DraftLimit,
    DraftPart,
    again,
    read_back,
    who_gives,
    who_says,
)
from stackcheck.references.duties import stays_on
from stackcheck.references.settled import GREASE, bearings, in_bore, seals_apart
from stackcheck.references.suggest import PRACTICE, usual
from stackcheck.units import read_limits
from stackcheck.value import replace

OUTER = "outer rings"
_SEAT_GAP = "seat gap"
SEAT_GAP = "0.00..0.10 mm"
_SEAT_TO_SEAT = (("length", "between the two seats of the outer rings"),)
_BODIES = frozenset({"hub", "drum", "wheel"})
_BODY = re.compile(r"\b(?:roller|body|drum|hub)\b", re.IGNORECASE)
_SEATS = re.compile(r"[\s,]*\bseats?\b(?: to seat| apart)?$", re.IGNORECASE)


def outer_path(draft: Draft) -> Dialogue[Draft]:
    """Two bearings belong to two paths: the one clamped through the inner rings,
    and the one through the outer rings.
    """
    at = bearings(draft)
    if len(at) != 2:
        return seals_apart(draft)
    first, second = at
    named = _named_between(draft, first, second)
    if named is not None:
        hub = draft.rows[named]
        yield from ask.say(f"The {hub.name.lower()} is what stands between the outer rings.")
    else:
        hub = yield from _asked_between(draft)
        if hub is None:
            return seals_apart(draft)
        named = next(
            (
                index
                for index, row in enumerate(draft.rows)
                if isinstance(row, DraftPart) and index not in at and row.name.lower() == hub.name.lower()
            ),
            None,
        )
    if named is not None:
        own = draft.rows[named]
        hub = replace(
            own,
            sizes=own.sizes or hub.sizes,
            stacks=(OUTER,),
            remarks=tuple(dict.fromkeys((*own.remarks, *_SEAT_TO_SEAT))),
        )
        draft = replace(draft, rows=(*draft.rows[:named], *draft.rows[named + 1 :]))
        first, second = at = bearings(draft)
    rows = [
        _in_both(row) if index in at else replace(row, stacks=(OUTER,)) if in_bore(row) else row
        for index, row in enumerate(draft.rows)
    ]
    seals: list[DraftPart | None] = []
    for side, end in enumerate(draft.ends):
        if any(in_bore(row) for row in (draft.rows[second:] if side else draft.rows[:first])):
            seals.append(None)  # said in the line
            continue
        drawn = yield from _drawn(
            f"A seal, circlip or cover in the {hub.name.lower()}, outside the bearing at the {end}? "
            "(seal 30x47x7; empty: none)"
        )
        seals.append((yield from _seal(draft, drawn, side, seals)) if drawn else None)
    rows.insert(second, hub)
    if seals[1]:
        rows.insert(second + 2, seals[1])
    if seals[0]:
        rows.insert(first, seals[0])
    remarks = (
        (("stacks", MAIN, "name"), "what touches along the axis, by the inner rings"),
        (("stacks", OUTER, "name"), "the same bearings, by their outer rings"),
    )
    draft = replace(
        draft,
        rows=tuple(rows),
        through=((MAIN, "inner rings"), (OUTER, "outer rings")),
        remarks=(*draft.remarks, *remarks),
    )
    return (yield from _seat_gap(draft, hub))


def _named_between(draft: Draft, first: int, second: int) -> int | None:
    """The hub or drum named in the line between two bearings, where something else stands between their inner rings."""
    between = [
        index
        for index in range(first + 1, second)
        if isinstance(draft.rows[index], DraftPart) and not draft.rows[index].passes_through
    ]
    bodies = [index for index in between if draft.rows[index].kind in _BODIES or _BODY.search(draft.rows[index].name)]
    return bodies[0] if len(bodies) == 1 and len(between) > 1 else None


def _asked_between(draft: Draft) -> Dialogue[DraftPart | None]:
    """What somebody says stands between the outer rings; a name of the line is that part."""
    question = "What stands between the outer rings? (hub 57.95 ±0.02: seat to seat; empty: not known)"
    line, said = said_beside((yield from ask.text(question)), draft.ends)
    while line and (seated := _readable(line)) is None:
        yield ask.Again(f'"{line}" cannot be read: write it like hub 57.95 ±0.02')
        line, said = said_beside((yield from ask.text(question)), draft.ends)
    if not line:
        return None
    seated = replace(seated, name=_SEATS.sub("", seated.name))
    if any(row.name.lower() == seated.name.lower() for row in draft.parts if row.kind not in RING_BEARINGS):
        yield from ask.say(f"That is the {seated.name.lower()} of the line.")
        return _row(seated, "hub", remark=_SEAT_TO_SEAT[0][1])
    stays = (yield from stays_on(seated.name, "hub")) if said.stays is None else said.stays
    return _row(seated, "hub", fixed=stays, remark=_SEAT_TO_SEAT[0][1])


def _readable(line: str) -> DrawnPart | None:
    try:
        return read_drawn_part(line)
    except SizeError:
        return None


def _in_both(row: DraftPart) -> DraftPart:
    return replace(row, stacks=(*row.stacks, OUTER))


def _row(drawn: DrawnPart, kind: str, *, fixed: bool = False, remark: str = "", stack: str = OUTER) -> DraftPart:
    name = drawn.name or drawn.kind or kind
    length = dict(drawn.sizes).get("length")
    remarks = (("length", remark),) if remark and length else ()
    return DraftPart(
        name=name[:1].upper() + name[1:], kind=drawn.kind or kind, number=drawn.number, standard=drawn.standard,
        sizes=drawn.sizes, count=drawn.count, fixed=fixed, stacks=(stack,), remarks=remarks,
    )  # fmt: skip


def _seal(draft: Draft, drawn: DrawnPart, side: int, before: list[DraftPart | None]) -> Dialogue[DraftPart]:
    twin = again(replace(draft, rows=tuple(filter(None, before))), drawn)
    row = replace(twin, count=drawn.count, stacks=(OUTER,), remark="") if twin else _row(drawn, "seal")
    yield from ask.say(f"{'The same part again: ' if twin else ''}{read_back(row)}.")
    own = usual(row.kind)
    if not own.asks_facing:
        return replace(row, same_both_ways=True, duties=own.duties)
    feature = own.features[0]
    toward = yield from ask.choose(f"{feature.capitalize()} toward:", (*draft.ends, TO_BEARING), none="not known")
    toward = draft.ends[1 - side] if toward == TO_BEARING else toward
    if not toward:
        return replace(row, duties=own.duties, remark=f"{feature}: which way it points is not known yet")
    meant = GREASE if toward == draft.ends[1 - side] else "keeps dirt out: it looks outside"
    remarks = (("feature", meant),) if feature == "spring side" else ()
    return replace(
        row,
        feature=feature,
        toward=toward,
        duties=own.duties,
        remarks=(*row.remarks, *(each for each in remarks if each not in row.remarks)),
    )


def _seat_gap(draft: Draft, hub: DraftPart) -> Dialogue[Draft]:
    """How much longer what stands between the inner rings may be than the seats are apart."""
    index = draft.rows.index(hub)
    after = next(
        place
        for place, row in enumerate(draft.rows)
        if place > index and isinstance(row, DraftPart) and OUTER in row.stacks
    )
    question = "How much longer than the seats are apart may the tube between the inner rings be? (seat gap)"
    while True:
        answer = yield from ask.choose(
            question, (f"{SEAT_GAP} ({PRACTICE})",), none="no limits known", free=True, figures=True
        )
        if not answer:
            return draft
        offered = PRACTICE in answer
        try:
            least, most = limits_said(SEAT_GAP if offered else answer)
            break
        except SizeError as problem:
            yield ask.Again(f'"{problem.said}" cannot be read: {problem.wanted}; 0: no limits known')
    name = _SEAT_GAP if offered else (yield from ask.text("What is this gap called?", empty=_SEAT_GAP))
    source = PRACTICE if offered else (yield from ask.text(who_gives(draft), empty=who_says(draft)))
    limit = DraftLimit(what=name, rows=(index, after), least=least, most=most, source=source)
    remark = (("limits", limit.what, "what"), "tube longer than the seats are apart: the outer rings are never wedged")
    return replace(draft, limits=(*draft.limits, limit), remarks=(*draft.remarks, remark))


def _drawn(question: str) -> Dialogue[DrawnPart | None]:
    return (yield from ask.readable(question, read_drawn_part))


def limits_said(text: str) -> tuple[str, str]:
    written = read_limits(text, may_be_negative=True)
    if written.least is None or written.most is None:
        raise SizeError(text, "two figures are wanted, like 0.00..0.10")
    return f"{written.least:.9g} mm", f"{written.most:.9g} mm"
