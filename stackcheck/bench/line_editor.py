"""One line from a person at a terminal: edited, completed by Tab, called back by the arrows,
or answered by one digit.
"""

from __future__ import annotations

import math
import shutil
import sys
import textwrap
import time
from collections.abc import Callable, Iterable

Edit = Callable[..., str]
HELD = "\N{NO-BREAK SPACE}"
"""A space of a prompt at which no line ends."""
SAME_STROKE_S = 0.7
"""An Enter so soon behind a digit that answered by itself belongs to the digit, not to the next question. No source."""


def line_editor(*, on_stderr: bool = False) -> Edit:
    """A function that puts a prompt and returns what was typed.

    Its keywords: `words` that Tab completes, `at_once` how many digits from 0 answer without Enter, `begin` what stands
    in the line already. It raises KeyboardInterrupt or EOFError where somebody leaves, and all lines of one editor can
    be called back. `on_stderr` keeps the standard output for the answer of the command.
    """
    from prompt_toolkit import PromptSession
    from prompt_toolkit.completion import WordCompleter
    from prompt_toolkit.key_binding import KeyBindings
    from prompt_toolkit.output import create_output

    output = create_output(stdout=sys.stderr) if on_stderr else None
    session: PromptSession[str] = PromptSession(complete_while_typing=False, output=output)
    digit = _Digit()

    def edit(prompt: str, *, words: Iterable[str] = (), at_once: int = 0, begin: str = "") -> str:
        completer = WordCompleter(list(words), ignore_case=True, match_middle=True)
        return session.prompt(
            _broken(prompt), completer=completer, key_bindings=_keys(at_once, KeyBindings(), digit), default=begin
        )

    return edit


def _broken(prompt: str) -> str:
    """The prompt over several lines where the screen is narrow, with room for an answer behind it."""
    width = shutil.get_terminal_size((80, 24)).columns
    return textwrap.fill(prompt, width - 12, subsequent_indent="    ", break_on_hyphens=False).replace(HELD, " ") + " "


class _Digit:
    """When a digit last answered by itself."""

    def __init__(self) -> None:
        self.at = -math.inf

    def just_now(self) -> bool:
        return time.monotonic() - self.at < SAME_STROKE_S


def _keys(at_once: int, bindings, last: _Digit):
    """A digit as the first key answers a question of one choice; what needs several digits or words waits for Enter."""
    from prompt_toolkit.application import get_app
    from prompt_toolkit.filters import Condition

    @bindings.add("enter", eager=True, filter=Condition(lambda: last.just_now() and not get_app().current_buffer.text))
    def _(event) -> None:
        last.at = -math.inf

    for digit in "0123456789"[: at_once if at_once <= 10 else 0]:

        @bindings.add(digit, eager=True)
        def _(event, digit=digit) -> None:
            buffer = event.app.current_buffer
            buffer.insert_text(digit)
            if buffer.text == digit:
                last.at = time.monotonic()
                buffer.validate_and_handle()

    return bindings
