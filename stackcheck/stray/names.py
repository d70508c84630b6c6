"""What a part is called, and the number on it: which known parts a name or a mark means.

A name is what somebody said and a mark what somebody read off. Neither proves what the part is; but neither is passed
over where the sizes say otherwise, and a part that is only named is not unheard of.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.formats.words import named_kind
from stackcheck.model.part import KINDS
from stackcheck.model.reference import Reference
from stackcheck.stray.beliefs import belief
from stackcheck.stray.bench import Bench
from stackcheck.stray.candidates import Candidate, can_lie_loose, of_part, standard
from stackcheck.stray.likelihood import bears, gate, is_called, kind_factor, looks_factor, reach, unknown_looks, z_worst
from stackcheck.stray.seen import Stray, name_words


def known_here(bench: Bench) -> tuple[Candidate, ...]:
    """Every part of every assembly that can lie on a bench, those without a size among them."""
    return _parts(assembly.reference for assembly in bench.assemblies)


def _parts(references: Iterable[Reference]) -> tuple[Candidate, ...]:
    return tuple(
        of_part(part, reference.id) for reference in references for part in reference.parts if can_lie_loose(part)
    )


def of_other_machines(stray: Stray, references: Iterable[Reference]) -> tuple[Candidate, ...]:
    """The parts of other machines that agree in all sizes, at least two of them, or bear its mark."""
    agrees, least = belief("decide", "agree"), belief("decide", "looks") * unknown_looks(stray)
    return tuple(
        part
        for part in _parts(references)
        if bears(part, stray.marking)
        or (len(stray.taken) > 1 and _is_of_the_kind(stray, part) and z_worst(stray, part) <= agrees)
        if looks_factor(stray, part) >= least
    )


def called(stray: Stray, bench: Bench) -> tuple[Candidate, ...]:
    """The parts that its name means, where it is more than the name of a kind; () for "washer" or "split pin".

    In a list it is the part that somebody named there, whatever the words.
    """
    if stray.part:
        return tuple(part for part in known_here(bench) if (part.reference, part.part) == (stray.home_list, stray.part))
    phrase = " ".join(name_words(stray.what))
    if phrase in KINDS or named_kind(phrase) != phrase:
        return ()
    return tuple(part for part in known_here(bench) if is_called(stray.what, part.called))


def marked_as(stray: Stray, bench: Bench) -> tuple[Candidate, ...]:
    """The parts and standard parts that bear this mark."""
    if not stray.marking:
        return ()
    return tuple(part for part in (*known_here(bench), *standard()) if bears(part, stray.marking))


def suiting(stray: Stray, bench: Bench) -> tuple[Candidate, ...]:
    """The parts that nothing rules out: those of its kind or name that no size and no look speaks against.

    Where nothing was measured and its name means certain parts, those alone.
    """
    if not stray.taken and (names := called(stray, bench)):
        return names
    within, least = reach(stray), belief("decide", "looks") * unknown_looks(stray)
    return tuple(
        part for part in known_here(bench)
        if _is_of_the_kind(stray, part) and looks_factor(stray, part) >= least and not gate(within, part)
    )  # fmt: skip


def _is_of_the_kind(stray: Stray, part: Candidate) -> bool:
    """A kind that was said must be the same where nothing was measured, of one family where something was;
    a mark alone decides.
    """
    if stray.marking and not stray.taken:
        return bears(part, stray.marking)
    if is_called(stray.what, part.called) or (stray.part, stray.home_list) == (part.part, part.reference):
        return True
    defined = any(part.size(taken.name) for taken in stray.taken)
    if stray.taken:
        return defined and kind_factor(stray.kind, part.kind) >= belief("kind", "same family")
    return bool(stray.kind) and stray.kind == part.kind


def first_not_in(parts: Iterable[Candidate], named: Iterable[Candidate]) -> Candidate | None:
    """The first of these, where none of them is among what was named."""
    parts, names = tuple(parts), {(part.name, part.reference) for part in named}
    return None if any((part.name, part.reference) in names for part in parts) else next(iter(parts), None)
