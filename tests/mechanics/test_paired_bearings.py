"""Two bearings made for one another: the preload that is ground into them, and what fits, clamp and heat add to it."""

from math import pi, radians, tan
from pathlib import Path

import pytest

from stackcheck.compare import explanations
from stackcheck.errors import InputError
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference
from stackcheck.mechanics.arrangement import as_believed, as_wanted
from stackcheck.mechanics.axial.bearings import palmgren_balls
from stackcheck.mechanics.axial.network import solve
from stackcheck.mechanics.bearing_laws import angular_inside
from stackcheck.mechanics.bodies import ring_section
from stackcheck.mechanics.clamped_network import ClampedNetwork
from stackcheck.mechanics.force_limits import held_force
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.heat import INNER, Heat
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.limits import ForceLimit
from stackcheck.model.part import Size
from stackcheck.model.reference import Gap
from stackcheck.model.touching_pairs import touching_pairs
from stackcheck.references.mirror import mirrored
from stackcheck.value import replace

FILE = Path(__file__).parents[2] / "reference_assemblies" / "bilge-pump" / "shaft-bearings.toml"
PUMP = Library(FILE.parents[1]).reference("bilge-pump/shaft-bearings")
BEARING = PUMP.part("thrust-bearing")
ENDS = ("thrust-bearing@1", "thrust-bearing@2")
ALONG = 2 * tan(radians(40))
"""What a race grows across, over what that is along the axis at a contact angle of 40 degrees."""


def pump(*, facings=("second", "first"), fits=True, **bearing):
    """The pump with other bearings; "second", "first": wide faces toward each other."""
    own = replace(BEARING, **bearing)
    bare = () if fits else ("shaft", "bracket")
    faces = dict(zip(ENDS, facings))
    return replace(
        PUMP,
        parts=tuple(
            own if part is BEARING else replace(part, sizes=without_seat(part)) if part.id in bare else part
            for part in PUMP.parts
        ),
        places=tuple(replace(place, facing=faces.get(place.name, place.facing)) for place in PUMP.places),
        pairings=PUMP.pairings if fits else (),
    )


def without_seat(part):
    return tuple((name, size) for name, size in part.sizes if name != "seat")


def sized(**sizes):
    """The bearing without a class, with these sizes instead [mm]."""
    own = tuple((name, Size(text=f"{value} mm", nominal_mm=value)) for name, value in sizes.items())
    return {"pair_preload": None, "sizes": (*BEARING.sizes, *own)}


def pair(reference, **asked):
    return joint_forces(as_wanted(reference), reference.joints[0], **asked).loops[0]


def preload_by_hand(forced_mm):
    """F = c (forced/2)^1.5: the two give way alike, their rings and what holds them far less than the balls."""
    balls, ball, angle = angular_inside(BEARING)
    return palmgren_balls(balls=balls, ball_mm=ball, contact_deg=angle) * (forced_mm / 2) ** 1.5


def forced_by_hand(preload_n):
    balls, ball, angle = angular_inside(BEARING)
    return 2 * (preload_n / palmgren_balls(balls=balls, ball_mm=ball, contact_deg=angle)) ** (1 / 1.5)


def clamp_shortens_mm(tension_n):
    wide, narrow = ring_section(BEARING, "inner")
    return tension_n * 16 / (206e3 * pi / 4 * (wide**2 - narrow**2))


def test_two_bearings_that_touch_by_both_rings_are_a_pair_whichever_side_they_are_seen_from():
    assert [(loop.name, loop.start, loop.end) for loop in touching_pairs(PUMP)] == [
        ("pair of thrust-bearing@1 and thrust-bearing@2", *ENDS)
    ]
    assert [loop.name for loop in touching_pairs(mirrored(PUMP))] == [touching_pairs(PUMP)[0].name]


def test_the_preload_is_what_the_pair_is_made_for_and_what_the_fits_and_the_clamp_add():
    """190 N made for, an overlap of 0.0125 less its roughness (30/32), 80 in 100 of it at the race of each, and one ring width
    shortened by the pull of the nut."""
    tension = joint_forces(as_wanted(PUMP), PUMP.joints[0]).tension_n.usual
    forced = forced_by_hand(190) + 2 * 0.8 * 0.0125 * 30 / 32 / ALONG + clamp_shortens_mm(tension)
    assert pair(PUMP).slides.usual == pytest.approx(preload_by_hand(forced), rel=0.03)


