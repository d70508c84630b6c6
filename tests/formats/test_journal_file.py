"""A journal: what was acknowledged is there, in sequence, whatever happened in between."""

from __future__ import annotations

import errno
import os
import tomllib
from multiprocessing import get_context
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stackcheck.errors import InputError
from stackcheck.formats import journal_file
from stackcheck.formats.journal_file import JOURNAL_FILE, Journal

FIRST = {"did": "begun", "reference": "workshop/jockey"}
texts = st.text(min_size=1, max_size=40)  # a text that says nothing is left out


def journal(folder: Path, *whats: str) -> Journal:
    """A journal with a beginning and one event for each word."""
    made = Journal.new(folder, FIRST)
    for what in whats:
        made.append([{"did": "off", "what": what}])
    return made


def whats(read: Journal) -> list[str]:
    return [event["what"] for event in read.events if "what" in event]


def test_a_journal_is_plain_toml_that_anybody_can_read(tmp_path):
    journal(tmp_path / "job", 'collar "short"')
    tree = tomllib.loads((tmp_path / "job" / JOURNAL_FILE).read_text())
    assert tree["kind"] == "journal" and [event["number"] for event in tree["event"]] == [1, 2]
    assert tree["event"][1]["what"] == 'collar "short"'


@given(typed=st.lists(texts, max_size=5))
@settings(deadline=None, max_examples=50)
def test_every_text_comes_back_as_it_was_typed(typed, tmp_path_factory):
    folder = tmp_path_factory.mktemp("jobs") / "job"
    journal(folder, *typed)
    assert whats(Journal.open(folder)) == typed


@given(cut=st.integers(1, 200))
@settings(deadline=None, max_examples=60)
def test_a_torn_last_event_is_cut_off_and_kept_and_said_and_nothing_before_it_is_lost(cut, tmp_path_factory):
    folder = tmp_path_factory.mktemp("jobs") / "job"
    whole = journal(folder, "nut", "washer", "collar").path
    data = whole.read_bytes()
    last = data.rindex(b"[[event]]")
    cut = min(cut, len(data) - last - 2)
    whole.write_bytes(data[:-cut])
    read = Journal.open(folder)
    if cut == 1:  # only the blank line behind it is gone: the event is whole
        assert whats(read) == ["nut", "washer", "collar"] and not read.reports
        return
    assert whats(read) == ["nut", "washer"]
    assert "torn by a crash" in read.reports[0]
    assert [file.read_bytes() for file in folder.glob("torn-*.txt")] == [data[last:-cut]]
    assert whats(Journal.open(folder)) == ["nut", "washer"] and not Journal.open(folder).reports


def test_what_is_said_after_a_torn_event_takes_its_number(tmp_path):
    path = journal(tmp_path / "job", "nut", "washer").path
    path.write_bytes(path.read_bytes()[:-20])
    read = Journal.open(tmp_path / "job")
    assert read.append([{"did": "off", "what": "collar"}])[0]["number"] == 3
    assert whats(Journal.open(tmp_path / "job")) == ["nut", "collar"]


def test_lines_that_were_accepted_together_stand_or_fall_together(tmp_path):
    """A pasted note is accepted as a whole; half of it in the record would look like a teardown that stopped."""
    made = journal(tmp_path / "job", "nut")
    before = made.path.stat().st_size
    made.append([{"did": "off", "what": what} for what in ("washer", "collar", "seal")])
    data = made.path.read_bytes()
    ends = [
        before + index + 2
        for index in range(len(data) - before - 2)
        if data[before + index : before + index + 2] == b"\n\n"
    ]
    made.path.write_bytes(data[: ends[1]])
    assert whats(Journal.open(tmp_path / "job")) == ["nut"]


def test_an_event_that_was_changed_by_hand_is_kept_and_reported(tmp_path):
    path = journal(tmp_path / "job", "nut", "washer").path
    path.write_text(path.read_text().replace('what = "nut"', 'what = "bolt"'))
    read = Journal.open(tmp_path / "job")
    assert whats(read) == ["bolt", "washer"] and "event 2" in read.reports[0] and "changed by hand" in read.reports[0]


