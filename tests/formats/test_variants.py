"""One file for several years and serials: the variant that a machine needs
is picked by what it says of itself, and said.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.cli import main
from stackcheck.errors import InputError
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference, write_sound_reference
from stackcheck.model.coverage import read_coverage
from stackcheck.references.difference import difference
from stackcheck.references.mirror import mirrored
from stackcheck.value import replace
from tests.strategies import ROOT

LIBRARY = ROOT / "examples/generations"
HUB = LIBRARY / "freight-tricycle-early/front-hub.toml"


@pytest.mark.parametrize(
    ("text", "inside", "outside"),
    [
        ("2008 to 2013", ("2008", "2013", "spring 2010"), ("2007", "2014")),
        ("2008..2013", ("2009",), ("2000",)),
        ("frames 400 and up", ("400", "frame 1200"), ("399",)),
        ("since 2014", ("2014", "2030"), ("2013",)),
        ("up to 399", ("1", "399"), ("400",)),
        ("frames before 400", ("399",), ("400",)),
        ("2014", ("2014",), ("2015",)),
        ("B 100 to 200", ("B 150", "150", "B-150"), ("A 150", "B 99")),
    ],
)
def test_a_range_of_years_or_serials_as_people_write_it(text, inside, outside):
    coverage = read_coverage(text)
    assert [coverage.holds(word) for word in inside] == [True] * len(inside)
    assert [coverage.holds(word) for word in outside] == [False] * len(outside)
    assert coverage.holds("not known") is None


@pytest.mark.parametrize("text", ["lately", "", "2013 to 2008", "1 2 3"])
def test_what_is_no_range_is_none(text):
    assert read_coverage(text) is None


@given(first=st.integers(0, 999), length=st.integers(0, 999), other=st.integers(0, 999), reach=st.integers(0, 999))
def test_two_ranges_meet_exactly_where_some_machine_lies_in_both(first, length, other, reach):
    one, two = read_coverage(f"{first} to {first + length}"), read_coverage(f"{other} to {other + reach}")
    assert one.meets(two) == (max(first, other) <= min(first + length, other + reach))
    assert one.meets(two) == two.meets(one)


def picked(year: str = "", serial: str = ""):
    return read_reference(HUB).for_a_machine(year, serial)


def test_a_serial_inside_a_variant_picks_it_and_says_why():
    reference = picked(serial="frame 42")
    assert reference.for_machine.startswith(
        'variant "without shield", for the machine (serial frame 42): the first sixty frames'
    )
    assert not reference.has_place("dust-shield")
    assert reference.part("collar-short").size("length").text == "19.0 mm ±0.05"
    assert {change.kind for change in difference(read_reference(HUB), reference).changes} == {
        "dropped",
        "renumbered",
        "resized",
    }


def test_a_machine_of_no_variant_gets_the_reference_as_it_stands():
    reference = picked(serial="120")
    assert (reference.for_machine, reference.outside) == ("no variant, for the machine (serial 120)", False)
    assert not difference(read_reference(HUB), reference).changes


@pytest.mark.parametrize("machine", [{"serial": "700"}, {"year": "2020"}, {"year": "2010", "serial": "700"}])
def test_a_machine_outside_is_compared_and_said_to_lie_outside(machine):
    reference = picked(**machine)
    assert reference.outside
    assert "lies outside what the reference covers: 2008 to 2013, 1 to 399" in reference.for_machine


def test_a_year_does_not_settle_what_goes_by_serials():
    assert picked(year="2009").for_machine == 'the machine (year 2009) may be one of "without shield": say its serial'
    assert "are not said" in picked().for_machine


def test_the_headline_says_that_the_machine_lies_outside(tmp_path, capsys):
    path = tmp_path / "list.toml"
    text = (
        'kind = "as found"\nformat = 1\nreference = "freight-tricycle-early/front-hub"\nrevision = "A"\nserial = {}\n'
        '[[off]]\nwhat = "axle nut"\n'
    )
    path.write_text(text.format(700), encoding="utf-8")
    main(["compare", str(path), "--library", str(LIBRARY)])
    out = " ".join(capsys.readouterr().out.split())
    assert out.startswith('Differs from reference "Front hub on a through axle, rev A" (this machine lies outside it)')
    path.write_text(text.format('"frame 42"'), encoding="utf-8")
    main(["compare", str(path), "--library", str(LIBRARY)])
    out = " ".join(capsys.readouterr().out.split())
    assert "lies outside" not in out
    assert 'Which machine: variant "without shield", for the machine (serial frame 42)' in out


def test_a_list_keeps_year_and_serial(tmp_path):
    path = tmp_path / "list.toml"
    path.write_text(
        'kind = "as found"\nformat = 1\nreference = "freight-tricycle-early/front-hub"\nrevision = "A"\nyear = 2009\n'
        'serial = 42\n[[off]]\nwhat = "axle nut"\n'
    )
    found, _ = read_found(path, Library(LIBRARY).reference)
    assert (found.year, found.serial) == ("2009", "42")


def test_variants_are_written_and_read_back(tmp_path):
    one = read_reference(HUB)
    path = tmp_path / "freight-tricycle-early" / "front-hub.toml"
    path.parent.mkdir()
    write_sound_reference(one, path)
    again = read_reference(path)
    bare = [
        replace(
            each,
            file="",
            variants=tuple(
                replace(variant, reference=replace(variant.reference, file="")) for variant in each.variants
            ),
        )
        for each in (one, again)
    ]
    sorted_sizes = [[(part.id, sorted(part.sizes)) for part in each.variants[0].reference.parts] for each in bare]
    assert sorted_sizes[0] == sorted_sizes[1]
    assert [(variant.name, variant.told) for variant in one.variants] == [
        (variant.name, variant.told) for variant in again.variants
    ]


def test_the_other_side_has_the_same_variants(tmp_path):
    one = read_reference(HUB)
    assert mirrored(mirrored(one)) == one
    path = tmp_path / "freight-tricycle-early" / "front-hub.toml"
    path.parent.mkdir()
    write_sound_reference(mirrored(one), path)
    assert not difference(mirrored(one).variants[0].reference, read_reference(path).variants[0].reference).changes


OTHER_YEARS = """
[[variants]]
name = "soft fork"
serials = "300 to 399"
why = "another fork, and a nut with a finer thread"

