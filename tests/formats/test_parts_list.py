"""A parts list as CSV in the dialects that programs and people write, and every cell that cannot be used."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stackcheck.cli import main
from stackcheck.errors import InputError
from stackcheck.formats.parts_list import read_parts_list
from stackcheck.formats.reference_file import read_reference
from stackcheck.references.listed import listed_draft
from stackcheck.references.weak import TO_MEND, weaknesses
from tests.strategies import ROOT

SAMPLE = ROOT / "examples/parts-list/tensioner.csv"
ENDS = ("left", "right")


def rows(tmp_path, data: bytes | str):
    path = tmp_path / "list.csv"
    path.write_bytes(data.encode("utf-8") if isinstance(data, str) else data)
    return read_parts_list(path, ENDS)


def told(tmp_path, data: bytes | str) -> list[tuple]:
    return [(row.name, row.kind, row.count, dict(row.sizes)) for row in rows(tmp_path, data)]


PLAIN = [
    ("Collar", "collar", 1, {"length": "22.0 mm ±0.05", "bore": "20 H8"}),
    ("Washer", "washer", 2, {"length": "1.5 mm"}),
]


@pytest.mark.parametrize(
    "data",
    [
        "name,count,length,bore\nCollar,1,22.0 ±0.05,20 H8\nWasher,2,1.5 mm,\n",
        "name;count;length;bore\nCollar;1;22.0 ±0.05;20 H8\nWasher;2;1.5 mm;\n",
        "name\tcount\tlength\tbore\nCollar\t1\t22.0 ±0.05\t20 H8\nWasher\t2\t1.5 mm\n",
        b"\xef\xbb\xbf" + "Name;Qty.;Length;Bore\r\nCollar;1;22.0 mm ±0.05;20 H8\r\n\r\nWasher;2;1.5 mm;\r\n".encode(),
        'bore,length,"name",count\n20 H8,22.0 ±0.05,"Collar",\n,1.5,Washer,2\n',
        'name,count,sizes\nCollar,1,"length 22.0 ±0.05, bore 20 H8"\nWasher,2,1.5\n',
        'name\n"Collar 22.0 ±0.05 bore\n20 H8"\nWasher 1.5 x2\n',
    ],
    ids=[
        "commas",
        "semicolons",
        "tabs",
        "byte order mark, line ends, blank line",
        "quoted, another sequence",
        "one column of sizes",
        "all in the name, over two lines",
    ],
)
def test_one_list_in_many_dialects(data, tmp_path):
    assert told(tmp_path, data) == PLAIN


def test_a_decimal_comma_is_a_decimal_point(tmp_path):
    (collar, _) = rows(tmp_path, "name;length;outside\nCollar;22,0 ±0,05;30 mm\nWasher;1,5;\n")
    assert dict(collar.sizes)["length"] == "22,0 mm ±0,05"


def test_a_column_says_what_a_part_is_there_for(tmp_path):
    """Several are joined by +; those that are usual for its kind need no word, the partner of a pair is named."""
    data = (
        "name,duty,sizes\nAxle nut,retention + Brake,10.0 ±0.2\nShort collar,pair: Long collar,18.0\n"
        "Long collar,pair: short collar,22.0\nSeal,,7\n"
    )
    draft = listed_draft(rows(tmp_path, data), title="Wheel", ends=ENDS, seen_from="the saddle", file="list.csv")
    assert [row.duties for row in draft.parts] == [
        ("retention", "brake"),
        ("pair: long-collar",),
        ("pair: short-collar",),
        ("new every time",),
    ]


def test_pins_lie_across_and_a_bolt_without_a_length_passes_through(tmp_path):
    """Their lengths are none of the line's, and a pin of 4x32 is no ring."""
    data = "name,sizes\nBolt,seat 17 g6\nCollar,12.0\nHub,40.0\nCastle nut,M16x1.5 length 13\nSplit pin,4x32\n"
    draft = listed_draft(rows(tmp_path, data), title="Wheel", ends=ENDS, seen_from="the saddle", file="list.csv")
    assert {row.name: row.stacks for row in draft.parts} == {
        "Bolt": ("bolt itself",),
        "Collar": ("main stack",),
        "Hub": ("main stack", "bolt itself", "split pin itself"),
        "Castle nut": ("main stack",),
        "Split pin": ("split pin itself",),
    }
    assert dict(draft.parts[-1].sizes) == {"length": "32 mm", "shaft": "4 mm"}


def test_a_bearing_number_among_the_sizes_is_no_length(tmp_path):
    bearing, washer = rows(tmp_path, "number,name,sizes\nB-1,Bearing,6204 C3\n,Washer,ISO 7089 M12\n")
    assert (bearing.standard, bearing.kind, bearing.sizes) == ("6204 C3", "ball bearing", ())
    assert (washer.standard, washer.kind) == ("ISO 7089 M12", "washer")


