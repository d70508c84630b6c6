"""A report as one HTML file that needs nothing beside it, set for A4; the only place that knows the templating library.

jinja2 escapes every text; only our own drawings, whose texts are escaped already, go in as they are.
"""

from __future__ import annotations

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from stackcheck.drawing.plain_text import shown
from stackcheck.present.blocks import Heading, Rows, Text
from stackcheck.report.content import Report

TEMPLATES = Path(__file__).with_name("templates")


def html(report: Report) -> str:
    """The whole document."""
    environment = Environment(loader=FileSystemLoader(TEMPLATES), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    environment.filters["shown"] = shown
    environment.tests["heading"] = lambda block: isinstance(block, Heading)
    environment.tests["text"] = lambda block: isinstance(block, Text)
    environment.tests["rows"] = lambda block: isinstance(block, Rows)
    return environment.get_template("report.html").render(report=report)
