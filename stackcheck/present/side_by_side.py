"""What the sections of `stack` share: the reference beside as found, and what was taken where nothing is given."""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.present.blocks import Block, Text


def beside_blocks(called: str, own: str, seen: str, *, with_found: bool) -> list[Block]:
    """One thing by its name, then what is said of it by the reference and, where there is a list, as found."""
    if not with_found:
        return [Text(called, mark=" -  "), Text(own, indent=4)]
    return [Text(called, mark=" -  "), Text(f"reference: {own}", indent=4), Text(f"as found: {'the same' if own == seen else seen}", indent=4)]


def taken_blocks(defaults: Iterable[tuple[str, ...]]) -> list[Block]:
    """The defaults of several results, each said once; [] where everything was given."""
    once = dict.fromkeys(default for each in defaults for default in each)
    return [Text(f"taken where nothing is given: {'; '.join(once)}.")] if once else []
