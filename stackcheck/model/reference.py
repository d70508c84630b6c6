"""What an assembly should be: places in stacks along one axis, as one directed graph.

A *place* is a spot where one part belongs; a *stack* is an ordered line of places that touch, first end to second end.
Stacks share places, so the sequence is partial: a seal and the collar that runs inside it are not ordered to each
other. The union of all stacks is a networkx graph whose edges say *lies before*; a loop in it cannot be built. Two
stacks that meet at the same two places form a `Loop`, whose two paths differ by a gap or an overlap; loops are found
from the graph, nobody lists them. No length is added up here: see `stackcheck.mechanics`.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from graphlib import CycleError, TopologicalSorter
from heapq import heappop, heappush
from itertools import pairwise
from typing import TYPE_CHECKING

from stackcheck.model.coverage import Coverage
from stackcheck.model.limits import ForceLimit, Limit, Pairing, StateLimit
from stackcheck.model.part import Amount, Part, Section, Size
from stackcheck.model.state import State
from stackcheck.units.inches import in_inches
from stackcheck.value import Value, replace

if TYPE_CHECKING:
    import networkx


class Place(Value, kw_only=True):
    """A spot in the stack where `count` pieces of one part belong.

    `facing` is the end that the part's feature points to: "first", "second", or "" where the place wants none; `toward`
    keeps the word of the file ("outside", "bearing"). `end` is 0 or 1 for a place named after an end (`seal@left`).
    `may_be_absent` gives the reason why an empty place is no difference.
    """

    name: str
    part: str
    facing: str = ""
    toward: str = ""
    count: int = 1
    end: int | None = None
    may_be_absent: str = ""


class Gap(Value, kw_only=True):
    """A gap left open on purpose: an entry of a stack, with its limits.

    `set_by` names what closes it when it is fitted (a nut on a thread): such a gap is measured, never a sum of lengths.
    """

    name: str
    least_mm: float | None = None
    most_mm: float | None = None
    text: str = ""
    clamped: bool = False
    set_by: str = ""
    source: str = ""


class Stack(Value, kw_only=True, dict=True, gc=True):
    """Places that touch one another, first end to second end; a str is a place's name, a `Gap` is left open.

    `through` says by which faces a part counts: "inner rings", "outer rings", or "" for the whole length.
    """

    name: str
    items: tuple[str | Gap, ...]
    through: str = ""

    @cached_property
    def places(self) -> tuple[str, ...]:
        return tuple([item for item in self.items if isinstance(item, str)])

    @property
    def gaps(self) -> tuple[Gap, ...]:
        return tuple(item for item in self.items if isinstance(item, Gap))


class Joint(Value, kw_only=True):
    """What clamps: read and kept here, computed by the mechanics engine.

    With an `angle` the `torque` is where it is snug, and it is turned on by that angle. `prevailing` is what a locking
    nut takes before it clamps, `friction` coefficients of thread and face (two or three figures, least first), `face`
    the outside diameter of the face that turns. `thread_stop` is the least distance between its two clamped places,
    themselves with it, at which the nut meets the end of its thread. `slots` counts those of a castellated nut, 0 for
    any other; `holes_deg` tells where around the axle its pin can go. `shank` is what the joint stretches, step by step
    from the head or shoulder that it pulls against; what is left as far as the nut is thread.
    """

    name: str
    clamps: tuple[str, str]
    thread: str = ""
    torque: Amount | None = None
    thread_condition: str = ""
    angle: Amount | None = None
    prevailing: Amount | None = None
    friction: tuple[float, ...] = ()
    face: Size | None = None
    thread_stop: Size | None = None
    locked_by: str = ""
    slots: int = 0
    holes_deg: tuple[float, ...] = (0.0,)
    shank: tuple[Section, ...] = ()
    note: str = ""


class Support(Value, kw_only=True):
    """A member that gives under load: read and kept here, computed by the mechanics engine.

    `stiffness` is that of its free end, as a spring balance pulls it; `end` is "guided" where the clamped axle keeps it
    from turning, "free" where it may turn, "" where nobody knows. `free_position` is how far it stands, let go, from
    where the frame has it, toward the second end above 0 [mm]. A round leg that nobody pulled is reckoned by the
    `outside` and `bore` of its tube, its `reach` from where it is held to the axle [mm], and its `material`, steel
    where none is given.
    """

    place: str
    stiffness: Amount | None = None
    outside: Size | None = None
    bore: Size | None = None
    reach: Size | None = None
    material: str = ""
    free_position: Size | None = None
    end: str = ""
    floating: bool = False
    pinched_after_settling: bool = False
    note: str = ""


class Unit(Value, kw_only=True):
    """Places that come off as one closed thing (a cartridge); `members` are place names, next to one another."""

    id: str
    name: str
    members: tuple[str, ...]


class Source(Value, kw_only=True):
    """Who says so. `kind` from `SOURCE_KINDS`; `state` "draft" or "checked ..." in the words of the file."""

    kind: str
    what: str = ""
    state: str = "draft"

    @property
    def is_draft(self) -> bool:
        return self.state.strip().lower().startswith("draft")


SOURCE_KINDS = {
    "maker's drawing": "from the maker",
    "parts picture": "parts picture: sequence not guaranteed, no limits, facing not shown",
    "taken from a machine": "taken from a machine",
    "own record": "own record: can only show change",
    "memory": "unconfirmed",
}
"""Kinds of source, each with the words that stand beside the reference's name."""


