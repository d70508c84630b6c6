"""Metals that the tool knows nothing of: how stiff such a part is becomes a wide range, and it grows with heat as steel."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.mechanics.metals import KNOWN, unknown_metals
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import OPEN, Weakness


def metals(reference: Reference) -> Iterator[Weakness]:
    for part in reference.parts:
        for metal in unknown_metals(part):
            own = "material" if metal == part.material else "sections"
            yield Weakness(
                check="metal",
                grade=OPEN,
                about=("parts", part.id, own),
                sentence=f'{part.name} is of "{metal}", a metal that is not known here: its stiffness is a wide range',
                mend=f"name one of {', '.join(KNOWN)}, where it is one of these",
            )
