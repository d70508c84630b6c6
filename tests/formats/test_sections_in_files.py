"""The steps of a part, and of what a joint stretches: read, written, changed and compared as any other value."""

import pytest
import tomli_w

from stackcheck.cli import main
from stackcheck.errors import InputError
from stackcheck.formats.reference_file import read_reference
from stackcheck.formats.reference_text import reference_text
from stackcheck.references.difference import difference
from stackcheck.references.mirror import mirrored
from tests.strategies import LIBRARY

FRONT = (LIBRARY / "freight-tricycle" / "front-hub.toml").read_text(encoding="utf-8")
COLLAR = """sections = [
  { length = "4.0 mm", outside = "40 mm ±0.1", bore = "20 H8" },
  { length = "18.0 mm", outside = "30 mm", bore = "20 H8", material = "brass" },
]
"""
LONG = FRONT[FRONT.index("[parts.collar-long]") : FRONT.index("[parts.seal]")]
STEPPED = FRONT.replace(LONG, LONG.replace('bore = "20 H8"\noutside = "30 mm ±0.1"\n', COLLAR))


def reading(tmp_path, text, name="front-hub.toml"):
    path = tmp_path / "freight-tricycle" / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return read_reference(path)


def collar(reference):
    return reference.part("collar-long")


def test_a_stepped_part_is_as_wide_as_its_widest_section_and_bored_as_its_narrowest(tmp_path):
    part = collar(reading(tmp_path, STEPPED))
    assert [section.words for section in part.sections] == ["4 mm of 40/20 mm", "18 mm of 30/20 mm, brass"]
    assert (part.size("outside").text, part.size("bore").text, part.size("length").text) == (
        "40 mm ±0.1", "20 H8", "22.0 mm ±0.05",
    )  # fmt: skip


def test_sections_are_written_as_they_were_typed(tmp_path):
    written = reference_text(reading(tmp_path, STEPPED))
    assert COLLAR in written
    assert reference_text(reading(tmp_path, written, "again.toml")) == written


def test_headings_of_their_own_say_the_same_as_tables_in_braces(tmp_path):
    tables = tomli_w.dumps({"parts": {"collar-long": {"sections": [
        {"length": "4.0 mm", "outside": "40 mm ±0.1", "bore": "20 H8"},
        {"length": "18.0 mm", "outside": "30 mm", "bore": "20 H8", "material": "brass"},
    ]}}}, multiline_strings=False)  # fmt: skip
    tables = tables[tables.index("sections = ") :]
    assert collar(reading(tmp_path, STEPPED.replace(COLLAR, tables))) == collar(reading(tmp_path, STEPPED))


def test_what_a_joint_stretches_reads_back_and_is_solid_without_a_bore(tmp_path):
    shank = 'shank = [\n  { length = "30 mm", outside = "20 mm" },\n  { length = "9 mm", outside = "16 mm", bore = "8 mm" },\n]\n'
    text = FRONT.replace('thread_condition = "dry"\n', f'thread_condition = "dry"\n{shank}')
    reference = reading(tmp_path, text)
    assert [step.bore and step.bore.nominal_mm for step in reference.joints[0].shank] == [None, 8.0]
    assert shank in reference_text(reference)
    assert mirrored(reference).joints[0].shank == reference.joints[0].shank  # told from its head, not from an end


def test_in_the_mirror_the_sections_run_the_other_way(tmp_path):
    one = reading(tmp_path, STEPPED)
    assert mirrored(one).part("collar-long").sections == collar(one).sections[::-1]
    assert mirrored(mirrored(one)) == one


