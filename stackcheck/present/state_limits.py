"""In which states a limit is kept, and in which it is crossed, in words: as found beside the reference."""

from __future__ import annotations

from math import floor

from stackcheck.mechanics.lengths import Interval
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.figures import mm
from stackcheck.present.force_limit_words import held_words, wanted_words
from stackcheck.present.side_by_side import beside_lines
from stackcheck.present.words import limits_words
from stackcheck.result.points import AGREES, CANNOT_TELL, DIFFERS
from stackcheck.result.states import ForceHeld, GapHeld, StateResult

Said = tuple[str, str]
"""By the reference, as found."""


def state_limit_blocks(answers: tuple[StateResult, ...], *, with_found: bool, only_said: bool = False) -> list[Block]:
    """One entry a limit, with its states; `only_said`: those alone that are said for a state."""
    told: dict[str, list[tuple[str, Said]]] = {}
    for answer in answers:
        held = [*_gaps(answer, only_said=only_said), *_forces(answer, only_said=only_said)]
        for title, said in held:
            told.setdefault(title, []).append((answer.heat.state, said))
    if not told:
        return []
    blocks: list[Block] = [Heading("LIMITS, state by state")]
    for title, states in told.items():
        own, seen = (_grouped([(name, said[side]) for name, said in states], len(answers)) for side in (0, 1))
        blocks.append(Text(title, mark=" -  "))
        blocks += [Text(line, indent=4) for line in (beside_lines(own, seen) if with_found else [own])]
    return blocks


def _gaps(answer: StateResult, *, only_said: bool) -> list[tuple[str, Said]]:
    return [(_gap_title(held), _gap_said(held)) for held in answer.gaps_held if held.limit is not None or not only_said]


def _forces(answer: StateResult, *, only_said: bool) -> list[tuple[str, Said]]:
    return [
        (wanted_words(held.limit), _force_said(held))
        for held in answer.forces_held
        if held.limit.state or not only_said
    ]


def _gap_title(held: GapHeld) -> str:
    limits = limits_words(held.least_mm, held.most_mm)
    if held.limit is not None:
        return f"{held.limit.what}, wanted {limits} by {held.limit.source}"
    when = "as it is set" if held.loop.set_by else "by its lengths"
    return f"{held.loop.name}, allowed {limits} {when}"


def _gap_said(held: GapHeld) -> Said:
    sides = ((held.reference, held.own), (held.as_found, held.seen))
    own, seen = (gap_held_words(verdict, gap, held.least_mm, held.most_mm) for verdict, gap in sides)
    return own, seen


def gap_held_words(verdict: str, gap: Interval | None, least: float | None, most: float | None) -> str:
    """ "agrees", "differs: at least 0.02 too much", "cannot tell: the range reaches above 0.08"."""
    if verdict == AGREES:
        return AGREES
    if gap is None:
        return verdict
    if verdict == DIFFERS:
        is_less = least is not None and gap.most_mm < least
        by = least - gap.most_mm if is_less else gap.least_mm - most
        at_least = floor(100 * by + 1e-6) / 100 if by >= 0.01 else by
        return f"{DIFFERS}: at least {mm(at_least)} too {'little' if is_less else 'much'}"
    reaches = [
        *([f"below {mm(least)}"] if least is not None and gap.least_mm < least else []),
        *([f"above {mm(most)}"] if most is not None and gap.most_mm > most else []),
    ]
    return f"{CANNOT_TELL}: the range reaches {' and '.join(reaches)}"


def _force_said(held: ForceHeld) -> Said:
    return held_words(held.limit, held.reference), held_words(held.limit, held.as_found)


def _grouped(states: list[tuple[str, str]], all_of_them: int) -> str:
    """ "agrees in assembly, running; cannot tell in cold start: the range reaches below 0.02", "agrees in all states"."""
    groups: dict[str, list[str]] = {}
    for name, said in states:
        groups.setdefault(said, []).append(name)
    words = []
    for said, names in groups.items():
        verdict, colon, why = said.partition(":")
        where = "all states" if 1 < all_of_them == len(names) else ", ".join(names)
        words.append(f"{verdict} in {where}{colon}{why}")
    return "; ".join(words)
