"""A module imports only from layers below its own: the map of the house, held against the code."""

import ast
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "stackcheck"

LAYERS = (
    ("aside", "pattern", "paragraph"), ("value",), ("errors",), ("units",), ("model",), ("formats", "tables"), ("compare", "mechanics", "catalogue"), ("stray",), ("result", "references"), ("job",),
    ("present", "drawing"), ("bench", "report"), ("page",), ("commands",), ("cli", "__main__"),
)  # fmt: skip
"""Lowest first. Modules of one layer may use each other."""

RANK = {name: rank for rank, names in enumerate(LAYERS) for name in names}


def imports(file: Path) -> list[tuple[int, str]]:
    """(line, module of ours) for every import in a file, also those inside functions."""
    found = []
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file}:{node.lineno}: write the import in full"
            names = [f"{node.module}.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        else:
            continue
        found += [(node.lineno, name) for name in names if name.startswith("stackcheck.")]
    return found


def layer(module: str) -> str:
    return module.split(".")[1]


def test_every_part_of_the_package_has_its_layer():
    parts = {file.stem for file in PACKAGE.glob("*.py")} | {file.parent.name for file in PACKAGE.glob("*/__init__.py")}
    assert sorted(parts - set(RANK) - {"__init__", "stackcheck"}) == []


def test_no_import_points_upward():
    wrong = [
        f"{file.relative_to(PACKAGE.parent)}:{line}: {module} stands higher"
        for file in sorted(PACKAGE.rglob("*.py"))
        for line, module in imports(file)
        if layer(module) in RANK and RANK[layer(module)] > RANK[file.relative_to(PACKAGE).with_suffix("").parts[0]]
    ]
    assert wrong == []


def test_only_units_know_pint_and_only_formats_know_toml():
    users = {"pint": set(), "tomllib": set(), "tomli_w": set(), "tomlkit": set()}
    for file in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [node.module] if isinstance(node, ast.ImportFrom) and node.module else []
            for name in names:
                if name.split(".")[0] in users:
                    users[name.split(".")[0]].add(file.relative_to(PACKAGE).parts[0])
    assert users == {"pint": {"units"}, "tomllib": {"formats"}, "tomli_w": {"formats"}, "tomlkit": {"formats"}}
