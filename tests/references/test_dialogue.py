"""The dialogue that makes a reference: what is asked, what is offered, and that what was written is sound."""

from __future__ import annotations

import io

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stackcheck.cli import main
from stackcheck.formats.reference_file import read_reference
from stackcheck.present.stack_drawing import stack_drawing
from stackcheck.references.ask import Again, Ask, Say
from stackcheck.references.dialogue import dialogue
from stackcheck.references.draft import Draft
from stackcheck.references.weak import TO_MEND, weaknesses

HEAD = ["left", "right", "standing in front of the panel", "", "1", "sheet 3"]
WHEEL = [
    *HEAD,
    "axle nut M12x1.75 10 long #DS-1", "1", "1", "1", "1", "2",
    "washer 24x13x2.5", "0", "2", "1",
    "leg",
    "long collar 22.0 bore 15 H8 od 25 #DS-3", "1", "1", "1",
    "bearing 6202",
    "spacer tube 40.00 bore 15.2 +0.1/0 od 20", "1",
    "bearing",
    "short collar 18.0 bore 15 H8 od 25 #DS-4", "1", "1", "2",
    "gap 1.0..3.0", "", "", "",
    "leg",
    "",
    "yes",
    "hub 39.95 ±0.02", "seal 25x35x5", "2", "seal 25x35x5", "1",
    "1",
    "104.2 ±0.2",
    "40 N·m", "", "1", "", "",
    "1", "1 3", "4", "",
]  # fmt: skip


def talk(answers: list[str]) -> tuple[Draft | None, list[str], list[str]]:
    """The draft (None where the answers ran out in the middle), every question, and every answer that was refused."""
    draft, (asked, refused), _ = talk_shown(answers)
    return draft, asked, refused


def talk_shown(answers: list[str]) -> tuple[Draft | None, tuple[list[str], list[str]], list[str]]:
    """As `talk`, and every line that was shown."""
    left, asked, refused, shown = list(answers), [], [], []
    talking = dialogue(stack_drawing)
    next(talking)
    step = talking.send("Wheel")
    while True:
        answer = ""
        if isinstance(step, Ask):
            asked.append(step.text)
            if not left and len(asked) > len(answers) + 60:
                return None, (asked, refused), shown
            answer = left.pop(0) if left else ""
        elif isinstance(step, Again):
            refused.append(step.why)
        else:
            assert isinstance(step, Say)
            shown += step.lines
        try:
            step = talking.send(answer)
        except StopIteration as done:
            return done.value, (asked, refused), shown


def written(tmp_path, monkeypatch, answers: list[str], *more: str) -> tuple[int, object]:
    folder = tmp_path / "drill-stand"
    folder.mkdir(exist_ok=True)
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join(answers) + "\n"))
    status = main(["references", "new", str(folder / "wheel.toml"), "--title", "Wheel on a through axle", *more])
    return status, folder / "wheel.toml"


def test_a_whole_dialogue_from_a_pipe_writes_a_reference_with_nothing_to_mend(tmp_path, monkeypatch, capsys):
    status, path = written(tmp_path, monkeypatch, WHEEL)
    assert status == 0
    reference = read_reference(path)
    assert weaknesses(reference) == ()
    out = capsys.readouterr().out
    assert "Not asked for: the steps of a turned part (stackcheck references edit drill-stand/wheel" in " ".join(
        out.split()
    )
    assert main(["references", "check", str(path)]) == 0
    assert reference.stack("main stack").places == (
        "axle-nut", "washer", "leg@left", "long-collar", "bearing@left", "spacer-tube", "bearing@right", "short-collar",
        "leg@right",
    )  # fmt: skip
    assert {loop.name for loop in reference.loops} == {"free gap", "seat gap"}
    assert "left [1 >][2][#3#][<4       ][5   ][6                 ][7   ][8     >]" in out


def test_what_is_only_usual_says_so_in_the_file(tmp_path, monkeypatch):
    """Whoever reads the file later sees which limits somebody gave and which are practice."""
    _, path = written(tmp_path, monkeypatch, WHEEL)
    text = path.read_text(encoding="utf-8")
    assert 'length = "40.00 mm ±0.02"             # limits: common practice, no source' in text
    assert 'feature = "spring side"               # keeps the grease in: it looks at the bearing' in text
    assert text.startswith("# Wheel on a through axle.\n\n")


