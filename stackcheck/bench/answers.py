"""What an answer at the bench means: a question and a text in, events and words back.

One key each: Enter for the offered name, a digit for a numbered choice, 0 for not seen, not measured or do not know.
Whatever else is typed at the name of a part is read as free text. Nothing is compared here, and nothing that is expected
is said: an answer passes without a word whether it agrees or not.
"""

from __future__ import annotations

import re

from stackcheck.bench.questions import FEEL_WORDS, Question
from stackcheck.bench.sizes_said import last_how, line_with_unit, reading_back, unit_asked, with_unit_and_how
from stackcheck.errors import SizeError
from stackcheck.formats.bench_line import Question as LineQuestion
from stackcheck.formats.bench_line import ReadLine, ReadPart, back, read_line
from stackcheck.formats.found_words import FoundWords
from stackcheck.formats.readings import reading_of
from stackcheck.formats.words import plain
from stackcheck.job.events import (
    Answered,
    EndReached,
    Event,
    Measured,
    Noted,
    NotSeen,
    NotThere,
    Off,
    Photographed,
    Seen,
    Stopped,
    TakenApart,
    Undone,
)
from stackcheck.job.fitting import PULLED_THROUGH
from stackcheck.job.state import Job, undoable
from stackcheck.mechanics.press_fit import tight_ring
from stackcheck.model.part import ROLLING_BEARINGS
from stackcheck.present.event_words import event_words
from stackcheck.present.names import capital_first, is_told_apart, listed, offered_name
from stackcheck.units.instruments import INSTRUMENTS
from stackcheck.value import Value, replace

ZERO = frozenset({"0", "?", "not seen", "not measured", "do not know", "dont know", "don't know"})
NO = frozenset({"0", "no", "none", "nothing", "n"})
UNDO, PHOTO, STOP = (
    frozenset({"-", "u", "undo"}),
    re.compile(r"(?:\+|p\b|photo\b)\s*(?:card\s*)?(?P<card>\w*)$"),
    frozenset({"/", "q", "stop", "stop here"}),
)
PLAIN = ("no tab", "no teeth", "no cup", "no marks")
NOT_THERE, STUCK = ("1", "not there"), ("2", "stuck", "stuck together")


class Step(Value, kw_only=True):
    """What an answer leads to: events to be recorded, words to be shown; or something to `ask` before it can be recorded.

    `again` holds the reason where the text could not be read: nothing is recorded and the question stands.
    """

    events: tuple[Event, ...] = ()
    said: tuple[str, ...] = ()
    ask: LineQuestion | None = None
    again: str = ""


def answer(job: Job, question: Question, text: str) -> Step:
    """Read an answer to a question of `next_question`."""
    text = text.strip()
    common = _common(job, question, text)
    if common is not None:
        return common
    if question.kind == "part":
        return _part(job, question, text)
    if not text or text.lower() in ZERO or (question.zero == "no" and text.lower() in NO):
        return _skipped(question, text)
    return {"choice": _choice, "several": _several, "reading": _reading, "count": _count, "words": _words}[
        question.kind
    ](job, question, text)


def said_again(job: Job, question: Question, line: str, typed: str) -> Step:
    """The step of an answer after what had to be asked about it: `line` is what it became, `typed` what was typed first."""
    if question.kind == "reading":
        return answer(job, question, line)
    return typed_off(job, line, end=question.end, place=question.place, loose=question.key == "loose", typed=typed)


def _common(job: Job, question: Question, text: str) -> Step | None:
    """The keys that mean the same everywhere: undo, photo, stop."""
    if text.lower() in UNDO:
        event = undoable(job)
        if event is None:
            return Step(again="There is nothing to undo.")
        return Step(events=(Undone(event=event.number),), said=(f"Undone: {event_words(event, job.reference)}.",))
    if text.lower() in STOP:
        return Step(events=(Stopped(),))
    photo = PHOTO.match(text.lower())
    if photo:
        if not photo["card"]:
            return Step(again="Which card is in the picture? + and its number, like +6")
        entry = question.entry or len(job.offs)
        return Step(events=(Photographed(card=photo["card"], entry=entry),), said=(f"Photo, card {photo['card']}.",))
    return None


