"""The cheapest measurement that would tell most, in words: the last line of an answer."""

from __future__ import annotations

from typing import Any

from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.names import in_place_words
from stackcheck.result.next_look import NextLook


def next_blocks(look: NextLook | None, reference: Reference) -> list[Block]:
    return (
        []
        if look is None
        else [Heading("CHEAPEST NEXT MEASUREMENT"), Text(f"{next_words(look, reference)}.", mark=" -  ")]
    )


def next_words(look: NextLook, reference: Reference) -> str:
    """ "length of the spacer tube by micrometer: 38 in 100 of the range of the seat gap"."""
    words = f"{look.what} {look.how}".strip()
    if look.share is not None:
        words += f": {100 * min(look.share, 1.0):.0f} in 100 of the range of the {look.narrows}"
    elif look.narrows != look.what:
        words += f": in the place of what is estimated ({look.narrows})" if look.how else f": for the {look.narrows}"
    return in_place_words(reference, words)


def next_tree(look: NextLook | None) -> dict[str, Any] | None:
    if look is None:
        return None
    return {
        "what": look.what,
        "how": look.how,
        "narrows": look.narrows,
        "share": None if look.share is None else round(min(look.share, 1.0), 3),
    }
