"""`off`, `measure`, `look`, `note`, `photo`, `undo`: one line, one event, on disk before the answer."""

from __future__ import annotations

import argparse
import sys
from typing import Any

from stackcheck.commands.common import CANNOT_TELL, DONE
from stackcheck.commands.jobs import job_named, job_options, jobs_folder, mistake, open_jobs, say


def add(commands: Any) -> None:
    off = commands.add_parser(
        "off",
        help="one thing came off",
        description="One thing came off: the end it came off, and what it is in your own words with sizes, direction "
        'and feel: off left "collar 22.02 cal, flange out". A dash for the end reads many lines from a pasted note, '
        "each with its end first; all of them are taken or none.",
    )
    off.add_argument(
        "end",
        metavar="END",
        help='an end of the assembly, "loose" for what was found loose, or - for lines from a note',
    )
    off.add_argument("words", metavar="WORDS", nargs="*", help="what came off")
    off.add_argument("--yes", action="store_true", help="with -: take the lines without asking")
    job_options(off)
    off.set_defaults(command=_off)

    measure = commands.add_parser(
        "measure",
        help="a size of something that came off, of what stayed on, or a gap",
        description='A size: measure 3 length "22.01 mic" (entry 3), measure hub length "57.97 depth mic" (a place '
        'that stayed on), measure "free gap" "3.0..3.5 feeler". Earlier readings are kept; the finest counts.',
    )
    measure.add_argument("what", metavar="WHAT", help="number of an entry, a place, a gap, or something that arrived")
    measure.add_argument(
        "size", metavar="SIZE", nargs="?", default="", help="length, bore, outside, ... (not for a gap)"
    )
    measure.add_argument("reading", metavar="READING", nargs="+", help='"22.01 mic"')
    measure.add_argument(
        "--same", action="store_true", help="it is the part that was measured before, though the reading is another"
    )
    job_options(measure)
    measure.set_defaults(command=_measure)

    look = commands.add_parser(
        "look",
        help="how a part that came off feels, looks or stood",
        description='More about an entry: look 5 "gritty, rust"; look 4 --toward bearing; '
        "look 3 --part collar-long says which part it is after all.",
    )
    look.add_argument("entry", metavar="ENTRY", type=int)
    look.add_argument("words", metavar="WORDS", nargs="*", help="feel and look, separated by commas")
    look.add_argument("--toward", metavar="END", default="", help="where its named feature points")
    look.add_argument("--part", metavar="PART", default="", help="which part of the reference it is")
    look.add_argument("--unsure", action="store_true", help="the part is a guess")
    job_options(look)
    look.set_defaults(command=_look)

    note = commands.add_parser(
        "note",
        help="free words; --until keeps them open",
        description="Free words for the record. --until temporary, borrowed or use keeps them among the open items "
        "until: note --settled NUMBER.",
    )
    note.add_argument("words", metavar="WORDS", nargs="*")
    note.add_argument(
        "--until",
        choices=("temporary", "borrowed", "use"),
        default="",
        help="temporary thing fitted, borrowed tool, or a check due after use",
    )
    note.add_argument("--entry", metavar="ENTRY", type=int, default=0)
    note.add_argument("--settled", metavar="NUMBER", type=int, help="the note of that number is no longer open")
    job_options(note)
    note.set_defaults(command=_note)

    photo = commands.add_parser(
        "photo",
        help="a photo with a numbered card in it",
        description="A photo was taken with this card in it; of the last entry unless another is named. "
        "`photo FILE --card 6` copies the picture into the job's folder, without the place where it was taken.",
    )
    photo.add_argument("card", metavar="CARD", help="the number on the card, or a picture file together with --card")
    photo.add_argument("--card", dest="card_of_file", metavar="CARD", default="", help="the card in the picture file")
    photo.add_argument("--entry", metavar="ENTRY", type=int, default=0)
    job_options(photo)
    photo.set_defaults(command=_photo)

    undo = commands.add_parser(
        "undo",
        help="take back the last answer",
        description="Take back the last answer that counts; it stays in the journal, struck through. "
        "Say it again to walk further back.",
    )
    job_options(undo)
    undo.set_defaults(command=_undo)


def _off(options: argparse.Namespace) -> int:
    from stackcheck.bench.came_off import typed_off

    if options.end == "-":
        return _many(options)
    folder = job_named(options) if options.job else _job_with_end(options)
    end, loose = _end(folder.begun.ends, options.end)
    words = " ".join(options.words)
    if words == "-":
        raise mistake(
            "off",
            "lines of a note are read with off -, each with its end first",
            f"off - < note.txt, its lines like: {options.end}: collar 22.02 cal",
        )
    if not words:
        raise mistake(
            "off", "nothing says what came off", f'say it in your own words: off {options.end} "collar 22.02 cal"'
        )
    step = typed_off(folder.job, words, end=end, loose=loose)
    _refuse_open(step, words)
    first = len(folder.job.offs) + 1
    folder.record(*_signed(step.events, options.by))
    entry = f"Entry {first}: " if len(folder.job.offs) >= first else ""
    say(f"{entry}{' '.join(step.said)} Undo: stackcheck undo")
    return DONE


