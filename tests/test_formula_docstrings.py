"""Every formula of the mechanics says its units, its range, where it comes from, and works one example.

A formula is a public function of numbers (or of one small value of numbers) that returns numbers and whose name,
arguments or result carry a unit; what it is fed from a reference or a list of parts is no formula.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

MECHANICS = Path(__file__).parents[1] / "stackcheck" / "mechanics"
NUMBERS = re.compile(
    r"(float|int|bool|Any|Array|complex|None|tuple|Sequence|Iterable|BallBearing|DiscSpring|Thread|Annulus|[\[\], .|\d])+"
)
UNIT = re.compile(r"_(mm|mm2|n|nmm|mpa|deg|n_per_mm|per_k|kelvin|um)$")
RETURNS = re.compile(r"(float|Any|tuple\[float.*|BallBearing|TaperBearing)")


def formulas() -> Iterator[tuple[str, ast.FunctionDef, str]]:
    for path in sorted(MECHANICS.rglob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_") and is_formula(node):
                yield f"{path.relative_to(MECHANICS)}: {node.name}", node, ast.get_docstring(tree) or ""


def arguments(node: ast.FunctionDef) -> list[ast.arg]:
    return [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]


def is_formula(node: ast.FunctionDef) -> bool:
    own = arguments(node)
    if is_law(node):
        return True
    of_numbers = all(each.annotation is not None and NUMBERS.fullmatch(ast.unparse(each.annotation)) for each in own)
    to_numbers = node.returns is not None and RETURNS.fullmatch(ast.unparse(node.returns))
    named = any(UNIT.search(each.arg) for each in own) or "Source" in (ast.get_docstring(node) or "")
    return bool(own and of_numbers and to_numbers and named)


def is_law(node: ast.FunctionDef) -> bool:
    """A law of the network: force and slope for a distance e."""
    return {"e", "by"} <= {each.arg for each in arguments(node)}


FORMULAS = list(formulas())


def test_the_search_finds_the_formulas_that_everybody_knows():
    names = {name for name, _, _ in FORMULAS}
    known = {"axial/stiffness.py: tube_stiffness", "axial/threads.py: torque_for", "axial/springs.py: free_height"}
    known |= {f"axial/laws.py: {law}" for law in ("spring", "as_drawn", "power", "groove", "disc", "crush")}
    assert known <= names and len(names) > 30


@pytest.mark.parametrize(
    "node, module", [(node, module) for _, node, module in FORMULAS], ids=[name for name, *_ in FORMULAS]
)
def test_a_formula_says_what_it_takes_where_it_holds_where_it_comes_from_and_works_an_example(node, module):
    told = ast.get_docstring(node) or ""
    missing = [
        what
        for what, there in {
            "a unit in brackets": re.search(r"\[(mm|N|MPa|degrees|1/K|K)", told)
            or not (is_law(node) or any(UNIT.search(each.arg) for each in arguments(node))),
            "a range": not is_law(node) or re.search(r"above 0|not above", told),
            "Args": "Args" in told,
            "a source": "Source" in told or "Source" in module,
            "a worked example": ">>>" in told,
        }.items()
        if not there
    ]
    unsaid = [each.arg for each in arguments(node) if each.arg not in told]
    assert not missing and not unsaid
