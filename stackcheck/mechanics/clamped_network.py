"""The network of one joint and one loop: what the joint presses together, and the outer rings on the other side.

Each path is a chain of faces; a bearing ring is two halves, so that a force can come in at its middle, and the balls
join the middles of its two rings. Everything that is not known to a point is asked of `Unknowns`.
"""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.axial.laws import Element, body, crush, held
from stackcheck.mechanics.axial.network import Network
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.axial.tighten import Joint as Pulled
from stackcheck.mechanics.axial.tighten import Warm, frozen, tightened, warmed, with_tension
from stackcheck.mechanics.axle import Stretch, axle_stiffness, rods, stretches
from stackcheck.mechanics.bearing_laws import EXPONENTS, pushed, rolling
from stackcheck.mechanics.bodies import (
    STIFF,
    Missing,
    OneWay,
    body_stiffness,
    called,
    lower,
    ring_stiffness,
    ring_width,
)
from stackcheck.mechanics.bridges import PRESSES_BOTH, bridges
from stackcheck.mechanics.clamp import clamped_stack
from stackcheck.mechanics.force_path import SPRINGS
from stackcheck.mechanics.heat import COLD, Heat
from stackcheck.mechanics.heat_of_bearings import axle_expansion, axle_kelvin, clearance_change, seat_of
from stackcheck.mechanics.joint_pull import asked, pull_at, turned_deg
from stackcheck.mechanics.loops import standout
from stackcheck.mechanics.paired_bearings import forced_together_mm, is_made_as_a_pair, taken_by_the_fits
from stackcheck.mechanics.pressed_faces import pressed_faces
from stackcheck.mechanics.settling import ends_settle, face_settles, pairs_of_faces, threads_of
from stackcheck.mechanics.spring_rate import spring_rate
from stackcheck.mechanics.sums import Lengths
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.expansion import expansion_along
from stackcheck.model.finding import Standing
from stackcheck.model.part import SINGLE_DIRECTION_KINDS, Part
from stackcheck.model.place_words import in_its_place
from stackcheck.model.reference import Gap, Joint, Loop
from stackcheck.model.touching_pairs import is_touching
from stackcheck.value import Value, replace

AXLE = "axle"

FACE_TO_FACE = ["first", "second"]
"""The ends that outer rings are pushed to where the wide faces of two bearings look away from each other."""


class Watched(Value, kw_only=True):
    """Names of the elements and faces that an answer is read from;
    `only_if_held`: of outer rings that slide there is none.
    `exponent` is that of two equal bearings that touch and carry alone.
    """

    bearings: tuple[str, ...]
    clamped: tuple[str, ...]
    moves: str
    only_if_held: bool = False
    exponent: float | None = None