def test_of_two_parts_that_look_at_one_another_the_mirror_shows_the_other_one(tmp_path):
    """Told as the first place has them: that one comes to stand second, and the first looks as it did."""
    both = {
        "kind": "reference assembly", "format": 1,
        "assembly": {"id": "bench", "title": "Two collars", "revision": "A", "ends": ["left", "right"], "ends_seen_from": "the bench",
                     "source": {"kind": "own record", "state": "draft"}},
        "parts": {"collar": {"name": "Collar", "kind": "collar", "length": "22 mm", "feature": "flange", "sections": [
                      {"length": "4 mm", "outside": "40 mm", "bore": "20 mm"}, {"length": "18 mm", "outside": "30 mm", "bore": "20 mm"}]},
                  "hub": {"name": "Hub", "kind": "hub", "length": "40 mm"}},
        "stacks": [{"name": "row", "order": [{"place": "collar@left", "toward": "outside"}, "hub", {"place": "collar@right", "toward": "outside"}]}],
    }  # fmt: skip
    one = reading(tmp_path, tomli_w.dumps(both), "bench.toml")
    assert mirrored(one).part("collar").sections == one.part("collar").sections


def test_a_change_of_one_step_is_named_with_all_of_them(tmp_path):
    one, other = reading(tmp_path, STEPPED), reading(tmp_path, STEPPED.replace("40 mm ±0.1", "1.6 in"), "second.toml")
    (change,) = difference(one, other).changes
    assert (change.kind, change.what) == ("described otherwise", "sections")
    assert (change.was, change.now) == (
        "4 mm of 40/20 mm; 18 mm of 30/20 mm, brass", "4 mm of 40.64/20 mm; 18 mm of 30/20 mm, brass",
    )  # fmt: skip


def test_the_same_figures_in_inches_are_no_change(tmp_path):
    inches = STEPPED.replace("40 mm ±0.1", "1.6 in"), STEPPED.replace("40 mm ±0.1", "40.64 mm")
    assert not difference(*(reading(tmp_path, text, f"{i}.toml") for i, text in enumerate(inches))).changes


def test_one_step_is_changed_by_its_number_and_nothing_else_with_it(tmp_path, monkeypatch, capsys):
    reading(tmp_path, STEPPED)
    monkeypatch.chdir(tmp_path)
    edit = ["references", "edit", "freight-tricycle/front-hub", "--library", str(tmp_path), "--what", "drawing changed"]
    assert main([*edit, "parts.collar-long.sections.2.outside=31 mm"]) == 0
    capsys.readouterr()
    text = (tmp_path / "freight-tricycle" / "front-hub.toml").read_text(encoding="utf-8")
    assert COLLAR.replace('"30 mm"', '"31 mm"') in text
    assert main([*edit, "parts.collar-long.sections.3.outside=31 mm"]) == 3
    assert 'there is no "3" among its sections' in capsys.readouterr().err
    step = '{ length = "58 mm", outside = "28 mm ±0.1", bore = "20.2 mm +0.1/0" }'
    assert main([*edit, f"parts.spacer-tube.sections=[{step}]"]) == 0
    assert f"sections = [\n  {step},\n]" in (tmp_path / "freight-tricycle" / "front-hub.toml").read_text("utf-8")


def test_a_variant_may_have_other_sections_and_they_are_written_back(tmp_path):
    variant = """
[[variants]]
name = "early"
serials = "up to 120"

[variants.parts.collar-long]
sections = [
  { length = "5.0 mm", outside = "40 mm", bore = "20 H8" },
  { length = "17.0 mm", outside = "30 mm", bore = "20 H8" },
]
"""
    one = reading(tmp_path, STEPPED + variant)
    assert [section.length.nominal_mm for section in collar(one.variants[0].reference).sections] == [5.0, 17.0]
    assert variant.strip() in reference_text(one)
    assert mirrored(mirrored(one)) == one
    told = dict(dict(mirrored(one).variants[0].told)["parts"])["collar-long"]
    assert [dict(step)["length"] for step in dict(told)["sections"]] == ["17.0 mm", "5.0 mm"]


@pytest.mark.parametrize(
    ("kind", "said"),
    [("ball bearing", "sections of a ball bearing"), ("crush sleeve", "sections of a crush sleeve"),
     ("axle", "the sections of what others stand on")],
)  # fmt: skip
def test_sections_of_what_is_no_row_of_tubes_are_refused(tmp_path, kind, said):
    text = STEPPED.replace(LONG.split("bore")[0], LONG.split("bore")[0].replace('kind = "collar"', f'kind = "{kind}"'))
    with pytest.raises(InputError, match=said):
        reading(tmp_path, text)
