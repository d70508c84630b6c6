"""States of a reference in its file: read, varied, changed by name, and seen from the other side."""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.errors import InputError
from stackcheck.formats.reference_edit import edit_reference
from stackcheck.formats.reference_file import read_reference, write_sound_reference
from stackcheck.model.reference import Reference, Revised
from stackcheck.references.difference import difference
from stackcheck.references.mirror import mirrored
from tests.strategies import GOOD_LIBRARY

STUB_AXLE = (GOOD_LIBRARY / "workshop" / "stub-axle.toml").read_text(encoding="utf-8")
STATES = """
[[states]]
name = "assembly"
temperature = "50 °F"

[[states]]
name = "running"
temperature = "60 °C"
apart = { "bearing@left" = "70 °C", "outer rings" = "45 °C" }    # felt by hand
source = "common practice, no source"

[[limits]]
what = "free gap, running"
of = "free gap"
state = "running"
least = "0.1 mm"
most = "0.6 mm"
source = "own record"
"""
EARLY = """
[[variants]]
name = "early"
years = "up to 2010"
[variants.states.running]
temperature = "55 °C"
apart = { spacer = "65 °C" }
"""


def file_of(folder: Path, more: str) -> Path:
    path = folder / "workshop" / "stub-axle.toml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(STUB_AXLE + more, encoding="utf-8")
    return path


def told(reference: Reference) -> dict[str, tuple[float, dict[str, float]]]:
    return {
        each.name: (each.temperature.nominal, {name: amount.nominal for name, amount in each.apart})
        for each in reference.states
    }


def test_every_state_has_one_temperature_for_all_and_others_for_what_is_named(tmp_path):
    own = read_reference(file_of(tmp_path, STATES))
    assert told(own) == {
        "assembly": (pytest.approx(10), {}),
        "running": (60.0, {"bearing@left": 70.0, "outer rings": 45.0}),
    }
    (limit,) = own.state_limits
    assert (limit.of, limit.state, limit.least_mm, limit.most_mm) == ("free gap", "running", 0.1, 0.6)
    assert own.force_limits == ()


def test_some_machines_run_at_another_temperature(tmp_path):
    own = read_reference(file_of(tmp_path, STATES + EARLY))
    assert told(own.for_a_machine("2005", ""))["running"] == (55.0, {"spacer": 65.0})
    assert told(own.for_a_machine("2015", ""))["running"][0] == 60.0
    again = tmp_path / "workshop" / "again.toml"
    write_sound_reference(own, again)
    assert [each.told for each in read_reference(again).variants] == [each.told for each in own.variants]


def test_what_a_variant_leaves_out_has_no_temperature_there(tmp_path):
    text = STATES.replace('"bearing@left"', "spacer") + EARLY.replace('apart = { spacer = "65 °C" }', "").replace(
        "[variants.states", 'without = ["spacer"]\n[variants.states'
    )
    assert told(read_reference(file_of(tmp_path, text)).for_a_machine("2005", ""))["running"] == (
        55.0,
        {"outer rings": 45.0},
    )


def test_one_temperature_changes_one_line_and_its_remark_stays(tmp_path):
    path = file_of(tmp_path, STATES)
    entry = Revised(revision="B", date="2025-06-01", what="thermometer", by="A")
    _, now = edit_reference(path, ["states.running.temperature=65 °C", "states.running.apart.outer rings=50 °C"], entry)
    assert told(now)["running"] == (65.0, {"bearing@left": 70.0, "outer rings": 50.0})
    assert '{ "bearing@left" = "70 °C", "outer rings" = "50 °C" }    # felt by hand' in path.read_text(encoding="utf-8")
    with pytest.raises(InputError, match='there is no "runing" among the states'):
        edit_reference(path, ["states.runing.temperature=65 °C"], entry)


def test_the_other_side_is_as_warm_at_its_own_places(tmp_path):
    turned = mirrored(read_reference(file_of(tmp_path, STATES)))
    assert told(turned)["running"] == (60.0, {"bearing@right": 70.0, "outer rings": 45.0})


def test_two_generations_differ_by_their_states(tmp_path):
    was = read_reference(file_of(tmp_path, STATES))
    now = read_reference(file_of(tmp_path, STATES.replace('"60 °C"', '"75 °C"')))
    assert [(each.what, each.was, each.now) for each in difference(was, now).changes] == [
        (
            "state running",
            "60 °C, bearing@left 70 °C, outer rings 45 °C",
            "75 °C, bearing@left 70 °C, outer rings 45 °C",
        )
    ]