def test_the_end_nearer_to_the_first_is_always_answer_one():
    """So that the number follows the geometry, never what is expected."""
    draft, _, _ = talk(WHEEL)
    facings = {row.name: row.toward for row in draft.parts if row.toward}
    assert facings == {"Axle nut": "right", "Long collar": "left", "Short collar": "right", "Seal": "left"}


def test_a_part_said_again_is_the_same_part_in_another_place():
    draft, _, _ = talk(WHEEL)
    assert [row.name for row in draft.parts].count("Bearing") == 2


def test_minus_takes_the_last_part_back():
    draft, _, _ = talk([*HEAD, "bearing 6202", "washer 24x13x2.5", "1", "-", "bracket", ""])
    assert [row.name for row in draft.parts] == ["Bearing", "Bracket"]


def test_not_known_stays_out_and_is_written_beside(tmp_path, monkeypatch):
    answers = [*HEAD, "bracket", "seal 25x35x5", "2", "0", "1", "0", "collar 12.0", "0", "0", "bracket", ""]
    status, path = written(tmp_path, monkeypatch, answers)
    assert status == 0
    text = path.read_text(encoding="utf-8")
    assert "spring side: which way it points is not known yet" in text
    assert "# no limits known" in text


def test_a_kind_that_the_name_does_not_show_is_asked():
    draft, asked, _ = talk([*HEAD, "thing", "1", "0", "bracket", ""])
    assert "What kind of part is the thing?" in asked
    assert [row.kind for row in draft.parts] == ["collar", "bracket"]


def test_sizes_of_standard_parts_are_offered_by_their_designations():
    draft, asked, _ = talk([*HEAD, "bearing 20x47x14", "1", "washer 24x13x2.5", "0", "1", "0", ""])
    assert [(row.standard, bool(row.sizes)) for row in draft.parts] == [("6204", False), ("", True)]
    assert sum(question.startswith("Standard parts of these sizes") for question in asked) == 2


def test_two_collars_of_one_bore_and_two_lengths_are_offered_as_a_pair(tmp_path, monkeypatch):
    _, path = written(tmp_path, monkeypatch, WHEEL)
    reference = read_reference(path)
    assert [
        duty.detail
        for part in ("long-collar", "short-collar")
        for duty in reference.part(part).duties
        if duty.name == "pair"
    ] == ["short-collar", "long-collar"]


@pytest.mark.parametrize(
    ("answers", "number", "said"),
    [
        ([*HEAD, "collar 12,500"], 7, "cannot be read"),
        ([*HEAD, "gap 2..3"], 7, "a gap lies between two parts"),
        ([*HEAD, "bearing 6202", "gap 2.0"], 8, "a gap has two figures"),
        ([*HEAD, "12.5"], 7, "nothing says what it is"),
        ([*HEAD, "bracket"], 8, "a stack has two parts at least"),
        (["left", "right"], 3, "nothing was answered"),
        ([*HEAD[:4], "7"], 5, "is none of the answers"),
        ([*HEAD, "thing", "what is it"], 8, "is no kind known here"),
    ],
)
def test_an_answer_that_cannot_be_used_stops_a_pipe_at_its_number(answers, number, said, tmp_path, monkeypatch, capsys):
    """A later answer would be taken for this question, and nobody is there to see it."""
    status, path = written(tmp_path, monkeypatch, answers)
    err = " ".join(capsys.readouterr().err.split())
    assert status == 3
    assert f"the answers:{number}:" in err and said in err
    assert not path.exists()


def test_a_person_is_asked_again():
    draft, _, refused = talk([*HEAD, "collar 12,500", "bracket", "bracket", ""])
    assert len(refused) == 1
    assert [row.name for row in draft.parts] == ["Bracket", "Bracket"]


def test_what_the_nut_presses_together_ends_where_a_gap_is_open(tmp_path, monkeypatch):
    """A joint across an open gap would be a force through air."""
    _, path = written(tmp_path, monkeypatch, WHEEL)
    (joint,) = read_reference(path).joints
    assert (joint.clamps, joint.thread, joint.torque.text) == (("washer", "short-collar"), "M12x1.75", "40 N·m")


