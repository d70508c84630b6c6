"""The axial network against general-purpose solvers, to the same accuracy of the forces.

    python tests/speed/axial_network.py

One hub, of the tests and of the fleet: `scipy.optimize.minimize` (L-BFGS-B, energy and slope given) from the same start, until
its largest force out of balance is a millionth of the largest force. It gets the laws in plain numbers, as quick as we have them,
and energies in closed form, for one that misses the forces by its last digits makes it stop short. Numbering its faces and sorting
its laws is done before its time is taken, while ours counts all from the named elements to the forces by name. Many variants: the same minimiser once each, timed on twenty. A long stack: one
`scipy.sparse.linalg.spsolve` of its tridiagonal system for every step of ours. Times are processor time,
with one thread for the linear algebra: the waiting of other threads would count.
"""

import math
import os
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import numpy as np
from scipy.optimize import minimize
from scipy.sparse import diags_array
from scipy.sparse.linalg import spsolve

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "mechanics" / "axial")]

from test_network import DRAWN, hub

from stackcheck.formats.reference_file import read_reference
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.laws import PLAIN, body, power, spring
from stackcheck.mechanics.axial.network import Network, solve
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.clamp import clamps_loop
from stackcheck.mechanics.clamped_network import ClampedNetwork
from stackcheck.mechanics.heat import COLD
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns

ENOUGH = 1e-6  # of the largest force: how well the minimiser has to balance; ours is a thousand times better


def best(call, rounds: int = 5) -> float:
    times = []
    for _ in range(rounds):
        start = time.process_time()
        call()
        times.append(time.process_time() - start)
    return min(times)


