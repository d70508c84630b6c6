"""What only the whole line shows: the path through the outer rings, the distance of fixed members, what clamps, and
other distances that must hold.

Asked after the parts are named, each question only where the line calls for it, each with a way to say "not known".
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from itertools import pairwise, product, takewhile

from stackcheck.formats.drawn_sizes import coarse_pitch, drawn_size, with_unit
from stackcheck.formats.sizes import amount_of
from stackcheck.model.part import Amount
from stackcheck.references import ask
from stackcheck.references.ask import Dialogue
from stackcheck.references.draft import (
    MAIN,
    Draft,
    DraftGap,
    DraftJoint,
    DraftLimit,
    DraftPart,
    called,
    slug,
    who_gives,
    who_says,
)
from stackcheck.references.outer_rings import limits_said, outer_path
from stackcheck.references.settled import bearings, beside_the_line, facing_bearings
from stackcheck.value import replace

APART = "distance"
_OF_A_PAIR = ({"left", "right"}, {"long", "short"})


def whole_line(draft: Draft) -> Dialogue[Draft]:
    draft = beside_the_line(facing_bearings(draft))
    draft = yield from _pairs(draft)
    draft = yield from outer_path(draft)
    draft = yield from _apart(draft)
    draft = yield from _joint(draft)
    return (yield from _must_hold(draft))


def _pairs(draft: Draft) -> Dialogue[Draft]:
    """Two parts of one kind and bore and of another length are the ones that get swapped, and no sum shows it."""
    rows = list(draft.rows)
    at = bearings(draft)
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
        limits = yield from ask.readable("From, to? (37.5..38.5 or 38.0 ±0.5)", limits_said)
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
