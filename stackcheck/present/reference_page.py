"""References on a page: the list of a library, one of them in full, and what checking them says."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from stackcheck.formats.variants import NAMED
from stackcheck.mechanics.chain import LoopState
from stackcheck.mechanics.lengths import length_size
from stackcheck.model.loops import path_name
from stackcheck.model.machine import Machine
from stackcheck.model.reference import Gap, Reference, Revised, Stack, Variant
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.reference_said import said_beside_stacks
from stackcheck.present.words import gap_words, grade_words, limits_words, listed, mm, narrow_span
from stackcheck.units import in_inches, inch_figure


def list_page(machines: Iterable[Machine], references: Iterable[Reference]) -> list[Block]:
    """Every machine with its references."""
    by_machine: dict[str, list[Reference]] = {}
    for reference in references:
        by_machine.setdefault(reference.machine, []).append(reference)
    blocks: list[Block] = []
    names = {machine.id: machine for machine in machines}
    for machine_id in sorted(by_machine.keys() | names.keys()):
        machine = names.get(machine_id)
        blocks.append(Heading(f"{machine.name}, {machine.years}".rstrip(", ") if machine else machine_id))
        rows = [
            (reference.id, reference.revision, f"{reference.title}; {reference.source.kind}, {reference.source.state}")
            for reference in by_machine.get(machine_id, [])
        ]
        blocks.append(Rows(("reference", "rev", "what it is, and who says so"), tuple(rows), wraps=(2,)))
    return blocks


def show_page(reference: Reference, loops: tuple[LoopState, ...]) -> list[Block]:
    """One reference in full: who says so, ends, stacks place by place, gaps, pairings, joints,
    limits, sizes, duties.
    """
    blocks: list[Block] = [
        Text(f"{reference.title}, rev {reference.revision}", strong=True),
        Text(f"{reference.id}: {grade_words(reference)}."),
        Text(f"Ends: {reference.ends[0]} and {reference.ends[1]}; {reference.ends[0]} = {reference.ends_seen_from}."),
    ]
    if reference.note:
        blocks.append(Text(reference.note))
    for stack in reference.stacks:
        through = f", through the {stack.through}" if stack.through else ""
        blocks.append(Heading(f"{stack.name}{through}"))
        blocks.append(_stack_rows(tuple(_place_rows(reference, stack))))
    if loops:
        blocks.append(Heading("GAPS between two paths"))
        blocks += [Text(loop_words(reference, state, inches=reference.inches), mark=" -  ") for state in loops]
    if reference.pairings:
        blocks.append(Heading("PAIRINGS"))
        blocks += [
            Text(
                (
                    f"{pairing.what}: "
                    f"{limits_words(pairing.least_mm, pairing.most_mm)}{_beside(pairing, in_inches(pairing.text))} "
                    f"({pairing.source or 'no source given'})"
                ),
                mark=" -  ",
            )
            for pairing in reference.pairings
        ]
    blocks += said_beside_stacks(reference)
    duties = [(part.name, listed(_duty(duty) for duty in part.duties)) for part in reference.parts if part.duties]
    if duties:
        blocks.append(Heading("DUTIES"))
        blocks += [Text(f"{name}: {words}", mark=" -  ") for name, words in duties]
    if reference.variants:
        blocks.append(Heading("VARIANTS"))
        blocks += [Text(variant_words(variant), mark=" -  ") for variant in reference.variants]
    if reference.history:
        blocks.append(Heading("HISTORY"))
        blocks += [Text(revised_words(entry), mark=" -  ") for entry in reference.history]
    return blocks


def variant_words(variant: Variant) -> str:
    """ "early (up to 120; the stock of short tubes): dust-shield left out; spacer-tube length 57.50 mm ±0.05"."""
    covers = [coverage.text for coverage in (variant.years, variant.serials) if coverage]
    told = dict(variant.told)
    words = [f"{name} left out" for name in told.get("without", ())]
    words += [
        f"{name} {key.replace('_', ' ')} {_told(value)}"
        for table in NAMED
        for name, keys in told.get(table, ())
        for key, value in keys
    ]
    why = f"; {variant.why}" if variant.why else ""
    return f"{variant.name} ({', '.join(covers)}{why}): {'; '.join(words) or 'as the others'}"


def _told(value: Any) -> str:
    """A value of a variant in words; a step of a part as it was written."""
    if not isinstance(value, tuple):
        return str(value)
    return listed(" ".join(map(" ".join, each)) if isinstance(each, tuple) else str(each) for each in value)


def revised_words(entry: Revised) -> str:
    """ "rev C, 2025-03-02, A: short collar 18.0 long, was 17.5"."""
    head = ", ".join(filter(None, (f"rev {entry.revision}", entry.date, entry.by)))
    return f"{head}: {entry.what}" if entry.what else head


def _duty(duty) -> str:
    return f"{duty.name} with {duty.detail}" if duty.name == "pair" else duty.name


def _stack_rows(rows: tuple[tuple[str, ...], ...]) -> Rows:
    """The places of a stack; what files give in inches stands as written beside its millimetres, where there is any."""
    if any(row[-1] for row in rows):
        return Rows(("place", "part", "length", "range", "facing", "as written"), rows, right=(2,), wraps=(1, 4))
    return Rows(
        ("place", "part", "length", "range", "facing"), tuple(row[:-1] for row in rows), right=(2,), wraps=(1, 4)
    )


def _beside(limits: Any, inches: bool) -> str:
    """ " (0.001 to 0.005 in)" behind limits in mm."""
    if not inches or (limits.least_mm is None and limits.most_mm is None):
        return ""
    return f" ({limits_words(limits.least_mm, limits.most_mm, inch_figure)} in)"


def _place_rows(reference: Reference, stack: Stack) -> Iterable[tuple[str, ...]]:
    for item in stack.items:
        if isinstance(item, Gap):
            set_by = f"set by the {item.set_by}" if item.set_by else "open on purpose"
            yield (
                f"({item.name})",
                set_by,
                "",
                limits_words(item.least_mm, item.most_mm),
                "",
                item.text.replace("..", " .. ") if in_inches(item.text) else "",
            )
            continue
        place, part = reference.place(item), reference.part_at(item)
        length = length_size(part, stack.through)
        count = f"{place.count} x " if place.count > 1 else ""
        facing = f"{part.feature} toward {place.toward}" if place.facing else ""
        yield (
            item,
            f"{count}{part.name}{' (stays on)' if part.fixed else ''}",
            mm(length.nominal_mm) if length else "",
            narrow_span(length.low_mm, length.high_mm) if length else "",
            facing,
            length.text if length and in_inches(length.text) else "",
        )


def loop_words(reference: Reference, state: LoopState, *, inches: bool = False) -> str:
    """ "seat gap: gap 0.01 to 0.09; allowed 0.00 to 0.10: agrees"; with `inches` each range also in those."""
    loop = state.loop
    name = path_name(reference, loop)
    limits = (
        f"allowed {limits_words(loop.least_mm, loop.most_mm)}{_beside(loop, inches)}"
        if state.verdict != "no limits"
        else "no limits given"
    )
    if loop.set_by:
        return f"{name}: set by the {loop.set_by} when fitted; {limits}"
    if state.gap is None:
        return f"{name}: cannot tell, needs {listed(state.needs)}; {limits}"
    closes = {"agrees": ": closes", "no limits": ""}.get(state.verdict, ": does not close inside its limits")
    gap = (
        f"{gap_words(state.gap.least_mm, state.gap.most_mm)}"
        f"{f' ({gap_words(state.gap.least_mm, state.gap.most_mm, inch_figure)} in)' if inches else ''}"
    )
    return f"{name}: {gap} in the worst case; {limits}{closes}"
