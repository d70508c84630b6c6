"""Pictures for the record: copied into the job's folder under our own names, without the place where they were taken.

The original is never moved or changed. What kind of picture a file is, is read from its content, not from its name.
"""

from __future__ import annotations

import os
from pathlib import Path

from stackcheck.errors import InputError, Mistake

PHOTOS = "photos"
LARGEST_BYTES = 60_000_000
_PLACE = 0x8825  # the GPS table of Exif 2.32 (CIPA DC-008-2019), 4.6.3
_ENDINGS = {"JPEG": ".jpg", "PNG": ".png", "WEBP": ".webp", "TIFF": ".tif", "GIF": ".gif"}


def bring_in(picture: Path, folder: Path, card: str) -> str:
    """Copy a picture into a job's folder; returns its name there ("photos/card-6.jpg").

    Raises:
        InputError: it is no picture that can be read, or cannot be copied.
    """
    from PIL import Image, UnidentifiedImageError

    try:
        if picture.stat().st_size > LARGEST_BYTES:
            raise _refusal(
                picture,
                "the file is larger than any photo",
                f"no picture needs more than {LARGEST_BYTES // 1_000_000} MB",
            )
        with Image.open(picture) as image:
            kind = image.format or ""
            if kind not in _ENDINGS:
                raise _refusal(
                    picture,
                    f"a picture of kind {kind or 'unknown'} cannot be kept",
                    f"bring it as one of {', '.join(_ENDINGS)}",
                )
            exif = image.getexif()
            if _PLACE in exif:
                del exif[_PLACE]
            own = {"quality": "keep"} if kind == "JPEG" else {}
            name = _free_name(
                folder / PHOTOS, f"card-{''.join(sign for sign in card if sign.isalnum()) or 'x'}", _ENDINGS[kind]
            )
            image.save(folder / PHOTOS / name, kind, exif=exif, **own)
    except UnidentifiedImageError:
        raise _refusal(
            picture, "this is no picture that can be read", f"bring it as one of {', '.join(_ENDINGS)}"
        ) from None
    except Image.DecompressionBombError:
        raise _refusal(picture, "the picture is far too large", "bring it smaller") from None
    except (OSError, ValueError, SyntaxError) as problem:
        raise _refusal(
            picture,
            f"cannot be brought in ({getattr(problem, 'strerror', None) or problem})",
            "look at the file and its name",
        ) from None
    return f"{PHOTOS}/{name}"


def _free_name(folder: Path, start: str, ending: str) -> str:
    """A name that is not taken; it is claimed by being made."""
    folder.mkdir(exist_ok=True)
    number = 1
    while True:
        name = f"{start}{'' if number == 1 else f'-{number}'}{ending}"
        try:
            os.close(os.open(folder / name, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
        except FileExistsError:
            number += 1
        else:
            return name


def _refusal(picture: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(picture), what=what, wanted=wanted)], consequence="Nothing was recorded.")
