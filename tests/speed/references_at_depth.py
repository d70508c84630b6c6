"""How long checking at full depth and comparing two generations of a machine take, beside reading the same files.

Baseline, in the same run: `read_reference` of the same files, which finds no weak place and compares nothing. Run from the
root:

    python tests/speed/references_at_depth.py [number of assemblies to check]

Prints a table and ends with status 1 where checking grows faster than the number of files, or comparing 60 assemblies with
their 60 successors takes more than `MOST_COMPARING` times reading both. Not collected by pytest.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference
from stackcheck.references.generations import same_through, step
from stackcheck.references.weak import weaknesses
from tests.speed.check_library import generate

ROUNDS = 3
ASSEMBLIES = 60
MOST_COMPARING = 2.0
MOST_GROWTH = 1.5


def best(work: Callable[[], object]) -> float:
    times = []
    for _ in range(ROUNDS):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


def generations(folder: Path) -> tuple[list[Path], list[Path]]:
    """Sixty hubs and their successors: other numbers of the collars, another length of the tube."""
    generate(folder, ASSEMBLIES)
    files = list(Library(folder).files.values())
    later = folder.parent / "later"
    for file in files:
        text = (
            file.read_text(encoding="utf-8")
            .replace('number = "FT-', 'number = "FT-2')
            .replace('name = "Spacer tube"', 'name = "Spacer tube, later"')
        )
        target = later / file.parent.name / file.name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")
    return files, list(Library(later).files.values())


def main(count: int) -> int:
    with tempfile.TemporaryDirectory() as folder:
        whole = Path(folder) / "whole"
        whole.mkdir()
        generate(whole, count)
        files = list(Library(whole).files.values())
        reading = best(lambda: [read_reference(file) for file in files]) / len(files)
        references = [read_reference(file) for file in files]
        part = references[: len(references) // 4]
        few = best(lambda: [weaknesses(reference) for reference in part]) / len(part)
        many = best(lambda: [weaknesses(reference) for reference in references]) / len(references)
        both = Path(folder) / "early"
        both.mkdir()
        early, later = generations(both)
        parsing = best(lambda: [read_reference(file) for file in (*early, *later)])
        first, second = ([read_reference(file) for file in each] for each in (early, later))
        comparing = best(lambda: same_through([step(first, second)]))
    print(f"{len(files)} assemblies, best of {ROUNDS} rounds, per file")
    print(f"  {'read (baseline)':<46}{reading * 1e3:8.2f} ms   1.00")
    print(f"  {'look for weak places':<46}{many * 1e3:8.2f} ms   {many / reading:.2f}")
    print(
        f"  {f'the same of the first {len(part)}':<46}{few * 1e3:8.2f} ms   growth {many / few:.2f}, wanted at most {MOST_GROWTH:.2f}"
    )
    print(f"two generations of {len(early)} assemblies")
    print(f"  {'read all of them (baseline)':<46}{parsing * 1e3:8.0f} ms   1.00")
    print(
        f"  {'compare the two machines':<46}{comparing * 1e3:8.0f} ms   {comparing / parsing:.2f}, wanted at most {MOST_COMPARING:.2f}"
    )
    return int(comparing > MOST_COMPARING * parsing or many > MOST_GROWTH * few)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000))
