"""How much of a wide part bears: the pressure of a narrow face spreads into it as a cone.

A ring pressed over its whole face shortens by N L/(E A). A hub, a pulley or a leg is much wider than the collar that
stands on it; the metal far from the axis does not feel the force, and E A/L would make it far too stiff. The pressure
spreads from a narrow face at about 30° on every side, from part to part, until it meets the part's own outside or the
cone that comes from the other end. So along the axis the outside of what bears is the largest line that nowhere leaves
the parts and nowhere opens faster than the cone; its bore likewise, inward. Between equal faces of a wide plate that is
the pair of frusta of the books; a collar as narrow as its face stays E A/L.

Left out: bending. Where the two faces of a part do not overlap within its length it bends like a dished plate, and no
stiffness is worked out from the cone.
Source: Shigley's Mechanical Engineering Design, 9th ed.
(2011), eq. 8-19 and 8-20, example 8-2; the line through several parts, and the bore, are worked out here.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf, pi, radians, tan
from typing import Any, NamedTuple

import numpy as np

CONE_DEG = (25.0, 30.0, 33.0)
"""Half angle of the cone: 30° for most joints, 25 to 33 found (Shigley, 9th ed., section 8-5, from memory)."""

USUAL_GROWTH = 2 * tan(radians(CONE_DEG[1]))
"""How much the diameter of a cone grows per length along the axis."""


class Annulus(NamedTuple):
    """A ring of contact [mm], numbers or one array each."""

    outside: Any
    bore: Any


WHOLE_FACE = Annulus(inf, 0.0)
"""What presses on a face from end to end, as far as anybody knows."""


class Body(NamedTuple):
    """One part of a row: its section, its length [mm], and the two faces that it can touch with.
    `None`: not known, or none of a cone's business.
    """

    section: Annulus | None
    length_mm: float
    first: Annulus | None = None
    second: Annulus | None = None


class Pressed(NamedTuple):
    """What a body is pressed over at its two faces; `bends` where these do not overlap within its length.

    `steps` is the same for each of the plain tubes that it is made of, none where it is one itself.
    """

    first: Annulus
    second: Annulus
    bends: bool = False
    steps: tuple[Pressed, ...] = ()

    @classmethod
    def of_steps(cls, steps: Sequence[Pressed]) -> Pressed:
        """A body made of several, one behind the other."""
        if len(steps) == 1:
            return steps[0]
        return cls(steps[0].first, steps[-1].second, any(step.bends for step in steps), tuple(steps))


def growth(cone_deg: Any) -> Any:
    """How much the diameter of a cone grows per length along the axis: 2 tan φ.

    Args:
        cone_deg: half angle φ of the cone [degrees], 25 to 33 in use; a number or an array.
    Source: Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 8-20 (from memory).

    >>> round(float(growth(30.0)), 3)
    1.155
    """
    return 2 * np.tan(np.radians(cone_deg))


def pressed(
    bodies: Sequence[Body], *, grows: Any, before: Annulus = WHOLE_FACE, after: Annulus = WHOLE_FACE
) -> list[Pressed]:
    """What each body of a row is pressed over, the cones carried on from part to part.

    Args:
        bodies: first end to second end.
        grows: how much the diameter of a cone grows per length, as by `growth`.
        before: what presses on the first face of the first body, the head of a bolt or a nut.
        after: the same on the last face.
    """
    sides = [(_own(body.first or body.section), _own(body.second or body.section)) for body in bodies]
    faces = [
        _meet(a, b) for a, b in zip([before, *(second for _, second in sides)], [*(first for first, _ in sides), after])
    ]
    # A part that bends hands no cone on, and neither does one whose section nobody gave.
    apart = [
        body.section is not None and _apart(faces[i], faces[i + 1], body.length_mm, grows)
        for i, body in enumerate(bodies)
    ]
    reach = [inf if bends or body.section is None else body.length_mm * grows for body, bends in zip(bodies, apart)]
    for here, there in (*((i, i + 1) for i in range(len(bodies))), *((i + 1, i) for i in reversed(range(len(bodies))))):
        within = reach[min(here, there)]
        faces[there] = _meet(faces[there], Annulus(faces[here].outside + within, faces[here].bore - within))
    empty = [np.any(face.outside <= face.bore) for face in faces]
    return [
        Pressed(first=faces[i], second=faces[i + 1], bends=bool(apart[i] or empty[i] or empty[i + 1]))
        for i in range(len(bodies))
    ]


def _own(face: Annulus | None) -> Annulus:
    return WHOLE_FACE if face is None else face


def _meet(a: Annulus, b: Annulus) -> Annulus:
    return Annulus(np.minimum(a.outside, b.outside), np.maximum(a.bore, b.bore))


def _apart(a: Annulus, b: Annulus, length_mm: float, grows: Any) -> bool:
    """Whether the cone from one face has not reached the other face by the end of the part."""
    return bool(np.any(a.outside + length_mm * grows <= b.bore) or np.any(b.outside + length_mm * grows <= a.bore))


def cone_stiffness(
    *,
    section: Annulus,
    first: Annulus,
    second: Annulus,
    length_mm: float,
    modulus_mpa: float,
    grows: Any = USUAL_GROWTH,
) -> Any:
    """End force per unit of shortening of a part pressed over parts of its faces [N/mm].

    1/k = ∫ dx/(E A(x)), A = π/4 (D² - d²);
    D = min(outside, D1 + g x, D2 + g (L - x)), d = max(bore, d1 - g x, d2 - g (L - x))

    Between two kinks D - d = u and D + d = v are straight, and the integral is (4/πE) l/M(u1 v0, u0 v1),
    M the logarithmic mean.

    Args:
        section: outside and bore of the part [mm].
        first, second: what is pressed at its two faces [mm];
            an outside larger than the part's, or a bore smaller, counts as its own.
        length_mm: between the faces [mm], above 0.
        modulus_mpa: Young's modulus [MPa], above 0.
        grows: how much the diameter of the cone grows per length.
    Raises:
        ValueError: a length or modulus not above 0, no metal between bore and outside,
            or faces that the cones do not join.

    Valid for a part with flat faces and of one material.
    For equal faces of a wide plate it is Shigley's eq. 8-20 of each half.
    Source: Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 8-19;
    the logarithmic mean and the bore worked out here.

    >>> wide = Annulus(200.0, 12.0)  # half of it, 20 mm under a face of 18: 4.449e6 N/mm by eq. 8-20
    >>> narrow = Annulus(18.0, 12.0)
    >>> k = cone_stiffness(section=wide, first=narrow, second=narrow, length_mm=40, modulus_mpa=206e3)
    >>> round(float(2 * k) / 1e6, 3)
    4.449
    """
    if not length_mm > 0 or not modulus_mpa > 0 or not section.outside > section.bore >= 0:
        raise ValueError(
            f"length {length_mm}, modulus {modulus_mpa} and wall {section.outside - section.bore} must be above 0"
        )
    if all(np.all(face.outside >= section.outside) and np.all(face.bore <= section.bore) for face in (first, second)):
        # A tube, as most parts of a stack are.
        return modulus_mpa * pi / 4 * (section.outside**2 - section.bore**2) / length_mm
    grows = np.asarray(grows, float)
    x = _kinks(section, first, second, length_mm, grows)
    outside = np.minimum(
        np.minimum(section.outside, first.outside + grows * x), second.outside + grows * (length_mm - x)
    )
    bore = np.maximum(np.maximum(section.bore, first.bore - grows * x), second.bore - grows * (length_mm - x))
    u, v = outside - bore, outside + bore
    if not np.all(u > 0):
        raise ValueError("the cones from the two faces do not join")
    lengths, mean = np.diff(x, axis=0), _logarithmic_mean(u[1:] * v[:-1], u[:-1] * v[1:])
    return modulus_mpa * pi / 4 / np.sum(lengths / mean, axis=0)


def _kinks(section: Annulus, first: Annulus, second: Annulus, length_mm: float, grows: Any) -> Any:
    """Where along the part its outside or its bore starts or stops to follow a cone, both ends with it [mm]."""
    length = np.broadcast_to(float(length_mm), np.broadcast_shapes(*map(np.shape, (grows, *section, *first, *second))))
    spots = []
    for own, a, b in ((section.outside, first.outside, second.outside), (-section.bore, -first.bore, -second.bore)):
        # An end that stays open (pressed from end to end) has no cone: its kinks lie at the ends.
        a, b = np.minimum(a, own), np.minimum(b, own)
        spots += [(own - a) / grows, length - (own - b) / grows, (b - a + grows * length) / (2 * grows)]
    return np.sort(
        np.clip(np.stack([0 * length, *(spot + 0 * length for spot in spots), length]), 0.0, length_mm), axis=0
    )


def _logarithmic_mean(p: Any, q: Any) -> Any:
    """(p - q)/ln(p/q), and p where both are equal.

    >>> [round(float(_logarithmic_mean(np.array(p), np.array(q))), 4) for p, q in ((2.0, 2.0), (1.0, np.e))]
    [2.0, 1.7183]
    """
    close = np.abs(p - q) < 1e-6 * q
    apart = np.where(close, 2 * q, p)
    return np.where(close, (p + q) / 2, (apart - q) / np.log(apart / q))
