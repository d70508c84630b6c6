"""One line as typed at the bench, with dirty hands or by dictation, read into parts, a gap, and what must be asked.

    read_line("thin ring 45 od 35 id .5, drip tray")
    back(...)  "Ring, OD 45 mm, bore 35 mm, 0.5 mm (0.020 in) thick. Found loose, place not seen: drip tray."

A pure reader: text in, values out; it keeps no record and decides nothing about a machine. What it understands it
crosses out, piece by piece, in a fixed sequence (notes, numbers and marks, facing, condition, kind, figures, end); what
is left are the words of the part and its note, as typed. Where two readings are both plausible it takes neither in
silence but puts a `Question` whose choices are the line as it would be typed to leave no doubt.
"""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.formats.bench_back import back
from stackcheck.formats.bench_candidates import candidates
from stackcheck.formats.bench_gap import read_gap, read_pack
from stackcheck.formats.bench_letters import read_counts, read_letters
from stackcheck.formats.bench_part import PartReader
from stackcheck.formats.bench_read import Question, ReadLine, ReadPart
from stackcheck.formats.bench_words import STUCK
from stackcheck.formats.words import kinds_in
from stackcheck.model.reference import Reference
from stackcheck.pattern import Pattern
from stackcheck.value import replace

__all__ = ["Question", "ReadLine", "ReadPart", "back", "candidates", "read_line"]

LONGEST = 2000
_AND = Pattern(r"\s(?:and|[+&])\s+(?=(?:(?:the|a|an|\d+) )?(?:[^\W\d]+ ){0,2}?)", re.IGNORECASE)
_OF_A_BEARING = Pattern(r"(?:inner|outer) rings?\b", re.IGNORECASE)


def read_line(
    text: str,
    *,
    reference: Reference | None = None,
    ends: tuple[str, ...] = (),
    default_unit: str = "mm",
    how: str = "",
    kind: str = "",
) -> ReadLine:
    """Read one typed line.

    Args:
        text: the line as typed.
        reference: brings the names, numbers, features and ends of its parts.
        ends: the names of the two ends, where no reference brings them.
        default_unit: the unit of the job for bare figures, "mm" or "in"; bare fractions are always inches.
        how: the way of measuring for figures that name none.
        kind: the kind of the part that was asked about, for a line that names none ("20 47 14, smooth").
    Raises:
        SizeError: a figure that cannot be read or may be read two ways ("1,500").

    >>> read_line("3 shims .29 .29 .20 mic").parts[2].sizes
    (('length', '0.20 mm mic'),)
    """
    if len(text) > LONGEST:
        raise SizeError(text[:20], f"far too long for one line; {LONGEST} signs at most")
    ends = ends or (reference.ends if reference else ("left", "right"))
    gap = read_gap(text, default_unit=default_unit, how=how)
    if gap:
        return ReadLine(typed=text, gap=gap.text, gap_name=gap.name, questions=(gap.question,) if gap.question else ())
    if plates := read_letters(text, reference) or read_counts(text):
        return ReadLine(typed=text, parts=plates)
    body, pack = read_pack(text, default_unit=default_unit, how=how)
    if pack and not re.search(r"\w", body):
        return ReadLine(typed=text, pack=pack)
    stuck = STUCK.search(body)
    parts: list[ReadPart] = []
    questions: list[Question] = []
    for start, end in _pieces(body):
        piece = PartReader(
            body[start:end],
            before=text[:start],
            behind=text[end:],
            reference=reference,
            ends=ends,
            unit=default_unit,
            how=how,
            kind=kind,
        )
        questions += [replace(question, part=question.part + len(parts)) for question in piece.questions]
        parts += piece.parts
    if stuck and len(parts) > 1:
        parts = [*(replace(part, stuck_to_next=True) for part in parts[:-1]), parts[-1]]
    said_ends = {part.end for part in parts} - {None}
    if len(said_ends) == 1:
        parts = [replace(part, end=next(iter(said_ends))) for part in parts]
    return ReadLine(typed=text, parts=tuple(parts), pack=pack, questions=tuple(questions))


def _pieces(text: str) -> list[tuple[int, int]]:
    """Where each thing of the line stands: "bearing + seal" are two, "left and right" are none."""
    cuts: list[tuple[int, int]] = []
    begin = 0
    for match in _AND.finditer(text):
        before, behind = kinds_in(text[begin : match.start()]), kinds_in(text[match.end() :])
        lead = text[match.end() : match.end() + behind[0][0]] if behind else ""
        leads = bool(behind) and len(lead.split()) <= 3 and not re.search(r"[,;:.\d]", re.sub(r"^\d+ ", "", lead))
        if before and leads and not _OF_A_BEARING.match(text[match.end() :]):
            cuts.append(match.span())
            begin = match.end()
    starts = [0, *(end for _, end in cuts)]
    return list(zip(starts, [*(start for start, _ in cuts), len(text)]))