class ClampedNetwork:
    """A chain of faces through the inner rings, another through the outer ones, and what joins them."""

    def __init__(self, arrangement: Arrangement, joint: Joint, loop: Loop, unknowns: Unknowns, is_held: bool):
        self.arrangement, self.joint, self.loop, self.unknowns, self.is_held = (
            arrangement,
            joint,
            loop,
            unknowns,
            is_held,
        )
        self.reference, self.ruler = arrangement.reference, arrangement.ruler
        self.elements: list[Element] = []
        self.drawn: dict[str, float] = {}
        self.middles: dict[tuple[str, str], str] = {}
        self.grows: dict[str, tuple[float, tuple[str, ...]]] = {}
        self.bearings: dict[str, Part] = {}
        self.faces: dict[str, int] = {}
        self.around: tuple[Stretch, ...] = ()
        self.seat = ""
        self.pair: dict[str, Standing] = {}
        self.ways: list[str] = []

    def state(
        self, torque: float, thread: Thread, heat: Heat, *, settled: bool = False
    ) -> tuple[Network, dict[str, float], Watched]:
        """The network of the tightened joint, or of one that has settled;
        where its faces are drawn, and what to read from it.
        """
        clamped = self._clamped_members()
        outer_members = self._outer_members(clamped)
        self._look_at_the_pair(clamped, outer_members)
        # Face to face the balls push the outer rings apart: without somebody who holds them there is no state.
        self.is_held = self.is_held or is_touching(self.loop) and self.ways == FACE_TO_FACE
        for bridge in bridges(self.arrangement):
            if bridge.answer == PRESSES_BOTH:
                what = lower(self.ruler.name(bridge.standing))
                raise Missing(
                    f"a look at the {what}: it reaches the {bridge.other_ring} of {bridge.bearing} too, and "
                    "presses both rings past the balls"
                )
        head, nut = "under the head", "under the nut"
        self._chain(clamped, "inner", head, nut)
        ends = [0.0, *(self.drawn[f"inner face {i}"] for i in range(1, len(clamped))), self.drawn[nut]]
        self.around = stretches(
            self.arrangement, ((member, 0.0, b - a) for member, a, b in zip(clamped, ends, ends[1:]))
        )
        inner = tuple(element.name for element in self.elements)
        self._chain(outer_members, "outer", "outer, first end", "outer, second end")
        rows = {place: self._bearing(place) for place in self._rolling(clamped, outer_members)}
        self.elements += rows.values()
        bearings = tuple(rows[place].name for place in (self.loop.start, self.loop.end))
        is_pair = is_touching(self.loop)
        watched = Watched(
            bearings=bearings,
            clamped=inner,
            moves=self.seat or self.middles[self.loop.start, "outer"],
            only_if_held=is_pair and self.ways == FACE_TO_FACE,
            exponent=EXPONENTS[self.bearings[self.loop.start].kind] if is_pair and len(rows) == 2 else None,
        )
        network, drawn = Network(elements=tuple(self.elements), fixed={head: 0.0}), self._aligned()
        tight = self._warmed(network, rows, heat.together)
        axle = Pulled(
            name=AXLE,
            head=head,
            nut=nut,
            force=pull_at(self.unknowns, self.joint, torque, thread),
            k=self._axle_stiffness(thread, self.drawn[nut]),
            expansion_per_k=axle_expansion(self.reference, self.joint),
            turned_deg=turned_deg(self.unknowns, self.joint),
            pitch_mm=thread.pitch_mm,
        )
        if not heat.is_warm and self.joint.angle is None and not settled:
            return with_tension(tight, (axle,)), drawn, watched
        after = replace(network, elements=tuple(map(self._settled, network.elements))) if settled else network
        at = tightened(tight, (axle,), drawn)
        # Where a tube is missing the bearings hold the faces apart:
        # the axle is as long as they stand, not as the parts add up.
        axle = replace(axle, k=self._axle_stiffness(thread, at.distance(head, nut)))
        # Every body has lost the faces at its one side;
        # those at the other, and of what stands beyond, are the axle's to lose.
        beyond = pairs_of_faces(self.arrangement, self.joint) - sum(self.faces.get(name, 0) for name in inner)
        threads = threads_of(self.arrangement, self.joint)
        lost = ends_settle(self.unknowns, threads) + beyond * face_settles(self.unknowns) if settled else 0.0
        stretched = axle_kelvin(self.reference, heat) - axle_kelvin(self.reference, heat.together)
        warm = self._warmed(after, rows, heat)
        return frozen(warm, (axle,), at, joint_kelvin=stretched, settled_mm=lost), drawn, watched

    def _warmed(self, network: Network, rows: dict[str, Element], heat: Heat) -> Network:
        """The network with every body and every bearing at its own temperature."""
        if not heat.is_grown:
            return network
        bearings = {row.name: self._bearing(place, heat) for place, row in rows.items()}
        warm = {
            name: Warm(kelvin=heat.kelvin(*names), expansion_per_k=grows) for name, (grows, names) in self.grows.items()
        }
        elements = (bearings.get(element.name, element) for element in network.elements)
        return replace(network, elements=tuple(warmed(element, warm.get(element.name)) for element in elements))

    def _look_at_the_pair(self, clamped: list[Member], outer: list[Member]) -> None:
        """Which way the two bearings of the loop look, and whether they are made as a pair."""
        standings = {member.standing.home: member.standing for member in clamped if member.standing.home}
        both = {place: standings[place] for place in (self.loop.start, self.loop.end)}
        self.ways = [pushed(self.ruler, standing) for standing in both.values()]
        rows = [standings[home] for member in outer if (home := member.standing.home) in standings]
        all_ways = {way for row in rows if (way := pushed(self.ruler, row))}
        if all(self.ways) and len(all_ways) == 1:
            raise OneWay(f"bearings that look at each other or away from each other around the {self.loop.name}")
        self.pair = both if is_made_as_a_pair(self.arrangement, self.loop, both) else {}
        if self.pair and self.ways[0] == self.ways[1]:
            raise Missing(f"two bearings of one pair that look at each other or away from each other: {self.loop.name}")

    def _axle_stiffness(self, thread: Thread, length_mm: Any) -> Any:
        return axle_stiffness(self.unknowns, thread, self.around, length_mm, rods(self.reference, self.joint))

    def _settled(self, element: Element) -> Element:
        """A body shorter by what the faces on its one side, and those inside a pack, settle."""
        faces = self.faces.get(element.name, 0)
        if not faces:
            return element
        length, *others = element.values
        return replace(element, values=(length - faces * face_settles(self.unknowns), *others))

    def _aligned(self) -> dict[str, float]:
        """The outer chain drawn where the first bearing stands."""
        start = self.loop.start
        shift = self.drawn[self.middles[start, "inner"]] - self.drawn[self.middles[start, "outer"]]
        return {face: x + shift if face.startswith("outer") else x for face, x in self.drawn.items()}

    def _clamped_members(self) -> list[Member]:
        stack = self._stack_of("inner")
        members = list(self.arrangement.members(stack))
        homes = [member.standing.home for member in members]
        absent = [place for place in (self.loop.start, self.loop.end) if place not in homes]
        if absent:
            raise Missing(*(in_its_place(self.reference, place) for place in absent))
        places = self.reference.stack(stack).places
        first, last = sorted(places.index(place) for place in self.joint.clamps)
        # By what belongs between the clamped places: the two at the ends may have been swapped, or be missing.
        inside = [i for i, home in enumerate(homes) if home in places[first : last + 1]]
        return members[inside[0] : inside[-1] + 1]

    def _stack_of(self, ring: str) -> str:
        inner = clamped_stack(self.reference, self.joint)
        return (
            inner
            if ring == "inner"
            else self.loop.open_stack
            if self.loop.closed_stack == inner
            else self.loop.closed_stack
        )

    def _outer_members(self, clamped: list[Member]) -> list[Member]:
        stack = self._stack_of("outer")
        items = list(self.arrangement.paths[stack])
        homes = [item.standing.home if isinstance(item, Member) else None for item in items]
        if self.loop.start not in homes or self.loop.end not in homes:
            raise Missing(f"both bearings in the {stack}")
        first, last = sorted((homes.index(self.loop.start), homes.index(self.loop.end)))
        for item in items[first : last + 1]:
            if isinstance(item, Gap) and item.set_by:
                raise Missing(f"{item.name} as measured (set by: {item.set_by})")
        # Bearings beyond the two, on the same two paths, carry with them: a tandem pair against one.
        inner = {member.standing.home for member in clamped} - {None}
        rows = [i for i, home in enumerate(homes) if home in inner and "bearing" in self.reference.part_at(home).kind]
        gaps = [i for i, item in enumerate(items) if isinstance(item, Gap)]
        rows = [i for i in rows if not any(i < gap < first or last < gap < i for gap in gaps)]
        return [item for item in items[min(rows) : max(rows) + 1] if isinstance(item, Member)]

    def _rolling(self, clamped: list[Member], outer: list[Member]) -> list[str]:
        """Every place where balls or rollers join the two chains, in the sequence of the outer rings."""
        inner = {member.standing.home for member in clamped}
        return [home for member in outer if (home := member.standing.home) in inner and home in self.bearings]

    def _chain(self, members: list[Member], ring: str, first: str, last: str) -> None:
        """One body behind the other; a bearing as two halves, so that a force can come in at the middle of its ring."""
        face, x = first, 0.0
        self.drawn[face] = x
        pressing = pressed_faces(
            self.unknowns,
            self.arrangement,
            self._stack_of(ring),
            members,
            joint=self.joint,
            thread=thread_of(self.joint),
        )
        for i, member in enumerate(members):
            if member.or_else:
                raise Missing(f"a look at {self.ruler.name(member.standing)}: in which stack it lies")
            part = self.ruler.part(member.standing)
            if (
                part is None and "bearing" in self.reference.part_at(member.standing.home).kind
                if member.standing.home
                else False
            ):
                raise Missing(f"sizes and clearance of what stands in {member.standing.home}")
            name = f"{ring}: {i + 1} {self.ruler.name(member.standing)}"
            grows = (
                expansion_along(part),
                tuple(name for name in (member.standing.home, part.id if part is not None else None) if name),
            )
            after = last if i == len(members) - 1 else f"{ring} face {i + 1}"
            if part is not None and "bearing" in part.kind and member.standing.home is not None:
                half = ring_width(part) / 2
                middle = f"{ring} middle of {member.standing.home}"
                k = 2 * ring_stiffness(self.unknowns, part, ring)
                makes = held if ring == "outer" and self.is_held else body
                first, second = self._stands_out(member, ring)
                self.elements.append(makes(f"{name}, first half", face, middle, length=half + first, k=k))
                self.elements.append(makes(f"{name}, second half", middle, after, length=half + second, k=k))
                grows = grows[0], (*grows[1], f"{ring} rings")
                self.grows |= {f"{name}, first half": grows, f"{name}, second half": grows}
                self.faces[f"{name}, first half"] = 1
                self.middles[member.standing.home, ring] = middle
                self.bearings[member.standing.home] = part
                self.drawn[middle] = x + half
                x += 2 * half
            elif part is not None and (part.kind in SPRINGS or part.stiffness is not None):
                x += self._spring(member, part, name, face, after)
            elif part is not None and part.kind == "crush sleeve":
                x += self._crushed(member, part, name, face, after)
            else:
                length, usual = self._length(member, ring)
                is_seat = part is not None and part.fixed and ring == "outer"
                # Who reads an end float moves the hub: rings that slide in it stay behind until it meets them.
                self.seat = self.seat or (face if is_seat else "")
                makes = held if is_seat else body
                # A leg or a shoulder whose length is not given is taken to give nothing.
                k = body_stiffness(self.unknowns, self.ruler, member.standing, usual, pressing[i]) if usual else STIFF
                self.elements.append(makes(name, face, after, length=length, k=k))
                self.grows[name] = grows
                self.faces[name] = member.standing.count
                x += usual
            face = after
            self.drawn[face] = x

    def _stands_out(self, member: Member, ring: str) -> tuple[Any, Any]:
        """How much further the faces of an inner ring stand from its middle than those of its outer ring [mm]."""
        if ring == "outer":
            return 0.0, 0.0
        if member.standing.home in self.pair and (ground := self._ground()) is not None:
            return (0.0, ground) if member.standing.home == self.loop.start else (ground, 0.0)
        stands, home = standout(self.arrangement, member.standing), member.standing.home
        name = f"stand-out of the inner ring at {home}"
        inward = {self.loop.start: (stands.toward_second,), self.loop.end: (stands.toward_first,)}.get(home, ())
        if missing := [what for side in inward for what in side.missing]:
            raise Missing(*missing)
        ends = [
            self.unknowns.value(name, *_of(side)) if side.terms else 0.0
            for side in (stands.toward_first, stands.toward_second)
        ]
        return ends[0], ends[1]

    def _ground(self) -> Any:
        """How much further the faces of two inner rings of a pair stand toward one another than those of their outer
        rings, by what the pair is made for [mm]; None where the stand-out of each is given.
        """
        together = forced_together_mm(self.unknowns, self.arrangement, self.pair)
        # Face to face, inner rings further apart load the balls; back to back, nearer together.
        return None if together is None else (1.0 if self.ways == FACE_TO_FACE else -1.0) * together / 2

    def _crushed(self, member: Member, part: Part, name: str, face: str, after: str) -> float:
        """A crush sleeve from its length before it is crushed: stiff up to its force, then shortening at that force."""
        free = self.ruler.size(member.standing, "free_length") or self.ruler.size(member.standing, "length")
        if part.crush_force is None or free is None:
            raise Missing(
                f"crush force of the {called(part)}"
                if part.crush_force is None
                else f"free length of the {called(part)}"
            )
        force = asked(self.unknowns, f"crush force of the {called(part)}", part.crush_force)
        length = self.unknowns.value(f"free length of the {called(part)}", free.least_mm, free.nominal_mm, free.most_mm)
        k = body_stiffness(self.unknowns, self.ruler, member.standing, free.nominal_mm)
        self.elements.append(Element(name=name, a=face, b=after, law=crush, values=(length, k, force)))
        return free.nominal_mm

    def _spring(self, member: Member, part: Part, name: str, face: str, after: str) -> float:
        """A spring from its free length, and beside it the length it cannot be pressed below;
        the length it is drawn at.
        """
        free, flat = self.ruler.size(member.standing, "free_length"), self.ruler.size(member.standing, "length")
        if free is None:
            raise Missing(f"free length of the {called(part)}")
        stiffness = spring_rate(self.unknowns, part)
        length = self.unknowns.value(f"free length of the {called(part)}", free.least_mm, free.nominal_mm, free.most_mm)
        self.elements.append(body(name, face, after, length=length, k=stiffness))
        if flat is not None:
            self.elements.append(body(f"{name}, pressed flat", face, after, length=flat.nominal_mm, k=STIFF))
        return free.nominal_mm

    def _length(self, member: Member, ring: str) -> tuple[Any, float]:
        term = self.ruler.term(member.standing, "inner rings" if ring == "inner" else "outer rings")
        if term is None:
            part = self.ruler.part(member.standing)
            if part is not None and part.fixed:
                return 0.0, 0.0  # a leg pressed between two faces: its thickness stands in no loop
            raise Missing(self.ruler.needs_length(member.standing))
        span = term.interval
        usual = span.nominal_mm if term.is_measured else span.middle_mm
        return self.unknowns.value(
            f"length of the {lower(self.ruler.name(member.standing))}", span.least_mm, usual, span.most_mm
        ), usual

    def _bearing(self, place: str, heat: Heat = COLD) -> Element:
        """The balls or rollers between the middles of the two rings."""
        part = self.bearings[place]
        standing = next(member.standing for member in self._clamped_members() if member.standing.home == place)
        seat = seat_of(self.arrangement, place, self._stack_of("outer"))
        wider = clearance_change(self.unknowns, part, place, seat, heat)
        if self.pair and part.kind in SINGLE_DIRECTION_KINDS:
            wider = wider - taken_by_the_fits(self.unknowns, self.arrangement, place, self.loop)
        play = self.ruler.size(standing, "axial_play")
        return rolling(
            self.unknowns, part, place, self.middles[place, "inner"], self.middles[place, "outer"],
            pushed=pushed(self.ruler, standing), wider_mm=wider, play=play,
        )  # fmt: skip


def _of(lengths: Lengths) -> tuple[float, float, float]:
    total = lengths.total
    return total.least_mm, total.nominal_mm, total.most_mm