class Revised(Value, kw_only=True):
    """One entry of a reference's history: what the revision changed, when, and by whom (initials)."""

    revision: str
    date: str = ""
    what: str = ""
    by: str = ""


class Variant(Value, kw_only=True):
    """What is otherwise on machines of some years or serials:
    `reference` is the whole, `told` the differences as written.
    """

    name: str
    years: Coverage | None = None
    serials: Coverage | None = None
    why: str = ""
    reference: Reference
    told: tuple = ()

    @property
    def as_reference(self) -> Reference:
        """The whole, which says that it is this variant."""
        return replace(self.reference, for_machine=f'variant "{self.name}"')

    def holds(self, year: str, serial: str) -> bool | None:
        """Whether it is for a machine of this year and serial; None where what would decide is not said."""
        said = [
            coverage.holds(word)
            for coverage, word in ((self.years, year), (self.serials, serial))
            if coverage is not None
        ]
        return False if False in said else None if None in said else True


class Loop(Value, kw_only=True):
    """Two paths between the same two places.

    `open_stack` is the stack whose path holds the gap, at the boundary `gap_between`; `closed_stack` the other one. The
    gap is the length of the closed path less the length of the open one: an overlap where that is below zero. With no
    stated gap the paths are compared as they stand and `stated` is False.
    """

    name: str
    start: str
    end: str
    open_stack: str
    closed_stack: str
    open_path: tuple[str, ...]
    closed_path: tuple[str, ...]
    gap_between: tuple[str, str]
    least_mm: float | None = None
    most_mm: float | None = None
    set_by: str = ""
    source: str = ""
    stated: bool = True


class SequenceLoopError(ValueError):
    """The stacks contradict one another: `places` lie each before the next and the last before the first."""

    def __init__(self, places: tuple[str, ...], stacks: tuple[str, ...]):
        self.places = places
        self.stacks = stacks
        super().__init__(" before ".join([*places, places[0]]))


