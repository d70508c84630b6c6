"""Two angular bearings that look the same way, against a third: the pair shares what the third takes alone."""

from __future__ import annotations

import pytest

from stackcheck.compare import explanations
from stackcheck.formats.found_file import read_found
from stackcheck.formats.reference_file import read_reference
from stackcheck.mechanics.arrangement import as_believed, as_wanted
from stackcheck.mechanics.effects import effect
from stackcheck.mechanics.forces import joint_forces
from stackcheck.model.finding import TurnedRound
from stackcheck.present.force_path_words import force_sentence
from tests.builders import found

SPINDLE = """
kind = "reference assembly"
format = 1

[assembly]
id = "spindle"
title = "Spindle, tandem pair against one"
revision = "A"
ends = ["nose", "tail"]
ends_seen_from = "standing in front, nose at the left hand"
source = { kind = "own record", state = "draft" }

[parts.spindle]
name = "Spindle with its collar"
kind = "shaft"
fixed = true

[parts.bearing]
name = "Spindle bearing"
standard = "7207 B"
feature = "wide face of the outer ring"
balls = 12
ball = "11.1 mm"

[parts.spacer]
name = "Inner spacer"
kind = "spacer tube"
length = "40.00 mm"
bore = "35.1 mm"
outside = "44 mm"
same_both_ways = true

[parts.housing]
name = "Housing, seat to seat"
kind = "housing"
length = "40.02 mm"
bore = "60 mm"
outside = "110 mm"
fixed = true

[parts.nut]
name = "Spindle nut"
kind = "nut"
length = "10 mm"
same_both_ways = true
duty = ["retention"]

[[stacks]]
name = "spindle stack"
through = "inner rings"
order = [
  "spindle",
  { place = "bearing@1", toward = "spacer" },
  { place = "bearing@2", toward = "spacer" },
  "spacer",
  { place = "bearing@3", toward = "spacer" },
  "nut",
]

[[stacks]]
name = "housing stack"
through = "outer rings"
order = ["bearing@1", "bearing@2", "housing", "bearing@3"]

[[limits]]
what = "preload offset"
between = ["housing", "bearing@3"]
least = "-0.04 mm"
most = "0.00 mm"
source = "own record"

[[joints]]
name = "spindle nut"
clamps = ["bearing@1", "bearing@3"]
thread = "M35x1.5"
torque = "80 N·m"
thread_condition = "oiled"
locked_by = "set screw in the nut"
"""

TURNED = """
kind = "as found"
format = 1
reference = "lathe/spindle"
revision = "A"
finished = true
off = [
  { end = "tail", what = "spindle nut" },
  { end = "tail", what = "spindle bearing", toward = "nose" },
  { end = "tail", what = "inner spacer" },
  { end = "tail", what = "spindle bearing", toward = "nose" },
  { end = "tail", what = "spindle bearing", toward = "tail" },
]
"""


@pytest.fixture
def spindle(tmp_path):
    path = tmp_path / "lathe" / "spindle.toml"
    path.parent.mkdir()
    path.write_text(SPINDLE, encoding="utf-8")
    return read_reference(path)


@pytest.fixture
def turned(tmp_path, spindle):
    path = tmp_path / "turned.toml"
    path.write_text(TURNED, encoding="utf-8")
    return read_found(path, lambda _: spindle)[0]


def test_what_the_third_bearing_carries_the_two_of_the_pair_carry_together(spindle):
    (loop,) = joint_forces(as_wanted(spindle), spindle.joints[0]).loops
    carried = {name: force.usual for name, force in loop.carried_held if name.startswith("balls")}
    one, two, three = carried.values()
    assert three == pytest.approx(loop.held.usual)
    assert one + two == pytest.approx(three, rel=0.01)
    assert one > 0.3 * three < 3 * two


def test_the_preload_of_a_tandem_pair_is_the_one_of_a_hand_sum(spindle):
    """Palmgren, d = 4.4e-4 / sin a (Q^2 / D)^(1/3) (NSK catalogue 15.1): the offset of 20 µm, the 6 µm by which the nut
    shortens the spacer and half rings, and less what 3 kN shorten the housing, are shared as d3 + d3 / 2^(2/3).
    """
    (loop,) = joint_forces(as_wanted(spindle), spindle.joints[0]).loops
    third = 0.0255 / (1 + 0.5 ** (2 / 3))
    sine = 0.6428
    ball = (third * sine / 4.4e-4) ** 1.5 * 11.1**0.5
    assert loop.held.usual == pytest.approx(12 * ball * sine, rel=0.08)


def test_one_of_the_pair_turned_leaves_its_fellow_to_carry_alone(spindle, turned):
    explanation = explanations(spindle, turned)[0]
    (loop,) = joint_forces(as_believed(spindle, turned, explanation), spindle.joints[0]).loops
    carried = {name: force.usual for name, force in loop.carried_held if name.startswith("balls")}
    one, _, three = carried.values()
    assert one > three > 100


def test_a_turned_bearing_of_a_pair_leaves_its_way_to_its_fellow_and_one_by_itself_leaves_none(spindle):
    """Said without the fellow it would be false: the spindle still holds both ways, with less."""
    looked = found("")
    words = {
        place: force_sentence(turned, effect(spindle, looked, turned), spindle)
        for place in ("bearing@1", "bearing@2", "bearing@3")
        for turned in [TurnedRound(places=(place,), toward="first")]
    }
    assert words["bearing@1"].endswith("what it should carry with spindle bearing 2 is left to that alone")
    assert words["bearing@2"].endswith("what it should carry with spindle bearing 1 is left to that alone")
    assert words["bearing@3"].endswith("the pair no longer holds both ways")
