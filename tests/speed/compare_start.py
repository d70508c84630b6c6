"""One `stackcheck compare` as a whole process against importing its libraries alone.

    python tests/speed/compare_start.py [RUNS]

Baseline, in the same run: `python -c "import pydantic, networkx, rich.console, rich.table"`. Both are started by turns,
so that a busy machine slows both; the middle values and their ratio are printed.
"""

import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
EXAMPLE = ROOT / "examples" / "01-front-hub-collars-swapped.toml"
BASELINE = [sys.executable, "-c", "import pydantic, networkx, rich.console, rich.table"]
COMPARE = [sys.executable, "-m", "stackcheck", "compare", str(EXAMPLE)]


def seconds(command: list[str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, cwd=ROOT, capture_output=True, check=False)
    return time.perf_counter() - start


def main(runs: int) -> None:
    seconds(COMPARE), seconds(BASELINE)  # the first start reads from disk
    times = [(seconds(BASELINE), seconds(COMPARE)) for _ in range(runs)]
    baseline, compare = (statistics.median(column) for column in zip(*times))
    print(f"{'imports alone':<28}{baseline * 1000:8.0f} ms")
    print(f"{'compare, front hub':<28}{compare * 1000:8.0f} ms")
    print(f"{'ratio':<28}{compare / baseline:8.2f}   (aim: at most 1.3)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
