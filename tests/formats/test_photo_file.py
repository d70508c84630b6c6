"""Pictures in the record: copies without the place where they were taken, and nothing that is no picture."""

from __future__ import annotations

import pytest
from PIL import Image

from stackcheck.errors import InputError
from stackcheck.formats.photo_file import bring_in


def picture(path, *, kind: str = "JPEG"):
    exif = Image.Exif()
    exif[0x0132] = "2026:03:02 08:10:00"
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (53.0, 33.0, 0.0)
    Image.new("RGB", (40, 30), "grey").save(path, kind, exif=exif)
    return path


def test_the_copy_keeps_its_time_and_loses_its_place_and_the_original_is_untouched(tmp_path):
    taken = picture(tmp_path / "a.jpg")
    before = taken.read_bytes()
    name = bring_in(taken, tmp_path, "6")
    copied = Image.open(tmp_path / name).getexif()
    assert name == "photos/card-6.jpg" and copied[0x0132].startswith("2026") and 0x8825 not in copied
    assert 0x8825 in Image.open(taken).getexif() and taken.read_bytes() == before


def test_a_second_picture_of_the_same_card_gets_a_name_of_its_own(tmp_path):
    taken = picture(tmp_path / "a.jpg")
    assert [bring_in(taken, tmp_path, "6"), bring_in(taken, tmp_path, "6")] == [
        "photos/card-6.jpg",
        "photos/card-6-2.jpg",
    ]


def test_the_kind_is_read_from_the_content_and_a_hostile_card_makes_no_path(tmp_path):
    taken = picture(tmp_path / "a.jpg", kind="PNG")
    assert bring_in(taken, tmp_path, "../../6") == "photos/card-6.png"


@pytest.mark.parametrize("content", [b"", b"no picture", b"\xff\xd8\xff\xe0 torn", b"GIF89a"])
def test_what_is_no_picture_is_refused(content, tmp_path):
    (tmp_path / "a.jpg").write_bytes(content)
    with pytest.raises(InputError, match="picture|brought in"):
        bring_in(tmp_path / "a.jpg", tmp_path, "6")


def test_a_picture_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(InputError, match="cannot be brought in"):
        bring_in(tmp_path / "none.jpg", tmp_path, "6")