def _many(options: argparse.Namespace) -> int:
    """Lines of a pasted note, all or none: every reading is shown before any is taken."""
    from stackcheck.bench.came_off import typed_off
    from stackcheck.errors import InputError, Mistake

    folder = job_named(options)
    lines = [line.strip() for line in sys.stdin.read().splitlines()]
    events, shown, mistakes = [], [], []
    for number, line in enumerate(lines, start=1):
        if not line or line.startswith("#"):
            continue
        said, _, rest = line.partition(":") if ":" in line else line.partition(" ")
        ends = [end for end in (*folder.begun.ends, "loose") if line.lower().startswith(end.lower())]
        if ends:
            said, rest = ends[0], line[len(ends[0]) :].lstrip(" :,")
        try:
            end, loose = _end(folder.begun.ends, said)
            step = typed_off(folder.job, rest, end=end, loose=loose)
            _refuse_open(step, rest)
        except InputError as problem:
            mistakes += [
                Mistake(file="note", line=number, what=each.what, wanted=each.wanted, source_line=line)
                for each in problem.mistakes
            ]
            continue
        events += step.events
        shown.append(f"{len(shown) + 1:>3}  {said}: {' '.join(step.said)}")
    if mistakes:
        raise InputError(mistakes, consequence="None of the lines was taken.")
    if not events:
        raise mistake("note", "there is no line in it", "each line: the end, then what came off")
    print("\n".join(shown))
    if not options.yes and not _agreed(len(shown)):
        say("None of the lines was taken.")
        return DONE
    folder.record(*_signed(tuple(events), options.by))
    say(f"{len(shown)} lines taken.")
    return DONE


def _agreed(count: int) -> bool:
    """Asks at the terminal, because the lines themselves came in by the standard input."""
    try:
        with open("/dev/tty", encoding="utf-8") as terminal:
            print(f"Take these {count} lines? 1 yes 0 no > ", end="", flush=True)
            return terminal.readline().strip() in ("1", "y", "yes")
    except OSError:
        raise mistake(
            "off -", "nobody is there to accept the lines", "say --yes to take them as they are read"
        ) from None


def _job_with_end(options: argparse.Namespace) -> Any:
    """The only open job, or the only one of several that has an end of this name."""
    folder = jobs_folder(options)
    fitting = [job for job in open_jobs(folder) if options.end == "loose" or _is_end(job.begun.ends, options.end)]
    return fitting[0] if len(fitting) == 1 else job_named(options)


def _is_end(ends: tuple[str, str], said: str) -> bool:
    return any(_is_called(end, said) for end in ends)


def _is_called(end: str, said: str) -> bool:
    """By its name, without the word "end", or with hyphens as in the name of a place."""
    name = end.lower()
    return said.lower() in (name, name.removesuffix(" end"), name.replace(" ", "-"))


def _end(ends: tuple[str, str], said: str) -> tuple[str, bool]:
    """(name of the end, whether it was found loose)."""
    if said.lower() in ("loose", "stray"):
        return "", True
    for end in ends:
        if _is_called(end, said):
            return end, False
    raise mistake("off", f'unknown end "{said}"', f"say {ends[0]}, {ends[1]}, or loose for what was found loose")


def _refuse_open(step: Any, words: str) -> None:
    """One line has nobody to ask: what is open has to be said in the line itself."""
    if step.again:
        raise mistake("off", f'"{words[:80]}" cannot be taken', step.again)
    if step.ask is not None:
        ways = " · ".join(f'"{line}"' for _, line in step.ask.choices)
        raise mistake("off", step.ask.text, f"say it as {ways}" if ways else "say it another way")


def _signed(events: tuple[Any, ...], by: str) -> tuple[Any, ...]:
    from stackcheck.value import replace

    return tuple(replace(event, by=by) for event in events) if by else events


