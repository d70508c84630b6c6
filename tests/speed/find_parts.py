"""One `find` in a catalogue of a million parts, as a whole process and warm, against baselines of the same run.

    python tests/speed/find_parts.py [PARTS]

Baselines: `python -c pass` for the process; a numpy scan of the same columns for the warm look-up. Median of turns taken
by both; the answers of index and scan are compared before any time is taken.
"""

import csv
import random
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

from stackcheck.catalogue.index import COLUMNS, UNITS_PER_MM, TooMany, _box, build, look_up
from stackcheck.model.part import Reading

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
    _, figures = _box(readings, widest)
    boxes = iter(zip(figures[::3], figures[1::3], figures[2::3]))
    for index, reading in enumerate(readings):
        if reading is not None:
            _, high, low = next(boxes)
            keep &= (columns[2 * index] <= high) & (columns[2 * index + 1] >= low)
    return int(keep.sum())


def seconds(job) -> float:
    start = time.perf_counter()
    job()
    return time.perf_counter() - start


def ratio(job, baseline, turns: int) -> tuple[float, float]:
    job(), baseline()
    times = [(seconds(job), seconds(baseline)) for _ in range(turns)]
    return tuple(statistics.median(column) for column in zip(*times))


def main(count: int) -> None:
    rows = synthetic(count)
    with tempfile.TemporaryDirectory() as folder:
        source, index = Path(folder) / "own.csv", Path(folder) / "own.db"
        with open(source, "w", newline="") as handle:
            lines = csv.writer(handle)
            lines.writerow(["name", "kind", *COLUMNS])
            lines.writerows([f"part {number}", "washer", *(f"{size:.4f}" for size in row)] for number, row in enumerate(rows))
        print(f"build {count} parts: {seconds(lambda: build(source, index)):.1f} s, {index.stat().st_size / 1e6:.0f} MB")
        columns = np.ascontiguousarray(np.round(np.array(rows).T * UNITS_PER_MM).astype(np.int64))
        widest = [int((columns[2 * size + 1] - columns[2 * size]).max()) for size in range(3)]
        pick = random.Random(2)
        for missing, name in ((None, "all three sizes"), (0, "bore missing"), (1, "outside missing"), (2, "thickness missing")):
            asked = []
            while len(asked) < 40:
                row = pick.choice(rows)
                readings = tuple(
                    None if size == missing else Reading(text="", value_mm=row[2 * size], good_to_mm=0.03) for size in range(3)
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
            print(f"warm, {name:<20}{own / 40 * 1e3:8.2f} ms to {numpy / 40 * 1e3:6.2f} ms  ratio {own / numpy:.2f} (aim {aim})")
        sizes = "x".join(f"{rows[0][place]:.2f}" for place in (0, 3, 4))
        find = [sys.executable, "-m", "stackcheck", "find", sizes, "cal", "--catalogue", str(index)]
        bare = [sys.executable, "-c", "pass"]
        own, base = ratio(lambda: subprocess.run(find, cwd=ROOT, capture_output=True), lambda: subprocess.run(bare, cwd=ROOT), 15)
        print(f"whole process {own * 1e3:.0f} ms to {base * 1e3:.0f} ms  ratio {own / base:.1f} (aim 4)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000)