def test_it_is_a_range_that_names_what_moves_it_and_the_fits_move_it_more_than_the_class():
    found = pair(PUMP)
    assert found.slides.least < found.slides.usual < found.slides.most
    assert found.slides.least > pair(pump(fits=False)).slides.least
    assert found.slides.main_cause.startswith("overlap of the inner ring at thrust-bearing@")
    assert {cause.name for cause in found.slides.causes} >= {"preload that the thrust bearings are made for"}


def test_bearings_back_to_back_need_nobody_to_hold_their_outer_rings():
    found = pair(PUMP)
    assert found.held.usual == pytest.approx(found.slides.usual, rel=1e-6)


def test_face_to_face_nothing_presses_them_unless_their_outer_rings_are_held():
    """The nut holds the inner rings together; the other way round the balls push the outer rings apart."""
    found = pair(pump(facings=("first", "second")))
    assert found.only_if_held and found.held.least > 1
    limit = ForceLimit(what="preload", of=found.loop, least_n=100.0, source="the bench")
    turned = pump(facings=("first", "second"))
    assert held_force(limit, joint_forces(as_wanted(turned), turned.joints[0])).verdict == "cannot tell"


def test_a_pair_made_with_play_keeps_what_fits_and_clamp_leave_of_it():
    found = pair(pump(**sized(pair_play=0.060), fits=False))
    assert found.slides.most < 1
    shortened = clamp_shortens_mm(joint_forces(as_wanted(PUMP), PUMP.joints[0]).tension_n.usual)
    dial = 2 * (50 / preload_by_hand(2.0)) ** (1 / 1.5)  # ±50 N against one bearing and then the other
    assert found.float_held.usual == pytest.approx(0.060 - shortened + dial, abs=5e-4)


def test_the_stand_out_of_each_ring_tells_the_same_as_the_preload_that_it_was_ground_for():
    """As far as the inner ring stands back from the outer one where the two meet; the second bearing faces the other way."""
    back = forced_by_hand(190) / 2
    by_class = pair(pump(pair_preload=replace(BEARING.pair_preload, least=190, most=190), fits=False))
    by_rings = pair(pump(**sized(inner_standout=back), fits=False))
    assert by_rings.slides.usual == pytest.approx(by_class.slides.usual, rel=1e-6)


def test_what_they_are_made_for_is_never_guessed():
    found = pair(pump(pair_preload=None))
    assert found.slides is None
    assert found.needs == ("the preload or play that the thrust bearings are made for as a pair",)


def turned_round():
    """The joint as found with one of the two turned round."""
    file = FILE.parents[2] / "examples" / "16-pump-angular-bearing-turned.toml"
    found, reference = read_found(file, Library(FILE.parents[1]).reference)
    believed = as_believed(reference, found, explanations(reference, found)[0])
    return joint_forces(believed, reference.joints[0])


def test_two_of_which_one_is_turned_round_have_no_preload():
    loop = turned_round().loops[0]
    assert loop.one_way and loop.slides is None and not loop.needs


def test_two_that_are_meant_to_look_the_same_way_share_a_load_and_are_no_pair():
    assert touching_pairs(pump(facings=("first", "first"))) == ()


def test_the_load_that_takes_all_of_it_off_one_bearing_is_that_of_the_network_within_a_tenth():
    """The formula knows of the balls only; the network has the give of the rings too."""
    network, drawn, watched = ClampedNetwork(
        as_wanted(PUMP), PUMP.joints[0], touching_pairs(PUMP)[0], Unknowns(), True
    ).state(90e3, thread_of(PUMP.joints[0]), Heat())
    unloads = pair(PUMP).unloads_n.usual
    for share, is_loaded in ((0.9, True), (1.1, False)):
        pushed = solve(replace(network, loads={watched.moves: share * unloads}), drawn)
        least = min(abs(float(pushed.forces[name].ravel()[0])) for name in watched.bearings)
        assert (least > 1) == is_loaded


