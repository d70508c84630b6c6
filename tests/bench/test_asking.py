"""A dialogue with somebody: nothing typed is lost, any answer can be taken back,
a broken-off one goes on where it was.
"""

from __future__ import annotations

import os
import select
import signal
import sys
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.bench.asking import Stopped, held
from stackcheck.errors import InputError
from stackcheck.formats.answers_file import Answers
from stackcheck.references import ask
from stackcheck.references.ask import Dialogue


def tea() -> Dialogue[tuple[str, ...]]:
    name = yield from ask.text("Whose?", must=True)
    yield from ask.say(f"For {name}.")
    kind = yield from ask.choose("Which?", ("black", "green"), none="any")
    milk = (yield from ask.choose("Milk?", ("yes", "no"))) if kind == "black" else ""
    return name, kind, milk, (yield from ask.text("Wishes?"))


def talk(typed: list[str], answers: Answers) -> tuple[object, list[tuple[str, str]], list[str]]:
    """What the dialogue made, every question with what stood in its line already, every line that was shown."""
    left, asked, shown = [*typed, "/"], [], []

    def put(step, begin):
        asked.append((step.text, begin))
        return left.pop(0)

    try:
        made = held(tea, put, shown.append, answers, shown.append)
    except Stopped:
        made = None
    return made, asked, shown


def test_a_dialogue_that_was_left_goes_on_at_its_question(tmp_path):
    path = tmp_path / "tea.answers"
    talk(["Ann", "1"], Answers(path))
    made, asked, shown = talk(["2", "hot"], Answers(path))
    assert made == ("Ann", "black", "no", "hot")
    assert asked == [("Milk?", ""), ("Wishes?", "")]
    assert shown == ["For Ann."]


def test_minus_walks_back_answer_by_answer_and_asks_what_follows_from_the_new_one(tmp_path):
    made, asked, _ = talk(["Ann", "1", "1", "-", "-", "2", "none"], Answers(tmp_path / "tea.answers"))
    assert made == ("Ann", "green", "", "none")
    assert [question for question, _ in asked] == ["Whose?", "Which?", "Milk?", "Wishes?", "Milk?", "Which?", "Wishes?"]


def test_an_answer_that_cannot_be_used_stands_in_the_line_to_be_mended(tmp_path):
    _, asked, shown = talk(["Ann", "red"], Answers(tmp_path / "tea.answers"))
    assert asked[2] == ("Which?", "red")
    assert '"red" is none of the answers' in shown[-1]


def test_every_line_typed_stays_in_the_file(tmp_path):
    path = tmp_path / "tea.answers"
    talk(["Ann", "red", "1", "-", "2"], Answers(path))
    text = path.read_text(encoding="utf-8")
    assert (
        text == "said\tWhose?\tAnn\nsaid\tWhich?\tred\nrefused\tWhich?\tred\nsaid\tWhich?\t1\ntaken back\tWhich?\t1\n"
        "said\tWhich?\t2\n"
    )


@given(typed=st.lists(st.sampled_from(["Ann", "1", "2", "0", "-", "", "x"]), max_size=12), at=st.integers(0, 400))
def test_wherever_the_file_was_torn_what_stood_before_it_counts(typed, at, tmp_path_factory):
    path = tmp_path_factory.mktemp("torn") / "tea.answers"
    whole = Answers(path)
    talk(typed, whole)
    data = path.read_bytes() if path.exists() else b""
    path.write_bytes(data[:at])
    torn = Answers(path)
    assert path.read_bytes() == data[: data[:at].rfind(b"\n") + 1]
    assert at < len(data) or torn.said == whole.said
    talk(["Ann"], torn)
    assert Answers(path).said == torn.said


def test_a_question_that_is_no_longer_asked_takes_no_answer_with_it(tmp_path):
    path = tmp_path / "tea.answers"
    path.write_text("said\tWhose?\tAnn\nsaid\tHow strong?\t3\n", encoding="utf-8")
    _, asked, _ = talk(["1"], Answers(path))
    assert asked[0][0] == "Which?"
    assert "How strong?\t3" in path.read_text(encoding="utf-8")


@pytest.mark.parametrize("data", ["refused\tx\ty\n", "something else\n", "\n", "\x00\n"])
def test_a_file_that_holds_no_answers_is_refused(data, tmp_path):
    path = tmp_path / "tea.answers"
    path.write_text(data, encoding="utf-8")
    with pytest.raises(InputError, match="it holds no answers of a dialogue"):
        Answers(path)


class Screen:
    """The command on a terminal of its own."""

    def __init__(self, *words: str):
        import pty

        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            os.environ |= {"PROMPT_TOOLKIT_NO_CPR": "1", "TERM": "xterm", "COLUMNS": "100"}
            os.execv(sys.executable, [sys.executable, "-m", "stackcheck", *words])
        self.seen = ""

    def until(self, words: str) -> None:
        end = time.monotonic() + 60
        while words not in self.seen and time.monotonic() < end:
            if select.select([self.fd], [], [], 0.2)[0]:
                try:
                    self.seen += os.read(self.fd, 65536).decode(errors="replace")
                except OSError:
                    break
        assert words in self.seen, self.seen
        self.seen = ""

    def type(self, keys: str) -> None:
        os.write(self.fd, keys.encode())

    def kill(self) -> None:
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.fd)


@pytest.mark.skipif(os.name != "posix", reason="a terminal of its own is made by pty")
def test_a_new_reference_is_gone_on_with_after_its_terminal_was_killed(tmp_path):
    file = tmp_path / "wheel.toml"
    screen = Screen("references", "new", str(file), "--title", "Wheel")
    screen.until("first end called?")
    screen.type("top\r")
    screen.until("second end?")
    screen.type("bottom\r")
    screen.until("which end is top?")
    screen.type("standing up, half typ")
    screen.kill()
    screen = Screen("references", "new", str(file))
    screen.until("which end is top?")
    screen.type("the floor is below\r")
    screen.until("serials")
    screen.type("\r")
    screen.until("Who says")
    screen.type("5")  # one digit is the answer
    screen.until("Which sheet")
    screen.type("\x03")
    screen.until("Stopped, 6 answers kept")
    screen.kill()
    assert [answer for _, answer in Answers(file.with_suffix(".answers")).said] == [
        "Wheel",
        "top",
        "bottom",
        "the floor is below",
        "",
        "5",
    ]
