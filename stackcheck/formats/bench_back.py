"""A typed line read back in one line of words, before the next question is asked.

The canonical word for the part, every size in words with its inch or mm beside it, and everything else that was
understood; what was not stands behind "Note:". Typed in again, the words are read as the line was.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import groupby

from stackcheck.formats.bare_sizes import along
from stackcheck.formats.bench_read import ReadLine, ReadPart
from stackcheck.formats.bench_words import LOCK_NUT
from stackcheck.formats.words import INWARD, OUTWARD, TYPED
from stackcheck.model.part import SIZE_NAMES
from stackcheck.model.place_words import end_called
from stackcheck.model.reference import Reference
from stackcheck.units import INCH_MM, WrittenReading, read_reading
from stackcheck.value import replace

_DIAMETERS = ("outside", "bore")
_ORDINALS = {1: "st", 2: "nd", 3: "rd"}


def back(read: ReadLine, *, reference: Reference | None = None, ends: Sequence[str] = ()) -> str:
    """The line in words. `ends` are the names of the two ends, where no reference brings them.

    >>> back(ReadLine(typed="", gap="3.0..3.5 mm feeler"))
    'Gap 3.0..3.5 mm (0.118..0.138 in) by feeler.'
    """
    ends = ends or (reference.ends if reference else ("left", "right"))
    name = " ".join(read.gap_name.split()) or "gap"
    said = [f"{name[:1].upper()}{name[1:]} {_size(read.gap)}."] if read.gap else []
    if len(read.parts) > 2 and all(
        part == ReadPart(what=part.kind, kind=part.kind) and part.kind for part in read.parts
    ):
        said.append(_one_by_one(read.parts))
    elif read.parts:
        lump = "Stuck together: " if any(part.stuck_to_next for part in read.parts) else ""
        groups = [tuple(group) for _, group in groupby(read.parts, key=_but_for_length)]
        things = [_part(group, ends, bool(read.pack)) for group in groups]
        said.append(lump + " + ".join([*(thing.removesuffix(".") for thing in things[:-1]), things[-1]]))
    if read.pack:
        said.append(f"Pack {_size(read.pack)}.")
    return " ".join(said)


def _but_for_length(part: ReadPart) -> ReadPart:
    return replace(part, count=0, sizes=tuple(size for size in part.sizes if size[0] != "length"))


def _part(group: tuple[ReadPart, ...], ends: Sequence[str], pack_measured: bool) -> str:
    part, count = group[0], sum(part.count for part in group)
    sizes = _sizes(part, group, pack_measured)
    unmarked = "marking not said" if sizes and part.kind.endswith(" bearing") else ""
    words = [_name(part, count), f"marked {_quoted(part.marked)}" if part.marked else unmarked, *_how_once(sizes)]
    first = ", ".join(filter(None, words))
    said = [first[:1].upper() + first[1:]]
    if part.feature:
        said.append(f"{part.feature.capitalize()} {_toward(part.toward, ends)}")
    elif part.toward:
        said.append(part.toward.capitalize())
    said += [
        f"Turns: {', '.join(part.feel)}" if part.feel else "",
        f"Look: {', '.join(part.look)}" if part.look else "",
        f"Came off: {part.came_off}" if part.came_off else "",
        f"Off the {end_called(ends[part.end])}" if part.end is not None else "",
        _place(part),
        "Same as the other side, not measured" if part.same_as_other_side else "",
        f"Card {part.card}" if part.card else "",
        f"Note: {' '.join(part.note.split())}" if part.note else "",
    ]
    return " ".join(f"{words.removesuffix('.')}." for words in said if words)


def _name(part: ReadPart, count: int) -> str:
    kind, look = LOCK_NUT[:2]
    name = LOCK_NUT[2] if part.kind == kind and look in part.look else part.kind
    what = " ".join(part.what.split())
    lower = what.lower()
    if name == part.kind and what and not (lower in _phrases(part.kind) and lower.startswith(("thin ", "thick "))):
        ends_so = any(lower.endswith(f" {part.kind.lower()}{plural}") for plural in ("", "s", "es"))
        if not part.kind or ends_so or lower.startswith(part.kind.lower()):
            name = what
        elif lower not in _phrases(part.kind):
            name = f"{name} ({what})"
    name = name or what
    if count > 1:
        name = f"{count} {_plural(name)}"
    name = f"Unknown part: {name}" if part.unknown and name else "Unknown part" if part.unknown else name
    return name[:1].upper() + name[1:]


def _phrases(kind: str) -> set[str]:
    return {phrase + end for phrase in (*TYPED.get(kind, ()), kind.lower()) for end in ("", "s", "es")}


def _plural(name: str) -> str:
    return name if name.endswith(("s", ")")) else f"{name}es" if name.endswith("sh") else f"{name}s"


def _sizes(part: ReadPart, group: tuple[ReadPart, ...], pack_measured: bool) -> list[str]:
    named = dict(part.sizes)
    diameters = _DIAMETERS[::-1] if part.kind.endswith(("bearing", "seal")) else _DIAMETERS
    said = [
        f"{'OD' if name == 'outside' else name} {_size(named[name], beside=False)}"
        for name in diameters
        if name in named
    ]
    if len(group) > 1:
        said += _each(group, pack_measured)
    elif "length" in named:
        said.append(_size(named["length"], behind=along(part.kind)))
    if "thread_diameter" in named:
        said.append(_thread(named))
    if "ball" in named:
        said.append(_size(named["ball"]))
    others = [
        name
        for name in SIZE_NAMES
        if name in named and name not in ("length", "ball", "thread_diameter", "thread_pitch", *_DIAMETERS)
    ]
    return [*said, *(f"{name.replace('_', ' ')} {_size(named[name])}" for name in others)]


def _each(group: tuple[ReadPart, ...], pack_measured: bool) -> list[str]:
    texts = [part.size("length") for part in group if part.size("length")]
    if not texts:
        return []
    readings = [read_reading(text) for text in texts]
    tails = [_tail(text) for text in texts]
    shared = len(set(tails)) == 1 and all(len(reading.readings_mm) == 1 for reading in readings)
    each = ", ".join(
        text.removesuffix(tails[0]).strip() if shared and text is not texts[-1] else _spoken(text) for text in texts
    )
    total = sum(reading.value_mm for reading in readings)
    not_measured = sum(part.count for part in group if not part.size("length"))
    return [
        each,
        f"sum {total:.2f} mm ({total / INCH_MM:.3f} in)"
        + (f"; {not_measured} not measured" if not_measured else "")
        + ("" if pack_measured else "; pack not measured"),
    ]


def _tail(text: str) -> str:
    match = re.search(r"\s(?:mm|in|thou|um|cm).*$", text)
    return match.group() if match else ""


def _spoken(text: str) -> str:
    """A size text with the way of measuring in words: "0.20 mm mic" -> "0.20 mm by micrometer"."""
    reading = read_reading(text, may_be_zero=True)
    match = re.match(r"(?:about )?[\d./ ]+(?:\.\.[\d./ ]+)?\s?(?:mm|in|thou|um|cm)(?: ±[\d.,/ ]+)?", text)
    figure = match.group() if match else text
    by = f" by {reading.how}" if reading.how and not text.startswith("about") else ""
    return figure + by + _how_warm(reading)


def _how_warm(reading: WrittenReading) -> str:
    if reading.part_at is None:
        return ""
    tool = f", instrument {reading.tool_at.text}" if reading.tool_at else ""
    return f" at {reading.part_at.text}{tool}"


def _how_once(sizes: list[str]) -> list[str]:
    """The way of measuring said once where all sizes were got the same way; a sum stands behind."""
    own = [size for size in sizes if not size.startswith("sum ")]
    hows = {size.partition(" by ")[2] for size in own}
    if len(own) < 2 or len(hows) > 1 or hows == {""}:
        return sizes
    return [*(size.partition(" by ")[0] for size in own), f"all by {hows.pop()}", *sizes[len(own) :]]


def _size(text: str, *, beside: bool = True, behind: str = "") -> str:
    """A size in words, the other unit in brackets; a diameter in mm stays alone."""
    reading = read_reading(text, may_be_zero=True)
    spoken = _spoken(text)
    head, by, how = spoken.partition(" by ")
    other = _other_unit(head, reading, beside)
    return head.strip() + (f" ({other})" if other else "") + (f" {behind}" if behind else "") + by + how


def _other_unit(head: str, reading: WrittenReading, beside: bool) -> str:
    in_mm = " mm" in head
    values = reading.readings_mm
    if in_mm and not beside and len(values) == 1:
        return ""
    unit, factor, digits = ("in", INCH_MM, 4 if max(values) < 0.1 else 3) if in_mm else ("mm", 1.0, 2)
    if ".." in head:
        return f"{values[0] / factor:.{digits}f}..{values[1] / factor:.{digits}f} {unit}"
    if len(values) > 1:
        return (
            f"middle {reading.value_mm:.2f} mm, {reading.value_mm / INCH_MM:.3f} in, "
            f"spread {max(values) - min(values):.2f} mm"
        )
    return f"{reading.value_mm / factor + 1e-9:.{digits}f} {unit}"


def _thread(named: dict[str, str]) -> str:
    diameter, pitch = named["thread_diameter"], named.get("thread_pitch", "")
    if diameter.endswith(" mm") and re.fullmatch(r"[\d.]+ mm", diameter):
        return f"M{diameter.removesuffix(' mm')}" + (f"x{pitch.removesuffix(' mm')}" if pitch else "")
    return f"thread {_size(diameter)}" + (f", pitch {_size(pitch)}" if pitch else "")


def _toward(toward: str, ends: Sequence[str]) -> str:
    if toward in ("not seen", "same both ways"):
        return toward
    word = toward.lower()
    if word in INWARD or word in OUTWARD:
        return f"toward the {'middle' if word in INWARD else 'outside'}"
    if word.startswith("away from "):
        return f"away from the {toward[10:]}"
    return f"toward {toward}" if word in ends or "@" in word else f"toward the {toward}"


def _place(part: ReadPart) -> str:
    if part.place_seen != "found loose":
        return part.place_seen.capitalize()
    where = f" {'on' if part.where in ('floor', 'rag', 'ground') else 'in'} the {part.where}" if part.where else ""
    return f"Found loose{where}, place not seen"


def _quoted(mark: str) -> str:
    return mark if re.fullmatch(r"[\w/-]+(?: \w+)*", mark) else f'"{mark}"'


def _one_by_one(parts: tuple[ReadPart, ...]) -> str:
    """ "11 plates one by one: 6 friction, 5 steel; two friction plates together, 5th and 6th." """
    kinds = [part.kind for part in parts]
    plates = all(kind.endswith(" plate") for kind in kinds)
    counts = ", ".join(
        f"{kinds.count(kind)} "
        f"{kind.removesuffix(' plate') if plates else kind if kinds.count(kind) == 1 else _plural(kind)}"
        for kind in dict.fromkeys(kinds)
    )
    said = [f"{len(kinds)} {'plates' if plates else 'parts'} one by one: {counts}"]
    place = 1
    for kind, run in groupby(kinds):
        length = len(list(run))
        if length > 1:
            count = {2: "two", 3: "three", 4: "four"}.get(length, str(length))
            link = "and" if length == 2 else "to"
            said.append(f"{count} {_plural(kind)} together, {_nth(place)} {link} {_nth(place + length - 1)}")
        place += length
    return "; ".join(said) + "."


def _nth(number: int) -> str:
    return f"{number}{'th' if number % 100 in (11, 12, 13) else _ORDINALS.get(number % 10, 'th')}"
