"""What the bench reads back before the next question, and the manual's table, which is made of it."""

import re
from pathlib import Path

import pytest

from stackcheck.formats.bench_line import back, read_line
from stackcheck.formats.library import Library
from tests.strategies import LIBRARY, ROOT

library = Library(LIBRARY)
MANUAL = (Path(ROOT) / "stackcheck/manual/bench_lines.md").read_text(encoding="utf-8")


def said(typed: str, reference: str = "") -> str:
    """The reading back with its questions, as the manual shows them."""
    beside = library.reference(reference) if reference else None
    line = read_line(typed, reference=beside)
    asked = [f"*{question.text}*" for question in line.questions]
    return " ".join([back(line, reference=beside), *asked])


def _rows():
    reference, is_shown = "", False
    for text in MANUAL.splitlines():
        if text.startswith("| ") and "`" not in text:
            is_shown = text == "| typed | read back as |"
        elif match := re.match(r"Beside the reference `([^`]+)`", text):
            reference = match[1]
        elif is_shown and (match := re.match(r"\| `(.+?)` \| (.+) \|$", text)):
            yield pytest.param(match[1], reference, match[2], id=match[1])


def test_the_manual_has_a_table():
    assert len(list(_rows())) >= 40


@pytest.mark.parametrize(("typed", "reference", "shown"), list(_rows()))
def test_the_manual_shows_what_a_line_is_read_as(typed, reference, shown):
    assert said(typed, reference) == shown


def test_what_was_measured_the_same_way_says_so_once():
    assert said("ring 45 35 .5 mic") == "Ring, OD 45 mm, bore 35 mm, 0.5 mm (0.020 in) thick, all by micrometer."


def test_a_figure_in_inches_has_its_mm_beside_it_and_keeps_its_fraction():
    assert said("collar 15/16 rule") == "Collar, 15/16 in (23.81 mm) long by rule."


def test_inches_of_a_thin_thing_keep_a_digit_that_says_something():
    assert said("shim 0.06") == "Shim ring, 0.06 mm (0.0024 in) thick."


def test_our_word_stands_before_a_word_that_people_type_instead():
    assert said("sleeve 58") == "Spacer tube, 58 mm (2.283 in) long."
    assert said("packing .3") == "Shim ring, 0.3 mm (0.012 in) thick."
    assert said("oil seal").startswith("Oil seal")


def test_ends_may_be_named_without_a_reference():
    assert (
        back(read_line("seal, gear", ends=("gear end", "input end")), ends=("gear end", "input end"))
        == "Seal. Off the gear end."
    )


def test_pieces_of_which_some_were_not_measured():
    assert "; 2 not measured; pack not measured." in said("4 shims .29 .30 mic")


def test_more_than_two_plates_together():
    assert said("s f f f s") == "5 plates one by one: 2 steel, 3 friction; three friction plates together, 2nd to 4th."
