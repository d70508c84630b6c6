"""Stacks, gaps and distances of a reference, beside the same as found: what the `stack` command answers."""

from __future__ import annotations

from stackcheck.compare import explanations
from stackcheck.mechanics.chain import LoopState, Sum, as_found_loops, as_found_sum, distance, loops, stack_sum
from stackcheck.model.finding import Explanation
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.value import Value


class StackResult(Value, kw_only=True):
    """One stack: its length by the reference and as found (the same sum where nothing was found)."""

    name: str
    reference: Sum
    as_found: Sum

    @property
    def change_mm(self) -> float | None:
        """Nominal length as found less that of the reference [mm];
        None where one of them lacks a length that the other has.
        """
        return self.as_found.longer_than(self.reference)


class LoopResult(Value, kw_only=True):
    """One loop: its gap by the reference and as found."""

    reference: LoopState
    as_found: LoopState


def lengths(
    reference: Reference, found: Found | None, explanation: Explanation | None = None
) -> tuple[tuple[StackResult, ...], tuple[LoopResult, ...]]:
    """Every stack and every loop; without a teardown list the reference stands in both columns.

    `explanation` says who stands where; it is worked out from the list when not given.
    """
    if found is not None and explanation is None:
        explanation = explanations(reference, found)[0]
    stacks = []
    for stack in reference.stacks:
        own = stack_sum(reference, stack.name)
        seen = as_found_sum(reference, found, explanation, stack.name) if found is not None else own
        stacks.append(StackResult(name=stack.name, reference=own, as_found=seen))
    own_loops = loops(reference)
    seen_loops = as_found_loops(reference, found, explanation) if found is not None else own_loops
    return tuple(stacks), tuple(LoopResult(reference=own, as_found=seen) for own, seen in zip(own_loops, seen_loops))


def between(reference: Reference, found: Found | None, face_a: str, face_b: str) -> StackResult:
    """The distance between two faces; raises ValueError for a face that is not there."""
    own = distance(reference, face_a, face_b)
    if own.total is not None and own.total.nominal_mm < 0:  # said from the far one to the near one
        face_a, face_b = face_b, face_a
        own = distance(reference, face_a, face_b)
    seen = own
    if found is not None:
        seen = distance(reference, face_a, face_b, found=found, explanation=explanations(reference, found)[0])
    return StackResult(name=f"{face_a} to {face_b}", reference=own, as_found=seen)
