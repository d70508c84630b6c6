"""One machine as it was found or fitted becomes a reference:
what stood there, the way it stood, with the sizes that were measured.

The list was compared with a reference: who each thing is and where it stood comes from the least explanation, and so
does what the list does not say (numbers, duties, limits between parts). What was measured becomes the range in which
the true size lies; what was not keeps the size of the reference it came from, and both are said. Nothing here says that
the machine was as it should be.
"""

from __future__ import annotations

from stackcheck.compare import explanations
from stackcheck.formats.facing import DIRECTIONS
from stackcheck.formats.words import kind_of_name
from stackcheck.mechanics.arrangement import Arrangement, Member, as_believed
from stackcheck.mechanics.lengths import Readings
from stackcheck.model.finding import Explanation, Finding, Standing
from stackcheck.model.found import Entry, Found
from stackcheck.model.part import Part, Reading, Size
from stackcheck.model.reference import Gap, Place, Reference, Source, Stack
from stackcheck.model.state import State, can_be_apart
from stackcheck.references.resized import resized
from stackcheck.value import Value, replace

SizeKey = tuple[str, str]
"""A part and the name of one of its sizes."""


class Taken(Value, kw_only=True):
    """A reference taken from one machine. `measured` are the readings behind a size, `remarks` stand in its file.

    `machine` names the machine in sentences; `look` says what was seen there and what nobody looked at; `findings` is
    what differs from the reference it was compared with, where there is one.
    """

    reference: Reference
    machine: str
    measured: tuple[tuple[SizeKey, tuple[Reading, ...]], ...]
    remarks: tuple[tuple[tuple[str, ...], str], ...] = ()
    look: tuple[str, ...] = ()
    found: Found | None = None
    compared_with: Reference | None = None
    findings: tuple[Finding, ...] = ()


AS_FOUND, AS_FITTED = "as found", "as fitted"
GRADE = {AS_FOUND: "taken from a machine", AS_FITTED: "own record"}
"""What a list tells -> the kind of source that its reference has."""


def taken(reference: Reference, found: Found, how: str = AS_FOUND) -> Taken:
    """The machine of this list as a reference, `AS_FOUND` when it was opened or `AS_FITTED` when it was closed."""
    return _Taker(reference, found, how).taken()


def label(found: Found) -> str:
    """How a machine is called: by the day it was taken apart, else by its list."""
    return (
        f"the machine of {found.date}"
        if found.date
        else f"the machine of {found.file.rpartition('/')[2] or 'the list'}"
    )


