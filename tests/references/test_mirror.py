"""The other side of a machine: everything turned that has a side, everything else as it was."""

import pytest
import tomli_w
from hypothesis import HealthCheck, given, settings

from stackcheck.cli import main
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference, read_remarks
from stackcheck.mechanics.chain import loops
from stackcheck.references.difference import difference
from stackcheck.references.mirror import mirrored, other_side_of
from tests.strategies import LIBRARY, ROOT, reference_trees

FLEET = list(Library(LIBRARY).files)


@pytest.mark.parametrize("id", FLEET)
def test_mirrored_twice_a_reference_of_the_fleet_is_itself_again(id):
    one = Library(LIBRARY).reference(id)
    assert mirrored(mirrored(one)) == one


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=100)
@given(tree=reference_trees())
def test_mirrored_twice_any_reference_is_itself_again(tree, tmp_path):
    path = tmp_path / "bench.toml"
    path.write_text(tomli_w.dumps(tree), encoding="utf-8")
    one = read_reference(path)
    assert mirrored(mirrored(one)) == one


@pytest.mark.parametrize("id", FLEET)
def test_every_gap_of_the_other_side_is_as_wide(id):
    """A mirror changes no length: what closed before closes after, with the same figures."""
    one = Library(LIBRARY).reference(id)
    words = other_side_of(one.ends)
    here = {words(state.loop.name): (state.verdict, state.gap) for state in loops(one)}
    there = {state.loop.name: (state.verdict, state.gap) for state in loops(mirrored(one))}
    assert there.keys() == here.keys()
    for name, (verdict, gap) in here.items():
        assert there[name][0] == verdict
        assert gap is None or (there[name][1].least_mm, there[name][1].most_mm) == pytest.approx(
            (gap.least_mm, gap.most_mm)
        )


@pytest.mark.parametrize("id", FLEET)
def test_what_is_written_for_the_other_side_reads_back_as_its_mirror(id, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)
    path = tmp_path / "other.toml"
    assert main(["references", "mirror", id, str(path)]) == 0
    capsys.readouterr()
    answer = difference(mirrored(Library(LIBRARY).reference(id)), read_reference(path))
    assert not answer.changes
    assert read_reference(path).source.is_draft


def test_collars_seals_and_faces_of_the_front_hub_change_sides():
    other = mirrored(Library(LIBRARY).reference("freight-tricycle/front-hub"))
    assert other.stack("axle stack").places[:3] == ("leg@left", "collar-long@left", "bearing@left")
    assert [other.place(f"seal@{end}").facing for end in ("left", "right")] == ["second", "first"]
    assert other.place("collar-long@left").facing == "first"
    assert other.part("clamp-bolt").name == "Clamp bolt of the left leg"
    assert [duty.detail for duty in other.part("collar-short").duties if duty.name == "pair"] == ["collar-long"]
    assert other.ends_seen_from == "left hand of a person in the saddle, facing forward"


def test_numbers_along_the_axis_count_from_the_first_end_again():
    other = mirrored(Library(LIBRARY).reference("bilge-pump/shaft-bearings"))
    pair = [name for name in other.stack("shaft stack").places if name.startswith("thrust-bearing")]
    assert pair == ["thrust-bearing@1", "thrust-bearing@2"]
    assert [other.place(name).facing for name in pair] == ["second", "first"]
    assert other.place("oil-seal@impeller").end == 1


def test_a_standout_of_the_inner_ring_is_toward_the_other_end():
    """Facing nothing, or the same way everywhere, the ring stands out on the other side in the mirror."""
    one = Library(LIBRARY).reference("freight-tricycle/front-hub")
    part = one.part("bearing")
    from stackcheck.formats.sizes import size_of
    from stackcheck.units import read_limits
    from stackcheck.value import replace

    for text, turned in (
        ("-0.1 mm ±0.02", "0.1 mm ±0.02"),
        ("0.3 +0.1/-0.05 mm", "-0.3 +0.05/-0.1 mm"),
        ("0.1..0.2 mm", "-0.2..-0.1 mm"),
    ):
        size = size_of(read_limits(text, may_be_negative=True))
        with_standout = replace(
            one,
            parts=tuple(
                replace(each, sizes=(*each.sizes, ("inner_standout", size))) if each is part else each
                for each in one.parts
            ),
        )
        mirror = dict(mirrored(with_standout).part("bearing").sizes)["inner_standout"]
        assert mirror.text == turned
        again = size_of(read_limits(turned, may_be_negative=True))
        assert (mirror.nominal_mm, mirror.least_mm, mirror.most_mm) == pytest.approx(
            (again.nominal_mm, again.least_mm, again.most_mm)
        )


def test_remarks_come_along_and_say_what_to_look_at(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    path = tmp_path / "other.toml"
    main(["references", "mirror", "arbor", str(path)])
    out = capsys.readouterr().out
    text = path.read_text(encoding="utf-8")
    assert 'number = "BG-201"                     # number of the other side: look whether it is the same here' in text
    assert 'thread = "M16x1.5 left hand"          # hand of the thread as on the other side: look' in text
    assert 'duty = ["watch"]                      # the belt runs straight only where the drawing puts it' in text
    assert "Right arbor nut: number BG-201 is that of the other side" in out
    assert read_remarks(path).head[0] == "Arbor of the bench grinder, with everything that turns on it."


def test_left_and_right_are_compared_through_the_mirror(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    path = tmp_path / "other.toml"
    main(["references", "mirror", "front-hub", str(path)])
    assert main(["references", "compare", "front-hub", str(path)]) == 1
    assert main(["references", "compare", "front-hub", str(path), "--mirrored"]) == 0
    assert "no change" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Hub.toml", "cannot be called that"),
        ("hub.txt", "cannot be called that"),
        ("there.toml/hub.toml", "something that is no folder"),
        ("there.toml", "exists already"),
    ],
)
def test_a_new_file_that_cannot_be_is_refused_before_anything_is_done(name, said, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    (tmp_path / "there.toml").write_text("# mine")
    assert main(["references", "mirror", "front-hub", str(tmp_path / name)]) == 3
    assert said in capsys.readouterr().err
    assert (tmp_path / "there.toml").read_text() == "# mine"
