"""The states of a reference side by side: one table a tension, a pair of bearings, a play or a gap, a row a state.

What most of a range comes from stands in the heading of its table where it is one thing in all states.
"""

from __future__ import annotations

from typing import NamedTuple

from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loop_forces import NOTHING_N, LoopForces, either_way
from stackcheck.mechanics.set_gap import GAUGE_N, SetGap
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.reference import Reference
from stackcheck.present.all_forces_page import LIMITS, WARM, carried_blocks, named
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.figures import mm
from stackcheck.present.force_figures import force_words, range_of_force, signed, spanned_mm
from stackcheck.present.forces_page import IF_HELD, ONE_WAY, is_beyond
from stackcheck.present.heat_words import HALF_A_DIGIT_MM, growth_words, heat_moves, play_terms
from stackcheck.present.names import in_place_words, needed
from stackcheck.present.stack_page import title
from stackcheck.present.state_limits import state_limit_blocks
from stackcheck.present.words import gap_words
from stackcheck.result.forces import AllForces, ForcesResult, SetGapResult
from stackcheck.result.states import StateGap, StateResult

UNTOLD, UNREAD = "cannot tell", "not measured"


class Row(NamedTuple):
    """One state of one thing: by the reference, as found, the difference, what most of the range comes from, what
    heat does to it, and what is missing to tell it.
    """

    own: str
    seen: str = ""
    change: str = ""
    cause: str = ""
    heat: str = ""
    needs: str = ""


def states_page(
    reference: Reference, answers: tuple[StateResult, ...], kept: AllForces, *, with_found: bool
) -> list[Block]:
    """`kept` are springs and supports, which are told at one temperature."""
    blocks = [
        *title(reference, "States"),
        *_temperatures(answers),
        *tables(answers, with_found=with_found),
        *state_limit_blocks(answers, with_found=with_found),
        *carried_blocks(kept, reference, with_found=with_found, is_warm=True),
    ]
    how = [f"Forces: {LIMITS}", WARM, "Gaps: free lengths in the worst case, every part at its limit at once."]
    if with_found:
        how.append("Readings are taken to be of 20 °C; of a play that was set, of when it was set.")
    how += [
        f"The {each.reference.joint.name} is backed off to set the {each.reference.sets}: no state changes its tension."
        for each in answers[0].joints
        if each.reference.sets
    ]
    how.append(_taken(answers, kept))
    how.append("Terms, press fits and everything else of one state: --temperature with its name alone.")
    return [
        *named(blocks, reference),
        Heading("HOW IT WAS RECKONED"),
        *(Text(in_place_words(reference, line), mark=" -  ") for line in how if line),
    ]


def _taken(answers: tuple[StateResult, ...], kept: AllForces) -> str:
    results = [result.reference for each in answers for result in (*each.joints, *each.set_gaps)]
    results += [gap for each in answers for gap in each.gaps] + [each.reference for each in kept.supports]
    taken = dict.fromkeys(default for each in results for default in each.defaults)
    return f"Taken where nothing is given: {'; '.join(taken)}." if taken else ""


def _temperatures(answers: tuple[StateResult, ...]) -> list[Block]:
    together = answers[0].heat.together
    at = ", ".join([f"{together.at_c:g} °C", *(f"{name} {at_c:g} °C" for name, at_c in together.named)])
    rows = tuple(
        (
            each.heat.state,
            f"{each.heat.at_c:g} °C",
            ", ".join(f"{name} {at_c:g} °C" for name, at_c in each.heat.named),
        )
        for each in answers
    )
    return [
        Heading(f"STATES, put together at {at}"),
        Rows(("state", "everything", "but"), rows, right=(1,), wraps=(2,)),
    ]


def tables(answers: tuple[StateResult, ...], *, with_found: bool) -> list[Block]:
    """Every thing that all states tell of, in the sequence of the file."""
    names, first = [each.heat.state for each in answers], answers[0]
    told: list[tuple[str, str, list[Row]]] = []
    for i, joint in enumerate(first.joints):
        if joint.reference.sets:
            continue  # the tension of a nut that is backed off is gone before anything is warm
        results = [each.joints[i] for each in answers]
        same = all(_clamps_alike(each) for each in results)
        also = "as much clamps the inner rings at the least" if joint.reference.loops and same else ""
        tension = f"tension of the {joint.reference.joint.name}"
        told.append((tension, also, [_tension(each) for each in results]))
        lost = [_lost(each) for each in results]
        if any(row.own for row in lost):
            told.append((tension, "what it loses when new faces and the thread have settled", lost))
        for j, loop in enumerate(joint.reference.loops):
            if not same:
                told.append((loop.loop, "least clamp of the inner rings", [_clamp(each, j) for each in results]))
            told.append(
                (loop.loop, f"preload, or end float under ±{GAUGE_N:g} N", [_loop(each, j) for each in results])
            )
    for i, play in enumerate(first.set_gaps):
        rows = [_play(each.set_gaps[i]) for each in answers]
        told.append((play.reference.gap, f"set by the {play.reference.joint}", rows))
    for i, gap in enumerate(first.gaps):
        if gap.reference is not None or gap.as_found is not None:
            told.append((gap.loop.name, _how(gap), [_gap(each.gaps[i]) for each in answers]))
    return [block for thing, what, rows in told for block in _table(thing, what, names, rows, with_found)]


