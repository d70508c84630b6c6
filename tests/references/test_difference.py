"""Two references laid against each other: each kind of change is told as what it is, and equal ones give none."""

from pathlib import Path

import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings

from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference
from stackcheck.references.difference import difference
from stackcheck.references.generations import same_through, step
from stackcheck.references.shared import shared
from tests.builders import clutch, hub, reference
from tests.strategies import LIBRARY, ROOT, reference_trees

EARLY = ROOT / "examples/generations/freight-tricycle-early"
FRONT_HUB = LIBRARY / "freight-tricycle/front-hub.toml"


def changed(tmp_path: Path, *edits: tuple[str, str], of: Path = FRONT_HUB):
    """What changes from a shipped reference to the same file after these edits."""
    text = of.read_text(encoding="utf-8")
    for was, now in edits:
        assert was in text
        text = text.replace(was, now)
    path = tmp_path / of.parent.name / of.name
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return difference(read_reference(of), read_reference(path))


def told(answer) -> list[tuple]:
    return [
        (change.kind, change.places or change.part or change.what, change.was, change.now) for change in answer.changes
    ]


@pytest.mark.parametrize("id", Library(LIBRARY).files)
def test_a_reference_differs_from_itself_in_nothing(id):
    one = Library(LIBRARY).reference(id)
    answer = difference(one, one)
    assert not answer.changes
    assert len(answer.same) == len(one.parts)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40)
@given(tree=reference_trees())
def test_no_reference_at_all_differs_from_itself(tree, tmp_path):
    path = tmp_path / "bench.toml"
    path.write_text(tomli_w.dumps(tree), encoding="utf-8")
    one = read_reference(path)
    assert not difference(one, one).changes


def test_another_number_is_renumbered_and_said_where_one_stands_for_the_other(tmp_path):
    answer = changed(
        tmp_path,
        ('number = "FT-1214"', 'number = "FT-1314"'),
        ('number = "FT-1206"', 'number = "FT-1306"\naccepts = ["FT-1206"]'),
        ('accepts = ["FT-1106"] ', "#"),
    )
    assert told(answer) == [
        ("renumbered", "collar-short", "FT-1206", "FT-1306"),
        ("renumbered", "spacer-tube", "FT-1214", "FT-1314"),
    ]
    assert [change.what for change in answer.changes] == ["accepted", ""]


def test_another_limit_is_resized_and_another_spelling_of_the_same_is_not(tmp_path):
    answer = changed(tmp_path, ('"58.00 mm ±0.02"', '"58.00 mm ±0.03"'), ('"57.95 mm ±0.02"', '"57.93..57.97 mm"'))
    assert told(answer) == [("resized", "spacer-tube", "58.00 mm ±0.02", "58.00 mm ±0.03")]


def test_a_part_that_is_new_is_added_and_one_that_is_gone_is_dropped():
    with_shield, without = hub(), reference(
        "leg@left! collar-short< bearing@left spacer bearing@right collar-long> leg@right!",
        "bearing@left hub bearing@right"
    )  # fmt: skip
    assert told(difference(with_shield, without)) == [
        ("dropped", ("seal@left",), "", ""),
        ("dropped", ("seal@right",), "", ""),
    ]
    back = difference(without, with_shield)
    assert [(change.kind, change.others) for change in back.changes] == [
        ("added", ("seal@left",)),
        ("added", ("seal@right",)),
    ]


def test_a_leg_that_stays_on_is_compared_like_any_other_member():
    answer = difference(reference("leg@left! collar spacer leg@right!"), reference("collar spacer leg@right!"))
    assert told(answer) == [("dropped", ("leg@left",), "", "")]


def test_one_part_that_stands_elsewhere_is_moved_and_still_the_same_part():
    answer = difference(reference("nut washer collar tube ring"), reference("nut collar tube washer ring"))
    assert told(answer) == [("moved", ("washer",), "", "")]
    assert (answer.changes[0].after, answer.changes[0].before) == ("tube", "ring")
    assert len(answer.same) == 5


def test_two_that_changed_places_are_swapped(tmp_path):
    edits = (
        ('"collar-short@left", toward', '"collar-long@LEFT", toward'),
        ('"collar-long@right", toward', '"collar-short@right", toward'),
    )
    more = (
        ("collar-long@LEFT", "collar-long@left"),
        ('order = ["collar-long@right", "axle"', 'order = ["collar-short@right", "axle"'),
        ('clamps = ["leg@left", "collar-long@right"]', 'clamps = ["leg@left", "collar-short@right"]'),
    )
    (change,) = changed(tmp_path, *edits, *more).changes
    assert (change.kind, set(change.places)) == ("swapped", {"collar-short@left", "collar-long@right"})


