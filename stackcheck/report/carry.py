"""The sheet to carry along: sizes, marks, locking parts and tightening notes of one assembly,
for the road or the next shift.
"""

from __future__ import annotations

from stackcheck.drawing.layout import layout
from stackcheck.drawing.marks import item_marks
from stackcheck.drawing.svg import drawing
from stackcheck.model.part import DUTIES, Part
from stackcheck.model.reference import Joint, Place, Reference
from stackcheck.present.blocks import Block, Rows, Text
from stackcheck.present.compare_page import MOST_CAUTIONS
from stackcheck.present.compare_summary import summary
from stackcheck.present.verdict_words import not_verified
from stackcheck.present.words import grade_words, limits_words, listed, mm, place_words, span
from stackcheck.report.content import NAMED_NOT_VERIFIED, Report, Section
from stackcheck.result.comparison import Comparison

_SIZES = ("length", "bore", "outside", "thread_diameter", "thread_pitch", "across_flats")
_LOCKING = ("retention", "anti-turn", "new every time", "crushes once", "life-and-limb")


def carry_along(comparison: Comparison) -> Report:
    """One or two pages about this very assembly."""
    reference = comparison.reference
    whole = drawing(layout(comparison), name="whole")
    unseen = not_verified(comparison)
    sections = (
        Section(title="Sizes, mm", blocks=(_sizes(comparison),)),
        Section(title="Locking parts", blocks=_locking(reference)),
        Section(
            title="Tightening",
            blocks=tuple(_joint(reference, joint) for joint in reference.joints)
            or (Text("The reference names no joint."),),
        ),
        Section(title="Gaps, mm", blocks=_gaps(comparison)),
        Section(title="Cautions", blocks=tuple(Text(caution.text, mark="- ") for caution in comparison.cautions)),
        Section(title="Not verified", blocks=tuple(Text(words, mark="- ") for words in unseen)),
    )
    return Report(
        title=f"{reference.title}, rev {reference.revision}",
        kind="Sheet to carry along",
        about=(
            ("Reference", f"{reference.id}: {grade_words(reference)}"),
            ("Ends", f"{listed(reference.ends)}; {reference.ends[0]}: {reference.ends_seen_from}"),
        ),
        summary=summary(comparison),
        picture=whole.svg,
        legend=whole.legend,
        items=(),
        cautions=tuple(caution.text for caution in comparison.cautions[:MOST_CAUTIONS]),
        more_cautions=max(0, len(comparison.cautions) - MOST_CAUTIONS),
        not_verified=tuple(unseen[:NAMED_NOT_VERIFIED]),
        more_not_verified=max(0, len(unseen) - NAMED_NOT_VERIFIED),
        sections=tuple(section for section in sections if section.blocks),
    )


def _sizes(comparison: Comparison) -> Block:
    """A row a part, however many places it fills."""
    reference = comparison.reference
    marks = item_marks(comparison)
    entries = {
        standing.home: comparison.found.entry(standing.entry)
        for standing in comparison.best.line
        if standing.home and standing.entry
    }
    by_part: dict[str, list[str]] = {}
    for name in reference.line:
        by_part.setdefault(reference.place(name).part, []).append(name)
    rows = []
    for id, names in by_part.items():
        part = reference.part(id)
        pieces = sum(reference.place(name).count for name in names)
        ways = dict.fromkeys(way for name in names if (way := _facing(reference, reference.place(name), part)))
        seen = dict.fromkeys(
            f"{size.replace('_', ' ')} {reading.text}"
            for name in names
            if name in entries
            for size, reading in entries[name].sizes
        )
        called = f"{pieces} x {part.name}" if pieces > 1 else part.name
        rows.append(
            (
                ", ".join(marks[name] for name in names),
                called,
                part.number or part.standard,
                _size_words(part),
                "; ".join(ways),
                "; ".join(seen),
            )
        )
    return Rows(("item", "part", "number", "sizes", "which way", "as found"), tuple(rows), wraps=(0, 1, 3, 4, 5))


def _size_words(part: Part) -> str:
    return "; ".join(
        f"{name.replace('_', ' ')} {span(size.low_mm, size.high_mm)}"
        for name in _SIZES
        if (size := part.size(name)) is not None
    )


def _facing(reference: Reference, place: Place, part: Part) -> str:
    if not place.facing:
        return "same both ways" if part.same_both_ways else ""
    return f"{part.feature} toward {reference.end_name(place.facing)}"


def _locking(reference: Reference) -> tuple[Block, ...]:
    rows = []
    for part in reference.parts:
        duties = [duty.name for duty in part.duties if duty.name in _LOCKING]
        if duties:
            rows.append(
                (
                    f"{len(reference.places_of(part.id))} x {part.name}",
                    part.number,
                    listed(DUTIES[duty] for duty in duties),
                )
            )
    return (Rows(("part", "number", "what it is there for"), tuple(rows), wraps=(0, 2)),) if rows else ()


def _joint(reference: Reference, joint: Joint) -> Text:
    said = [
        f"thread {joint.thread}" if joint.thread else "thread not given",
        f"torque {joint.torque.text}" if joint.torque else "no torque given",
        f"thread condition: {joint.thread_condition or 'not given'}",
        f"angle {joint.angle.text}" if joint.angle else "",
        f"locked by {joint.locked_by}" if joint.locked_by else "",
        f"clamps {' to '.join(place_words(reference, place) for place in joint.clamps)}",
        joint.note,
    ]
    return Text(f"{joint.name}: {'; '.join(words for words in said if words)}.", mark="- ")


def _gaps(comparison: Comparison) -> tuple[Block, ...]:
    rows = []
    for result in comparison.loops:
        state = result.as_found
        seen = mm(state.measured.value_mm) if state.measured is not None else "not measured"
        rows.append(
            (
                state.loop.name,
                limits_words(state.loop.least_mm, state.loop.most_mm),
                seen,
                state.loop.source or "no source given",
            )
        )
    return (Rows(("gap", "allowed", "as found", "source"), tuple(rows), wraps=(0, 3)),) if rows else ()
