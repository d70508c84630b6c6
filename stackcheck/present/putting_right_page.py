"""Decisions, the buying list and the fitting sequence as pages."""

from __future__ import annotations

from stackcheck.job.buying import Item, before_fitting, buying
from stackcheck.job.deciding import key_of, spare
from stackcheck.job.events import Decided, Fitted
from stackcheck.job.fit_remarks import (
    NOT_TO_REFIT,
    OTHER_PART,
    OTHER_TORQUE,
    OTHER_WAY,
    SINGLE_USE,
    WAY_NOT_SEEN,
    FitRemark,
)
from stackcheck.job.fitting import NOT_MEASURED, WAY, FitStep, as_fitted, fit_steps, joint_states
from stackcheck.job.open_items import OpenItem
from stackcheck.job.state import Job
from stackcheck.mechanics.press_fit import tight_ring
from stackcheck.model.reference import Joint
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.job_page import about_words, item_words
from stackcheck.present.names import capital_first, listed, place_words, size_words
from stackcheck.present.verdict_words import headline
from stackcheck.present.words import LABELS, limits_words, mm, sentence
from stackcheck.result import compare
from stackcheck.result.cautions import triggered
from stackcheck.result.comparison import Comparison


def decisions_page(job: Job, comparison: Comparison) -> list[Block]:
    """Every finding with its number and its decision."""
    if not comparison.findings:
        return [Text("There is no finding to decide on."), Text(headline(comparison))]
    blocks: list[Block] = []
    for number, result in enumerate(comparison.findings, start=1):
        words = sentence(result.finding, comparison.reference, comparison.found)
        blocks.append(Text(f"{LABELS[result.finding.kind]}  {words}", mark=f"{number:>2}  ", strong=True))
        decided = job.decisions.get(key_of(result.finding))
        said = (
            f"{decided.decision}{f': {decided.reason}' if decided.reason else ''}"
            f"{f' ({decided.by})' if decided.by else ''}"
            if decided
            else "undecided"
        )
        blocks.append(Text(said, indent=4))
    told = {key_of(result.finding) for result in comparison.findings}
    for about, decided in job.decisions.items():
        if about not in told:
            blocks.append(
                Text(f"{decided.decision}: {about_words(job, decided)}, which is no finding any more", mark=" -  ")
            )
    return blocks


def buying_page(job: Job) -> list[Block]:
    items = buying(job)
    if not items:
        return [Text("Nothing is on the buying list.")]
    rows = tuple(
        (item.name, str(item.count), item_number(item), item_sizes(job, item), item.state, item.why) for item in items
    )
    blocks: list[Block] = [
        Heading("BUYING LIST"),
        Rows(("part", "", "number", "size", "state", "why"), rows, right=(1,), wraps=(0, 2, 3, 5)),
    ]
    for item in items:
        if item.not_measured:
            blocks.append(
                Text(
                    f"{item.name}: {listed(size_words(size) for size in item.not_measured)}",
                    mark="measure before fitting: ",
                    indent=1,
                )
            )
        if item.measured:
            blocks.append(Text(f"{item.name}: {arrived_words(item)}", indent=1))
    return blocks


def item_number(item: Item) -> str:
    """Its number, or one of those that may stand for it."""
    return " or ".join(filter(None, (item.number, *item.accepts)))


def item_sizes(job: Job, item: Item) -> str:
    """ "20 x 47 x 14", "" where the reference says nothing."""
    part = job.reference.part(item.part) if item.part else None
    if part is None:
        return ""
    sizes = [part.size(name) for name in ("bore", "outside", "length")]
    return " x ".join(f"{size.nominal_mm:g}" for size in sizes if size is not None)


def arrived_words(item: Item) -> str:
    """What was measured of an arrived part, beside what the reference wants."""
    said = {"in": "agrees", "close": "cannot tell", "no limits": "no limits given"}
    return "; ".join(
        f"{size_words(each.size)} {mm(each.reading.value_mm)}, reference "
        f"{limits_words(each.wanted.least_mm, each.wanted.most_mm)}: {said.get(each.verdict, 'differs')}"
        for each in item.measured
    )


def hindrance_words(job: Job, place: str, item: Item | None, hindrance: str) -> str:
    """Why a part does not go in yet, and what to do."""
    if hindrance == WAY:
        return (
            f"Which way round? The reference wants the {job.reference.part_at(place).feature} looked at: "
            "say where it points, or not seen."
        )
    if hindrance == NOT_MEASURED:
        return (
            f"{item.name} was not measured yet: {listed(size_words(size) for size in item.not_measured)}. "
            "Measure it before it goes in."
        )
    return f"{item.name} is not the part of the reference: {arrived_words(item)}. Decide first."


REMARKS = {
    OTHER_PART: "Another part than the reference's", OTHER_WAY: "The other way round",
    NOT_TO_REFIT: "Not to be refitted", SINGLE_USE: "Single-use, and this is the one that came off",
    WAY_NOT_SEEN: "Which way round was not seen: not verified", OTHER_TORQUE: "Another torque",
}  # fmt: skip


def remark_words(job: Job, remark: FitRemark) -> str:
    """One line on what went in, said at once and again among the open items."""
    item = OpenItem(kind=remark.kind, place=remark.place, what=remark.what, entry=remark.entry, toward=remark.toward)
    return f"{REMARKS[remark.kind]}: {item_words(job, item, '')}. It stays among the open items."


