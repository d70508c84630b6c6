"""Plates called out one letter each, as they come off: "f s f s f f s f s f s"."""

from __future__ import annotations

import re

from stackcheck.formats.bench_read import ReadPart
from stackcheck.model.reference import Reference
from stackcheck.pattern import Pattern

USUAL = {"f": "friction plate", "s": "steel plate"}
"""Letters that need no reference."""
FEWEST = 3
_LETTERS = Pattern(r"[a-z](?:[\s,;-]*[a-z])*", re.IGNORECASE)
_HEAD = Pattern(r"^(?:the )?(?:plates?|pack)\s*:?\s+")
_PLATE = r"(?:f(?:riction)?|s(?:teel)?)(?:\s*plates?)?"
_COUNTED = Pattern(rf"(?:(?P<before>\d{{1,3}})\s*(?:x\s*)?(?=(?P<letter>[fs])){_PLATE}(?![a-z]))", re.IGNORECASE)
_COUNTED_ALL = Pattern(rf"\s*(?:\d{{1,3}}\s*(?:x\s*)?{_PLATE}(?![a-z])[\s,;.]*(?:and\s+)?){{2,}}", re.IGNORECASE)
_SINGLE = Pattern(r"[a-z](?:(?:\s*[,;-]\s*|\s+)[a-z])*", re.IGNORECASE)


def read_letters(text: str, reference: Reference | None) -> tuple[ReadPart, ...]:
    """The plates of a line that is nothing but letters, each the first letter of one kind; () where it is not.

    >>> [part.kind for part in read_letters("f s f", None)]
    ['friction plate', 'steel plate', 'friction plate']
    """
    said = _HEAD.sub("", text.strip(" .,;").lower())
    if not _LETTERS.fullmatch(said):
        return ()
    kinds = USUAL | _letters_of(reference)
    letters = re.findall("[a-z]", said)
    if (
        len(letters) < FEWEST
        or any(letter not in kinds for letter in letters)
        or not (_SINGLE.fullmatch(said) or set(letters) <= set(USUAL))
    ):
        return ()
    return tuple(ReadPart(what=kinds[letter], kind=kinds[letter]) for letter in letters)


def read_counts(text: str) -> tuple[ReadPart, ...]:
    """The plates of a line that only counts them, () where it is another one.

    >>> [(part.count, part.kind) for part in read_counts("7 friction, 6 steel")]
    [(7, 'friction plate'), (6, 'steel plate')]
    """
    if not _COUNTED_ALL.fullmatch(text):
        return ()
    counted = [(int(match["before"]), match["letter"].lower()) for match in _COUNTED.finditer(text)]
    return tuple(ReadPart(what=USUAL[letter], kind=USUAL[letter], count=max(1, count)) for count, letter in counted)


def _letters_of(reference: Reference | None) -> dict[str, str]:
    """First letters that only one kind of the parts that come off has."""
    kinds = {part.kind for part in reference.parts if not part.fixed} if reference else set()
    letters = [kind[0].lower() for kind in kinds]
    return {kind[0].lower(): kind for kind in kinds if letters.count(kind[0].lower()) == 1 and kind[0].isascii()}
