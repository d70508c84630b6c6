"""The three widths of a taper bearing: T over both backs, B of the inner ring, C of the outer one (ISO 355).

30206 is 17.25 wide as it stands, its inner ring 16.00, its outer one 14.00: the back of the outer ring stands 1.25 out
where the small ends of the rollers look, that of the inner ring 3.25 at the other side.
"""

from __future__ import annotations

import pytest

from stackcheck.compare import explanations
from stackcheck.formats.found_file import read_found
from stackcheck.formats.reference_file import read_reference
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.chain import as_found_sum, distance, loops, stack_sum
from stackcheck.mechanics.forces import joint_forces
from stackcheck.present.all_forces_page import forces_how
from stackcheck.result.forces import all_forces

PINION = """
kind = "reference assembly"
format = 1

[assembly]
id = "pinion"
title = "Pinion on two tapers"
revision = "A"
ends = ["gear", "flange"]
ends_seen_from = "gear at the left hand"
source = { kind = "own record", state = "draft" }

[parts.pinion]
name = "Pinion with its shaft"
kind = "gear"
fixed = true

[parts.bearing]
name = "Pinion bearing"
standard = "30206"
feature = "small end of the rollers"
rollers = 17
roller_length = "11 mm"
contact_angle = "14.04 deg"

[parts.tube]
name = "Spacer tube"
kind = "spacer tube"
length = "40.00 mm ±0.001"
bore = "30.5 mm"
outside = "40 mm"
same_both_ways = true

[parts.carrier]
name = "Carrier, shoulder to shoulder"
kind = "housing"
length = "37.45 mm ±0.001"
bore = "50 mm"
outside = "90 mm"
fixed = true

[parts.nut]
name = "Nut"
kind = "nut"
length = "18 mm"
same_both_ways = true
duty = ["retention"]

[[stacks]]
name = "shaft stack"
through = "inner rings"
order = ["pinion", { place = "bearing@gear", toward = "tube" }, "tube", { place = "bearing@flange", toward = "tube" }, "nut"]

[[stacks]]
name = "case stack"
through = "outer rings"
order = ["bearing@gear", "carrier", "bearing@flange"]

[[limits]]
what = "float"
between = ["carrier", "bearing@flange"]
least = "0.00 mm"
most = "1.00 mm"
source = "own record"

[[joints]]
name = "nut"
clamps = ["bearing@gear", "bearing@flange"]
thread = "M20x1.5"
torque = "60 N·m"
thread_condition = "oiled"
locked_by = "stake"
"""

AWAY = (
    ('{ place = "bearing@gear", toward = "tube" }', '{ place = "bearing@gear", toward = "gear" }'),
    ('{ place = "bearing@flange", toward = "tube" }', '{ place = "bearing@flange", toward = "flange" }'),
)
"""Face to face."""

WIDTH = ('standard = "30206"', 'standard = "30206"\nouter_width = "14 mm"')


@pytest.fixture
def pinion(tmp_path):
    def read(*edits):
        text = PINION
        for was, now in edits:
            assert was in text
            text = text.replace(was, now)
        path = tmp_path / "mill" / "pinion.toml"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return read_reference(path)

    return read


def float_of(reference):
    (state,) = loops(reference)
    return state


def test_back_to_back_the_outer_rings_stand_out_of_both_inner_ones_toward_the_middle(pinion):
    """40.00 of tube less 37.45 of carrier less 1.25 at each bearing: 0.05, less up to 0.32 a bearing of its own limits."""
    state = float_of(pinion())
    assert state.gap.nominal_mm == pytest.approx(40.00 - 37.45 - 2 * 1.25)
    assert (state.gap.least_mm, state.gap.most_mm) == (
        pytest.approx(0.05 - 2 * 0.32 - 0.002),
        pytest.approx(0.05 + 0.002),
    )


def test_face_to_face_it_is_the_inner_rings_that_stand_out_and_the_outer_width_must_be_known(pinion):
    assert float_of(pinion(*AWAY)).needs == ("outer ring width of Pinion bearing",)
    state = float_of(pinion(*AWAY, WIDTH))
    assert state.gap.nominal_mm == pytest.approx(40.00 - 37.45 + 2 * 3.25)


def test_from_back_to_back_a_taper_bearing_is_as_wide_as_its_standard_says(pinion):
    """The inner ring's back stands against the pinion, the outer one's in the carrier."""
    reference = pinion()
    wide = distance(reference, "pinion", "carrier/gear")
    assert wide.total.nominal_mm == pytest.approx(17.25)
    assert distance(reference, "pinion", "nut").total.nominal_mm == pytest.approx(16 + 40 + 16)


def test_an_outer_ring_of_which_no_width_is_given_is_not_added_up_as_if_it_were_as_wide_as_both(pinion):
    assert stack_sum(pinion(), "case stack").total is None
    assert stack_sum(pinion(WIDTH), "case stack").total.nominal_mm == pytest.approx(14 + 37.45 + 14)


def test_the_network_of_forces_stands_on_the_same_widths_as_the_gap(pinion):
    """A carrier 0.15 longer takes the float and 0.10 more: as preload that is kilonewtons, and without it there is none."""
    loose, tight = (
        joint_forces(as_wanted(pinion(("37.45 mm", f"{length} mm"))), pinion().joints[0]).loops[0]
        for length in (37.00, 37.60)
    )
    assert loose.held.usual < 1
    assert tight.held.usual > 3e3


def test_no_force_is_told_of_a_pair_face_to_face_whose_outer_rings_nobody_measured(pinion):
    (loop,) = joint_forces(as_wanted(pinion(*AWAY)), pinion().joints[0]).loops
    assert loop.needs == ("outer ring width of Pinion bearing",)


def test_a_width_read_over_the_bearing_is_not_that_of_its_inner_ring(pinion, tmp_path):
    reference = pinion()
    path = tmp_path / "found.toml"
    rows = ['what = "nut"', 'what = "bearing"\nlength = "17.30 mic"', 'what = "spacer tube"', 'what = "bearing"']
    head = 'kind = "as found"\nformat = 1\nreference = "mill/pinion"\nrevision = "A"\nfinished = true\n'
    path.write_text(head + "".join(f'\n[[off]]\nend = "flange"\n{row}\n' for row in rows), encoding="utf-8")
    found, _ = read_found(path, lambda _: reference)
    told = as_found_sum(reference, found, explanations(reference, found)[0], "shaft stack")
    assert told.total.nominal_mm == pytest.approx(16 + 40 + 16 + 18)


def test_that_one_width_counts_for_either_ring_is_told_among_what_was_taken(pinion):
    """Of a taper whose length alone is given nobody said that both rings are as wide; by its standard they are not."""
    number = ('standard = "30206"', 'kind = "taper bearing"\nlength = "17.25 mm"\nbore = "30 mm"\noutside = "62 mm"')
    one, known = pinion(number), pinion()
    said = "length of the pinion bearing as the width of either ring"
    assert any(said in words for words in forces_how(all_forces(one, None), one))
    assert not any(said in words for words in forces_how(all_forces(known, None), known))
