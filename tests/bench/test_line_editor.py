"""Keys at a terminal: a digit answers by itself, and the Enter typed with it answers nothing more."""

from __future__ import annotations

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from stackcheck.bench import line_editor


def typed(keys: str, digits: tuple[int, ...]) -> list[str]:
    """The answers to one question after another, each with so many digits that answer at once."""
    with create_pipe_input() as keyboard, create_app_session(input=keyboard, output=DummyOutput()):
        edit = line_editor.line_editor()
        keyboard.send_text(keys)
        return [edit("?", at_once=count) for count in digits]


@pytest.mark.parametrize(
    ("keys", "digits", "answers"),
    [
        ("1\rwasher\r", (3, 0), ["1", "washer"]),
        ("1washer\r", (3, 0), ["1", "washer"]),
        ("1\r2\r\r", (3, 3, 0), ["1", "2", ""]),
        ("washer\r\r", (0, 0), ["washer", ""]),
        ("1\r\r", (3, 0), ["1", ""]),
    ],
)
def test_an_enter_right_behind_a_digit_is_the_digits_own(keys, digits, answers):
    assert typed(keys, digits) == answers


def test_a_later_enter_answers_the_next_question(monkeypatch):
    monkeypatch.setattr(line_editor, "SAME_STROKE_S", 0)
    assert typed("1\r", (3, 0)) == ["1", ""]
