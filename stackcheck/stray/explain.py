"""One stray part explained: object, origin, fit, effect, next look, and what was not looked at. All of it a value."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf, log

from stackcheck.mechanics.effects import Effect
from stackcheck.model.reference import Reference
from stackcheck.stray.beliefs import family
from stackcheck.stray.bench import Assembly, Bench
from stackcheck.stray.books import Story, stories
from stackcheck.stray.candidates import Candidate, of_part, of_reference, standard
from stackcheck.stray.decide import (
    IDENTIFIED,
    MARK,
    SHORTLIST,
    UNKNOWN,
    Decision,
    identity,
    looks_speak_against,
    origin,
    worn_original,
)
from stackcheck.stray.effect import Doing, absence, where_found
from stackcheck.stray.fit import DOES, Fit, fits
from stackcheck.stray.hypotheses import ELSEWHERE, HERE, SUBSTITUTE, Origin, hypotheses
from stackcheck.stray.names import called, first_not_in, marked_as, of_other_machines, suiting
from stackcheck.stray.next_look import NextLook, next_looks
from stackcheck.stray.seen import Stray
from stackcheck.value import Value, replace

EXIT_STATUS = {IDENTIFIED: 0}
CANNOT_TELL = 2
FAR = log(1.5)
"""What misses by half as much again is not near."""
ASKED_FOR = {"tab": "tabs", "teeth": "teeth", "dished": "cup or hollow face"}
"""Features that are asked for before anybody forms an opinion of a washer."""
KEEPS_BY_KIND = {
    "tab washer": "what has a tab keeps something from turning", "split pin": "a split pin keeps something on",
    "circlip": "a circlip keeps something on", "nut": "a nut keeps something on", "bolt": "a bolt keeps something on",
    "key": "a key keeps something from turning",
}  # fmt: skip
"""What any part of a kind is there for, wherever it belongs. Common practice, no source."""
RINGS = frozenset({"flat rings", "cones"})
ASKED_SIZES: dict[str, dict[str, str]] = {
    "": {"bore": "bore", "outside": "outside diameter", "length": "thickness"},
    "nut": {"across_flats": "across flats", "length": "height", "thread_diameter": "thread"},
    "loose balls": {"ball": "ball diameter"},
    "split pin": {"outside": "diameter of the closed legs"},
    "key": {"width": "width"}, "bolt": {"thread_diameter": "thread"},
}  # fmt: skip
"""Kind of part -> the sizes that tell it from others; "" for every other kind, which goes over, into or through something."""


class FitsIn(Value, kw_only=True):
    """All questions of fit against one assembly."""

    reference: Reference
    fits: tuple[Fit, ...]


class Explained(Value, kw_only=True):
    """Everything that `explain` answers of one part.

    `object` and `origin` are the two decisions. `spoken_against`: what was seen suits the leading object badly. `worn_original` is the place for which the part may be the worn original
    rather than a substitute. `doing` is what it does where it was found, `without` what the place it belongs to lacks
    without it. `looks` separate the leading answers; `not_looked_at` is in words. `books` are the stories of all open lists,
    where there are several.

    `suiting` are the parts of the bench that nothing rules out. `called` and `marked` are the parts that its name and its
    mark mean; `other_name` and `other_mark` the one of them that the answer is not. `keeps` names every part with a duty
    of keeping something on or from turning that it may be; `keeps_by_kind` says what a part of its kind keeps, where no
    such part is known here. `other_machines` are parts of the `also_searched` other references of the library, asked where
    it has no home here; `unread` are those that cannot be read.
    """

    stray: Stray
    bench: Bench
    object: Decision
    origin: Decision
    worn_original: Origin | None
    spoken_against: bool
    fits: tuple[FitsIn, ...]
    doing: Doing | None
    without: Effect | None
    looks: tuple[NextLook, ...]
    told_apart: tuple[str, str]
    nearest: tuple[Candidate, ...]
    suiting: tuple[Candidate, ...]
    called: tuple[Candidate, ...]
    marked: tuple[Candidate, ...]
    other_name: Candidate | None
    other_mark: Candidate | None
    keeps: tuple[str, ...]
    keeps_by_kind: str
    not_looked_at: tuple[str, ...]
    books: tuple[Story, ...]
    other_machines: tuple[Candidate, ...] = ()
    also_searched: int = 0
    unread: tuple[str, ...] = ()

    @property
    def has_no_home(self) -> bool:
        """Whether nothing of this machine is what it is, or where it belongs."""
        return UNKNOWN in (self.object.verdict, self.origin.verdict) and not self.suiting

    @property
    def exit_status(self) -> int:
        return EXIT_STATUS.get(self.object.verdict, CANNOT_TELL)


def explain(stray: Stray, bench: Bench) -> Explained:
    """Explain one part; the same input gives the same answer."""
    shares = hypotheses(stray, bench)
    what, why = identity(stray, shares), origin(stray, shares)
    named = [member for answer in what.named for member in answer.members]
    names, marks, suits = called(stray, bench), marked_as(stray, bench), suiting(stray, bench)
    other_name, other_mark = first_not_in(names, named), first_not_in(marks, named)
    if what.verdict == IDENTIFIED and other_mark is not None:
        what = replace(what, verdict=SHORTLIST, unproven=MARK)  # the number was misread, or the sizes were
    home = bench.assembly(stray.home_list) if stray.home_list else None
    doing = where_found(home, stray.entry) if home and home.was_compared and stray.entry else None
    first, second = _pair(what, why)
    apart = first is not None and second is not None and (stray.taken or stray.marking)  # of two guesses nothing is to be told
    belongs = why.named[0].origin if why.named else None
    own_place = home.home_of(stray.entry) if home else ""
    own = [of_part(home.reference.part_at(own_place), home.id)] if own_place and home.reference.has_place(own_place) else []
    places = [_genuine(bench, reason.origin) for reason in why.named if reason.origin.part]
    keeps = _keeping([*named, *(suits if what.verdict != IDENTIFIED else ()), *places, *own])
    return Explained(
        stray=stray, bench=bench, object=what, origin=why,
        worn_original=worn_original(stray, why, lambda own: _genuine(bench, own)),
        spoken_against=what.verdict == SHORTLIST and looks_speak_against(stray, what.named[0].members),
        fits=_fits(stray, bench, home, why), doing=doing, without=_without(bench, belongs),
        looks=next_looks(stray, first, second) if apart else (),
        told_apart=(first.name, second.name) if apart else ("", ""),
        nearest=nearest(stray, bench), suiting=suits, called=names, marked=marks, other_name=other_name, other_mark=other_mark,
        keeps=keeps, keeps_by_kind="" if keeps or what.verdict == IDENTIFIED else KEEPS_BY_KIND.get(_kind_of_keeping(stray), ""),
        not_looked_at=not_looked_at(stray),
        books=stories(bench) if len(bench.compared) > 1 else (),
    )  # fmt: skip


def not_looked_at(stray: Stray) -> tuple[str, ...]:
    """What nobody said anything about: asked for before an opinion is formed."""
    is_ring = not stray.kind or family(stray.kind) in RINGS
    asked = [words for name, words in ASKED_FOR.items() if is_ring and stray.feature(name) is None]
    if stray.magnetic is None:
        asked.append("magnet")
    if stray.marking is None:
        asked.append("marking")
    sizes = ASKED_SIZES.get(stray.kind, ASKED_SIZES[""])
    return (*asked, *(words for name, words in sizes.items() if stray.size(name) is None))


def nearest(stray: Stray, bench: Bench, most: int = 3) -> tuple[Candidate, ...]:
    """What the sizes come nearest to, by the size that misses most in proportion; several of equal limits once."""
    if not stray.taken:
        return ()
    everything = [*(part for assembly in bench.assemblies for part in of_reference(assembly.reference)), *standard()]
    if stray.kind in ASKED_SIZES:  # nobody takes a nut, a ball or a pin for anything else
        everything = [candidate for candidate in everything if candidate.kind == stray.kind]
    tried = {candidate.object: (_far(stray, candidate), position) for position, candidate in reversed(list(enumerate(everything)))}
    best = sorted((far, position) for far, position in tried.values() if far < FAR)
    return tuple(everything[position] for _, position in best[:most])


def _far(stray: Stray, candidate: Candidate) -> float:
    """How far the worst size lies from the limits, as the logarithm of a proportion; infinite where one is not given."""
    worst = 0.0
    for taken in stray.taken:
        limits = candidate.size(taken.name)
        if limits is None:
            return inf
        nearer = min(max(taken.value_mm, limits.low_mm), limits.high_mm)
        worst = max(worst, abs(log(taken.value_mm / nearer)))
    return worst


def _genuine(bench: Bench, own: Origin) -> Candidate:
    return of_part(bench.assembly(own.reference).reference.part(own.part), own.reference)


def _pair(what: Decision, why: Decision) -> tuple[Candidate | None, Candidate | None]:
    """The two leading objects that have sizes of their own."""
    if what.verdict == IDENTIFIED:
        members = what.named[0].members
        other = next((member for member in members if member.features != members[0].features), None)
        return (members[0], other) if other else (None, None)
    named = [answer for answer in what.ranked if answer.members and answer.members[0].source in ("part", "standard", "piece")]
    return (named[0].members[0], named[1].members[0]) if len(named) > 1 and named[1].share > 1e-3 else (None, None)


def _fits(stray: Stray, bench: Bench, home: Assembly | None, why: Decision) -> tuple[FitsIn, ...]:
    if stray.kind in ASKED_SIZES:
        return ()
    ids = [home.id] if home else []
    ids += [reason.origin.reference for reason in why.named if reason.origin.reference]
    assemblies = [bench.assembly(id) for id in dict.fromkeys(ids)]
    if not assemblies and len(bench.assemblies) <= 4:
        assemblies = list(bench.assemblies)
    genuine = [_genuine(bench, reason.origin) for reason in why.named if reason.origin.part and reason.origin.reference]
    found = [
        FitsIn(reference=assembly.reference, fits=tuple(fit for fit in fits(stray, assembly.reference) if not _goes_without(fit, own)))
        for assembly in assemblies if assembly
        for own in ([part for part in genuine if part.reference == assembly.id],)
    ]  # fmt: skip
    return tuple(each for each in found if each.fits)


def _goes_without(fit: Fit, genuine: list[Candidate]) -> bool:
    """Whether the part of the place at issue could not do this either: a washer on the thread need not pass over the seat."""
    if fit.verdict == DOES:
        return False
    for part in genuine:
        own = part.size(fit.taken.name)
        if own is not None and (own.high_mm > fit.low_mm if fit.smaller else own.low_mm < fit.high_mm):
            return True
    return False


def _without(bench: Bench, belongs: Origin | None) -> Effect | None:
    if belongs is None or belongs.kind not in (HERE, ELSEWHERE, SUBSTITUTE) or not belongs.compared:
        return None
    return absence(bench.assembly(belongs.reference), belongs.place)


def _keeping(may_be: Iterable[Candidate]) -> tuple[str, ...]:
    """Of all parts that the stray may be those that keep something: such a part may carry no load and still be needed."""
    return tuple(dict.fromkeys(part.name for part in may_be if part.keeps))


def with_other_machines(explained: Explained, references: Iterable[Reference], unread: Iterable[str] = ()) -> Explained:
    """The same, after a look at the references of other machines: a part without a home here may be of one of them."""
    references = tuple(references)
    found = of_other_machines(explained.stray, references)
    keeps = tuple(dict.fromkeys((*explained.keeps, *_keeping(found))))
    return replace(explained, other_machines=found, also_searched=len(references), unread=tuple(unread), keeps=keeps)


def _kind_of_keeping(stray: Stray) -> str:
    return "tab washer" if stray.feature("tab") else stray.kind