def test_a_feature_that_points_the_other_way_is_turned(tmp_path):
    answer = changed(
        tmp_path, ('{ place = "seal@left", toward = "bearing" }', '{ place = "seal@left", toward = "outside" }')
    )
    assert told(answer) == [("turned", ("seal@left",), "right", "left")]


def test_a_facing_that_only_one_of_them_states_is_said(tmp_path):
    answer = changed(tmp_path, ('{ place = "seal@left", toward = "bearing" }', '"seal@left"'))
    assert told(answer) == [("facing", ("seal@left",), "right", "")]


def test_another_part_in_the_place_of_one_is_laid_beside_it():
    """Nothing names the two as one; they stand in the same place and are of one kind."""
    sizes = {"washer-a": {"length": (3.0, 2.9, 3.1)}, "washer-b": {"length": (3.1, 3.0, 3.2)}}
    first = reference("nut washer-a collar", sizes=sizes)
    answer = difference(first, reference("nut washer-b collar", sizes=sizes))
    assert ("resized", "washer-a", "3.0 mm", "3.1 mm") in told(answer)
    assert not {"added", "dropped"} & {change.kind for change in answer.changes}


def test_another_count_of_plates_is_a_count():
    assert told(difference(reference("a washer*3 b"), reference("a washer*5 b"))) == [("count", ("washer",), "3", "5")]


def test_a_reference_read_from_its_other_end_is_one_change():
    first = reference("nut< washer collar> tube ring hub<")
    assert [change.kind for change in difference(first, reference("hub> ring tube collar< washer nut>")).changes] == [
        "from the other end"
    ]


def test_other_limits_and_another_torque_are_told(tmp_path):
    answer = changed(tmp_path, ('torque = "60 N·m"', 'torque = "55 N·m"'), ('most = "0.10 mm"', 'most = "0.12 mm"'))
    assert told(answer) == [
        ("must hold", "seat gap", "0.00..0.10 mm", "0.00..0.12 mm"),
        ("must hold", "axle nut", "M16x1.5, 60 N·m, dry", "M16x1.5, 55 N·m, dry"),
    ]


def test_another_state_is_how_warm_it_is_and_nothing_that_must_hold(tmp_path):
    named = ("[[joints]]", '[[states]]\nname = "running"\ntemperature = "60 °C"\n\n[[joints]]')
    assert told(changed(tmp_path, named)) == [("state", "state running", "", "60 °C")]


@pytest.mark.parametrize(
    "what", [('duty = ["watch"]', 'duty = ["brake"]'), ('material = "aluminium"', 'material = "steel"')]
)
def test_what_a_file_says_otherwise_of_a_part_is_told(tmp_path, what):
    assert [change.kind for change in changed(tmp_path, what).changes] == ["described otherwise"]


def test_what_is_added_one_way_is_dropped_the_other_way():
    longer, shorter = clutch(5), clutch(4)
    assert sorted(change.kind for change in difference(shorter, longer).changes) == ["added", "added"]
    assert sorted(change.kind for change in difference(longer, shorter).changes) == ["dropped", "dropped"]


def test_two_generations_of_a_machine_name_the_parts_that_stayed_the_same():
    early = [read_reference(path) for path in sorted(EARLY.glob("*.toml")) if path.name != "machine.toml"]
    later = [Library(LIBRARY).reference(id) for id in Library(LIBRARY).files if id.startswith("freight-tricycle/")]
    one = step(early, later)
    assert [(item.first.id, item.second.id) for item in one.assemblies] == [
        (f"freight-tricycle-early/{name}", f"freight-tricycle/{name}")
        for name in ("front-hub", "rear-hub", "steering-head")
    ]
    parts = {chain.parts for chain in same_through([one])}
    assert ("axle-nut", "axle-nut") in parts
    assert ("spacer-tube", "spacer-tube") not in parts
    assert same_through([one, step(later, later)]) == tuple(
        type(chain)(assemblies=(*chain.assemblies, chain.assemblies[-1]), parts=(*chain.parts, chain.parts[-1]))
        for chain in same_through([one])
    )


def test_an_assembly_under_another_name_is_known_by_the_numbers_of_its_parts():
    one = Library(LIBRARY).reference("freight-tricycle/front-hub")
    renamed = type(one)(**{name: getattr(one, name) for name in one.__struct_fields__} | {"id": "later/wheel-hub"})
    answer = step([one], [renamed, Library(LIBRARY).reference("boat-trailer/hub")])
    assert [item.second.id for item in answer.assemblies] == ["later/wheel-hub"]
    assert [each.id for each in answer.added] == ["boat-trailer/hub"]


def test_a_part_is_met_elsewhere_by_its_designation():
    library = Library(LIBRARY)
    others = [library.reference(id) for id in library.files]
    met = shared(library.reference("freight-tricycle/front-hub"), others, ["bearing"])
    assert [(item.reference.id, item.other, item.by) for item in met] == [
        ("bench-grinder/arbor", "bearing", "standard part")
    ]