def test_warmer_inner_rings_press_harder_by_what_their_races_grow_less_what_their_width_does():
    """10 K on the outer race of (4 · 62 + 30)/5 = 55.6 mm at 11.5e-6: 0.0064 across, 0.0038 along in each bearing; their halves
    that meet stand 0.0018 further apart. The axle as warm keeps its pull."""
    along, apart = 10 * 11.5e-6 * 55.6 / ALONG, 10 * 11.5e-6 * 16
    cold, warm = pair(PUMP), pair(PUMP, heat=Heat(named=((INNER, 30.0), ("axle", 30.0))))
    rings_give = (warm.slides.usual - cold.slides.usual) * sum(
        16 / (206e3 * pi / 4 * (wide**2 - narrow**2))
        for wide, narrow in (ring_section(BEARING, ring) for ring in ("inner", "outer"))
    )
    forced = forced_by_hand(warm.slides.usual) - forced_by_hand(cold.slides.usual) + rings_give
    assert forced == pytest.approx(2 * along - apart, rel=0.03)


def test_equal_spacers_between_them_change_nothing_but_what_the_clamp_shortens():
    def apart(stack):
        if stack.name not in ("shaft stack", "bracket stack"):
            return stack
        at = stack.items.index(ENDS[1])
        spacer = "inner-spacer" if stack.name == "shaft stack" else "outer-spacer"
        return replace(stack, items=(*stack.items[:at], spacer, *stack.items[at:]))

    bore, outside = BEARING.size("bore"), BEARING.size("outside")
    tube = {"length": 20.0, "bore": 30.0, "outside": 39.6}
    sleeve = {"length": 20.0, "bore": 52.4, "outside": 62.0}
    parts = tuple(
        replace(
            PUMP.part("circlip"), id=id, name=id.replace("-", " "), kind="spacer tube", standard="", feature="", duties=(),
            sizes=tuple((name, Size(text=f"{value} mm", nominal_mm=value)) for name, value in sizes.items()),
        )
        for id, sizes in (("inner-spacer", tube), ("outer-spacer", sleeve))
    )  # fmt: skip
    assert (bore.nominal_mm, outside.nominal_mm) == (30, 62)
    place = PUMP.place("circlip")
    spaced = replace(
        PUMP,
        parts=(*PUMP.parts, *parts),
        places=(*PUMP.places, *(replace(place, name=part.id, part=part.id, facing="") for part in parts)),
        stacks=tuple(map(apart, PUMP.stacks)),
    )
    assert not touching_pairs(spaced)
    tension = joint_forces(as_wanted(PUMP), PUMP.joints[0]).tension_n.usual
    more = clamp_shortens_mm(tension) * 20 / 16
    found = pair(spaced)
    forced = forced_by_hand(pair(PUMP).slides.usual) + more
    assert found.slides.usual == pytest.approx(preload_by_hand(forced), rel=0.05)


def test_a_gap_between_them_makes_them_no_pair():
    shaft = PUMP.stack("shaft stack")
    at = shaft.items.index(ENDS[1])
    open_ = replace(shaft, items=(*shaft.items[:at], Gap(name="room", least_mm=1.0, most_mm=2.0), *shaft.items[at:]))
    apart = replace(PUMP, stacks=tuple(open_ if stack is shaft else stack for stack in PUMP.stacks))
    assert touching_pairs(apart) == ()


def test_a_preload_can_be_wanted_of_a_pair_by_its_name(tmp_path):
    wanted = """
[[limits]]
what = "preload of the thrust pair"
of = "pair of thrust-bearing@1 and thrust-bearing@{}"
least = "100 N"
most = "4 kN"
source = "maker's drawing"
"""
    file = tmp_path / "pump.toml"
    file.write_text(FILE.read_text(encoding="utf-8") + wanted.format(2), encoding="utf-8")
    reference = read_reference(file)
    forces = joint_forces(as_wanted(reference), reference.joints[0])
    assert held_force(reference.force_limits[0], forces).verdict == "agrees"
    file.write_text(FILE.read_text(encoding="utf-8") + wanted.format(3), encoding="utf-8")
    with pytest.raises(InputError, match="did you mean"):
        read_reference(file)


def test_two_of_which_one_is_turned_round_do_not_bring_a_wanted_preload():
    limit = ForceLimit(what="preload", of=touching_pairs(PUMP)[0].name, least_n=100.0, source="the bench")
    assert held_force(limit, turned_round()).verdict == "differs"
