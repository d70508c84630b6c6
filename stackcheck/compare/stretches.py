"""How many slips a line needs at least, kept up to date while its pieces are placed one by one.

The line is cut into *stretches*: all that belongs into a later one lies behind all that belongs into an earlier one,
and stands there. A slip in one stretch mends nothing in another unless the two touch, and leaving parts out never makes
more slips necessary, so what the stretches need adds up to a lower bound for whatever may be placed behind them.
"""

from __future__ import annotations

from collections.abc import Callable

from stackcheck.value import Value


class Stretch(Value):
    """The last stretch of a line, and through `nearer` all others.

    `start` is its first token, `groups` what stands in it, as bits; `slips` what it needs; `beyond` what those need
    that do not touch it, and `touching` what it and the stretches with slips right before it need together.
    """

    nearer: Stretch | None
    start: int
    groups: int
    slips: int
    beyond: int
    touching: int

    @property
    def needed(self) -> int:
        return self.beyond + self.touching


def needed(line: Stretch | None) -> int:
    return line.needed if line is not None else 0


def placed(
    line: Stretch | None,
    token: int,
    group: int,
    nearer: int,
    further: int,
    need: Callable[[int, int], int],
    *,
    at_once: bool,
) -> Stretch:
    """The line with one token more: its group, and the groups that lie nearer and further than it, as bits.

    `need` tells how many slips, 1 or 2, the tokens from one up to another need. It is asked whenever a stretch grows,
    or, unless that must be known `at_once`, when a stretch is over.
    """
    start, groups, rest = token, group, line
    while rest is not None and rest.groups & ~nearer:
        start, groups, rest = rest.start, groups | rest.groups, rest.nearer
    if rest is line and line is not None and line.slips == 1 and not at_once:
        rest = _behind(line.nearer, line.start, line.groups, need(line.start, token))
    slips = needed(line) - needed(rest) if rest is not line and start != token else 0
    if slips < 2 and groups & further:
        slips = max(slips, need(start, token + 1) if at_once else 1)
    return _behind(rest, start, groups, slips)


def _behind(nearer: Stretch | None, start: int, groups: int, slips: int) -> Stretch:
    if nearer is not None and nearer.slips and slips:
        return Stretch(nearer, start, groups, slips, nearer.beyond, max(2, slips, nearer.touching))
    return Stretch(nearer, start, groups, slips, needed(nearer), slips)
