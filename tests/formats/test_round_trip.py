"""What is written reads back to the same thing, and nothing is ever written over."""

from pathlib import Path

import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings

from stackcheck.errors import InputError
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference, write_sound_reference
from stackcheck.model.reference import Reference
from stackcheck.value import replace
from tests.strategies import GOOD_LIBRARY, LIBRARY, found_trees, reference_trees

REFERENCES = [file for file in sorted(LIBRARY.glob("*/*.toml")) if file.name != "machine.toml"]
quick = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def same(reference: Reference) -> Reference:
    return replace(reference, file="")


def rewritten(reference: Reference, folder: Path) -> Reference:
    path = folder / reference.machine / "again.toml"
    path.parent.mkdir(exist_ok=True)
    path.unlink(missing_ok=True)
    write_sound_reference(reference, path)
    return read_reference(path)


@pytest.mark.parametrize("file", REFERENCES, ids=lambda file: f"{file.parent.name}/{file.stem}")
def test_every_reference_of_the_fleet_reads_back_the_same(file, tmp_path):
    reference = read_reference(file)
    assert same(rewritten(reference, tmp_path)) == same(reference)


@quick
@given(tree=reference_trees())
def test_any_reference_reads_back_the_same(tree, tmp_path):
    path = tmp_path / "first.toml"
    path.write_text(tomli_w.dumps(tree), encoding="utf-8")
    reference = read_reference(path)
    assert same(rewritten(reference, tmp_path)) == same(reference)


@quick
@given(tree=found_trees())
def test_any_teardown_list_is_read_or_refused_for_a_size_given_twice(tree, tmp_path):
    path = tmp_path / "first.toml"
    path.write_text(tomli_w.dumps(tree), encoding="utf-8")
    try:
        found, _ = read_found(path, Library(GOOD_LIBRARY).reference)
    except InputError as problem:
        assert all("given twice" in mistake.what for mistake in problem.mistakes)
        return
    assert len(found.entries) == len(tree["off"])


def test_a_gap_that_is_called_as_a_place_takes_nothing_from_it(tmp_path):
    text = (LIBRARY / "freight-tricycle" / "front-hub.toml").read_text(encoding="utf-8")
    text = text.replace('gap = "free gap"', 'gap = "collar-long@right"')
    text = text.replace('  { place = "collar-long@right", toward = "outside" },\n', "").replace(
        '  "leg@right",\n]\n\n[[stacks]]',
        '  { place = "collar-long@right", toward = "outside" },\n  "leg@right",\n]\n\n[[stacks]]',
        1,
    )
    (tmp_path / "first.toml").write_text(text, encoding="utf-8")
    reference = read_reference(tmp_path / "first.toml")
    assert reference.place("collar-long@right").toward == "outside"
    assert same(rewritten(reference, tmp_path)) == same(reference)


def test_a_reference_is_written_with_its_sizes_as_typed_and_its_standard_parts_by_name(tmp_path):
    write_sound_reference(read_reference(GOOD_LIBRARY / "workshop" / "stub-axle.toml"), tmp_path / "stub-axle.toml")
    text = (tmp_path / "stub-axle.toml").read_text(encoding="utf-8")
    assert 'length = "18.0 mm ±0.05"\n' in text
    bearing = text.partition("[parts.bearing]")[2].partition("\n\n")[0]
    assert 'standard = "6204"' in bearing and "bore" not in bearing
    assert '  { gap = "free gap", least = "0.2 mm", most = "0.5 mm" },\n' in text
    assert '\n  "spacer",\n' in text


def test_a_file_is_never_written_over(tmp_path):
    """Somebody's own remarks stand in it."""
    path = tmp_path / "mine.toml"
    path.write_text("# mine")
    with pytest.raises(InputError, match="the file exists already"):
        write_sound_reference(read_reference(GOOD_LIBRARY / "workshop" / "stub-axle.toml"), path)
    assert path.read_text() == "# mine"


def test_a_folder_that_is_not_there_is_said(tmp_path):
    with pytest.raises(InputError, match="cannot be written"):
        write_sound_reference(read_reference(GOOD_LIBRARY / "workshop" / "stub-axle.toml"), tmp_path / "no" / "x.toml")
