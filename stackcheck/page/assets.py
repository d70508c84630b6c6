"""Style and scripts that stand inside every page, so that a page is one answer and asks for nothing more.

The policy of the page names their fingerprints: nothing else of that kind is ever applied or run.
"""

from __future__ import annotations

import base64
import hashlib
from importlib.resources import files


def _text(name: str) -> str:
    return files("stackcheck.page").joinpath("static", name).read_text(encoding="utf-8")


def _fingerprint(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


STYLE, PAD_SCRIPT, QUESTION_SCRIPT, SEND_SCRIPT = (
    _text("page.css"),
    _text("pad.js"),
    _text("question.js"),
    _text("send.js"),
)
ICON = "data:image/svg+xml;base64," + base64.b64encode(_text("icon.svg").encode()).decode()

POLICY = "; ".join((
    "default-src 'none'", f"style-src {_fingerprint(STYLE)}",
    f"script-src {' '.join(_fingerprint(script) for script in (PAD_SCRIPT, QUESTION_SCRIPT, SEND_SCRIPT))}",
    "img-src 'self' data:", "connect-src 'self'", "form-action 'self'", "frame-ancestors 'none'", "base-uri 'none'",
))  # fmt: skip
"""The content security policy of every page."""
