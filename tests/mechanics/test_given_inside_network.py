"""What a reference may give for the network of forces: stand-out of the inner rings, a crush sleeve, a gasket that gives."""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference, write_sound_reference
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.forces import joint_forces
from stackcheck.model.part import Amount
from stackcheck.value import replace
from tests.builders import size

ROOT = Path(__file__).parents[2]
PINION = Library(ROOT / "reference_assemblies").reference("orchard-tractor/pinion-shaft")


def pinion(part: str, *, sizes=None, **more):
    """The pinion shaft, one part of it with other sizes or keys."""

    def changed(each):
        kept = tuple(pair for pair in each.sizes if pair[0] not in (sizes or {}))
        return replace(each, sizes=(*kept, *(sizes or {}).items()), **more)

    return replace(PINION, parts=tuple(changed(each) if each.id == part else each for each in PINION.parts))


def loop(reference, **asked):
    (only,) = joint_forces(as_wanted(reference), reference.joints[0], **asked).loops
    return only


def force(newton: float) -> Amount:
    return Amount(text=f"{newton:g} N", dimension="force", nominal=newton)


def test_inner_rings_that_stand_out_of_both_bearings_do_what_a_shorter_tube_does():
    """0.05 out at each side, away from the tube: as a tube 0.10 shorter; the stand-out counts in gap and force alike."""
    standing_out = loop(pinion("bearing", sizes={"inner_standout": size(0.05)}))
    shorter = loop(pinion("spacer-tube", sizes={"length": size(58.47)}))
    assert shorter.slides.usual > 1e3
    assert standing_out.slides.usual == pytest.approx(shorter.slides.usual, rel=0.01)


def crush_sleeve(crushed_at_n: float):
    """A sleeve 0.3 longer than the tube that it stands instead of."""
    return pinion(
        "spacer-tube",
        kind="crush sleeve",
        crush_force=force(crushed_at_n),
        sizes={"length": size(58.57), "free_length": size(58.87)},
    )


def test_what_a_crush_sleeve_does_not_carry_the_bearings_do():
    """Crushed at 12 kN under 24.5 kN of tension: half is for the bearings, where a tube of that length leaves them free."""
    own = loop(crush_sleeve(12e3))
    sleeve = next(carried.usual for name, carried in own.carried_held if "Spacer tube" in name)
    assert 12e3 <= sleeve < 13e3
    assert own.held.usual == pytest.approx(own.pull_held.usual - sleeve, rel=1e-6)


def test_a_sleeve_that_the_nut_cannot_crush_leaves_the_bearings_free():
    assert loop(crush_sleeve(60e3)).held.usual == pytest.approx(0.0, abs=1.0)


def test_a_crush_sleeve_of_unknown_force_is_not_taken_for_a_tube():
    assert loop(pinion("spacer-tube", kind="crush sleeve")).needs == ("crush force of the spacer tube",)


def test_a_gasket_gives_way_from_its_free_length_to_its_clamped_one():
    """1.6 free, pressed to 1.5 by 100 kN/mm: past 10 kN it is as hard as the ring that it stands instead of."""
    stiff = Amount(text="100 kN/mm", dimension="stiffness", nominal=1e5)
    gasket = pinion(
        "preload-shim", kind="gasket", stiffness=stiff, sizes={"length": size(1.5), "free_length": size(1.6)}
    )
    assert loop(gasket).float_held.usual == pytest.approx(loop(PINION).float_held.usual, abs=0.002)


def test_a_crush_force_is_written_back_as_it_was_read(tmp_path):
    path = tmp_path / "pinion-shaft.toml"
    write_sound_reference(crush_sleeve(12e3), path)
    assert read_reference(path).part("spacer-tube").crush_force == force(12e3)
