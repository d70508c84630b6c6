"""The play that a nut sets between two bearings: against the closed form of rollers in line contact, and what a guess costs."""

from __future__ import annotations

from math import radians, sin
from pathlib import Path

import pytest
from scipy.optimize import brentq

from stackcheck.errors import InputError
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.bearings import palmgren_tapers
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.set_gap import PAST_MM, set_gap
from stackcheck.mechanics.set_pair import set_loops
from stackcheck.model.part import Amount
from stackcheck.model.reference import Reference
from stackcheck.value import replace
from tests.builders import size

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")


def rear_hub(**inside) -> Reference:
    """The rear hub, both bearings with this inside."""
    plain = LIBRARY.reference("freight-tricycle/rear-hub")
    sizes = (("roller_length", inside.pop("roller_length")),) if "roller_length" in inside else ()
    return replace(plain, parts=tuple(
        replace(part, sizes=(*part.sizes, *sizes), **inside) if part.kind == "taper bearing" else part for part in plain.parts
    ))  # fmt: skip


def answer(reference: Reference, **more):
    ((joint, loop),) = set_loops(reference)
    return set_gap(as_wanted(reference), joint, loop, **more)


KNOWN = {
    "rollers": 17,
    "contact_angle": Amount(text="12.95 deg", dimension="angle", nominal=12.95),
    "roller_length": size(10.0),
}


def test_the_stiffness_of_a_taper_is_that_of_two_roller_contacts_in_a_row():
    """One contact of a steel roller gives by 3.84e-5 Q^0.9/l^0.8 mm; both of a roller are pressed alike.

    Source: Harris, Rolling Bearing Analysis, line contact after Palmgren (from memory).
    """
    load = 2000.0
    on_one = load / (17 * sin(radians(12.95)))
    moved = 2 * 3.84e-5 * on_one**0.9 / 10**0.8 / sin(radians(12.95))
    assert palmgren_tapers(rollers=17, roller_mm=10, contact_deg=12.95) * moved ** (10 / 9) == pytest.approx(
        load, rel=0.001
    )


def test_past_no_play_the_preload_is_that_of_two_rows_of_rollers_and_what_gives_beside_them():
    """2 (F/c)^0.9 + F/k = 0.02; between rigid parts it would be the rows alone, so the answer lies below that."""
    past = answer(rear_hub(**KNOWN)).past_n
    c = palmgren_tapers(rollers=17, roller_mm=10, contact_deg=12.95)
    rigid = brentq(lambda force: 2 * (force / c) ** 0.9 - PAST_MM, 1, 1e5)
    soft = brentq(lambda force: 2 * (force / c) ** 0.9 + force / 1e5 - PAST_MM, 1, 1e5)
    assert soft * 0.7 < past.least < past.usual < rigid * 1.1
    assert past.most < rigid * 1.2


def test_what_the_reference_gives_of_the_rollers_narrows_the_answer():
    guessed, known = (answer(reference) for reference in (rear_hub(), rear_hub(**KNOWN)))
    assert known.past_n.most - known.past_n.least < guessed.past_n.most - guessed.past_n.least
    assert any("contact angle 10 to 16 degrees" in default for default in guessed.defaults)
    assert known.defaults == ()


def test_guessed_rollers_and_angle_make_a_factor_of_two_of_the_stiffness():
    """Rollers and angle all at their least, and all at their most, against the middle: mechanics of a taper nobody knows."""
    least, usual, most = (
        palmgren_tapers(rollers=17 * z, roller_mm=9.75 * length, contact_deg=angle)
        for z, length, angle in ((0.85, 0.8, 10), (1, 1, 13), (1.15, 1.2, 16))
    )
    assert 2 < usual / least < 3 and 2 < most / usual < 3


def test_a_dial_reads_the_play_and_the_give_of_the_rollers():
    exact = Interval(nominal_mm=0.05, least_mm=0.05, most_mm=0.05)
    read = answer(rear_hub(**KNOWN), measured=exact).float_mm
    assert 0.05 < read.least <= read.usual <= read.most < 0.054


def test_bearings_that_both_look_one_way_are_not_guessed_at():
    reference = rear_hub()
    places = tuple(
        replace(place, facing="second") if place.name == "bearing-small" else place for place in reference.places
    )
    gap = answer(replace(reference, places=places))
    assert gap.past_n is None and "look at each other" in gap.needs[0]


def test_a_contact_angle_beyond_upright_is_refused_with_its_line(tmp_path):
    text = (ROOT / "reference_assemblies/freight-tricycle/rear-hub.toml").read_text(encoding="utf-8")
    file = tmp_path / "rear-hub.toml"
    file.write_text(
        text.replace('standard = "30204"', 'standard = "30204"\ncontact_angle = "95 deg"'), encoding="utf-8"
    )
    with pytest.raises(InputError, match="between 0 and 90") as told:
        read_reference(file)
    assert 'contact_angle = "95 deg"' in str(told.value)
