"""How the state of a network is found: Newton's method on its energy, all variants side by side.

Every step solves the stiffness system, with a small pull towards where the faces are for parts that are loose. The first
step takes every joint as closed, from however far away; the next ones are taken whole, and most networks are in balance
after a few of them. A bearing whose force grows faster than its depth would need many, because straight on from a force
far too large it comes down by a constant factor a step: it is looked at where it has the force that the step told of
instead, not where the step ended (the trick that circuit simulation uses for diodes; the form here is worked out here).

A variant that whole steps have not brought into balance is started again from the best of them, and the length of each
further step is found on the slope along it, where a convex energy has its one zero: that comes nearer from any start.
Differences of energy are never looked at, for they drown in round-off long before forces do.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from stackcheck.mechanics.axial.banded import Band, numbered, side_by_side
from stackcheck.mechanics.axial.laws import AS_CLOSED, Element, Law, growth

WHOLE_STEPS = 25
MOST_STEPS = 400

BALANCE = 1e-9
"""Out of balance over the largest force at which a state counts as found."""

NOTHING_N = 1e-8
"""A hundred-millionth of a newton is nothing."""

FARTHEST_MM = 1e5
"""What goes on further than this is stopped by nothing."""

_LAST_BITS = 4 * float(np.finfo(float).eps)
_FEW = 60
_PULL = 1e-9
_CURVED = 1.5
_LEAST_SHARE = 1e-3
_LOOSE = 0.1

Array = np.ndarray


class Endless(ArithmeticError):
    """The faces go on moving and nothing stops them."""


class Unbalanced(ArithmeticError):
    """No balance was found; how far out it is [N]."""


class System:
    """The elements of a network as arrays: one row a variant, one column an element or a face; free faces come first."""

    def __init__(self, elements: Sequence[Element], fixed: Mapping[str, float], loads: Mapping[str, object]):
        sizes = {v.size for element in elements for v in element.values if isinstance(v, np.ndarray) and v.ndim}
        sizes |= {load.size for load in loads.values() if isinstance(load, np.ndarray) and load.ndim}
        self.variants = max(sizes, default=1)
        groups: dict[Law, list[Element]] = {}
        for element in elements:
            groups.setdefault(element.law, []).append(element)
        # Elements of one law stand together: each law is asked once a step, for all of them.
        self.elements = [element for group in groups.values() for element in group]
        self.groups = []
        powers, first = np.ones(len(elements)), 0
        for law, group in groups.items():
            own = slice(first, first + len(group))
            values = self._values(group) if sizes else _plain(group)
            self.groups.append((law, own, values))
            powers[own] = growth(law, values)
            first = own.stop
        self.curved = (powers > 1).nonzero()[0]
        self.growth = powers[self.curved]
        faces = [face for element in elements for face in (element.a, element.b)]
        free = [face for face in dict.fromkeys([*faces, *loads]) if face not in fixed]
        index = {face: i for i, face in enumerate([*free, *fixed])}
        self.count, self.whole = len(free), len(index)
        self.ends = np.array([index[e.a] for e in self.elements] + [index[e.b] for e in self.elements], int)
        self.a, self.b = self.ends[: len(elements)], self.ends[len(elements) :]
        self.number = np.arange(self.whole)
        # For one small system the numbering takes longer than it saves.
        if self.variants > 1 or self.count > _FEW:
            self.number = numbered(self.count, self.a, self.b)
            self.ends[:] = self.number[self.ends]
        self.column = dict(zip(index, self.number.tolist()))
        self.band = Band(self.count, self.a, self.b)
        self.load = np.zeros((self.variants, self.whole))
        for face, load in loads.items():
            self.load[:, self.column[face]] += load

    def _values(self, group: Sequence[Element]) -> Array:
        """The parameters of a law, each as one row a variant and one column an element."""
        columns = zip(*(element.values for element in group))
        return np.array([[np.broadcast_to(v, self.variants) for v in column] for column in columns], float).transpose(0, 2, 1)

    def placed(self, where: Mapping[str, float]) -> Array:
        """Positions of all faces, the same in every variant; 0 where nothing is said."""
        x = np.zeros((self.variants, self.whole))
        x[:, self.number] = [where.get(face, 0.0) for face in self.column]
        return x

    def apart(self, x: Array) -> Array:
        return x.take(self.b, axis=1) - x.take(self.a, axis=1)

    def on_faces(self, force: Array) -> Array:
        """The sum of the forces on every free face that would draw it to the left."""
        variants = len(force)
        both = np.concatenate([-force, force], axis=1).ravel()
        total = np.bincount(side_by_side(self.ends, self.whole, variants), both, variants * self.whole)
        return total.reshape(variants, self.whole)[:, : self.count]


def _largest(values: Array) -> Array:
    """The largest of every row, whatever its sign."""
    return np.maximum.reduce(np.abs(values), axis=1, initial=0.0)


def _plain(group: Sequence[Element]) -> Array:
    """As `_values`, where all are plain numbers."""
    return np.array([*zip(*[element.values for element in group])], float)[:, None, :]


class _Live:
    """Those variants that are not in balance yet: which they are, and what belongs to them."""

    def __init__(self, system: System, x: Array):
        self.system, self.which, self.x, self.load = system, np.arange(len(x)), x, system.load[:, : system.count]
        self.largest_load = _largest(self.load)
        self.groups = system.groups

    def only(self, rows: Array) -> None:
        self.which, self.x, self.load, self.largest_load = self.which[rows], self.x[rows], self.load[rows], self.largest_load[rows]
        self.groups = [(law, own, values[:, rows]) for law, own, values in self.groups]

    def laws(self, e: Array, *, closed: bool = False) -> tuple[Array, Array]:
        """Force and slope of every element; `closed`: as if every joint were closed and every bolt taut."""
        force, slope = np.empty_like(e), np.empty_like(e)
        for law, own, values in self.groups:
            force[:, own], slope[:, own] = (AS_CLOSED.get(law, law) if closed else law)(e[:, own], *values)
        return force, slope

    def out_of_balance(self, force: Array) -> Array:
        return self.system.on_faces(force) - self.load


def balance(system: System, x: Array) -> tuple[Array, Array, float, int]:
    """Positions and forces in balance, the largest force out of balance and the steps taken.

    Raises:
        Endless, Unbalanced
    """
    live = _Live(system, x.copy())
    forces, worst = np.zeros((system.variants, len(system.elements))), 0.0
    best, best_x = np.full(system.variants, np.inf), x.copy()
    told: Sequence[Array] = ()
    for steps in range(MOST_STEPS):
        if steps == WHOLE_STEPS:
            live.x = best_x[live.which]
        is_first = steps == 0 < system.count
        e = system.apart(live.x)
        force, slope = live.laws(e, closed=is_first)
        gradient = live.out_of_balance(force)
        stiffest = np.maximum.reduce(slope, axis=1, initial=1.0)
        if not is_first:
            out = _largest(gradient)
            # Positions are known to the last bits of a float, and forces to that times the stiffness.
            noise = stiffest * _largest(live.x) * _LAST_BITS
            known_to = BALANCE * np.maximum(_largest(force), live.largest_load) + noise + NOTHING_N
            still_open = out > known_to
            count = np.count_nonzero(still_open)
            if count < len(still_open):
                done = ~still_open if count else slice(None)
                which = live.which[done]
                # A force smaller than what the balance is known to is none: an open joint says so.
                x[which], forces[which] = live.x[done], np.where(np.abs(force) > known_to[:, None], force, 0.0)[done]
                worst = max(worst, float(out[done].max()))
                if not count:
                    return x, forces, worst, steps
                live.only(still_open)
                e, force, slope, gradient, out, stiffest, *told = (
                    part[still_open] for part in (e, force, slope, gradient, out, stiffest, *told)
                )
        pull = _PULL / system.count**2 * stiffest
        if steps < WHOLE_STEPS:
            if not is_first:
                better = out < best[live.which]
                best[live.which[better]], best_x[live.which[better]] = out[better], live.x[better]
                force, slope, gradient = _eased(live, told, e, force, slope, gradient)
            told = force, slope, e
        step = system.band.solve(slope, pull, -gradient)
        step *= (FARTHEST_MM / np.maximum(_largest(step), FARTHEST_MM))[:, None]
        if steps >= WHOLE_STEPS:
            step *= _length(live, step, e)[:, None]
        live.x[:, : system.count] += step
    raise Unbalanced(float(out.max()))


def _eased(live: _Live, told: Sequence[Array], e: Array, force: Array, slope: Array, gradient: Array) -> tuple[Array, Array, Array]:
    """Forces and slopes for the next step: those of a bearing far above the force that the last step told, from nearer that.

    F grows with the depth d about as d^n, so that d falls by 1 - (told/F)^(1/n) of itself, and d is n F/(dF/de).
    """
    curved = live.system.curved
    if not curved.size:
        return force, slope, gradient
    (was, rise, then), now, at = (part[:, curved] for part in told), force[:, curved], e[:, curved]
    n, size, said = live.system.growth, np.abs(now), np.sign(now) * (was + rise * (at - then))
    said = np.where(rise > 0, np.maximum(said, _LEAST_SHARE * size), 0.0)
    far = (size > _CURVED * said) & (said > 0)
    if not far.any():
        return force, slope, gradient
    size = np.where(far, size, 1.0)
    share = np.where(far, said / size, 1.0)
    near = e.copy()
    near[:, curved] -= n * now / np.where(far, slope[:, curved], 1.0) * (1 - share ** (1 / n))
    at_near, slope = live.laws(near)
    force = at_near + slope * (e - near)
    return force, slope, live.out_of_balance(force)


def _length(live: _Live, step: Array, e: Array) -> Array:
    """How far to go along a step: where the slope along it vanishes, by Newton's method between two bounds that close in."""
    de = live.system.apart(np.pad(step, ((0, 0), (0, live.system.whole - live.system.count))))
    loaded, far = (live.load * step).sum(axis=1), _largest(step)

    def along(t: Array) -> tuple[Array, Array]:
        force, slope = live.laws(e + t[:, None] * de)
        return (force * de).sum(axis=1) - loaded, (slope * de * de).sum(axis=1)

    small = _LOOSE * np.abs(along(np.zeros(len(step)))[0])
    low, high, t = np.zeros(len(step)), np.full(len(step), np.inf), np.ones(len(step))
    for turn in range(100):
        value, rise = along(t)
        near = np.abs(value) <= small
        if near.all():
            break
        low, high = np.where(value < 0, t, low), np.where(value < 0, high, t)
        newton = t - value / np.where(rise > 0, rise, np.inf)
        bounded = np.isfinite(high)
        middle = np.where(bounded, (low + np.where(bounded, high, low)) / 2, 4 * low)
        # Now and then the middle whatever Newton says: that never sticks.
        inside = (newton > low) & (newton < np.where(bounded, high, 4 * low)) & (turn % 4 < 3)
        t = np.where(near, t, np.where(inside, newton, middle))
        if (low * far > FARTHEST_MM).any():
            raise Endless
    return t
