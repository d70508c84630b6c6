"""The witness rebuilds what was found, also where equal places, loose parts and members that nobody entered stand between."""

from random import Random

import pytest

from stackcheck.compare import explanations, replay, same_arrangement
from stackcheck.compare.listed import is_what_was_found
from stackcheck.formats.library import Library
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from tests.builders import found, reference
from tests.referee.agree import judge
from tests.referee.cases import Unfit, random_list
from tests.referee.references import HARDER
from tests.strategies import LIBRARY

FLEET = [f"{file.parent.name}/{file.stem}" for file in sorted(LIBRARY.glob("*/*.toml")) if file.stem != "machine"]


def told(wanted: Reference, list_: Found) -> tuple[list, list]:
    """Findings and unreached places of the least explanation, after its witness has agreed."""
    least = explanations(wanted, list_)[0]
    assert same_arrangement(wanted, replay(wanted, least, list_), least.line)
    assert least.proved_least
    places = [note.places[0] for note in least.notes if note.kind == "not_reached"]
    return [(finding.kind, *finding.places) for finding in least.findings], places


def test_of_equal_places_a_swap_names_the_one_that_it_is_about():
    """The first of two equal washers went where the spacer was: had it been the second, the list would read otherwise."""
    wanted = reference("nut washer@1 washer@2 ring spacer hub")
    assert told(wanted, found("nut spacer washer ring washer hub"))[0] == [("swapped", "spacer", "washer@1")]


def test_a_part_swapped_twice_faces_as_both_swaps_leave_it():
    wanted = reference("nut cone> ring< plate> hub")
    list_ = found("nut plate> cone< ring> hub")
    least = explanations(wanted, list_)[0]
    assert same_arrangement(wanted, replay(wanted, least, list_), least.line) and least.proved_least


def test_a_place_whose_part_was_found_loose_is_not_also_not_reached():
    wanted = reference("nut collar ring hub")
    assert told(wanted, found("nut ring%", finished=False)) == ([("missing", "ring")], ["collar", "hub"])


def test_of_two_equal_unreached_places_one_part_found_loose_leaves_one():
    wanted = reference("nut collar ring@1 ring@2 hub")
    assert told(wanted, found("nut ring%", finished=False)) == ([("missing", "ring@1")], ["collar", "ring@2", "hub"])


def test_a_moved_run_passes_nothing_that_the_list_leaves_in_place():
    """The collar and the plate behind the run in another stack stay there: only ring and leg were passed."""
    wanted = reference("plate@a washer plate@c> plate@d> collar@g", "washer plate@c> collar@e ring leg!")
    list_ = found("plate ring leg washer plate plate collar collar")
    least = explanations(wanted, list_)[0]
    assert same_arrangement(wanted, replay(wanted, least, list_), least.line) and least.proved_least


def test_many_places_missing_at_once_are_compared_in_an_ordinary_time():
    """Which parts show that a place was passed was written out in every combination: minutes for a list of five entries."""
    arbor = Library(LIBRARY).reference("bench-grinder/arbor")
    line = [arbor.place(name).part for name in arbor.line if not arbor.part_at(name).fixed]
    list_ = found(" ".join(line[-1:] + line[:4]), " ".join(line[4:5]), finished=False)
    least = explanations(arbor, list_)[0]
    assert same_arrangement(arbor, replay(arbor, least, list_), least.line)


def test_one_lump_of_a_counted_place_is_swapped_without_the_other():
    """One of two washers came off the wrong end: the replay takes the two for two parts, as the list has them."""
    wanted = reference("plate collar washer*2", "ring collar washer*2")
    assert told(wanted, found("washer plate collar ring washer"))[0] == [("swapped", "washer", "ring")]


def test_a_part_may_have_stood_between_two_that_were_swapped_and_be_put_back_by_the_second_swap():
    wanted = reference("nut< ring< plate hub", "nut< ring< collar>")
    assert told(wanted, found("ring> plate collar< nut hub"))[0] == [
        ("swapped", "ring", "nut"),
        ("swapped", "ring", "collar"),
    ]


WITNESS_ONCE_FAILED = [
    *((31, number) for number in (
        126, 427, 441, 945, 996, 1014, 1023, 1163, 1351, 1455, 1468, 1619, 1840, 2375, 2953, 3263, 3403, 3581, 3601, 4587, 4865, 5225,
        5331, 6290, 6347, 6369, 6795, 7247, 7321, 7533, 7744, 9261, 9400, 9556, 9731, 9845,
    )),
    (32, 454), (32, 514), (32, 520), (32, 862), (32, 3473), (32, 9264),
]  # fmt: skip


@pytest.mark.parametrize("seed, number", WITNESS_ONCE_FAILED)
def test_an_answer_that_its_witness_once_did_not_confirm_is_confirmed_and_proved(seed, number):
    case = judge(seed, number)
    least = case.engine
    assert case.agrees and least.proved_least
    assert same_arrangement(case.reference, replay(case.reference, least, case.found), least.line)


