"""How long a comparison takes as the stack grows, beside two public sequence libraries on the same two lines.

    python -m tests.speed.compare_long_stacks

Four mistakes (one missing, one moved, two swapped, one extra) in stacks of 10 to 10,000 distinct parts, the whole engine with its
explanations, warm, in processor time, so that a busy machine slows both sides alike; once with three entries that nobody could name. rapidfuzz: Levenshtein editops of the two lines as integers; Biopython: PairwiseAligner, global, score
only, where it is installed.
"""

from __future__ import annotations

import time
import tracemalloc
from collections.abc import Callable
from functools import partial

from rapidfuzz.distance import Levenshtein

from stackcheck.compare import explanations
from tests.builders import found, reference

SIZES = ((10, 0), (60, 0), (60, 3), (100, 0), (1_000, 0), (10_000, 0))


def with_four_mistakes(parts: list[str]) -> list[str]:
    line, step = list(parts), len(parts) // 5
    del line[step]
    line.insert(2 * step + 2, line.pop(2 * step))
    line[3 * step], line[3 * step + 1] = line[3 * step + 1], line[3 * step]
    line.insert(4 * step, "washer")
    return line


def with_unnamed(line: list[str], unnamed: int) -> list[str]:
    """As many entries without a name, between the mistakes."""
    line, step = list(line), len(line) // 5
    for number in range(1, unnamed + 1):
        line[number * step + step // 2] = "?"
    return line


def least_time(action: Callable[[], object], times: int) -> float:
    best = float("inf")
    for _ in range(times):
        start = time.process_time()
        action()
        best = min(best, time.process_time() - start)
    return best


def biopython_score(wanted: list[int], came_off: list[int]) -> Callable[[], object] | None:
    try:
        import numpy
        from Bio.Align import PairwiseAligner
    except ImportError:
        return None
    aligner = PairwiseAligner(mode="global", match_score=1, mismatch_score=0, gap_score=0)
    a, b = numpy.array(wanted, numpy.int32), numpy.array(came_off, numpy.int32)
    return lambda: aligner.score(a, b)


def main() -> None:
    print("places  unnamed  comparison ms  findings  times editops  times PairwiseAligner  memory MB")
    for size, unnamed in SIZES:
        parts = [f"part{number}" for number in range(size)]
        line = with_four_mistakes(parts)
        numbers = {part: number for number, part in enumerate([*parts, "washer"])}
        wanted, came_off = [numbers[part] for part in parts], [numbers[part] for part in line]
        ref, list_ = reference(" ".join(parts)), found(" ".join(with_unnamed(line, unnamed)))
        answer = explanations(ref, list_)[0]
        times = 15 if size <= 1_000 else 7
        ours = least_time(partial(explanations, ref, list_), times)
        editops = least_time(partial(Levenshtein.editops, wanted, came_off), times)
        score = biopython_score(wanted, came_off)
        beside = f"{ours / least_time(score, 5):21.2f}" if score else f"{'not installed':>21}"
        tracemalloc.start()
        explanations(ref, list_)
        memory = tracemalloc.get_traced_memory()[1] / 1e6
        tracemalloc.stop()
        print(
            f"{size:6}  {unnamed:7}  {ours * 1e3:13.1f}  {len(answer.findings):8}  {ours / editops:13.1f}  {beside}  {memory:9.1f}"
        )


if __name__ == "__main__":
    main()
