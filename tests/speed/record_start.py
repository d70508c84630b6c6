"""One recorded line as a whole process, and the next question of a long job.

    python tests/speed/record_start.py [RUNS]

Baselines, in the same run: `python -c "import pydantic, networkx, rich.console"` for `stackcheck off left "..."` (event on
disk), and reading the journal of 2,000 events with tomllib for the next question after an answer. Middle values of runs by
turns; compiled modules are kept, as an installed library has them.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable
from pathlib import Path

from stackcheck.bench.answers import answer
from stackcheck.bench.questions import next_question
from stackcheck.formats.library import Library
from stackcheck.job.events import Noted, Off
from stackcheck.job.folder import JobFolder

ROOT = Path(__file__).parent.parent.parent
BASELINE = [sys.executable, "-c", "import pydantic, networkx, rich.console"]
EVENTS = 2000


def seconds(run: Callable[[], object]) -> float:
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


def recorded(folder: Path) -> list[str]:
    return [sys.executable, "-m", "stackcheck", "off", "left", "collar 22.02 cal, flange out", "--jobs", str(folder)]


def main(runs: int) -> None:
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"} | {
        "PYTHONPATH": str(ROOT)
    }
    library = Library(ROOT / "reference_assemblies")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        path = library.path_of("front-hub")
        JobFolder.begin(folder / "front-hub", library.reference("front-hub"), path)

        def process(command: list[str]) -> Callable[[], object]:
            return lambda: subprocess.run(command, env=environment, capture_output=True, check=True)

        commands = [process(BASELINE), process(recorded(folder))]
        for command in commands:
            command()  # the first start compiles and reads from disk
        baseline, off = (
            statistics.median(column)
            for column in zip(*[[seconds(command) for command in commands] for _ in range(runs)])
        )
        print(f"{'imports alone':<44}{baseline * 1000:8.1f} ms")
        print(
            f"{'off left ..., event on disk':<44}{off * 1000:8.1f} ms{off / baseline:8.2f} times   (aim: at most 0.7)"
        )

        long = JobFolder.begin(folder / "long", library.reference("front-hub"), path)
        long.record(
            *(
                Off(what=f"ring {number}", end="left", kind="ring")
                if number % 40 == 0
                else Noted(text=f"note {number}")
                for number in range(EVENTS)
            )
        )

        def one_answer() -> None:
            step = answer(long.job, next_question(long.job), "0")
            long.record(*step.events)
            next_question(long.job)

        text = long.journal.path.read_text()
        read, asked = (
            statistics.median(column)
            for column in zip(*[[seconds(lambda: tomllib.loads(text)), seconds(one_answer)] for _ in range(runs)])
        )
        print(f"{f'journal of {EVENTS} events with tomllib':<44}{read * 1000:8.1f} ms")
        print(
            f"{'answer on disk and the next question':<44}{asked * 1000:8.1f} ms{asked / read:8.2f} times   (aim: 30 ms)"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
