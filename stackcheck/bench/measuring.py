"""One size taken at the bench, of whatever it is: recorded, read back, and laid beside what was read of it before.

A figure whose unit cannot be meant, and one that differs from the earlier reading of the same part by more than either
may be out, is asked about before it counts: the part in the hand may be another one.
"""

from __future__ import annotations

from typing import Any

from stackcheck.bench.sizes_said import line_with_unit, reading_back, unit_asked, with_unit_and_how
from stackcheck.errors import SizeError
from stackcheck.formats.words import plain
from stackcheck.job.buying import part_off
from stackcheck.job.events import Measured
from stackcheck.job.folder import JobFolder
from stackcheck.job.measuring import what_is_measured
from stackcheck.job.state import Job, finest
from stackcheck.model.part import Reading
from stackcheck.present.names import capital_first, size_words
from stackcheck.value import Value


class SizeChoice(Value, kw_only=True):
    """An answer to what is asked about a size: its words, and the size as it is then said."""

    words: str
    what: str
    reading: str
    is_same: bool = False


class SizeTaken(Value, kw_only=True):
    """What was recorded, in words; `is_far` where it is so far from an earlier reading that it may be a slip.

    With `choices` nothing was recorded: `asks` has to be answered by one of them first.
    """

    said: tuple[str, ...] = ()
    is_far: bool = False
    asks: str = ""
    choices: tuple[SizeChoice, ...] = ()


def take_size(
    folder: JobFolder, what: str, size: str, reading: str, *, is_same: bool = False, by: str = ""
) -> SizeTaken:
    """Record a size of an entry, of something that arrived, of what stayed on, or a gap.

    Args:
        folder: the job.
        what: number of an entry, name of what is measured.
        size: which size, "" for a gap.
        reading: as typed.
        is_same: it was said that this is the part which was measured before.
        by: initials.
    Raises:
        InputError: nothing of that name.
        SizeError: the reading cannot be read.
    """
    job = folder.job
    about = what_is_measured(job, what, size, reading)
    text, read = with_unit_and_how(job, typed := str(about.pop("reading")), str(about.get("size", "")))
    if about.get("gap") and read.warm is not None:
        raise SizeError(text, "a gap is not brought to 20 °C: give it as it was read")
    if not about.get("gap") and (doubt := unit_asked(job, typed, str(about["size"]), _kind(job, about))):
        choices = tuple(
            SizeChoice(words=words, what=what, reading=line_with_unit(text, unit)) for words, unit in doubt.choices
        )
        return SizeTaken(asks=doubt.text, choices=choices)
    of = {name: value for name, value in about.items() if name != "size"}
    earlier = job.readings(**of).get(str(about.get("size", "")), ())
    if about.get("entry") and not is_same and earlier and _differ(earlier[-1], read):
        choices = (
            SizeChoice(words="this part, measured again", what=str(about["entry"]), reading=text, is_same=True),
            *_others(job, int(about["entry"]), text),
        )
        which = f"{capital_first(_measured_words(job, about))}: {text}. Before: {earlier[-1].text}. The same part?"
        return SizeTaken(asks=which, choices=choices)
    folder.record(Measured(reading=text, by=by, **about))
    said = [f"{_measured_words(folder.job, about)}: {reading_back(read)}"]
    if earlier:
        said.append(f"Before: {earlier[-1].text}. Both kept; {finest((*earlier, read)).text} counts.")
    is_far = bool(earlier) and not 0.5 < read.value_mm / max(earlier[-1].value_mm, 1e-9) < 2
    return SizeTaken(said=tuple(said), is_far=is_far)


def _differ(before: Reading, now: Reading) -> bool:
    """Whether two readings of one part cannot both be right."""
    return before.is_measurement and abs(now.value_mm - before.value_mm) > now.good_to_mm + before.good_to_mm + 1e-9


def _others(job: Job, entry: int, text: str) -> tuple[SizeChoice, ...]:
    """The other parts on the bench that may have been taken for it: those of its kind."""
    kind = job.found.entries[entry - 1].kind or job.offs[entry - 1].kind
    return tuple(
        SizeChoice(words=f"another part: entry {number}, {off.what}", what=str(number), reading=text)
        for number, off in enumerate(job.offs, start=1)
        if number != entry and plain(job.found.entries[number - 1].kind or off.kind) == plain(kind)
    )


def _kind(job: Job, about: dict[str, Any]) -> str:
    """The kind of part that is measured, "" where nobody knows."""
    if entry := about.get("entry", 0):
        part = part_off(job, job.offs[entry - 1].part, job.offs[entry - 1].place)
        return part.kind if part is not None else job.offs[entry - 1].kind
    return job.reference.part_at(about["place"]).kind if about.get("place") else ""


def _measured_words(job: Job, about: dict[str, Any]) -> str:
    """ "entry 3, left collar, length", "hub bearing (new), length", "free gap"."""
    entry = about.get("entry", 0)
    what = (
        f"entry {entry}, {job.offs[entry - 1].what}"
        if entry
        else f"{about['item']} (new)"
        if about.get("item")
        else about.get("place") or about.get("gap", "")
    )
    return ", ".join(filter(None, (what, size_words(about["size"]) if about.get("size") else "")))
