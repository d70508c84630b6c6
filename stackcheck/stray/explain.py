"""One stray part explained: object, origin, fit, effect, next look, and what was not looked at. All of it a value."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf, log

from stackcheck.formats.bare_sizes import length_word
from stackcheck.mechanics.effects import Effect
from stackcheck.model.reference import Reference
from stackcheck.stray.beliefs import belief, family
from stackcheck.stray.bench import Assembly, Bench
from stackcheck.stray.books import Story, stories
from stackcheck.stray.candidates import Candidate, of_part, of_reference, standard
from stackcheck.stray.decide import (
    COARSE,
    IDENTIFIED,
    MARK,
    ONE_SIZE,
    SHORTLIST,
    UNKNOWN,
    Decision,
    identity,
    looks_speak_against,
    origin,
    worn_original,
)
from stackcheck.stray.doubts import OddSize, odd_sizes, stuck_together
from stackcheck.stray.effect import Doing, absence, where_found
from stackcheck.stray.fit import DOES, Fit, fits
from stackcheck.stray.hypotheses import ELSEWHERE, HERE, SUBSTITUTE, Origin, hypotheses
from stackcheck.stray.likelihood import gate, is_called, kind_factor, reach
from stackcheck.stray.names import called, first_not_in, marked_as, of_other_machines, suiting
from stackcheck.stray.next_look import NextLook, next_looks
from stackcheck.stray.seen import THREAD, Stray
from stackcheck.value import Value, replace

EXIT_STATUS = {IDENTIFIED: 0}
CANNOT_TELL = 2
PAIRED = 1e-3
"""An answer with less of the belief than this is not told from the first."""
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
ROUGH_MM = 0.05
"""Standard uncertainty [mm] above which a size is worth taking again."""
RINGS = frozenset({"flat rings", "cones"})
ASKED_SIZES: dict[str, dict[str, str]] = {
    "": {"bore": "bore", "outside": "outside diameter", "length": "thickness"},
    "nut": {"across_flats": "across flats", "length": "height", "thread_diameter": "thread"},
    "loose balls": {"ball": "ball diameter"},
    "split pin": {"outside": "diameter of the closed legs"},
    "key": {"width": "width"}, "bolt": {"thread_diameter": "thread"},
}  # fmt: skip
"""Kind of part -> the sizes that tell it from others;
"" for every other kind, which goes over, into or through something.
"""


class FitsIn(Value, kw_only=True):
    """All questions of fit against one assembly."""

    reference: Reference
    fits: tuple[Fit, ...]


class Explained(Value, kw_only=True):
    """Everything that `explain` answers of one part.

    `object` and `origin` are the two decisions. `spoken_against`: what was seen suits the leading object badly.
    `worn_original` is the place for which the part may be the worn original rather than a substitute. `doing` is what
    it does where it was found, `without` what the place it belongs to lacks without it. `looks` separate the leading
    answers, the `pair`; `not_looked_at` is in words. `books` are the stories of all open lists, where there are
    several.

    `suiting` are the parts of the bench that nothing rules out. `called` and `marked` are the parts that its name and
    its mark mean; `other_name` and `other_mark` the one of them that the answer is not. `keeps` names every part with a
    duty of keeping something on or from turning that it may be; `keeps_by_kind` says what a part of its kind keeps,
    where no such part is known here. `odd_sizes` and `stuck` are what to doubt of a part that is unknown, `alike` the
    parts whose look-alikes it may be; `again` the sizes to take more finely, `as_well` those that would help beside.
    `other_machines` are parts of the `also_searched` other references of the library, asked where it has no home here;
    `unread` are those that cannot be read.
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
    pair: tuple[Candidate, Candidate] | None
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
    odd_sizes: tuple[OddSize, ...] = ()
    stuck: tuple[Candidate, ...] = ()
    alike: tuple[Candidate, ...] = ()
    again: tuple[str, ...] = ()
    as_well: tuple[str, ...] = ()
    other_machines: tuple[Candidate, ...] = ()
    also_searched: int = 0
    unread: tuple[str, ...] = ()

    @property
    def told_apart(self) -> tuple[str, str]:
        """Names of the two leading answers, "" where nothing is to be told."""
        return (self.pair[0].name, self.pair[1].name) if self.pair else ("", "")

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
    first, second = _pair(stray, what)
    # Of two guesses nothing is to be told.
    apart = first is not None and second is not None and (stray.taken or stray.marking)
    belongs = why.named[0].origin if why.named else None
    own_place = home.home_of(stray.entry) if home else ""
    own = (
        [of_part(home.reference.part_at(own_place), home.id)]
        if own_place and home.reference.has_place(own_place)
        else []
    )
    places = [_genuine(bench, reason.origin) for reason in why.named if reason.origin.part]
    keeps = _keeping([*named, *(suits if what.verdict != IDENTIFIED else ()), *places, *own])
    likely = everything_like(stray, bench)
    close = nearest(stray, likely)
    odd = odd_sizes(stray, likely) if what.verdict == UNKNOWN else ()
    if odd:  # with what else it may be, everything else agrees
        close = tuple(part for part in close if any(part in each.parts for each in odd))
    return Explained(
        stray=stray,
        bench=bench,
        object=what,
        origin=why,
        worn_original=worn_original(stray, why, lambda own: _genuine(bench, own)),
        spoken_against=what.verdict == SHORTLIST and looks_speak_against(stray, what.named[0].members),
        fits=_fits(stray, bench, home, why),
        doing=doing,
        without=_without(bench, belongs),
        looks=next_looks(stray, first, second) if apart else (),
        pair=(first, second) if apart else None,
        nearest=close,
        suiting=suits,
        called=names,
        marked=marks,
        other_name=other_name,
        other_mark=other_mark,
        keeps=keeps,
        keeps_by_kind="" if keeps or what.verdict == IDENTIFIED else KEEPS_BY_KIND.get(_kind_of_keeping(stray), ""),
        not_looked_at=not_looked_at(stray),
        books=stories(bench) if len(bench.compared) > 1 else (),
        odd_sizes=odd,
        alike=_alike(stray, named, suits, close) if what.verdict != IDENTIFIED else (),
        stuck=stuck_together(stray, likely) if what.verdict == UNKNOWN else (),
        again=tuple(taken.name for taken in stray.taken if taken.u_mm > ROUGH_MM) if what.unproven == COARSE else (),
        as_well=_as_well(stray, what),
    )


