"""A report as one HTML file that needs nothing beside it, set for A4; the only place that knows the templating library.

jinja2 escapes every text; only our own drawings, whose texts are escaped already, go in as they are.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from stackcheck.drawing.plain_text import shown
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.report.content import Report
from stackcheck.value import Value

TEMPLATES = Path(__file__).with_name("templates")


class Lines(Value):
    """Paragraphs that belong together as a list."""

    texts: tuple[str, ...]


def html(report: Report) -> str:
    """The whole document."""
    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters |= {"shown": shown, "grouped": grouped}
    for name, kind in (("heading", Heading), ("text", Text), ("rows", Rows), ("lines", Lines)):
        environment.tests[name] = lambda block, kind=kind: isinstance(block, kind)
    return environment.get_template("report.html").render(report=report)


def grouped(blocks: Iterable[Block]) -> list[Block | Lines]:
    """The blocks with paragraphs that begin with a dash put together as one list."""
    groups: list[Block | Lines] = []
    for block in blocks:
        if not isinstance(block, Text) or block.mark.strip() != "-":
            groups.append(block)
        elif groups and isinstance(groups[-1], Lines):
            groups[-1] = Lines((*groups[-1].texts, block.text))
        else:
            groups.append(Lines((block.text,)))
    return groups
