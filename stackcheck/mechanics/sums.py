"""A sum of lengths that can be opened: its terms, its worst case, and what is missing for it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from stackcheck.mechanics.arrangement import Arrangement, Member, standing_in
from stackcheck.mechanics.lengths import Interval, Ruler, Term, total_of
from stackcheck.mechanics.spread import Spread, spread_of
from stackcheck.mechanics.uncertainty import Measurement, as_measured
from stackcheck.model.part import LIE_ACROSS, PASS_THROUGH, SEATS, Part
from stackcheck.value import Value, replace


class Sum(Value, kw_only=True):
    """`total` is the worst case, None where lengths are `missing`;
    `needs` names these, once each, and what makes it wide.

    `as_measured` is None where nothing was measured.

    `fills` names springs without a length of their own, which fill whatever room the parts leave; `beside_them` is how
    long these parts are together, None where another length is missing too.

    `between` names the fixed members that a stack is summed between, "" at an end that is none.
    """

    terms: tuple[Term, ...]
    total: Interval | None
    needs: tuple[str, ...] = ()
    as_measured: Measurement | None = None
    between: tuple[str, str] = ("", "")
    missing: tuple[str, ...] = ()
    fills: tuple[str, ...] = ()
    beside_them: Interval | None = None
    passing: str = ""
    """The part for whose sake nothing is added up."""

    def longer_than(self, reference: Sum) -> float | None:
        """How much [mm] by the nominal lengths; None where a length is missing in one of the two only.

        What is the same in both need not be known:
        a pack one shim short is as much shorter beside a nut of unknown length.
        """
        if self.passing or Counter(self.missing) != Counter(reference.missing):
            return None
        if self.missing and set(self.needs) - set(self.missing):
            return None  # a part that may lie in another stack, and no range of the total to show it
        return total_of(self.terms).nominal_mm - total_of(reference.terms).nominal_mm

    @property
    def spread(self) -> Spread | None:
        """How the sum is spread; None where anything is missing or doubtful."""
        return None if self.fills else spread_of(self.terms, self.needs)


class Lengths(Value, kw_only=True):
    """Terms collected so far; `missing` lengths make the total unknown, `doubts` only make it wide."""

    terms: tuple[Term, ...] = ()
    missing: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()

    def __add__(self, other: Lengths) -> Lengths:
        return Lengths(
            terms=self.terms + other.terms, missing=self.missing + other.missing, doubts=self.doubts + other.doubts
        )

    def __neg__(self) -> Lengths:
        return replace(self, terms=tuple(replace(term, sign=-term.sign) for term in self.terms))

    @property
    def needs(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(self.missing + self.doubts))

    @property
    def total(self) -> Interval | None:
        return None if self.missing else total_of(self.terms)

    @property
    def measurement(self) -> Measurement | None:
        if self.missing or not any(term.is_measured for term in self.terms):
            return None
        return as_measured(self.terms)

    def summed(self, between: tuple[str, str] = ("", "")) -> Sum:
        return Sum(
            terms=self.terms,
            total=self.total,
            needs=self.needs,
            as_measured=self.measurement,
            between=between,
            missing=self.missing,
        )

    def less(self, reference: Lengths) -> Lengths:
        """Only what differs from the reference:
        lengths that stand in both cancel exactly, known or not, piece by piece.
        """
        own, its = _in_pieces(self.terms), _in_pieces(reference.terms)
        ours = Counter((term.identity, term.sign) for term in own)
        theirs = Counter((term.identity, term.sign) for term in its)
        added = Lengths(terms=_picked(own, ours - theirs))
        taken = Lengths(terms=_picked(its, theirs - ours))
        missing, known = Counter(self.missing), Counter(reference.missing)
        return (
            added
            + -taken
            + Lengths(missing=tuple(((missing - known) + (known - missing)).elements()), doubts=self.doubts)
        )


def _in_pieces(terms: Iterable[Term]) -> list[Term]:
    """The terms, one of several pieces as so many of one."""
    return [piece for term in terms for piece in ([_piece(term)] * term.pieces if term.pieces > 1 else [term])]


def _piece(term: Term) -> Term:
    ends = (term.interval.nominal_mm, term.interval.least_mm, term.interval.most_mm)
    nominal, least, most = (round(end / term.pieces, 9) for end in ends)
    return replace(term, pieces=1, interval=Interval(nominal_mm=nominal, least_mm=least, most_mm=most))


def _picked(terms: Iterable[Term], wanted: Counter) -> tuple[Term, ...]:
    left = Counter(wanted)
    picked = []
    for term in terms:
        if left[term.identity, term.sign] > 0:
            left[term.identity, term.sign] -= 1
            picked.append(term)
    return tuple(picked)


def lengths_of(ruler: Ruler, members: Iterable[Member], through: str) -> Lengths:
    """The members one behind the other."""
    collected = Lengths()
    for member in members:
        collected += length_of(ruler, member, through)
    return collected


def length_of(ruler: Ruler, member: Member, through: str) -> Lengths:
    """One member; where it may lie in another stack it counts for nothing or for all of its length."""
    term = ruler.term(member.standing, through)
    if term is None:
        return Lengths(missing=(ruler.needs_length(member.standing),) * member.standing.count)
    if not member.or_else:
        return Lengths(terms=(term,))
    where = (
        f"bore and outside diameter of {_called(ruler, member)}, or a look: it lies in one of: "
        f"{', '.join(member.or_else)}"
    )
    return Lengths(terms=(replace(term, interval=term.interval.or_nothing(), whole=term.interval),), doubts=(where,))


def _called(ruler: Ruler, member: Member) -> str:
    name, entry = ruler.name(member.standing), member.standing.entry
    return name if entry is None else f"entry {entry}, {name}"


def passing(wanted: Arrangement, stack: str) -> str:
    """The name of a bolt, axle, pin or bush for whose sake the lengths of a stack are not added up; "" where they are.

    It reaches through its neighbours or lies across them, and the stack only says what it bears on: where its length is
    not given, or where the stack holds but one part of another sort and closes no gap. A bush beside nothing but what
    holds it in its bore is no further along either.
    """
    reference = wanted.reference
    parts = [reference.part_at(place) for place in reference.stack(stack).places]
    through = [part for part in parts if part.kind in PASS_THROUGH | LIE_ACROSS and not part.fixed]
    needs = stack_lengths(wanted, stack)[0].missing if through else ()
    unknown = [part for part in through if f"length of {part.name}" in needs]
    closes = any(loop.closed_stack and stack in (loop.closed_stack, loop.open_stack) for loop in reference.loops)
    if not closes and (bush := _in_a_bore(parts)) is not None:
        return bush.name
    if through and not closes and (unknown or len(parts) - len(through) <= 1):
        return (unknown or through)[0].name
    return ""


def _in_a_bore(parts: list[Part]) -> Part | None:
    """The bush of a stack that holds only it and what it sits in."""
    bush, other = sorted(parts, key=lambda part: part.kind != "bush") if len(parts) == 2 else (None, None)
    if bush is None or bush.kind != "bush" or other.kind not in SEATS:
        return None
    return bush


def stack_lengths(arrangement: Arrangement, stack: str) -> tuple[Lengths, tuple[str, str]]:
    """The members of a stack between its outermost fixed faces, and the names of these.

    A *face* is a fixed member without a length: a leg or a shoulder that only says where the stack stops. With two or
    more faces the sum runs from the first to the last; with one, from there to the end that has more places (a nut and
    a washer outside a leg are not part of what stands behind it); with none, over the whole stack. A fixed member
    without a length between these ends is a body of unknown length.
    """
    start, end = span(arrangement, stack)
    members = arrangement.members(stack)
    homes = [member.standing.home for member in members]
    first = homes.index(start) + 1 if start else 0
    last = homes.index(end) if end else len(members)
    through = arrangement.reference.stack(stack).through
    return lengths_of(arrangement.ruler, members[first:last], through), (start, end)


def span(arrangement: Arrangement, stack: str) -> tuple[str, str]:
    """The faces that the sum of a stack runs between, "" at an end that has none."""
    reference = arrangement.reference
    places = reference.stack(stack).places
    through = reference.stack(stack).through
    faces = [
        place
        for place in places
        if reference.part_at(place).fixed
        and arrangement.ruler.term(standing_in(reference.place(place)), through) is None
        and any(member.standing.home == place for member in arrangement.members(stack))
    ]
    if len(faces) >= 2:
        return faces[0], faces[-1]
    if not faces:
        return "", ""
    position = places.index(faces[0])
    return (faces[0], "") if 2 * position < len(places) else ("", faces[0])