def inside_words(job: Job, place: str, said: str) -> str:
    """What was said to be still inside, before another goes into the same place."""
    return f'{capital_first(place_words(job.reference, place))}: "{said}" is still inside by the record. Is it out?'


def fitting_page(job: Job) -> list[Block]:
    """The sequence, what is done, what each step wants to be minded, and how every fastener stands."""
    out = [
        decided
        for decided in job.decisions.values()
        if decided.decision in ("scrap", "leave out", "belongs to", "renew")
    ]
    blocks: list[Block] = [
        Text("Fitting sequence from the reference and the decisions; the maker's manual comes first.", strong=True)
    ]
    if out:
        blocks.append(
            Text(
                listed(f"{_about_words(job, decided)} ({decided.decision})" for decided in out) + ".",
                mark="Not to be fitted again: ",
                indent=1,
            )
        )
    for number, step in enumerate(fit_steps(job), start=1):
        blocks.append(Text(step_words(job, step), mark=f"{number:>2}  "))
    states = joint_states(job)
    if states:
        rows = tuple(
            (each.joint.name, each.state or "nothing said", _wanted(each.joint), each.last.value if each.last else "")
            for each in states
        )
        blocks += [Heading("FASTENERS"), Rows(("", "state", "reference", "recorded"), rows, wraps=(0, 2))]
    rest = spare(job)
    if rest and any(step.fitted for step in fit_steps(job)):
        blocks.append(
            Text(listed(f"entry {number}, {off.what}" for number, off in rest) + ".", mark="Spare on the bench: ")
        )
    blocks.append(Heading("CAUTIONS"))
    blocks += [Text(caution.text, mark=" -  ") for caution in triggered(job.reference, None, (), ())]
    return blocks


def _about_words(job: Job, decided: Decided) -> str:
    """ "entry 8, seal", or the place where nothing came off."""
    _, places, entries = decided.about.split(":")
    offs = [
        f"entry {number}, {job.offs[int(number) - 1].what}"
        for number in entries.split(",")
        if number and int(number) <= len(job.offs)
    ]
    return listed(offs) or listed(
        place_words(job.reference, place) for place in places.split(",") if job.reference.has_place(place)
    )


def step_words(job: Job, step: FitStep) -> str:
    """One step: the part, which way round, what to measure first, how it goes home; or what went in."""
    reference = job.reference
    place, part = reference.place(step.place), reference.part_at(step.place)
    name = place_words(reference, step.place)
    if step.fitted is not None:
        what = f"{step.fitted.item} (new)" if step.fitted.item else f"entry {step.fitted.entry}"
        toward = f", {part.feature} toward {step.fitted.toward}" if step.fitted.toward else ""
        turns = f", turns: {step.fitted.turns}" if step.fitted.turns else ""
        return f"{name}: fitted, {what}{toward}{turns}"
    wanted = [f"{name}, {place.count} of them" if place.count > 1 else name]
    if place.facing:
        wanted.append(f"{part.feature} toward {reference.end_name(place.facing)}")
    if any(part.has_duty(duty) for duty in ("new every time", "crushes once")):
        wanted.append("a new one")
    sizes = [
        size
        for size in before_fitting(part)
        if any(part.has_duty(duty) for duty in ("new every time",)) or size in part.must_measure
    ]
    if sizes:
        wanted.append(f"measure {listed(size_words(size) for size in sizes)} first")
    if step.how:
        ring = tight_ring(reference, step.place)
        wanted.append(
            f"press the {ring} {step.how}" if ring else f"{step.how}; press only the ring that is the press fit"
        )
        wanted.append("then turn it by hand")
    return ", ".join(wanted)


def _wanted(joint: Joint) -> str:
    torque = joint.torque.text if joint.torque is not None else "no value in the reference"
    return " ".join(
        filter(
            None,
            (
                torque,
                f"thread {joint.thread_condition}" if joint.thread_condition else "",
                f"locked by {joint.locked_by}" if joint.locked_by else "",
            ),
        )
    )


def as_fitted_page(job: Job, found: Comparison, fitted: Comparison) -> list[Block]:
    """As found beside as fitted, each against the reference."""
    blocks: list[Block] = [Text(f"As fitted: {headline(fitted)}", strong=True)]
    blocks += [
        Text(sentence(result.finding, fitted.reference, fitted.found), mark=" -  ") for result in fitted.findings
    ]
    blocks.append(Text(f"As found: {headline(found)}"))
    steps = fit_steps(job)
    done = sum(step.fitted is not None for step in steps)
    if done < len(steps):
        return [*blocks, Text(f"{done} of {len(steps)} places are filled: the lengths as fitted cannot be told yet.")]
    rows = []
    for was, now in zip(found.stacks, fitted.stacks):
        own = was.reference.total
        if own is not None:
            cells = [
                mm(total.nominal_mm) if total is not None else "cannot tell"
                for total in (was.as_found.total, now.as_found.total)
            ]
            rows.append((was.name, mm(own.nominal_mm), *cells))
    blocks += [
        Heading("LENGTHS, mm"),
        Rows(("stack", "reference", "as found", "as fitted"), tuple(rows), right=(1, 2, 3)),
    ]
    return blocks


def beside_as_found(job: Job, found: Comparison) -> list[Block]:
    """What a result shows of a job that goes together again: as fitted beside as found;
    nothing before the first part is in.
    """
    if not job.of(Fitted):
        return []
    return [Heading("AS FITTED"), *as_fitted_page(job, found, compare(job.reference, as_fitted(job)))]
