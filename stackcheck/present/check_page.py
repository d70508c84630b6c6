"""What checking says of references: whether they are sound, whether they close, and what is weak in them,
with its line.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

from stackcheck.errors import InputError
from stackcheck.mechanics.chain import LoopState
from stackcheck.model.reference import Reference
from stackcheck.present import as_json
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.names import counted
from stackcheck.present.reference_page import loop_words
from stackcheck.present.words import grade_words
from stackcheck.references.weak import OPEN, TO_MEND, Weakness
from stackcheck.value import Value


class Checked(Value, kw_only=True):
    """A sound reference, its loops, and its weak places each with its line."""

    reference: Reference
    loops: tuple[LoopState, ...]
    weak: tuple[tuple[Weakness, int | None], ...]

    def count(self, grade: str) -> int:
        return sum(weakness.grade == grade for weakness, _ in self.weak)


def check_page(checked: Sequence[Checked], refused: int) -> list[Block]:
    """Each sound file with its grade, loops and weak places; files with mistakes are reported on their own."""
    blocks: list[Block] = []
    for one in checked:
        reference = one.reference
        places = sum(1 for place in reference.places if not reference.part(place.part).fixed)
        blocks.append(
            Text(
                f"{reference.id} rev {reference.revision}: "
                f"sound, {counted(places, 'place')}, {counted(len(one.loops), 'loop')}"
            )
        )
        blocks.append(Text(f"{grade_words(reference)}; {weak_words(one)}", indent=2))
        blocks += [Text(loop_words(reference, state, inches=reference.inches), mark="  -  ") for state in one.loops]
        for weakness, line in one.weak:
            where = f"{reference.file}:{line}: " if line else f"{reference.file}: "
            blocks.append(
                Text(f"{where}{weakness.sentence}. Mend: {weakness.mend}.", mark=f"  {weakness.grade.upper()}  ")
            )
    if not checked:
        return [Heading(f"No reference is sound; {refused} with mistakes.")]
    return [*blocks, Heading(_closing(checked, refused))]


def weak_words(one: Checked) -> str:
    """ "nothing to mend, nothing left open", "2 to mend, 1 left open"."""
    return ", ".join(f"{one.count(grade) or 'nothing'} {grade}" for grade in (TO_MEND, OPEN))


def _closing(checked: Sequence[Checked], refused: int) -> str:
    open_ = sum(state.verdict in ("differs", "cannot tell") for one in checked for state in one.loops)
    closes = f"{counted(open_, 'loop')} not shown to close" if open_ else "every loop closes"
    words = [f"{counted(len(checked), 'reference')} sound, {closes}"]
    counts = Counter(weakness.grade for one in checked for weakness, _ in one.weak)
    words += [f"{counted(counts[TO_MEND], 'place')} to mend"] if counts[TO_MEND] else []
    words += [f"{refused} with mistakes"] if refused else []
    return "; ".join(words) + "."


def check_json(checked: Iterable[Checked], refused: Iterable[InputError]) -> dict[str, Any]:
    return {
        "references": [
            as_json.reference(one.reference)
            | {
                "loops": [as_json.checked_loop(state) for state in one.loops],
                "to_mend": one.count(TO_MEND),
                "left_open": one.count(OPEN),
                "weak": [
                    {
                        "check": weakness.check,
                        "grade": weakness.grade,
                        "file": one.reference.file,
                        "line": line,
                        "about": list(weakness.about),
                        "sentence": weakness.sentence,
                        "mend": weakness.mend,
                    }
                    for weakness, line in one.weak
                ],
            }
            for one in checked
        ],
        "mistakes": [
            {
                "file": item.file,
                "line": item.line,
                "key": item.key,
                "what": item.what,
                "said": item.said,
                "wanted": item.wanted,
            }
            for problem in refused
            for item in problem.mistakes
        ],
    }