ROLLER = [
    *HEAD,
    "bolt M16x100 seat 17 g6", "1", "1",
    "left cheek 6", "1", "1",
    "bearing 6203 2RS",
    "tube 46.00 ±0.02", "bearing",
    "right cheek 6", "1", "1",
    "castle nut M16x1.5 13 long", "1", "2", "1", "2", "2",
    "split pin 4x32",
    "",
    "roller seats 45.95 ±0.02 #LP-35", "", "seal 28x40x7 #LP-36", "2", "seal", "1",
    "0.00..0.10", "", "",
    "70 N·m", "", "1", "",
    "rope line", "left cheek", "roller", "11.5..12.5", "", "",
    "0", "0",
]  # fmt: skip


def test_what_passes_through_or_lies_across_adds_nothing_to_the_length(tmp_path, monkeypatch):
    _, path = written(tmp_path, monkeypatch, ROLLER)
    reference = read_reference(path)
    assert {stack.name: stack.places for stack in reference.stacks if "itself" in stack.name} == {
        "bolt itself": ("bolt", "left-cheek"),
        "split pin itself": ("right-cheek", "split-pin"),
    }
    assert reference.stack("main stack").places == (
        "left-cheek",
        "bearing@left",
        "tube",
        "bearing@right",
        "right-cheek",
        "castle-nut",
    )
    assert {name: size.nominal_mm for name, size in reference.part("split-pin").sizes} == {"length": 32, "shaft": 4}
    assert weaknesses(reference) == () or all(weakness.grade != TO_MEND for weakness in weaknesses(reference))


def test_the_lock_of_a_nut_stands_in_its_joint(tmp_path, monkeypatch):
    _, path = written(tmp_path, monkeypatch, ROLLER)
    (joint,) = read_reference(path).joints
    assert (joint.clamps, joint.thread, joint.locked_by) == (("left-cheek", "right-cheek"), "M16x1.5", "split pin")


def test_an_end_is_called_an_end_once():
    _, asked, _ = talk(["drive end", "far end", *HEAD[2:], "bracket", "bracket", ""])
    assert "Drive end 1. What comes first, from the drive end?" in asked


def test_a_gap_that_a_nut_sets_is_no_sum_of_lengths(tmp_path, monkeypatch):
    """An end float on taper bearings comes from how far the nut is turned."""
    answers = [
        *HEAD,
        "bracket",
        "collar 5.0 ±0.1",
        "0",
        "gap 0.03..0.08",
        "end float",
        "",
        "axle nut",
        "collar 6.0 ±0.1",
        "0",
        "bracket",
        "",
        "",
        "",
        "",
        "",
    ]
    draft, _, _ = talk(answers)
    assert [(row.name, row.set_by, row.source) for row in draft.rows if not hasattr(row, "kind")] == [
        ("end float", "axle nut", "sheet 3")
    ]


def test_a_distance_between_parts_that_do_not_touch_is_said_to_be_measured():
    _, _, shown = talk_shown([*ROLLER])
    assert "No sum is made of the rope line: these two are no neighbours, so it is measured." in shown


def test_any_other_distance_with_limits_is_asked(tmp_path, monkeypatch):
    _, path = written(tmp_path, monkeypatch, ROLLER)
    rope = next(limit for limit in read_reference(path).limits if limit.what == "rope line")
    assert (rope.between, rope.least_mm, rope.most_mm, rope.source) == (("left-cheek", "roller"), 11.5, 12.5, "sheet 3")


def test_a_seal_said_again_is_the_same_seal(tmp_path, monkeypatch):
    _, path = written(tmp_path, monkeypatch, ROLLER)
    reference = read_reference(path)
    assert [(place.name, place.facing) for place in reference.places_of("seal")] == [
        ("seal@left", "second"),
        ("seal@right", "first"),
    ]
    assert reference.part("roller").name == "Roller"


def test_limits_that_somebody_typed_are_theirs_even_where_the_usual_ones_are_the_same():
    """What a drawing says must not be marked as common practice."""
    draft, _, _ = talk([*HEAD, "bracket", "collar 12.0", "±0.05", "0", "bracket", ""])
    assert [(dict(row.sizes), row.remarks) for row in draft.parts if row.kind == "collar"] == [
        ({"length": "12.0 mm ±0.05"}, ())
    ]


def test_a_cheek_is_asked_whether_it_stays(tmp_path, monkeypatch):
    _, path = written(tmp_path, monkeypatch, ROLLER)
    assert [part.id for part in read_reference(path).parts if part.fixed] == ["left-cheek", "roller", "right-cheek"]


