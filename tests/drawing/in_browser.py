"""Pictures and reports in a real browser: no label over another by measured boxes, no rule of axe-core broken.

    python -m tests.drawing.in_browser [--axe PATH/axe.min.js]

Chromium measures; this only asks. axe-core (npm) is injected where its file is named. Not part of the suite: a browser
is no requirement of the project.
"""

from __future__ import annotations

import argparse
import json
import shutil
import subprocess
import sys
import tempfile
from html import unescape
from pathlib import Path

from stackcheck.drawing.excerpt import detail
from stackcheck.drawing.layout import layout
from stackcheck.drawing.svg import svg
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.report.carry import carry_along
from stackcheck.report.content import strip_report
from stackcheck.report.html import html
from stackcheck.result import compare

ROOT = Path(__file__).parents[2]
MEASURE = """
<script>
const boxes = [...document.querySelectorAll('text')].map(t => [t.textContent, t.getBoundingClientRect(), t.closest('svg')]);
const over = [];
for (let i = 0; i < boxes.length; i++) for (let j = i + 1; j < boxes.length; j++) {
  const [a, p, s] = boxes[i], [b, q, t] = boxes[j];
  if (s === t && p.left < q.right - .2 && q.left < p.right - .2 && p.top < q.bottom - .25 * p.height && q.top < p.bottom - .25 * p.height) over.push([a, b]);
}
const out = boxes.filter(([a, p, s]) => { const r = s.getBoundingClientRect(); return p.left < r.left - .5 || p.right > r.right + .5; }).map(b => b[0]);
document.title = JSON.stringify({texts: boxes.length, over, out});
</script>
"""
AXE = """
<script>%s</script>
<script>axe.run().then(r => { document.title = JSON.stringify(r.violations.map(v => [v.id, v.nodes.length, v.nodes[0].html.slice(0, 120)])); });</script>
"""


def title_in_browser(page: str) -> object:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "page.html")
        file.write_text(page, encoding="utf-8")
        shown = subprocess.run(
            [
                shutil.which("chromium") or "chromium", "--headless", "--no-sandbox", "--disable-gpu",
                "--disable-background-networking",
                "--no-first-run", "--disable-sync", "--disable-component-update", f"--user-data-dir={folder}/profile",
                "--virtual-time-budget=20000", "--window-size=1000,1400", "--dump-dom", file.as_uri(),
            ],
            capture_output=True, text=True, check=True, timeout=120,
        ).stdout  # fmt: skip
    return json.loads(unescape(shown.split("<title>", 1)[1].split("</title>", 1)[0]))


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--axe", type=Path)
    parser.add_argument("--only", default="", help="lists whose name begins so")
    options = parser.parse_args()
    library = Library(ROOT / "reference_assemblies")
    bad = texts = 0
    for path in sorted((ROOT / "examples").glob(f"{options.only}*.toml")):
        found, reference = read_found(path, library.reference)
        comparison = compare(reference, found)
        picture = layout(comparison)
        pictures = [picture, *(detail(picture, result.finding) for result in comparison.findings)]
        page = "".join(
            f"<div style='width: 950px'>{svg(each, name=f's{number}')}</div>" for number, each in enumerate(pictures)
        )
        told = title_in_browser(
            f"<!DOCTYPE html><html lang='en'><head><title>x</title></head><body>{page}{MEASURE}</body></html>"
        )
        texts += told["texts"]
        if told["over"] or told["out"]:
            bad += 1
            print(path.stem, "over one another:", told["over"], "outside:", told["out"])
        if options.axe:
            for name, document in (
                ("report", html(strip_report(comparison))),
                ("carry", html(carry_along(comparison))),
            ):
                broken = title_in_browser(
                    document.replace("</body>", AXE % options.axe.read_text(encoding="utf-8") + "</body>")
                )
                if broken:
                    bad += 1
                    print(path.stem, name, broken)
    print(f"{texts} texts measured; {bad} pages with something to mend")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
