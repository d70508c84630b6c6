"""One `stackcheck compare` as a whole process against importing its libraries alone.

    python tests/speed/compare_start.py [RUNS]

Baseline, in the same run: `python -c "import pydantic, networkx, rich.console, rich.table"`. All are started by turns,
so that a busy machine slows all; the middle values and their ratios are printed. Compiled modules are kept, as Python
does unless it is told otherwise: an installed library has them from the start.
"""

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
BASELINE = [sys.executable, "-c", "import pydantic, networkx, rich.console, rich.table"]
LISTS = {
    "front hub, agrees": "13-front-hub-seal-before-collar.toml",
    "front hub, collars swapped": "01-front-hub-collars-swapped.toml",
}
COMPILED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def seconds(command: list[str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, cwd=ROOT, env=COMPILED, capture_output=True, check=False)
    return time.perf_counter() - start


def main(runs: int) -> None:
    commands = [BASELINE]
    commands += [[sys.executable, "-m", "stackcheck", "compare", f"examples/{name}"] for name in LISTS.values()]
    for command in commands:
        seconds(command)  # the first start compiles and reads from disk
    times = [[seconds(command) for command in commands] for _ in range(runs)]
    baseline, *compared = (statistics.median(column) for column in zip(*times))
    print(f"{'imports alone':<28}{baseline * 1000:8.0f} ms")
    for name, middle in zip(LISTS, compared):
        print(f"{name:<28}{middle * 1000:8.0f} ms{middle / baseline:8.2f} times   (aim: at most 1.3)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
