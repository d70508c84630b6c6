"""One line, one event: `off`, `measure`, `look`, `note`, `photo`, `undo`, and many lines of a pasted note."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.job.folder import JobFolder
from stackcheck.job.state import Job

ROOT = Path(__file__).parents[2]


@pytest.fixture
def bench(tmp_path, monkeypatch, capsys):
    """Runs commands in a folder of its own; returns (exit status, what was printed)."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STACKCHECK_LIBRARY", str(ROOT / "reference_assemblies"))
    monkeypatch.delenv("STACKCHECK_JOBS", raising=False)

    def run(*words: str, typed: str = "") -> tuple[int, str]:
        monkeypatch.setattr(sys, "stdin", io.StringIO(typed))
        status = main(words)
        shown = capsys.readouterr()
        assert "Traceback" not in shown.err
        return status, " ".join((shown.out + shown.err).split())

    run("teardown", "front-hub")
    return run


def job(name: str = "front-hub") -> Job:
    return JobFolder.open(Path("jobs") / name).job


def test_a_line_is_read_back_and_is_an_entry_with_its_sizes_and_its_direction(bench):
    status, said = bench("off", "left", "collar 22.02 cal, flange out")
    entry = job().found.entries[0]
    assert status == 0 and "22.02 mm (0.867 in)" in said and "Undo: stackcheck undo" in said
    assert (entry.end, entry.kind, entry.toward, entry.size("length").value_mm) == (0, "collar", "first", 22.02)


def test_what_was_typed_is_kept_as_it_was_typed(bench):
    bench("off", "loose", "thin ring 45 od 35 id .5, drip tray")
    assert job().offs[0].typed == "thin ring 45 od 35 id .5, drip tray" and job().offs[0].where == "drip tray"


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("long collar 22, gritty", "Gritty"),
        ("shim .060", "0.060 mm or 0.060 in"),
        ("collar 1,500", "may be read two ways"),
    ],
)
def test_a_line_that_would_have_to_be_guessed_is_refused_with_ways_to_say_it(line, why, bench):
    status, said = bench("off", "left", line)
    assert status == 3 and why in said and "Nothing was recorded." in said and not job().offs


@pytest.mark.parametrize("end", ["gear end", "gear", "gear-end", "Gear"])
def test_an_end_of_two_words_may_be_said_without_quotes(bench, end):
    """As it is written in the name of a place, or without its "end"."""
    bench("teardown", "pinion-shaft")
    status, _ = bench("off", end, "nut, rusty")
    assert status == 0 and job("pinion-shaft").offs[0].end == "gear end"


def test_an_end_that_only_one_of_two_open_jobs_has_says_which_job_is_meant(bench):
    bench("teardown", "pinion-shaft")
    assert bench("off", "input", "oil seal")[0] == 0
    assert [off.what for off in job("pinion-shaft").offs] == ["oil seal"] and not job().offs
    status, said = bench("undo")
    assert status == 3 and "--job front-hub or --job pinion-shaft" in said


def test_three_shim_rings_in_one_line_are_three_entries(bench):
    bench("teardown", "pinion-shaft")
    bench("off", "input", "3 shims .29 .29 .20 mic")
    assert [off.sizes["length"] for off in job("pinion-shaft").offs] == ["0.29 mm mic", "0.29 mm mic", "0.20 mm mic"]


def test_a_gap_in_one_line_is_no_entry(bench):
    status, said = bench("off", "left", "3.0 goes in, 3.5 does not")
    assert status == 0 and "Entry" not in said and list(job().readings(gap="free gap")) == [""] and not job().offs


def test_what_a_pack_measures_together_is_kept_beside_its_pieces(bench):
    bench("teardown", "pinion-shaft")
    bench("off", "input", "3 shims .29 .29 .20 mic")
    _, said = bench("off", "input", "pack 0.80 mic")
    assert "0.80" in said and len(job("pinion-shaft").offs) == 3
    assert "as a pack 0.8" in Path("jobs/pinion-shaft/journal.toml").read_text()


def test_lines_of_a_note_are_taken_all_or_none(bench):
    note = "left: axle nut\nleft: washer\nleft: collar 1,500\nright: seal\n"
    status, said = bench("off", "-", "--yes", typed=note)
    assert status == 3 and "note:3" in said and "None of the lines was taken." in said and not job().offs
    status, said = bench("off", "-", "--yes", typed=note.replace("1,500", "22.02 cal"))
    assert (
        status == 0
        and "4 lines taken." in said
        and [off.end for off in job().offs] == ["left", "left", "left", "right"]
    )


def test_lines_of_a_note_that_nobody_accepts_are_not_taken(bench, monkeypatch):
    monkeypatch.setattr("builtins.open", _no_terminal(open))
    status, said = bench("off", "-", typed="left: axle nut\n")
    assert status == 3 and "1 left: " in said and "say --yes" in said and not job().offs


def _no_terminal(real):
    def opened(path, *arguments, **named):
        if str(path) == "/dev/tty":
            raise OSError("no terminal")
        return real(path, *arguments, **named)

    return opened


