"""What only the whole line shows: the path through the outer rings, the distance of fixed members, what clamps, and other
distances that must hold.

Asked after the parts are named, each question only where the line calls for it, each with a way to say "not known".
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from itertools import pairwise, product, takewhile

from stackcheck.errors import SizeError
from stackcheck.formats.drawn_sizes import DrawnPart, coarse_pitch, drawn_size, read_drawn_part, with_unit
from stackcheck.formats.said_beside import said_beside
from stackcheck.formats.sizes import amount_of
from stackcheck.model.part import LIE_ACROSS, RING_BEARINGS, Amount
from stackcheck.references import ask
from stackcheck.references.ask import Dialogue
from stackcheck.references.draft import (
    MAIN,
    TO_BEARING,
    TO_OUTSIDE,
    Draft,
    DraftGap,
    DraftJoint,
    DraftLimit,
    DraftPart,
    again,
    called,
    read_back,
    slug,
    who_gives,
    who_says,
)
from stackcheck.references.duties import stays_on
from stackcheck.references.suggest import PRACTICE, usual
from stackcheck.units import read_limits
from stackcheck.value import replace

OUTER, APART = "outer rings", "distance"
GREASE = "keeps the grease in: it looks at the bearing"
_OF_A_PAIR = ({"left", "right"}, {"long", "short"})
_SEAT_GAP = "seat gap"
SEAT_GAP = "0.00..0.10 mm"
_SEAT_TO_SEAT = (("length", "between the two seats of the outer rings"),)
_BODIES = frozenset({"hub", "drum", "wheel"})
_BODY = re.compile(r"\b(?:roller|body|drum|hub)\b", re.IGNORECASE)
_SEATS = re.compile(r"[\s,]*\bseats?\b(?: to seat| apart)?$", re.IGNORECASE)


def whole_line(draft: Draft) -> Dialogue[Draft]:
    draft = beside_the_line(facing_bearings(draft))
    draft = yield from _pairs(draft)
    draft = yield from _outer_path(draft)
    draft = yield from _apart(draft)
    draft = yield from _joint(draft)
    return (yield from _must_hold(draft))


def facing_bearings(draft: Draft) -> Draft:
    """What faces "the bearing" faces the end at which the nearest bearing lies, what faces "the outside" the nearer end."""
    rows = list(draft.rows)
    at = _bearings(draft)
    for index, row in enumerate(rows):
        if isinstance(row, DraftPart) and row.toward == TO_OUTSIDE:
            rows[index] = replace(row, toward=draft.ends[index > (len(rows) - 1) / 2])
        if isinstance(row, DraftPart) and row.toward == TO_BEARING:
            nearest = min(at, key=lambda other: abs(other - index), default=None)
            if nearest is None:
                rows[index] = replace(
                    row, toward="", feature="", remark=f"{row.feature}: toward a bearing, and none is in the line"
                )
                continue
            remarks = (("feature", GREASE),) if row.feature == "spring side" else ()
            rows[index] = replace(row, toward=draft.ends[nearest > index], remarks=(*row.remarks, *remarks))
    return replace(draft, rows=tuple(rows))


def _bearings(draft: Draft) -> list[int]:
    return [index for index, row in enumerate(draft.rows) if isinstance(row, DraftPart) and row.kind in RING_BEARINGS]


def beside_the_line(draft: Draft) -> Draft:
    """What passes through or lies across stands in a stack of its own, and adds nothing to the length.

    A pin is drawn before its nut comes off, and may be written down before or after it: so its stack holds the part behind
    its neighbour, and between the two no sequence is asserted.
    """
    rows = list(draft.rows)
    at = [index for index, row in enumerate(rows) if isinstance(row, DraftPart)]
    for index in at:
        row = rows[index]
        if not row.passes_through:
            continue
        line = [
            other
            for other in at
            if other != index
            and set(row.stacks) & set(rows[other].stacks)
            and not (rows[other].in_bore or rows[other].passes_through)
        ]
        if len(line) < 2:
            continue
        own = _named_once(f"{row.name.lower()} itself", rows)
        behind = _behind(rows, line, _neighbour(rows, line, index))
        rows[index] = replace(row, stacks=(own,))
        rows[behind] = replace(rows[behind], stacks=(*rows[behind].stacks, own))
    return replace(draft, rows=tuple(rows))


def _neighbour(rows: list[DraftPart | DraftGap], line: list[int], index: int) -> int:
    """What a part bears on: the nut beside it, named before or after it, else what was named before it."""
    before = max((other for other in line if other < index), default=line[0])
    after = min((other for other in line if other > index), default=before)
    return (
        after if rows[index].kind in LIE_ACROSS and rows[after].kind == "nut" and rows[before].kind != "nut" else before
    )


def _behind(rows: list[DraftPart | DraftGap], line: list[int], neighbour: int) -> int:
    """The part behind a neighbour, toward the middle of the line; the neighbour itself where it stays on."""
    place = line.index(neighbour)
    if rows[neighbour].fixed:
        return neighbour
    return line[place + 1] if place < len(line) / 2 and place + 1 < len(line) else line[place - 1]


def _named_once(name: str, rows: list[DraftPart | DraftGap]) -> str:
    """A name that no stack has yet."""
    taken, tried, number = {stack for row in rows for stack in row.stacks}, name, 2
    while tried in taken:
        tried, number = f"{name} {number}", number + 1
    return tried


def _outer_path(draft: Draft) -> Dialogue[Draft]:
    """Two bearings belong to two paths: the one clamped through the inner rings, and the one through the outer rings."""
    at = _bearings(draft)
    if len(at) != 2:
        return _seals_apart(draft)
    first, second = at
    named = _named_between(draft, first, second)
    if named is not None:
        hub = draft.rows[named]
        yield from ask.say(f"The {hub.name.lower()} is what stands between the outer rings.")
    else:
        hub = yield from _asked_between(draft)
        if hub is None:
            return _seals_apart(draft)
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
        first, second = at = _bearings(draft)
    rows = [
        _in_both(row) if index in at else replace(row, stacks=(OUTER,)) if _in_bore(row) else row
        for index, row in enumerate(draft.rows)
    ]
    seals: list[DraftPart | None] = []
    for side, end in enumerate(draft.ends):
        if any(_in_bore(row) for row in (draft.rows[second:] if side else draft.rows[:first])):
            seals.append(None)  # said in the line
            continue
        drawn = yield from _drawn(
            f"A seal, circlip or cover in the {hub.name.lower()}, outside the bearing at the {end}? (seal 30x47x7; empty: none)"
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


def _in_bore(row: DraftPart | DraftGap) -> bool:
    return isinstance(row, DraftPart) and row.in_bore


def _seals_apart(draft: Draft) -> Draft:
    """Seals in a bore of which nothing else is known: each beside its bearing, in a stack of its own."""
    rows = list(draft.rows)
    for index, row in enumerate(rows):
        others = [
            other
            for other, beside in enumerate(rows)
            if isinstance(beside, DraftPart) and not (beside.in_bore or beside.passes_through)
        ]
        if not _in_bore(row) or len(others) < 2:
            continue
        near = [other for other in others if rows[other].kind in RING_BEARINGS] or others
        own = _named_once(f"{row.name.lower()} in its bore", rows)
        beside = min(near, key=lambda other: abs(other - index))
        rows[index] = replace(rows[index], stacks=(own,))
        rows[beside] = replace(rows[beside], stacks=(*rows[beside].stacks, own))
    return replace(draft, rows=tuple(rows))


def _pairs(draft: Draft) -> Dialogue[Draft]:
    """Two parts of one kind and bore and of another length are the ones that get swapped, and no sum shows it."""
    rows = list(draft.rows)
    at = _bearings(draft)
    first, last = (at[0], at[-1]) if len(at) > 1 else (len(rows) / 2, len(rows) / 2 - 1)
    lone = [
        row for row in rows if isinstance(row, DraftPart) and [each.name for each in draft.parts].count(row.name) == 1
    ]
    near, far = (
        [row for row in part if row in lone and not row.fixed and not row.standard and "length" in dict(row.sizes)]
        for part in (rows[: math.ceil(first)], rows[math.floor(last) + 1 :])
    )
    for one, other in product(near, far):
        sizes, others = dict(one.sizes), dict(other.sizes)
        alike = one.kind == other.kind and one.name != other.name and sizes.get("bore") == others.get("bore")
        if (
            not alike
            or sizes["length"] == others["length"]
            or any(duty.startswith("pair") for duty in (*one.duties, *other.duties))
        ):
            continue
        question = f"{one.name} and {other.name.lower()}: an unequal pair, one for each end?"
        said = {*one.name.lower().split(), *other.name.lower().split()}
        if (
            yield from ask.choose(
                question, ("yes", "no"), empty="yes" if any(pair <= said for pair in _OF_A_PAIR) else "no"
            )
        ) == "yes":
            for row, partner in ((one, other), (other, one)):
                rows[rows.index(row)] = replace(row, duties=(*row.duties, f"pair: {slug(partner.name)}"))
    return replace(draft, rows=tuple(rows))


def _in_both(row: DraftPart) -> DraftPart:
    return replace(row, stacks=(*row.stacks, OUTER))


def _row(drawn: DrawnPart, kind: str, *, fixed: bool = False, remark: str = "", stack: str = OUTER) -> DraftPart:
    name = drawn.name or drawn.kind or kind
    length = dict(drawn.sizes).get("length")
    remarks = (("length", remark),) if remark and length else ()
    return DraftPart(
        name=name[:1].upper() + name[1:], kind=drawn.kind or kind, number=drawn.number, standard=drawn.standard, sizes=drawn.sizes,
        count=drawn.count, fixed=fixed, stacks=(stack,), remarks=remarks,
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
            least, most = _limits(SEAT_GAP if offered else answer)
            break
        except SizeError as problem:
            yield ask.Again(f'"{problem.said}" cannot be read: {problem.wanted}; 0: no limits known')
    name = _SEAT_GAP if offered else (yield from ask.text("What is this gap called?", empty=_SEAT_GAP))
    source = PRACTICE if offered else (yield from ask.text(who_gives(draft), empty=who_says(draft)))
    limit = DraftLimit(what=name, rows=(index, after), least=least, most=most, source=source)
    remark = (("limits", limit.what, "what"), "tube longer than the seats are apart: the outer rings are never wedged")
    return replace(draft, limits=(*draft.limits, limit), remarks=(*draft.remarks, remark))


def _limits(text: str) -> tuple[str, str]:
    written = read_limits(text, may_be_negative=True)
    if written.least is None or written.most is None:
        raise SizeError(text, "two figures are wanted, like 0.00..0.10")
    return f"{written.least:.9g} mm", f"{written.most:.9g} mm"


def _apart(draft: Draft) -> Dialogue[Draft]:
    """A gap between two members that stay on closes only where their distance is known."""
    fixed = [
        index for index, row in enumerate(draft.rows) if isinstance(row, DraftPart) and row.fixed and MAIN in row.stacks
    ]
    gaps = [index for index, row in enumerate(draft.rows) if isinstance(row, DraftGap)]
    if len(fixed) < 2 or not any(fixed[0] < gap < fixed[-1] for gap in gaps):
        return draft
    first, last = fixed[0], fixed[-1]
    names = [draft.rows[index].name.lower() for index in (first, last)]
    question = f"How far apart are {names[0]} and {names[1]}? (129.2 ±0.2; empty: not known)"
    size = yield from ask.readable(question, lambda text: drawn_size(text) and with_unit(text))
    if size is None:
        return draft
    rows = list(draft.rows)
    for index in (first, last):
        rows[index] = replace(rows[index], stacks=(*rows[index].stacks, APART))
    between = f"the {names[0]}s" if names[0] == names[1] else f"{names[0]} and {names[1]}"
    apart = DraftPart(
        name=f"Distance between {between}",
        kind="bracket",
        sizes=(("length", size),),
        fixed=True,
        stacks=(APART,),
        is_distance=True,
    )
    rows.insert(last, apart)
    limits = tuple(
        replace(limit, rows=tuple(index + (index >= last) for index in limit.rows)) for limit in draft.limits
    )
    remark = (("stacks", APART, "name"), "what closes the gap: the members that stay on, by their distance")
    return replace(draft, rows=tuple(rows), limits=limits, remarks=(*draft.remarks, remark))


def _joint(draft: Draft) -> Dialogue[Draft]:
    """What the nut presses together: from the part under it to one that somebody names, never across an open gap."""
    line = [
        (index, row)
        for index, row in enumerate(draft.rows)
        if isinstance(row, DraftGap) or (MAIN in row.stacks and not row.is_distance)
    ]
    nuts = [at for at, (_, row) in enumerate(line) if isinstance(row, DraftPart) and row.kind == "nut"]
    if not nuts:
        return draft
    nut = line[nuts[0]][1]
    pressed = max(_away(line, nuts[0]), key=len)
    if len(pressed) < 2:
        return draft
    torque = yield from ask.readable(
        f"Torque of the {nut.name.lower()}?{'' if nut.torque else ' (60 N·m; empty: not known)'}",
        _torque,
        empty=nut.torque,
    )
    if torque is None:
        return draft
    sizes = dict(nut.sizes)
    known = (
        f"M{_figure(sizes['thread_diameter'])}x{_figure(sizes['thread_pitch'])}"
        if {"thread_diameter", "thread_pitch"} <= sizes.keys()
        else ""
    )
    thread = yield from ask.text(f"Its thread?{'' if known else ' (M16x1.5; empty: not known)'}", empty=known)
    thread = re.sub(
        r"^M(\d+(?:\.\d+)?)$",
        lambda match: f"{match[0]}x{coarse_pitch(match[1])}" if coarse_pitch(match[1]) else match[0],
        thread.strip(),
    )
    condition = yield from ask.choose(
        "The thread is:",
        ("dry", "oiled", "greased", "with compound"),
        none="not said",
        empty=nut.thread_condition,
        free=True,
    )
    every = called(draft)
    names = [every[index] for index, _ in pressed]
    last = yield from ask.choose(f"It presses together everything from the {names[0]} to:", names[1:], empty=names[-1])
    ends = sorted((pressed[0][0], pressed[names.index(last)][0]))
    joint = DraftJoint(
        name=nut.name.lower(),
        rows=tuple(ends),
        thread=thread,
        torque=torque,
        thread_condition=condition,
        locked_by=nut.locked_by,
    )
    return replace(draft, joints=(*draft.joints, joint))


def _away(line: list[tuple[int, DraftPart | DraftGap]], nut: int) -> Iterator[list[tuple[int, DraftPart]]]:
    """From the nut toward either end, as far as the next open gap."""
    for way in (line[nut + 1 :], line[:nut][::-1]):
        yield list(takewhile(lambda each: isinstance(each[1], DraftPart), way))


def _must_hold(draft: Draft) -> Dialogue[Draft]:
    """Any other distance that somebody's sheet gives limits for, by the two parts whose faces look at each other."""
    while True:
        question = "Another gap or distance with limits? (what it is called, like: rope line; empty: no)"
        name = yield from ask.text(question)
        if not name:
            return draft
        if name.lower() in (
            each.lower()
            for each in (
                *(limit.what for limit in draft.limits),
                *(row.name for row in draft.rows if isinstance(row, DraftGap)),
            )
        ):
            yield ask.Again(f'"{name}" has its limits already')
            continue
        names = [
            each for each, row in zip(called(draft), draft.rows) if isinstance(row, DraftPart) and not row.is_distance
        ]
        one = yield from ask.choose("It lies between the:", names)
        other = yield from ask.choose("And the:", [each for each in names if each != one])
        limits = yield from ask.readable("From, to? (37.5..38.5 or 38.0 ±0.5)", _limits)
        if limits is None:
            continue
        source = yield from ask.text(who_gives(draft), empty=who_says(draft))
        rows = tuple(sorted(called(draft).index(each) for each in (one, other)))
        if not _touch(draft, *rows):
            yield from ask.say(f"No sum is made of the {name}: these two are no neighbours, so it is measured.")
        draft = replace(
            draft,
            limits=(*draft.limits, DraftLimit(what=name, rows=rows, least=limits[0], most=limits[1], source=source)),
        )


def _touch(draft: Draft, first: int, second: int) -> bool:
    """Whether two rows are neighbours in a stack."""
    stacks = dict.fromkeys(stack for row in draft.rows for stack in row.stacks)
    return any(
        (first, second) in pairwise(index for index, row in enumerate(draft.rows) if stack in row.stacks)
        for stack in stacks
    )


def _figure(text: str) -> str:
    return f"{drawn_size(text).nominal_mm:.9g}"


def _torque(text: str) -> Amount:
    return amount_of("torque", text)


def _drawn(question: str) -> Dialogue[DrawnPart | None]:
    return (yield from ask.readable(question, read_drawn_part))
