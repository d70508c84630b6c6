"""Chains that do not close, and limits that the parts' own limits cannot keep."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.mechanics.chain import LoopState, loops
from stackcheck.model.loops import NEIGHBOURS, path_name
from stackcheck.model.place_words import lower_first
from stackcheck.model.reference import Loop, Reference
from stackcheck.references.weak.weakness import OPEN, TO_MEND, Weakness, room, wanted

FEW = 0.001


def chains(reference: Reference) -> Iterator[Weakness]:
    """Every gap with limits: can it be added up, and does it stay inside its limits whatever its parts are?"""
    for state in loops(reference):
        loop = state.loop
        name = path_name(reference, loop)
        if loop.set_by == NEIGHBOURS:
            yield _weak(
                reference,
                state,
                OPEN,
                f"{name}: no second stack closes this gap, so no sum tells it",
                "add the stack of the other path, or leave it to be measured",
            )
        elif loop.set_by or state.verdict in ("agrees", "no limits"):
            continue
        elif state.gap is None:
            yield _weak(
                reference,
                state,
                TO_MEND,
                f"{name}: the chain cannot be added up, it needs {', '.join(state.needs)}",
                "give what it needs",
            )
        elif state.verdict != "differs" and (rings := _chosen(reference, loop)):
            yield _weak(
                reference,
                state,
                OPEN,
                f"{_outside(state, name)}; the {rings} is chosen for it",
                f'choose it with `stackcheck shims {reference.id} "{loop.name}"` when fitting',
            )
        else:
            yield _weak(
                reference,
                state,
                TO_MEND,
                _outside(state, name),
                "look at the limits of the gap and of the parts in it: one of them is not what was meant",
            )


def _chosen(reference: Reference, loop: Loop) -> str:
    """The name of the shim rings on the two paths of a gap, "" for none: what they add is chosen for each machine."""
    parts = (reference.part_at(place) for place in (*loop.open_path, *loop.closed_path))
    return next((lower_first(part.name) for part in parts if part.kind == "shim ring"), "")


def _outside(state: LoopState, name: str) -> str:
    said = (
        f"{name}: by the limits of its parts {room(state.gap.least_mm, state.gap.most_mm)}, "
        f"allowed {wanted(*state.limits)}"
    )
    if state.verdict == "differs":
        return f"{said}: no set of parts keeps it"
    share = state.share_outside
    return (
        said
        if share is None
        else f"{said}: {_in_words(sum(share))} outside, if every part lies evenly between its limits"
    )


def _in_words(share: float) -> str:
    """ "about 12 in 100", "fewer than 1 in 1000", "nearly all"."""
    if share > 0.995:
        return "nearly all assemblies"
    if share < FEW:
        return "fewer than 1 in 1000 assemblies"
    count = 100 if share >= 0.01 else 1000
    return f"about {max(1, round(share * count))} in {count} assemblies"


def _weak(reference: Reference, state: LoopState, grade: str, sentence: str, mend: str) -> Weakness:
    name = state.loop.name
    if any(gap.name == name for stack in reference.stacks for gap in stack.gaps):
        about = ("places", name)
    else:
        about = ("limits", name)
    return Weakness(check="chain", grade=grade, about=about, sentence=sentence, mend=mend)
