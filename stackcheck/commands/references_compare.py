"""`references compare` and `references shares`: references and whole machines against each other."""

from __future__ import annotations

import argparse
from itertools import pairwise, zip_longest
from typing import Any

from stackcheck.commands.common import DIFFERS, DONE, common_options, library_of, mistake, print_json, read_all, refuse
from stackcheck.commands.named import for_machine, is_machine, named_reference, references_of_machine


def add(actions: Any) -> None:
    comparing = actions.add_parser(
        "compare",
        help="two references, or whole machines, against each other",
        description="What changed from one reference to the next: same, renumbered, resized, added, dropped, moved, "
        "turned. Machines (an id or a folder) are compared assembly by assembly, and the parts that are the same "
        "through all of them are listed. One reference with several variants is compared with itself: --first, "
        "--second.",
    )
    comparing.add_argument("references", metavar="REF", nargs="+", help="an id, a file, or machines: an id or a folder")
    comparing.add_argument(
        "--first",
        default="",
        metavar="MACHINE",
        help='the first as it is on one machine: "serial 42", "year 2009, serial 42", or the name of a variant',
    )
    comparing.add_argument(
        "--second", default="", metavar="MACHINE", help="the second likewise; with one REF, both are of it"
    )
    comparing.add_argument(
        "--mirrored", action="store_true", help="the second is of the other side: compare with its mirror image"
    )
    common_options(comparing)
    comparing.set_defaults(command=_compare)
    sharing = actions.add_parser("shares", help="which other assemblies hold the same parts")
    sharing.add_argument("reference", metavar="REF")
    sharing.add_argument("parts", metavar="PART", nargs="*", help="ids of parts; all of them where none is named")
    common_options(sharing)
    sharing.set_defaults(command=_shares)


def _compare(options: argparse.Namespace) -> int:
    names = options.references
    if len(names) == 1 and (options.first or options.second):
        names = names * 2
    if len(names) < 2:
        raise mistake(
            "references compare",
            "one reference is named",
            "name two: what was, and what is now; or two machines of the one: --first, --second",
        )
    machines = [is_machine(options, name) for name in names]
    if any(machines) and options.mirrored:
        raise mistake("--mirrored", "machines are named", "name two references, of the left and of the right")
    if all(machines):
        return _compare_machines(options, names)
    if any(machines) or len(names) > 2:
        wanted = "name two references, or machines only (an id or a folder)"
        raise mistake(
            "references compare",
            "machines and references are named together" if any(machines) else "more than two references are named",
            wanted,
        )
    from stackcheck.present.blocks import show
    from stackcheck.present.difference_page import difference_json, difference_page
    from stackcheck.references.difference import difference
    from stackcheck.references.mirror import mirrored

    first = for_machine(named_reference(options, names[0]), "--first", options.first)
    second = for_machine(named_reference(options, names[1]), "--second", options.second)
    answer = difference(first, mirrored(second) if options.mirrored else second)
    if options.json:
        print_json(difference_json(answer))
    else:
        show(difference_page(answer))
    return DIFFERS if answer.changes else DONE


def _compare_machines(options: argparse.Namespace, names: list[str]) -> int:
    from stackcheck.present.blocks import show
    from stackcheck.present.difference_page import machines_json, machines_page
    from stackcheck.references.generations import same_through, step

    said = (options.first, options.second)
    if any(said) and len(names) > 2:
        raise mistake("--first, --second", "more than two machines are named", "name two, or one of which both are")
    machines = [
        [for_machine(reference, option, words) for reference in references_of_machine(options, name)]
        for name, option, words in zip_longest(names, ("--first", "--second"), said, fillvalue="")
    ]
    steps = [step(first, second) for first, second in pairwise(machines)]
    names = [
        ", ".join(filter(None, (machine[0].machine, words)))
        for machine, words in zip_longest(machines, said, fillvalue="")
    ]
    through = same_through(steps)
    if options.json:
        print_json(machines_json(names, steps, through))
    else:
        show(machines_page(names, steps, through))
    changed = any(each.added or each.dropped or any(item.changes for item in each.assemblies) for each in steps)
    return DIFFERS if changed else DONE


def _shares(options: argparse.Namespace) -> int:
    from stackcheck.formats.source import did_you_mean
    from stackcheck.present.blocks import show
    from stackcheck.present.difference_page import shared_json, shared_page
    from stackcheck.references.shared import shared

    reference = named_reference(options, options.reference)
    for id in options.parts:
        if not reference.has_part(id):
            raise mistake(reference.id, f'unknown part "{id}"', did_you_mean(id, [part.id for part in reference.parts]))
    library = library_of(options)
    others, refused = read_all(library, list(library.files))
    met = shared(reference, others, options.parts)
    if options.json:
        print_json(shared_json(reference, met))
    else:
        show(shared_page(reference, options.parts, met, sum(other.id != reference.id for other in others)))
    return refuse(refused)