def _alike(
    stray: Stray, named: list[Candidate], suits: tuple[Candidate, ...], close: tuple[Candidate, ...]
) -> tuple[Candidate, ...]:
    """Parts of which the references name look-alikes:
    as named, else those that suit, else the nearest but for one size.
    """
    within = reach(stray)
    parts = named or suits or [part for part in close[:1] if len(gate(within, part)) == 1]
    return tuple(part for part in dict.fromkeys(parts) if part.look_alikes)


def _as_well(stray: Stray, what: Decision) -> tuple[str, ...]:
    """The sizes of a single answer that were not taken, where one size alone speaks for it."""
    if what.unproven != ONE_SIZE:
        return ()
    return tuple(
        size.name
        for size in what.named[0].members[0].sizes
        if stray.size(size.name) is None and size.name not in THREAD
    )


def not_looked_at(stray: Stray) -> tuple[str, ...]:
    """What nobody said anything about: asked for before an opinion is formed."""
    is_ring = not stray.kind or family(stray.kind) in RINGS
    asked = [words for name, words in ASKED_FOR.items() if is_ring and stray.feature(name) is None]
    if stray.magnetic is None:
        asked.append("magnet")
    if stray.marking is None:
        asked.append("marking")
    sizes = ASKED_SIZES.get(stray.kind) or ASKED_SIZES[""] | {"length": length_word(stray.kind)}
    return (*asked, *(words for name, words in sizes.items() if stray.size(name) is None))


