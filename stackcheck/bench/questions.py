"""Which question comes next in a teardown: computed from the job alone.

The sequence: what to look at before loosening; then from the first end, part after part, the name, how it came off,
which way its feature pointed, how it turns, the sizes that must be measured; then the same from the second end; then
what may still be inside or loose; then sizes on what stayed. Whatever was answered, skipped or passed is not asked
again, and a question comes back when its answer is undone.
"""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.bench.before import before_loosening, clamp_of
from stackcheck.bench.names import beside
from stackcheck.job.events import Off
from stackcheck.job.state import Job
from stackcheck.model.part import CARRIED_AWAY, RING_BEARINGS, ROLLING_BEARINGS, Part
from stackcheck.model.reference import Reference
from stackcheck.present.names import capital_first, offered_name, size_words
from stackcheck.value import Value

FASTENERS = frozenset({"nut", "bolt", "circlip", "split pin"})
FEELS = ("smooth", "dry", "stiff", "gritty", "notchy", "loose")
FEEL_WORDS = frozenset({*FEELS, "rumbly", "seized"})
"""How a bearing turns: the six that are offered, and all that are known."""

NOT_SEEN = "not seen"


class Choice(Value):
    """A numbered answer: what is shown, and what it stands for."""

    shown: str
    means: str


class Question(Value, kw_only=True):
    """One question.

    `key` is the same wherever and whenever it is asked. `kind` says how an answer is read: "part", "reading", "choice",
    "several" (more than one digit may be true), "words". `zero` is what 0 stands for. `where` heads it ("Left 3.").
    """

    key: str
    kind: str
    text: str
    where: str = ""
    choices: tuple[Choice, ...] = ()
    zero: str = NOT_SEEN
    entry: int = 0
    place: str = ""
    end: str = ""
    size: str = ""
    gap: str = ""


def next_question(job: Job) -> Question | None:
    """The next question of the teardown, None where nothing is left to ask."""
    return next(all_questions(job), None)


def all_questions(job: Job) -> Iterator[Question]:
    """Every question that is open now, the next one first."""
    if not job.offs:
        yield from _before(job)
    yield from _about_entries(job)
    if not job.taken_apart:
        yield from _parts(job)
        yield from _at_the_end(job)


def lasting_name(job: Job, question: Question) -> str:
    """A name by which a question is known however entries are numbered: what it asks, and of which place.

    An answer that was given without the journal at hand finds its question by it.
    """
    if question.kind == "part" and question.place:
        return f"part@{question.end}@{question.place}"
    if question.entry:
        what, _, rest = question.key.partition(":")
        size = rest.partition(":")[2]
        return "@".join(filter(None, (what, job.offs[question.entry - 1].place or f"entry {question.entry}", size)))
    return question.key


def _before(job: Job) -> Iterator[Question]:
    for asked in before_loosening(job.reference):
        if asked.key in job.answers:
            continue
        if asked.gap or asked.place:
            if not job.readings(place=asked.place, gap=asked.gap):
                yield Question(
                    key=asked.key, kind="reading", text=asked.text, where="Before loosening.", zero="not measured",
                    place=asked.place, gap=asked.gap, size=asked.size,
                )  # fmt: skip
        else:
            yield Question(
                key=asked.key, kind="words", text=asked.text, where="Before loosening.", zero="not looked at"
            )


def _about_entries(job: Job) -> Iterator[Question]:
    """What is still to be said of what came off, latest entry last;
    nothing is asked about a part found loose but its marks.
    """
    for number, off in enumerate(job.offs, start=1):
        for question in _about(job, number, off):
            if question.key not in job.answers:
                yield question


def _about(job: Job, number: int, off: Off) -> Iterator[Question]:
    if off.place_seen == "found loose":
        if not off.feature and not off.look:
            yield Question(
                key=f"marks:{number}",
                kind="words",
                text="Tab, tooth, cup or marks? (plain: none of them)",
                entry=number,
            )
        return
    part = part_of(job, off)
    if off.place and off.count == 1 and job.reference.place(off.place).count > 1:
        yield Question(key=f"count:{number}", kind="count", text="How many of them", zero="not counted", entry=number)
    kind = part.kind if part is not None else off.kind
    if not off.came_off:
        if kind in FASTENERS:
            choices = (
                _choices("by hand", "spanner", "very hard")
                if kind in ("nut", "bolt")
                else _choices("by hand", "tool", "very hard")
            )
            yield Question(key=f"came off:{number}", kind="choice", text="Came off", choices=choices, entry=number)
        elif kind in RING_BEARINGS:
            yield Question(
                key=f"came off:{number}",
                kind="choice",
                text="Pulled by",
                choices=_choices("inner ring", "outer ring"),
                entry=number,
            )
    if not off.toward and off.place:
        yield from facing_question(job.reference, number, off)
    if not off.feel and kind in ROLLING_BEARINGS:
        choices = tuple(Choice(feel, feel) for feel in FEELS)
        yield Question(key=f"feel:{number}", kind="several", text="Turns", choices=choices, entry=number)
    if part is not None or off.place:
        own = part or job.reference.part_at(off.place)
        measured = job.readings(entry=number)
        for size in own.must_measure:
            if size not in measured:
                text = f"{capital_first(size_words(size))} (must measure)"
                yield Question(
                    key=f"size:{number}:{size}", kind="reading", text=text, zero="not measured", entry=number, size=size
                )
    joint = clamp_of(job.reference, part) if part is not None else None
    if joint is not None:
        text = f"When the {joint.name} was loosened, what moved and how far"
        choices = (
            Choice("nothing moved", "nothing moved"),
            Choice("something moved out", "moved out"),
            Choice("something moved in", "moved in"),
        )
        yield Question(key=f"loosened:{joint.name}", kind="words", text=text, choices=choices, entry=number)


