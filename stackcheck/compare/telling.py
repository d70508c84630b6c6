"""From a priced choice to an explanation: the findings, the notes, and the line as it is believed to have stood."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from stackcheck.compare import evidence
from stackcheck.compare.identity import ALTERNATE, DIFFERENT, SAME, Match
from stackcheck.compare.seats import Seats
from stackcheck.compare.slips import REVERSE, SWAP, TURN
from stackcheck.compare.spots import Group, lies_before
from stackcheck.model.finding import (
    SEQUENCE,
    Alternate,
    CountDiffers,
    DifferentPart,
    EnteredFromOtherEnd,
    EnteredTwice,
    Explanation,
    Extra,
    Finding,
    Missing,
    NotReached,
    NotVerified,
    OutOfPlace,
    RunEndForEnd,
    RunMoved,
    SizeDiffers,
    Swapped,
    TurnedRound,
)
from stackcheck.model.found import Entry
from stackcheck.model.part import Part
from stackcheck.model.reference import Unit


class Teller(Seats):
    """Tells one priced choice."""

    def explanation(self) -> Explanation:
        findings = self._in_sequence(self._findings())
        return Explanation(
            findings=findings, notes=self._in_sequence(self._notes()), line=self._line(),
            price=self.priced.price + self.typed.price,
            proved_least=True, bound=self.priced.price + self.typed.price,
        )  # fmt: skip

    # Findings

    def _in_sequence(self, findings: Iterable[Finding]) -> tuple[Finding, ...]:
        deep = len(self.position)
        return tuple(
            sorted(
                findings,
                key=lambda f: (
                    SEQUENCE.index(f.kind), min((self.position.get(n, deep) for n in f.places), default=deep),
                    f.entries,
                ),
            )
        )  # fmt: skip

    def _findings(self) -> Iterable[Finding]:
        yield from self._empty()
        yield from self._identities()
        yield from self._sequence()
        yield from self._over()
        if self.typed.mirrored:
            yield EnteredFromOtherEnd(evidence=("read from the other end the list agrees better",))
        for kept, gone in self.typed.twice:
            entry, other = self.found.entry(kept), self.found.entry(gone)
            same_tag = bool(entry.tag) and entry.tag == other.tag
            why = (
                f"both entries carry tag {entry.tag}"
                if same_tag
                else "the entries are equal in every field, measured too"
            )
            yield EnteredTwice(entries=(kept, gone), evidence=(why,))

    def _empty_names(self, group: Group) -> list[str]:
        """Empty places of equal places that stand together; a counted place is empty only as a whole."""
        if group.counted:
            return []
        return [name for name in group.names if name not in self.filled]

    def _empty(self) -> Iterable[Finding]:
        loose: dict[Group, list[Entry]] = {}
        for entry, group, _ in self.priced.loose:
            if group is not None:
                loose.setdefault(group, []).append(entry)
        missing = dict(self.priced.missing)
        for group in dict.fromkeys([*missing, *loose]):
            entries = loose.get(group, [])
            if group.counted:
                yield from self._short(group, missing.get(group, 0) or len(entries), entries)
                continue
            if group.may_be_absent and not entries:
                continue
            names = self._empty_names(group)
            for name, entry in zip(names, [*entries, *[None] * (len(names) if group in missing else 0)]):
                if entry is None and group.may_be_absent:
                    continue
                after, before = self._around_place(name)
                yield Missing(
                    places=(name,), group=self._group(name), after=after, before=before,
                    entries=(entry.number,) if entry else (), evidence=self._why_empty(entry),
                )  # fmt: skip

    def _group(self, place: str) -> tuple[str, ...]:
        """Equal places that stand together, any of which may be the empty one."""
        return self.spots.equal_places.get(place, ())

    def _why_empty(self, entry: Entry | None) -> tuple[str, ...]:
        if entry is not None:
            return (f"entry {entry.number} was found loose; its place was not seen",)
        return ("no entry of the list belongs here",)

    def _short(self, group: Group, short: int, loose: Sequence[Entry]) -> Iterable[Finding]:
        if group.may_be_absent and not loose:
            return
        after, before = self._around_place(group.name)
        numbers = tuple(dict.fromkeys(entry.number for entry in loose))
        why = tuple(dict.fromkeys(self._why_empty(entry)[0] for entry in loose))
        if short == group.size:
            why = why or self._why_empty(None)
            yield Missing(places=(group.name,), after=after, before=before, entries=numbers, evidence=why)
            return
        present = [p for p, home in enumerate(self.homes) if home is not None and home.name == group.name]
        yield CountDiffers(
            places=(group.name,), entries=(*self._numbers(present), *numbers), wanted=group.size,
            found=group.size - short,
            after=after, before=before, evidence=why or (f"{group.size - short} of {group.size} pieces entered",),
        )  # fmt: skip

    def _numbers(self, pieces: Iterable[int]) -> tuple[int, ...]:
        return tuple(dict.fromkeys(self.pieces[p].entry.number for p in pieces))

    def _part(self, group: Group) -> Part | None:
        return None if group.unit else self.reference.part(group.part)

    def _identities(self) -> Iterable[Finding]:
        seen = set()
        for p, match in enumerate(self.matches):
            if match is None or match.how == SAME and not match.outside:
                continue
            home, entry = self._taken_for(p), self.pieces[p].entry
            place = self.places[p] or home.name
            if (entry.number, place) not in seen:
                seen.add((entry.number, place))
                yield from self._identity_findings(entry, place, home, match)
        for entry, group, match in self.priced.loose:
            if group is not None and match.outside:
                yield from self._sizes(entry, group.name, match)

    def _identity_findings(self, entry: Entry, place: str, home: Group, match: Match) -> Iterable[Finding]:
        part = self._part(home)
        if match.how == DIFFERENT:
            named = self.identity.listed(entry) if entry.sure else None
            why = evidence.who(self.reference, self.identity, entry, part, match)
            is_part = named.id if named is not None and named.id != part.id else None
            why = (*why, *self._perhaps_swapped(named))
            yield DifferentPart(places=(place,), entries=(entry.number,), part=is_part, evidence=why)
        yield from self._sizes(entry, place, match)

    def _perhaps_swapped(self, named: Part | None) -> Iterable[str]:
        """That a part stands in another's place may be half of a swap, where its own place was not reached."""
        for group, _ in self.priced.unreached:
            if named is not None and group.part == named.id:
                yield (
                    f"{group.name}, where {named.name} belongs, was not reached: "
                    "what stands there tells whether the two were swapped"
                )
                return

    def _sizes(self, entry: Entry, place: str, match: Match) -> Iterable[Finding]:
        for name, reading, size in match.outside:
            yield SizeDiffers(
                places=(place,), entries=(entry.number,), size_name=name, reading=reading, size=size,
                evidence=(evidence.fit(name, reading, size),),
            )  # fmt: skip

    def _sequence(self) -> Iterable[Finding]:
        for slip in reversed(self.priced.slips):
            blocks = [self._pieces_of(i) for i in slip.items]
            pieces = sorted(p for block in blocks for p in block)
            places, entries = self._named(pieces)
            after, before = self._around(pieces)
            if slip.kind == TURN:
                p = pieces[0]
                part = self._part(self.homes[p])
                toward = self.pieces[p].toward
                why = evidence.facing(self.reference, part, toward, self._wanted(p))
                yield TurnedRound(places=places, entries=entries, toward=toward, evidence=(why,))
            elif slip.kind == SWAP:
                pair, rest = [block[0] for block in blocks], [p for block in blocks for p in block[1:]]
                yield Swapped(
                    places=tuple(self.places[p] for p in pair), entries=self._numbers([*pair, *rest]),
                    evidence=self._who_they_are(pieces),
                )  # fmt: skip
            elif slip.kind == REVERSE:
                yield RunEndForEnd(
                    places=places, entries=entries, after=after, before=before,
                    evidence=(self._how_reversed(pieces),),
                )  # fmt: skip
            else:
                kind = OutOfPlace if sum(self.priced.items[i].parts for i in slip.items) == 1 else RunMoved
                yield kind(
                    places=places, entries=entries, after=after, before=before, evidence=self._who_they_are(pieces)
                )

    def _how_reversed(self, pieces: Sequence[int]) -> str:
        """What shows that a run was turned: its sequence too, unless nothing orders its parts or they are equal."""
        homes = [self.homes[p] for p in pieces]
        if any(a.part != b.part and (lies_before(a, b) or lies_before(b, a)) for a in homes for b in homes):
            return "their sequence is reversed, and every face that was seen points the other way"
        return (
            "every face that was seen points the other way; "
            "no sequence shows it, so each may have been turned by itself"
        )

    def _named(self, pieces: Sequence[int]) -> tuple[tuple[str, ...], tuple[int, ...]]:
        """Places in the sequence of the reference, each with its entry."""
        pairs = sorted((self.position.get(self.places[p], 0), p) for p in pieces)
        named = dict.fromkeys((self.places[p], self.pieces[p].entry.number) for _, p in pairs)
        return tuple(place for place, _ in named), tuple(number for _, number in named)

    def _who_they_are(self, pieces: Sequence[int]) -> tuple[str, ...]:
        lines: list[str] = []
        for p in pieces:
            part = self._part(self.homes[p])
            if part is not None:
                lines += evidence.who(self.reference, self.identity, self.pieces[p].entry, part, self.matches[p])
        return tuple(dict.fromkeys(lines))

    def _over(self) -> Iterable[Finding]:
        surplus: dict[Group, list[int]] = {}
        for p, home in enumerate(self.homes):
            if home is not None:
                continue
            entry = self.pieces[p].entry
            if p in self.beside:
                surplus.setdefault(self.beside[p], []).append(p)
                continue
            after, before = self._around([p])
            named = self.identity.listed(entry)
            yield Extra(
                entries=(entry.number,), part=named.id if named else None, after=after, before=before,
                evidence=(self._why_over(entry),),
            )  # fmt: skip
        for group, pieces in surplus.items():
            present = [p for p, home in enumerate(self.homes) if home is not None and home.name == group.name]
            after, before = self._around_place(group.name)
            total = group.size + len(pieces)
            yield CountDiffers(
                places=(group.name,), entries=self._numbers(sorted([*present, *pieces])), wanted=group.size,
                found=total, after=after, before=before, evidence=(f"{total} pieces entered, {group.size} wanted",),
            )  # fmt: skip
        for entry, group, _ in self.priced.loose:
            if group is None:
                named = self.identity.named(entry)
                so_far = "" if self.found.finished else " so far"
                why = f"entry {entry.number} was found loose; no place that it could be from is empty{so_far}"
                yield Extra(entries=(entry.number,), part=named.id if named else None, loose=True, evidence=(why,))

    def _why_over(self, entry: Entry) -> str:
        named = self.identity.named(entry)
        if named is not None:
            closed = next(
                (
                    unit
                    for unit in self._closed()
                    if any(self.reference.place(n).part == named.id for n in unit.members)
                ),
                None,
            )
            why = f"its place is inside {closed.name}" if closed else "no place for it is empty"
            return f"entry {entry.number} was entered as {named.name}; {why}"
        return f"no empty place fits entry {entry.number}"

    # Notes

    def _notes(self) -> Iterable[Finding]:
        for p, match in enumerate(self.matches):
            if match is not None and match.how == ALTERNATE:
                entry, home = self.pieces[p].entry, self._taken_for(p)
                named = self.identity.named(entry)
                number = entry.marked or (named.number if named else "")
                yield Alternate(
                    places=(self.places[p] or home.name,), entries=(entry.number,), number=number,
                    evidence=evidence.who(self.reference, self.identity, entry, self._part(home), match),
                )  # fmt: skip
        for group, left in self.priced.unreached:
            for name in [group.name] if group.counted else self._empty_names(group)[-left:]:
                if name in self.position:
                    yield NotReached(places=(name,), evidence=("the teardown stopped before it",))
        for unit in self._closed():
            yield NotVerified(places=unit.members, unit=unit.id, evidence=(f"{unit.name} was not stripped",))

    def _closed(self) -> Iterable[Unit]:
        return (unit for unit in self.reference.units if unit.id in self.spots.closed)
