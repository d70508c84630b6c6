"""References and found lists in a small notation, for tests.

A stack is a line of places, first end to second end:

    name or name@where   a place; the part is what stands before "@", its kind what stands before the first "-"
    ! behind it          the part is a fixed member (leg, bracket)
    < or > behind it     the place wants the feature toward the first or the second end
    *3 behind it         a counted group of three
    ? behind it          the place may be absent

A found list is a line of entries in the sequence they came off:

    name                 somebody is sure of the part;  name~ a guess;  ?kind or ? nobody can say
    < or > behind it     the feature points toward the first or the second end
    *3 behind it         three pieces;  %  found loose;  #FT-1 a number read off the part;  +tag a tag
    /length=18.0±0.02    a measured size, as often as wanted
"""

from __future__ import annotations

import re

from stackcheck.model.found import Entry, Found
from stackcheck.model.part import Part, Reading, Size
from stackcheck.model.reference import Place, Reference, Source, Stack, Unit

FACING = {"<": "first", ">": "second", None: ""}
PLACE = re.compile(r"(?P<name>[\w./@-]+)(?P<fixed>!)?(?P<facing>[<>])?(?:\*(?P<count>\d+))?(?P<absent>\?)?$")
ENTRY = re.compile(
    r"(?P<unknown>\?)?(?P<name>[\w.@-]*)(?P<guess>~)?(?P<facing>[<>])?(?:\*(?P<count>\d+))?(?P<loose>%)?"
    r"(?:#(?P<marked>[\w.-]+))?(?:\+(?P<tag>\w+))?(?P<sizes>(?:/\w+=[\d.]+(?:±[\d.]+)?)*)$"
)


def size(nominal: float, least: float | None = None, most: float | None = None) -> Size:
    return Size(
        text=f"{nominal} mm",
        nominal_mm=nominal,
        least_mm=least,
        most_mm=most,
        limits_from="written" if least is not None else "",
    )


def reading(value: float, good_to: float = 0.02, how: str = "calliper") -> Reading:
    return Reading(text=f"{value} mm", value_mm=value, good_to_mm=good_to, how=how)


def reference(
    *stacks: str,
    sizes: dict[str, dict[str, tuple]] | None = None,
    numbers: dict[str, str] | None = None,
    accepts: dict[str, tuple[str, ...]] | None = None,
    kinds: dict[str, str] | None = None,
    units: dict[str, tuple[str, ...]] | None = None,
) -> Reference:
    """A reference of these stacks; `sizes` are nominal, or nominal, least and most."""
    places: dict[str, Place] = {}
    fixed: set[str] = set()
    lines = []
    for stack in stacks:
        line = []
        for token in stack.split():
            said = PLACE.match(token)
            assert said, token
            name = said["name"]
            part = name.split("@")[0]
            if said["fixed"]:
                fixed.add(part)
            line.append(name)
            if name not in places:
                places[name] = Place(
                    name=name, part=part, facing=FACING[said["facing"]], count=int(said["count"] or 1),
                    may_be_absent="not fitted to every machine" if said["absent"] else "",
                )  # fmt: skip
        lines.append(tuple(line))
    parts = tuple(
        Part(
            id=id, name=id.replace("-", " "), kind=(kinds or {}).get(id, id.split("-")[0]), fixed=id in fixed,
            number=(numbers or {}).get(id, ""), accepts=(accepts or {}).get(id, ()),
            sizes=tuple((name, size(*limits)) for name, limits in (sizes or {}).get(id, {}).items()),
            feature="flange" if any(place.facing for place in places.values() if place.part == id) else "",
        )
        for id in dict.fromkeys([place.part for place in places.values()] + list(numbers or {}) + list(kinds or {}))
    )  # fmt: skip
    return Reference(
        id="bench/stack", title="A stack", revision="A", ends=("left", "right"), ends_seen_from="the bench",
        source=Source(kind="maker's drawing", state="checked on 2 machines"), parts=parts, places=tuple(places.values()),
        stacks=tuple(Stack(name=f"stack {i}", items=line) for i, line in enumerate(lines, 1)),
        units=tuple(Unit(id=id, name=id, members=members) for id, members in (units or {}).items()),
    )  # fmt: skip


def entry(token: str, number: int, end: int | None) -> Entry:
    said = ENTRY.match(token)
    assert said, token
    measured = [size.split("=") for size in (said["sizes"] or "").split("/") if size]
    return Entry(
        number=number, what=said["name"] or "thing", end=end, part=None if said["unknown"] else said["name"],
        sure=not said["guess"], kind=said["name"] if said["unknown"] else "", marked=said["marked"] or "",
        count=int(said["count"] or 1), toward=FACING[said["facing"]], tag=said["tag"] or "",
        place_seen="found loose" if said["loose"] else "",
        sizes=tuple((name, reading(*map(float, value.split("±")))) for name, value in measured),
    )  # fmt: skip


def found(first: str = "", second: str = "", *, unsaid: str = "", finished: bool = True) -> Found:
    """What came off the first end, off the second end, and off an end that nobody said, each in the sequence it came."""
    tokens = [(token, end) for text, end in ((first, 0), (second, 1), (unsaid, None)) for token in text.split()]
    entries = tuple(entry(token, number, end) for number, (token, end) in enumerate(tokens, 1))
    return Found(reference="bench/stack", revision="A", entries=entries, finished=finished)


def hub(**more) -> Reference:
    """A hub on a through axle: the seals and the collars inside them are not ordered to one another."""
    return reference(
        "leg@left! collar-short< bearing@left spacer bearing@right collar-long> leg@right!",
        "seal@left> bearing@left hub bearing@right seal@right<",
        **more,
    )


def clutch(plates: int = 4, **more) -> Reference:
    """A pack of friction and steel plates by turns between a pressure plate and a backing plate."""
    pack = " ".join(f"friction@{i} steel@{i}" for i in range(1, plates))
    return reference(f"pressure {pack} friction@{plates} backing", **more)
