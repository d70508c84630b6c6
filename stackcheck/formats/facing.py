"""What a feature points to, as people say it -> "first" or "second" end.

"left", "toward the middle", "outside", "away from the nut", "bearing": read the same way in a reference and in a
teardown list. A place or an entry brings its end, if it has one, and lines of neighbours to look along.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from stackcheck.formats.words import INWARD, OUTWARD, plain

DIRECTIONS = ("first", "second")


def read_facing(
    word: str, *, ends: tuple[str, str], end: int | None, lines: Sequence[tuple[Sequence[Collection[str]], int]]
) -> str:
    """ "first" or "second", or "" where the word does not settle it.

    Args:
        word: as typed.
        ends: the names of the two ends.
        end: 0 or 1 where the thing itself belongs to an end, for "middle" and "outside".
        lines: lines of things from the first end to the second, each thing as the plain names it goes by, and where
            in that line the thing itself is; the first line that holds one of that name decides.
    """
    said = plain(word).removeprefix("toward ").removeprefix("towards ")
    away = said.startswith("away from ")
    said = said.removeprefix("away from ").removeprefix("the ")
    named = [plain(name) for name in ends]
    if said in named:
        side = named.index(said)
    elif said in INWARD or said in OUTWARD:
        side = None if end is None else end if said in OUTWARD else 1 - end
    else:
        ways = [(line, here, whole) for whole in (True, False) for line, here in lines]
        side = next((side for way in ways if (side := _nearest(said, *way)) is not None), None)
    if side is None:
        return ""
    return DIRECTIONS[1 - side if away else side]


def _nearest(said: str, line: Sequence[Collection[str]], here: int, whole: bool) -> int | None:
    """The side on which the nearest thing of that name lies;
    None for no such thing, or one at equal steps on each side.

    `whole` False: a name that ends in the word will do, "bearing" for a floating bearing.
    """
    steps = sorted(
        (abs(there - here), there > here)
        for there, names in enumerate(line)
        if there != here and any(name == said if whole else name.endswith(f" {said}") for name in names)
    )
    if not steps or (len(steps) > 1 and steps[0][0] == steps[1][0]):
        return None
    return int(steps[0][1])