@pytest.mark.parametrize(
    ("words", "where"),
    [
        (("1", "length", "22.01 mic"), {"entry": 1}), (("1", "22.01 mic"), {"entry": 1}),
        (("free gap", "3.0..3.5 feeler"), {"gap": "free gap"}),
        (("hub", "length", "57.97 depth mic"), {"place": "hub"}), (("spacer-tube", "length", "58.0 mic"), {"entry": 2}),
    ],
)  # fmt: skip
def test_a_measurement_goes_to_what_is_named(words, where, bench):
    bench("off", "left", "collar 22.02 cal")
    bench("off", "left", "spacer tube")
    assert bench("measure", *words)[0] == 0
    assert next(iter(job().readings(**where).values()))[-1].text == words[-1]


def test_a_finer_reading_counts_and_the_earlier_one_is_kept(bench):
    bench("off", "left", "spacer tube 57.96 cal")
    _, said = bench("measure", "1", "length", "57.94 57.95 57.94 mic")
    assert "57.94 mm" in said and "Before: 57.96" in said and "Both kept" in said
    bench("measure", "1", "length", "57.9 rule")
    assert job().found.entries[0].size("length").how == "micrometer" and len(job().readings(entry=1)["length"]) == 3


@pytest.mark.parametrize(
    "words",
    [
        ("measure", "7", "length", "2 mm"), ("measure", "hubb", "length", "2 mm"), ("measure", "1", "length", "two"),
        ("look", "9", "gritty"), ("look", "1"),
        ("look", "1", "--toward", "the moon"), ("look", "1", "--part", "colar"), ("note",), ("note", "--settled", "4"),
        ("photo", "x.jpg", "--card", "4"),
        ("off", "up", "nut"), ("off", "left"), ("decide", "9", "renew"), ("decide", "1", "burn"),
        ("buy", "seal", "--arrived"), ("buy", "seal", "0"),
        ("fit", "nowhere", "--entry", "1"), ("fit", "seal@left"), ("fit", "seal@left", "--entry", "9"),
        ("fit", "nut", "--state", "tightened"), ("fit", "axle nut", "--state", "tightened", "--value", "60 bananas"),
        ("off", "left", "-"), ("off", "left", "0"), ("teardown", "front-hub", "--job", "../../evil"),
        ("teardown", "front-hub", "--job", "[b]x"),
        ("close", "front-hub"), ("open", "nothing"), ("teardown", "no-such-hub"),
        ("off", "--job", "other", "left", "nut"),
    ],
)  # fmt: skip
def test_bad_input_is_refused_with_what_is_wanted_and_nothing_is_recorded(words, bench):
    bench("off", "left", "collar 22.02 cal")
    before = Path("jobs/front-hub/journal.toml").read_bytes()
    status, said = bench(*words)
    assert status == 3 and "mistake" in said
    assert Path("jobs/front-hub/journal.toml").read_bytes() == before


def test_undo_walks_back_and_says_what_it_took_back(bench):
    bench("off", "left", "axle nut")
    bench("look", "1", "rust")
    assert "rust" in bench("undo")[1] and "axle nut" in bench("undo")[1]
    assert not job().offs and "nothing to undo" in [bench("undo"), bench("undo")][1][1]


def test_a_note_that_is_open_stays_open_until_it_is_settled(bench):
    _, said = bench("note", "plugged", "the", "hose", "--until", "temporary")
    number = said.rstrip(".").split()[-1]
    assert "plugged the hose" in bench("open", "front-hub")[1]
    bench("note", "--settled", number)
    assert "plugged the hose" not in bench("open", "front-hub")[1]


def test_the_list_of_a_job_is_compared_explained_and_stacked_like_a_file(bench):
    bench("off", "left", "axle nut")
    assert bench("compare", "front-hub")[0] in (1, 2)
    assert bench("stack", "front-hub", "--found", "front-hub")[0] in (0, 1, 2)
    bench("off", "loose", "ring 45x35x0.5 mic")
    assert bench("explain", "front-hub", "2")[0] in (0, 2)


def test_callipers_that_were_compared_make_no_size_better_than_they_have_shown(bench):
    """One of three callipers reads 0.05 more: which one took a size is not known, so all of them are good to that."""
    bench("off", "left", "collar 18.02 cal")
    before = job().found.entries[0].size("length").good_to_mm
    bench("gauges", str(ROOT / "examples/gauges/three-callipers.toml"), "--job", "front-hub")
    after = job().found.entries[0].size("length").good_to_mm
    assert before == 0.03 and after > 0.06 and (Path("jobs/front-hub") / "gauges-1.toml").exists()
    assert "calliper: compared with each other, not with a calibrated standard" in bench("compare", "front-hub")[1]


def test_points_of_the_machine_stay_open_until_they_are_looked_at(bench):
    assert "points to look at: brake hose at full steer" in bench("open", "front-hub")[1]
    bench("points", "freight-tricycle", str(ROOT / "examples/points/tricycle.toml"), "--job", "front-hub")
    assert "brake hose at full steer; box latch" not in bench("open", "front-hub")[1]


def test_the_tag_does_not_give_away_what_is_expected_before_comparing(bench):
    bench("teardown", "front-hub", typed="0\n" * 8 + "\n2\n2\n1\n\n22.02 cal\n1\n/\n")
    assert "left collar" in bench("tag", "front-hub")[1]
    assert "not fitted: left collar" in bench("open", "front-hub")[1]
    bench("compare", "front-hub")
    assert "not fitted: left short collar" in bench("open", "front-hub")[1]
