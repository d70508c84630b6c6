"""Whatever stands in a file of gauges or points, it is read or refused with our own message, nothing else."""

from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stackcheck.errors import InputError
from stackcheck.formats.gauges_file import read_gauges
from stackcheck.formats.library import Library
from stackcheck.formats.points_file import read_points
from stackcheck.mechanics.gauges import compare_gauges
from stackcheck.result.machine_points import judge_points
from tests.strategies import LIBRARY, spoiled

EXAMPLES = Path(__file__).parents[2] / "examples"
TEXTS = [
    file.read_text(encoding="utf-8")
    for folder in ("gauges", "points")
    for file in sorted((EXAMPLES / folder).glob("*.toml"))
]


@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_a_spoiled_file_is_read_or_refused(data, tmp_path):
    path = tmp_path / "spoiled.toml"
    path.write_bytes(data.draw(spoiled(data.draw(st.sampled_from(TEXTS)))).encode("utf-8", "surrogatepass"))
    try:
        compare_gauges(read_gauges(path))
    except InputError as problem:
        assert problem.mistakes
    try:
        seen, machine = read_points(path, Library(LIBRARY).machine)
        judge_points(machine, seen)
    except InputError as problem:
        assert all(sign.isprintable() or sign == "\n" for sign in str(problem))
