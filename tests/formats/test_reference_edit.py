"""Changing somebody's own file: what was asked for changes, every other line stays as it was typed."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stackcheck.errors import InputError
from stackcheck.formats.library import Library
from stackcheck.formats.reference_edit import edit_reference
from stackcheck.formats.reference_file import read_reference, read_remarks
from stackcheck.model.reference import Revised
from tests.strategies import LIBRARY, ROOT

FRONT_HUB = LIBRARY / "freight-tricycle/front-hub.toml"
EARLY_HUB = ROOT / "examples/generations/freight-tricycle-early/front-hub.toml"
ENTRY = Revised(revision="C", date="2025-06-01", what="sheet 12, edition 4", by="A")


def edited(tmp_path: Path, *wanted: str, of: Path = FRONT_HUB) -> tuple[list[str], list[str]]:
    """Lines that are gone and lines that are new, the revision and the history entry left out."""
    path = tmp_path / of.name
    path.write_bytes(of.read_bytes())
    edit_reference(path, wanted, ENTRY)
    was, now = (each.read_text(encoding="utf-8").splitlines() for each in (of, path))
    assert now[-5:] == [
        "[[history]]",
        'revision = "C"',
        'date = "2025-06-01"',
        'what = "sheet 12, edition 4"',
        'by = "A"',
    ]
    gone, new = list(was), now[:-6]
    for line in was:
        if line in new:
            new.remove(line)
            gone.remove(line)
    return [line for line in gone if not line.startswith("revision")], [
        line for line in new if not line.startswith("revision")
    ]


@pytest.mark.parametrize(
    ("wanted", "gone", "new"),
    [
        ("parts.spacer-tube.length=58.00 mm ±0.03", 'length = "58.00 mm ±0.02"', 'length = "58.00 mm ±0.03"'),
        (
            "places.seal@left.toward=outside",
            '  { place = "seal@left", toward = "bearing" },',
            '  { place = "seal@left", toward = "outside" },',
        ),
        ("places.spacer-tube.count=2", '  "spacer-tube",', '  { place = "spacer-tube", count = 2 },'),
        ("places.free gap.most=4.2 mm", None, None),
        ("limits.seat gap.most=0.12 mm", 'most = "0.10 mm"', 'most = "0.12 mm"'),
        ("joints.axle nut.locked_by=tab washer", "", 'locked_by = "tab washer"'),
        ("supports.leg@right.floating=false", "floating = true", "floating = false"),
        ('parts.hub.duty=["watch", "brake"]', 'duty = ["watch"]', 'duty = ["watch", "brake"]'),
        ("parts.clamp-bolt.note=M8", "", 'note = "M8"'),
        ("parts.collar-long.material=", 'material = "steel"', ""),
        ("assembly.replaced_by=freight-tricycle/front-hub-2", "", 'replaced_by = "freight-tricycle/front-hub-2"'),
        ("assembly.covers=frames 400 to 900", 'covers = "frames 400 and up"', 'covers = "frames 400 to 900"'),
    ],
)
def test_one_value_changes_one_line(wanted, gone, new, tmp_path):
    was, now = edited(tmp_path, wanted)
    if gone is not None:
        assert (was, now) == ([gone] if gone else [], [new] if new else [])
    assert len(was) <= 1 and len(now) <= 1


@pytest.mark.parametrize(
    ("wanted", "gone", "new"),
    [
        ("parts.collar-short.length=19.2 mm ±0.05", ['length = "19.0 mm ±0.05"'], ['length = "19.2 mm ±0.05"']),
        ("parts.collar-short.number=", ['number = "FT-1006"'], []),
        ("serials=1 to 70", ['serials = "1 to 60"'], ['serials = "1 to 70"']),
        (
            'without=["dust-shield", "seal@left"]',
            ['without = ["dust-shield"]'],
            ['without = ["dust-shield", "seal@left"]'],
        ),
        ("parts.spacer-tube.length=57.4 mm ±0.05", [], ["[variants.parts.spacer-tube]", 'length = "57.4 mm ±0.05"']),
        ("joints.axle nut.torque=45 N·m", [], ['[variants.joints."axle nut"]', 'torque = "45 N·m"']),
        ("places.seal@left.toward=bearing", [], ['[variants.places."seal@left"]', 'toward = "bearing"']),
    ],
)
def test_a_value_inside_a_variant_changes_there_and_what_it_did_not_say_yet_is_added(wanted, gone, new, tmp_path):
    was, now = edited(tmp_path, f"variants.without shield.{wanted}", of=EARLY_HUB)
    assert (was, [line for line in now if line]) == (gone, new)


@pytest.mark.parametrize(
    ("wanted", "said"),
    [
        ("variants.witout shield.serials=1", 'did you mean "without shield"?'),
        ("variants.without shield.part.hub.material=steel", 'did you mean "parts"?'),
        ("variants.without shield.parts.length=1 mm", "is nothing that a variant says"),
        ("variants.without shield.parts.collar-shrt.length=1 mm", 'did you mean "collar-short"?'),
        ("variants.without shield.serials=", "nothing says which machines it is for"),
        ("variants=1", "among the variants"),
    ],
)
def test_a_change_inside_a_variant_that_cannot_be_is_refused(wanted, said, tmp_path):
    path = tmp_path / "front-hub.toml"
    path.write_bytes(EARLY_HUB.read_bytes())
    with pytest.raises(InputError) as refusal:
        edit_reference(path, [wanted], ENTRY)
    assert said in str(refusal.value)
    assert path.read_bytes() == EARLY_HUB.read_bytes()


def test_a_remark_stays_behind_the_value_that_changed(tmp_path):
    (was,), (now,) = edited(tmp_path, 'parts.collar-short.accepts=["FT-1106", "FT-1116"]')
    assert was.partition("#")[2] == now.partition("#")[2] == " frames before 400, same sizes, unplated"


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
@given(data=st.data())
def test_every_remark_of_any_file_of_the_fleet_survives_any_change_of_a_name(data, tmp_path):
    file = LIBRARY / f"{data.draw(st.sampled_from(list(Library(LIBRARY).files)))}.toml"
    part = data.draw(st.sampled_from([part.id for part in read_reference(file).parts]))
    name = data.draw(
        st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1, max_size=20).filter(
            lambda text: text.strip() == text and not text.startswith("[")
        )
    )
    path = tmp_path / file.name
    path.write_bytes(file.read_bytes())
    before, after = edit_reference(path, [f"parts.{part}.name={name}"], ENTRY)
    assert after.part(part).name == name
    assert after.history == (*before.history, ENTRY)
    assert read_remarks(path) == read_remarks(file)


def test_windows_line_ends_and_a_byte_order_mark_stay(tmp_path):
    path = tmp_path / "front-hub.toml"
    path.write_bytes(b"\xef\xbb\xbf" + FRONT_HUB.read_bytes().replace(b"\n", b"\r\n"))
    edit_reference(path, ["parts.hub.material=steel"], ENTRY)
    text = path.read_bytes()
    assert text.startswith(b"\xef\xbb\xbf#")
    assert text.count(b"\n") == text.count(b"\r\n")
    assert read_reference(path).part("hub").material == "steel"


@pytest.mark.parametrize(
    ("wanted", "said"),
    [
        ("parts.collar-shrt.length=18", 'did you mean "collar-short"?'),
        ("parts.collar-short.length=18.0 mmm", "mmm is no unit known here"),
        ("parts.collar-short.lenght=18.0 mm", 'did you mean "length"?'),
        ("parts.collar-short.length", "nothing says what to set"),
        ("places.seal@middle.toward=left", 'there is no "seal@middle" among the places'),
        ("places.spacer-tube.count=two", "write a whole number"),
        ("parts.hub.fixed=yes", "write true or false"),
        ("part.hub.fixed=true", 'did you mean "parts"?'),
        ("parts.bearing.standard=", '"kind" is not given'),
        ("assembly.ends=left", "two texts are wanted"),
        ("=", "is no heading that can be changed"),
        ("parts.leg=", "there is no"),
        ("limits.seat gap=", "there is no"),
    ],
)
def test_a_change_that_cannot_be_is_refused_and_the_file_is_as_it_was(wanted, said, tmp_path):
    path = tmp_path / "front-hub.toml"
    path.write_bytes(FRONT_HUB.read_bytes())
    with pytest.raises(InputError) as refusal:
        edit_reference(path, ["parts.hub.material=steel", wanted], ENTRY)
    assert said in str(refusal.value)
    assert str(refusal.value).endswith("Nothing was changed.")
    assert path.read_bytes() == FRONT_HUB.read_bytes()
    assert sorted(each.name for each in tmp_path.iterdir()) == ["front-hub.toml"]