class _Taker:
    def __init__(self, reference: Reference, found: Found, how: str):
        self.was, self.found, self.how = reference, found, how
        self.explanation: Explanation = explanations(reference, found, most=1)[0]
        self.other_end = any(finding.kind == "entered_from_other_end" for finding in self.explanation.findings)
        self.arranged: Arrangement = as_believed(reference, found, self.explanation)
        self.names: dict[Standing, str] = {}
        self.spots: dict[str, str] = {}  # a place of the reference in which another part stood -> its name here
        self.strange: dict[int, Part] = {}
        self.remarks: dict[tuple[str, ...], str] = {}
        self.look: list[str] = []

    def taken(self) -> Taken:
        self._name_everything()
        stacks = self._joined([self._stack(stack) for stack in self.was.stacks])
        met = dict.fromkeys(name for stack in stacks for name in stack.places)
        at = {name: standing for standing, name in self.names.items()}
        places = tuple(self._place(name, at[name]) for name in met)
        measured = self._measured()
        used = {place.part for place in places}
        parts = tuple(
            self._part(part, measured, used) for part in (*self.was.parts, *self.strange.values()) if part.id in used
        )
        self._say_what_is_gone(met)
        day = self.found.date or "a day not said"
        source = Source(
            kind=GRADE[self.how],
            what=f"{self.how} on {day}" + (f", by {self.found.by}" if self.found.by else ""),
            state="draft",
        )
        made = replace(
            self.was, revision="A", covers="", source=source, replaced_by="", history=(), years=None, serials=None,
            variants=(), for_machine="", outside=False, parts=parts, places=places, stacks=stacks,
            note=f"Compared with {self.was.id} rev {self.was.revision} when it was taken.",
            limits=tuple(
                replace(limit, between=self._now(limit.between))
                for limit in self.was.limits if self._stand(limit.between, met)
            ),
            pairings=tuple(pairing for pairing in self.was.pairings if {pairing.outer[0], pairing.inner[0]} <= used),
            joints=tuple(
                replace(joint, clamps=self._now(joint.clamps))
                for joint in self.was.joints if self._stand(joint.clamps, met)
            ),
            supports=tuple(support for support in self.was.supports if support.place in met),
            units=tuple(unit for unit in self.was.units if set(unit.members) <= met.keys()),
        )  # fmt: skip
        forced = {joint.name for joint in made.joints} | {loop.name for loop in made.loops}
        made = replace(
            made,
            force_limits=tuple(limit for limit in made.force_limits if limit.of in forced),
            state_limits=tuple(limit for limit in made.state_limits if limit.of in {loop.name for loop in made.loops}),
            states=tuple(_of_what_stood(state, made) for state in made.states),
        )
        return Taken(
            reference=made, machine=label(self.found), measured=tuple(measured.items()),
            remarks=tuple(self.remarks.items()),
            look=tuple(self.look), found=self.found, compared_with=self.was, findings=self.explanation.findings,
        )  # fmt: skip

    # Who stands where

    def _standings(self) -> list[Standing]:
        members = [
            item.standing
            for stack in self.was.stacks
            for item in self.arranged.paths[stack.name]
            if isinstance(item, Member)
        ]
        return list(dict.fromkeys(members))

    def _name_everything(self) -> None:
        """A thing in its own place keeps the place's name;
        one that stands elsewhere gets the tag of where it stands.
        """
        elsewhere = {
            place: other
            for finding in self.explanation.findings
            if finding.kind in ("swapped", "out_of_place", "run_moved")
            for place, other in zip(
                finding.places, reversed(finding.places) if finding.kind == "swapped" else ("",) * len(finding.places)
            )
        }
        waiting = []
        for standing in self._standings():
            stays = standing.home and standing.home not in elsewhere and standing.home not in self.names.values()
            if stays and self._part_of(standing) == self.was.place(standing.home).part:
                self.names[standing] = standing.home
            else:
                waiting.append(standing)
        for standing in waiting:
            part = self._part_of(standing)
            spot = elsewhere.get(standing.home, standing.home) if standing.home else ""
            tag = spot.partition("@")[2]
            candidates = [f"{part}@{tag}" if tag else part, *(f"{part}@{number}" for number in range(1, 10_000))]
            self.names[standing] = next(name for name in candidates if name not in self.names.values())
            if spot:
                self.spots[spot] = self.names[standing]

    def _part_of(self, standing: Standing) -> str:
        """The id of the part that stands there; one that is no part of the reference becomes one here."""
        different = any(
            finding.kind == "different_part" and standing.entry in finding.entries and finding.part is None
            for finding in self.explanation.findings
        )
        if standing.part and self.was.has_part(standing.part) and not different:
            return standing.part
        entry = self.found.entry(standing.entry)
        wanted = self.was.place(standing.home).part if standing.home else standing.part
        if entry.part and entry.part != wanted and self.was.has_part(entry.part):
            return entry.part  # one of our own parts, in a place that is not its own
        if entry.number not in self.strange:
            self.strange[entry.number] = self._new_part(entry)
        return self.strange[entry.number].id

    def _new_part(self, entry: Entry) -> Part:
        from stackcheck.references.draft import slug

        taken_ids = {part.id for part in (*self.was.parts, *self.strange.values())}
        own = slug(entry.what) or "thing"
        id = next(name for name in (own, *(f"{own}-{number}" for number in range(2, 10_000))) if name not in taken_ids)
        name = entry.what[:1].upper() + entry.what[1:]
        self.look.append(f"{name} (entry {entry.number}) stands in the machine and in no place of {self.was.id}")
        return Part(
            id=id,
            name=name,
            kind=entry.kind or kind_of_name(entry.what) or "ring",
            number=entry.marked,
            feature=entry.feature,
        )

    # Stacks and places

    def _stack(self, stack: Stack) -> Stack:
        own = {gap.name for gap in stack.gaps}
        items: list[str | Gap] = []
        for item in self.arranged.paths[stack.name]:
            if isinstance(item, Member):
                items.append(self.names[item.standing])
            elif item.name in own and items:
                items.append(next(gap for gap in stack.gaps if gap.name == item.name))
        while items and isinstance(items[-1], Gap):
            items.pop()
        return replace(stack, items=tuple(dict.fromkeys(items)))

    def _joined(self, stacks: list[Stack]) -> tuple[Stack, ...]:
        """The stacks of two places and more; what is the last of its stack
        touches what stood nearest to it in the line.
        """
        whole = [stack for stack in stacks if len(stack.places) > 1]
        met = {name for stack in whole for name in stack.places}
        line = [self.names[standing] for standing in self.explanation.line if standing in self.names]
        for stack in stacks:
            for name in stack.places:
                if name in met or name not in line:
                    continue
                here = line.index(name)
                near = min(
                    (other for other in line if other in met),
                    key=lambda other: abs(line.index(other) - here),
                    default="",
                )
                if near:
                    pair = (near, name) if line.index(near) < here else (name, near)
                    whole.append(replace(stack, items=pair))
                    met.add(name)
        return tuple(whole)

    def _place(self, name: str, standing: Standing) -> Place:
        part = self._part_of(standing)
        entry = self.found.entry(standing.entry) if standing.entry else None
        home = self.was.place(standing.home) if standing.home and self.was.has_place(standing.home) else None
        facing = home.facing if home is not None else ""
        own = self.was.part(part) if self.was.has_part(part) else self.strange[entry.number]
        fixed = own.fixed
        if not own.feature:
            facing = ""
        elif entry is not None and entry.toward in DIRECTIONS:
            facing = DIRECTIONS[DIRECTIONS.index(entry.toward) ^ self.other_end]
        elif facing and not fixed:
            self.remarks["places", name] = f"facing as in {self.was.id}: not seen on this machine"
            if entry is not None:
                self.look.append(f"{name}: nobody saw which way round it was")
        if entry is None and not fixed:
            self.look.append(f"{name}: nobody looked at it; it is as {self.was.id} has it")
        tag = name.partition("@")[2]
        ends = [end.removesuffix(" end").replace(" ", "-") for end in self.was.ends]
        end = ends.index(tag) if tag in ends else home.end if home is not None and name == home.name else None
        return Place(
            name=name,
            part=part,
            facing=facing,
            toward=self.was.end_name(facing) if facing else "",
            count=standing.count,
            end=end,
        )

    def _say_what_is_gone(self, met: dict[str, None]) -> None:
        standing = {home.home for home in self._standings()}
        for place in self.was.places:
            if place.name not in standing:
                self.look.append(f"{place.name}: stands in {self.was.id} and not in this machine")
        ruled = [(limit.what, limit.between) for limit in self.was.limits] + [
            (joint.name, joint.clamps) for joint in self.was.joints
        ]
        for name, places in ruled:
            if not self._stand(places, met):
                self.look.append(f"{name}: one of its places is not in this machine, so it is left out")
        for entry in self.found.entries:
            if entry.is_loose:
                self.look.append(f"{entry.what} (entry {entry.number}) was found loose and has no place here")

    def _now(self, places: tuple[str, ...]) -> tuple[str, ...]:
        """The same spots by the names they have here."""
        split = [place.partition("/") for place in places]
        return tuple(self.spots.get(place, place) + slash + face for place, slash, face in split)

    def _stand(self, places: tuple[str, ...], met: dict[str, None]) -> bool:
        return all(place.partition("/")[0] in met for place in self._now(places))

    # Sizes

    def _measured(self) -> dict[SizeKey, tuple[Reading, ...]]:
        """Every reading of a size, on the part that came off or on its place."""
        readings = Readings.of(self.found)
        found: dict[SizeKey, list[Reading]] = {}
        for standing in self._standings():
            part = self._part_of(standing)
            entry = self.found.entry(standing.entry) if standing.entry else None
            names = [name for name, _ in entry.sizes] if entry else []
            names += [name for place, name in readings.places if place == standing.home and name not in names]
            for name in names:
                reading = readings.size(standing, name)
                if reading is not None and reading.is_measurement:
                    found.setdefault((part, name), []).append(self._one_piece(standing, part, name, reading))
        return {key: tuple(values) for key, values in found.items()}

    def _one_piece(self, standing: Standing, part: str, name: str, reading: Reading) -> Reading:
        """A pack that was measured as a pack, as one of its pieces."""
        entry = self.found.entry(standing.entry) if standing.entry else None
        size = self.was.part(part).size(name) if self.was.has_part(part) else None
        if name != "length" or entry is None or entry.count == 1 or size is None:
            return reading
        if abs(reading.value_mm - size.nominal_mm) <= abs(reading.value_mm - entry.count * size.nominal_mm):
            return reading
        return replace(reading, value_mm=reading.value_mm / entry.count, good_to_mm=reading.good_to_mm / entry.count)

    def _part(self, part: Part, measured: dict[SizeKey, tuple[Reading, ...]], used: set[str]) -> Part:
        sizes = dict(part.sizes)
        for (id, name), readings in measured.items():
            if id == part.id:
                sizes[name] = range_of(readings)
                self.remarks["parts", part.id, name] = f"measured: {', '.join(reading.text for reading in readings)}"
        for name, size in part.sizes:
            if (
                size.text != part.standard
                and (part.id, name) not in measured
                and not part.fixed
                and name in ("length", "inner_width", "outer_width")
            ):
                self.remarks["parts", part.id, name] = f"as in {self.was.id}: not measured on this machine"
        duties = tuple(duty for duty in part.duties if duty.name != "pair" or duty.detail in used)
        return replace(resized(part, sizes), duties=duties)


def range_of(readings: tuple[Reading, ...]) -> Size:
    """The range that holds every one of these sizes, whatever the measuring was off: never an average."""
    low, high = min(reading.low_mm for reading in readings), max(reading.high_mm for reading in readings)
    low, high = round(max(low, 0.0), 6), round(high, 6)
    return Size(
        text=f"{low:.9g}..{high:.9g} mm",
        nominal_mm=round((low + high) / 2, 9),
        least_mm=low,
        most_mm=high,
        limits_from="written",
    )


def _of_what_stood(state: State, made: Reference) -> State:
    """The state without the temperature of a part or place that is no more."""
    known = can_be_apart((part.id for part in made.parts), (place.name for place in made.places))
    return replace(state, apart=tuple(each for each in state.apart if each[0] in known))
