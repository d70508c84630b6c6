"""References handed to somebody: a pack comes back as it was, layers cover one another,
a hostile file is only refused.
"""

from __future__ import annotations

import os
import stat
import zipfile
from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.errors import InputError
from stackcheck.formats import pack_file
from stackcheck.formats.library import Library, configured
from stackcheck.formats.pack_file import pack, unpack

SHIPPED = Path(__file__).parents[2] / "reference_assemblies"
GOOD = (SHIPPED / "freight-tricycle/front-hub.toml").read_text()


def packed(path: Path, **files: str | bytes) -> Path:
    """A zip archive with these names, as somebody else might make it."""
    with zipfile.ZipFile(path, "w") as archive:
        for name, text in files.items():
            archive.writestr(name, text)
    return path


def test_a_pack_comes_back_byte_for_byte_and_is_a_library(tmp_path, capsys):
    assert main(["references", "pack", str(tmp_path / "a.zip"), "--library", str(SHIPPED)]) == 0
    assert main(["references", "unpack", str(tmp_path / "a.zip"), str(tmp_path / "own")]) == 0
    for file in SHIPPED.glob("*/*.toml"):
        assert (tmp_path / "own" / file.relative_to(SHIPPED)).read_bytes() == file.read_bytes()
    assert list(Library(tmp_path / "own").files) == list(Library(SHIPPED).files)


def test_the_same_machines_make_the_same_pack(tmp_path):
    files = {"boat-trailer/hub.toml": SHIPPED / "boat-trailer/hub.toml"}
    for name in ("a.zip", "b.zip"):
        pack(files, tmp_path / name)
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()


def test_one_machine_can_be_packed_alone(tmp_path):
    main(["references", "pack", str(tmp_path / "a.zip"), "boat-trailer", "--library", str(SHIPPED)])
    assert {name.partition("/")[0] for name in zipfile.ZipFile(tmp_path / "a.zip").namelist()} == {"boat-trailer"}


HOSTILE = {
    "climbs": {"../evil.toml": GOOD}, "climbs inside": {"machine/../../evil.toml": GOOD},
    "absolute": {"/etc/evil.toml": GOOD},
    "windows": {"C:\\evil.toml": GOOD}, "backslash": {"machine\\evil.toml": GOOD}, "no folder": {"evil.toml": GOOD},
    "deep": {"a/b/c.toml": GOOD},
    "program": {"machine/run.py": "print(1)"}, "hidden": {"machine/.git": ""}, "capitals": {"Machine/Hub.toml": GOOD},
    "empty": {},
    "no reference": {"machine/hub.toml": "kind = 'as found'"}, "no toml": {"machine/hub.toml": "x = ["},
    "not text": {"machine/hub.toml": b"\xff\xfe"},
    "one rotten": {"machine/front-hub.toml": GOOD, "machine/b.toml": "kind = 'machine'"},
}  # fmt: skip


@pytest.mark.parametrize("files", HOSTILE.values(), ids=HOSTILE)
def test_a_hostile_pack_is_refused_whole_and_leaves_nothing_behind(files, tmp_path):
    archive = packed(tmp_path / "evil.zip", **files)
    with pytest.raises(InputError):
        unpack(archive, tmp_path / "own")
    assert [path.name for path in tmp_path.rglob("*")] == ["evil.zip"]


def test_a_link_in_a_pack_is_refused(tmp_path):
    link = zipfile.ZipInfo("machine/hub.toml")
    link.external_attr = (stat.S_IFLNK | 0o777) << 16
    with zipfile.ZipFile(tmp_path / "evil.zip", "w") as archive:
        archive.writestr(link, "/etc/passwd")
    with pytest.raises(InputError, match="the pack holds"):
        unpack(tmp_path / "evil.zip", tmp_path / "own")


def test_a_file_that_swells_is_read_no_farther_than_a_reference_may_reach(tmp_path, monkeypatch):
    monkeypatch.setattr(pack_file, "LARGEST_FILE", 10_000)
    with zipfile.ZipFile(tmp_path / "evil.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("machine/hub.toml", "#" * 5_000_000)
    with pytest.raises(InputError, match="far too large"):
        unpack(tmp_path / "evil.zip", tmp_path / "own")


@pytest.mark.parametrize("content", [b"", b"no zip", b"PK\x03\x04 torn"])
def test_what_is_no_pack_is_refused(content, tmp_path):
    (tmp_path / "a.zip").write_bytes(content)
    with pytest.raises(InputError, match="no pack"):
        unpack(tmp_path / "a.zip", tmp_path / "own")


def test_nothing_is_written_over(tmp_path):
    (tmp_path / "own/boat-trailer").mkdir(parents=True)
    (tmp_path / "own/boat-trailer/hub.toml").write_text("mine")
    pack(
        {
            "boat-trailer/hub.toml": SHIPPED / "boat-trailer/hub.toml",
            "boat-trailer/winch.toml": SHIPPED / "boat-trailer/winch.toml",
        },
        tmp_path / "a.zip",
    )
    with pytest.raises(InputError, match="exists already"):
        unpack(tmp_path / "a.zip", tmp_path / "own")
    assert (tmp_path / "own/boat-trailer/hub.toml").read_text() == "mine" and not (
        tmp_path / "own/boat-trailer/winch.toml"
    ).exists()


def test_an_earlier_folder_covers_a_later_one_file_by_file(tmp_path):
    own = tmp_path / "freight-tricycle/front-hub.toml"
    own.parent.mkdir()
    own.write_text(GOOD.replace('revision = "B"', 'revision = "Z"'))
    library = Library(tmp_path, (SHIPPED,))
    assert library.reference("front-hub").revision == "Z" and library.reference("rear-hub").revision == "B"
    assert library.machine("freight-tricycle").name == "Freight tricycle"


def test_folders_are_layered_from_the_command_line_and_from_a_file_here_or_above(tmp_path, monkeypatch, capsys):
    (tmp_path / "own").mkdir()
    (tmp_path / "below").mkdir()
    (tmp_path / "stackcheck.toml").write_text(f'libraries = ["own", "{SHIPPED.as_posix()}"]')
    assert configured(tmp_path / "below")[0] == tmp_path / "own"
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)
    monkeypatch.chdir(tmp_path / "below")
    assert main(["references", "show", "front-hub"]) == 0
    assert (
        main(["references", "show", "front-hub", "--library", os.pathsep.join([str(tmp_path / "own"), str(SHIPPED)])])
        == 0
    )


@pytest.mark.parametrize("text", ["libraries = 3", "libraries = [", 'libraries = ["nowhere"]'])
def test_a_file_that_names_no_folders_is_refused_with_what_is_wanted(text, tmp_path):
    (tmp_path / "stackcheck.toml").write_text(text)
    with pytest.raises(InputError, match="libraries = "):
        configured(tmp_path)
