"""A parts list as a draft: what the list says, what is usual for each kind, and what it does not say."""

from __future__ import annotations

from stackcheck.formats.drawn_sizes import drawn_size
from stackcheck.formats.parts_list import ListedRow
from stackcheck.model.part import LIE_ACROSS, PASS_THROUGH, RING_BEARINGS
from stackcheck.model.place_words import end_called
from stackcheck.model.reference import Source
from stackcheck.references.draft import MAIN, Draft, DraftGap, DraftPart, slug
from stackcheck.references.settled import beside_the_line
from stackcheck.references.suggest import usual


def listed_draft(rows: tuple[ListedRow, ...], *, title: str, ends: tuple[str, str], seen_from: str, file: str) -> Draft:
    """The rows in their sequence; a number that comes again is another place of the same part."""
    known: dict[str, ListedRow] = {}
    for row in rows:
        if row.number and (row.sizes or row.duties):
            known.setdefault(row.number, row)
    draft = Draft(
        title=title,
        ends=ends,
        seen_from=seen_from or f"the {end_called(ends[0])} as the parts list begins; say it better",
        source=Source(kind="parts picture", what=f"parts list {file}", state="draft"),
        through=_through(rows),
        rows=tuple(_gap(row) if row.gap else _part(row, known.get(row.number, row)) for row in rows),
        head=(
            f"{title}, from the parts list {file}.",
            "The list gives the sequence; facings, limits and what touches are for somebody to look at.",
        ),
    )
    return beside_the_line(draft)


OUTER_KINDS = frozenset({"hub", "wheel", "housing", "drum", "pulley"})
"""Kinds that sit on the outer rings of the bearings they share a stack with."""


def _through(rows: tuple[ListedRow, ...]) -> tuple[tuple[str, str], ...]:
    """By which rings a stack runs: with a hub or wheel among its bearings by the outer ones,
    its neighbour by the inner ones.
    """
    kinds: dict[str, set[str]] = {}
    for row in rows:
        for stack in row.stacks or (MAIN,):
            kinds.setdefault(stack, set()).add(row.kind)
    with_bearings = [stack for stack, met in kinds.items() if met & RING_BEARINGS]
    if len(with_bearings) != 2:
        return ()
    outer = [stack for stack in with_bearings if kinds[stack] & OUTER_KINDS]
    if len(outer) != 1:
        return ()
    return tuple((stack, "outer rings" if stack in outer else "inner rings") for stack in with_bearings)


def _has_limits(text: str | None) -> bool:
    return text is not None and drawn_size(text).has_limits


def _gap(row: ListedRow) -> DraftGap:
    return DraftGap(name=row.name, least=row.gap[0], most=row.gap[1], source="parts list", stacks=row.stacks or (MAIN,))


def _duties(usual_ones: tuple[str, ...], *rows: ListedRow) -> tuple[str, ...]:
    """Those of the kind and those of the list; the partner of a pair by the id that its name makes."""
    said = (duty.partition(":") for row in rows for duty in row.duties)
    return tuple(
        dict.fromkeys((*usual_ones, *(f"{name}: {slug(partner)}" if colon else name for name, colon, partner in said)))
    )


def _passes_through(row: ListedRow) -> bool:
    """A pin lies across, and an axle or bolt that comes off passes through the others:
    no length of theirs is the line's.
    """
    return row.kind in LIE_ACROSS or (row.kind in PASS_THROUGH and not row.fixed)


def _part(row: ListedRow, first: ListedRow) -> DraftPart:
    own = usual(row.kind)
    sizes = row.sizes or first.sizes
    fixed = own.stays_on if row.fixed is None else row.fixed
    alike = not row.feature and not own.asks_facing and not fixed
    return DraftPart(
        name=row.name[:1].upper() + row.name[1:], kind=row.kind, number=row.number, standard=row.standard, sizes=sizes,
        material=row.material, feature=row.feature if row.toward else "", toward=row.toward, same_both_ways=alike,
        fixed=fixed, duties=_duties(own.duties, row, first),
        must_measure=("length",) if own.must_measure and _has_limits(dict(sizes).get("length")) else (), note=row.note,
        count=row.count, stacks=row.stacks or (MAIN,), passes_through=_passes_through(row),
        remark="which way round: the list does not say" if own.asks_facing and not row.toward and not fixed else "",
    )  # fmt: skip
