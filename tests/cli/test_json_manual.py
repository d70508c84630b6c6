"""Every key that an answer prints stands in the table of its command in manual/json.md, and no other key stands there.

Asked are all references and lists that are shipped, each command and each option that changes what is printed.
"""

from __future__ import annotations

import contextlib
import io
import json
import re
import shlex
import shutil
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from stackcheck.cli import main
from tests.cli.json_manual import LINK, MANUAL, Manual
from tests.examples.replay import replay

ROOT = Path(__file__).parent.parent.parent
EXAMPLES, LIBRARY, EARLY = Path("examples"), Path("reference_assemblies"), "examples/generations/freight-tricycle-early"
CLUTCH = ("shims", "clutch-pack", "free travel", "--at", "circlip")
PRELOADED = EXAMPLES / "wanted-preload/orchard-tractor/preloaded-pinion.toml"
OPTIONS = (
    ("stack", "stack front-hub --torque '200 N·m'"),
    ("stack", "stack front-hub --torque '20..200 N·m' --angle '30 deg'"),
    ("stack", "stack rear-hub --temperature=-20..80°C"),
    ("stack", "stack rear-hub --temperature 80°C --radial 1kN"),
    ("stack", "stack shaft-bearings --temperature 'shaft=60 °C'"),
    ("stack", "stack rear-hub --radial 1kN --radial-at hub"),
    ("stack", "stack front-hub --only 'seat gap'"),
    ("states side by side", "stack rear-hub --temperature states"),
    ("opened stack", "stack front-hub --between leg@left bearing@left"),
    ("slots", "slots boat-trailer/hub 'end float' '0.12 dial'"),
    ("slots", "slots rear-hub 'end float' '0.06 dial' --temperature states"),
    ("slots", "slots rear-hub 'end float' '0.06 dial' --temperature 60°C"),
    ("references list", "references list"),
    ("references check", "references check"),
    ("references tables", "references tables"),
    ("references shares", "references shares front-hub"),
    ("references compare", f"references compare {EARLY}/front-hub.toml front-hub"),
    ("compared machines", f"references compare {EARLY} freight-tricycle"),
    ("find", "find washer bore 17.1 outside 29.9 cal"),
    ("find", "find nut M20x1.5 'across flats' 30 cal"),
    ("find", "find sleeve 1.688x1.250x.500 in mic"),
    ("points", "points orchard-tractor"),
)


def shipped() -> Iterator[tuple[str, list[str]]]:
    """(structure, command) of every reference and every list, stray, comparison of gauges and list of points."""
    kinds = {path: tomllib.loads(path.read_text(encoding="utf-8")) for path in sorted(EXAMPLES.rglob("*.toml"))}
    folders = {LIBRARY} | {path.parents[1] for path, tree in kinds.items() if tree.get("kind") == "reference assembly"}
    known = {}
    for folder in sorted(folders):
        for path in sorted(folder.glob("*/*.toml")):
            if tomllib.loads(path.read_text(encoding="utf-8")).get("kind") == "reference assembly":
                known.setdefault(id := f"{path.parent.name}/{path.stem}", folder)
                yield "stack", ["stack", id, "--library", str(folder)]
                yield "references show", ["references", "show", id, "--library", str(folder)]
    compared = set()
    for path, tree in kinds.items():
        if tree.get("kind") == "as found":
            where = ["--library", str(known[tree["reference"]])]
            yield "compare", ["compare", str(path), *where]
            if tree["reference"] not in compared:
                compared.add(tree["reference"])
                yield "compare", ["compare", str(path), "--forces", *where]
                yield "stack", ["stack", tree["reference"], "--found", str(path), *where]
        elif "command" in tree:
            yield "explain", ["explain", *tree["command"]]
        elif path.parent.name == "gauges":
            yield "gauges", ["gauges", str(path)]
        elif path.parent.name == "points":
            yield "points with a file", ["points", tree["machine"], str(path)]