def _how(gap: StateGap) -> str:
    if gap.loop.set_by:
        return f"set by the {gap.loop.set_by}"
    return "by lengths and races" if gap.grown.by_races_mm is not None else "by lengths alone"


def _clamps_alike(result: ForcesResult) -> bool:
    """Whether all that the joint pulls with goes through the inner rings, near enough."""
    return all(
        side.now_n is not None
        and all(
            loop.least_clamp_n is not None
            and abs(loop.least_clamp_n.usual - side.now_n.usual) <= 0.02 * side.now_n.usual
            for loop in side.loops
        )
        for side in (result.reference, result.as_found)
    )


def _table(thing: str, what: str, names: list[str], rows: list[Row], with_found: bool) -> list[Block]:
    causes = {row.cause for row in rows if row.cause}
    columns = [("state", names), ("by the reference" if with_found else "range", [row.own for row in rows])]
    if with_found:
        columns.append(("as found", [row.seen for row in rows]))
    more = "difference" if with_found else "by heat"
    columns.append((more, [row.change if with_found else row.heat for row in rows]))
    if len(causes) > 1:
        columns.append(("most of it from the", [row.cause for row in rows]))
    header, cells = zip(*(column for column in columns if any(column[1])))
    needs = [each for each in dict.fromkeys(row.needs for row in rows) if each]
    same = len(names) > 1 and len(set(zip(*cells[1:]))) == 1
    one = [each[0] for each in cells[1:]]
    if same and not (needs and set(one) == {UNTOLD}):
        one = one if not with_found else [f"{name} {each}" for name, each in zip(header[1:], one)]
        what = "; ".join(filter(None, (f"in all states {'; '.join(one)}", what)))
    cause = f"most of the range from the {causes.pop()}" if len(causes) == 1 else ""
    said = "; ".join(filter(None, (what, cause, *needs)))
    return [
        Heading(thing),
        *([Text(said, indent=1)] if said else []),
        *([] if same else [Rows(header, tuple(zip(*cells)), wraps=tuple(range(1, len(header))))]),
    ]


def _tension(result: ForcesResult) -> Row:
    sides = [
        "nothing is clamped" if each.is_unclamped else UNTOLD if each.now_n is None else range_of_force(each.now_n)
        for each in (result.reference, result.as_found)
    ]
    cause = result.as_found.now_n or result.reference.now_n
    return Row(
        *sides, _tension_change(result), cause.main_cause if cause is not None else "",
        needs=_needs(*result.reference.needs, *result.as_found.needs),
    )  # fmt: skip


def _needs(*needs: str) -> str:
    return f"cannot be told without {needed(needs)}" if needs else ""


def _lost(result: ForcesResult) -> Row:
    """What is lost by settling; nothing of a joint that clamps nothing, or of which no tension is told."""
    sides = [
        None if each.tension_n is None or each.is_unclamped else each.settling
        for each in (result.reference, result.as_found)
    ]
    own, seen = (
        "" if each is None or not each.faces else UNTOLD if each.loss_n is None else range_of_force(each.loss_n)
        for each in sides
    )
    loss = None if sides[1] is None else sides[1].loss_n
    needs = [each for settling in sides if settling is not None for each in settling.needs]
    return Row(own, seen, "", "" if loss is None else loss.main_cause, needs=_needs(*needs))


def _tension_change(result: ForcesResult) -> str:
    change = result.change
    if change is None or result.as_found.is_unclamped or result.reference.tension_n is None:
        return ""
    loop = next((each for each in change.loops if each is not None), None)
    if not result.reference.heat.is_warm:
        told = change.tension_n
    else:
        told = change.then_n if loop is None else either_way(loop.pull_slides, loop.pull_held)
    return _differs(told, force_words, max(NOTHING_N, 0.005 * result.reference.tension_n.usual))


def _loop(result: ForcesResult, position: int) -> Row:
    own, seen = result.reference.loops[position], result.as_found.loops[position]
    change = result.change.loops[position] if result.change is not None else None
    said = ""
    if change is not None and _is_loaded(own) != _is_loaded(seen):
        said = "preload instead" if _is_loaded(seen) else "end float instead"
    elif change is not None and not is_beyond(own) and not is_beyond(seen):
        said = (
            _differs(either_way(change.slides, change.held), force_words, NOTHING_N)
            if _is_loaded(own)
            else _differs(either_way(change.float_slides, change.float_held), _hundredths, 0.005)
        )
    return Row(_loop_words(own), _loop_words(seen), said, _cause(seen), needs=_needs(*own.needs, *seen.needs))


