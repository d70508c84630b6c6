"""What a reference says beside its stacks: joints, limits and who gives them, what must be measured,
bores and outsides.
"""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.model.part import SIZE_NAMES
from stackcheck.model.reference import Joint, Reference
from stackcheck.model.state import ASSEMBLY, State
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.words import limits_words, listed
from stackcheck.units.force_words import force_limits_words

ACROSS = ("bore", "outside", "shaft", "seat", "thread_diameter", "thread_pitch")
"""Sizes that no row of a stack shows."""


def said_beside_stacks(reference: Reference) -> list[Block]:
    """One heading for each sort that the reference has any of."""
    sorts = (
        ("JOINTS", [joint_words(joint) for joint in reference.joints]),
        (
            "LIMITS",
            [
                (
                    f"{limit.what}, between {limit.between[0]} and {limit.between[1]}: "
                    f"{limits_words(limit.least_mm, limit.most_mm)} ({limit.source or 'no source given'})"
                )
                for limit in reference.limits
            ]
            + [
                (
                    f"{limit.what}, of the {limit.of}{_said_for(limit.state)}: "
                    f"{force_limits_words(limit.least_n, limit.most_n)} ({limit.source})"
                )
                for limit in reference.force_limits
            ]
            + [
                (
                    f"{limit.what}, of the {limit.of}{_said_for(limit.state)}: "
                    f"{limits_words(limit.least_mm, limit.most_mm)} ({limit.source})"
                )
                for limit in reference.state_limits
            ],
        ),
        ("HOW WARM IT IS", [state_words(state) for state in reference.states]),
        (
            "MUST BE MEASURED",
            [
                f"{part.name}: {listed(SIZE_NAMES.get(size, size) for size in part.must_measure)}"
                for part in reference.parts
                if part.must_measure
            ],
        ),
        ("SIZES ACROSS", list(_across(reference))),
        (
            f"SECTIONS, {reference.ends[0]} to {reference.ends[1]}",
            [
                f"{part.name}: {listed(section.words for section in part.sections)}"
                for part in reference.parts
                if part.sections
            ],
        ),
    )
    return [
        block
        for heading, lines in sorts
        if lines
        for block in (Heading(heading), *(Text(line, mark=" -  ") for line in lines))
    ]


def _said_for(state: str) -> str:
    return f', in the state "{state}"' if state else ""


def state_words(state: State) -> str:
    """ "running: at 60 °C; hub at 70 °C (common practice, no source)"."""
    apart = "".join(f"; {name} at {amount.text}" for name, amount in state.apart)
    when = "put together at" if state.name == ASSEMBLY else "at"
    return f"{state.name}: {when} {state.temperature.text}{apart} ({state.source or 'no source given'})"


def joint_words(joint: Joint) -> str:
    """ "castellated nut: clamps spacer-ring to collar; M16x1.5, dry; 60 Nm; locked by split pin"."""
    turned = " ".join(
        filter(
            None,
            (
                joint.torque.text if joint.torque else "no torque given",
                f"and {joint.angle.text}" if joint.angle else "",
            ),
        )
    )
    said = (
        f"clamps {joint.clamps[0]} to {joint.clamps[1]}",
        ", ".join(filter(None, (joint.thread, joint.thread_condition))),
        turned,
        f"locked by {joint.locked_by}" if joint.locked_by else "",
        f"stretches {listed(step.words for step in joint.shank)}" if joint.shank else "",
        joint.note,
    )
    return f"{joint.name}: {'; '.join(filter(None, said))}"


def _across(reference: Reference) -> Iterator[str]:
    for part in reference.parts:
        sizes = dict(part.sizes)
        # What a standard part is named by needs no second telling.
        said = [
            f"{SIZE_NAMES[name]} {sizes[name].text}"
            for name in ACROSS
            if name in sizes and sizes[name].text != part.standard
        ]
        if said:
            yield f"{part.name}: {listed(said)}"
