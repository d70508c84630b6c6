"""The stiffness of a spring that nobody pressed: by its wire and coils, or by its waves, always as a range."""

import pytest

from stackcheck.mechanics.axial.springs import WAVE_DIVISOR, coil_stiffness, wave_stiffness
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.lengths import Ruler
from stackcheck.mechanics.spring_rate import spring_rate, taken_of
from stackcheck.mechanics.unknowns import with_variants
from stackcheck.model.finding import Standing
from stackcheck.model.part import Amount, Part
from stackcheck.value import replace
from tests.builders import reference, size

COIL = {"wire": 2.0, "outside": 32.0}
WAVE = {"outside": 39.0, "bore": 30.0, "length": 0.6}


def part(kind: str, sizes: dict[str, float], **more) -> Part:
    return Part(
        id="spring", name="Spring", kind=kind, sizes=tuple((name, size(value)) for name, value in sizes.items()), **more
    )


def rate(own: Part):
    unknowns, k = with_variants(lambda unknowns: spring_rate(unknowns, own))
    return unknowns.spanned(k)


def test_a_coil_spring_is_as_stiff_as_its_wire_and_coils_make_it_to_a_tenth():
    k = coil_stiffness(wire_mm=2.0, coil_mm=30.0, coils=6.5)
    told = rate(part("spring", COIL, coils=6.5))
    assert told.usual == pytest.approx(k)
    assert (told.least, told.most) == pytest.approx((0.9 * k, 1.1 * k), rel=0.01)


def test_the_bore_does_as_well_as_the_outside():
    by_bore = rate(part("spring", {"wire": 2.0, "bore": 28.0}, coils=6.5))
    assert by_bore.usual == pytest.approx(rate(part("spring", COIL, coils=6.5)).usual)


def test_the_range_of_a_wave_washer_holds_what_its_catalogues_say():
    ends = [wave_stiffness(outside_mm=39, bore_mm=30, sheet_mm=0.6, waves=3, divisor=k) for k in reversed(WAVE_DIVISOR)]
    told = rate(part("spring washer", WAVE, waves=3))
    assert (told.least, told.most) == pytest.approx(ends, rel=0.03)
    assert told.main_cause == "stiffness of the spring by its waves"


def test_one_wave_more_and_a_thicker_sheet_are_stiffer_by_their_powers():
    """By hand: N⁴ and t³."""
    own = {"outside_mm": 39, "bore_mm": 30, "sheet_mm": 0.6, "waves": 3}
    assert wave_stiffness(**own | {"waves": 6}) == pytest.approx(16 * wave_stiffness(**own))
    assert wave_stiffness(**own | {"sheet_mm": 1.2}) == pytest.approx(8 * wave_stiffness(**own))


def test_a_stiffness_that_was_pressed_counts_before_any_formula():
    pressed = Amount(text="20 N/mm", dimension="stiffness", nominal=20.0)
    assert rate(part("spring", COIL, coils=6.5, stiffness=pressed)).usual == 20.0


@pytest.mark.parametrize(
    "own, wanted",
    [
        (part("spring", COIL), "stiffness of the spring, or its wire, outside diameter and working coils"),
        (part("spring", {"wire": 2.0}, coils=6), "wire, outside diameter and working coils"),
        (part("spring washer", WAVE), "stiffness of the spring, or its waves"),
    ],
)
def test_what_is_missing_is_named(own, wanted):
    with pytest.raises(Missing, match=wanted):
        rate(own)


def free(own: Part):
    """The free length as the ruler has it that every engine asks."""
    whole = reference("spring nut", kinds={"spring": own.kind})
    whole = replace(whole, parts=tuple(own if part.id == "spring" else part for part in whole.parts))
    return Ruler(reference=whole).size(Standing(part="spring", home="spring"), "free_length")


def test_a_free_length_without_limits_is_not_exact_and_what_is_taken_is_said():
    own = part("spring", COIL | {"free_length": 30.0}, coils=6.5)
    told = free(own)
    assert (told.least_mm, told.most_mm) == pytest.approx((29.1, 30.9))
    assert taken_of(own) == (
        "free length of the spring ±0.9 taken, common practice, no source",
        "stiffness of the spring by its wire and coils ±10 in 100 (EN 15800, from memory)",
    )


def test_nothing_is_taken_of_a_spring_that_is_given_whole():
    pressed = Amount(text="20 N/mm", dimension="stiffness", nominal=20.0)
    own = Part(
        id="spring", name="Spring", kind="spring", sizes=(("free_length", size(30.0, 29.8, 30.2)),), stiffness=pressed
    )
    assert taken_of(own) == ()


def test_the_divisor_of_a_wave_washer_is_said():
    (words,) = taken_of(part("spring washer", WAVE, waves=3))
    assert words.endswith("by its waves, divisor 2.4 to 3.9 (makers' catalogues, from memory)")


def test_a_coil_spring_between_two_places_leaves_neither_a_gap_nor_an_overlap():
    """It fills whatever room there is; its length with all coils together says nothing of a gap."""
    own = reference("bracket! spring cover!", "bracket! shaft! cover!", kinds={"spring": "spring"})
    assert own.loops == ()
    assert reference("bracket! ring cover!", "bracket! shaft! cover!").loops
