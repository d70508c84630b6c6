"""One size taken at the bench, of whatever it is: recorded, read back, and laid beside what was read of it before."""

from __future__ import annotations

from typing import Any

from stackcheck.bench.sizes_said import reading_back, with_unit_and_how
from stackcheck.job.events import Measured
from stackcheck.job.folder import JobFolder
from stackcheck.job.measuring import what_is_measured
from stackcheck.job.state import Job, finest
from stackcheck.present.names import size_words
from stackcheck.value import Value


class SizeTaken(Value, kw_only=True):
    """What was recorded, in words; `is_far` where it is so far from an earlier reading that it may be a slip."""

    said: tuple[str, ...]
    is_far: bool = False


def take_size(folder: JobFolder, what: str, size: str, reading: str, *, by: str = "") -> SizeTaken:
    """Record a size of an entry, of something that arrived, of what stayed on, or a gap.

    Raises:
        InputError: nothing of that name.
        SizeError: the reading cannot be read.
    """
    about = what_is_measured(folder.job, what, size, reading)
    text, read = with_unit_and_how(folder.job, str(about.pop("reading")), str(about.get("size", "")))
    of = {name: value for name, value in about.items() if name != "size"}
    earlier = folder.job.readings(**of).get(str(about.get("size", "")), ())
    folder.record(Measured(reading=text, by=by, **about))
    said = [f"{_measured_words(folder.job, about)}: {reading_back(read)}"]
    if earlier:
        said.append(f"Before: {earlier[-1].text}. Both kept; {finest((*earlier, read)).text} counts.")
    is_far = bool(earlier) and not 0.5 < read.value_mm / max(earlier[-1].value_mm, 1e-9) < 2
    return SizeTaken(said=tuple(said), is_far=is_far)


def _measured_words(job: Job, about: dict[str, Any]) -> str:
    """ "entry 3, left collar, length", "hub bearing (new), length", "free gap"."""
    entry = about.get("entry", 0)
    what = f"entry {entry}, {job.offs[entry - 1].what}" if entry else f"{about['item']} (new)" if about.get("item") else about.get("place") or about.get("gap", "")
    return ", ".join(filter(None, (what, size_words(about["size"]) if about.get("size") else "")))