def test_a_damaged_event_costs_only_itself(tmp_path):
    path = journal(tmp_path / "job", "nut", "washer", "collar").path
    path.write_text(path.read_text().replace('what = "washer"', 'what = "wash'))
    read = Journal.open(tmp_path / "job")
    assert whats(read) == ["nut", "collar"] and read.events[2]["did"] == "damaged" and "is damaged" in read.reports[0]


def test_a_full_disk_is_said_and_leaves_the_journal_as_it_was(tmp_path, monkeypatch):
    made = journal(tmp_path / "job", "nut")
    write, before = os.write, made.path.read_bytes()

    def half_then_full(file: int, data: bytes) -> int:
        write(file, data[: len(data) // 2])
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(journal_file.os, "write", half_then_full)
    with pytest.raises(InputError, match="could not be saved"):
        made.append([{"did": "off", "what": "washer"}])
    assert made.path.read_bytes() == before and whats(Journal.open(tmp_path / "job")) == ["nut"]


def test_a_second_job_is_never_begun_over_a_first_one(tmp_path):
    journal(tmp_path / "job", "nut")
    with pytest.raises(InputError, match="there is a job already"):
        Journal.new(tmp_path / "job", FIRST)
    assert whats(Journal.open(tmp_path / "job")) == ["nut"]


@pytest.mark.parametrize("text", ["", "kind = 'as found'\n", "\x00\x01", "[[event]]\n"])
def test_a_file_that_is_no_journal_is_refused(text, tmp_path):
    (tmp_path / JOURNAL_FILE).write_text(text)
    with pytest.raises(InputError, match="no journal"):
        Journal.open(tmp_path)


def _write_many(folder: str, name: str, count: int) -> None:
    own = Journal.open(Path(folder))
    for number in range(count):
        own.append([{"did": "off", "what": f"{name} {number}"}])


def test_two_programs_on_one_job_lose_nothing_and_keep_each_its_sequence(tmp_path):
    journal(tmp_path / "job")
    context = get_context("spawn")
    writers = [context.Process(target=_write_many, args=(str(tmp_path / "job"), name, 1000)) for name in ("a", "b")]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    read = Journal.open(tmp_path / "job")
    assert [event["number"] for event in read.events] == list(range(1, 2002))
    for name in ("a", "b"):
        assert [what for what in whats(read) if what.startswith(name)] == [f"{name} {number}" for number in range(1000)]


def test_a_program_that_is_open_sees_what_another_one_added(tmp_path):
    mine = journal(tmp_path / "job", "nut")
    Journal.open(tmp_path / "job").append([{"did": "off", "what": "washer"}])
    assert [event["what"] for event in mine.refresh()] == ["washer"] and mine.refresh() == []


# --- read on from where it was read ----------------------------------------------------------------------------------


def test_a_journal_that_was_added_to_goes_on(tmp_path):
    first = journal(tmp_path / "job", "nut")
    Journal.open(tmp_path / "job").append([{"did": "off", "what": "washer"}])
    assert first.goes_on() and [event["what"] for event in first.refresh()] == ["washer"]
    assert first.goes_on() and first.refresh() == []


def test_a_copy_reads_and_records_without_the_one_it_was_made_from(tmp_path):
    first = journal(tmp_path / "job", "nut")
    first.copy().append([{"did": "off", "what": "washer"}])
    assert whats(first) == ["nut"]
    first.refresh()
    assert whats(first) == whats(Journal.open(tmp_path / "job")) == ["nut", "washer"]


@pytest.mark.parametrize("exchanged", [False, True], ids=["written over", "put in its place"])
def test_a_beginning_that_was_changed_by_hand_is_noticed_even_where_it_keeps_its_length(tmp_path, exchanged):
    read = journal(tmp_path / "job", "nut", "seal")
    Journal.open(tmp_path / "job").append([{"did": "off", "what": "washer"}])
    changed = read.path.read_bytes().replace(b'"nut"', b'"cup"')
    if exchanged:
        (tmp_path / "new").write_bytes(changed)
        os.replace(tmp_path / "new", read.path)
    else:
        read.path.write_bytes(changed)
    assert not read.goes_on()


def test_a_journal_that_is_gone_or_was_cut_does_not_go_on(tmp_path):
    read = journal(tmp_path / "job", "nut", "seal")
    os.truncate(read.path, 40)
    assert not read.goes_on()
    read.path.unlink()
    assert not read.goes_on()
