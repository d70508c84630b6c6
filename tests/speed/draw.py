"""How long drawing takes: a whole process against `compare`, and 500 places against as many plain rectangles.

    python tests/speed/draw.py

Baselines of the same run: `stackcheck compare` of the same list; svgwrite (drawsvg where that is missing) writing as many
rectangles as there are outlines. Prints ratios and the size of a report; asserts nothing.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))
ROUNDS = 9

REFERENCE = """kind = "reference assembly"
format = 1
[assembly]
id = "pack"
title = "Pack of plates"
revision = "A"
ends = ["left", "right"]
ends_seen_from = "the bench"
source = { kind = "maker's drawing", state = "checked on 2 machines" }
[parts.leg]
name = "Leg"
kind = "leg"
fixed = true
%s
[[stacks]]
name = "pack"
order = ["leg@left", %s]
"""
PART = """[parts.plate-%d]
name = "Plate %d"
kind = "plate"
bore = "20 mm"
outside = "60 mm"
length = "%.2f mm ±0.05"
"""


def write_pack(folder: Path, places: int) -> Path:
    """A reference of so many different plates, and a list in which one of them is missing."""
    machine = folder / "reference_assemblies/bench"
    machine.mkdir(parents=True)
    (machine / "machine.toml").write_text('kind = "machine"\nformat = 1\n[machine]\nname = "Bench"\n')
    parts = "".join(PART % (i, i, 1 + i / 100) for i in range(places))
    (machine / "pack.toml").write_text(REFERENCE % (parts, ", ".join(f'"plate-{i}"' for i in range(places))))
    entries = "".join(
        f'[[off]]\nend = "right"\nwhat = "plate {i}"\npart = "plate-{i}"\n'
        for i in reversed(range(places))
        if i != places // 2
    )
    found = folder / "found.toml"
    found.write_text(
        'kind = "as found"\nformat = 1\nreference = "bench/pack"\nrevision = "A"\nfinished = true\n' + entries
    )
    return found


CACHE = tempfile.mkdtemp(prefix="bytecode-")
ENVIRONMENT = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"} | {
    "PYTHONPYCACHEPREFIX": CACHE
}
"""As an installed tool runs: modules are compiled once, not at every start."""


def run(*command: str) -> None:
    subprocess.run(
        [sys.executable, "-m", "stackcheck", *command],
        cwd=ROOT,
        env=ENVIRONMENT,
        stdout=subprocess.DEVNULL,
        check=False,
    )


def seconds(command: list[str]) -> float:
    times = []
    run(*command)
    for _ in range(ROUNDS):
        start = time.perf_counter()
        run(*command)
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def median_of(act) -> float:
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        act()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def rectangles(count: int) -> float:
    try:
        import svgwrite

        def act() -> None:
            drawing = svgwrite.Drawing("rectangles.svg")
            for i in range(count):
                drawing.add(drawing.rect((i, 0), (1, 10), fill="white", stroke="black"))
            drawing.tostring()

    except ImportError:
        import drawsvg

        def act() -> None:
            drawing = drawsvg.Drawing(100, 100)
            for i in range(count):
                drawing.append(drawsvg.Rectangle(i, 0, 1, 10, fill="white", stroke="black"))
            drawing.as_svg()

    return median_of(act)


def main() -> None:
    from stackcheck.drawing.layout import layout
    from stackcheck.drawing.svg import svg
    from stackcheck.formats.found_file import read_found
    from stackcheck.formats.library import Library
    from stackcheck.report.content import strip_report
    from stackcheck.report.html import html
    from stackcheck.result import compare

    with tempfile.TemporaryDirectory() as folder:
        sixty = write_pack(Path(folder, "60"), 60)
        base = seconds(["compare", str(sixty)])
        for extra in ([], ["--packs"]):
            took = seconds(["draw", str(sixty), *extra])
            print(f"draw {' '.join(extra)} of 60 places: {took:.3f} s, {took / base:.2f} times compare ({base:.3f} s)")
        to_svg = []
        for number in range(ROUNDS):
            start = time.perf_counter()
            run("draw", str(sixty), "--svg", str(Path(folder, f"{number}.svg")))
            to_svg.append(time.perf_counter() - start)
        print(
            f"draw --svg of 60 places: {statistics.median(to_svg):.3f} s, {statistics.median(to_svg) / base:.2f} times compare"
        )
        many = write_pack(Path(folder, "500"), 500)
        library = Library(many.parent / "reference_assemblies")
        found, reference = read_found(many, library.reference)
        comparison = compare(reference, found)
        picture = layout(comparison)
        plain = rectangles(len(picture.pieces))
        writing, laying = median_of(lambda: svg(picture)), median_of(lambda: layout(comparison))
        print(
            f"SVG of 500 places: {writing:.3f} s, {writing / plain:.2f} times {len(picture.pieces)} plain rectangles ({plain:.3f} s)"
        )
        print(f"with its layout: {writing + laying:.3f} s, {(writing + laying) / plain:.2f} times")
        report = html(strip_report(comparison))
        print(f"report of 500 places: {len(report.encode()) / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
