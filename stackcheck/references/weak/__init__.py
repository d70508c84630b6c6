"""What is weak in a reference, looked for by small independent checks.

Each check is one module with one function: a reference in, weak places out, in a fixed sequence. A check says what it
saw and what would mend it; none gives points, and nothing is added up but counts of unlike things, which stay apart.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from stackcheck.model.reference import Reference
from stackcheck.references.weak.bores import bores
from stackcheck.references.weak.bridging import bridging
from stackcheck.references.weak.chains import chains
from stackcheck.references.weak.facings import facings
from stackcheck.references.weak.look_alikes import look_alikes
from stackcheck.references.weak.metals import metals
from stackcheck.references.weak.pairs import pairs
from stackcheck.references.weak.passing import passing
from stackcheck.references.weak.retention import retention
from stackcheck.references.weak.sources import sources
from stackcheck.references.weak.standards import standards
from stackcheck.references.weak.states import wanted_gaps
from stackcheck.references.weak.steps import steps
from stackcheck.references.weak.threads import threads
from stackcheck.references.weak.thrust import thrust
from stackcheck.references.weak.unmeasured import unmeasured
from stackcheck.references.weak.wanted_forces import wanted_forces
from stackcheck.references.weak.weakness import OPEN, TO_MEND, Weakness
from stackcheck.value import replace

__all__ = ["CHECKS", "OPEN", "TO_MEND", "Weakness", "weaknesses"]

CHECKS: dict[str, Callable[[Reference], Iterable[Weakness]]] = {
    "chain": chains, "force": wanted_forces, "state": wanted_gaps, "passing": passing, "facing": facings, "steps": steps,
    "pair": pairs, "retention": retention, "thrust": thrust, "bridging": bridging, "bore": bores,
    "standard": standards, "thread": threads, "look-alike": look_alikes, "size": unmeasured,
    "metal": metals, "source": sources,
}  # fmt: skip
"""Name of a check -> the check, in the sequence in which they are told."""


def weaknesses(reference: Reference) -> tuple[Weakness, ...]:
    """Every weak place, what is to be mended before what is left open."""
    found = [weakness for check in CHECKS.values() for weakness in check(reference)]
    for variant in reference.variants:
        found += [
            replace(
                weakness, about=("variants", variant.name), sentence=f'variant "{variant.name}": {weakness.sentence}'
            )
            for weakness in weaknesses(variant.reference)
            if weakness not in found
        ]
    return tuple(sorted(found, key=lambda weakness: weakness.grade != TO_MEND))
