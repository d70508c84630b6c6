"""States side by side say of two bearings and of a tension what one state alone says, and what is missing."""

from __future__ import annotations

from pathlib import Path

from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Rows
from stackcheck.present.states_page import states_page
from stackcheck.result import compare
from stackcheck.result.forces import kept_forces
from stackcheck.result.lengths import lengths
from stackcheck.result.states import states
from stackcheck.value import replace

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")
PINION = LIBRARY.reference("orchard-tractor/pinion-shaft")
PUMP = LIBRARY.reference("bilge-pump/shaft-bearings")


def page(reference: Reference, example: str = "") -> str:
    """Every text and every cell of it in one line, by the reference alone or as found beside it."""
    names = tuple(state.name for state in reference.states)
    found, best = None, None
    if not example:
        answers = states(reference, None, None, lengths(reference, None)[1], names)
    else:
        found, _ = read_found(next((ROOT / "examples").glob(f"{example}-*.toml")), LIBRARY.reference)
        comparison = compare(reference, found)
        best = comparison.best
        answers = states(reference, found, best, comparison.loops, names)
    blocks = states_page(reference, answers, kept_forces(reference, found, best), with_found=bool(example))
    cells = [cell for block in blocks if isinstance(block, Rows) for row in block.rows for cell in row]
    return " ".join([*(block.text for block in blocks if not isinstance(block, Rows)), *cells])


def without_torque(reference: Reference) -> Reference:
    return replace(reference, joints=tuple(replace(joint, torque=None) for joint in reference.joints))


def test_a_tension_that_cannot_be_told_says_what_is_missing():
    words = "tension of the flange nut cannot be told without the torque of the flange nut"
    assert words in page(without_torque(PINION)) and words in page(without_torque(PINION), "10")


def turned(reference: Reference, *facings: str) -> Reference:
    ways = dict(zip(("thrust-bearing@1", "thrust-bearing@2"), facings))
    return replace(
        reference,
        places=tuple(replace(place, facing=ways.get(place.name, place.facing)) for place in reference.places),
    )


def test_a_preload_that_is_there_only_if_the_outer_rings_are_held_says_so_in_every_state():
    said = page(turned(PUMP, "first", "second"))
    assert said.count("none unless the outer rings are held together; held: preload") == len(PUMP.states)
    assert "none unless" not in page(PUMP)


def test_a_pair_of_which_one_is_turned_round_is_held_one_way_only():
    """Nothing is missing that would tell its preload: there is none."""
    assert "no preload, and held one way only: both bearings look the same way" in page(PUMP, "16")