def _skipped(question: Question, text: str) -> Step:
    if question.key == "taken apart":
        return Step(events=(Stopped(),))
    skipped = Answered(key=question.key, question=question.text, answer="no" if question.zero == "no" and text else "")
    if question.kind == "choice" and question.key.startswith("facing:"):
        return Step(events=(Seen(entry=question.entry, toward="not seen"),))
    return Step(events=(skipped,))


# --- what came off ---------------------------------------------------------------------------------------------------


def _part(job: Job, question: Question, text: str) -> Step:
    said = text.lower()
    if question.key == "loose" and (not text or said.partition(",")[0] in NO):
        return Step(events=(Answered(key="loose", question=question.text, answer="no" if said in ZERO else text),))
    if question.place:
        if not text or said in ("y", "yes"):
            return Step(events=(_offered(job, question),))
        if said in NOT_THERE:
            return Step(
                events=(NotThere(place=question.place, end=question.end),),
                said=(
                    f"{capital_first(offered_name(job.reference, question.place))}: missing so far; it may come from elsewhere.",
                ),
            )
        if said in STUCK:
            return Step(
                events=(_offered(job, question, stuck=True),), said=("Stuck to the next one; it can be split later.",)
            )
        if said in ZERO:
            return Step(events=(NotSeen(place=question.place, end=question.end),))
    if text == "*":
        return Step(again="Say what it is: kind, sizes, what it looks like.")
    for end in job.reference.ends:
        if plain(said) in (plain(end), plain(f"{end} end")):
            return Step(
                events=tuple(
                    EndReached(end=other)
                    for other in job.reference.ends
                    if other != end and other not in job.ends_reached
                )
            )
    return typed_off(job, text, end=question.end, place=question.place, loose=question.key == "loose")


def _offered(job: Job, question: Question, *, stuck: bool = False) -> Off:
    return Off(
        end=question.end,
        stuck_to_next=stuck,
        **_identity(job, question.place),
        what=offered_name(job.reference, question.place),
    )


def _identity(job: Job, place: str) -> dict[str, str]:
    """What confirming a name says: the part, or only its kind where another part of the reference goes by that kind."""
    part = job.reference.part_at(place)
    return {"place": place, "kind": part.kind, "part": part.id if is_told_apart(job.reference, place) else ""}


def typed_off(job: Job, text: str, *, end: str = "", place: str = "", loose: bool = False, typed: str = "") -> Step:
    """One typed line about what came off: events for each thing in it, and how it was read.

    Args:
        text: as typed.
        end: the end it came off, unless the line names one.
        place: the place that was offered when it was typed: a line that only adds sizes, facing or feel confirms it.
        loose: asked for as something found loose.
        typed: what was typed first, where `text` is what it became after a question about it.
    """
    reference = job.reference
    if place and not loose and (doubt := _bare_figure(job, text, place)) is not None:
        return Step(ask=doubt)
    try:
        read = read_line(text, reference=reference, ends=reference.ends, default_unit=job.begun.unit, how=last_how(job))
        for size in (size for part in read.parts for _, size in part.sizes):
            reading_of(size)
    except SizeError as problem:
        return Step(again=f'"{problem.said}": {problem.wanted}')
    if read.questions:
        return Step(ask=read.questions[0])
    if read.gap:
        return _gap(job, read)
    if read.pack and not read.parts:
        if not job.offs:
            return Step(again="Which pack? Nothing came off yet.")
        return Step(events=(Noted(text=f"as a pack {read.pack}", entry=len(job.offs)),), said=(back(read),))
    if not read.parts or not all(_says_something(part, place, loose=loose) for part in read.parts):
        return Step(again="That says nothing about a part. Say its kind, its sizes, what it looks like.")
    events: list[Off] = []
    taken: set[str] = set()
    for part in read.parts:
        off = _off(
            job,
            part,
            end=end,
            place=place if place not in taken else "",
            taken=taken,
            loose=loose,
            typed=typed or read.typed,
        )
        taken.add(off.place)
        events.append(off)
    if read.pack:
        events[-1] = replace(events[-1], note=" · ".join(filter(None, (events[-1].note, f"as a pack {read.pack}"))))
    return Step(events=tuple(events), said=(back(read),))