def _clamp(result: ForcesResult, position: int) -> Row:
    own, seen = (each.loops[position] for each in (result.reference, result.as_found))
    change = result.change.loops[position] if result.change is not None else None
    told = change is not None and not is_beyond(own) and not is_beyond(seen)
    return Row(
        _clamp_words(own),
        _clamp_words(seen),
        _differs(change.least_clamp_n, force_words, NOTHING_N) if told else "",
        "" if seen.least_clamp_n is None else seen.least_clamp_n.main_cause,
    )


def _clamp_words(value: LoopForces) -> str:
    clamp = value.least_clamp_n
    if clamp is None:
        return UNTOLD
    if clamp.most < NOTHING_N:
        return "gone"
    return "no figure holds" if is_beyond(value) else range_of_force(clamp)


def _loop_words(value: LoopForces) -> str:
    if value.one_way:
        return ONE_WAY
    if value.slides is None or value.held is None:
        return UNTOLD
    return f"{IF_HELD}{_held_words(value)}" if value.only_if_held else _held_words(value)


def _held_words(value: LoopForces) -> str:
    preload, play = either_way(value.slides, value.held), either_way(value.float_slides, value.float_held)
    if preload.most <= NOTHING_N:
        return f"end float {spanned_mm(play)}"
    most = "beyond any figure" if is_beyond(value) else force_words(preload.most)
    if preload.least <= NOTHING_N:
        return f"end float up to {mm(round(play.most, 2))}, or preload up to {most}"
    if is_beyond(value):
        least = preload.least
        return f"preload {most}" if least > value.beyond_n else f"preload {force_words(least)} to {most}"
    return f"preload {range_of_force(preload)}"


def _is_loaded(value: LoopForces) -> bool:
    return value.slides is not None and max(value.slides.most, value.held.most) > NOTHING_N


def _cause(value: LoopForces) -> str:
    if value.slides is None or value.held is None:
        return ""
    if _is_loaded(value):
        return either_way(value.slides, value.held).main_cause
    return either_way(value.float_slides, value.float_held).main_cause


def _play(result: SetGapResult) -> Row:
    own, seen = result.reference, result.as_found
    change = "" if not result.is_measured or own.play is None else _between(seen.play - own.play)
    then = (seen if result.is_measured else own).then_mm
    cause = then.main_cause if then is not None else ""
    needs = _needs(*own.needs, *seen.needs)
    seen_words = _play_words(seen) if result.is_measured else UNREAD
    return Row(_play_words(own), seen_words, change, cause, _play_growth(own), needs)


def _play_words(value: SetGap) -> str:
    if value.then_mm is None or not heat_moves(value):
        return UNTOLD if value.play is None else gap_words(value.play.least_mm, value.play.most_mm, _thousandths)
    words = gap_words(value.then_mm.least, value.then_mm.most, _thousandths)
    if value.then_n.most < NOTHING_N:
        return words
    beyond = value.limit is not None and value.then_n.most > value.limit.force_n
    most = "beyond any figure" if beyond else force_words(value.then_n.most)
    return f"{words}, preload up to {most}"


def _play_growth(value: SetGap) -> str:
    return "" if value.then_mm is None else play_terms(value) if heat_moves(value) else "none"


def _gap(value: StateGap) -> Row:
    # Ends of a sum of lengths add up to the last digit; those of draws are known no closer than to a hundredth.
    figure = mm if value.grown.by_races_mm is None else _hundredths
    own, seen = (
        (UNREAD if value.loop.set_by else UNTOLD) if each is None else gap_words(each.least_mm, each.most_mm, figure)
        for each in (value.reference, value.as_found)
    )
    change = "" if value.change is None else _between(value.change)
    return Row(own, seen, change, value.cause, _growth(value))


def _growth(value: StateGap) -> str:
    grown = value.grown
    moved = [grown.wider_mm, *((grown.by_races_mm.least, grown.by_races_mm.most) if grown.by_races_mm else ())]
    return growth_words(grown) if any(abs(each) >= HALF_A_DIGIT_MM for each in moved) else "none"


def _between(change: Interval) -> str:
    spanned = Spanned(usual=change.nominal_mm, least=change.least_mm, most=change.most_mm)
    return _differs(spanned, mm, 0.0005)


def _differs(change: Spanned | None, said, least: float) -> str:
    if change is None:
        return UNTOLD
    return "none" if max(abs(change.least), abs(change.most)) < least else signed(change, said)


def _hundredths(value: float) -> str:
    return mm(round(value, 2))


def _thousandths(value: float) -> str:
    return f"{value:.3f}"
