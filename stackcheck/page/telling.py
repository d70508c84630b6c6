"""What is said on the page that a form leads to: carried by the device itself, in a cookie that the address names.

So nobody else reads it, nothing is forgotten when the server starts again, and loading that page again says it again.
Words that do not fit into a cookie are cut; what was recorded stands in the journal in full.
"""

from __future__ import annotations

import json
import zlib
from base64 import urlsafe_b64decode, urlsafe_b64encode
from secrets import token_urlsafe

from starlette.requests import Request
from starlette.responses import Response

COOKIE, FIELD = "told", "told"
KEPT_SECONDS = 3600
LONGEST_COOKIE, LONGEST_OPENED = 3800, 40_000


def tell(response: Response, word: str, said: tuple[str, ...]) -> None:
    """Give the device these words to keep under a word."""
    while len(kept := _packed(said)) > LONGEST_COOKIE:
        longest = max(said, key=len)
        said = tuple(line[: len(line) // 2] + "…" if line is longest else line for line in said)
    response.set_cookie(COOKIE, f"{word}.{kept}", httponly=True, samesite="strict", max_age=KEPT_SECONDS, path="/")


def new_word() -> str:
    return token_urlsafe(6)


def told(request: Request) -> tuple[str, ...]:
    """What this device was told under the word of this address; nothing where it carries something else."""
    word, _, kept = request.cookies.get(COOKIE, "").partition(".")
    if not word or request.query_params.get(FIELD) != word:
        return ()
    try:
        opened = zlib.decompressobj()
        lines = json.loads(opened.decompress(urlsafe_b64decode(kept.encode()), LONGEST_OPENED))
    except (ValueError, zlib.error, RecursionError):
        return ()
    return tuple(line for line in lines if isinstance(line, str)) if isinstance(lines, list) else ()


def _packed(said: tuple[str, ...]) -> str:
    return urlsafe_b64encode(zlib.compress(json.dumps(said).encode())).decode()
