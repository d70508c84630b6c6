"""One `find` in a catalogue of a million parts, as a whole process and warm, against baselines of the same run.

    python tests/speed/find_parts.py [PARTS]

Baselines: `python -c pass` for the process; a numpy scan of the same columns for the warm look-up. Median of turns taken
by both; the answers of index and scan are compared before any time is taken.
"""

import csv
import os
import random
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

from stackcheck.catalogue.index import COLUMNS, SIZES, UNITS_PER_MM, TooMany, _box, build, look_up
from stackcheck.model.part import Reading

COMPILED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
NAMES = tuple(SIZES)
COMMAND = "from stackcheck.__main__ import run; run()"
"""What the installed command runs; `python -m` finds the package another way, which costs a little more."""
ROOT = Path(__file__).parent.parent.parent


def synthetic(count: int, seed: int = 1) -> list[tuple[float, ...]]:
    """Parts clustered like standard sizes: round nominals, limits of a few hundredths to tenths."""
    pick = random.Random(seed)
    rows = []
    for _ in range(count):
        bore = pick.choice((1, 0.5, 0.1)) * pick.randint(30, 600) / 10 + 2
        outside = bore + pick.randint(4, 400) / 10
        thick = pick.randint(1, 300) / 10
        limits = pick.choice((0.01, 0.05, 0.27)), pick.choice((0.02, 0.1, 0.5)), pick.choice((0.02, 0.1, 0.4))
        rows.append((bore, bore + limits[0], outside - limits[1], outside, thick, thick + limits[2]))
    return rows


def scan(columns: np.ndarray, readings, widest) -> int:
    """How many parts the box of the readings holds, by looking at every one."""
    keep = np.ones(columns.shape[1], dtype=bool)
    for column, (_, high, low) in _box(readings, widest).items():
        index = tuple(SIZES.values()).index(column)
        keep &= (columns[2 * index] <= high) & (columns[2 * index + 1] >= low)
    return int(keep.sum())


def seconds(job) -> float:
    start = time.perf_counter()
    job()
    return time.perf_counter() - start


def processor_time(command: list[str]) -> float:
    """Processor seconds of one process: what else runs on the machine has less to say in it than in the time on the wall."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, cwd=ROOT, capture_output=True, check=False, env=COMPILED)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def ratio(job, baseline, turns: int, measured: bool = False) -> tuple[float, float]:
    """Median of both, taken in turns; `measured` where they tell their time themselves."""
    job(), baseline()
    taken = (lambda each: each()) if measured else seconds
    times = [(taken(job), taken(baseline)) for _ in range(turns)]
    return tuple(statistics.median(column) for column in zip(*times))


def main(count: int) -> None:
    rows = synthetic(count)
    with tempfile.TemporaryDirectory() as folder:
        source, index = Path(folder) / "own.csv", Path(folder) / "own.db"
        with open(source, "w", newline="") as handle:
            lines = csv.writer(handle)
            lines.writerow(["name", "kind", *COLUMNS])
            lines.writerows(
                [f"part {number}", "washer", *(f"{size:.4f}" for size in row)] for number, row in enumerate(rows)
            )
        print(
            f"build {count} parts: {seconds(lambda: build(source, index)):.1f} s, {index.stat().st_size / 1e6:.0f} MB"
        )
        columns = np.ascontiguousarray(np.round(np.array(rows).T * UNITS_PER_MM).astype(np.int64))
        widest = [int((columns[2 * size + 1] - columns[2 * size]).max()) for size in range(3)]
        pick = random.Random(2)
        for missing, left_out in (
            (None, "all three sizes"),
            (0, "bore missing"),
            (1, "outside missing"),
            (2, "thickness missing"),
        ):
            asked = []
            while len(asked) < 40:
                row = pick.choice(rows)
                readings = tuple(
                    (name, Reading(text="", value_mm=row[2 * size], good_to_mm=0.03))
                    for size, name in enumerate(NAMES)
                    if size != missing
                )
                try:
                    assert len(look_up(index, readings)) == scan(columns, readings, widest)
                    asked.append(readings)
                except TooMany:
                    continue

            def run(job, asked=asked):
                return lambda: [job(readings) for readings in asked]

            own, numpy = ratio(run(lambda r: look_up(index, r)), run(lambda r: scan(columns, r, widest)), 5)
            aim = 1.0 if missing is None else 1.5
            print(
                f"warm, {left_out:<20}{own / 40 * 1e3:8.2f} ms to {numpy / 40 * 1e3:6.2f} ms  ratio {own / numpy:.2f} (aim {aim})"
            )
        sizes = "x".join(f"{rows[0][place]:.2f}" for place in (0, 3, 4))
        find = [sys.executable, "-c", COMMAND, "find", sizes, "cal", "--catalogue", str(index)]
        bare = [sys.executable, "-c", "pass"]
        loaded = [sys.executable, "-c", "import stackcheck.value"]
        for name, command, aim in (("whole process", find, " (aim 4)"), ("of it the base of all values", loaded, "")):
            own, base = ratio(
                lambda command=command: processor_time(command), lambda: processor_time(bare), 60, measured=True
            )
            print(f"{name:<28}{own * 1e3:5.0f} ms to {base * 1e3:.0f} ms of processor  ratio {own / base:.1f}{aim}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000)
