"""`decide`, `buy`, `fit`: what is done about each difference, what is bought for it, and how it goes together again."""

from __future__ import annotations

import argparse
from typing import Any

from stackcheck.commands.common import CANNOT_TELL, DIFFERS, DONE
from stackcheck.commands.jobs import job_named, job_options, mistake, say


def add(commands: Any) -> None:
    decide = commands.add_parser(
        "decide",
        help="what is done about a finding",
        description="Decide on a finding of the job by its number; without arguments the findings are listed with "
        "their decisions. A decision is one of: refit as reference, renew, rework, repair, keep as is, leave out, "
        "belongs to, scrap, hold, ask. Those that keep or give away a difference need a reason and initials.",
    )
    decide.add_argument(
        "finding",
        metavar="NUMBER",
        type=int,
        nargs="?",
        help="number of the finding; without it all are listed with their decisions",
    )
    decide.add_argument("decision", metavar="DECISION", nargs="*", help="what is done about it")
    decide.add_argument("--reason", default="", metavar="WORDS")
    job_options(decide)
    decide.set_defaults(command=_decide)

    buy = commands.add_parser(
        "buy",
        help="the buying list: to buy, on order, arrived",
        description="The buying list. Single-use parts that came off and parts decided to renew are on it by "
        'themselves; add others in words. What arrives is measured before it is fitted: measure ITEM length "58.01 '
        'mic".',
    )
    buy.add_argument(
        "item", metavar="ITEM", nargs="?", help="put on the list in words, or the item meant by --ordered, --arrived"
    )
    buy.add_argument("count", metavar="COUNT", type=int, nargs="?", default=1)
    state = buy.add_mutually_exclusive_group()
    state.add_argument("--ordered", action="store_true", help="it is on order")
    state.add_argument("--arrived", action="store_true", help="it has arrived")
    buy.add_argument("--marked", default="", metavar="NUMBER", help="the number read off what arrived, or wanted")
    buy.add_argument("--where", default="", metavar="WORDS")
    job_options(buy)
    buy.set_defaults(command=_buy)

    fit = commands.add_parser(
        "fit",
        help="fitting, in the reference's sequence",
        description='The fitting sequence with what is still to do; `fit PLACE --entry 3` or `fit PLACE --item "hub '
        'seal"` records that a part went in. `fit JOINT --state tightened --value "60 N·m"` records a fastener. `fit '
        "--compare` lays what was fitted against the reference.",
    )
    fit.add_argument("what", metavar="PLACE-OR-JOINT", nargs="*", help="a place, or a fastener")
    fit.add_argument("--entry", type=int, default=0, metavar="ENTRY", help="the part that came off as this entry")
    fit.add_argument("--item", default="", metavar="ITEM", help="the bought part")
    fit.add_argument("--toward", default="", metavar="END", help="where its named feature points")
    fit.add_argument("--out", action="store_true", help="what was said to be still inside there is out")
    fit.add_argument("--turns", default="", metavar="WORDS", help="how it turns by hand now: free, stiff, catches")
    fit.add_argument(
        "--state", choices=("loose", "finger tight", "tightened", "marked", "locked"), help="state of a fastener"
    )
    fit.add_argument("--value", default="", metavar="TORQUE", help='"60 N·m"')
    fit.add_argument("--thread", default="", metavar="WORDS", help="thread condition: dry, oiled, compound")
    fit.add_argument("--tool", default="", metavar="WORDS")
    fit.add_argument("--how", default="", metavar="WORDS", help="how it is locked: split pin, tab, lock nut")
    fit.add_argument("--compare", action="store_true", help="as fitted against the reference, beside as found")
    job_options(fit)
    fit.set_defaults(command=_fit)


def _compared(job: Any) -> Any:
    from stackcheck.result import compare

    return compare(job.reference, job.found)


