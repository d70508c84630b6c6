"""Style, scripts and small drawings that stand inside every page, so that a page is one answer and asks for nothing more.

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


STYLE, PAD_SCRIPT, QUESTION_SCRIPT, SEND_SCRIPT = _text("page.css"), _text("pad.js"), _text("question.js"), _text("send.js")
ICON = "data:image/svg+xml;base64," + base64.b64encode(_text("icon.svg").encode()).decode()

POLICY = "; ".join((
    "default-src 'none'", f"style-src {_fingerprint(STYLE)}", f"script-src {' '.join(_fingerprint(script) for script in (PAD_SCRIPT, QUESTION_SCRIPT, SEND_SCRIPT))}",
    "img-src 'self' data:", "connect-src 'self'", "form-action 'self'", "frame-ancestors 'none'", "base-uri 'none'",
))  # fmt: skip
"""The content security policy of every page."""

OUTLINES = {
    "flange": '<path d="M42 16H92V44H42ZM30 5H42V55H30Z"/>',
    "step": '<path d="M46 7H92V53H46ZM28 19H46V41H28Z"/>',
    "hollow": '<path d="M36 7H88V53H36V44H72V16H36Z"/>',
    "chamfer": '<path d="M54 7H90V53H54L34 40V20Z"/>',
    "spring": '<path d="M36 5H90V26H82V12H36ZM36 55H90V34H82V48H36ZM82 20L50 23V27H90ZM82 40L50 37V33H90Z"/><circle cx="50" cy="18" r="4"/><circle cx="50" cy="42" r="4"/>',
    "mark": '<path d="M50 7H92V53H50ZM44 18L22 30L44 42Z"/>',
}
"""The named feature of a part toward the left, drawn on 120 by 60; toward the right it is the mirror picture."""


def shape_of(feature: str) -> str:
    """Which outline shows a feature; an arrow for one that has none of its own."""
    # Loaded here: it needs mechanics, and most pages draw nothing.
    from stackcheck.drawing.shapes import CHAMFERS, FLANGES, HOLLOWS, STEPS

    shapes = {"flange": FLANGES, "step": STEPS, "hollow": HOLLOWS, "chamfer": CHAMFERS, "spring": ("spring side",)}
    return next((shape for shape, features in shapes.items() if feature in features), "mark")
