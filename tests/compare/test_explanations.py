"""What the comparison says about a teardown, in the smallest words: kind, places, entries."""

import pytest

from stackcheck.compare import explanations, replay, same_arrangement
from stackcheck.compare.listed import is_what_was_found
from tests.builders import clutch, found, hub, reference
from tests.referee import least_price

SHIMS = reference("housing! shim*4 bearing pinion")
SPRINGS = reference("spring@1> spring@2> spring@3< spring@4<")


def told(reference, found, **more):
    """The findings of the least explanation, after its witness has agreed."""
    explanation = explanations(reference, found, **more)[0]
    assert same_arrangement(reference, replay(reference, explanation, found), explanation.line)
    assert is_what_was_found(explanation, found)
    assert explanation.proved_least
    return [(finding.kind, *finding.places) for finding in explanation.findings]


AGREEING_HUBS = {
    "seal first": found("seal> collar-short< bearing spacer hub bearing seal< collar-long>"),
    "collar first": found("collar-short< seal> bearing hub spacer bearing collar-long> seal<"),
    "from both ends": found("seal> collar-short< bearing spacer", "collar-long> seal< bearing hub"),
    "from the second end": found("", "collar-long> seal< bearing hub spacer bearing seal> collar-short<"),
    "with the legs": found("leg@left seal> collar-short< bearing spacer hub bearing seal< collar-long> leg@right"),
    "no end said": found(unsaid="seal> collar-short< bearing spacer hub bearing seal< collar-long>"),
    "facing not seen": found("seal collar-short bearing spacer hub bearing seal collar-long"),
}


@pytest.mark.parametrize("hub_as_found", AGREEING_HUBS.values(), ids=AGREEING_HUBS.keys())
def test_nested_parts_either_way_and_either_end_first_are_no_finding(hub_as_found):
    assert told(hub(), hub_as_found) == []


def test_a_missing_part_is_named_with_its_neighbours():
    explanation = explanations(hub(), found("seal> collar-short< bearing hub spacer bearing seal<"))[0]
    (finding,) = explanation.findings
    assert (finding.kind, finding.places) == ("missing", ("collar-long",))
    assert (finding.after, finding.before) == ("bearing@right", "leg@right")


def test_two_collars_are_swapped_not_missing_and_extra():
    as_found = found("seal> collar-long bearing spacer hub bearing seal< collar-short")
    assert told(hub(), as_found) == [("swapped", "collar-long", "collar-short")]


def test_each_of_two_swapped_collars_may_face_as_its_new_place_wants():
    as_found = found("seal> collar-long< bearing spacer hub bearing seal< collar-short>")
    assert told(hub(), as_found) == [("swapped", "collar-long", "collar-short")]


def test_a_lost_steel_plate_does_not_shift_the_rest_of_the_pack():
    as_found = found("pressure friction steel friction friction steel friction backing")
    assert told(clutch(), as_found) == [("missing", "steel@2")]


def test_a_disc_spring_turned_round_is_one_finding_and_two_are_no_swap():
    assert told(SPRINGS, found("spring> spring< spring< spring<")) == [("turned_round", "spring@2")]
    assert told(SPRINGS, found("spring> spring< spring> spring<")) == [
        ("turned_round", "spring@2"),
        ("turned_round", "spring@3"),
    ]


def test_shims_count_the_same_one_by_one_and_together():
    assert told(SHIMS, found("shim*4 bearing pinion")) == []
    assert told(SHIMS, found("shim shim*2 shim bearing pinion")) == []
    assert told(SHIMS, found("shim*3 bearing pinion")) == [("count_differs", "shim")]
    assert told(SHIMS, found("shim shim*5 bearing pinion")) == [("count_differs", "shim")]
    assert told(SHIMS, found("bearing pinion")) == [("missing", "shim")]


def test_deeper_than_the_teardown_went_is_not_reached_and_never_missing():
    explanation = explanations(hub(), found("seal> collar-short< bearing spacer", finished=False))[0]
    assert explanation.findings == ()
    assert {note.places[0] for note in explanation.notes} == {"hub", "bearing@right", "seal@right", "collar-long"}


def test_a_deep_part_that_turns_up_early_is_missing_or_out_of_place_and_both_are_shown():
    first, second, *_ = explanations(hub(), found("seal> collar-short< spacer", finished=False))
    assert [(f.kind, f.places) for f in first.findings] == [("missing", ("bearing@left",))]
    assert [(f.kind, f.places) for f in second.findings] == [("out_of_place", ("spacer",))]


def test_a_closed_unit_is_one_place_and_its_members_are_not_verified():
    wheel = reference(
        "collar cage@left spacer cage@right nut", units={"cartridge": ("cage@left", "spacer", "cage@right")}
    )
    explanation = explanations(wheel, found("collar cartridge nut"))[0]
    assert explanation.findings == ()
    assert [(note.kind, note.places) for note in explanation.notes] == [
        ("not_verified", ("cage@left", "spacer", "cage@right"))
    ]


