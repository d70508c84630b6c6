"""Photos for a report: read from a file, checked by their first bytes, and put into the document itself."""

from __future__ import annotations

from base64 import b64encode
from pathlib import Path

from stackcheck.errors import InputError, Mistake
from stackcheck.report.content import Picture

_BEGINNINGS = ((b"\xff\xd8\xff", "image/jpeg"), (b"\x89PNG\r\n\x1a\n", "image/png"), (b"RIFF", "image/webp"))
LARGEST = 8_000_000
"""Bytes; a larger photo is refused rather than making a report nobody can send."""


def photo(path: Path, *, words: str, card: str = "") -> Picture:
    """A photo with the words that stand for it.

    Raises:
        InputError: there is no such file, it is no JPEG, PNG or WebP picture, or it is too large.
    """
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except OSError as problem:
        raise _refusal(path, f"cannot be read ({problem.strerror})", "name a picture that is there") from None
    if len(data) > LARGEST:
        raise _refusal(path, f"is larger than {LARGEST // 1_000_000} MB", "make a smaller copy for the report")
    kind = next((kind for start, kind in _BEGINNINGS if data.startswith(start)), "")
    if not kind or (kind == "image/webp" and data[8:12] != b"WEBP"):
        raise _refusal(path, "is no photo", "name a JPEG, PNG or WebP picture")
    return Picture(words=words, card=card, source=f"data:{kind};base64,{b64encode(data).decode()}")


def _refusal(path: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(path), what=what, wanted=wanted)], consequence="The report was not made.")
