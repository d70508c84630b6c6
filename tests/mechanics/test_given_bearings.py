"""What a reference or a list gives of the inside of a bearing takes the place of what is guessed."""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.errors import InputError
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference
from stackcheck.formats.reference_text import reference_text
from stackcheck.mechanics.arrangement import Arrangement, as_wanted, reference_line
from stackcheck.mechanics.axial.bearings import axial_play
from stackcheck.mechanics.bearing_change import deep_groove_play
from stackcheck.mechanics.bearing_laws import angular_inside, clearance_of_play, deep_groove_inside
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.lengths import Readings
from stackcheck.mechanics.static_limit import static_limit
from stackcheck.model.part import Amount
from stackcheck.value import replace
from tests.builders import reading, size

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")
HUB = LIBRARY.reference("freight-tricycle/front-hub")


def hub(**bearing):
    """The front hub with this said of its bearings; `sizes` are more sizes. The clamped tube is as long as the hub, so that end float is play."""
    more = tuple(bearing.pop("sizes", {}).items())
    if more and more[0][0] == "axial_play":
        return replace(
            hub(**bearing),
            parts=tuple(
                _even(replace(part, sizes=(*part.sizes, *more)) if part.id == "bearing" else part) for part in HUB.parts
            ),
        )
    return replace(
        HUB,
        parts=tuple(
            replace(part, sizes=(*part.sizes, *more), **bearing) if part.id == "bearing" else part for part in HUB.parts
        ),
    )


def _even(part):
    """A hub of just 58 between its faces, and a spacer tube that 17 kN bring down to that with the halves of the rings."""
    length = {"hub": 58.0, "spacer-tube": 58.02}.get(part.id)
    return (
        part
        if length is None
        else replace(
            part,
            sizes=tuple(
                (name, size(length, length, length) if name == "length" else each) for name, each in part.sizes
            ),
        )
    )


def end_float(own, arrangement: Arrangement | None = None):
    return joint_forces(arrangement or as_wanted(own), own.joints[0]).loops[0].float_slides


@pytest.mark.parametrize(("groove", "clearance"), [(0.2809, 0.010), (0.28, 0.03), (0.5, 0.0)])
def test_the_clearance_of_a_play_is_the_play_of_a_clearance(groove, clearance):
    play = axial_play(groove_distance_mm=groove, radial_clearance_mm=clearance)
    assert float(clearance_of_play(axial_mm=play, groove_distance_mm=groove)) == pytest.approx(clearance, abs=1e-12)


def test_a_play_read_in_its_place_is_worth_more_than_a_clearance_group():
    guessed, known = (
        end_float(replace(HUB, parts=tuple(map(_even, HUB.parts)))),
        end_float(hub(sizes={"axial_play": size(0.10, 0.09, 0.11)})),
    )
    assert known.most - known.least < 0.5 * (guessed.most - guessed.least)
    assert 0.10 < known.usual < 0.125  # and what the balls give under ±50 N
    assert deep_groove_play(hub(sizes={"axial_play": size(0.10, 0.09, 0.11)}).part("bearing")) == (0.09, 0.11)


def test_a_play_that_a_list_gives_counts_before_that_of_the_reference():
    own = hub(sizes={"axial_play": size(0.10, 0.09, 0.11)})
    readings = Readings(
        places={(place, "axial_play"): reading(0.16, 0.01) for place in ("bearing@left", "bearing@right")}
    )
    plain = as_wanted(own)
    seen = replace(plain, ruler=replace(plain.ruler, readings=readings))
    assert 0.16 < end_float(own, seen).usual < 0.175
    assert len(reference_line(own)) == len(own.places)


def test_balls_and_their_diameter_take_the_place_of_the_guess():
    inside = deep_groove_inside(hub(balls=7, sizes={"ball": size(7.938)}).part("bearing"))
    assert (inside.balls, inside.ball_mm) == (7, 7.938)
    assert inside.groove_distance_mm == pytest.approx(0.0345 * 7.938)
    pinion = LIBRARY.reference("orchard-tractor/pinion-shaft").part("bearing")
    assert angular_inside(replace(pinion, balls=12))[0] == 12


def test_a_static_rating_that_is_given_is_the_limit():
    c0 = Amount(text="6.55 kN", dimension="force", nominal=6550.0)
    limit = static_limit(hub(static_rating=c0).part("bearing"))
    assert (limit.force_n, limit.called) == (3275.0, "half of its static rating")
    pinion = replace(
        LIBRARY.reference("orchard-tractor/pinion-shaft").part("bearing"), static_rating=replace(c0, nominal=20_000.0)
    )
    assert static_limit(pinion).force_n == pytest.approx(20_000 / 0.26)  # Y0 of 40 degrees, ISO 76


def written(tmp_path, line: str) -> Path:
    text = (ROOT / "reference_assemblies/freight-tricycle/front-hub.toml").read_text(encoding="utf-8")
    file = tmp_path / "front-hub.toml"
    file.write_text(text.replace('standard = "6204 C3"', f'standard = "6204 C3"\n{line}'), encoding="utf-8")
    return file


def test_what_is_given_is_read_and_written_back(tmp_path):
    file = written(tmp_path, 'balls = 8\nball = "7.938 mm"\nstatic_rating = "6.55 kN"\naxial_play = "0.08..0.12 mm"')
    part = read_reference(file).part("bearing")
    assert (part.balls, part.static_rating.nominal, part.size("axial_play").high_mm) == (8, 6550.0, 0.12)
    again = tmp_path / "again.toml"
    again.write_text(reference_text(read_reference(file)), encoding="utf-8")
    assert read_reference(again).part("bearing") == part


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("balls = 1", "balls"),
        ('static_rating = "0 N"', "static rating is above 0"),
        ('axial_play = "soft"', "axial_play"),
    ],
)
def test_what_can_be_no_bearing_is_refused_with_its_line(tmp_path, line, said):
    with pytest.raises(InputError) as told:
        read_reference(written(tmp_path, line))
    assert said in str(told.value) and line in str(told.value)