def facing_question(reference: Reference, number: int, off: Off) -> Iterator[Question]:
    """Choice 1 is always the one nearer the first end: the number follows the geometry, never what is expected."""
    place = reference.place(off.place)
    part = reference.part(place.part)
    if not part.feature or part.same_both_ways or not (place.facing or part.blocks_agreement):
        return
    first, second = beside(reference, off.place)
    choices = (Choice(first, reference.ends[0]), Choice(second, reference.ends[1]))
    yield Question(
        key=f"facing:{number}",
        kind="choice",
        text=f"{capital_first(part.feature)} toward",
        choices=choices,
        entry=number,
    )


def _parts(job: Job) -> Iterator[Question]:
    """The next unmet place from the first end, then from the second, then what could be met from neither."""
    for end, name in enumerate(job.reference.ends):
        if name in job.ends_reached:
            continue
        for place in _open_to(job, end):
            count = sum(off.end == name and off.place_seen != "found loose" for off in job.offs) + 1
            text = f"{capital_first(offered_name(job.reference, place))}?"
            yield Question(
                key=f"part:{name}:{place}:{count}",
                kind="part",
                text=text,
                where=f"{capital_first(name)} {count}.",
                end=name,
                place=place,
            )
    for place in _unmet(job, 0):
        text = f"{capital_first(offered_name(job.reference, place))}?"
        yield Question(key=f"part::{place}:{len(job.offs)}", kind="part", text=text, where="Not met yet.", place=place)


def other_end(job: Job, question: Question) -> str:
    """The end that may be begun from instead: asked for the first part of an end while the other one is open too,
    else "".
    """
    if question.kind != "part" or not question.end or any(off.end == question.end for off in job.offs):
        return ""
    number = 1 - job.reference.ends.index(question.end)
    name = job.reference.ends[number]
    return name if name not in job.ends_reached and _open_to(job, number) else ""


def _unmet(job: Job, end: int) -> list[str]:
    """Places that nothing came out of, and that were neither found empty nor passed; nearest this end first."""
    reference, met = job.reference, {off.place for off in job.offs} | job.passed
    return [name for name in reference.line_inward[end] if name not in met and not reference.part_at(name).fixed]


def _open_to(job: Job, end: int) -> list[str]:
    """Unmet places that no member which stays on hides from this end, nearest first.

    What lies behind a hidden place is hidden too; a part that did come off from behind such a member opens the way.
    """
    reference, unmet = job.reference, _unmet(job, end)
    met_from_here = {off.place for off in job.offs if off.end in ("", reference.ends[end])} | job.passed
    stacks = [stack.places if end == 0 else stack.places[::-1] for stack in reference.stacks]
    hidden: set[str] = set()
    for name in reference.line_inward[end]:
        part = reference.part_at(name)
        before = [places[: places.index(name)] for places in stacks if name in places]
        behind = any(_is_barred(reference, name, places, hidden, met_from_here) for places in before)
        if behind and (name in unmet or part.fixed):
            hidden.add(name)
    return [name for name in unmet if name not in hidden]


def _is_barred(reference: Reference, name: str, before: tuple[str, ...], hidden: set[str], met: set[str]) -> bool:
    """Whether the way to a place through those before it, from the end inward, ends at one that bars it.

    The wall of a groove bars nothing: its circlip comes out of it.
    """
    barred = False
    for place, inward in zip(before, (*before[1:], name)):
        part = reference.part_at(place)
        if place in hidden or (
            part.fixed and part.kind not in CARRIED_AWAY and reference.part_at(inward).kind != "circlip"
        ):
            barred = True
        elif place in met:
            barred = False
    return barred


def _at_the_end(job: Job) -> Iterator[Question]:
    more = " else" if any(off.place_seen == "found loose" for off in job.offs) else ""
    asked = (
        ("inside", "Anything still inside, or stuck to a face?"),
        ("loose", f"Anything{more} loose: tray, rag, floor?"),
    )
    for key, text in asked:
        if key not in job.answers:
            yield Question(key=key, kind="part" if key == "loose" else "words", text=text, zero="no")
    for place, size in _sizes_of_what_stays(job.reference):
        key = f"stays:{place}:{size}"
        if key not in job.answers and size not in job.readings(place=place):
            text = f"{capital_first(offered_name(job.reference, place))}: {size_words(size)} (must measure)"
            yield Question(key=key, kind="reading", text=text, zero="not measured", place=place, size=size)
    yield Question(
        key="taken apart",
        kind="choice",
        text="Everything off that comes off",
        choices=_choices("yes"),
        zero="no, stop here",
    )


def _sizes_of_what_stays(reference: Reference) -> list[tuple[str, str]]:
    """Sizes of fixed members that a stated gap needs: nobody else asks for them."""
    wanted = [
        (place.name, size)
        for place in reference.places
        if reference.part(place.part).fixed
        for size in reference.part(place.part).must_measure
    ]
    for limit in reference.limits:
        for name in (each.partition("/")[0] for each in limit.between):
            if (
                reference.has_place(name)
                and reference.part_at(name).fixed
                and reference.part_at(name).size("length") is not None
            ):
                wanted.append((name, "length"))
    return list(dict.fromkeys(wanted))


def part_of(job: Job, off: Off) -> Part | None:
    """The part that an entry is known or said to be."""
    reference = job.reference
    if off.part and reference.has_part(off.part):
        return reference.part(off.part)
    return None


def _choices(*words: str) -> tuple[Choice, ...]:
    return tuple(Choice(word, word) for word in words)
