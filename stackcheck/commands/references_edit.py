"""`references edit`: change values of somebody's own file, keep its remarks, and note the revision."""

from __future__ import annotations

import argparse
import re
from pathlib import Path
from typing import Any

from stackcheck.commands.common import DONE, common_options, mistake, print_json
from stackcheck.commands.named import named_reference


def add(actions: Any) -> None:
    editing = actions.add_parser(
        "edit",
        help="change values of a reference, keep its remarks, note the revision",
        description="Set values in the file of a reference: parts.collar-short.length=18.0 mm ±0.05, "
        "places.seal@left.toward=bearing, limits.seat gap.most=0.12 mm, "
        "variants.early.parts.collar-short.length=19.0 mm, assembly.replaced_by=machine/assembly. An empty value "
        "takes the key out. Everything else in the file stays as it is; a file that would have mistakes is not "
        "written.",
    )
    editing.add_argument("reference", metavar="REF")
    editing.add_argument("settings", metavar="NAME=VALUE", nargs="+")
    editing.add_argument("--what", required=True, help="what changed and why, for the history")
    editing.add_argument("--by", default="", help="initials")
    editing.add_argument("--revision", default="", help="the new revision; else the next letter or number")
    common_options(editing)
    editing.set_defaults(command=_edit)


def _edit(options: argparse.Namespace) -> int:
    import datetime

    from stackcheck.formats.reference_edit import edit_reference
    from stackcheck.model.reference import Revised
    from stackcheck.present.blocks import show
    from stackcheck.present.difference_page import difference_json, difference_page
    from stackcheck.references.difference import with_variants

    reference = named_reference(options, options.reference)
    revision = options.revision or next_revision(reference.revision)
    if not revision:
        raise mistake(
            reference.file, f'nobody can say what comes after revision "{reference.revision}"', "name it: --revision"
        )
    entry = Revised(revision=revision, date=datetime.date.today().isoformat(), what=options.what, by=options.by)
    answers = with_variants(*edit_reference(Path(reference.file), options.settings, entry))
    if options.json:
        print_json(
            {
                "file": reference.file,
                "revision": revision,
                "differences": [difference_json(answer) for answer in answers],
            }
        )
    else:
        show([block for answer in answers for block in difference_page(answer)])
    return DONE


def next_revision(revision: str) -> str:
    """The letter or number that follows, "" where the revision ends in neither.

    >>> [next_revision(text) for text in ("A", "Z", "B2", "9", "as fitted 2025-09", "draft")]
    ['B', 'AA', 'B3', '10', '', '']
    """
    if re.fullmatch(r"[A-Z]+", revision):
        head = revision.rstrip("Z")
        turned = "A" * (len(revision) - len(head))
        return (head[:-1] + chr(ord(head[-1]) + 1) if head else "A") + turned
    match = re.fullmatch(r"([A-Z]?)(\d{1,6})", revision)
    return f"{match[1]}{int(match[2]) + 1}" if match else ""
