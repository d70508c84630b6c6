"""The table of common units, held against pint for every entry, and nothing but the seven dimensions."""

import subprocess
import sys

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.units.known import COMMON_UNITS, DIMENSIONS, NO_UNIT, find_unit, unit_from_pint

REGISTRY = pint.UnitRegistry()
PINT_SPELLING = {'"': "inch", "mil": "thou", "°": "degree", "°C": "degC", "°F": "degF", "lb·ft": "lbf*ft", "ft·lb": "lbf*ft", "lb·in": "lbf*in",
                 "in·lb": "lbf*in", "Nm": "N*m", "Nmm": "N*mm", "deg": "degree"}  # fmt: skip
"""Where people write something else than pint reads: "lb" of a torque is a force, "mil" the length."""


@pytest.mark.parametrize("spelling", COMMON_UNITS)
def test_a_common_unit_is_what_pint_says(spelling):
    dimension, factor = COMMON_UNITS[spelling]
    words = PINT_SPELLING.get(spelling, spelling).replace("·", "*").replace("²", "**2")
    inside = DIMENSIONS[dimension][0].replace("·", "*")
    one, two = (REGISTRY.Quantity(amount, words).to(inside).magnitude for amount in (1.0, 2.0))
    assert two - one == pytest.approx(factor, rel=1e-12)


@pytest.mark.parametrize(
    "spelling, meant",
    [
        ("IN", "in"),
        ("Mm", "mm"),
        ("MM", "mm"),
        ("in.", "in"),
        ("N.m", "N·m"),
        ("N*m", "N·m"),
        ("ft-lb", "ft·lb"),
        ("lbf-in", "lbf·in"),
    ],
)
def test_a_bench_spelling_is_understood(spelling, meant):
    assert find_unit(spelling) == COMMON_UNITS[meant]


@pytest.mark.parametrize("spelling, factor", [("feet", 304.8), ("decimeter", 100.0), ("nm", 1e-6)])
def test_pint_knows_the_rest(spelling, factor):
    dimension, ours = find_unit(spelling)
    assert (dimension, ours) == ("length", pytest.approx(factor))


@pytest.mark.parametrize(
    "spelling",
    [
        "kg",
        "s",
        "percent",
        "radian_per",
        "K",
        "J",
        "kWh",
        "kW·h",
        "W·s",
        "degR",
        "mm**9",
        "m^99",
        "mm/mm/mm/mm/mm",
        "__class__",
        "wobbles",
    ],
)
def test_nothing_else_is_a_unit(spelling):
    assert find_unit(spelling) == NO_UNIT


@given(spelling=st.text("mkNinftlb·/^23²°µ ", max_size=8))
def test_any_spelling_has_an_answer(spelling):
    assert unit_from_pint(spelling)[0] in {"", *DIMENSIONS}


def test_reading_ordinary_files_loads_neither_pint_nor_rich():
    """Either takes longer than a whole comparison."""
    code = (
        "import sys; from pathlib import Path; from stackcheck.formats.library import Library;"
        "from stackcheck.formats.found_file import read_found; library = Library(Path('tests/good_library'));"
        "library.reference('stub-axle'); print(sorted({'pint', 'rich', 'numpy'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"