@pytest.mark.parametrize(
    ("said", "which", "years", "serials", "covers"),
    [
        ("2008 to 2013", "1", "2008 to 2013", None, ""),
        ("400 and up", "2", None, "400 and up", ""),
        ("400 and up", "0", None, None, "400 and up"),
        ("early ones", None, None, None, "early ones"),
    ],
)
def test_years_and_serials_are_kept_as_what_compare_picks_by(said, which, years, serials, covers):
    draft, _, _ = talk([*HEAD[:3], said, *([which] if which else []), *HEAD[4:], "bracket", "bracket", ""])
    assert (draft.years and draft.years.text, draft.serials and draft.serials.text, draft.covers) == (
        years,
        serials,
        covers,
    )


def test_every_line_is_read_back_before_the_next_question():
    """Whoever typed "tube" and meant a spacer tube sees what it was taken for."""
    _, _, said = talk_shown([*HEAD, "tube 46.00 ±0.02 od 22 #LP-34", "bracket", ""])
    assert "Tube: spacer tube, length 46.00 mm ±0.02, outside diameter (OD) 22 mm, number LP-34." in said


def duties_of(draft: Draft) -> dict[str, tuple[str, ...]]:
    return {row.name: row.duties for row in draft.parts}


def test_what_keeps_something_on_from_turning_or_belongs_to_a_brake_is_asked_and_blocks_agreement(
    tmp_path, monkeypatch
):
    """A reference without these duties lets a comparison agree although nobody saw the part that holds the wheel."""
    _, path = written(tmp_path, monkeypatch, WHEEL)
    reference = read_reference(path)
    duties = {part.id: {duty.name for duty in part.duties} for part in reference.parts}
    assert duties["axle-nut"] >= {"retention", "life-and-limb"}
    assert duties["washer"] == {"anti-turn"}
    assert "brake" in duties["long-collar"] and "brake" not in duties["spacer-tube"]
    assert all(reference.part(id).blocks_agreement for id in ("axle-nut", "washer", "long-collar"))


def test_of_limbs_those_that_keep_something_on_are_offered():
    draft, asked, _ = talk(
        [*HEAD, "bracket", "collar 5", "0", "0", "axle 20 long", "1", "1", "bolt 30 long", "1", "2", "", "", "3", ""]
    )
    assert duties_of(draft)["Axle"] == ("retention", "life-and-limb")
    assert "life-and-limb" not in duties_of(draft)["Bolt"]
    assert "Which of them let it come apart, if they break or come off?" in asked


def test_no_duty_is_asked_where_it_cannot_apply():
    """A bracket keeps nothing on by a thread, a bearing has no tab,
    and where no brake is none of its parts is asked for.
    """
    _, asked, _ = talk([*HEAD, "bracket", "bearing 6202", "ISO 7089 M16 washer", "bracket", "", "", "0"])
    said = " ".join(asked)
    assert (
        "coming off" not in said
        and "tab, tooth" not in said
        and "Which are part" not in said
        and "along the axis" not in said
    )


def test_where_a_hub_stands_may_matter_by_itself():
    draft, _, _ = talk([*HEAD, "bracket", "hub 40.0", "1", "0", "bracket", "", "", "1", "0"])
    assert duties_of(draft)["Hub"] == ("watch",)


SKETCH = [
    *HEAD,
    "axle bolt, hex head left, shank dia 15 h6, M12, 125 long", "", "",
    "washer ISO 7089 M14",
    "frame plate 8.0 ±0.2, stays on the trolley",
    "spacer 6.00 ±0.05 bore 15 od 20",
    "seal 35x20x4", "", "", "1", "3",
    "bearing 6202",
    "tube spacer 52.10 ±0.03 bore 15 od 20, must be measured",
    "bearing",
    "seal", "3",
    "spacer",
    "2 shims 0.40 ±0.02 bore 15 od 20",
    "frame plate",
    "washer ISO 7089 M12",
    "nut M12 self locking, new every time, 45 Nm, dry", "", "10.0 ±0.2", "",
    "",
    "roller body 52.00 ±0.04", "",
    "0.00..0.20", "", "",
    "", "", "", "",
    "",
    "", "", "",
]  # fmt: skip
"""The idler of a belt trolley, as somebody read it off a sketch."""


