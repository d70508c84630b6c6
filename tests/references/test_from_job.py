"""A machine as it was found becomes a reference: how it stood, what was measured, and what nobody looked at."""

import io
import json
import re
from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.compare import explanations
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference
from stackcheck.references.difference import difference
from stackcheck.references.merged import merged
from stackcheck.references.taken import taken
from tests.examples.replay import replay
from tests.strategies import LIBRARY, ROOT

EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
HUBS = [path for path in EXAMPLES if 'reference = "freight-tricycle/front-hub"' in path.read_text(encoding="utf-8")]


def from_job(tmp_path: Path, capsys, *lists: Path, more: tuple[str, ...] = ()) -> tuple[int, Path, str]:
    folder = tmp_path / "taken"
    folder.mkdir(exist_ok=True)
    path = folder / "machine-one.toml"
    path.unlink(missing_ok=True)
    status = main(["references", "from-job", str(path), *map(str, lists), *more])
    captured = capsys.readouterr()
    return status, path, captured.out + captured.err


def machine(name: str):
    found, reference = read_found(next((ROOT / "examples").glob(f"{name}-*.toml")), Library(LIBRARY).reference)
    return taken(reference, found)


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_every_list_of_the_gallery_becomes_a_sound_reference(file, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    status, path, said = from_job(tmp_path, capsys, file)
    assert status == 0, said
    reference = read_reference(path)
    assert reference.source.kind == "taken from a machine"
    assert reference.source.is_draft


UNCERTAIN = ("entered_twice", "entered_from_other_end", "not_verified", "not_reached")


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_a_machine_agrees_with_the_reference_that_was_taken_from_it(file, tmp_path, capsys, monkeypatch):
    """The witness: the same list against the new reference finds nothing out of its place.
    A thing typed twice stays so.
    """
    monkeypatch.chdir(ROOT)
    _, _path, _ = from_job(tmp_path, capsys, file)
    text = re.sub(
        r'^reference = ".*"', 'reference = "taken/machine-one"', file.read_text(encoding="utf-8"), flags=re.MULTILINE
    )
    again = tmp_path / "again.toml"
    again.write_text(re.sub(r'^revision = ".*"', 'revision = "A"', text, flags=re.MULTILINE), encoding="utf-8")
    found, reference = read_found(again, Library(tmp_path).reference)
    best = explanations(reference, found)[0]
    odd = [
        finding for finding in best.findings if finding.kind not in UNCERTAIN and not getattr(finding, "loose", False)
    ]
    assert odd == []


def test_swapped_collars_stand_swapped_in_the_new_reference():
    """It is how the machine was, not how it should be; what differs from the drawing is told by the command."""
    one = machine("01")
    stack = one.reference.stack("axle stack").places
    assert (stack[3], stack[7]) == ("collar-long@left", "collar-short@right")
    assert {finding.kind for finding in one.findings} == {"swapped", "turned_round", "extra"}
    assert one.reference.joints[0].clamps == ("leg@left", "collar-short@right")


def test_a_measured_size_is_the_range_in_which_it_lies_and_another_keeps_that_of_the_drawing():
    one = machine("01")
    sizes = {part.id: dict(part.sizes) for part in one.reference.parts}
    assert sizes["spacer-tube"]["length"].text == "57.93..57.99 mm"
    assert sizes["seal"]["length"].text == "7 mm ±0.2"
    remarks = dict(one.remarks)
    assert remarks["parts", "spacer-tube", "length"] == "measured: 57.96 cal"
    assert remarks["parts", "seal", "length"] == "as in freight-tricycle/front-hub: not measured on this machine"


def test_what_nobody_looked_at_is_said():
    one = machine("03")  # the teardown stopped half way
    assert any("nobody looked at it" in sentence for sentence in one.look)


def test_merging_one_machine_changes_nothing():
    one = machine("06")
    assert not difference(one.reference, merged([one]).reference).changes


def test_several_machines_give_ranges_that_hold_every_reading():
    machines = [machine(name) for name in ("01", "06", "13")]
    answer = merged(machines)
    for each in machines:
        for (part, name), readings in each.measured:
            if not answer.reference.has_part(part):
                continue
            size = answer.reference.part(part).size(name)
            assert all(
                size.least_mm <= reading.low_mm + 1e-6 and reading.high_mm <= size.most_mm + 1e-6
                for reading in readings
            )


def test_sizes_that_do_not_agree_are_said_as_two_and_never_averaged():
    answer = merged([machine("01"), machine("06")])
    assert any(
        "Spacer tube: length differs between machines: 57.70 57.69 57.70 mic and 57.96 cal" in sentence
        for sentence in answer.look
    )
    assert "differ" in answer.reference.source.state


def test_the_same_machine_twice_agrees():
    answer = merged([machine("06"), machine("06")])
    assert answer.differ == ()
    assert answer.reference.source.state == "draft, 2 machines agree"


def test_machines_that_are_arranged_otherwise_are_told_with_what_differs(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    lists = [path for path in HUBS if path.name[:2] in ("01", "09")]
    status, path, out = from_job(tmp_path, capsys, *lists)
    assert status == 0
    told = " ".join(out.split())
    assert "spacer tube missing between left hub bearing and right hub bearing" in told
    assert "spacer tube missing" in path.read_text(encoding="utf-8")


LIST = """kind = "as found"
format = 1
reference = "shed/wheel"
revision = "-"
date = 2026-11-02
by = "A"
off = [
  { end = "left", what = "left collar", length = "12.02 cal", toward = "left" },
  { end = "left", what = "bearing 6202" },
  { end = "left", what = "spacer tube", length = "40.01 mic" },
  { end = "right", what = "right collar", length = "15.0 cal", toward = "right" },
  { end = "right", what = "bearing 6202" },
]
"""


def test_a_machine_that_nobody_has_written_down_yet_becomes_a_reference_of_its_own(tmp_path, capsys):
    (tmp_path / "list.toml").write_text(LIST, encoding="utf-8")
    status, path, _ = from_job(
        tmp_path, capsys, tmp_path / "list.toml", more=("--ends", "left,right", "--seen-from", "in front of the shed")
    )
    assert status == 0
    reference = read_reference(path)
    assert reference.source.what == "as found on 2026-11-02, by A"
    assert [reference.part_at(place).name for place in reference.stacks[0].places] == [
        "Left collar",
        "Bearing",
        "Spacer tube",
        "Bearing",
        "Right collar",
    ]
    assert reference.part("bearing").standard == "6202"
    assert reference.part("spacer-tube").size("length").text == "40..40.02 mm"
    assert main(["references", "check", str(path)]) == 0


@pytest.mark.parametrize(
    ("text", "more", "said"),
    [
        (LIST, (), 'unknown reference "shed/wheel"'),
        (LIST, ("--ends", "left"), "names no two ends"),
        (LIST, ("--ends", "top,bottom"), 'unknown end "left"'),
        (
            LIST.replace("left collar", "left thing"),
            ("--ends", "left,right"),
            'nothing says what kind of part "left thing" is',
        ),
        (
            'kind = "as found"\nformat = 1\nreference = "x/y"\nrevision = "-"\noff = [{ what = "nut" }]\n',
            ("--ends", "left,right"),
            "fewer than two things",
        ),
        ('kind = "as found"\nformat = 1\n', ("--ends", "left,right"), '"reference" is not given'),
    ],
)
def test_what_makes_no_reference_is_refused_and_nothing_is_written(text, more, said, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    (tmp_path / "list.toml").write_text(text, encoding="utf-8")
    status, path, out = from_job(tmp_path, capsys, tmp_path / "list.toml", more=more)
    assert status == 3
    assert said in " ".join(out.split())
    assert not path.exists()


def test_lists_of_two_assemblies_are_not_merged(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    status, path, out = from_job(tmp_path, capsys, HUBS[0], ROOT / "examples/02-grinder-arbor-clean.toml")
    assert (status, path.exists()) == (3, False)
    assert "the lists are of several assemblies: freight-tricycle/front-hub, bench-grinder/arbor" in " ".join(
        out.split()
    )


def test_json_tells_what_to_look_at(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    status, path, out = from_job(tmp_path, capsys, HUBS[0], more=("--json",))
    tree = json.loads(out)
    assert (status, tree["file"]) == (0, str(path))
    assert tree["to_look_at"]


def test_a_folder_of_a_job_is_as_good_as_a_list(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    jobs = ["--jobs", str(tmp_path / "jobs")]
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    main(["teardown", "front-hub", *jobs])
    for words in ("axle nut", "washer", "collar 22.02 cal, flange out"):
        assert main(["off", "left", words, *jobs]) == 0
    capsys.readouterr()
    status, path, said = from_job(tmp_path, capsys, tmp_path / "jobs" / "front-hub")
    assert status == 0, said
    assert "axle-nut" in [part.id for part in read_reference(path).parts]
    assert "nobody looked at it" in said


@pytest.fixture(scope="module")
def whole_job(tmp_path_factory):
    """The job of examples/full-job: collars found exchanged and a seal found turned round, both put right."""
    folder = tmp_path_factory.mktemp("whole")
    replay((ROOT / "examples/full-job/steps.txt").read_text(encoding="utf-8"), folder)
    return folder / "jobs" / "front-hub"


def test_what_was_fitted_becomes_a_record_of_its_own(whole_job, tmp_path, capsys, monkeypatch):
    """For a machine without a drawing, the next opening is compared with the last closing."""
    monkeypatch.chdir(ROOT)
    status, path, said = from_job(tmp_path, capsys, whole_job, more=("--as-fitted",))
    assert status == 0, said
    reference = read_reference(path)
    assert (reference.source.kind, reference.source.what) == ("own record", "as fitted on 2026-03-11")
    assert "own record: can only show change" in said
    assert "measured: 13.99 13.98 13.99 mic" in path.read_text(encoding="utf-8")


def test_as_found_beside_as_fitted_shows_what_was_put_right(whole_job, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    _, path, _ = from_job(tmp_path, capsys, whole_job)
    found = read_reference(path)
    _, path, _ = from_job(tmp_path, capsys, whole_job, more=("--as-fitted",))
    assert [change.kind for change in difference(found, read_reference(path)).changes if change.kind != "resized"] == [
        "swapped",
        "turned",
    ]


def test_nothing_fitted_is_no_record(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    main(["teardown", "front-hub", "--jobs", str(tmp_path / "jobs")])
    status, path, said = from_job(tmp_path, capsys, tmp_path / "jobs" / "front-hub", more=("--as-fitted",))
    assert (status, path.exists()) == (3, False)
    assert "nothing was fitted in this job yet" in said
    assert "only a job knows what was fitted" in " ".join(
        from_job(tmp_path, capsys, HUBS[0], more=("--as-fitted",))[2].split()
    )
