"""What was written as a new reference, who it says says so, and what is still to be looked at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stackcheck.model.reference import Reference
from stackcheck.present import as_json
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.names import counted
from stackcheck.present.words import grade_words


def new_page(reference: Reference, look: Sequence[str]) -> list[Block]:
    blocks: list[Block] = [
        Text(
            (
                f"{reference.file} written: {reference.title}, rev {reference.revision}; "
                f"{counted(len(reference.parts), 'part')}, {counted(len(reference.places), 'place')}."
            ),
            strong=True,
        ),
        Text(f"{reference.id}: {grade_words(reference)}."),
    ]
    if look:
        blocks.append(Heading("TO LOOK AT"))
        blocks += [Text(each, mark=" -  ") for each in look]
    return blocks


def new_json(reference: Reference, look: Sequence[str]) -> dict[str, Any]:
    return {"file": reference.file, "reference": as_json.reference(reference), "to_look_at": list(look)}