@pytest.mark.parametrize(
    ("data", "line", "said"),
    [
        ("", None, "the list is empty"),
        ("name,count\n", None, "fewer than two parts"),
        ("name,count\nCollar,1\n", None, "fewer than two parts"),
        ("count,sizes\n1,2\n", 1, "no column holds the names"),
        ("name,colour\nCollar,red\n", 1, 'column 2: unknown heading "colour"'),
        ("name,qty,count\nCollar,1,1\n", 1, "column 3: a second column for the count"),
        ("name,count\nCollar,two\nWasher,1\n", 2, 'column 2: "two" is no count'),
        ("name,count\nCollar,0\nWasher,1\n", 2, 'column 2: "0" is no count'),
        ("name,length\nCollar,12 mmm\nWasher,1\n", 2, "mmm is no unit known here"),
        ("name,length\nCollar,-2\nWasher,1\n", 2, "column 2"),
        ("name,length\nWasher,1\n\nCollar,12,5\n", 4, "column 3: a cell stands beyond the last heading"),
        ("name,kind\nThing,\nWasher,\n", 2, "nothing says what kind of part"),
        ("name,kind\nThing,coller\nWasher,\n", 2, 'column 2: unknown kind "coller"'),
        ("name,standard\nBearing,6299\nWasher,\n", 2, "is not in the tables of standard parts"),
        ("name,toward,feature\nSeal,up,spring side\nWasher,,\n", 2, 'column 2: toward "up"?'),
        ("name,toward\nSeal,left\nWasher,\n", 2, "nothing says which feature points there"),
        ("name,fixed\nSeal,perhaps\nWasher,\n", 2, "is neither yes nor no"),
        ("name,duty\nNut,retaining\nWasher,\n", 2, 'column 2: unknown duty "retaining"'),
        ("name,duty\nNut,pair\nWasher,\n", 2, "only a pair names something"),
        ("name,duty\nCollar,pair: log collar\nLong collar,\n", 2, 'did you mean "Long collar"?'),
        ("name,gap\nSeal,\nroom,2\nWasher,\n", 3, "a gap has two figures"),
        ('name,length\nSeal,1\n"Washer,2\n', 3, "a quotation mark is opened and never closed"),
        ('name,length\nSeal,1\n"Was"her,2\n', 3, "the row cannot be read"),
        (b"name,length\nSeal,1\nW\xe4sher,2\n", 3, "the text is not UTF-8"),
    ],
)  # fmt: skip
def test_what_cannot_be_used_is_said_with_its_line_and_column(data, line, said, tmp_path):
    with pytest.raises(InputError) as refusal:
        rows(tmp_path, data)
    assert said in " ".join(str(refusal.value).split())
    assert refusal.value.mistakes[0].line == line
    assert str(refusal.value).endswith("Nothing was written.")


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    data=st.binary(max_size=200)
    | st.text("name,;\t\n\r\"'x12.±mm#collarwashergap", max_size=120).map(
        lambda text: f"name,length,gap\n{text}".encode()
    )
)
def test_any_bytes_are_read_or_refused(data, tmp_path):
    try:
        assert len(rows(tmp_path, data)) >= 2
    except InputError as problem:
        assert problem.mistakes


def test_a_whole_list_becomes_a_reference_with_nothing_to_mend(tmp_path, capsys):
    folder = tmp_path / "drill-stand"
    folder.mkdir()
    path = folder / "tensioner.toml"
    assert (
        main(["references", "new", str(path), "--parts", str(SAMPLE), "--seen-from", "standing in front of the panel"])
        == 0
    )
    capsys.readouterr()
    reference = read_reference(path)
    assert [weakness for weakness in weaknesses(reference) if weakness.grade == TO_MEND] == []
    assert [stack.through for stack in reference.stacks] == ["inner rings", "outer rings"]
    assert reference.place("bolt-collar@left").facing == "first"
    assert dict(reference.part("bolt-collar").sizes)["length"].text == "12.0 mm ±0.05"
    assert reference.source.is_draft
    assert main(["references", "check", str(path)]) == 0


@pytest.mark.parametrize(
    ("data", "said"),
    [
        ("name,stack\nCollar,a\nWasher,a\nNut,b\nRing,b\n", "does not meet stack"),
        ("name,stack\nCollar,a\nWasher,a\nNut,a+b\n", "fewer than two places"),
        ("name,length,bore,outside\nCollar,3,20,10\nWasher,1,,\n", "the bore is not smaller than the outside"),
    ],
)
def test_a_list_that_makes_no_sound_reference_is_not_written(data, said, tmp_path, capsys):
    (tmp_path / "list.csv").write_text(data)
    path = tmp_path / "new.toml"
    assert main(["references", "new", str(path), "--parts", str(tmp_path / "list.csv")]) == 3
    assert said in capsys.readouterr().err
    assert not path.exists()


def test_a_bolt_with_a_length_is_no_part_of_the_line_that_names_it(tmp_path):
    """125 mm of bolt would make a stack of 26 mm a stack of 151."""
    listed = (
        "name,sizes,stack\nAxle bolt,M12 length 125,axle\nWasher,ISO 7089 M14,axle\nSpacer,6.00 ±0.05,axle\n"
        "Bracket,8.0 ±0.2,axle\n"
    )
    draft = listed_draft(rows(tmp_path, listed), title="Idler", ends=ENDS, seen_from="the panel", file="list.csv")
    assert [row.stacks for row in draft.parts] == [
        ("axle bolt itself",),
        ("axle",),
        ("axle", "axle bolt itself"),
        ("axle",),
    ]
    assert dict(draft.parts[0].sizes)["thread_pitch"] == "1.75 mm"
