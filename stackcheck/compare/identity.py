"""Could this entry be that part, and what does it cost to say so?

A number read off the part stands whatever was guessed; a named part is certain or a guess; of an unnamed one only kind
and sizes speak. Where it sat is decided elsewhere, together with this: see `stackcheck.compare.pairing`.
"""

from __future__ import annotations

from stackcheck.compare.marking import designation, is_anothers, is_own_number
from stackcheck.compare.prices import GUESS_OVERRULED, PRICES, UNKNOWN_TAKEN_FOR
from stackcheck.compare.sizes import size_verdict
from stackcheck.model.found import Entry
from stackcheck.model.part import Part, Reading, Size
from stackcheck.model.reference import Reference
from stackcheck.value import Value

SAME, ALTERNATE, DIFFERENT, OVERRULED, TAKEN = "same", "alternate", "different", "overruled", "taken"


class Match(Value):
    """An entry taken for the part of a place: how, at which price, which sizes lie outside their limits."""

    how: str
    price: int
    outside: tuple[tuple[str, Reading, Size], ...] = ()


AGREES = Match(SAME, 0)


class Identity:
    """Who the entries of one list may be, against one reference."""

    def __init__(self, reference: Reference):
        self.reference = reference
        self._part_ids = {part.id for part in reference.parts}
        self.units = frozenset(unit.id for unit in reference.units)
        self._owners: dict[str, Part] = {part.number: part for part in reversed(reference.parts) if part.number}
        self._accepting: dict[str, Part] = {n: part for part in reversed(reference.parts) for n in part.accepts}
        self._known: dict[tuple, dict[str, Match | None]] = {}

    def named(self, entry: Entry) -> Part | None:
        """The part that somebody named: by its number, by its id, or by the name of its place."""
        owner = self._owner(entry.marked) if entry.marked and not self._marked_as_named(entry) else None
        if owner is not None:
            return owner
        if entry.part is None:
            return None
        if self.reference.has_part(entry.part):
            return self.reference.part(entry.part)
        return self.reference.part_at(entry.part) if self.reference.has_place(entry.part) else None

    def listed(self, entry: Entry) -> Part | None:
        """The named part, unless the number read off says that it is another one of its kind."""
        part = self.named(entry)
        return None if part is not None and entry.marked and is_anothers(part, entry.marked) else part

    def bears_number_of(self, entry: Entry, part: Part) -> bool:
        """Whether the entry bears the part's own number or an accepted one, be it only guessed."""
        if entry.marked:
            if is_own_number(part, entry.marked) or entry.marked in part.accepts:
                return True
            return self.listed(entry) == part
        named = self.named(entry)
        return named is not None and (named.id == part.id or bool(named.number) and named.number in part.accepts)

    def is_plain(self, entry: Entry) -> bool:
        """Whether somebody is sure of a part of the reference,
        and nothing else was said that could speak against it.
        """
        return entry.sure and not entry.marked and not entry.sizes and entry.part in self._part_ids

    def is_accepted(self, part: Part) -> bool:
        """Whether the part may stand in the place of another one, which accepts its number or bears the same."""
        return bool(part.number) and (part.number in self._accepting or self._owners[part.number] is not part)

    def is_strange(self, entry: Entry) -> bool:
        """Whether it was named and nothing in the reference is called that."""
        if entry.part in self._part_ids or entry.part is None or entry.marked:
            return False
        return self.named(entry) is None and entry.part not in self.units

    def is_certain(self, entry: Entry) -> bool:
        return self.named(entry) is not None and (entry.sure or self._is_marked(entry))

    def match(self, entry: Entry, part_id: str) -> Match | None:
        """None where the entry cannot be that part nor another part of its kind."""
        key = (entry.part, entry.sure, entry.kind, entry.marked, entry.sizes)
        known = self._known.get(key)
        if known is None:
            known = self._known[key] = {}
        if part_id not in known:
            known[part_id] = self._match(entry, self.reference.part(part_id))
        return known[part_id]

    def _marked_as_named(self, entry: Entry) -> bool:
        if entry.part is None or not self.reference.has_part(entry.part):
            return False
        named = self.reference.part(entry.part)
        return is_own_number(named, entry.marked) or entry.marked in named.accepts

    def _is_marked(self, entry: Entry) -> bool:
        return bool(entry.marked) and (self._owner(entry.marked) is not None or self._marked_as_named(entry))

    def _owner(self, marked: str) -> Part | None:
        """The one part that carries this number; two parts of one designation leave it open."""
        if marked in self._owners:
            return self._owners[marked]
        owners = [part for part in self.reference.parts if part.standard and is_own_number(part, marked)]
        return owners[0] if len(owners) == 1 else None

    def _match(self, entry: Entry, part: Part) -> Match | None:
        named = self.named(entry)
        if entry.marked:
            if is_own_number(part, entry.marked):
                return self._measured(entry, part, SAME, 0, certain=True)
            if entry.marked in part.accepts:
                return self._measured(entry, part, ALTERNATE, PRICES["alternate"].points, certain=True)
            accepting = self._accepting.get(entry.marked) if entry.part is None else None
            if is_anothers(part, entry.marked) or self._owner(entry.marked) is not None or accepting:
                read = designation(entry.marked)
                bearer = named or accepting
                kind = bearer.kind if bearer else entry.kind or (read.kind if read else "")
                return Match(DIFFERENT, PRICES["different_part"].points) if kind == part.kind else None
        if named is None and entry.part is not None:
            # Somebody named something that this reference does not know.
            return Match(DIFFERENT, PRICES["different_part"].points) if entry.kind == part.kind else None
        if named is None:
            if entry.kind and entry.kind != part.kind:
                return None
            return self._measured(entry, part, TAKEN, UNKNOWN_TAKEN_FOR.points, certain=False)
        if named.id == part.id:
            return self._measured(entry, part, SAME, 0, certain=entry.sure)
        if named.number and named.number in part.accepts and not entry.marked:
            return self._measured(entry, part, ALTERNATE, PRICES["alternate"].points, certain=entry.sure)
        if named.kind != part.kind:
            return None
        if entry.sure:
            return Match(DIFFERENT, PRICES["different_part"].points)
        return self._measured(entry, part, OVERRULED, GUESS_OVERRULED.points, certain=False)

    def _measured(self, entry: Entry, part: Part, how: str, price: int, *, certain: bool) -> Match:
        outside = []
        for name, reading in entry.sizes:
            size = part.size(name)
            verdict = size_verdict(reading, size) if size else "no limits"
            if verdict == "gross" and not certain:
                return Match(DIFFERENT, PRICES["different_part"].points)
            if verdict in ("out", "gross") and reading.is_measurement:
                outside.append((name, reading, size))
        return Match(how, price + PRICES["size_differs"].points * len(outside), tuple(outside))