def written(folder: Path) -> Iterator[tuple[str, list[str]]]:
    """The same of commands that write, in a folder of their own, and of references with something in them to tell."""
    library = folder / "library"
    shutil.copytree(LIBRARY, library)
    unclamped = PRELOADED.read_text(encoding="utf-8").partition("[[joints]]")[0]
    (library / "orchard-tractor/preloaded-pinion.toml").write_text(unclamped, encoding="utf-8")
    (library / "bench-grinder/broken.toml").write_text('kind = "reference assembly"\n', encoding="utf-8")
    own, hub = ["--library", str(library)], "freight-tricycle/front-hub"
    length = "parts.spacer-tube.length=58.00 mm ±0.03"
    yield "stack", ["stack", "orchard-tractor/preloaded-pinion", *own]
    trailer = library / "boat-trailer/hub.toml"
    uneven = trailer.read_text(encoding="utf-8").replace("holes = [0, 90]", "holes = [0, 80]")
    trailer.write_text(uneven, encoding="utf-8")
    yield "slots", ["slots", "boat-trailer/hub", "end float", "0.12 dial", *own]
    warm = (EXAMPLES / "01-front-hub-collars-swapped.toml").read_text(encoding="utf-8")
    (folder / "warm.toml").write_text(
        warm.replace("format = 1", 'format = 1\nparts_at = "55..65 °C"\ninstruments_at = "22 °C"'), encoding="utf-8"
    )
    yield "stack", ["stack", hub, "--found", str(folder / "warm.toml"), *own]
    yield "references edit", ["references", "edit", hub, length, "--what", "new drawing", "--by", "A", *own]
    yield "references show", ["references", "show", hub, *own]
    yield "references check", ["references", "check", *own]
    yield "references new", ["references", "mirror", hub, str(folder / "freight-tricycle/mirrored.toml"), *own]
    jobs = ["--jobs", str(folder / "jobs")]
    replay((EXAMPLES / "full-job/steps.txt").read_text(encoding="utf-8").partition("$ close")[0], folder)
    yield "all jobs", ["open", *jobs]
    yield "open", ["open", next(path.name for path in (folder / "jobs").iterdir()), *jobs]


def answer(command: list[str]) -> dict:
    out, errors = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(errors):
        main([*command, "--json"])
    assert out.getvalue(), errors.getvalue()
    return json.loads(out.getvalue())


@pytest.fixture(scope="module")
def asked(tmp_path_factory) -> tuple[Manual, list[str]]:
    """The manual with every key that was met, and everything that is not as its tables say."""
    manual, problems = Manual(MANUAL.read_text(encoding="utf-8")), []
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(ROOT)
        patch.delenv("STACKCHECK_LIBRARY", raising=False)
        asked = [(structure, shlex.split(line)) for structure, line in OPTIONS]
        asked += [("shims", [*CLUTCH, *more]) for more in ([], ["--box", "3.00 x2, 3.20 x2"], ["--box", "0.10 x1"])]
        for structure, command in (*asked, *shipped(), *written(tmp_path_factory.mktemp("answers"))):
            problems += [f"{' '.join(command)}: {each}" for each in manual.problems(structure, answer(command))]
    return manual, problems


def test_every_answer_is_as_its_tables_say(asked):
    """Every key, what it holds, and which are always there."""
    assert asked[1] == []


def test_no_table_names_a_key_that_no_answer_has(asked):
    manual, _ = asked
    documented = {(structure, key) for structure, table in manual.tables.items() for key in table}
    assert sorted(documented - manual.met) == []


def test_every_key_that_may_be_null_says_when():
    manual = Manual(MANUAL.read_text(encoding="utf-8"))
    silent = [
        (structure, key)
        for structure, table in manual.tables.items()
        for key, (holds, said) in table.items()
        if holds.endswith("or null") and "null" not in said
    ]
    assert silent == []


def test_every_link_of_the_tables_leads_to_a_heading():
    text = MANUAL.read_text(encoding="utf-8")
    headings = {heading.lower().replace(" ", "-") for heading in re.findall(r"^##+ (.+)$", text, re.MULTILINE)}
    assert {anchor for _, anchor in re.findall(LINK, text)} <= headings


def test_a_key_that_is_missing_or_strange_is_seen():
    """The check itself: what it says of an answer with a key too few, one too many and a text for a number."""
    manual = Manual(MANUAL.read_text(encoding="utf-8"))
    said = manual.problems("interval", {"nominal": "2", "least": 1.0, "middle": 1.0})
    assert said == [
        "interval.most: promised, not there",
        "interval.nominal: '2' is not mm",
        "interval.middle: not in the table",
    ]
