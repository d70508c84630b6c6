"""`references check`: whether files are sound, whether every loop closes, and what is weak in them."""

from __future__ import annotations

import argparse
from typing import Any

from stackcheck.commands.common import DIFFERS, DONE, common_options, library_of, print_json, refuse
from stackcheck.commands.named import is_file, named_reference
from stackcheck.errors import InputError


def add(actions: Any) -> None:
    checking = actions.add_parser(
        "check",
        help="whether the files are sound, every loop closes, and what is weak in them",
        description="Read every reference (or the named ones, by id or file), show every mistake with its line, say "
        "for each loop which gap is left in the worst case of all limits, and name each weak place with its line and "
        "what mends it.",
    )
    checking.add_argument("references", metavar="REF", nargs="*")
    common_options(checking)
    checking.set_defaults(command=_check)


def _check(options: argparse.Namespace) -> int:
    from stackcheck.present.blocks import show
    from stackcheck.present.check_page import check_json, check_page

    names = options.references
    library = None if names and all(map(is_file, names)) else library_of(options)
    checked, refused = [], []
    for name in names or library.files:
        try:
            checked.append(_checked(named_reference(options, name)))
        except InputError as problem:
            refused.append(problem)
    if not names:
        refused += library.unsound_machines
    if options.json:
        print_json(check_json(checked, refused))
    else:
        show(check_page(checked, len(refused)))
    if refused:
        return refuse(refused)
    return DIFFERS if any(weakness.grade == "to mend" for one in checked for weakness, _ in one.weak) else DONE


def _checked(reference: Any) -> Any:
    from stackcheck.formats.mending import Lines
    from stackcheck.mechanics.chain import loops
    from stackcheck.present.check_page import Checked
    from stackcheck.references.weak import weaknesses

    lines = Lines(reference.file)
    weak = tuple((weakness, lines.of(weakness.about)) for weakness in weaknesses(reference))
    return Checked(reference=reference, loops=loops(reference), weak=weak)
