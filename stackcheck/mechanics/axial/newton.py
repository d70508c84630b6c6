"""How the state of a network is found: Newton's method on its energy, all variants side by side.

Every step solves the stiffness system, with a small pull towards where the faces are for parts that are loose. The
first step takes joints that are drawn all but touching as closed, the next ones everything as it is; they are taken
whole, and most networks are in balance after a few of them. A bearing whose force grows faster than its depth would
need many, because straight on from a force far too large it comes down by a constant factor a step: it is looked at
where it has the force that the step told of instead, not where the step ended (the trick that circuit simulation uses
for diodes; the form here is worked out here).

A variant that whole steps have not brought into balance is started again, and the length of each further step is found
on the slope along it, where a convex energy has its one zero: that comes nearer from any start. Differences of energy
are never looked at, for they drown in round-off long before forces do.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import chain
from typing import Any

import numpy as np

from stackcheck.mechanics.axial.banded import Band, numbered, side_by_side
from stackcheck.mechanics.axial.laws import AS_DRAWN, GROWTH, Element, Law

WHOLE_STEPS = 25
MOST_STEPS = 400

BALANCE = 1e-9
"""Out of balance over the largest force at which a state counts as found."""

NOTHING_N = 1e-8
"""A hundred-millionth of a newton is nothing."""

FARTHEST_MM = 1e5
"""What goes on further than this is stopped by nothing."""

PULL = 1e-9
"""What holds a loose part where it is, over the largest stiffness and the square of the number of faces."""

_LAST_BITS = 4 * float(np.finfo(float).eps)
_CURVED = 1.5
_LEAST_SHARE = 1e-3
_LOOSE = 0.1

Array = np.ndarray


class Endless(ArithmeticError):
    """The faces go on moving and nothing stops them."""


class Unbalanced(ArithmeticError):
    """No balance was found; how far out it is [N]."""


class System:
    """The elements of a network as arrays: one row a variant, one column an element or a face;
    free faces come first.
    """

    def __init__(self, elements: Sequence[Element], fixed: Mapping[str, float], loads: Mapping[str, object]):
        sizes = variants_among([*chain.from_iterable([element.values for element in elements]), *loads.values()])
        self.variants = max(sizes, default=1)
        groups: dict[Law, list[Element]] = {}
        for element in elements:
            groups.setdefault(element.law, []).append(element)
        # Elements of one law stand together: each law is asked once a step, for all of them.
        self.elements = [element for group in groups.values() for element in group]
        self.groups, first = [], 0
        for law, group in groups.items():
            self.groups.append((law, slice(first, first + len(group)), self._values(group) if sizes else _plain(group)))
            first += len(group)
        ends = [element.a for element in self.elements] + [element.b for element in self.elements]
        free = dict.fromkeys([*ends, *loads])
        for face in fixed:
            free.pop(face, None)
        self.faces, self.count = (*free, *fixed), len(free)
        index = dict(zip(self.faces, range(len(self.faces))))
        self.ends = np.fromiter(map(index.__getitem__, ends), int, len(ends))
        self.a, self.b = self.ends[: len(elements)], self.ends[len(elements) :]
        self.number = np.arange(len(self.faces))
        self.number[: self.count] = numbered(self.count, self.a, self.b)
        self.ends[:] = self.number[self.ends]
        self.band = Band(self.count, self.a, self.b)
        self.load = np.zeros((self.variants, len(self.faces)))
        for face, load in loads.items():
            self.load[:, self.number[index[face]]] += load

    def _values(self, group: Sequence[Element]) -> Array:
        """The parameters of a law, each as one row a variant and one column an element."""
        columns = zip(*[element.values for element in group])
        return np.array([[np.broadcast_to(v, self.variants) for v in column] for column in columns], float).transpose(
            0, 2, 1
        )

    def placed(self, where: Mapping[str, float]) -> Array:
        """Positions of all faces, the same in every variant; 0 where nothing is said."""
        x = np.zeros((self.variants, len(self.faces)))
        x[:, self.number] = [where.get(face, 0.0) for face in self.faces]
        return x

    def apart(self, x: Array) -> Array:
        return x.take(self.b, axis=1) - x.take(self.a, axis=1)

    def on_faces(self, force: Array) -> Array:
        """The sum of the forces on every free face that would draw it to the left."""
        variants = len(force)
        both = np.concatenate([-force, force], axis=1).ravel()
        faces = len(self.faces)
        total = np.bincount(side_by_side(self.ends, faces, variants), both, variants * faces)
        return total.reshape(variants, faces)[:, : self.count]


def variants_among(numbers: Sequence[object]) -> set[int]:
    """How many variants the arrays among these have."""
    if np.ndarray not in {*map(type, numbers)}:
        return set()  # looking at each of many takes longer than all the rest
    return {each.size for each in numbers if isinstance(each, np.ndarray) and each.ndim}


def _plain(group: Sequence[Element]) -> Array:
    """As `_values`, where all are plain numbers."""
    values = np.fromiter(chain.from_iterable([element.values for element in group]), float)
    return values.reshape(len(group), 1, -1).T


def known_to(force: Any, stiffness: Any, position: Any) -> Any:
    """To how much the balance of a state is known [N], by its largest force, stiffness and position.

    Positions are known to the last bits of a float, and forces to that times the stiffness.
    """
    return BALANCE * force + stiffness * position * _LAST_BITS + NOTHING_N


def _largest(values: Array) -> Array:
    """The largest of every row, whatever its sign."""
    return np.maximum.reduce(np.abs(values), axis=1, initial=0.0)


class _Live:
    """Those variants that are not in balance yet: which they are, and what belongs to them."""

    def __init__(self, system: System, x: Array):
        self.system, self.which, self.x, self.load = system, np.arange(len(x)), x, system.load[:, : system.count]
        self.largest_load = _largest(self.load)
        self.groups = system.groups

    def only(self, rows: Array) -> None:
        self.which, self.x, self.load, self.largest_load = (
            self.which[rows],
            self.x[rows],
            self.load[rows],
            self.largest_load[rows],
        )
        self.groups = [(law, own, values[:, rows]) for law, own, values in self.groups]

    def laws(self, e: Array, *, drawn: bool = False) -> tuple[Array, Array]:
        """Force and slope of every element; `drawn` in the first step."""
        force, slope = np.empty_like(e), np.empty_like(e)
        for law, own, values in self.groups:
            force[:, own], slope[:, own] = (AS_DRAWN.get(law, law) if drawn else law)(e[:, own], *values)
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
    told: tuple[Array, ...] = ()
    for steps in range(MOST_STEPS):
        if steps == WHOLE_STEPS:
            live.x = x[live.which]
        e = system.apart(live.x)
        is_first = steps == 0 < system.count
        force, slope = live.laws(e, drawn=is_first)
        gradient = live.out_of_balance(force)
        stiffest = np.maximum.reduce(slope, axis=1, initial=1.0)
        out = _largest(gradient)
        least = known_to(np.maximum(_largest(force), live.largest_load), stiffest, _largest(live.x))
        still_open = (out > least) | is_first
        if not still_open.all():
            done = ~still_open
            which = live.which[done]
            # A force smaller than what the balance is known to is none: an open joint says so.
            x[which], forces[which] = live.x[done], np.where(np.abs(force) > least[:, None], force, 0.0)[done]
            worst = max(worst, float(out[done].max()))
            if not still_open.any():
                return x, forces, worst, steps
            live.only(still_open)
            e, force, slope, gradient, out, stiffest, *told = (
                part[still_open] for part in (e, force, slope, gradient, out, stiffest, *told)
            )
        if steps < WHOLE_STEPS:
            if told and _ease(live, told, e, force, slope):
                gradient = live.out_of_balance(force)
            told = force, slope, e
        step = system.band.solve(slope, PULL / system.count**2 * stiffest, -gradient)
        step *= (FARTHEST_MM / np.maximum(_largest(step), FARTHEST_MM))[:, None]
        if steps >= WHOLE_STEPS:
            step *= _length(live, step, e)[:, None]
        live.x[:, : system.count] += step
    raise Unbalanced(float(out.max()))


def _ease(live: _Live, told: Sequence[Array], e: Array, force: Array, slope: Array) -> bool:
    """Give a bearing far above the force that the last step told the force and slope of nearer that;
    whether there is any.

    F grows with the depth d about as d^n, so that d falls by 1 - (told/F)^(1/n) of itself, and d is n F/(dF/de).
    """
    eased = False
    for law, own, values in live.groups:
        if law not in GROWTH:
            continue
        (was, rise, then), now, at = (part[:, own] for part in told), force[:, own], e[:, own]
        size = np.abs(now)
        said = np.maximum(np.sign(now) * (was + rise * (at - then)), _LEAST_SHARE * size)
        far = (size > _CURVED * said) & (rise > 0)
        if far.any():
            eased, n = True, GROWTH[law](values)
            share = np.where(far, said, 1.0) / np.where(far, size, 1.0)
            above = n * now * (1 - share ** (1 / n)) / np.where(far, slope[:, own], 1.0)
            near, slope[:, own] = law(at - above, *values)
            force[:, own] = near + slope[:, own] * above
    return eased


def _length(live: _Live, step: Array, e: Array) -> Array:
    """How far to go along a step: where the slope along it vanishes,
    by Newton's method between two bounds that close in.
    """
    de = live.system.apart(np.pad(step, ((0, 0), (0, live.x.shape[1] - live.system.count))))
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