def _bare_figure(job: Job, text: str, place: str) -> LineQuestion | None:
    """What has to be asked about a length typed alone at an offered name, in a unit that cannot be meant."""
    if not re.fullmatch(r"[\d.,/ ]+( [a-z]+)?", text.strip()):
        return None
    try:
        text_with, _ = with_unit_and_how(job, text, "length")
        doubt = unit_asked(job, text, "length", job.reference.part_at(place).kind)
    except SizeError:
        return None  # what it is, the reading of the line says
    return doubt and replace(
        doubt, choices=tuple((words, line_with_unit(text_with, unit)) for words, unit in doubt.choices)
    )


def _says_something(part: ReadPart, place: str, *, loose: bool) -> bool:
    """Whether a line is about a part at all: at an offered name a size alone is, elsewhere a kind or a word is wanted."""
    if (
        part.kind
        or part.look
        or part.unknown
        or part.marked
        or part.same_as_other_side
        or re.search("[a-z]{2}", part.what, re.IGNORECASE)
    ):
        return True
    return bool(place and not loose and (part.sizes or part.feel or part.toward))


def _gap(job: Job, read: ReadLine) -> Step:
    gaps = [gap.name for stack in job.reference.stacks for gap in stack.gaps]
    if len(gaps) == 1:
        return Step(events=(Measured(gap=gaps[0], reading=read.gap),), said=(f"{capital_first(gaps[0])}: {read.gap}.",))
    return Step(
        again=f"Which gap? Say it with its name: stackcheck measure ... ({', '.join(gaps) or 'the reference has none'})"
    )


def _off(job: Job, part: ReadPart, *, end: str, place: str, taken: set[str], loose: bool, typed: str) -> Off:
    reference = job.reference
    own_end = reference.ends[part.end] if part.end is not None else end
    is_loose = loose or part.place_seen == "found loose"
    called = FoundWords(reference).part_called(part.what) if part.what and not part.unknown else None
    identity: dict[str, str] = {"kind": part.kind}
    if place and not is_loose and _confirms(job, place, part, called):
        identity = _identity(job, place)
        if called is not None and reference.has_part(called):
            identity["part"] = called
    elif not is_loose and (other := _place_for(job, part, called, own_end, taken)):
        identity = _identity(job, other)
        identity["part"] = identity["part"] if called is None else called
    return Off(
        what=part.what or (offered_name(reference, identity["place"]) if identity.get("place") else typed), typed=typed,
        end="" if is_loose else own_end, **identity, marked=part.marked, count=part.count, sizes=dict(part.sizes),
        feature=part.feature, toward=part.toward, feel=part.feel, look=part.look, came_off=part.came_off,
        place_seen="found loose" if is_loose else part.place_seen, where=part.where, card=part.card,
        stuck_to_next=part.stuck_to_next, same_as_other_side=part.same_as_other_side, note=part.note,
    )  # fmt: skip


