"""Chains that do not close, and limits that the parts' own limits cannot keep."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.mechanics.chain import LoopState, loops
from stackcheck.model.loops import NEIGHBOURS
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import OPEN, TO_MEND, Weakness, room, wanted

FEW = 0.001


def chains(reference: Reference) -> Iterator[Weakness]:
    """Every gap with limits: can it be added up, and does it stay inside its limits whatever its parts are?"""
    for state in loops(reference):
        loop = state.loop
        if loop.set_by == NEIGHBOURS:
            yield _weak(
                reference,
                state,
                OPEN,
                f"{loop.name}: no second stack closes this gap, so no sum tells it",
                "add the stack of the other path, or leave it to be measured",
            )
        elif loop.set_by or state.verdict in ("agrees", "no limits"):
            continue
        elif state.gap is None:
            yield _weak(
                reference,
                state,
                TO_MEND,
                f"{loop.name}: the chain cannot be added up, it needs {', '.join(state.needs)}",
                "give what it needs",
            )
        else:
            yield _weak(
                reference,
                state,
                TO_MEND,
                _outside(state),
                "look at the limits of the gap and of the parts in it: one of them is not what was meant",
            )


def _outside(state: LoopState) -> str:
    said = (
        f"{state.loop.name}: by the limits of its parts {room(state.gap.least_mm, state.gap.most_mm)}, "
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
    """ "about 12 in 100", "fewer than 1 in 1000"."""
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
