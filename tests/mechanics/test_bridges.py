"""A ring wide enough to press both rings of a bearing is told by its diameters, and what is doubtful stays so."""

from __future__ import annotations

import pytest

from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.bridges import MAY_PRESS_BOTH, NEEDS_SIZE, OVER_THE_SEAL, PRESSES_BOTH, bridges
from stackcheck.mechanics.effects import changed_by, effect
from stackcheck.mechanics.forces import joint_forces
from stackcheck.model.finding import Extra, TurnedRound
from stackcheck.value import replace
from tests.builders import found, size
from tests.mechanics.small import nut_hub
from tests.mechanics.test_joint_pull import FIXED

OURS = replace(nut_hub(), joints=(FIXED,))
RING = Extra(entries=(1,), after="collar-short", before="bearing@left")


def answers(ring: str, reference=OURS) -> list[str]:
    return [bridge.answer for bridge in effect(reference, found(ring), RING).bridges]


@pytest.mark.parametrize(("outside", "answer"), [(28, []), (36, []), (38.6, [MAY_PRESS_BOTH]), (43, [PRESSES_BOTH])])
def test_by_its_outside_it_reaches_the_outer_ring_of_a_20x47_bearing_or_does_not(outside, answer):
    """The outer ring begins at about 47 - 0.31 x 27 = 38.6, from 37.3 to 40.0. Makers' lists: 38.5 to 39 (from memory)."""
    assert answers(f"?ring/length=0.5/bore=20.5/outside={outside}") == answer


def test_without_its_diameter_nobody_can_tell():
    assert answers("?ring/length=0.5/bore=20.5") == [NEEDS_SIZE]


def test_past_the_shoulder_of_the_inner_ring_it_stands_over_the_seal():
    parts = tuple(
        replace(p, sizes=(*p.sizes, ("shoulder", size(28.8)))) if p.id == "bearing" else p for p in OURS.parts
    )
    plain = answers("?ring/length=0.5/bore=20.5/outside=28", replace(OURS, parts=parts))
    wide = answers("?ring/length=0.5/bore=20.5/outside=34", replace(OURS, parts=parts))
    assert OVER_THE_SEAL in wide and wide.count(OVER_THE_SEAL) == plain.count(OVER_THE_SEAL) + 1


def test_a_sound_hub_has_no_bridge_and_one_with_a_bridge_no_figure():
    assert bridges(as_wanted(OURS)) == ()
    (loop,) = joint_forces(changed_by(OURS, found("?ring/length=0.5/bore=20.5/outside=43"), RING), FIXED).loops
    assert loop.slides is None and "presses both rings past the balls" in loop.needs[0]


def flanged(**sizes):
    """The hub whose short collar is 43 wide only at its flange, which looks outward."""
    parts = tuple(
        replace(p, feature="flange", sizes=(*(each for each in p.sizes if each[0] != "outside"), ("outside", size(43.0)), *((n, size(v)) for n, v in sizes.items())))
        if p.id == "collar-short" else p for p in OURS.parts
    )  # fmt: skip
    places = tuple(replace(place, facing="first") if place.part == "collar-short" else place for place in OURS.places)
    return replace(OURS, parts=parts, places=places)


def test_a_flange_presses_both_rings_only_when_it_is_turned_to_the_bearing():
    """The narrow face of 28 stands on the inner ring; turned round, the flange of 43 reaches the outer one."""
    own = flanged(face_outside=28.0, feature_face_outside=43.0)
    (place,) = [place.name for place in own.places if place.part == "collar-short"]
    assert bridges(as_wanted(own)) == ()
    turned = bridges(changed_by(own, found(""), TurnedRound(places=(place,))))
    assert [bridge.answer for bridge in turned] == [PRESSES_BOTH]
    assert [bridge.answer for bridge in bridges(as_wanted(flanged()))] == [PRESSES_BOTH]


@pytest.mark.parametrize(
    ("facings", "answer"),
    # The outer ring of a 20x47 taper begins at 47 - 0.36 x 27 = 37.3 (35.1 to 38.9) on its wide side,
    # at 47 - 0.13 x 27 = 43.5 (42.4 to 45.4) on the other.
    [(("first", "second"), [PRESSES_BOTH]), (("second", "first"), []), (("", ""), [MAY_PRESS_BOTH])],
)
def test_which_way_a_taper_looks_decides_where_its_outer_ring_begins(facings, answer):
    """The ring lies before the left bearing: only where the wide face of the outer ring looks there is it reached."""
    tapers = replace(nut_hub(kind="taper bearing", facings=facings), joints=(FIXED,))
    assert answers("?ring/length=0.5/bore=20.5/outside=40", tapers) == answer