def _confirms(job: Job, place: str, part: ReadPart, called: str | None) -> bool:
    """Whether a line typed at an offered name adds to it rather than naming something else."""
    wanted = job.reference.part_at(place)
    if part.unknown or part.count > max(1, job.reference.place(place).count):
        return False
    if called is not None:
        return called == wanted.id or (
            job.reference.has_part(called) and job.reference.part(called).kind == wanted.kind
        )
    if not part.kind and not (
        part.sizes or part.toward or part.feel or part.look or part.came_off or part.marked or part.same_as_other_side
    ):
        return False  # words that add nothing to a name are something else
    if part.kind and part.kind != wanted.kind and wanted.kind not in _relatives(part.kind):
        return False
    return all(_can_be(job, wanted.kind, name, text) for name, text in part.sizes)


def _relatives(kind: str) -> frozenset[str]:
    """Kinds that people call by the same word: a bearing may be any bearing, a washer any washer."""
    families = (
        ROLLING_BEARINGS,
        frozenset({"washer", "shim ring", "ring", "thrust washer", "spring washer", "tab washer"}),
    )
    return next((family for family in families if kind in family), frozenset())


def _can_be(job: Job, kind: str, name: str, text: str) -> bool:
    """Whether some part of this kind in the reference could have this size, worn or measured roughly."""
    sizes = [size for part in job.reference.parts if part.kind == kind and (size := part.size(name)) is not None]
    if not sizes:
        return True
    reading = reading_of(text)
    return any(
        abs(reading.value_mm - size.nominal_mm) <= max(0.25 * size.nominal_mm, 0.5, reading.good_to_mm)
        for size in sizes
    )


def _place_for(job: Job, part: ReadPart, called: str | None, end: str, taken: set[str]) -> str:
    """The unmet place that a named thing can only have come from: of its part, or of its kind where that tells it apart."""
    reference = job.reference
    met = {off.place for off in job.offs} | taken
    backwards = end == reference.ends[1]
    line = reference.line[::-1] if backwards else reference.line
    for name in line:
        own = reference.part_at(name)
        if own.fixed or name in met:
            continue
        if called == own.id or (called is None and part.kind == own.kind and is_told_apart(reference, name)):
            return name
    return ""


# --- what is said of it ----------------------------------------------------------------------------------------------


def _choice(job: Job, question: Question, text: str) -> Step:
    if question.key == "taken apart":
        return Step(events=(TakenApart(),)) if text in ("1", "y", "yes") else Step(again="1 yes, 0 no: stop here")
    means = _chosen(question, text)
    if means is None and question.key.startswith("facing:"):
        means = toward_end(job, question.entry, text) or None
    if means is None:
        return Step(again=f"Say {choices_words(question)}.")
    if question.key.startswith("facing:"):
        feature = job.reference.part_at(job.offs[question.entry - 1].place).feature
        return Step(events=(Seen(entry=question.entry, feature=feature, toward=means),))
    said: tuple[str, ...] = ()
    place = job.offs[question.entry - 1].place
    tight = tight_ring(job.reference, place) if question.text == "Pulled by" and place else ""
    if tight and means != tight:
        said = (f"The {tight} was the tight one, so the pull went through the balls: do not refit.",)
        return Step(
            events=(Seen(entry=question.entry, came_off=f"pulled by the {means}", look=(PULLED_THROUGH,)),), said=said
        )
    came_off = f"pulled by the {means}" if question.text == "Pulled by" else means
    return Step(events=(Seen(entry=question.entry, came_off=came_off),))


def _chosen(question: Question, text: str) -> str | None:
    """What a digit, a first letter or the words of a choice stand for."""
    if text.isdecimal() and 1 <= int(text) <= len(question.choices):
        return question.choices[int(text) - 1].means
    said = plain(text)
    for same in (
        lambda words: words == said,
        lambda words: words.startswith(said),
        lambda words: said in words.split(),
    ):
        fitting = [
            choice.means for choice in question.choices if same(plain(choice.shown)) or same(plain(choice.means))
        ]
        if len(set(fitting)) == 1:
            return fitting[0]
    return None


