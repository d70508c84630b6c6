"""Photos for a report: read, made small enough to send, and put into the document itself."""

from __future__ import annotations

from base64 import b64encode
from io import BytesIO
from pathlib import Path

from stackcheck.errors import InputError, Mistake
from stackcheck.report.content import Picture

LONGEST_SIDE = 1400
"""Dots; enough for half a page of A4."""


def photo(path: Path, *, words: str, card: str = "") -> Picture:
    """A photo with the words that stand for it, upright and without the place where it was taken.

    Raises:
        InputError: there is no such file, or it is no picture.
    """
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        with Image.open(path) as image:
            small = ImageOps.exif_transpose(image).convert("RGB")
            small.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    except (UnidentifiedImageError, Image.DecompressionBombError):
        raise _refusal(path, "is no photo", "name a picture, like a JPEG or PNG") from None
    except (OSError, ValueError, SyntaxError) as problem:
        raise _refusal(
            path, f"cannot be read ({getattr(problem, 'strerror', None) or problem})", "name a picture that is there"
        ) from None
    data = BytesIO()
    small.save(data, "JPEG", quality=82)
    return Picture(words=words, card=card, source=f"data:image/jpeg;base64,{b64encode(data.getvalue()).decode()}")


def _refusal(path: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(path), what=what, wanted=wanted)], consequence="The report was not made.")
