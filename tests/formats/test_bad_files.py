"""A file that cannot be used: every mistake at once, each with its line, what was said and what is wanted.

`tests/bad_files/x.toml` stands beside `x.txt`, its whole expected message. Files whose name begins with found- are
teardown lists, those with machine- machines, those with gauges- readings of gauges, those with points- what was found
at points, all others references.
"""

import os
import re
from pathlib import Path

import pytest

from stackcheck.errors import InputError
from stackcheck.formats.found_file import read_found
from stackcheck.formats.gauges_file import read_gauges
from stackcheck.formats.library import Library
from stackcheck.formats.machine_file import read_machine
from stackcheck.formats.points_file import read_points
from stackcheck.formats.reference_file import read_reference
from tests.strategies import GOOD_LIBRARY

FOLDER = Path(__file__).parents[1] / "bad_files"
REFERENCES = Path(__file__).parents[2] / "reference_assemblies"
FILES = sorted(FOLDER.glob("*.toml"))
AVOIDED = re.compile(
    r"\b(error|invalid|warning|critical|wrong part|safe|fail\w*|pass|OK|correct|user|tolerance|illegal|fatal)\b",
    re.IGNORECASE,
)


def message_of(path: Path, shown_as: str = "") -> str:
    shown_as = shown_as or path.name
    with pytest.raises(InputError) as refusal:
        if path.name.startswith("found-"):
            read_found(path, Library(GOOD_LIBRARY).reference, shown_as=shown_as)
        elif path.name.startswith("machine-"):
            read_machine(path, shown_as=shown_as)
        elif path.name.startswith("gauges-"):
            read_gauges(path, shown_as=shown_as)
        elif path.name.startswith("points-"):
            read_points(path, Library(REFERENCES).machine, shown_as=shown_as)
        else:
            read_reference(path, shown_as=shown_as)
    return str(refusal.value)


def test_there_are_bad_files_and_each_has_its_message():
    assert FILES
    assert {file.stem for file in FILES} == {file.stem for file in FOLDER.glob("*.txt")}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_the_whole_message_is_as_it_stands_beside_the_file(file):
    assert message_of(file) + "\n" == file.with_suffix(".txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_message_holds_no_alarm_word_and_no_sign_that_a_terminal_obeys(file):
    message = message_of(file)
    shown = [line for line in message.splitlines() if not re.match(r" *\d+ \| ", line)]
    assert not AVOIDED.search("\n".join(shown))
    assert all(sign.isprintable() or sign == "\n" for sign in message)
    assert max(map(len, message.splitlines())) <= 160


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_windows_line_ends_change_no_message(file, tmp_path):
    copy = tmp_path / file.name
    copy.write_bytes(file.read_bytes().replace(b"\n", b"\r\n"))
    assert message_of(copy, file.name) == message_of(file)


def test_a_missing_file_is_named_with_one_that_is_like_it(tmp_path):
    (tmp_path / "hub.toml").write_text("")
    message = " ".join(message_of(tmp_path / "hbu.toml").split())
    assert "there is no such file" in message and f"did you mean {tmp_path / 'hub.toml'}?" in message


def test_a_missing_folder_is_said(tmp_path):
    said = " ".join(message_of(tmp_path / "nowhere" / "hub.toml").split())
    assert f"there is no folder {tmp_path / 'nowhere'} either" in said


def test_a_folder_is_no_file(tmp_path):
    assert "this is a folder" in message_of(tmp_path)


def test_a_name_that_no_disk_can_hold_is_refused(tmp_path):
    assert "cannot be read" in message_of(tmp_path / "hub\0.toml", "hub.toml")
    assert "cannot be read" in message_of(tmp_path / ("x" * 5000), "hub.toml")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read_is_said(tmp_path):
    path = tmp_path / "hub.toml"
    path.write_text("")
    path.chmod(0)
    assert "cannot be read (Permission denied)" in message_of(path)


def test_fifty_megabytes_are_refused_unread(tmp_path):
    path = tmp_path / "hub.toml"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    assert "the file has 50,000,000 bytes" in message_of(path)


def test_a_thousand_mistakes_are_counted_and_the_first_sixty_shown(tmp_path):
    path = tmp_path / "hub.toml"
    path.write_text(
        (FOLDER / "reference-loop.toml").read_text()
        + "".join(f"[parts.p{i}]\nname = 3\nkind = 'nut'\n" for i in range(1000))
    )
    message = message_of(path)
    assert "... and 940 more" in message and message.endswith("1000 mistakes in hub.toml. Nothing was compared.")
