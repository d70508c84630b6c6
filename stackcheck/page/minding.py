"""The cautions of a job in one line, all of them behind it:
before the first part is loosened, with the result and with the fitting.
"""

from __future__ import annotations

from stackcheck.model.caution import BANK, Caution
from stackcheck.model.reference import Reference
from stackcheck.value import Value

SHORT = {
    "S1": "stands", "S2": "what carries the weight", "S3": "weight", "S4": "tipping", "E1": "springs under load",
    "E3": "lock off", "E4": "pressure", "E5": "battery", "E6": "air out", "E7": "wheel and guard", "B1": "brake",
    "B2": "brake", "B3": "brake", "B4": "old dust", "W1": "tighten again",
}  # fmt: skip
"""Caution -> the few words that stand for it in one line; one that is not here is told in full behind it."""

IN_LINE = 3
CHECK = "Before the first use: check disc in the carrier on both sides, pads, hose at full steer."
OF_BRAKES = ("B2", "B3")
"""What a wheel with a brake calls for when it goes together, whatever was found."""


class Minded(Value, kw_only=True):
    """The line, and every caution in full."""

    line: str
    full: tuple[str, ...]


def minded(reference: Reference, cautions: tuple[Caution, ...]) -> Minded:
    """The cautions as they stand at the head of a screen, those of the brake among them."""
    full = {caution.id: caution.text for caution in cautions}
    if has_brake(reference):
        full |= {id: BANK[id] for id in OF_BRAKES}
    words = dict.fromkeys(SHORT[id] for id in sorted(full, key=lambda id: "SEBW".find(id[0])) if id in SHORT)
    return Minded(
        line=", ".join([*words][:IN_LINE]), full=(*full.values(), *((CHECK,) if has_brake(reference) else ()))
    )


def has_brake(reference: Reference) -> bool:
    return any(part.has_duty("brake") or "disc" in part.name.split() for part in reference.parts)