def _measure(options: argparse.Namespace) -> int:
    from stackcheck.bench.measuring import take_size
    from stackcheck.errors import SizeError

    try:
        taken = take_size(
            job_named(options),
            options.what,
            options.size,
            " ".join(options.reading),
            is_same=options.same,
            by=options.by,
        )
    except SizeError as problem:
        raise mistake("measure", f'"{problem.said}" cannot be read', problem.wanted) from None
    if taken.choices:
        say(f"{taken.asks} Nothing was recorded.")
        for number, choice in enumerate(taken.choices, start=1):
            same = " --same" if choice.is_same else ""
            say(
                f'{number} {choice.words}: stackcheck measure "{choice.what}" '
                f'{options.size or "length"} "{choice.reading}"{same}'
            )
        return CANNOT_TELL
    for words in taken.said:
        say(words)
    if taken.is_far:
        say("That is far from the earlier reading. If it was a slip: stackcheck undo")
    return DONE


def _look(options: argparse.Namespace) -> int:
    from stackcheck.bench.questions import FEEL_WORDS
    from stackcheck.job.events import Seen

    folder = job_named(options)
    job = folder.job
    _known_entry(job, options.entry)
    toward = ""
    if options.toward:
        from stackcheck.bench.answers import toward_end

        toward = toward_end(job, options.entry, options.toward)
        if not toward:
            ends = job.reference.ends
            raise mistake(
                "look",
                f'which way is toward "{options.toward}"?',
                f"say {ends[0]} or {ends[1]}, middle or outside, a part beside it, same both ways, or not seen",
            )
    from stackcheck.formats.source import did_you_mean

    if options.part and not job.reference.has_part(options.part):
        raise mistake(
            "look",
            f'unknown part "{options.part}"',
            did_you_mean(options.part, [part.id for part in job.reference.parts]),
        )
    words = tuple(word.strip() for word in " ".join(options.words).split(",") if word.strip())
    feel = tuple(word for word in words if word.lower() in FEEL_WORDS)
    look = tuple(word for word in words if word not in feel)
    if not (words or toward or options.part):
        raise mistake("look", "nothing was said", 'say how it feels or looks: look 5 "gritty, rust"')
    folder.record(
        *_signed(
            (
                Seen(
                    entry=options.entry, feel=feel, look=look, toward=toward, part=options.part, sure=not options.unsure
                ),
            ),
            options.by,
        )
    )
    say(
        f"Entry {options.entry}, {job.offs[options.entry - 1].what}: "
        f"{', '.join(filter(None, (*words, toward and f'toward {toward}', options.part)))}."
    )
    return DONE


def _known_entry(job: Any, number: int) -> None:
    if not 1 <= number <= len(job.offs):
        known = f"entries 1 to {len(job.offs)} came off so far" if job.offs else "nothing came off yet"
        raise mistake("entry", f"there is no entry {number}", known)


def _note(options: argparse.Namespace) -> int:
    from stackcheck.job.events import Noted, Settled

    folder = job_named(options)
    job = folder.job
    if options.settled is not None:
        if options.settled not in {note.number for note in job.of(Noted)}:
            raise mistake(
                "note", f"there is no open note {options.settled}", "stackcheck open shows them with their numbers"
            )
        folder.record(*_signed((Settled(note=options.settled),), options.by))
        say(f"Note {options.settled} is settled.")
        return DONE
    if not options.words:
        raise mistake("note", "nothing was said", 'note "plugged the hose with a bolt" --until temporary')
    if options.entry:
        _known_entry(job, options.entry)
    folder.record(
        *_signed(
            (
                Noted(
                    text=" ".join(options.words),
                    until={"use": "after use"}.get(options.until, options.until),
                    entry=options.entry,
                ),
            ),
            options.by,
        )
    )
    say(f"Noted, number {folder.job.events[-1].number}.")
    return DONE


def _photo(options: argparse.Namespace) -> int:
    from pathlib import Path

    from stackcheck.job.events import Photographed

    folder = job_named(options)
    entry = options.entry or len(folder.job.offs)
    if options.entry:
        _known_entry(folder.job, options.entry)
    card, file = options.card, ""
    if options.card_of_file:
        from stackcheck.formats.photo_file import bring_in

        card, file = options.card_of_file, bring_in(Path(options.card), folder.path, options.card_of_file)
    folder.record(*_signed((Photographed(card=card, entry=entry, file=file),), options.by))
    say(
        f"Photo, card {card}{f', copied to {file}' if file else ''}."
        + (f" Of entry {entry}, {folder.job.offs[entry - 1].what}." if entry else "")
    )
    return DONE


def _undo(options: argparse.Namespace) -> int:
    from stackcheck.job.events import Undone
    from stackcheck.job.state import undoable
    from stackcheck.present.event_words import said_of

    folder = job_named(options)
    event = undoable(folder.job)
    if event is None:
        raise mistake("undo", "there is nothing to undo", "nothing was said yet but the beginning of the job")
    folder.record(*_signed((Undone(event=event.number),), options.by))
    say(f"Undone: {said_of(folder.job, event)}.")
    return DONE
