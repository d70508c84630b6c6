"""What a typed measurement is of: an entry, a place that stayed on, a gap, or something that arrived."""

from __future__ import annotations

from stackcheck.errors import InputError, Mistake
from stackcheck.formats.words import SIZES_ALSO_CALLED, WIDTH_IS_LENGTH, plain
from stackcheck.job.buying import ARRIVED, READY, buying
from stackcheck.job.standing import compared, entry_of
from stackcheck.job.state import Job
from stackcheck.model.part import SIZE_NAMES


def what_is_measured(job: Job, what: str, size: str, reading: str) -> dict[str, str | int]:
    """The fields of a `Measured` event for "3 length 22.01 mic", "hub length 57.97", "free gap 3.0..3.5 feeler".

    Raises:
        InputError: nothing of that name, or no such size.
    """
    reference = job.reference
    gaps = [gap.name for stack in reference.stacks for gap in stack.gaps] + [limit.what for limit in reference.limits]
    for gap in gaps:
        if plain(what) == plain(gap):
            return {"gap": gap, "reading": f"{size} {reading}".strip()}
    name = SIZES_ALSO_CALLED.get(size.lower(), size.lower().replace(" ", "_"))
    if name not in SIZE_NAMES:  # only one word was said before the reading: its length is meant
        name, reading = "length", f"{size} {reading}".strip()
    if what.isdecimal():
        number = int(what)
        if not 1 <= number <= len(job.offs):
            raise _refusal(
                f"there is no entry {number}",
                f"entries 1 to {len(job.offs)} came off so far" if job.offs else "nothing came off yet",
            )
        kind = job.offs[number - 1].kind
        return {
            "entry": number,
            "size": "length" if name == "width" and kind in WIDTH_IS_LENGTH else name,
            "reading": reading,
        }
    for item in buying(job):
        if plain(what) == plain(item.name) and item.state in (ARRIVED, READY):
            return {"item": item.name, "size": name, "reading": reading}
    for place in reference.places:
        if plain(what) in (plain(place.name), plain(reference.part(place.part).name)) or plain(what) == plain(
            place.part
        ):
            if reference.part(place.part).fixed:
                return {"place": place.name, "size": name, "reading": reading}
            if number := entry_of(compared(job), place.name):  # the part that it is, not what lay in its place
                return {"entry": number, "size": name, "reading": reading}
    stays = [place.name for place in reference.places if reference.part(place.part).fixed]
    raise _refusal(
        f'nothing here is called "{what}"',
        f"say the number of an entry, a gap ({', '.join(gaps) or 'none'}), "
        f"or what stayed on ({', '.join(stays) or 'nothing'})",
    )


def _refusal(what: str, wanted: str) -> InputError:
    return InputError([Mistake(file="measure", what=what, wanted=wanted)], consequence="Nothing was recorded.")