def _decide(options: argparse.Namespace) -> int:
    from stackcheck.formats.source import did_you_mean
    from stackcheck.job.deciding import key_of, lacking_words, record_comparison, retains
    from stackcheck.job.events import DECISIONS, Decided
    from stackcheck.present.blocks import show
    from stackcheck.present.putting_right_page import decisions_page
    from stackcheck.present.words import sentence

    folder = job_named(options)
    job = folder.job
    comparison = _compared(job)
    if options.finding is None:
        show(decisions_page(job, comparison))
        say("A decision is one of: " + ", ".join(DECISIONS) + ".")
        return (
            CANNOT_TELL if any(key_of(result.finding) not in job.decisions for result in comparison.findings) else DONE
        )
    if not 1 <= options.finding <= len(comparison.findings):
        raise mistake(
            "decide",
            f"there is no finding {options.finding}",
            f"the list has {len(comparison.findings)}: stackcheck decide shows them",
        )
    finding = comparison.findings[options.finding - 1].finding
    decision = " ".join(options.decision).lower()
    if decision not in DECISIONS:
        raise mistake(
            "decide",
            f'unknown decision "{decision}"' if decision else "no decision was said",
            did_you_mean(decision, list(DECISIONS)),
        )
    lacking = lacking_words(decision, options.reason, options.by, retains=retains(job, finding))
    if lacking:
        raise mistake("decide", f'"{decision}" needs {lacking}', "whoever comes later must know why, and who said so")
    record_comparison(folder, comparison)
    folder.record(Decided(about=key_of(finding), decision=decision, reason=options.reason, by=options.by))
    say(f"{sentence(finding, job.reference, job.found)}: {decision}{f', {options.reason}' if options.reason else ''}.")
    return DONE


def _buy(options: argparse.Namespace) -> int:
    from stackcheck.job.buying import buying
    from stackcheck.job.events import Arrived, Ordered, ToBuy
    from stackcheck.present.blocks import show
    from stackcheck.present.putting_right_page import buying_page

    folder = job_named(options)
    job = folder.job
    if options.item is None:
        show(buying_page(job))
        return DONE
    items = {item.name.lower(): item for item in buying(job)}
    item = items.get(options.item.lower())
    if options.ordered or options.arrived:
        if item is None:
            raise mistake(
                "buy", f'"{options.item}" is not on the buying list', f"on it: {', '.join(items) or 'nothing'}"
            )
        event = (
            Ordered(item=item.name, where=options.where, by=options.by)
            if options.ordered
            else Arrived(item=item.name, marked=options.marked, by=options.by)
        )
        folder.record(event)
        say(f"{item.name}: {'on order' if options.ordered else 'arrived'}.")
        if options.arrived:
            _say_what_to_measure(folder.job, item.name)
        return DONE
    if item is not None:
        raise mistake(
            "buy",
            f'"{item.name}" is on the buying list already',
            "say --ordered or --arrived, or nothing: it stays there",
        )
    if options.count < 1:
        raise mistake("buy", f"{options.count} of it cannot be bought", "say how many, like 2")
    folder.record(ToBuy(item=options.item, count=options.count, number_of_part=options.marked, by=options.by))
    say(f"{options.count} x {options.item}: to buy.")
    return DONE


def _say_what_to_measure(job: Any, name: str) -> None:
    from stackcheck.job.buying import buying
    from stackcheck.present.names import listed, size_words

    item = next(item for item in buying(job) if item.name == name)
    if item.not_measured:
        sizes = listed(size_words(size) for size in item.not_measured)
        say(f'Before it is fitted: {sizes}. stackcheck measure "{name}" {item.not_measured[0]} "... mic"')