def test_an_idler_off_a_sketch_is_written_as_it_is(tmp_path, monkeypatch, capsys):
    """What is said in a line is taken out of the name and asked no more;
    no bolt counts, no seal in a bore is clamped.
    """
    status, path = written(tmp_path, monkeypatch, SKETCH)
    assert status == 0
    reference = read_reference(path)
    assert [(stack.name, stack.places) for stack in reference.stacks] == [
        (
            "main stack",
            (
                "washer",
                "frame-plate@left",
                "spacer@left",
                "bearing@left",
                "tube-spacer",
                "bearing@right",
                "spacer@right",
                "shims",
                "frame-plate@right",
                "washer-2",
                "nut",
            ),
        ),
        ("axle bolt itself", ("axle-bolt", "frame-plate@left")),
        ("outer rings", ("seal@left", "bearing@left", "roller-body", "bearing@right", "seal@right")),
    ]
    assert [part.name for part in reference.parts if part.kind == "washer"] == ["Washer M14", "Washer M12"]
    assert [part.name for part in reference.parts if part.fixed] == ["Frame plate", "Roller body"]
    assert [(place.name, place.facing) for place in reference.places if place.part in ("seal", "axle-bolt")] == [
        ("axle-bolt", "first"),
        ("seal@left", "second"),
        ("seal@right", "first"),
    ]
    assert [part.id for part in reference.parts if part.must_measure] == ["tube-spacer"]
    bolt, nut = reference.part("axle-bolt"), reference.part("nut")
    assert (bolt.name, bolt.size("outside").text, bolt.size("thread_pitch").nominal_mm) == ("Axle bolt", "15 h6", 1.75)
    assert (nut.name, nut.note, {duty.name for duty in nut.duties}) == (
        "Nut",
        "self-locking",
        {"retention", "new every time"},
    )
    (joint,) = reference.joints
    assert (joint.clamps, joint.thread, joint.torque.text, joint.thread_condition) == (
        ("washer", "washer-2"),
        "M12x1.75",
        "45 Nm",
        "dry",
    )
    assert not [weakness for weakness in weaknesses(reference) if weakness.grade == TO_MEND]
    out = capsys.readouterr().out
    assert "A seal, circlip or cover in the" not in out and "unequal pair" not in out
    assert "What keeps the nut from turning" not in out and "Does the frame plate stay" not in out


def test_parts_of_one_name_are_told_apart_where_one_is_asked_for():
    """Two washers both called "washer": the number chosen means that line."""
    draft, asked, _ = talk(SKETCH)
    assert "It presses together everything from the right washer to:" in asked
    (joint,) = draft.joints
    assert [draft.rows[row].standard for row in joint.rows] == ["ISO 7089 M14", "ISO 7089 M12"]


def test_a_seal_clamped_between_the_rings_stays_in_their_stack():
    draft, _, _ = talk([*HEAD, "bracket", "seal 35x20x4", "2", "0", "0", "bracket", ""])
    assert [row.in_bore for row in draft.parts if row.kind == "seal"] == [False]


def test_a_machine_that_was_measured_gives_no_limits():
    """It shows how wide a gap is, never how wide it may be."""
    draft, _, _ = talk(
        [*HEAD[:4], "3", "trolley no. 3", "bracket", "collar 5", "0", "0", "gap 1..3", "", "", "", "bracket", ""]
    )
    assert [row.source for row in draft.rows if not hasattr(row, "kind")] == [""]


@pytest.mark.parametrize(
    ("near", "far", "asked_for"),
    [("left collar 6.0 ±0.1", "right collar 8.0 ±0.1", "yes"), ("thin collar 6.0 ±0.1", "stop collar 8.0 ±0.1", "no")],
)
def test_a_pair_is_offered_only_where_the_names_say_so(near, far, asked_for):
    answers = [*HEAD, "bracket", near, "0", "bearing 6202", "bearing", far, "0", "bracket", ""]
    draft, asked, _ = talk(answers)
    assert sum("unequal pair" in question for question in asked) == 1
    assert any(duty.startswith("pair") for row in draft.parts for duty in row.duties) == (asked_for == "yes")


def test_parts_at_one_end_are_no_pair():
    _, asked, _ = talk(
        [
            *HEAD,
            "bracket",
            "collar 6.0 ±0.1",
            "0",
            "stop collar 8.0 ±0.1",
            "0",
            "bearing 6202",
            "bearing",
            "bracket",
            "",
        ]
    )
    assert not any("unequal pair" in question for question in asked)