def _several(job: Job, question: Question, text: str) -> Step:
    digits = text.replace(" ", "").replace(",", "")
    if digits.isdecimal() and all(1 <= int(digit) <= len(question.choices) for digit in digits):
        feels = tuple(dict.fromkeys(question.choices[int(digit) - 1].means for digit in digits))
    else:
        feels = tuple(word.strip() for word in re.split(r",| and ", text) if word.strip())
        feels = tuple(_chosen(question, word) or word for word in feels)
        if not feels or not all(any(known in feel.lower() for known in FEEL_WORDS) for feel in feels):
            return Step(again=f"Say {choices_words(question)}, or {listed(sorted(FEEL_WORDS), 'or')}.")
    return Step(events=(Seen(entry=question.entry, feel=feels),))


def _reading(job: Job, question: Question, text: str) -> Step:
    try:
        typed = text
        text, reading = with_unit_and_how(job, text, question.size)
    except SizeError as problem:
        return Step(again=f'"{problem.said}": {problem.wanted}')
    if not question.gap and (doubt := unit_asked(job, typed, question.size, _kind_of(job, question))) is not None:
        return Step(
            ask=replace(doubt, choices=tuple((words, line_with_unit(text, unit)) for words, unit in doubt.choices))
        )
    said = [reading_back(reading)]
    earlier = [each for each in job.readings(entry=question.entry).get(question.size, ()) if question.entry]
    if earlier:
        before = f"By {earlier[-1].how}" if earlier[-1].how in INSTRUMENTS else "Before"
        said.append(f"{before} it was {earlier[-1].value_mm:g}. Both kept.")
    event = Measured(reading=text, entry=question.entry, place=question.place, gap=question.gap, size=question.size)
    return Step(events=(event,), said=tuple(said))


def _kind_of(job: Job, question: Question) -> str:
    """The kind of part that a size is asked of."""
    place = job.offs[question.entry - 1].place if question.entry else question.place
    return job.reference.part_at(place).kind if place else job.offs[question.entry - 1].kind if question.entry else ""


def _count(job: Job, question: Question, text: str) -> Step:
    if not text.isdecimal() or not 1 <= int(text) <= 10_000:
        return Step(again="Say how many, like 6; 0 not counted.")
    return Step(events=(Seen(entry=question.entry, count=int(text)),))


def _words(job: Job, question: Question, text: str) -> Step:
    if not re.search(r"\w", text):
        return Step(again="Say it in words or figures; 0 for " + question.zero + ".")
    first, _, rest = text.partition(" ")
    if question.choices and first.isdecimal() and 1 <= int(first) <= len(question.choices):
        text = " ".join(filter(None, (question.choices[int(first) - 1].means, rest)))
    answered = Answered(key=question.key, question=question.text, answer=text)
    if question.key == "inside" and not text.lower().startswith(("no", "none")):
        return Step(
            events=(answered,),
            said=("Kept as said. It stays among the open items until it is out and entered at its end.",),
        )
    if question.key.startswith("marks:"):
        plain_part = text.lower() in ("plain", "none", "no", "nothing")
        return Step(events=(Seen(entry=question.entry, look=PLAIN if plain_part else (text,)),))
    said = (
        ("It was under load. Find out why before clamping it again.",)
        if question.key.startswith("loosened:") and "moved" in text and "nothing" not in text
        else ()
    )
    return Step(events=(answered,), said=said)


def choices_words(question: Question) -> str:
    """ "1 left leg 2 bearing 0 not seen"."""
    return " ".join(
        [*(f"{number} {choice.shown}" for number, choice in enumerate(question.choices, start=1)), f"0 {question.zero}"]
    )


def toward_end(job: Job, number: int, word: str) -> str:
    """The end (or "same both ways", "not seen") that a direction in words means for an entry, "" where it settles nothing."""
    words = FoundWords(job.reference)
    toward = words.facing(job.found.entries[number - 1], word, words.line(job.found.entries, finished=False))
    return job.reference.end_name(toward) if toward in ("first", "second") else toward or ""
