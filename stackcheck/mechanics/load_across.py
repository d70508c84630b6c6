"""A load across that acts at a known place along the axis: what each of two bearings takes of it, and what that does.

The lever rule between the two pressure centres shares it: a load between them presses both bearings the same way, one on
an overhang presses the far bearing the other way and the near one with more than itself. Each share makes its own force
along the axis in a bearing with a slant; the larger of the two goes through both, for nothing else holds the member. A
play is taken up first; with a preload it is what both bearings bear together, from the larger of preload and thrust,
where hub and axle give, to that of a pair held rigidly.

Left out: tilt, the give of shaft and housing, a load along the axis from outside, more bearings than two.
Source: statics of a beam on two supports; the force along the axis: SKF General Catalogue, bearings adjusted against each
other, load cases without an outside axial load (rule read); P0 = X0 F_r + Y0 F_a: ISO 76 (from memory).
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.bearing_laws import BALLS, ROLLERS
from stackcheck.mechanics.bodies import Missing, called
from stackcheck.mechanics.distance import distance_in
from stackcheck.mechanics.faces import wide_end
from stackcheck.mechanics.lengths import Term, total_of
from stackcheck.mechanics.loaded_pair import through_a_rigid_pair
from stackcheck.mechanics.pressure_centre import centre, outer_width
from stackcheck.mechanics.radial_load import SelfThrust, thrust_at_half, thrust_inside
from stackcheck.mechanics.static_limit import StaticLimit, rating_limit, static_factors, static_rating
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.part import ROLLING_BEARINGS, SINGLE_DIRECTION_KINDS, Part
from stackcheck.model.place_words import place_words
from stackcheck.model.reference import Reference
from stackcheck.value import Value

BACK_TO_BACK, FACE_TO_FACE, TANDEM = "back to back", "face to face", "one behind the other"

RIGID = (0.0, 0.5, 1.0)
"""How far hub and axle hold the bearings as if nothing gave around them: not at all, where preload and thrust add nothing
to the larger of the two, to wholly, where it is `stackcheck.mechanics.loaded_pair`.
"""

RATING_GOOD_TO = (0.75, 1.0, 1.25)
"""A static rating that is estimated from sizes, over the true one."""

LEAST_SPAN_MM = 1.0
"""Pressure centres nearer than this share no load by a lever rule."""


class LoadPoint(Value, kw_only=True):
    """Where a load acts: at one face of a place ("first" or "second"), or at its middle (""), and `along_mm` from there
    toward the second end, least, usual and most.
    """

    text: str
    place: str
    face: str = ""
    along_mm: tuple[float, float, float] = (0.0, 0.0, 0.0)


class BearingShare(Value, kw_only=True):
    """One of the two: `radial_n` what it takes of the load [N], below nothing where it is pressed the other way,
    `thrust_n` what that makes of its own along the axis [N], `static_n` the equivalent static load P0 [N] and `rating`
    C0 over it, C0 given or estimated (`limit`).
    """

    place: str
    bearing: str
    centre_mm: Spanned
    radial_n: Spanned
    thrust_n: Spanned
    static_n: Spanned | None = None
    limit: StaticLimit | None = None
    rating: Spanned | None = None

    @property
    def is_beyond(self) -> bool:
        """Whether the load may use up the static rating: no figure of it holds then."""
        return self.rating is not None and self.rating.least < 1


class LoadAcross(Value, kw_only=True):
    """A load across and its two bearings; `span_mm` between their pressure centres, `point_mm` from the first of them to
    the load, `axial_n` what goes along the axis through both [N] and `preload_n` what they had before (None: not known).
    """

    load_n: float
    point: LoadPoint
    lie: str = ""
    span_mm: Spanned | None = None
    point_mm: Spanned | None = None
    axial_n: Spanned | None = None
    preload_n: Spanned | None = None
    shares: tuple[BearingShare, ...] = ()
    needs: tuple[str, ...] = ()

    @property
    def is_beyond(self) -> bool:
        return any(each.is_beyond for each in self.shares)


def lever_shares(*, load_n: Any, point_mm: Any, first_mm: Any, second_mm: Any) -> tuple[Any, Any]:
    """What two supports of a stiff beam take of one load across [N], each below nothing where it is pulled.

    R2 = F (x - x1)/(x2 - x1), R1 = F - R2

    Args:
        load_n: F, the load [N].
        point_mm: x, where it acts [mm].
        first_mm, second_mm: x1 and x2, where the supports are [mm], not the same.

    Source: statics of a beam on two supports (any textbook); checked against sympy's beam.

    >>> lever_shares(load_n=1000.0, point_mm=120.0, first_mm=0.0, second_mm=100.0)
    (-200.0, 1200.0)
    """
    second = load_n * (point_mm - first_mm) / (second_mm - first_mm)
    return load_n - second, second


def the_two_bearings(reference: Reference) -> tuple[str, str]:
    """The two places that a load across is shared between, first end first.

    Raises:
        Missing: none or one stands here, or more than a lever rule can share between.
    """
    places = [place for place in reference.line if reference.part_at(place).kind in ROLLING_BEARINGS]
    if len(places) != 2:
        many = "no bearing" if not places else "one bearing" if len(places) == 1 else f"{len(places)} bearings"
        raise Missing(f"two bearings to share the load between: {many} of this reference would carry it")
    return places[0], places[1]


def load_across(
    arrangement: Arrangement, load_n: float, point: LoadPoint, preload: Spanned | None = None
) -> LoadAcross:
    """One load across an arrangement of two bearings; `preload` what they are pressed together with before it [N]."""
    try:
        pair = _Pair(arrangement)
        unknowns, answers = with_variants(lambda u: pair.answers(u, load_n, point, preload))
    except Missing as problem:
        return LoadAcross(load_n=load_n, point=point, needs=tuple(map(str, problem.args)))
    told = {name: unknowns.spanned(values) for name, values in answers.items()}
    if told["span_mm"].least < LEAST_SPAN_MM:
        need = f"two bearings whose pressure centres lie apart: they are {pair.lie}, and theirs may fall together"
        return LoadAcross(load_n=load_n, point=point, lie=pair.lie, span_mm=told["span_mm"], needs=(need,))
    shares = tuple(
        BearingShare(
            place=place,
            bearing=part.name,
            centre_mm=told[f"{which} centre"],
            radial_n=told[f"{which} radial"],
            thrust_n=told[f"{which} thrust"],
            static_n=told.get(f"{which} static"),
            limit=rating_limit(part),
            rating=told.get(f"{which} rating"),
        )
        for which, (place, part) in zip(("first", "second"), pair.parts.items())
    )
    return LoadAcross(
        load_n=load_n, point=point, lie=pair.lie, span_mm=told["span_mm"], point_mm=told["point_mm"],
        axial_n=told.get("axial_n"), preload_n=preload, shares=shares,
    )  # fmt: skip


def thrust_anywhere(arrangement: Arrangement, thrusts: tuple[SelfThrust, ...]) -> tuple[float, float] | None:
    """What two bearings that face each other carry along the axis, wherever between them a load across acts [N].

    The larger of r T1/F and (F - r) T2/F over all r from nothing to F: least T1 T2/(T1 + T2), where both make as much,
    most the larger of T1 and T2, where one takes all of it. None where more or fewer bearings would share it.

    Args:
        thrusts: T1 and T2, what each makes of the whole load by itself.
    """
    try:
        pair = _Pair(arrangement)
    except Missing:
        return None
    made = [each.thrust_n for each in thrusts]
    if pair.lie not in (BACK_TO_BACK, FACE_TO_FACE) or len(made) != 2 or None in made:
        return None
    first, second = made
    return first.least * second.least / (first.least + second.least), max(first.most, second.most)


class _Pair:
    """Two bearings and what stands between their outer rings; positions from the inner side of the first outer ring."""

    def __init__(self, arrangement: Arrangement):
        self.arrangement, reference = arrangement, arrangement.reference
        self.places = the_two_bearings(reference)
        stack = next(
            (s.name for s in reference.stacks if s.through == "outer rings" and set(self.places) <= set(s.places)), None
        )
        if stack is None:
            raise Missing("a stack through the outer rings from one bearing to the other")
        members = list(arrangement.members(stack))
        homes = [member.standing.home for member in members]
        if absent := [place for place in self.places if place not in homes]:
            raise Missing(*(f"what stands in {place}" for place in absent))
        start, end = (homes.index(place) for place in self.places)
        self.between: list[Member] = members[min(start, end) + 1 : max(start, end)]
        self.parts: dict[str, Part] = {}
        self.ways: list[str] = []
        for place, at in zip(self.places, (start, end)):
            part = arrangement.ruler.part(members[at].standing)
            if part is None or part.kind not in ROLLING_BEARINGS:
                raise Missing(f"what bearing stands in {place}")
            way = wide_end(arrangement.ruler, members[at].standing)
            if part.kind in SINGLE_DIRECTION_KINDS and not way:
                raise Missing(f"which way the {called(part)} at {place} looks")
            self.parts[place] = part
            self.ways.append(way if part.kind in SINGLE_DIRECTION_KINDS else "")

    @property
    def lie(self) -> str:
        """How a pair with slants lies; "" where one or both have none."""
        if "" in self.ways:
            return ""
        return {("second", "first"): BACK_TO_BACK, ("first", "second"): FACE_TO_FACE}.get(tuple(self.ways), TANDEM)

    def answers(self, unknowns: Unknowns, load_n: float, point: LoadPoint, preload: Spanned | None) -> dict[str, Any]:
        anchors, span = self._between(unknowns)
        first, second = self._centres(unknowns, span)
        at = self._point(unknowns, point, anchors, span)
        apart = np.where(np.abs(second - first) < 1e-9, 1e-9, second - first)
        radial = lever_shares(load_n=load_n, point_mm=at, first_mm=first, second_mm=first + apart)
        thrusts = [thrust_inside(unknowns, part, np.abs(r)) for part, r in zip(self.parts.values(), radial)]
        told = {"span_mm": second - first, "point_mm": at - first}
        told |= {f"{which} centre": x for which, x in (("first", first), ("second", second))}
        told |= {f"{which} radial": r for which, r in zip(("first", "second"), radial)}
        told |= {f"{which} thrust": t for which, t in zip(("first", "second"), thrusts)}
        if self.lie == TANDEM:
            return told
        axial = np.maximum(*thrusts)
        if preload is not None:
            before = unknowns.value("preload of the two bearings", preload.least, preload.usual, preload.most)
            larger = axial = np.maximum(axial, before)
            if preload.most > 0 and "" not in self.ways:
                rigid = self._through_rigid(before, thrusts)
                axial = larger + unknowns.value("give of hub and axle beside the bearings", *RIGID) * (rigid - larger)
        told["axial_n"] = axial
        for which, part, r in zip(("first", "second"), self.parts.values(), radial):
            told |= self._static(unknowns, which, part, np.abs(r), axial)
        return told

    def _through_rigid(self, before: Any, thrusts: list[Any]) -> Any:
        """What goes along the axis through both where nothing gives around them [N]; of balls beside rollers the larger."""
        through = 0.0
        for exponent in {ROLLERS if part.kind == "taper bearing" else BALLS for part in self.parts.values()}:
            radial = tuple(np.asarray(thrust) / thrust_at_half(exponent) for thrust in thrusts)
            rigid = through_a_rigid_pair(preload_n=np.maximum(before, 0.0), radial_n=radial, exponent=exponent)
            through = np.maximum(through, rigid)
        return through

    def _static(self, unknowns: Unknowns, which: str, part: Part, radial: Any, axial: Any) -> dict[str, Any]:
        """P0 and C0 over it, where the kind and the sizes tell both."""
        rating, factors = static_rating(part), static_factors(part)
        if factors is None:
            return {}
        load = np.maximum(radial, factors[0] * radial + factors[1] * axial)
        if rating is None:
            return {f"{which} static": load}
        good_to = 1.0
        if part.static_rating is None:
            good_to = unknowns.value(f"estimated static rating of the {called(part)}", *RATING_GOOD_TO)
        return {f"{which} static": load, f"{which} rating": good_to * rating / np.maximum(load, 1e-9)}

    def _between(self, unknowns: Unknowns) -> tuple[dict[str, tuple[Any, Any]], Any]:
        """Where both faces of each member between the two outer rings lie, and how far the second ring is.

        A fixed ring or shoulder whose length nobody gives belongs to what it lies against, and adds nothing.
        """
        ruler, x, anchors = self.arrangement.ruler, 0.0, {}
        for member in self.between:
            term, part = ruler.term(member.standing, "outer rings"), ruler.part(member.standing)
            if term is None and not (part is not None and part.fixed):
                raise Missing(ruler.needs_length(member.standing))
            if term is None:
                continue
            before, x = x, x + self._length(unknowns, term)
            if member.standing.home is not None:
                anchors[member.standing.home] = before, x
        return anchors, x

    def _length(self, unknowns: Unknowns, term: Term) -> Any:
        """One unknown for each part, so that a length on the way to the load cancels against the one between the rings."""
        name = term.name
        if term.place is not None:
            # The words of the place tell one flange from the other; what follows the name says half of it.
            own = self.arrangement.reference.part_at(term.place).name
            name = place_words(self.arrangement.reference, term.place) + name.removeprefix(own) * name.startswith(own)
        span = term.interval
        return unknowns.value(f"length of the {name}", span.least_mm, span.middle_mm, span.most_mm)

    def _centres(self, unknowns: Unknowns, span: Any) -> tuple[Any, Any]:
        centres = []
        for part, way, at, inward in zip(self.parts.values(), self.ways, (0.0, span), ("second", "first")):
            out = -1.0 if inward == "second" else 1.0
            # The wide face looks inward, or it is the outer side of the ring; the centre lies the other way from it.
            looks_in = way in ("", inward)
            wide = at if looks_in else at + out * outer_width(unknowns, part)
            centres.append(wide + (out if looks_in else -out) * centre(unknowns, part))
        return centres[0], centres[1]

    def _point(self, unknowns: Unknowns, point: LoadPoint, anchors: dict[str, tuple[Any, Any]], span: Any) -> Any:
        reference = self.arrangement.reference
        ends = dict(zip(("first", "second"), reference.ends))
        starts = [(f"{home}/{ends[face]}", x) for home, both in anchors.items() for face, x in zip(ends, both)]
        starts += [(f"{self.places[0]}/{ends['second']}", 0.0), (f"{self.places[1]}/{ends['first']}", span)]
        faces = [point.face] if point.face else ["first", "second"]
        ways, needs = [], ()
        for start, x in starts:
            lengths = [distance_in(self.arrangement, start, f"{point.place}/{ends[face]}") for face in faces]
            needs = needs or tuple(each for length in lengths for each in length.needs)
            if all(length.total is not None for length in lengths):
                ways.append((x, [length.terms for length in lengths]))
        if not ways:
            raise Missing(*(needs or (f"a chain of parts that touch up to {point.place}",)))
        # The best known way, whichever end it starts from, and halfway between two as good: so on the other side too.
        widths = [round(sum(total_of(terms).half_width_mm for terms in way), 9) for _, way in ways]
        best = [way for way, width in zip(ways, widths) if width == min(widths)]
        at = [x + sum(t.sign * self._length(unknowns, t) for t in terms) for x, way in best for terms in way]
        return sum(at) / len(at) + unknowns.value("place where the load acts", *point.along_mm)