def nearest(stray: Stray, likely: tuple[Candidate, ...], most: int = 3) -> tuple[Candidate, ...]:
    """What the sizes come nearest to, by the size that misses most in proportion; several of equal limits once."""
    if not stray.taken:
        return ()
    tried = {
        candidate.object: (_far(stray, candidate), position)
        for position, candidate in reversed(list(enumerate(likely)))
    }
    best = sorted((far, position) for far, position in tried.values() if far < FAR)
    return tuple(likely[position] for _, position in best[:most])


def everything_like(stray: Stray, bench: Bench) -> tuple[Candidate, ...]:
    """Parts and standard parts of its kind or one that is taken for it;
    nobody takes a nut, a ball or a pin for anything else.
    """
    everything = [*(part for assembly in bench.assemblies for part in of_reference(assembly.reference)), *standard()]
    least = belief("kind", "same" if stray.kind in ASKED_SIZES else "flat against cone")
    return tuple(
        each for each in everything if kind_factor(stray.kind, each.kind) >= least or is_called(stray.what, each.called)
    )


def _far(stray: Stray, candidate: Candidate) -> float:
    """How far the worst size lies from the limits, as the logarithm of a proportion.

    A size that a reference does not give of its part counts half of what is too far,
    and half of the sizes must be given; rows of the tables give theirs all.
    """
    worst, given = 0.0, 0
    for taken in stray.taken:
        limits = candidate.size(taken.name)
        if limits is None and candidate.source == "part" and stray.kind:
            worst = max(worst, FAR / 2)
            continue
        if limits is None:
            return inf
        nearer = min(max(taken.value_mm, limits.low_mm), limits.high_mm)
        worst, given = max(worst, abs(log(taken.value_mm / nearer))), given + 1
    return worst if given and 2 * given >= len(stray.taken) else inf


def _genuine(bench: Bench, own: Origin) -> Candidate:
    return of_part(bench.assembly(own.reference).reference.part(own.part), own.reference)


def _pair(stray: Stray, what: Decision) -> tuple[Candidate | None, Candidate | None]:
    """The two leading objects that have sizes of their own; beside what is named only such as it may be taken for."""
    if what.verdict == IDENTIFIED:
        members = what.named[0].members
        other = next((member for member in members if member.features != members[0].features), None)
        return (members[0], other) if other else (None, None)
    named = [
        answer.members[0]
        for answer in what.ranked
        if answer.members and answer.members[0].source in ("part", "standard", "piece") and answer.share > PAIRED
    ]
    surely = [answer.members[0] for answer in what.named if answer.members]
    named = [
        member
        for member in named
        if member in surely or stray.kind and kind_factor(stray.kind, member.kind) >= belief("kind", "same family")
    ]
    return (named[0], named[1]) if len(named) > 1 else (None, None)


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
        FitsIn(
            reference=assembly.reference,
            fits=tuple(
                fit for fit in fits(stray, assembly.reference) if not fit.says_nothing and not _goes_without(fit, own)
            ),
        )
        for assembly in assemblies
        if assembly
        for own in ([part for part in genuine if part.reference == assembly.id],)
    ]
    return tuple(each for each in found if each.fits)


def _goes_without(fit: Fit, genuine: list[Candidate]) -> bool:
    """Whether the part of the place at issue could not do this either:
    a washer on the thread need not pass over the seat.
    """
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
    """Of all parts that the stray may be those that keep something:
    such a part may carry no load and still be needed.
    """
    return tuple(dict.fromkeys(part.name for part in may_be if part.keeps))


def with_other_machines(explained: Explained, references: Iterable[Reference], unread: Iterable[str] = ()) -> Explained:
    """The same, after a look at the references of other machines: a part without a home here may be of one of them."""
    references = tuple(references)
    found = of_other_machines(explained.stray, references)
    keeps = tuple(dict.fromkeys((*explained.keeps, *_keeping(found))))
    return replace(explained, other_machines=found, also_searched=len(references), unread=tuple(unread), keeps=keeps)


def _kind_of_keeping(stray: Stray) -> str:
    return "tab washer" if stray.feature("tab") else stray.kind
