"""The state of a network of elements: the positions of all faces at which every force is in balance.

    V(x) = Σ U_i(e_i) - Σ load_j x_j

is convex, so the least value and every element force are unique (between two least states V is constant, and so is each
e with a strict law; a flat law gives the same force all along). Newton's method with a small pull towards where the faces
are, and the length of each step found on the slope along it: differences of energy drown in round-off long before forces
do. The answer carries its witness, the largest force out of balance on any face.

Many variants of one network (other lengths, frictions, stiffnesses) are solved side by side where the values of its
elements are arrays.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from stackcheck.mechanics.axial.laws import STIFFNESS, Element
from stackcheck.value import Value

MOST_STEPS = 200
BALANCE = 1e-10
"""Out of balance over the largest force at which a state counts as found."""

NOTHING_N = 1e-6
"""A millionth of a newton is nothing."""

_LAST_BITS = 8 * float(np.finfo(float).eps)
_PULL = 1e-5
_LOOSE = 0.3
_FARTHEST_MM = 1e5
_DENSE = 80


class NetworkError(ValueError):
    """The network has no state, or not one that means anything; the message says why in words."""


class Network(Value, kw_only=True, eq=False):
    """Elements, faces that stand still (name -> position [mm]) and forces on faces (name -> N, + to the right)."""

    elements: tuple[Element, ...]
    fixed: Mapping[str, float]
    loads: Mapping[str, object] = {}

    @property
    def faces(self) -> tuple[str, ...]:
        names = dict.fromkeys(name for element in self.elements for name in (element.a, element.b))
        return tuple(dict.fromkeys([*names, *self.fixed, *self.loads]))


class State(Value, kw_only=True, eq=False):
    """Positions [mm] by face and forces [N] by element (tension +), each an array with one value a variant."""

    positions: Mapping[str, np.ndarray]
    forces: Mapping[str, np.ndarray]
    out_of_balance: float
    steps: int = 0

    def distance(self, a: str, b: str) -> np.ndarray:
        return self.positions[b] - self.positions[a]


def solve(network: Network, start: Mapping[str, float] | None = None) -> State:
    """The state of a network, of all its variants at once.

    Args:
        network: at least one face must stand still or be held by an element to one that does.
        start: where faces are drawn [mm]; a face not named starts at 0. Only loose parts stay where they started.
    Raises:
        NetworkError: a stiffness not above 0, no numbers, or forces that nothing opposes.
    """
    return _Solver(network).solve(start or {})


class _Solver:
    def __init__(self, network: Network):
        self.network = network
        self.free = [face for face in network.faces if face not in network.fixed]
        self.index = {face: i for i, face in enumerate(self.free)}
        self.groups = _grouped(network.elements)
        self.ordered = [element for group in self.groups for element in group]
        if len({element.name for element in self.ordered}) != len(self.ordered):
            raise NetworkError("two elements have one name")
        values = [value for element in self.ordered for value in element.values] + list(network.loads.values())
        self.variants = max((value.size for value in values if isinstance(value, np.ndarray)), default=1)
        self.parameters = [self._stacked(group) for group in self.groups]
        self._check()
        self.a = self._ends([element.a for element in self.ordered])
        self.b = self._ends([element.b for element in self.ordered])
        self.load = np.zeros((self.variants, len(self.free)))
        for face, load in network.loads.items():
            if not np.all(np.isfinite(load)):
                raise NetworkError(f"the force on {face} is no number")
            if face in self.index:
                self.load[:, self.index[face]] += load
        self.is_small = len(self.free) <= _DENSE
        if self.is_small:
            self._join_faces()

    def _check(self) -> None:
        for group, parameters in zip(self.groups, self.parameters):
            for position, column in enumerate(parameters):
                if not np.isfinite(column).all():
                    which = group[int(np.argmin(np.isfinite(column).all(axis=0)))]
                    raise NetworkError(f"a length, force or stiffness of {which.name} is no number")
                if position in STIFFNESS.get(group[0].law, ()) and not (column > 0).all():
                    which = group[int(np.argmin((column > 0).all(axis=0)))]
                    raise NetworkError(f"the stiffness of {which.name} is not above 0")

    def _ends(self, faces: Sequence[str]) -> np.ndarray:
        """Column of every face; fixed faces come behind the free ones."""
        fixed = {face: len(self.free) + i for i, face in enumerate(self.network.fixed)}
        return np.array([self.index.get(face, fixed.get(face, -1)) for face in faces], dtype=int)

    def _stacked(self, group: Sequence[Element]) -> list[np.ndarray]:
        """Each parameter of a law as one row a variant, one column an element."""
        if self.variants == 1:
            plain = ([value.item() if isinstance(value, np.ndarray) else value for value in element.values] for element in group)
            return [np.array([column], float) for column in zip(*plain)]
        return [
            np.stack([np.broadcast_to(np.asarray(value, float), self.variants) for value in column], axis=1)
            for column in zip(*(element.values for element in group))
        ]

    def laws(self, e: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        forces, slopes, first = [], [], 0
        for group, parameters in zip(self.groups, self.parameters):
            force, slope = group[0].law(e[:, first : first + len(group)], *parameters)
            forces.append(force)
            slopes.append(slope)
            first += len(group)
        return np.concatenate(forces, axis=1), np.concatenate(slopes, axis=1)

    def solve(self, start: Mapping[str, float]) -> State:
        n = len(self.free)
        still = np.array([float(value) for value in self.network.fixed.values()])
        x = np.tile([float(start.get(face, 0.0)) for face in self.free], (self.variants, 1)) if n else np.zeros((self.variants, 0))
        scale = None
        for steps in range(MOST_STEPS):
            e = self._distances(x, still)
            force, slope = self.laws(e)
            gradient = self._on_faces(force) - self.load
            largest = np.maximum(np.abs(force).max(axis=1, initial=0.0), np.abs(self.load).max(axis=1, initial=0.0))
            out = np.abs(gradient).max(axis=1, initial=0.0)
            # Positions are known to the last bit of a float, and forces to that times the stiffness.
            noise = 0.0 if scale is None else scale * np.abs(x).max(axis=1, initial=1.0) * _LAST_BITS
            open_ = out > BALANCE * largest + noise + NOTHING_N
            if not open_.any():
                break
            stiffest = np.maximum(slope.max(axis=1, initial=0.0), 1.0)
            scale = stiffest if scale is None else np.maximum(scale, stiffest)
            step = np.where(open_[:, None], self._newton(gradient, slope, _PULL / max(n, 1) ** 2 * scale), 0.0)
            x = x + self._length(step, e, open_) [:, None] * step
            if np.abs(x).max() > _FARTHEST_MM:
                raise NetworkError("nothing opposes the forces: nothing is clamped")
        else:
            raise NetworkError(f"no balance was found in {MOST_STEPS} steps; out of balance by {out.max():.3g} N")
        position = {face: x[:, i] for face, i in self.index.items()}
        position |= {face: np.full(self.variants, float(value)) for face, value in self.network.fixed.items()}
        forces = {element.name: force[:, j] for j, element in enumerate(self.ordered)}
        return State(positions=position, forces=forces, out_of_balance=float(out.max(initial=0.0)), steps=steps)

    def _distances(self, x: np.ndarray, still: np.ndarray) -> np.ndarray:
        everywhere = np.concatenate([x, np.tile(still, (self.variants, 1))], axis=1)
        return everywhere[:, self.b] - everywhere[:, self.a]

    def _join_faces(self) -> None:
        """Which element pulls at which face, and what each adds to the matrix of stiffnesses."""
        n = len(self.free)
        joins = np.zeros((len(self.a), n + len(self.network.fixed)))
        joins[np.arange(len(self.b)), self.b] += 1
        joins[np.arange(len(self.a)), self.a] -= 1
        self.joins = joins[:, :n]
        self.products = (self.joins[:, :, None] * self.joins[:, None, :]).reshape(len(self.a), n * n)

    def _on_faces(self, force: np.ndarray) -> np.ndarray:
        """The sum of the forces on every free face that would draw it to the left."""
        if self.is_small:
            return force @ self.joins
        n = len(self.free)
        whole = n + len(self.network.fixed)
        total = [np.bincount(self.b, row, whole) - np.bincount(self.a, row, whole) for row in force]
        return np.array(total)[:, :n]

    def _newton(self, gradient: np.ndarray, slope: np.ndarray, pull: np.ndarray) -> np.ndarray:
        if not self.is_small:
            return np.array([self._newton_sparse(*row) for row in zip(gradient, slope, pull)])
        n = len(self.free)
        matrix = (slope @ self.products).reshape(self.variants, n, n)
        matrix[:, np.arange(n), np.arange(n)] += pull[:, None]
        return np.linalg.solve(matrix, -gradient[:, :, None])[:, :, 0]

    def _newton_sparse(self, gradient: np.ndarray, k: np.ndarray, pull: float) -> np.ndarray:
        from scipy.sparse import coo_array, csc_array, diags_array
        from scipy.sparse.linalg import spsolve

        n, whole = len(self.free), len(self.free) + len(self.network.fixed)
        rows = np.concatenate([self.a, self.b, self.a, self.b])
        columns = np.concatenate([self.a, self.b, self.b, self.a])
        matrix = csc_array(coo_array((np.concatenate([k, k, -k, -k]), (rows, columns)), shape=(whole, whole)))[:n, :n]
        return spsolve(csc_array(matrix + diags_array(np.full(n, pull))), -gradient)

    def _length(self, step: np.ndarray, e: np.ndarray, open_: np.ndarray) -> np.ndarray:
        """How far to go along a step: where the slope along it vanishes, which a convex energy has once."""
        still = np.zeros(len(self.network.fixed))
        de = self._distances(step, still)
        loaded = (self.load * step).sum(axis=1)

        def along(t: np.ndarray) -> np.ndarray:
            return (self.laws(e + t[:, None] * de)[0] * de).sum(axis=1) - loaded

        start = along(np.zeros(self.variants))
        low, high = np.zeros(self.variants), np.ones(self.variants)
        at_low, at_high = start, along(high)
        for _ in range(60):
            short = open_ & (at_high < 0)
            if not short.any():
                break
            low, at_low = np.where(short, high, low), np.where(short, at_high, at_low)
            high = np.where(short, 2 * high, high)
            at_high = np.where(short, along(high), at_high)
        found, near = high, ~open_ | (np.abs(at_high) <= _LOOSE * np.abs(start))
        for turn in range(40):
            if near.all():
                break
            # By turns the chord and the middle: the chord is quick, the middle never sticks.
            rise = np.where(at_high > at_low, at_high - at_low, 1.0)
            t = (low + high) / 2 if turn % 2 else low - at_low * (high - low) / rise
            slope = along(t)
            found = np.where(near, found, t)
            down = ~near & (slope < 0)
            up = ~near & (slope >= 0)
            low, at_low = np.where(down, t, low), np.where(down, slope, at_low)
            high, at_high = np.where(up, t, high), np.where(up, slope, at_high)
            near = near | (np.abs(slope) <= _LOOSE * np.abs(start))
        return found


def _grouped(elements: Sequence[Element]) -> list[list[Element]]:
    """Elements of one law together: each law is asked once a step, for all of them."""
    groups: dict[object, list[Element]] = {}
    for element in elements:
        groups.setdefault(element.law, []).append(element)
    return list(groups.values())