def by_turns(ours, other, rounds: int = 5, each: int = 40) -> tuple[float, float]:
    """The best time of both, measured by turns: a machine that others use is not equally quick all the time."""
    times = [(best(ours, each), best(other, max(1, each // 20))) for _ in range(rounds)]
    return min(mine for mine, _ in times), min(theirs for _, theirs in times)


def fleet_hubs():
    """Every loop of the fleet that a joint clamps, all unknowns at their usual values: name, network, where it is drawn."""
    for file in sorted(ROOT.glob("reference_assemblies/*/*.toml")):
        if file.stem == "machine":
            continue
        reference = read_reference(file)
        for joint in reference.joints:
            for loop in reference.loops:
                for how in ("slides", "held"):
                    if joint.torque is None or not clamps_loop(reference, joint, loop):
                        continue
                    try:
                        built = ClampedNetwork(as_wanted(reference), joint, loop, Unknowns(), how == "held")
                        network, drawn, _ = built.state(joint.torque.nominal, thread_of(joint), COLD)
                    except Missing:  # no forces are computed for it
                        continue
                    yield f"{file.stem}, outer rings {how}", network, drawn


def energy_of(law: Callable, values: list[float], e: float, force: float) -> float:
    """The energy of a bearing, its force being known."""
    if law is power:
        return force * (e - values[0]) / (values[2] + 1)
    middle, distance, contact, zk = values
    return zk * max(math.hypot(distance * contact, e - middle) - distance, 0.0) ** 2.5 / 2.5


def minimiser(network: Network, drawn: dict[str, float], largest: float) -> Callable[[], float]:
    """A call that minimises the energy, and how far its forces are out of balance, over the largest."""
    free = [face for face in network.faces if face not in network.fixed]
    index = {face: i for i, face in enumerate([*free, *network.fixed])}
    parts = [(index[each.a], index[each.b], each.law, [*map(float, each.values)]) for each in network.elements]
    springs = [(a, b, *values) for a, b, law, values in parts if law is spring]
    others = [(a, b, law, values) for a, b, law, values in parts if law is not spring]
    x0, still = np.array([drawn[face] for face in free]), [*network.fixed.values()]

    def energy(x: np.ndarray) -> tuple[float, np.ndarray]:
        at, total, slope = x.tolist() + still, 0.0, [0.0] * len(index)
        for a, b, length, k, least, most in springs:  # written out as in ours
            straight = k * (at[b] - at[a] - length)
            force = straight if least <= straight <= most else least if straight < least else most
            total += force * (at[b] - at[a]) if least == most else force * force / 2 / k
            slope[a] -= force
            slope[b] += force
        for a, b, law, values in others:
            e = at[b] - at[a]
            force, _ = law(e, *values, PLAIN)
            total += energy_of(law, values, e, force)
            slope[a] -= force
            slope[b] += force
        return total, np.array(slope[: len(free)])

    def run() -> float:
        options = {"maxiter": 50_000, "maxfun": 100_000, "ftol": 0, "gtol": ENOUGH * largest}
        x, out = x0, math.inf
        while True:  # where its steps drown in round-off it is started again, as long as that brings it nearer
            x, before = minimize(energy, x, jac=True, method="L-BFGS-B", options=options).x, out
            out = float(np.abs(energy(x)[1]).max()) / largest
            if not ENOUGH < out < before:
                return out

    return run


def largest_force(network: Network, drawn: dict[str, float]) -> float:
    return max(abs(float(force[0])) for force in solve(network, drawn).forces.values())


def main() -> None:
    print(f"{'':<44}{'ours ms':>10}{'other ms':>10}{'ratio':>8}")
    hubs = [("one hub, no preload", hub(), DRAWN), ("one hub, tube too long", hub(tube=58.3), DRAWN), *fleet_hubs()]
    for name, network, drawn in hubs:
        run = minimiser(network, drawn, largest_force(network, drawn))
        ours, other = by_turns(lambda network=network, drawn=drawn: solve(network, drawn), run)
        out = run()
        met = "" if out <= ENOUGH else ", never balanced so well"
        print(
            f"{name:<44}{ours * 1e3:10.3f}{other * 1e3:10.1f}{other / ours:8.0f}   (aim: at least 20; minimiser out by {out:.1e} of the largest force{met})"
        )
    generator = np.random.default_rng(1)
    draws = 10_000
    tubes = 58.2 + generator.uniform(-0.02, 0.02, draws)
    pulls = generator.uniform(8e3, 20e3, draws)
    many = best(lambda: solve(hub(tube=tubes, pull=pulls), DRAWN), 2)
    single = [minimiser(hub(tube=float(t), pull=float(p)), DRAWN, float(p)) for t, p in zip(tubes[:20], pulls[:20])]
    singly = best(lambda: [each() for each in single], 2) * draws / len(single)
    print(
        f"{'10,000 variants of a hub':<44}{many * 1e3:10.0f}{singly * 1e3:10.0f}{singly / many:8.0f}   (aim: at least 100)"
    )
    for count in (500, 5_000, 20_000):
        faces = [f"f{i}" for i in range(count + 1)]
        stack = Network(
            elements=tuple(body(f"e{i}", faces[i], faces[i + 1], length=1.0 + 1e-3 * (i % 7), k=1e5) for i in range(count)),
            fixed={"f0": 0.0}, loads={faces[-1]: -5e3},
        )  # fmt: skip
        start = {face: 1.0 * i for i, face in enumerate(faces)}
        matrix = (
            diags_array([-np.ones(count - 1), 2 * np.ones(count), -np.ones(count - 1)], offsets=[-1, 0, 1]).tocsc()
            * 1e5
        )
        steps = solve(stack, start).steps
        ours, other = by_turns(partial(solve, stack, start), partial(spsolve, matrix, np.ones(count)), each=4)
        other *= steps
        print(
            f"{f'{count:,} elements in a row, {steps} steps':<44}{ours * 1e3:10.1f}{other * 1e3:10.1f}{ours / other:8.1f}   (aim: ours at most 5 times)"
        )


if __name__ == "__main__":
    main()
