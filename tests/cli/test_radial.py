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