def _fit(options: argparse.Namespace) -> int:
    from stackcheck.job.events import Fastened, Fitted
    from stackcheck.job.fit_remarks import fit_remarks, is_out, still_inside, torque_remark
    from stackcheck.job.fitting import DIFFERS as ITEM_DIFFERS
    from stackcheck.job.fitting import NOT_MEASURED, as_fitted, fit_steps, hindrance, joint_states
    from stackcheck.present.blocks import show
    from stackcheck.present.putting_right_page import (
        as_fitted_page,
        fitting_page,
        hindrance_words,
        inside_words,
        remark_words,
    )

    folder = job_named(options)
    job = folder.job
    if options.compare:
        fitted = _fitted_comparison(job, as_fitted(job))
        show(as_fitted_page(job, _compared(job), fitted))
        return fitted.exit_status
    said = " ".join(options.what)
    if not said:
        show(fitting_page(job))
        return (
            CANNOT_TELL
            if any(step.fitted is None for step in fit_steps(job)) or any(each.is_open for each in joint_states(job))
            else DONE
        )
    if options.state:
        joint = _joint(job, said)
        if options.value:
            from stackcheck.commands.common import said as read_option
            from stackcheck.formats.sizes import amount_of

            read_option("--value", options.value, lambda text: amount_of("torque", text))
        fastened = Fastened(
            joint=joint,
            state=options.state,
            value=options.value,
            thread=options.thread,
            tool=options.tool,
            how=options.how,
            by=options.by,
        )
        folder.record(fastened)
        say(
            f"{joint}: {options.state}{f', {options.value}' if options.value else ''}"
            f"{f', thread {options.thread}' if options.thread else ''}{f', {options.how}' if options.how else ''}."
        )
        wanted = next(
            (each.torque.text for each in job.reference.joints if each.name == joint and each.torque is not None), ""
        )
        if remark := torque_remark(job, fastened):
            say(remark_words(job, remark))
        elif wanted and options.state == "tightened":
            say(f"Reference: {wanted}.")
        if options.state == "tightened" and not options.value:
            say("No value was said: the record shows it as not recorded.")
        return DONE
    place = _place(job, said)
    toward = _toward(job, place, options.toward)
    item = _item(job, options.item)
    if options.entry and not 1 <= options.entry <= len(job.offs):
        raise mistake("fit", f"there is no entry {options.entry}", f"entries 1 to {len(job.offs)} came off")
    if not options.entry and item is None:
        own = [number for number, off in enumerate(job.offs, start=1) if off.place == place]
        raise mistake(
            "fit",
            "which part goes in?",
            f"say --entry {own[0] if own else 'NUMBER'} for what came off, or --item for a bought one",
        )
    if hinders := hindrance(job, place, item, toward):
        say(f"{hindrance_words(job, place, item, hinders)} Nothing was recorded.")
        if hinders == NOT_MEASURED:
            say(f'stackcheck measure "{item.name}" {item.not_measured[0]} "... mic"')
        return DIFFERS if hinders == ITEM_DIFFERS else CANNOT_TELL
    if inside := still_inside(job, place):
        if not options.out:
            say(f"{inside_words(job, place, inside)} Nothing was recorded. If it is: say --out as well.")
            return CANNOT_TELL
        folder.record(is_out(inside, options.by))
    fitted_now = Fitted(
        place=place,
        entry=options.entry,
        item=item.name if item else "",
        toward=toward,
        turns=options.turns,
        by=options.by,
    )
    job = folder.record(fitted_now)
    from stackcheck.present.names import place_words

    say(
        f"{place_words(job.reference, place)}: fitted, "
        f"{item.name + ' (new)' if item else f'entry {options.entry}'}{f', toward {toward}' if toward else ''}."
    )
    for remark in fit_remarks(job, _compared(job), fitted_now):
        say(remark_words(job, remark))
    return DONE


def _fitted_comparison(job: Any, found: Any) -> Any:
    from stackcheck.result import compare

    return compare(job.reference, found)


def _joint(job: Any, said: str) -> str:
    from stackcheck.formats.source import did_you_mean
    from stackcheck.formats.words import plain
    from stackcheck.job.fitting import fasteners

    names = fasteners(job.reference)
    for name in names:
        if plain(name) == plain(said):
            return name
    raise mistake("fit", f'no fastener is called "{said}"', did_you_mean(said, list(names)))


def _place(job: Any, said: str) -> str:
    from stackcheck.formats.source import did_you_mean
    from stackcheck.formats.words import plain
    from stackcheck.present.names import place_words

    own = [place.name for place in job.reference.places if not job.reference.part(place.part).fixed]
    for name in own:
        if plain(said) in (plain(name), plain(place_words(job.reference, name))):
            return name
    raise mistake("fit", f'no place is called "{said}"', did_you_mean(said, own))


def _toward(job: Any, place: str, said: str) -> str:
    from stackcheck.formats.facing import read_facing
    from stackcheck.formats.words import plain

    if not said or said.lower() == "not seen":
        return said.lower()
    reference = job.reference
    line = [
        {plain(name), plain(reference.part_at(name).name), plain(reference.part_at(name).kind)}
        for name in reference.line
    ]
    toward = read_facing(
        said, ends=reference.ends, end=reference.place(place).end, lines=[(line, reference.line.index(place))]
    )
    if not toward:
        raise mistake(
            "fit",
            f'which way is toward "{said}"?',
            f"say {reference.ends[0]} or {reference.ends[1]}, or a part beside it",
        )
    return reference.end_name(toward)


def _item(job: Any, said: str) -> Any:
    from stackcheck.job.buying import ARRIVED, READY, buying

    if not said:
        return None
    items = buying(job)
    for item in items:
        if item.name.lower() == said.lower():
            if item.state not in (ARRIVED, READY):
                raise mistake(
                    "fit", f"{item.name} has not arrived: it is {item.state}", f'stackcheck buy "{item.name}" --arrived'
                )
            return item
    raise mistake(
        "fit", f'"{said}" is not on the buying list', f"on it: {', '.join(item.name for item in items) or 'nothing'}"
    )
