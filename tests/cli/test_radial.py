"""`--radial`: what a load across on one bearing pushes along, and what is no such load."""

from __future__ import annotations

import json

import pytest

from stackcheck.cli import main


def test_each_bearing_with_a_slant_says_what_it_pushes_along(capsys):
    main(["stack", "rear-hub", "--radial", "1.5 kN", "--json"])
    thrusts = json.loads(capsys.readouterr().out)["self_thrusts"]
    assert [each["place"] for each in thrusts] == ["bearing-large", "bearing-small"]
    assert all(each["radial_n"] == 1500 and 300 < each["thrust_n"]["usual"] < 600 for each in thrusts)


def test_without_a_place_the_answer_holds_over_the_whole_span(capsys):
    """Nobody has to know where a wheel pushes to be told how much at the least and at the most."""
    main(["stack", "rear-hub", "--radial", "1.5 kN"])
    told = " ".join(capsys.readouterr().out.split())
    assert "LOAD ACROSS of 1.5 kN anywhere between the two bearings - along the axis: both carry 160 to 570 N" in told
    assert "--radial-at narrows it: a place, a face, or a length from one." in told
    main(["stack", "shaft-bearings", "--radial", "1.5 kN"])
    three = " ".join(capsys.readouterr().out.split())
    assert "on one bearing - thrust bearing 1: its rings" in three and "told as if one bearing took all of it" in three


def test_it_says_that_no_other_force_counts_the_load_across(capsys):
    main(["stack", "rear-hub", "--radial", "1.5 kN"])
    told = " ".join(capsys.readouterr().out.split())
    assert "no radial load" in told and "Load across: it enters no force but those under LOAD ACROSS." in told


def test_without_such_a_load_nothing_is_said_of_it(capsys):
    main(["stack", "rear-hub"])
    assert "LOAD ACROSS" not in capsys.readouterr().out


@pytest.mark.parametrize("words", ["x", "0 N", "-1 kN", "1..2 kN", "5 mm", "1e9 kN"])
def test_what_can_be_no_load_is_refused(capsys, words):
    assert main(["stack", "rear-hub", f"--radial={words}"]) == 3
    told = capsys.readouterr()
    assert "--radial" in told.out + told.err


def test_where_no_bearing_has_a_slant_that_is_said(capsys):
    main(["stack", "front-hub", "--radial", "1 kN"])
    told = " ".join(capsys.readouterr().out.split())
    assert "LOAD ACROSS of 1.0 kN on one bearing No angular or taper bearing stands here" in told


# --- at a place along the axis ----------------------------------------------------------------------------------------


def told(capsys, *words: str) -> str:
    main(["stack", *words])
    return " ".join(capsys.readouterr().out.split())


def test_a_load_at_its_place_is_shared_between_the_two_bearings(capsys):
    out = told(capsys, "rear-hub", "--radial", "1.5 kN", "--radial-at", "hub")
    assert "LOAD ACROSS of 1.5 kN at hub Shared by the lever rule" in out
    assert "back to back, 66 to 70 mm apart" in out
    assert "the large hub bearing: takes 720 to 760 N, about 740 N; its slant makes 160 to 270 N along the axis" in out
    assert "along the axis: both carry 180 to 280 N, about 220 N: there is no preload; the end float is taken up" in out
    assert "the reference sets no limit for it: not judged" in out and "on one bearing" not in out


def test_one_on_an_overhang_presses_the_far_bearing_the_other_way(capsys):
    out = told(capsys, "front-hub", "--radial", "1.5 kN", "--radial-at", "collar-long@right")
    assert "the left hub bearing: is pressed the other way with 370 to 380 N" in out
    assert "no force of its own: these bearings have no slant" in out


@pytest.mark.parametrize(
    "words", ["hub/right", "0 mm right of hub/right", "46 mm right of hub/left", "46 mm left of hub/right"]
)
def test_a_place_may_be_said_by_a_face_and_a_length_from_it(capsys, words):
    main(["stack", "rear-hub", "--radial", "1 kN", "--radial-at", words, "--json"])
    across = json.loads(capsys.readouterr().out)["load_across"]
    at = {"hub/right": 46 + 11.7, "46 mm left of hub/right": 11.7}.get(words, 46 + 11.7)
    assert across["at"] == words
    assert across["reference"]["from_first_centre_mm"]["usual"] == pytest.approx(at, abs=0.1)


def test_as_json_every_share_has_its_range_and_its_needs(capsys):
    main(["stack", "rear-hub", "--radial", "1 kN", "--radial-at", "hub", "--json"])
    across = json.loads(capsys.readouterr().out)["load_across"]
    assert across["load_n"] == 1000 and across["as_found"] is None and across["reference"]["needs"] == []
    first, second = across["reference"]["bearings"]
    assert first["radial_n"]["usual"] + second["radial_n"]["usual"] == pytest.approx(1000)
    assert not first["rating_is_given"] and first["c0_over_p0"]["least"] < first["c0_over_p0"]["most"]


def test_as_found_stands_beside_the_reference(capsys):
    out = told(
        capsys,
        "front-hub",
        "--found",
        "examples/01-front-hub-collars-swapped.toml",
        "--radial",
        "1 kN",
        "--radial-at",
        "hub",
    )
    assert "the left hub bearing, as found and by the reference: takes 500 N" in out


def test_three_bearings_are_told_as_too_many(capsys):
    out = told(capsys, "shaft-bearings", "--radial", "1 kN", "--radial-at", "shaft")
    assert "cannot tell how it is shared: needs two bearings to share the load between: 3 bearings" in out


@pytest.mark.parametrize(
    "words", ["nowhere", "hub/up", "5 mm right of hub", "x right of hub/left", "5 N right of hub/left", ""]
)
def test_what_is_no_place_is_refused(capsys, words):
    assert main(["stack", "rear-hub", "--radial", "1 kN", f"--radial-at={words}"]) == 3
    shown = capsys.readouterr()
    assert "--radial-at" in shown.out + shown.err


def test_a_place_without_a_load_is_refused(capsys):
    assert main(["stack", "rear-hub", "--radial-at", "hub"]) == 3


# --- a bearing above its static limit ---------------------------------------------------------------------------------


def test_a_share_past_the_static_rating_shows_the_reason_and_no_force_along(capsys):
    out = told(capsys, "rear-hub", "--radial", "100 kN", "--radial-at", "hub")
    assert out.count("uses up an estimated static rating C0, about") == 2
    assert "its slant makes" not in out and "both carry" not in out
    main(["stack", "rear-hub", "--radial", "100 kN", "--radial-at", "hub", "--json"])
    for each in json.loads(capsys.readouterr().out)["load_across"]["reference"]["bearings"]:
        assert each["beyond_its_rating"] and each["thrust_n"] is None and each["c0_over_p0"] is None


def test_a_load_on_one_bearing_past_its_static_rating_shows_the_reason_and_no_force_along(capsys):
    out = told(capsys, "rear-hub", "--radial", "100 kN")
    assert out.count("that uses up an estimated static rating C0") == 2 and "pushed apart by" not in out
    main(["stack", "rear-hub", "--radial", "100 kN", "--json"])
    assert [each["thrust_n"] for each in json.loads(capsys.readouterr().out)["self_thrusts"]] == [None, None]
