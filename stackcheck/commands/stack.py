"""`stack`: lengths, gaps and forces with their sums."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import CANNOT_TELL, DONE, common_options, mistake, print_json, reference_and_list, said
from stackcheck.commands.load_point import load_point
from stackcheck.commands.temperatures import add_temperature, temperatures

LEAST_NMM, MOST_NMM = 100.0, 5e6
FORCES = (
    "forces", "unclamped_limits", "set_gaps", "supports", "disc_springs", "coil_springs", "self_thrusts", "warm_gaps",
    "states", "sweep",
)  # fmt: skip
"""What `--json` holds of forces, one list each."""
NOT_OF_A_PART = ("thrust_anywhere_n", "load_across", "respects", "next")
"""What it tells of the whole reference alone."""
OF_FORCES = ("torque", "angle", "temperature", "radial", "radial_at", "terms", "svg")
"""Options that ask for forces: for the whole reference only."""


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "stack",
        help="lengths and gaps with their sums",
        description="Add up the stacks of a reference, part by part, with the worst case of all limits; "
        "with --found also as found, and what changed.",
    )
    parser.add_argument("reference", metavar="REF", help='a reference, like freight-tricycle/front-hub or "front-hub"')
    parser.add_argument("--found", metavar="FOUND", type=Path, help="a teardown list of this reference")
    parser.add_argument(
        "--between", nargs=2, metavar=("FACE", "FACE"),
        help='the distance between two faces, like "leg@left" "hub/left"; a bare place means its nearer face',
    )  # fmt: skip
    parser.add_argument("--only", metavar="NAME", help="only this stack or gap")
    parser.add_argument(
        "--torque",
        metavar="TORQUE",
        help='tightened to this instead, like "50 N·m"; a range, "20..80 N·m", for a sweep',
    )
    parser.add_argument(
        "--angle", metavar="ANGLE", help='turned on by this angle after the torque, like "60 deg" or "1/4 turn"'
    )
    add_temperature(parser)
    parser.add_argument(
        "--radial",
        metavar="FORCE",
        help='a load across on one bearing, like "1.5 kN": what angular and taper bearings make of it along the axis',
    )
    parser.add_argument(
        "--radial-at",
        metavar="WHERE",
        help="where that load acts, to share it between the two bearings: "
        'like "hub", "hub/left" or "35 mm right of hub/right"',
    )
    parser.add_argument(
        "--terms",
        action="store_true",
        help="open every force to its terms: torque, stiffness, what each part carries, every cause",
    )
    parser.add_argument("--svg", metavar="FILE", type=Path, help="draw the sweep into this new file")
    common_options(parser)
    parser.set_defaults(command=_stack)


def _stack(options: argparse.Namespace) -> int:
    from stackcheck.result import compare
    from stackcheck.result.lengths import lengths

    _no_forces_of_a_part(options)
    reference, found = reference_and_list(options)
    if options.between:
        return _between(options, reference, found)
    asked = _asked(options, reference)
    comparison = compare(reference, found) if found is not None else None
    stacks, loops = lengths(reference, None) if comparison is None else (comparison.stacks, comparison.loops)
    if options.only is not None:
        known = [result.name for result in stacks] + [result.reference.loop.name for result in loops]
        if options.only not in known:
            raise mistake("--only", f'no stack or gap is called "{options.only}"', f"there are: {', '.join(known)}")
        stacks = tuple(result for result in stacks if result.name == options.only)
        loops = tuple(result for result in loops if result.reference.loop.name == options.only)
        _show_lengths(options, reference, stacks, loops, with_found=found is not None)
    else:
        _show_all(options, asked, reference, comparison, stacks, loops)
    known = [result.as_found.total for result in stacks] + [
        result.as_found.gap or result.as_found.measured for result in loops
    ]
    return DONE if all(each is not None for each in known) else CANNOT_TELL


def _no_forces_of_a_part(options: argparse.Namespace) -> None:
    """One stack, one gap or one distance is told by its lengths: what is asked of forces would be left out unsaid."""
    alone = "--between" if options.between else "--only" if options.only is not None else None
    if alone is None:
        return
    asked = [name for name in OF_FORCES if getattr(options, name) not in (None, False, [])]
    if options.between and options.only is not None:
        asked.insert(0, "only")
    if asked:
        raise mistake(f"--{asked[0]}", f"it does not go with {alone}, which tells lengths", f"leave out {alone}")


def _between(options: argparse.Namespace, reference: Any, found: Any) -> int:
    from stackcheck.present import as_json
    from stackcheck.present.blocks import show
    from stackcheck.present.stack_page import distance_page
    from stackcheck.result.lengths import between

    try:
        distance = between(reference, found, *options.between)
    except ValueError as problem:
        raise mistake(
            "--between", f"{' and '.join(options.between)}: {problem.args[0]}", f"places: {', '.join(reference.line)}"
        ) from None
    if options.json:
        print_json(as_json.distance(distance, with_found=found is not None))
    else:
        show(distance_page(reference, distance, with_found=found is not None))
    return DONE if distance.as_found.total is not None else CANNOT_TELL


def _show_lengths(options: argparse.Namespace, reference: Any, stacks: Any, loops: Any, *, with_found: bool) -> None:
    """One stack or gap alone: without forces, which load the numerical libraries."""
    from stackcheck.present import as_json
    from stackcheck.present.blocks import show
    from stackcheck.present.stack_page import lengths_page

    if options.json:
        print_json(
            as_json.lengths(reference, stacks, loops, with_found=with_found)
            | dict.fromkeys(FORCES, ())
            | dict.fromkeys(NOT_OF_A_PART)
        )
    else:
        show(lengths_page(reference, stacks, loops, with_found=with_found))


def _show_all(
    options: argparse.Namespace, asked: dict[str, Any], reference: Any, comparison: Any, stacks: Any, loops: Any
) -> None:
    from stackcheck.present import as_json
    from stackcheck.present.all_forces_page import forces_tree
    from stackcheck.present.blocks import show
    from stackcheck.present.stack_answer import said_tree, stack_answer, sweep_tree
    from stackcheck.present.states_json import states_tree
    from stackcheck.result.forces import all_forces, kept_forces, sweep
    from stackcheck.result.states import said_for, states

    found, best = (comparison.found, comparison.best) if comparison is not None else (None, None)
    torque, warm, angle = asked["torque"], asked["temperature"], asked["angle"]
    at = {"torque_nmm": None if torque is None or _is_range(torque) else torque.nominal, "angle": angle}
    if warm.states:
        answers = states(reference, found, best, loops, warm.states, **at)
        _show_states(options, reference, answers, kept_forces(reference, found, best), with_found=found is not None)
        return
    across = {"radial_n": asked["radial_n"], "radial_at": asked["radial_at"]}
    forces = all_forces(reference, found, best, heat=warm.heat, **across, **at)
    judged = states(reference, found, best, loops, said_for(reference, warm.heat), **at)
    swept = sweep(
        reference, found, torque=torque, temperature=warm.swept, angle=angle, heat=warm.heat, explanation=best
    )
    if options.svg is not None:
        _draw(options.svg, reference, swept, over_torque=_is_range(torque))
    if options.json:
        with_found = found is not None
        tree = as_json.lengths(reference, stacks, loops, with_found=with_found) | forces_tree(
            forces, with_found=with_found
        )
        tree |= {"states": states_tree(judged, with_found=with_found)}
        print_json(
            tree | {"sweep": sweep_tree(swept, with_found=with_found)} | said_tree(reference, comparison, loops, forces)
        )
    else:
        show(
            stack_answer(
                reference, comparison, stacks, loops, forces, swept, judged,
                over_torque=_is_range(torque), opened=options.terms,
            )
        )  # fmt: skip


def _show_states(options: argparse.Namespace, reference: Any, answers: Any, kept: Any, *, with_found: bool) -> None:
    """Several states side by side, in place of the sums and the forces of one."""
    from stackcheck.present.all_forces_page import forces_tree
    from stackcheck.present.blocks import show
    from stackcheck.present.states_json import states_tree
    from stackcheck.present.states_page import states_page

    if options.json:
        tree = forces_tree(kept, with_found=with_found)
        print_json(
            {"reference": reference.id, "states": states_tree(answers, with_found=with_found)}
            | {name: tree[name] for name in ("supports", "disc_springs", "coil_springs")}
        )
    else:
        show(states_page(reference, answers, kept, with_found=with_found))


def _asked(options: argparse.Namespace, reference: Any) -> dict[str, Any]:
    """Torque, temperature and angle as said, each inside the range that the formulas are meant for."""
    from stackcheck.formats.sizes import amount_of

    torque, angle = _amount(options, "torque"), _amount(options, "angle")
    warm = temperatures(options.temperature, reference)
    if warm.states:
        _only_side_by_side(options, torque)
    if _is_range(torque) and warm.swept is not None:
        raise mistake(
            "--temperature", "torque and temperature are both ranges", "sweep over one and give the other one value"
        )
    _something_answers(options, reference, warm)
    _check("--torque", torque, LEAST_NMM, MOST_NMM, "0.1 to 5000 N·m")
    radial = (
        said("--radial", options.radial, lambda words: amount_of("force", words))
        if options.radial is not None
        else None
    )
    _check("--radial", radial, 1.0, 1e6, "1 N to 1000 kN, one value")
    if _is_range(radial):
        raise mistake("--radial", f'"{options.radial[:60]}" is a range', "name one value")
    if options.radial_at is not None and radial is None:
        raise mistake("--radial-at", "no load is named", 'name it too, like --radial "1.5 kN"')
    _check("--angle", angle, 0.0, 720.0, "0 to 720 deg")
    if options.svg is not None and not (_is_range(torque) or warm.swept is not None):
        raise mistake("--svg", "there is no sweep to draw", 'name a range, like --torque "20..80 N·m"')
    return {
        "torque": torque,
        "temperature": warm,
        "angle": angle,
        "radial_n": None if radial is None else radial.nominal,
        "radial_at": None if options.radial_at is None else load_point(options.radial_at, reference),
    }


def _something_answers(options: argparse.Namespace, reference: Any, warm: Any) -> None:
    """What is asked for and would change no line of the answer is refused, not passed over."""
    if reference.joints:
        return
    for name in ("torque", "angle", "terms"):
        if getattr(options, name):
            raise mistake(f"--{name}", f"{reference.id} has no joint that is tightened", "leave it out")
    if warm.swept is not None:
        what = f"a sweep is over the forces of a joint, and {reference.id} has none"
        raise mistake("--temperature", what, "name one temperature")
    if warm.heat is not None and not (
        any(loop.closed_stack and not loop.set_by for loop in reference.loops) or _is_set_between_covers(reference)
    ):
        what = f"{reference.id} has no joint, and no gap that its lengths leave: nothing of it is told warm"
        raise mistake("--temperature", what, "leave it out")


def _is_set_between_covers(reference: Any) -> bool:
    from stackcheck.mechanics.set_pair import set_loops

    return bool(set_loops(reference))


def _only_side_by_side(options: argparse.Namespace, torque: Any) -> None:
    """States side by side tell what differs between them: what opens or sweeps one answer would be left out unsaid."""
    for name, is_said in (
        ("terms", options.terms),
        ("svg", options.svg),
        ("radial", options.radial),
        ("radial-at", options.radial_at),
    ):
        if is_said:
            raise mistake(f"--{name}", "it does not go with several states", "name one state, or leave it out")
    if _is_range(torque):
        raise mistake("--torque", "it is a range, and several states are asked for", "give it one value")


def _draw(file: Path, reference: Any, swept: Any, *, over_torque: bool) -> None:
    from stackcheck.formats.new_file import write_new
    from stackcheck.present.all_forces_page import LIMITS
    from stackcheck.present.names import capital_first
    from stackcheck.present.sweep_svg import sweep_svg

    joints = ", ".join(joint.name for joint in reference.joints)
    title = f"{reference.title}, rev {reference.revision}: sweep of the {joints}"
    try:
        drawing = sweep_svg(
            swept, over_torque=over_torque, title=title, note=capital_first(LIMITS).replace("yield. ", "yield.\n")
        )
    except (ValueError, IndexError):
        raise mistake(
            "--svg", "there is nothing to draw", "a reference with a joint whose torque and thread are given"
        ) from None
    write_new(file, drawing)


def _check(option: str, amount: Any, least: float, most: float, wanted: str) -> None:
    """Refuses what lies outside the range that the formulas are meant for."""
    if amount is None:
        return
    low, high = (amount.nominal if end is None else end for end in (amount.least, amount.most))
    if not least <= low <= high <= most:
        raise mistake(option, f'"{amount.text[:60]}" is out of range', f"name {wanted}")


def _amount(options: argparse.Namespace, dimension: str) -> Any:
    """A torque or an angle as said; a torque may be a range to sweep over."""
    from stackcheck.formats.sizes import amount_of

    text = getattr(options, dimension)
    return None if text is None else said(f"--{dimension}", text, lambda words: amount_of(dimension, words))


def _is_range(amount: Any) -> bool:
    return amount is not None and amount.least is not None and amount.least < amount.most
