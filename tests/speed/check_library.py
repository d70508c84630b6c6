"""How long reading a large library takes, beside the least that any reader of these files must do.

Baseline, in the same run: `tomllib.loads` and pydantic validation of every table of the same files. Run from the root:

    python tests/speed/check_library.py [number of assemblies]

Prints a table and ends with status 1 where a file takes more than `MOST` times the baseline. Not collected by pytest.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from pydantic import BaseModel, create_model

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from stackcheck.formats import reference_tables as tables
from stackcheck.formats import sizes
from stackcheck.formats.library import Library
from stackcheck.formats.new_file import join_tables, table_text
from stackcheck.formats.reference_file import read_reference
from stackcheck.model.part import Amount, Size

MOST = 3.0
ROUNDS = 3


def generate(folder: Path, count: int) -> None:
    """`count` hubs of 10 to 30 parts, in machines of twenty, each with sizes of its own."""
    for number in range(count):
        machine = folder / f"machine-{number // 20:03}"
        machine.mkdir(exist_ok=True)
        (machine / f"hub-{number:04}.toml").write_text(hub(number), encoding="utf-8")


def hub(number: int) -> str:
    chance = random.Random(number)
    extra = [f"ring-{index}" for index in range(chance.randint(2, 20))]
    bearing = f"6{chance.choice('023')}{chance.randint(0, 12):02}"
    parts = {
        "nut": {"name": "Axle nut", "kind": "nut", "length": size(chance), "duty": ["retention", "new every time"]},
        "collar-short": collar(chance, "Short collar", "collar-long"),
        "collar-long": collar(chance, "Long collar", "collar-short"),
        "bearing": {"name": "Hub bearing", "standard": bearing, "duty": ["new every time"]},
        "spacer": {"name": "Spacer tube", "kind": "spacer tube", "length": size(chance), "must_measure": ["length"]},
        "hub": {"name": "Hub, seat to seat", "kind": "hub", "length": size(chance), "fixed": True},
        "leg": {"name": "Leg", "kind": "leg", "fixed": True},
    }
    parts |= {
        name: {"name": f"Ring {name}", "kind": "washer", "length": size(chance), "outside": "30 mm ±0.1"}
        for name in extra
    }
    order = [
        "nut",
        *extra,
        "leg@left",
        {"place": "collar-short@left", "toward": "outside"},
        "bearing@left",
        "spacer",
        "bearing@right",
    ]
    order += [
        {"place": "collar-long@right", "toward": "outside"},
        {"gap": "free gap", "least": "2.5 mm", "most": "4.0 mm"},
        "leg@right",
    ]
    assembly = {
        "id": f"hub-{number:04}", "title": f"Hub {number}", "revision": "A", "ends": ["left", "right"],
        "ends_seen_from": "left hand of a person in the saddle", "source": {"kind": "own record", "state": "draft"},
    }  # fmt: skip
    limit = {
        "what": "seat gap",
        "between": ["hub", "bearing@right"],
        "least": "0.00 mm",
        "most": "0.10 mm",
        "source": "own record",
    }
    pairing = {
        "what": "collar on collar",
        "outer": ["collar-long", "outside"],
        "inner": ["collar-short", "bore"],
        "least": "0 mm",
    }
    return join_tables(
        [table_text("", {"kind": "reference assembly", "format": 1}), table_text("[assembly]", assembly)]
        + [table_text(f"[parts.{id}]", part) for id, part in parts.items()]
        + [
            table_text("[[stacks]]", {"name": "axle stack", "through": "inner rings", "order": order}),
            table_text(
                "[[stacks]]",
                {"name": "hub stack", "through": "outer rings", "order": ["bearing@left", "hub", "bearing@right"]},
            ),
            table_text("[[stacks]]", {"name": "fork", "order": ["leg@left", "leg@right"]}),
            table_text("[[limits]]", limit),
            table_text("[[pairings]]", pairing),
            table_text(
                "[[joints]]", {"name": "axle nut", "clamps": ["leg@left", "collar-long@right"], "torque": "60 N·m"}
            ),
        ]
    )


def collar(chance: random.Random, name: str, partner: str) -> dict:
    return {
        "name": name, "kind": "collar", "number": f"FT-{chance.randint(1000, 9999)}", "length": size(chance), "bore": "20 H8",
        "outside": "30 mm ±0.1", "material": "steel", "feature": "flange", "duty": [f"pair: {partner}"], "must_measure": ["length"],
    }  # fmt: skip


def size(chance: random.Random) -> str:
    figure = chance.randint(1, 240) / 2  # makers draw whole and half millimetres
    return chance.choice(
        [f"{figure:.2f} mm ±0.05", f"{figure:.1f} mm", f"{figure:.2f} +0.02/-0.05 mm", f"{chance.randint(3, 40)}/16 in"]
    )


def read_whole(path: Path) -> None:
    assert read_reference(path).loops


def as_text(schema: type[BaseModel]) -> type[BaseModel]:
    """The same table with every size left as the text it is, so that the baseline holds no reading of ours."""
    fields = {}
    for name, field in schema.model_fields.items():
        is_size = any(kind.__name__ in str(field.annotation) for kind in (Size, Amount))
        fields[name] = (str | None if is_size else Any, ... if field.is_required() else None)
    return create_model(schema.__name__, __config__={"extra": "forbid", "frozen": True}, **fields)


WHOLE, ASSEMBLY, PART, STACK, GAP, PLACE, LIMIT, PAIRING, JOINT = (
    as_text(schema)
    for schema in (
        tables.ReferenceTables, tables.AssemblyTable, tables.PartTable, tables.StackTable, tables.GapItem, tables.PlaceItem,
        tables.LimitTable, tables.PairingTable, tables.JointTable,
    )
)  # fmt: skip


def read_shapes(path: Path) -> None:
    """The baseline: the file as a tree, every table validated, sizes left as text, no meaning across tables."""
    whole = WHOLE.model_validate(tomllib.loads(path.read_text(encoding="utf-8")))
    ASSEMBLY.model_validate(whole.assembly)
    for part in whole.parts.values():
        PART.model_validate(part)
    for stack in whole.stacks:
        for item in STACK.model_validate(stack).order:
            if isinstance(item, dict):
                (GAP if "gap" in item else PLACE).model_validate(item)
    for name, schema in (("limits", LIMIT), ("pairings", PAIRING), ("joints", JOINT)):
        for table in getattr(whole, name):
            schema.model_validate(table)


def seconds(read: Callable[[Path], None], files: list[Path]) -> float:
    sizes._size.cache_clear()  # every round reads as if for the first time
    start = time.perf_counter()
    for file in files:
        read(file)
    return time.perf_counter() - start


def main(count: int) -> int:
    with tempfile.TemporaryDirectory() as folder:
        generate(Path(folder), count)
        files = list(Library(Path(folder)).files.values())
        for read in (read_shapes, read_whole):
            read(files[0])  # tables and modules are loaded once, not per file
        rounds = [(seconds(read_shapes, files), seconds(read_whole, files)) for _ in range(ROUNDS)]
    baseline, whole = (min(column) for column in zip(*rounds, strict=True))
    print(f"{len(files)} assemblies, best of {ROUNDS} rounds, per file")
    print(f"  {'tomllib.loads and pydantic (baseline)':<42}{baseline / len(files) * 1e3:8.2f} ms   1.00")
    print(f"  {'read the reference and find its loops':<42}{whole / len(files) * 1e3:8.2f} ms   {whole / baseline:.2f}")
    print(f"  wanted: at most {MOST:.2f}")
    return int(whole > MOST * baseline)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000))
