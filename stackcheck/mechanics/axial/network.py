"""The state of a network of elements: the positions of all faces at which every force is in balance.

    V(x) = Σ U_i(e_i) - Σ load_j x_j

is convex, so the least value and every element force are unique (between two least states V is constant, and so is each
e with a strict law; a flat law gives the same force all along). `newton` finds it, or `plain` where the network is
small and one alone. The answer carries its witness, the largest force out of balance on any face.

Many variants of one network (other lengths, frictions, stiffnesses) are solved side by side where the values of its
elements are arrays.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from stackcheck.mechanics.axial import plain
from stackcheck.mechanics.axial.laws import STIFFNESS, Element
from stackcheck.mechanics.axial.newton import Endless, System, Unbalanced, balance
from stackcheck.value import Value


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


class Rows(Mapping):
    """The rows of a table by their names; a row is an array with one value a variant, and is made when it is asked for."""

    def __init__(self, number: Mapping[str, int], table: Sequence[float] | np.ndarray):
        self._number, self._table = number, table

    def __getitem__(self, name: str) -> np.ndarray:
        return np.atleast_1d(self._table[self._number[name]])

    def __iter__(self) -> Iterator[str]:
        return iter(self._number)

    def __len__(self) -> int:
        return len(self._number)


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
        start: where faces are drawn [mm]; a face not named starts at 0. Only where loose parts lie depends on it.
    Raises:
        NetworkError: a stiffness not above 0, no numbers, or forces that nothing opposes.
    """
    elements, loads = network.elements, network.loads
    names = {element.name: i for i, element in enumerate(elements)}
    if len(names) != len(elements):
        raise NetworkError("two elements have one name")
    start = {**(start or {}), **network.fixed}
    found = plain.balance(elements, network.fixed, loads, start)
    if found is not None:
        faces, x, forces, out, steps = found
        return State(positions=Rows(faces, x), forces=Rows(names, forces), out_of_balance=out, steps=steps)
    for face, load in loads.items():
        if not np.all(np.isfinite(load)):
            raise NetworkError(f"the force on {face} is no number")
    system = System(elements, network.fixed, loads)
    _check(system)
    try:
        x, forces, out, steps = balance(system, system.placed(start))
    except Endless:
        raise NetworkError("nothing opposes the forces: nothing is clamped") from None
    except Unbalanced as problem:
        raise NetworkError(f"no balance was found; out of balance by {problem.args[0]:.3g} N") from None
    faces = dict(zip(system.faces, system.number.tolist()))
    names = {element.name: i for i, element in enumerate(system.elements)}
    return State(positions=Rows(faces, x.T), forces=Rows(names, forces.T), out_of_balance=out, steps=steps)


def _check(system: System) -> None:
    for law, own, values in system.groups:
        numbers = np.isfinite(values)
        if np.count_nonzero(numbers) < numbers.size:
            raise NetworkError(f"a length, force or stiffness of {_which(system, own, numbers)} is no number")
        stiff = values[STIFFNESS[law]] > 0
        if np.count_nonzero(stiff) < stiff.size:
            raise NetworkError(f"the stiffness of {_which(system, own, stiff)} is not above 0")


def _which(system: System, own: slice, good: np.ndarray) -> str:
    """The first element of a group that is not good in every variant."""
    return system.elements[own][int(np.argmin(good.all(axis=(0, 1))))].name
