"""The pictures of the manual, drawn anew.

    python -m tests.drawing.manual_pictures

One SVG for every list in `examples/`; the suite holds their outlines against what is drawn today.
"""

from __future__ import annotations

from pathlib import Path

from stackcheck.drawing.layout import layout
from stackcheck.drawing.svg import svg
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.result import compare

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "stackcheck/manual/pictures"
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))


def picture_of(path: Path) -> str:
    found, reference = read_found(path, Library(ROOT / "reference_assemblies").reference)
    return svg(layout(compare(reference, found)))


def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    for path in EXAMPLES:
        (FOLDER / f"{path.stem}.svg").write_text(picture_of(path), encoding="utf-8")


if __name__ == "__main__":
    main()
