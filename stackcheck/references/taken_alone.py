"""One machine of which there is no reference yet: the list by itself becomes one, in one line, first end to second."""

from __future__ import annotations

from stackcheck.errors import InputError, Mistake
from stackcheck.formats.facing import DIRECTIONS
from stackcheck.formats.found_words import found_line
from stackcheck.formats.words import designation_in, kind_of_name
from stackcheck.model.found import Entry, Found
from stackcheck.model.part import Reading
from stackcheck.model.reference import Reference, Source
from stackcheck.references.draft import Draft, DraftPart, assembled, part_ids
from stackcheck.references.suggest import usual
from stackcheck.references.taken import SizeKey, Taken, label, range_of
from stackcheck.value import replace


def taken_alone(found: Found, blank: Reference, title: str) -> Taken:
    """The list as a reference.

    Raises:
        InputError: a thing of which nobody can say what kind of part it is; fewer than two things in line.
    """
    entries = [entry for entry in found_line(found.entries) if not entry.is_loose]
    unknown = [entry for entry in entries if not _kind(entry)]
    mistakes = [
        Mistake(
            file=found.file,
            line=entry.line,
            what=f'entry {entry.number}: nothing says what kind of part "{entry.what}" is',
            wanted='add kind = "collar", ...',
        )
        for entry in unknown
    ]
    if len(entries) < 2:
        mistakes.append(
            Mistake(
                file=found.file, what="fewer than two things stood in line", wanted="a reference has two parts at least"
            )
        )
    if mistakes:
        raise InputError(mistakes, consequence="Nothing was written.")
    rows = tuple(_row(entry, _name(entry, entries, blank.ends)) for entry in entries)
    rows = tuple(replace(row, toward=_toward(entry, blank)) for row, entry in zip(rows, entries, strict=True))
    source = Source(
        kind="taken from a machine",
        what=f"as found on {found.date or 'a day not said'}" + (f", by {found.by}" if found.by else ""),
        state="draft",
    )
    draft = Draft(title=title or blank.title, ends=blank.ends, seen_from=blank.ends_seen_from, source=source, rows=rows)
    reference, remarks = assembled(draft, "taken")
    measured: dict[SizeKey, tuple[Reading, ...]] = {}
    for id, entry in zip(part_ids(rows), entries, strict=True):
        for name, reading in entry.sizes:
            if reading.is_measurement:
                measured[id, name] = (*measured.get((id, name), ()), reading)
    loose = tuple(
        f"{entry.what} (entry {entry.number}) was found loose and has no place here"
        for entry in found.entries
        if entry.is_loose
    )
    return Taken(
        reference=reference,
        machine=label(found),
        measured=tuple(measured.items()),
        remarks=tuple(remarks.behind.items()),
        look=loose,
    )


def _kind(entry: Entry) -> str:
    return entry.kind or kind_of_name(entry.what)


def _name(entry: Entry, entries: list[Entry], ends: tuple[str, str]) -> str:
    """ "Left collar" and "right collar" are one part in two places, unless what is known of them differs."""
    bare = _without_end(entry.what, ends)
    twins = [other for other in entries if other is not entry and _without_end(other.what, ends) == bare]
    same = all((other.sizes, other.marked, other.kind) == (entry.sizes, entry.marked, entry.kind) for other in twins)
    return bare if twins and same else entry.what


def _without_end(name: str, ends: tuple[str, str]) -> str:
    words = name.split()
    return " ".join(words[1:] if len(words) > 1 and words[0].lower() in ends else words)


def _toward(entry: Entry, blank: Reference) -> str:
    return blank.end_name(entry.toward) if entry.toward in DIRECTIONS else ""


def _row(entry: Entry, name: str) -> DraftPart:
    own = usual(_kind(entry))
    standard = designation_in(entry.marked)
    if standard:
        name = " ".join(name.replace(standard, " ").split()) or _kind(entry)
    sizes = tuple(
        (size, range_of((reading,)).text if reading.is_measurement else f"{reading.value_mm:.9g} mm")
        for size, reading in entry.sizes
    )
    faced = entry.toward in DIRECTIONS
    feature = (entry.feature or (own.features[0] if own.features else "marked side")) if faced else ""
    seen = {"inferred": "its place was inferred", "": ""}.get(entry.place_seen, "")
    not_faced = (
        "which way round: nobody said" if own.asks_facing and not faced and entry.toward != "same both ways" else ""
    )
    return DraftPart(
        name=name[:1].upper() + name[1:], kind=_kind(entry), number="" if standard else entry.marked, standard=standard,
        sizes=sizes, feature=feature,
        same_both_ways=not faced and (entry.toward == "same both ways" or not own.asks_facing), duties=own.duties,
        count=entry.count, remark="; ".join(filter(None, (seen, not_faced))),
        remarks=tuple(
            (size, "read off a marking, not measured") for size, reading in entry.sizes if not reading.is_measurement
        ),
    )  # fmt: skip