class Reference(Value, kw_only=True, dict=True, gc=True):
    """One assembly as it should be. Build it with all its places; a loop in *lies before* raises SequenceLoopError.

    `for_machine` says which machine it was picked for, and `outside` whether that one lies outside its years or serials
    (`for_a_machine`).
    """

    id: str
    title: str
    revision: str
    ends: tuple[str, str]
    ends_seen_from: str
    source: Source
    parts: tuple[Part, ...]
    places: tuple[Place, ...]
    stacks: tuple[Stack, ...]
    machine: str = ""
    covers: str = ""
    limits: tuple[Limit, ...] = ()
    force_limits: tuple[ForceLimit, ...] = ()
    state_limits: tuple[StateLimit, ...] = ()
    pairings: tuple[Pairing, ...] = ()
    joints: tuple[Joint, ...] = ()
    supports: tuple[Support, ...] = ()
    states: tuple[State, ...] = ()
    units: tuple[Unit, ...] = ()
    cautions: tuple[str, ...] = ()
    replaced_by: str = ""
    note: str = ""
    history: tuple[Revised, ...] = ()
    years: Coverage | None = None
    serials: Coverage | None = None
    variants: tuple[Variant, ...] = ()
    for_machine: str = ""
    outside: bool = False
    file: str = ""

    def __post_init__(self) -> None:
        try:
            self._sorter.prepare()
        except CycleError as problem:
            places = tuple(problem.args[1][:-1])
            stacks = (self.graph.edges[edge]["stack"] for edge in zip(places, (*places[1:], places[0])))
            raise SequenceLoopError(places, tuple(stacks)) from None

    @property
    def _sorter(self) -> TopologicalSorter[str]:
        sorter = TopologicalSorter({place.name: () for place in self.places})
        for stack in self.stacks:
            for a, b in pairwise(stack.places):
                sorter.add(b, a)
        return sorter

    @cached_property
    def graph(self) -> networkx.DiGraph:
        """Places as nodes; an edge a -> b, with the stack's name, where b comes next after a in a stack."""
        import networkx  # loading it takes as long as half a comparison, and most comparisons walk no graph

        graph = networkx.DiGraph()
        graph.add_nodes_from(place.name for place in self.places)
        for stack in self.stacks:
            for a, b in pairwise(stack.places):
                graph.add_edge(a, b, stack=stack.name)
        return graph

    @cached_property
    def _parts_by_id(self) -> dict[str, Part]:
        return {part.id: part for part in self.parts}

    @cached_property
    def _places_by_name(self) -> dict[str, Place]:
        return {place.name: place for place in self.places}

    def for_a_machine(self, year: str, serial: str) -> Reference:
        """The reference as it is for a machine of this year and serial ("" where not said), and what was picked."""
        from stackcheck.model.machine_picked import for_a_machine

        return for_a_machine(self, year, serial)

    def part(self, id: str) -> Part:
        return self._parts_by_id[id]

    def place(self, name: str) -> Place:
        return self._places_by_name[name]

    def has_place(self, name: str) -> bool:
        return name in self._places_by_name

    def has_part(self, id: str) -> bool:
        return id in self._parts_by_id

    def part_at(self, place: str) -> Part:
        return self._parts_by_id[self._places_by_name[place].part]

    def places_of(self, part: str) -> tuple[Place, ...]:
        return tuple(place for place in self.places if place.part == part)

    def stack(self, name: str) -> Stack:
        return next(stack for stack in self.stacks if stack.name == name)

    def end_name(self, end: str) -> str:
        """The name of the end that a facing "first" or "second" points to."""
        return self.ends[0] if end == "first" else self.ends[1]

    @cached_property
    def line(self) -> tuple[str, ...]:
        """All places in one sequence that obeys every stack; ties go by the sequence of the file."""
        return self.line_by({place.name: position for position, place in enumerate(self.places)})

    def line_by(self, rank: Mapping[str, int | tuple[int, int]]) -> tuple[str, ...]:
        """All places in one sequence that obeys every stack;
        of those that may come next, the lowest rank comes first.
        """
        sorter = self._sorter
        sorter.prepare()
        ready: list[tuple[int | tuple[int, int], str]] = []
        line: list[str] = []
        while sorter.is_active():
            for name in sorter.get_ready():
                heappush(ready, (rank[name], name))
            name = heappop(ready)[1]
            sorter.done(name)
            line.append(name)
        return tuple(line)

    def line_near(self, stood: Mapping[str, int]) -> tuple[str, ...]:
        """All places in a line that obeys every stack, those that no stack orders in the sequence in which they stood.

        A place of which nothing is said comes behind the one that the reference has ahead of it.
        """
        rank: dict[str, tuple[int, int]] = {}
        spot = -1
        for position, name in enumerate(self.line):
            spot = stood.get(name, spot)
            rank[name] = spot, position
        return self.line_by(rank)

    @cached_property
    def line_inward(self) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """All places from the first end inward, and from the second."""
        from stackcheck.model.inward import from_the_second_end

        return self.line, from_the_second_end(self)

    @cached_property
    def inches(self) -> bool:
        """Whether a size, a limit or a gap of it is written in inches."""
        sizes = (size.text for part in self.parts for _, size in part.sizes)
        gaps = (gap.text for stack in self.stacks for gap in stack.gaps)
        return any(in_inches(text) for text in (*sizes, *gaps, *(limit.text for limit in self.limits)))

    @cached_property
    def loops(self) -> tuple[Loop, ...]:
        from stackcheck.model.loops import find_loops

        return find_loops(self)

    @cached_property
    def datum(self) -> str:
        """The place that stays where it is: the first fixed member of the line, or the first place."""
        return next((name for name in self.line if self.part_at(name).fixed), self.line[0])
