"""What a part is there for, asked in the words of the bench: each question only of the kinds that it can be true of.

A retaining or anti-turn part that nobody saw blocks "agrees", and so does one of a brake or of the steering: a
reference that does not say so lets a comparison agree too soon. What a kind always is (a split pin, a seal) is noted
without asking.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from stackcheck.formats.said_beside import Beside
from stackcheck.model.part import DUTIES, LIE_ACROSS, PASS_THROUGH, RING_BEARINGS
from stackcheck.references import ask
from stackcheck.references.ask import Dialogue
from stackcheck.references.draft import MAIN, Draft, DraftGap, DraftPart, part_ids
from stackcheck.references.suggest import NUT_LOCKS, usual
from stackcheck.value import replace

MAY_STAY = frozenset({"cover", "flange", "wheel", "pulley", "impeller", "shaft", "plate", "housing"})
"""Kinds that stay on the machine, or with the wheel, in some assemblies and come off in others."""
_OFTEN_STAYS = re.compile(r"\b(frame|fork|housing|roller|body|side plate)\b", re.IGNORECASE)
"""Names of what most often stays on, whatever its kind."""
MAY_RETAIN = frozenset({"nut", "bolt", "axle", "cap", "flange"})
MAY_BE_TABBED = frozenset({"washer", "thrust washer", "ring"})
STANDS_SOMEWHERE = frozenset({"hub", "wheel", "drum", "disc", "sprocket", "gear", "pulley", "impeller"})
"""Kinds whose place along the axis may matter by itself: a disc in its carrier, a chain line, a tooth in mesh."""

BRAKE, STEERING, HURTS = "a brake", "the steering", "what may hurt somebody if it comes apart"
BELONGS_TO = {
    BRAKE: ("brake", "Which are part of the brake, or decide where its disc or drum runs?"),
    STEERING: ("steering", "Which are part of the steering?"),
    HURTS: ("life-and-limb", "Which of them let it come apart, if they break or come off?"),
}
"""What an assembly may belong to -> the duty of its parts, and the question which ones."""

_YES_NO = ("yes", "no")
_THROUGH, _IN_LINE = "passes through the others", "lies between two of them like the rest"
_PLAIN, _TABBED = "plain", "keeps something from turning"


def of_part(row: DraftPart, said: Beside) -> Dialogue[DraftPart]:
    """The duties of one part as it is named; what was said in its line is not asked."""
    own = usual(row.kind)
    name = row.name.lower()
    stays = (yield from stays_on(row.name, row.kind)) if said.stays is None else said.stays
    own_duties = (
        (*own.duties, "new every time") if said.new_every_time and "new every time" not in own.duties else own.duties
    )
    measured = ("length",) if said.must_measure and (row.standard or "length" in dict(row.sizes)) else ()
    row = replace(row, fixed=stays, duties=own_duties, must_measure=measured)
    if row.kind in PASS_THROUGH:
        through = yield from ask.choose(f"The {name}:", (_THROUGH, _IN_LINE), empty=_THROUGH)
        row = replace(row, passes_through=through == _THROUGH)
    row = replace(row, passes_through=row.passes_through or row.kind in LIE_ACROSS)
    if own.duties:
        yield from ask.say(f"Noted: {', '.join(f'{duty} ({DUTIES[duty]})' for duty in own.duties)}.")
    if (
        row.kind in MAY_RETAIN
        and (yield from ask.choose(f"Does the {name} keep something from coming off?", _YES_NO, empty="yes")) == "yes"
    ):
        row = _with(row, "retention")
        if row.kind == "nut":
            row = (
                replace(_with(row, "new every time"), note="self-locking")
                if said.self_locking
                else (yield from _locked(row, said))
            )
    if row.kind in MAY_BE_TABBED and not row.standard:
        answer = yield from ask.choose(f"A tab, tooth or flat on the {name}?", (_PLAIN, _TABBED), none="not known")
        if answer == _TABBED:
            row = _with(row, "anti-turn")
        elif not answer:
            row = replace(row, remarks=(*row.remarks, ("kind", "tab, tooth or flat: not looked at yet")))
    return row


def stays_on(name: str, kind: str) -> Dialogue[bool]:
    """Whether it stays on the machine: asked where that differs between machines,
    and of what is named after a frame.
    """
    often = _OFTEN_STAYS.search(name) is not None or kind == "housing"
    if kind not in MAY_STAY and not often:
        return usual(kind).stays_on
    question = f"Does the {name.lower()} stay on the machine when this is taken apart?"
    return (yield from ask.choose(question, _YES_NO, empty="yes" if often else "no")) == "yes"


def _locked(row: DraftPart, said: Beside) -> Dialogue[DraftPart]:
    lock = said.locked_by or (
        yield from ask.choose(f"What keeps the {row.name.lower()} from turning?", NUT_LOCKS, none="not known")
    )
    if lock == "it locks itself":
        return replace(_with(row, "new every time"), note="self-locking")
    if lock == "locking compound":
        return replace(row, note="locking compound on its thread")
    if lock:
        yield from ask.say(f"Then the {said.lock or lock} comes as a part of its own: name it where it lies.")
    return replace(row, locked_by=lock)


def of_line(draft: Draft) -> Dialogue[Draft]:
    """What the whole assembly belongs to, and which of its parts; asked when all of them are named."""
    parts = {id: row for id, row in zip(part_ids(draft.parts), draft.parts) if not row.is_distance}
    names = _called_apart(parts)
    watched = {id: name for id, name in names.items() if parts[id].kind in STANDS_SOMEWHERE}
    if watched:
        ids = yield from _which("Does it matter where along the axis it stands (disc, chain, teeth, rim)?", watched)
        draft = _told(draft, ids, "watch")
    for what in (yield from ask.several("Does this assembly belong to:", tuple(BELONGS_TO), none="none of them")):
        duty, question = BELONGS_TO[what]
        offered = [id for id, row in parts.items() if "retention" in row.duties] if what == HURTS else []
        ids = yield from _which(question, names, offered)
        draft = _told(draft, ids, duty)
    return (yield from _measured(draft))


def _measured(draft: Draft) -> Dialogue[Draft]:
    """Parts that nothing agrees without a measurement of; offered are those said so, and those that set a gap."""
    ids = part_ids(draft.parts)
    parts = {
        id: row
        for id, row in zip(ids, draft.parts)
        if not (row.is_distance or row.fixed or row.passes_through) and drawn_length(row)
    }
    if not parts:
        return draft
    setting = {id for id, row in zip(ids, draft.parts) if row in _gap_setting(draft)}
    names = _called_apart(parts)
    offered = [id for id, row in parts.items() if row.must_measure or id in setting]
    wanted = set(
        (
            yield from _which(
                "Which must be measured before anything agrees? (offered: those that set a gap)", names, offered
            )
        )
    )
    at = iter(ids)
    rows = tuple(_must(row, next(at) in wanted) if isinstance(row, DraftPart) else row for row in draft.rows)
    return replace(draft, rows=rows)


def drawn_length(row: DraftPart) -> bool:
    return "length" in dict(row.sizes)


def _must(row: DraftPart, wanted: bool) -> DraftPart:
    return replace(row, must_measure=("length",) if wanted else ())


def _gap_setting(draft: Draft) -> tuple[DraftPart, ...]:
    """Rows of kinds that wear and are made to length, in a stack that decides a gap:
    between two bearings, or beside an open gap.
    """
    open_gap = any(isinstance(row, DraftGap) and (row.least or row.most) and not row.set_by for row in draft.rows)
    at = [index for index, row in enumerate(draft.rows) if isinstance(row, DraftPart) and row.kind in RING_BEARINGS]
    inside = range(at[0], at[-1]) if len(at) > 1 else range(0)
    return tuple(
        row for index, row in enumerate(draft.rows)
        if isinstance(row, DraftPart) and usual(row.kind).must_measure and MAIN in row.stacks
        and (open_gap or index in inside)
    )  # fmt: skip


def _called_apart(parts: dict[str, DraftPart]) -> dict[str, str]:
    """Each part's name; where two are called the same with the standard part that it is, else with its id."""
    told = [(row.name, row.standard) for row in parts.values()]
    names = [name for name, _ in told]
    by = {
        id: row.standard if row.standard and told.count((row.name, row.standard)) == 1 else id
        for id, row in parts.items()
    }
    return {id: row.name if names.count(row.name) == 1 else f"{row.name} ({by[id]})" for id, row in parts.items()}


def _which(question: str, names: dict[str, str], offered: Iterable[str] = ()) -> Dialogue[tuple[str, ...]]:
    ids = {name: id for id, name in names.items()}
    chosen = yield from ask.several(question, tuple(ids), none="none", empty=tuple(names[id] for id in offered))
    return tuple(ids[name] for name in chosen)


def _told(draft: Draft, ids: Iterable[str], duty: str) -> Draft:
    """The draft with one more duty of these parts, wherever they stand."""
    wanted = set(ids)
    at = iter(part_ids(draft.parts))
    rows = tuple(_with(row, duty) if isinstance(row, DraftPart) and next(at) in wanted else row for row in draft.rows)
    return replace(draft, rows=rows)


def _with(row: DraftPart, duty: str) -> DraftPart:
    return row if duty in row.duties else replace(row, duties=(*row.duties, duty))
