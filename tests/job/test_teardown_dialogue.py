"""The teardown dialogue: what is asked, in which sequence, and what an answer comes to.

The numbered requirements of the bench: no wrong answer unnoticed, a numeric keypad is enough, nothing lost, nothing
expected given away, and Enter at every question never ends in agreement.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stackcheck.bench.answers import answer
from stackcheck.bench.questions import next_question
from stackcheck.bench.terminal import prompt_of
from stackcheck.errors import InputError
from stackcheck.job.events import Off
from stackcheck.result.points import CANNOT_TELL
from tests.job.at_the_bench import LIBRARY, Bench, front_hub


@pytest.fixture
def hub(tmp_path) -> Bench:
    return Bench(tmp_path)


def findings(bench: Bench) -> list[str]:
    return [result.finding.kind for result in bench.compared().findings]


# --- the sequence of questions ---------------------------------------------------------------------------------------


def test_what_vanishes_at_the_first_turn_of_the_spanner_is_asked_first(hub):
    assert hub.question.where == "Before loosening." and hub.question.gap == "free gap"


def test_once_something_is_off_nothing_is_asked_about_the_whole_machine_any_more(hub):
    hub.folder.record(Off(what="axle nut", end="left", place="axle-nut", part="axle-nut", kind="nut"))
    assert hub.question.key.startswith("came off")


def test_parts_are_offered_from_the_first_end_to_the_member_that_stays_then_from_the_second(hub):
    hub.skip_to("part:")
    offered = []
    while hub.question.kind == "part" and hub.question.place:
        offered.append((hub.question.end, hub.question.place))
        hub.say("1")  # not there
    assert offered == [
        ("left", "axle-nut"), ("left", "axle-washer"), ("left", "collar-short@left"), ("left", "seal@left"),
        ("left", "bearing@left"),
        ("left", "spacer-tube"), ("right", "clamp-bolt"), ("right", "axle"), ("right", "collar-long@right"),
        ("right", "seal@right"), ("right", "bearing@right"),
    ]  # fmt: skip


def test_a_pack_in_a_drum_is_met_from_the_end_that_opens(tmp_path):
    clutch = Bench(tmp_path, "clutch-pack")
    clutch.skip_to("part:")
    assert (clutch.question.end, clutch.question.place) == ("circlip end", "circlip")


@pytest.mark.parametrize("reference", sorted(LIBRARY.files))
def test_every_part_of_every_reference_is_offered_once(reference, tmp_path):
    bench, offered = Bench(tmp_path, reference), []
    while (question := bench.question) is not None and question.key != "taken apart":
        if question.kind == "part" and question.place:
            offered.append(question.place)
        bench.say("" if question.kind == "part" else "0")
    off = [place.name for place in bench.job.reference.places if not bench.job.reference.part(place.part).fixed]
    assert sorted(offered) == sorted(off)


# --- nothing expected is given away ----------------------------------------------------------------------------------


def test_a_name_that_gives_the_answer_away_is_not_offered(hub):
    hub.skip_to("part:left:collar")
    assert hub.question.text == "Left collar?"


def test_choice_1_is_always_the_one_nearer_the_first_end(hub):
    hub.skip_to("part:left:collar")
    hub.say("18.01")
    assert [choice.means for choice in hub.question.choices] == ["left", "right"]
    hub.skip_to("part:right:collar")
    hub.say("22.01")
    assert [choice.means for choice in hub.question.choices] == ["left", "right"]


@pytest.mark.parametrize("reference", sorted(LIBRARY.files))
def test_no_question_says_a_size_that_the_reference_expects(reference, tmp_path):
    bench = Bench(tmp_path, reference)
    sizes = {
        f"{size.nominal_mm:g}" for part in bench.job.reference.parts for _, size in part.sizes if size.nominal_mm > 15
    }
    while (question := bench.question) is not None and question.key != "taken apart":
        assert not sizes & set(prompt_of(question).replace(",", " ").split())
        bench.say("" if question.kind == "part" else "0")


# --- one key each ----------------------------------------------------------------------------------------------------


def test_a_whole_teardown_needs_no_letter_and_few_keys(hub):
    """A cheap numeric keypad in a plastic bag is enough."""
    keys = []
    say = hub.say

    def counted(*texts: str):
        keys.extend(texts)
        return say(*texts)

    hub.say = counted
    front_hub(hub)
    assert not any(sign.isalpha() for text in keys for sign in text)
    assert findings(hub) == [] and len(hub.job.offs) == 11
    assert sum(len(text) + 1 for text in keys) <= 110


def test_a_person_who_presses_enter_at_every_question_never_ends_with_agreement(hub):
    while (question := hub.question) is not None and question.key != "taken apart":
        hub.say("")
    hub.say("1")
    said = hub.compared()
    assert said.verdict in (CANNOT_TELL, "differs") and said.points_in("not looked at")


def test_a_place_that_was_seen_empty_is_missing_however_far_the_teardown_went(hub):
    hub.skip_to("part:left:axle-washer")
    hub.say("1")
    assert findings(hub) == ["missing"]


def test_what_was_not_there_and_comes_off_elsewhere_is_not_missing(hub):
    hub.skip_to("part:left:axle-washer")
    hub.say("1")
    hub.folder.record(
        Off(what="washer under the axle nut", end="left", place="axle-washer", part="axle-washer", kind="washer")
    )
    assert "missing" not in findings(hub)


def test_an_entry_that_says_nothing_is_no_agreement(hub):
    """Somebody types a word that means nothing: it may stand in a place, and the place cannot be told."""
    hub.skip_to("part:left:axle-washer")
    hub.say("blah blah")
    assert hub.job.found.entries[-1].kind == ""
    state = next(point.state for point in hub.compared().points if point.place == "axle-washer")
    assert state != "agrees"


def test_what_is_no_feel_is_asked_again(hub):
    hub.skip_to("part:left:bearing")
    hub.say("", "2")
    assert "smooth" in hub.refused("3 shims .29 .29 mic") and "smooth" in hub.refused("//")


def test_what_is_still_inside_stays_open(hub):
    from stackcheck.job.open_items import open_items

    hub.skip_to("inside")
    hub.say("2 shims .30 .30 mic")
    assert [item.what for item in open_items(hub.job, hub.compared()) if item.kind == "still inside"] == [
        "2 shims .30 .30 mic"
    ]


def test_not_seen_is_neither_missing_nor_in_agreement(hub):
    hub.skip_to("part:left:axle-washer")
    hub.say("0")
    while hub.question.key != "taken apart":
        hub.say("" if hub.question.kind == "part" and hub.question.place else "0")
    hub.say("1")
    assert findings(hub) == [] and "axle-washer" in hub.job.found.not_seen


def test_two_that_are_stuck_together_can_be_said_in_one_key(hub):
    hub.skip_to("part:left:seal")
    hub.say("2")
    assert hub.job.found.entries[-1].stuck_to_next


def test_the_tight_ring_decides_whether_the_pull_went_through_the_balls(hub):
    hub.skip_to("part:left:bearing")
    hub.say("")
    assert "do not refit" in hub.say("1").said[0]


def test_a_member_that_moved_when_it_was_loosened_is_a_measurement(hub):
    hub.skip_to("part:")
    hub.say("", "2", "2")
    assert "under load" in hub.say("2 1.5 mm").said[0]
    assert hub.job.answers["loosened:axle nut"] == "moved out 1.5 mm"


def test_several_feels_may_be_true_at_once(hub):
    hub.skip_to("part:left:bearing")
    hub.say("", "2", "45")
    assert hub.job.found.entries[-1].feel == ("gritty", "notchy")


@pytest.mark.parametrize(
    ("said", "toward"),
    [("1", "first"), ("2", "second"), ("out", "first"), ("bearing", "second"), ("left", "first"), ("0", "not seen")],
)
def test_a_direction_may_be_a_number_or_words(said, toward, hub):
    hub.skip_to("part:left:seal")
    hub.say("", said)
    assert hub.job.found.entries[-1].toward == toward


def test_what_is_no_answer_is_asked_again_with_what_can_be_said(hub):
    hub.skip_to("part:left:seal")
    hub.say("")
    assert hub.refused("7") == "Say 1 outside 2 left hub bearing 0 not seen."


def test_a_figure_that_can_be_read_two_ways_is_never_guessed(hub):
    assert "may be read two ways" in hub.refused("1,500")


# --- sizes -----------------------------------------------------------------------------------------------------------


def test_three_readings_are_all_kept_and_the_middle_one_counts(hub):
    hub.skip_to("part:left:spacer-tube")
    hub.say("")
    said = hub.say("57.94 57.95 57.94 mic").said[0]
    assert "57.94 mm" in said and "spread 0.01" in said
    assert hub.job.found.entries[-1].size("length").readings_mm == (57.94, 57.95, 57.94)


def test_the_way_of_measuring_last_used_for_that_kind_of_size_counts_for_a_bare_figure(hub):
    hub.skip_to("before:fork")
    hub.say("129.2 rule")
    hub.skip_to("part:left:collar")
    hub.say("", "1", "18.0")
    assert hub.job.found.entries[-1].size("length").how == "rule"


def test_a_spacer_tube_by_calliper_cannot_be_told_and_by_micrometer_differs_and_both_are_kept(hub):
    """57.96 by calliper lies too near the low limit of 57.98; 57.94 by micrometer is below it."""
    from stackcheck.job.events import Measured

    front_hub(hub, tube="57.96 cal")
    assert findings(hub) == [] and [
        point.what for point in hub.compared().points_in(CANNOT_TELL) if point.place == "spacer-tube"
    ] == ["length"]
    number = next(entry.number for entry in hub.job.found.entries if entry.part == "spacer-tube")
    hub.folder.record(Measured(entry=number, size="length", reading="57.94 57.95 57.94 mic"))
    assert "size_differs" in findings(hub)
    assert [reading.text for reading in hub.job.readings(entry=number)["length"]] == [
        "57.96 cal",
        "57.94 57.95 57.94 mic",
    ]


def test_inch_fractions_thou_and_mm_in_one_job_sum_to_a_hundredth(tmp_path):
    """18.0 mm as 45/64 in + 5.6 thou, 22.0 mm as 866 thou: the stack is as long as in mm."""
    mm, mixed = Bench(tmp_path / "mm"), Bench(tmp_path / "mixed")
    front_hub(mm, collars=("18.00", "22.00"))
    front_hub(mixed, collars=("708.66 thou", "0.8661 in"))
    lengths = [bench.compared().stacks[0].as_found.total.nominal_mm for bench in (mm, mixed)]
    assert lengths[0] == pytest.approx(lengths[1], abs=0.01)
    texts = [entry.size("length").text for entry in mixed.job.found.entries if entry.kind == "collar"]
    assert texts == ["708.66 thou", "0.8661 in"]


# --- findings that must come out of it -------------------------------------------------------------------------------


def test_swapped_collars_of_equal_total_length_are_one_finding_with_the_shift_of_the_hub(hub):
    front_hub(hub, collars=("22.02", "18.01"))
    said = hub.compared()
    assert [result.finding.kind for result in said.findings] == ["swapped"]
    assert [shift.mm for shift in said.findings[0].effect.shifts] == [pytest.approx(4.01, abs=0.02)]


def test_the_same_hub_from_either_end_first_gives_the_same_findings(tmp_path):
    from stackcheck.value import replace

    left = Bench(tmp_path)
    front_hub(left, collars=("22.02", "18.01"), seal="2")
    entries = left.job.found.entries
    from_right = sorted(entries, key=lambda entry: entry.end != 1)
    turned = replace(
        left.job.found, entries=tuple(replace(entry, number=index) for index, entry in enumerate(from_right, start=1))
    )
    from stackcheck.result import compare

    told = [
        [(each.finding.kind, each.finding.places) for each in compare(left.job.reference, found).findings]
        for found in (left.job.found, turned)
    ]
    assert told[0] == told[1] and len(told[0]) == 2


def test_when_two_people_see_a_direction_differently_it_cannot_be_told_until_they_agree(hub):
    from stackcheck.bench.second_look import comparison_words, next_second_look
    from stackcheck.job.events import Seen

    hub.skip_to("part:left:seal")
    hub.folder.record(
        Off(
            what="left seal",
            end="left",
            place="seal@left",
            part="seal",
            kind="seal",
            feature="spring side",
            toward="right",
            by="A",
        )
    )
    assert next_second_look(hub.job, "B").entry == 1
    hub.folder.record(Seen(entry=1, toward="left", by="B"))
    assert hub.job.found.entries[0].toward == "not seen" and "A: right" in comparison_words(hub.job, "B")[1]
    assert next_second_look(hub.job, "B") is None
    hub.folder.record(Seen(entry=1, toward="right", by="B"))
    assert hub.job.found.entries[0].toward == "second"


# --- undo, and any answer at all -------------------------------------------------------------------------------------


def test_undo_walks_back_answer_by_answer_and_every_question_comes_back(hub):
    asked = []
    for text in (
        "3.0..3.5 feeler",
        "129.2 cal",
        "15",
        "14",
        "free",
        "none",
        "yes",
        "1, 2",
        "",
        "2",
        "2",
        "1",
        "",
        "18.01",
        "1",
    ):
        asked.append(hub.question.key)
        hub.say(text)
    for key in reversed(asked):
        hub.say("-")
        assert hub.question.key == key
    assert hub.refused("-") == "There is nothing to undo."


def test_what_was_undone_stays_in_the_journal(hub):
    hub.say("3.0..3.5 feeler", "-")
    text = hub.folder.journal.path.read_text()
    assert "3.0..3.5 feeler" in text and 'did = "undone"' in text and not hub.job.readings(gap="free gap")


answers = st.sampled_from(
    [
        "",
        "0",
        "1",
        "2",
        "3",
        "9",
        "-",
        "/",
        "+4",
        "*",
        "22.02 cal",
        "57.9 57.8 mic",
        "out",
        "yes",
        "not there",
        "1,500",
        "what?",
    ]
) | st.text(max_size=12)


@given(typed=st.lists(answers, max_size=25))
@settings(deadline=None, max_examples=60)
def test_whatever_is_typed_is_recorded_or_refused_with_a_reason_and_the_state_is_that_of_the_journal(
    typed, tmp_path_factory
):
    bench = Bench(tmp_path_factory.mktemp("bench"))
    for text in typed:
        question = next_question(bench.job)
        if question is None:
            break
        try:
            step = answer(bench.job, question, text)
        except InputError:
            continue
        if step.again or step.ask is not None:
            assert not step.events
            continue
        bench.folder.record(*step.events)
    again = bench.reopened()
    assert again.events == bench.job.events and again.found == bench.job.found


# --- what the numbered requirements want of the whole ----------------------------------------------------------------


@pytest.mark.parametrize(
    "words",
    [
        "thin ring 45 od 35 id .5, drip tray", "shim 45x35x0.5 mic, loose on the rag", "washer 45 35 .5, floor",
        "dont know, rusty ring 45x35, fell out", "forty-five od half a millimetre ring, tray",
    ],
)  # fmt: skip
def test_a_stray_ring_under_any_description_never_becomes_a_part_of_the_hub(words, hub):
    front_hub(hub)
    hub.folder.record(*answer(hub.job, loose_question(hub), words).events)
    said = hub.compared()
    assert [(result.finding.kind, result.finding.entries) for result in said.findings] == [("extra", (12,))]
    assert all(standing.home is None for standing in said.best.line if standing.entry == 12)


def loose_question(bench: Bench):
    from stackcheck.bench.questions import Question

    return Question(key="loose", kind="part", text="Anything loose?", zero="no")


def test_a_clutch_pack_typed_as_one_line_of_letters_names_the_place_of_the_missing_plate(tmp_path):
    """Counted from the circlip end, two friction plates came one after the other: the steel between them is missing."""
    clutch = Bench(tmp_path, "clutch-pack")
    clutch.skip_to("part:")
    clutch.say("", "0", "0", "0")
    while clutch.question.kind != "part" or not clutch.question.place.startswith("friction"):
        clutch.say("" if clutch.question.kind == "part" else "0")
    clutch.say("f s f s f s f f s f s")
    while clutch.question.key != "taken apart":
        clutch.say("1" if clutch.question.kind == "part" and clutch.question.place else "0")
    clutch.say("1")
    assert [(result.finding.kind, result.finding.places) for result in clutch.compared().findings] == [
        ("missing", ("steel-plate@3",))
    ]


def test_a_symptom_of_the_wrong_direction_is_not_given_to_a_finding(hub):
    """The leg moved out on release, so it had been pulled in; exchanged collars pull nothing in."""
    hub.skip_to("part:")
    hub.say("", "2", "2", "2 1.5 mm", "", "22.02 cal", "1")
    hub.skip_to("taken apart")
    (noticed,) = hub.job.found.symptoms
    assert (noticed.what, noticed.place, noticed.toward, noticed.by.value_mm) == (
        "moved on release",
        "leg@left",
        "first",
        1.5,
    )


def test_drag_and_rock_are_noticed_and_nothing_else_is_made_of_words(hub):
    hub.skip_to("before:turns")
    hub.say("drags once a turn", "none felt", "drags a paint line")
    assert [symptom.what for symptom in hub.job.found.symptoms] == ["drag"]