def test_a_part_found_loose_is_the_missing_one_when_its_place_is_empty():
    (finding,) = explanations(SPRINGS, found("spring> spring% spring< spring<"))[0].findings
    assert (finding.kind, finding.places, finding.entries) == ("missing", ("spring@2",), (2,))
    (finding,) = explanations(SPRINGS, found("spring> spring> spring% spring< spring<"))[0].findings
    assert (finding.kind, finding.loose) == ("extra", True)


def test_the_whole_list_entered_from_the_other_end_is_one_finding():
    arbor = reference("shoulder! collar flange@1> wheel flange@2< washer nut")
    assert told(arbor, found("nut washer flange> wheel flange< collar")) == [("entered_from_other_end",)]


def test_three_mistakes_at_once_are_three_findings():
    as_found = found("seal< collar-short< bearing spacer hub washer bearing seal<")
    findings = explanations(hub(), as_found)[0].findings
    assert [(f.kind, *f.places) for f in findings] == [
        ("missing", "collar-long"),
        ("turned_round", "seal@left"),
        ("extra",),
    ]


PACK = reference(
    "housing! shim*2 bearing",
    numbers={"shim": "N-7"},
    accepts={"shim": ("M-7",)},
    sizes={"shim": {"thickness": (1.0, 0.95, 1.05)}},
)


def test_a_piece_grossly_of_another_size_is_not_counted_with_the_pack():
    assert told(PACK, found("shim*2 shim~/thickness=1.82 bearing")) == [("extra",)]


def test_what_lies_over_the_count_of_a_pack_is_taken_for_what_it_is():
    """Whoever gets two rings too many is told that one has an accepted number and one is worn."""
    over, alternate = found("shim*3 shim/thickness=1.12 bearing"), found("shim*3 shim#M-7 bearing")
    assert told(PACK, over) == [("count_differs", "shim"), ("size_differs", "shim")]
    assert told(PACK, alternate) == [("count_differs", "shim")]
    assert [note.kind for note in explanations(PACK, alternate)[0].notes] == ["alternate"]
    assert explanations(PACK, over)[0].price == least_price(PACK, over)
    assert explanations(PACK, alternate)[0].price == least_price(PACK, alternate)


def test_guessed_parts_that_changed_ends_in_a_long_line_of_look_alikes_are_a_swap_and_a_run():
    """Names typed at the bench are guesses; which flange is which must not be searched for blindly."""
    arbor = reference(
        "nut-left flange@1> blotter@1 wheel-stone blotter@2 flange@2< bearing@left tube-long pulley> tube-short bearing@right arbor! "
        "flange@3> wheel-wire> flange@4< nut-right",
        "felt@left bearing@left housing! washer bearing@right felt@right",
    )
    as_found = found(
        "nut-left~ flange~> wheel-wire~> flange~< felt~ bearing~ tube-long~ pulley~> tube-short~ washer~ bearing~",
        "nut-right~ flange~< blotter~ wheel-stone~ blotter~ flange~> felt~",
    )
    explanation = explanations(arbor, as_found)[0]
    assert sorted(finding.kind for finding in explanation.findings) == ["run_moved", "swapped"]


def test_pieces_of_a_pack_that_came_off_together_were_never_apart():
    """Swapping ring and two shims, then one shim and the collar, would cost less than what a person could have done."""
    wanted = reference("collar ring cone shim*3 nut")
    least = explanations(wanted, found("shim*3 cone collar ring nut"))[0]
    assert {f.kind: f.places for f in least.findings} == {"swapped": ("shim", "collar"), "out_of_place": ("ring",)}
    assert least.proved_least


def test_one_ring_of_each_pack_exchanged_is_one_swap():
    wanted = reference("gear thick*3 cone thin*2 nut")
    for list_ in ("gear thick thin thick cone thick thin nut", "gear thick*2 thin cone thin thick nut"):
        assert told(wanted, found(list_)) == [("swapped", "thin", "thick")]


def test_three_of_many_places_that_nobody_could_name_stand_between_their_neighbours():
    """However long the stack: an entry of which nothing is known goes where the line needs fewest slips."""
    places = [f"part{number}" for number in range(60)]
    line = [*places[:12], *places[13:]]
    line.insert(26, line.pop(24))
    line[36], line[37] = line[37], line[36]
    for unnamed in (18, 30, 42):
        line[unnamed] = "?"
    least = explanations(reference(" ".join(places)), found(" ".join(line)))[0]
    assert sorted(f.kind for f in least.findings) == ["missing", "out_of_place", "swapped"]
    assert least.proved_least
