"""What an answer at the bench means: a question and a text in, events and words back.

One key each: Enter for the offered name, a digit for a numbered choice, 0 for not seen, not measured or do not know.
Whatever else is typed at the name of a part is read as free text. Nothing is compared here, and nothing that is
expected is said: an answer passes without a word whether it agrees or not.
"""

from __future__ import annotations

import re

from stackcheck.bench.came_off import offered, typed_off
from stackcheck.bench.questions import FEEL_WORDS, Question
from stackcheck.bench.sizes_said import line_with_unit, reading_back, unit_asked, with_unit_and_how
from stackcheck.bench.step import Step
from stackcheck.errors import SizeError
from stackcheck.formats.found_words import FoundWords
from stackcheck.formats.words import plain
from stackcheck.job.events import (
    Answered,
    EndReached,
    Measured,
    NotSeen,
    NotThere,
    Photographed,
    Seen,
    Stopped,
    TakenApart,
    Undone,
)
from stackcheck.job.fitting import PULLED_THROUGH
from stackcheck.job.state import Job, undoable
from stackcheck.mechanics.press_fit import tight_ring
from stackcheck.present.event_words import said_of
from stackcheck.present.names import capital_first, listed, offered_name
from stackcheck.units.instruments import INSTRUMENTS
from stackcheck.value import replace

ZERO = frozenset({"0", "?", "not seen", "not measured", "do not know", "dont know", "don't know"})
NO = frozenset({"0", "no", "none", "nothing", "n"})
UNDO, PHOTO, STOP = (
    frozenset({"-", "u", "undo"}),
    re.compile(r"(?:\+|p\b|photo\b)\s*(?:card\s*)?(?P<card>\w*)$"),
    frozenset({"/", "q", "stop", "stop here"}),
)
PLAIN = ("no tab", "no teeth", "no cup", "no marks")
NOT_THERE, STUCK = ("1", "not there"), ("2", "stuck", "stuck together")


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
    """The step of an answer after what had to be asked about it:
    `line` is what it became, `typed` what was typed first.
    """
    if question.kind == "reading":
        return answer(job, question, line)
    return typed_off(job, line, end=question.end, place=question.place, loose=question.key == "loose", typed=typed)


def _common(job: Job, question: Question, text: str) -> Step | None:
    """The keys that mean the same everywhere: undo, photo, stop."""
    if text.lower() in UNDO:
        event = undoable(job)
        if event is None:
            return Step(again="There is nothing to undo.")
        return Step(events=(Undone(event=event.number),), said=(f"Undone: {said_of(job, event)}.",))
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
            return Step(events=(offered(job, question),))
        if said in NOT_THERE:
            return Step(
                events=(NotThere(place=question.place, end=question.end),),
                said=(
                    (
                        f"{capital_first(offered_name(job.reference, question.place))}: missing so far; "
                        "it may come from elsewhere."
                    ),
                ),
            )
        if said in STUCK:
            return Step(
                events=(offered(job, question, stuck=True),), said=("Stuck to the next one; it can be split later.",)
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
    if question.key == "inside" and not answered.is_none:
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
    """The end (or "same both ways", "not seen") that a direction in words means for an entry,
    "" where it settles nothing.
    """
    words = FoundWords(job.reference)
    toward = words.facing(job.found.entries[number - 1], word, words.line(job.found.entries, finished=False))
    return job.reference.end_name(toward) if toward in ("first", "second") else toward or ""
