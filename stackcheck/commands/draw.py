"""`draw`: as found above the centre line, the reference below."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from stackcheck.commands.common import DONE, library_option, list_in, mistake


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "draw",
        help="as found and reference as one picture",
        description="Draw the half section of an assembly: as found above the centre line, the reference below, at "
        "one scale and from the same face, with what differs in words at its item. In letters, or as SVG for paper "
        "and browser.",
    )
    parser.add_argument(
        "found", metavar="FOUND", type=Path, help="the teardown list, a TOML file, or the name of a job"
    )
    parser.add_argument(
        "--svg", metavar="FILE", type=Path, help="write an SVG file instead; never over a file that is there"
    )
    parser.add_argument(
        "--finding", metavar="N", type=int, help="only the neighbourhood of finding N, counted as compare lists them"
    )
    parser.add_argument(
        "--packs", action="store_true", help="draw repeats once and count them: for packs of many plates"
    )
    library_option(parser)
    parser.set_defaults(command=_draw)


def _draw(options: argparse.Namespace) -> int:
    from stackcheck.drawing.excerpt import detail, folded
    from stackcheck.drawing.layout import layout
    from stackcheck.result import compare

    found, reference = list_in(options, options.found)
    comparison = compare(reference, found)
    picture = layout(comparison)
    if options.packs:
        picture = folded(picture)
    if options.finding is not None:
        count = len(comparison.findings)
        if not 1 <= options.finding <= count:
            there = (
                f"there are {count}: name one of 1 to {count}"
                if count > 1
                else "there is one: name 1"
                if count
                else "there is none"
            )
            raise mistake("--finding", f"no finding {options.finding}", there)
        picture = detail(picture, comparison.findings[options.finding - 1].finding)
    if options.svg is not None:
        from stackcheck.drawing.svg import svg
        from stackcheck.formats.new_file import write_new

        write_new(options.svg, svg(picture))
        print(f"Written: {options.svg}")
        return DONE
    from stackcheck.drawing.picture_page import headline_text, words
    from stackcheck.drawing.terminal import terminal
    from stackcheck.present.blocks import show

    show([headline_text(picture)])
    sys.stdout.write("\n" + terminal(picture) + "\n")
    show(words(picture, only=options.finding))
    return DONE
