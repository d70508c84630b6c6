"""The answers to a dialogue as they were typed, each on disk before the next question.

One line an answer: what became of it, the question, the answer, with tabs between. Lines are only ever added: an answer
that is taken back stays in the file and is followed by a line that says so, one that could not be used is kept as
*refused*. A last line without its end was torn by a crash and does not count.
"""

from __future__ import annotations

import os
from pathlib import Path

from stackcheck.errors import InputError, Mistake

SAID, REFUSED, BACK = "said", "refused", "taken back"


class Answers:
    """What was said so far: `said` holds (question, answer) as it counts now.
    Without a path nothing is kept on disk.
    """

    def __init__(self, path: Path | None = None):
        self.path = path
        self.said: list[tuple[str, str]] = []
        if path is not None and path.exists():
            for line in _whole_lines(path):
                self._count(path, line)

    def add(self, question: str, answer: str) -> None:
        self._write(SAID, question, answer)
        self.said.append((question, answer))

    def refuse(self) -> str:
        """The last answer could not be used; returns it, to be mended."""
        question, answer = self.said[-1]
        self._write(REFUSED, question, answer)
        self.said.pop()
        return answer

    def take_back(self) -> None:
        question, answer = self.said[-1]
        self._write(BACK, question, answer)
        self.said.pop()

    def _count(self, path: Path, line: str) -> None:
        what, _, told = line.partition("\t")
        question, _, answer = told.partition("\t")
        if what == SAID:
            self.said.append((question, answer))
        elif what in (REFUSED, BACK) and self.said:
            self.said.pop()
        else:
            raise _refusal(
                path, "it holds no answers of a dialogue", "move it away, or choose another name for the new file"
            )

    def _write(self, what: str, question: str, answer: str) -> None:
        if self.path is None:
            return
        line = "\t".join((what, *(" ".join(text.split()) for text in (question, answer)))) + "\n"
        try:
            with self.path.open("ab") as file:
                file.write(line.encode())
                file.flush()
                os.fsync(file.fileno())
        except OSError as problem:
            raise _refusal(
                self.path, f"the answer cannot be kept ({problem.strerror})", "make room or look at who may write there"
            ) from None


def _whole_lines(path: Path) -> list[str]:
    """The lines of the file; what stands behind the last of them was torn, and is cut off."""
    try:
        data = path.read_bytes()
        whole = data[: data.rfind(b"\n") + 1]
        if len(whole) < len(data):
            os.truncate(path, len(whole))
    except OSError as problem:
        raise _refusal(path, f"cannot be read ({problem.strerror})", "look at who may read and write it") from None
    return whole.decode("utf-8", errors="replace").split("\n")[:-1]


def _refusal(path: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(path), what=what, wanted=wanted)], consequence="Nothing was written.")
