"""Identified, shortlist or unknown: for the object and for its origin, by stated rules.

Identified: one answer holds 0.80, at least five times the next, and no rival with 0.05 or more whose sizes all agree
within 2 u. An object must besides be proven (`_is_proven`). Shortlist: the best three hold 0.90. Else unknown; also
where the unknown itself holds half, or where nothing survives the gate. Figures from `beliefs`, topic "decide".

Objects with equal limits are one answer, named as a class: nothing measured can tell its members apart.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from stackcheck.stray.beliefs import belief
from stackcheck.stray.candidates import Candidate
from stackcheck.stray.hypotheses import HERE, PIECE, SUBSTITUTE, Hypothesis, Origin
from stackcheck.stray.likelihood import bears, is_ordinary, looks_factor, unknown_looks, z_worst
from stackcheck.stray.seen import THREAD, Stray
from stackcheck.value import Value, replace

IDENTIFIED, SHORTLIST, UNKNOWN = "identified", "shortlist", "unknown"
MOST_NAMED = 3
THREADED = "thread"
CONTRADICTED = 0.2
"""A member of a class whose looks suit less than this share of the best suiting member is not named."""


class Identity(Value, kw_only=True):
    """One object it could be: all candidates with its limits. `members` empty is the unknown."""

    members: tuple[Candidate, ...]
    share: float
    agrees: bool = False

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(member.name for member in self.members))


class Reason(Value, kw_only=True):
    """One origin it could have; `origins` are those of equal places. `members` are what it would be there."""

    origin: Origin
    share: float
    agrees: bool = False
    members: tuple[Candidate, ...] = ()


NOTHING, ONE_SIZE, COARSE, WORN, LOOKS, MARK = "nothing measured", "one size", "coarse", "worn", "looks", "mark"
"""Why an object that nothing rivals is not identified."""


class Decision(Value, kw_only=True):
    """`verdict` for one of the two questions, with what is named: one answer, up to three, or none.

    `unproven` is why a single answer is not identified, "" where it is, or where there are several.
    """

    verdict: str
    named: tuple[Identity | Reason, ...]
    ranked: tuple[Identity | Reason, ...]
    unproven: str = ""


def identity(stray: Stray, shares: Iterable[Hypothesis]) -> Decision:
    """What object it is."""
    groups: dict[tuple, list[Hypothesis]] = {}
    for hypothesis in shares:
        groups.setdefault(_object(hypothesis), []).append(hypothesis)
    answers, in_place = [], set()
    for hypotheses in groups.values():
        members = {(member.name, member.reference): member for member in (h.candidate for h in hypotheses) if member}
        looks = [looks_factor(stray, member) for member in members.values()]
        best = max(looks, default=0.0)
        kept = tuple(member for member, look in zip(members.values(), looks) if look >= CONTRADICTED * best)
        share = sum(h.share for h in hypotheses)
        answers.append(Identity(members=kept, share=share, agrees=_agree(stray, kept)))
        if 2 * sum(h.share for h in hypotheses if h.origin.kind == HERE) >= share:
            in_place.add(answers[-1])
    decision = _decide(
        answers, is_unknown=lambda answer: all(member.source in ("shop", "made") for member in answer.members)
    )
    if decision.verdict == UNKNOWN or len(decision.named) > 1:
        return decision
    (answer,) = decision.named
    unproven = _unproven(stray, answer, in_place=answer in in_place)
    return replace(decision, verdict=SHORTLIST if unproven else decision.verdict, unproven=unproven)


def _unproven(stray: Stray, answer: Identity, *, in_place: bool) -> str:
    """Why this one answer is not proven, "" where it is.

    A name and a look prove no object; neither does one size alone (a thread is one), unless the list has an empty place
    for it; neither do sizes that only much wear would explain, or that a rule gave. The coarser the tool, the less
    doubt is allowed, so that a coarse one never makes an answer surer. Where looks speak plainly against it (no magnet
    holds a steel ring), sizes alone do not prove it either.
    """
    if not (stray.taken or stray.marking):
        return NOTHING
    if looks_speak_against(stray, answer.members):
        return LOOKS
    coarsest = max((taken.u_mm for taken in stray.taken), default=0.0)
    fine = belief("decide", "fine")
    if coarsest > belief("decide", "coarsest"):
        return COARSE
    if not any(is_ordinary(stray, member) for member in answer.members):
        by_the_tool = any(is_ordinary(stray, member, belief("decide", "agree")) for member in answer.members)
        return COARSE if by_the_tool else WORN
    given = {size.name for size in answer.members[0].sizes} - set(answer.members[0].loose)
    sizes = {THREADED if taken.name in THREAD else taken.name for taken in stray.taken if taken.name in given}
    if len(sizes) < 2 and not in_place and not any(bears(member, stray.marking) for member in answer.members):
        return ONE_SIZE
    return COARSE if (1 - answer.share) * max(coarsest, fine) > belief("decide", "doubt") * fine else ""


def looks_speak_against(stray: Stray, members: tuple[Candidate, ...]) -> bool:
    """Whether what was seen suits even the best of these far worse than it suits a thing nobody knows."""
    return bool(members) and max(looks_factor(stray, member) for member in members) < belief(
        "decide", "looks"
    ) * unknown_looks(stray)


def origin(stray: Stray, shares: Iterable[Hypothesis]) -> Decision:
    """Why it is here."""
    groups: dict[tuple, list[Hypothesis]] = {}
    for hypothesis in shares:
        own = hypothesis.origin
        key = (own.kind, *_object(hypothesis)) if own.kind == PIECE else (own.kind, own.reference, own.part)
        groups.setdefault(key, []).append(hypothesis)
    answers = []
    for hypotheses in groups.values():
        members = tuple(
            dict.fromkeys(h.candidate for h in hypotheses if h.candidate and h.share > 1e-4 * hypotheses[0].share)
        )
        answers.append(
            Reason(
                origin=_nearest_home(hypotheses),
                share=sum(h.share for h in hypotheses),
                agrees=_agree(stray, members),
                members=members,
            )
        )
    decision = _decide(
        answers, is_unknown=lambda answer: _of_the_shop(answer.members) or answer.origin.kind == "unknown"
    )
    if decision.verdict == IDENTIFIED and looks_speak_against(stray, decision.named[0].members):
        return replace(decision, verdict=SHORTLIST)
    return decision


def _nearest_home(hypotheses: list[Hypothesis]) -> Origin:
    """Of equal origins the one that is part of a reference:
    a ring that may be of the bearing at hand is looked for there.
    """
    return next((h.origin for h in hypotheses if h.origin.part), hypotheses[0].origin)


def _of_the_shop(members: tuple[Candidate, ...]) -> bool:
    """Tools and packing have wide sizes: like the unknown, they are never proven by a size."""
    return all(member.source == "shop" for member in members)


def _object(hypothesis: Hypothesis) -> tuple:
    candidate = hypothesis.candidate
    if candidate is None:
        return ("unknown",)
    if candidate.source in ("made", "shop"):
        return candidate.source, candidate.name
    return candidate.object


def _agree(stray: Stray, members: tuple[Candidate, ...]) -> bool:
    """Whether every size agrees with one of them within 2 u: such a rival cannot be talked away."""
    within = belief("decide", "agree")
    return any(member.source not in ("made", "shop") and z_worst(stray, member) <= within for member in members)


def _decide(answers: list, *, is_unknown: Callable[[Identity | Reason], bool]) -> Decision:
    ranked = tuple(sorted(answers, key=lambda answer: -answer.share))
    first, rest = ranked[0], ranked[1:]
    unknown = sum(answer.share for answer in ranked if is_unknown(answer))
    following = rest[0].share if rest else 0.0
    if unknown >= belief("decide", "unknown") or is_unknown(first):
        return Decision(verdict=UNKNOWN, named=(), ranked=ranked)
    rivals = [answer for answer in rest if answer.share >= belief("decide", "rival") and answer.agrees]
    clear = first.share >= belief("decide", "identified") and first.share >= belief("decide", "ratio") * following
    if clear and not rivals:
        return Decision(verdict=IDENTIFIED, named=(first,), ranked=ranked)
    best = ranked[:MOST_NAMED]
    if sum(answer.share for answer in best) >= belief("decide", "shortlist"):
        return Decision(verdict=SHORTLIST, named=tuple(answer for answer in best if answer.share > 0.01), ranked=ranked)
    return Decision(verdict=UNKNOWN, named=(), ranked=ranked)


def worn_original(stray: Stray, reasons: Decision, genuine: Callable[[Origin], Candidate]) -> Origin | None:
    """The place for which the part may be the worn original rather than a substitute: always said.

    That is where a substitute ranks first and the genuine part differs only in the direction of wear.
    """
    first = reasons.ranked[0]
    if first.origin.kind != SUBSTITUTE:
        return None
    own = genuine(first.origin)
    for taken in stray.taken:
        limits = own.size(taken.name)
        if limits is None:
            continue
        allowed = belief("decide", "agree") * taken.u_mm
        too_large = taken.value_mm > limits.high_mm + allowed
        too_small = taken.value_mm < limits.low_mm - allowed
        if too_small if taken.name == "bore" else too_large:
            return None
        far = belief("decide", "worn original") * limits.low_mm
        if abs(taken.value_mm - (limits.high_mm if taken.name == "bore" else limits.low_mm)) > far:
            return None
    return first.origin
