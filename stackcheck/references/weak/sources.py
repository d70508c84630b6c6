"""Limits that nobody is named for."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.model.reference import Gap, Reference
from stackcheck.references.weak.weakness import OPEN, Weakness


def sources(reference: Reference) -> Iterator[Weakness]:
    """A limit is worth what its source is worth; "common practice, no source" is one."""
    gaps = [item for stack in reference.stacks for item in stack.items if isinstance(item, Gap)]
    limited = [
        (("places", gap.name), gap.name, gap.source) for gap in gaps if (gap.least_mm, gap.most_mm) != (None, None)
    ]
    limited += [(("limits", limit.what), limit.what, limit.source) for limit in reference.limits]
    limited += [(("pairings", pairing.what), pairing.what, pairing.source) for pairing in reference.pairings]
    for about, name, source in limited:
        if not source:
            yield Weakness(
                check="source", grade=OPEN, about=about, sentence=f"{name}: nobody is named for its limits",
                mend='add source = "..."; where it is how everybody does it, "common practice, no source"',
            )  # fmt: skip