def test_a_line_that_cannot_be_read_names_the_words():
    _, _, refused = talk([*HEAD, "collar 12.0 bore 20 whatever", "bracket", "bracket", ""])
    assert len(refused) == 1 and "whatever" in refused[0] and "take it out of the line" in refused[0]


answers = st.sampled_from(
    [
        *WHEEL,
        *SKETCH,
        "-",
        "",
        "0",
        "1",
        "2",
        "9",
        "gap",
        "gap 1..2",
        "x",
        "collar 12 12",
        "1/2 in bolt",
        "cone 5",
        "6202",
        "nut",
        "steel plate 2 x6",
        "±",
        "#",
        "taper bearing 30204",
        "hub",
    ]
) | st.text(max_size=12)


@settings(max_examples=150)
@given(said=st.lists(answers, max_size=40))
def test_whatever_is_answered_the_dialogue_asks_on_or_ends_with_a_draft(said):
    draft, _, _ = talk([*HEAD, *said])
    assert draft is None or len(draft.parts) >= 2


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(said=st.lists(answers, max_size=30))
def test_whatever_comes_through_a_pipe_a_sound_file_is_written_or_none(said, tmp_path, monkeypatch):
    (tmp_path / "drill-stand" / "wheel.toml").unlink(missing_ok=True)
    status, path = written(
        tmp_path, monkeypatch, [*HEAD, *(line.replace("\n", " ").replace("\r", " ") for line in said)], "--json"
    )
    assert (status, path.exists()) in ((0, True), (3, False))
    if status == 0:
        assert all(weakness.grade in (TO_MEND, "left open") for weakness in weaknesses(read_reference(path)))


def test_what_keeps_a_nut_from_turning_may_stand_at_the_end_of_its_line():
    """Its sizes are none of the nut's, and it is a part of its own."""
    draft, (asked, refused), shown = talk_shown(
        [
            *HEAD,
            "castellated nut M16x1.5 10.0 ±0.2 with split pin 4x32",
            "1",
            "0",
            "split pin 4x32",
            "ring 5 ±0.1",
            "1",
            "bracket",
            "",
        ]
    )
    nut, pin = draft.parts[:2]
    assert not refused and not any("from turning" in question for question in asked)
    assert (nut.name, nut.locked_by, dict(nut.sizes)["length"]) == ("Castellated nut", "split pin", "10.0 mm ±0.2")
    assert "Then the split pin 4x32 comes as a part of its own: name it where it lies." in shown
    assert "Split pin: split pin, length 32 mm, thickness 4 mm." in shown and pin.kind == "split pin"


@pytest.mark.parametrize(
    ("lock", "kept"), [("lock wire", "lock wire"), ("tab", "tab washer"), ("split pin", "split pin")]
)
def test_a_lock_may_be_said_in_a_word(lock, kept):
    draft, _, _ = talk([*HEAD, f"nut M16x1.5 10.0 ±0.2, {lock}", "1", "0", "ring 5 ±0.1", "1", "bracket", ""])
    assert draft.parts[0].locked_by == kept


@pytest.mark.parametrize(
    "said",
    [
        "flange toward the outside",
        "flange outside",
        "flange to the outside",
        "flange outward",
        "flange facing outwards",
    ],
)
def test_the_outside_is_that_of_the_nearer_end(said):
    answers = [*HEAD, f"collar 6.0 ±0.1, {said}", "bracket", "bracket", f"stop collar 8.0 ±0.1, {said}", "", "0"]
    draft, _, _ = talk(answers)
    assert [(row.feature, row.toward) for row in draft.parts if row.kind == "collar"] == [
        ("flange", "left"),
        ("flange", "right"),
    ]


def test_two_lengths_in_a_line_are_both_named():
    _, _, refused = talk([*HEAD, "collar 12.0 length 14.0", "bracket", "bracket", ""])
    assert refused == [
        (
            'in this line "12.0 mm and 14.0 mm" cannot be read: the length is given twice. '
            "Mend it, or take it out of the line"
        )
    ]


def test_an_empty_line_behind_two_parts_is_asked_before_it_ends_the_list():
    """Whoever typed Enter once too often has a third part to name."""
    draft, asked, _ = talk([*HEAD, "bracket", "bracket", "", "no", "collar 5 ±0.1", "0", ""])
    assert asked.count("2 parts: end of the list?") == 1
    assert [row.name for row in draft.parts] == ["Bracket", "Bracket", "Collar"]
