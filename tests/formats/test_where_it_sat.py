"""Words of the bench beside a reference: "outside" is read by where a thing sat,
a short name is the part's own name.
"""

from pathlib import Path

import pytest

from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library

ROOT = Path(__file__).parent.parent.parent
FRONT_HUB = ("freight-tricycle/front-hub", "B")
PINION = ("orchard-tractor/pinion-shaft", "B")


def entries_of(reference: tuple[str, str], entries: list[str], tmp_path: Path, *, finished: bool = True):
    head = (
        f'kind = "as found"\nformat = 1\nreference = "{reference[0]}"\nrevision = "{reference[1]}"\n'
        f"finished = {str(finished).lower()}\n"
    )
    (tmp_path / "list.toml").write_text(head + "".join(f"\n[[off]]\n{entry}\n" for entry in entries))
    return read_found(tmp_path / "list.toml", Library(ROOT / "reference_assemblies").reference)[0].entries


def test_outside_of_a_right_collar_among_the_first_things_off_the_left_end_is_left(tmp_path):
    entries = ['end = "left"\nwhat = "axle nut"', 'end = "left"\nwhat = "long collar"\ntoward = "outside"']
    assert entries_of(FRONT_HUB, entries, tmp_path, finished=False)[1].toward == "first"


def test_toward_a_fixed_member_is_read_from_the_place_that_each_of_two_bearings_sat_at(tmp_path):
    entries = ['end = "input end"\nwhat = "bearing"\nnumber = "7207 B"\ntoward = "web"'] * 2
    assert [entry.toward for entry in entries_of(PINION, entries, tmp_path)] == ["first", "second"]


def test_a_member_may_be_named_with_its_end(tmp_path):
    entries = ['end = "left"\nwhat = "axle nut"\ntoward = "left leg"']
    assert entries_of(FRONT_HUB, entries, tmp_path, finished=False)[0].toward == "second"


@pytest.mark.parametrize(
    ("reference", "typed", "part"),
    [
        (("boat-trailer/hub", "3"), "sleeve", "seal-sleeve"),
        (("freight-tricycle/steering-head", "A"), "rubber ring", "crown-seal"),
        (("orchard-tractor/layshaft", "B"), "small gear", "gear-small"),
        (("freight-tricycle/rear-hub", "B"), "ring", None),  # two outer rings are called so too
        (("orchard-tractor/layshaft", "B"), "circlip", None),
    ],
)
def test_a_part_is_called_by_what_stands_before_of_under_or_that(reference, typed, part, tmp_path):
    assert entries_of(reference, [f'what = "{typed}"'], tmp_path, finished=False)[0].part == part


@pytest.mark.parametrize(
    ("typed", "part"),
    [
        ('what = "oil ring"\nbore = "30.0 cal"\noutside = "47.0 cal"\nlength = "7.0 cal"', "seal"),
        ('what = "bush"\nlength = "58.00 mic"', "spacer-tube"),
        ('what = "thin ring"\nlength = "0.30 mic"\nbore = "20.2 cal"', None),
        ('what = "thick ring"\nbore = "20.02 mic"', None),  # both collars have it
        ('what = "thick ring"', None),
    ],
)
def test_a_thing_with_a_loose_word_is_the_one_ring_that_has_its_sizes(typed, part, tmp_path):
    entry = entries_of(FRONT_HUB, [typed], tmp_path, finished=False)[0]
    assert (entry.part, entry.sure) == (part, False)
