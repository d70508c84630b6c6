"""The exact distribution of a chain of 20 parts against a million draws, in time and in the far tail.

    python tests/speed/exact_distribution.py

Baseline, in the same run: 1,000,000 draws with numpy. The truth that both are held against is the closed form in exact
fractions, for the widths as the drawing states them (whole hundredths of a millimetre, in three sizes).
"""

import time
from fractions import Fraction
from itertools import product
from math import comb, factorial, prod

import numpy as np

from stackcheck.mechanics.spread import spread

GROUPS = {Fraction(2, 100): 8, Fraction(5, 100): 7, Fraction(7, 100): 5}
HALVES = [half for half, count in GROUPS.items() for _ in range(count)]
UNEVEN = [0.01 * (2 + number**0.5) for number in range(20)]
X = Fraction(-47, 100)
DRAWS = 1_000_000
ROUNDS = 5


def truth() -> float:
    total = Fraction(0)
    for chosen in product(*(range(count + 1) for count in GROUPS.values())):
        inside = X + sum(HALVES) - 2 * sum(half * number for half, number in zip(GROUPS, chosen))
        if inside > 0:
            ways = prod(comb(count, number) for count, number in zip(GROUPS.values(), chosen))
            total += (-1) ** sum(chosen) * ways * inside ** len(HALVES)
    return float(total / (factorial(len(HALVES)) * prod(2 * half for half in HALVES)))


def by_draws(halves: list[float], generator: np.random.Generator) -> float:
    return float(np.mean(sum(generator.uniform(-half, half, DRAWS) for half in halves) < float(X)))


def best(call) -> tuple[float, float]:
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        answer = call()
        times.append(time.perf_counter() - start)
    return min(times), answer


def main() -> None:
    generator = np.random.default_rng(1)
    halves = [float(half) for half in HALVES]
    drawing, drawn = best(lambda: by_draws(halves, generator))
    wanted = truth()
    print(f"{'':<38}{'ms':>8}{'times faster':>14}{'share below':>14}{'off by':>10}")
    print(f"{'a million draws':<38}{drawing * 1e3:8.1f}{1:14.0f}{drawn:14.3e}{abs(drawn / wanted - 1):10.1e}")
    for name, widths in (("exact, widths of a drawing", halves), ("exact, widths without common measure", UNEVEN)):
        taken, share = best(lambda widths=widths: spread(0.0, widths).below(float(X)))
        off = f"{abs(share / wanted - 1):10.1e}" if widths is halves else ""
        print(f"{name:<38}{taken * 1e3:8.1f}{drawing / taken:14.0f}{share:14.3e}{off}")
    print("aim: at least 20 times faster, and closer")


if __name__ == "__main__":
    main()