@pytest.mark.parametrize("number", [516, 571, 601, 849, 2784, 3246])
def test_an_answer_about_counted_packs_mirror_pairs_or_closed_units_is_confirmed_and_proved(number):
    """Once dearer than the referee's, or not proved: the way the list was read that leaves fewest slips is looked at first,
    equal pieces of one entry are tried in one way only, a closed unit may be found loose, one piece of a pack another part."""
    case = judge(33, number, mixture=HARDER)
    least = case.engine
    assert case.agrees and least.proved_least
    assert same_arrangement(case.reference, replay(case.reference, least, case.found), least.line)


def test_a_closed_unit_found_loose_is_missing_from_its_place_and_not_also_extra():
    wanted = reference(
        "nut cage@left spacer cage@right hub", units={"cartridge": ("cage@left", "spacer", "cage@right")}
    )
    assert told(wanted, found("nut hub cartridge%"))[0] == [("missing", "cartridge")]


def test_one_piece_of_a_counted_pack_is_another_part():
    wanted = reference("nut ring*3 hub", kinds={"ring": "ring", "thick-ring": "ring"})
    assert told(wanted, found("nut ring*2 thick-ring hub"))[0] == [("different_part", "ring")]


@pytest.mark.parametrize(
    "first, second, price, findings",
    [
        (
            "piston steel-plate ? friction-plate",
            ("circlip backing-plate friction-plate friction-plate steel-plate friction-plate steel-plate friction-plate steel-plate drum "
            "friction-plate~"),
            210, [("missing", "steel-plate@6"), ("swapped", "steel-plate@2", "friction-plate@1")],
        ),
        (
            "steel-plate friction-plate",
            ("circlip steel-plate steel-plate friction-plate friction-plate steel-plate friction-plate~ steel-plate ? backing-plate "
            "friction-plate"),
            310, [("missing", "steel-plate@2"), ("swapped", "backing-plate", "steel-plate@3"), ("swapped", "friction-plate@6", "steel-plate@6")],
        ),
    ],
)  # fmt: skip
def test_which_of_many_equal_plates_is_which_is_decided_before_an_answer_is_called_the_least(
    first, second, price, findings
):
    """Plates that agreed with their neighbours were held in blocks, and a dearer answer was called proved."""
    pack = Library(LIBRARY).reference("orchard-tractor/clutch-pack")
    list_ = found(first, second)
    assert told(pack, list_)[0] == findings
    assert explanations(pack, list_)[0].price == price


@pytest.mark.parametrize("name", FLEET)
def test_slips_planted_on_the_fleet_are_told_so_that_the_list_can_be_rebuilt(name):
    """Two and three slips at random; `python -m tests.referee.fleet` tries as many as wanted."""
    wanted = Library(LIBRARY).reference(name)
    for number in range(2):
        rng = Random(f"{name}/{number}")
        try:
            list_, _ = random_list(rng, wanted, mistakes=rng.choice((2, 3)))
        except Unfit:
            continue
        for explanation in explanations(wanted, list_):
            assert is_what_was_found(explanation, list_)
            assert same_arrangement(wanted, replay(wanted, explanation, list_), explanation.line)


def unfinished(first: str, second: str = "") -> tuple[list, list]:
    stack = reference("nut collar-short bearing@1 spacer washer bearing@2 collar-long hub flange")
    return told(stack, found(first, second, finished=False))


def test_two_collars_swapped_are_one_swap_once_both_their_places_were_reached():
    swap = [("swapped", "collar-long", "collar-short")]
    assert unfinished("nut collar-long bearing", "flange hub collar-short bearing") == (swap, ["spacer", "washer"])
    assert unfinished("nut collar-long bearing spacer washer bearing collar-short hub") == (swap, ["flange"])
    assert unfinished("nut collar-long bearing spacer washer bearing collar-short") == (swap, ["hub", "flange"])


def test_with_one_place_reached_the_collar_there_is_another_part_and_going_on_tells_whether_two_were_swapped():
    """Nothing can be claimed yet of the place that nobody has come to: no part is missing, none was moved for certain."""
    findings, not_reached = unfinished("nut collar-long bearing spacer")
    assert findings == [("different_part", "collar-short")] and "collar-long" in not_reached
    wanted = reference("nut collar-short bearing@1 spacer washer bearing@2 collar-long hub flange")
    (finding,) = explanations(wanted, found("nut collar-long bearing spacer", finished=False))[0].findings
    assert finding.evidence[-1] == (
        "collar-long, where collar long belongs, was not reached: what stands there tells whether the two were swapped"
    )
    findings, not_reached = unfinished("", "flange hub collar-short bearing washer")
    assert findings == [("different_part", "collar-long")] and "collar-short" in not_reached
