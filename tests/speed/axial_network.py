"""The axial network against general-purpose solvers, to the same accuracy of the forces.

    python tests/speed/axial_network.py

One hub, of the tests and of the fleet: `scipy.optimize.minimize` (L-BFGS-B, energy and slope given) on the same energy, until its forces are as well in
balance as ours are in that row. Many variants: the same minimiser once each, timed on twenty. A long stack: one
`scipy.sparse.linalg.spsolve` of its tridiagonal system for every step of ours. Times are processor time,
with one thread for the linear algebra: the waiting of other threads would count.
"""

import os
import sys
import time
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
from stackcheck.mechanics.axial.laws import body
from stackcheck.mechanics.axial.network import Network, solve
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.clamp import clamps_loop
from stackcheck.mechanics.clamped_network import ClampedNetwork
from stackcheck.mechanics.heat import COLD
from stackcheck.mechanics.joint_pull import thread_of
from stackcheck.mechanics.unknowns import Unknowns

MOST_STARTS = 30
ENOUGH = 1e-6  # of the largest force: how well the minimiser has to balance


def best(call, rounds: int = 5) -> float:
    times = []
    for _ in range(rounds):
        start = time.process_time()
        call()
        times.append(time.process_time() - start)
    return min(times)


def by_turns(ours, other, rounds: int = 5, each: int = 40) -> tuple[float, float]:
    """The best time of both, measured by turns: a machine that others use is not equally quick all the time."""
    times = [(best(ours, each), best(other, 1)) for _ in range(rounds)]
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


def minimiser(network: Network, drawn: dict[str, float] = DRAWN):
    """A call that minimises the energy, and how far its forces are out of balance."""
    free = [face for face in network.faces if face not in network.fixed]
    index = {face: i for i, face in enumerate(free)}
    x0 = np.array([drawn[face] for face in free])
    nodes, weights = np.polynomial.legendre.leggauss(8)

    def energy(x: np.ndarray) -> tuple[float, np.ndarray]:
        total, slope = 0.0, np.zeros(len(free))
        for element in network.elements:
            xa = x[index[element.a]] if element.a in index else network.fixed[element.a]
            xb = x[index[element.b]] if element.b in index else network.fixed[element.b]
            e, start = xb - xa, element.values[0]
            law = element.law.__name__
            values = [float(value) for value in element.values]
            if law == "push":
                deep = max(values[0] - e, 0.0)
                total, pull = total + values[1] * deep * deep / 2, -values[1] * deep
            elif law == "both_ways":
                total, pull = total + values[1] * (e - values[0]) ** 2 / 2, values[1] * (e - values[0])
            elif law == "constant":
                total, pull = total + values[0] * e, values[0]
            else:
                stretch = (e - start) / 2
                total += stretch * float(weights @ element.law(start + stretch * (nodes + 1), *values)[0])
                pull = float(element.law(np.array([e]), *values)[0][0])
            if element.a in index:
                slope[index[element.a]] -= pull
            if element.b in index:
                slope[index[element.b]] += pull
        return total, slope

    def run() -> float:
        x = x0
        for _ in range(MOST_STARTS):  # it stops short of that balance where its steps drown in round-off, and is started again
            x = minimize(energy, x, jac=True, method="L-BFGS-B", options={"maxiter": 50_000, "maxfun": 100_000, "ftol": 0, "gtol": 0}).x
            out = float(np.abs(energy(x)[1]).max())
            if out <= ENOUGH * 12.5e3:
                break
        return out

    return run


def main() -> None:
    print(f"{'':<44}{'ours ms':>10}{'other ms':>10}{'ratio':>8}")
    hubs = [("one hub, no preload", hub(), DRAWN), ("one hub, tube too long", hub(tube=58.3), DRAWN), *fleet_hubs()]
    for name, network, drawn in hubs:
        run = minimiser(network, drawn)
        ours, other = by_turns(lambda network=network, drawn=drawn: solve(network, drawn), run)
        out = run()
        met = "" if out <= ENOUGH * 12.5e3 else ", never balanced so well"
        print(f"{name:<44}{ours * 1e3:10.2f}{other * 1e3:10.1f}{other / ours:8.0f}   (aim: at least 20; minimiser out by {out:.1e} N{met})")
    generator = np.random.default_rng(1)
    draws = 10_000
    tubes = 58.2 + generator.uniform(-0.02, 0.02, draws)
    pulls = generator.uniform(8e3, 20e3, draws)
    many = best(lambda: solve(hub(tube=tubes, pull=pulls), DRAWN), 2)
    singly = best(lambda: [minimiser(hub(tube=float(t), pull=float(p)))() for t, p in zip(tubes[:10], pulls[:10])], 1) * draws / 10
    print(f"{'10,000 variants of a hub':<44}{many * 1e3:10.0f}{singly * 1e3:10.0f}{singly / many:8.0f}   (aim: at least 100)")
    for count in (500, 5_000, 20_000):
        faces = [f"f{i}" for i in range(count + 1)]
        stack = Network(
            elements=tuple(body(f"e{i}", faces[i], faces[i + 1], length=1.0 + 1e-3 * (i % 7), k=1e5) for i in range(count)),
            fixed={"f0": 0.0}, loads={faces[-1]: -5e3},
        )  # fmt: skip
        start = {face: 1.0 * i for i, face in enumerate(faces)}
        matrix = diags_array([-np.ones(count - 1), 2 * np.ones(count), -np.ones(count - 1)], offsets=[-1, 0, 1]).tocsc() * 1e5
        ours, steps = best(partial(solve, stack, start), 2), solve(stack, start).steps
        other = best(partial(spsolve, matrix, np.ones(count)), 3) * steps
        print(f"{f'{count:,} elements in a row, {steps} steps':<44}{ours * 1e3:10.1f}{other * 1e3:10.1f}{ours / other:8.1f}   (aim: ours at most 5 times)")


if __name__ == "__main__":
    main()