[variants.parts.axle]
duty = ["retention"]

[variants.pairings."bearing bore on axle"]
most = "0.030 mm"

[variants.joints."axle nut"]
torque = "45 N·m"
thread_condition = "oiled"

[variants.supports."leg@right"]
stiffness = "120 N/mm"
free_position = "0.4..0.6 mm"
"""


def with_other_years(tmp_path, more: str = OTHER_YEARS):
    path = tmp_path / "freight-tricycle-early" / "front-hub.toml"
    path.parent.mkdir()
    path.write_text(HUB.read_text(encoding="utf-8") + more, encoding="utf-8")
    return path


def test_torque_support_pairing_and_duties_may_differ_by_serial_too(tmp_path):
    """A torque is what a maker changes most often from year to year."""
    whole = read_reference(with_other_years(tmp_path))
    early, late = whole.for_a_machine("", "20"), whole.for_a_machine("", "350")
    assert [reference.joints[0].torque.text for reference in (early, late)] == ["50 N·m", "45 N·m"]
    assert (late.joints[0].thread, late.joints[0].thread_condition) == ("M16x1.5", "oiled")
    assert [reference.supports[0].stiffness.text for reference in (early, late)] == ["180 N/mm", "120 N/mm"]
    assert next(pairing.most_mm for pairing in late.pairings if pairing.what == "bearing bore on axle") == 0.03
    assert [duty.name for duty in late.part("axle").duties] == ["retention"]


def test_what_differs_by_serial_is_written_and_mirrored_with_the_rest(tmp_path):
    whole = read_reference(with_other_years(tmp_path))
    other = mirrored(whole)
    assert mirrored(other) == whole
    path = tmp_path / "front-hub.toml"
    write_sound_reference(other, path)
    soft = read_reference(path).variants[1].reference
    assert soft.supports[0].place == "leg@left"
    assert (soft.supports[0].free_position.least_mm, soft.supports[0].free_position.most_mm) == (-0.6, -0.4)


def test_a_rule_that_is_not_there_cannot_differ(tmp_path):
    path = with_other_years(
        tmp_path,
        '\n[[variants]]\nname = "x"\nserials = "300 to 399"\n[variants.joints."axel nut"]\ntorque = "50 N·m"\n',
    )
    with pytest.raises(InputError) as refusal:
        read_reference(path)
    assert 'variant "x": unknown joint "axel nut"' in str(refusal.value) and 'did you mean "axle nut"' in str(
        refusal.value
    )
