"""The words for a stray part: what it is, where it belongs, whether it goes, what would help.
No figure of belief is shown.
"""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.present.figures import good_to, mm, reading_mm, size_word
from stackcheck.present.words import listed, place_words, span
from stackcheck.stray.bench import Bench, Lacking
from stackcheck.stray.books import LOST, NO_HOME, ONE_SLIP, SWAP, Story
from stackcheck.stray.candidates import Candidate
from stackcheck.stray.decide import COARSE, IDENTIFIED, MARK, NOTHING, ONE_SIZE, SHORTLIST, WORN, Identity, Reason
from stackcheck.stray.explain import Explained
from stackcheck.stray.fit import Fit
from stackcheck.stray.hypotheses import ELSEWHERE, HERE, PIECE, SPARE, STANDARD, SUBSTITUTE
from stackcheck.stray.likelihood import bears
from stackcheck.stray.seen import Stray

MOST_MEMBERS = 4
UNPROVEN = {
    NOTHING: "nothing was measured, and a name proves no part", ONE_SIZE: "one size proves no part",
    COARSE: "it was read too coarsely to prove it",
    WORN: "only much wear, or a film nobody saw, would explain its sizes", MARK: "its mark is another one",
}  # fmt: skip
"""Why one answer alone is not settled; what looks say against it has a sentence of its own."""


def member_words(bench: Bench, member: Candidate) -> str:
    """ "spacer tube of freight-tricycle/front-hub", "ISO 7089 M16", "inner ring of 6204"."""
    if member.source == "part":
        number = f" ({member.numbers[0]})" if member.numbers else ""
        return f"{_lower(member.name)}{number} of {member.reference}"
    if member.source == "made":
        return f"something made or altered to stand in for the {_lower(member.parent)}"
    if member.source == "piece" and member.reference:
        return f"{member.name.replace(member.parent, _lower(member.parent))} of {member.reference}"
    return member.name


def _lower(name: str) -> str:
    return name[:1].lower() + name[1:] if name[1:2].islower() or name[1:2] == " " else name


def basis_words(stray: Stray, members: Sequence[Candidate]) -> str:
    """What an answer rests on: "its sizes", "its mark", "its sizes and its mark".
    A mark that is none of its own is no ground.
    """
    is_marked = any(bears(member, stray.marking) for member in members)
    return listed([words for words, there in (("its sizes", stray.taken), ("its mark", is_marked)) if there])


def identity_words(bench: Bench, answer: Identity, stray: Stray) -> str:
    """One object; a class with its members, never one member as if proven."""
    if not answer.members:
        return "something that stands in no reference and no table here"
    names = list(dict.fromkeys(member_words(bench, member) for member in answer.members))
    if len(names) == 1:
        return names[0]
    more = f" and {len(names) - MOST_MEMBERS} more" if len(names) > MOST_MEMBERS else ""
    shared = "which share all these sizes" if stray.taken else "which nothing that was said tells apart"
    return f"{listed(names[:MOST_MEMBERS], 'or')}{more}, {shared}"


def so_far(bench: Bench) -> str:
    """What is said of a list that goes on holds so far."""
    return "" if bench.is_finished else " so far"


def _not_known(bench: Bench, reference: str) -> str:
    """Why nobody can say whether a place lacks one."""
    if bench.assembly(reference).was_compared:
        return "the list has not reached that place so far"
    return "whether that place lacks one, nobody has compared"


def origins_words(bench: Bench, reasons: Sequence[Reason], stray: Stray) -> list[str]:
    """Each origin once; a place that nobody compared and a spare for it are told together."""
    words = []
    homes = {
        (reason.origin.reference, reason.origin.part)
        for reason in reasons
        if reason.origin.kind == ELSEWHERE and not reason.origin.compared
    }
    spares = {(reason.origin.reference, reason.origin.part) for reason in reasons if reason.origin.kind == SPARE}
    for reason in reasons:
        own = reason.origin
        if (own.reference, own.part) not in homes & spares:
            words.append(origin_words(bench, reason, stray))
        elif own.kind == ELSEWHERE:
            place = place_words(bench.assembly(own.reference).reference, own.place)
            unreached = bench.assembly(own.reference).was_compared
            nobody = "which the list has not reached so far" if unreached else "which nobody has compared"
            words.append(
                f"suits the {place} of {own.reference}: its own, if that place lacks one, {nobody}, else a spare"
            )
    return words


def origin_words(bench: Bench, reason: Reason, stray: Stray) -> str:
    """One origin; "belongs to" only by evidence, and never "came from"."""
    own = reason.origin
    place = place_words(bench.assembly(own.reference).reference, own.place) if own.reference and own.place else ""
    if own.kind == HERE:
        lacks = "lacks one" if bench.assembly(own.reference).reference.place(own.place).count > 1 else "has none"
        return f"belongs to this assembly: the place of the {place}, which {lacks} without it"
    if own.kind == ELSEWHERE and own.compared:
        return f"belongs to {own.reference}: the place of the {place}, which lacks one"
    if own.kind == ELSEWHERE:
        return f"suits the {place} of {own.reference}; {_not_known(bench, own.reference)}"
    if own.kind == SPARE:
        return f"a spare for the {place} of {own.reference}, which lacks nothing that is known{so_far(bench)}"
    if own.kind == STANDARD:
        return "a standard item, of no place here"
    if (
        own.kind == SUBSTITUTE
        and own.reference == stray.home_list
        and bench.assembly(own.reference).home_of(stray.entry) == own.place
    ):
        return f"is another part, which stands in for the {place} of {own.reference}"
    if own.kind == SUBSTITUTE:
        return f"stands in for the {place} of {own.reference}, which is lacking"
    if own.kind == PIECE and own.part:
        others = (
            ", or of another bearing with equal rings" if len({member.parent for member in reason.members}) > 1 else ""
        )
        # A taper bearing comes apart unbroken.
        is_taper = bench.assembly(own.reference).reference.part(own.part).kind == "taper bearing"
        then = "its other half belongs to it" if is_taper else "that part is then found, broken, incomplete"
        return f"a piece of the {_lower(own.parent)} of {own.reference}{others}; {then}"
    if own.kind == PIECE and reason.members and reason.members[0].source == "piece":
        bearings = list(dict.fromkeys(member.parent for member in reason.members))
        more = f" and {len(bearings) - MOST_MEMBERS} more" if len(bearings) > MOST_MEMBERS else ""
        return f"a piece of a {listed(bearings[:MOST_MEMBERS], 'or')}{more}: look for the bearing that it burst from"
    return f"a tool or packing: {own.parent}" if own.kind == PIECE else f"no home found{so_far(bench)}"


def summary(explained: Explained) -> str:
    """The answer in few sentences: what it is, where it belongs."""
    bench, what, why = explained.bench, explained.object, explained.origin
    sentences = [f"{stray_words(explained.stray)}."]
    names = [identity_words(bench, answer, explained.stray) for answer in what.named]
    if what.verdict == IDENTIFIED:
        sentences.append(f"Identified by {basis_words(explained.stray, what.named[0].members)}: {names[0]}.")
    elif what.verdict == SHORTLIST and len(names) == 1:
        why_not = f": {UNPROVEN[what.unproven]}" if what.unproven in UNPROVEN else ""
        if (
            what.unproven == ONE_SIZE
            and len([taken for taken in explained.stray.taken if taken.name != "thread_pitch"]) > 1
        ):
            why_not = ": only one of these sizes is known of it closely"
        of_one = " of one" if len(what.named[0].names) == 1 else ""
        sentences.append(f"Shortlist{of_one}, not settled{why_not}. {sentence_of(names[0])}.")
    elif what.verdict == SHORTLIST:
        sentences.append(f"Shortlist, not settled: {'; or '.join(names)}.")
    else:
        sentences.append(_unknown(explained))
    sentences += _other_words(explained)
    if explained.spoken_against:
        sentences.append("What was seen speaks against it: look again before anything rests on it.")
    reasons = origins_words(bench, why.named, explained.stray)
    if why.verdict == IDENTIFIED:
        sentences.append(f"Where it belongs, by what is known: {reasons[0]}.")
    elif why.verdict == SHORTLIST:
        sentences.append(f"Where it belongs is open: {'; or '.join(reasons)}.")
    else:
        sentences.append(_no_home(explained))
    if other := _given_to(explained):
        sentences.append(f"The books give that place to {other}, which suits it as well.")
    if explained.worn_original:
        sentences.append(
            "Worn original or substitute: it differs from the part of that place only in the direction of wear."
        )
    if explained.keeps:
        names = [_lower(name) for name in explained.keeps]
        more = f" or one of {len(names) - MOST_MEMBERS} more" if len(names) > MOST_MEMBERS else ""
        joined = ", ".join(names[:MOST_MEMBERS]) if more else listed(names, "or")
        sentences.append(f"Count it in: the {joined}{more} may carry no load and still be what keeps something on.")
    elif explained.keeps_by_kind:
        sentences.append(f"Count it in: {explained.keeps_by_kind}, wherever it belongs.")
    return " ".join(sentences)


def _unknown(explained: Explained) -> str:
    """Nothing measured, too much that suits, or nothing that does: three things."""
    bench, stray = explained.bench, explained.stray
    parts = [member_words(bench, part) for part in explained.called or explained.suiting]
    if not stray.taken and not stray.marking:
        by = "name" if explained.called else "kind"
        return f"Unknown: nothing was measured.{f' By its {by} alone it may be the {_some(parts)}.' if parts else ''}"
    if parts and explained.suiting and not explained.other_name:
        return (
            f"Unknown: what was measured and looked at shows no one part; the {_some(parts)} "
            f"{'suits' if len(parts) == 1 else 'suit'} it, and so may others."
        )
    return "Unknown: nothing in the references and tables here is shown by what was measured and looked at."


def _some(names: Sequence[str]) -> str:
    """A few of many, and how many more."""
    if len(names) <= MOST_MEMBERS:
        return listed(names, "or")
    return f"{', '.join(names[:MOST_MEMBERS])} or one of {len(names) - MOST_MEMBERS} more"


def _other_words(explained: Explained) -> list[str]:
    """A name or a mark of another part than the answer: said with what speaks against it."""
    bench, stray, words = explained.bench, explained.stray, []
    if (part := explained.other_name) is not None and stray.taken and explained.object.named:
        words.append(
            f"It is called like the {member_words(bench, part)}, and is not like it: {beyond_words(stray, part)}."
        )
    if (part := explained.other_mark) is not None and stray.taken:
        words.append(
            f"Its mark {stray.marking} is that of the {member_words(bench, part)}, and its sizes are not: "
            f"{beyond_words(stray, part)}."
        )
    return words


def sentence_of(words: str) -> str:
    return words[:1].upper() + words[1:]


def _no_home(explained: Explained) -> str:
    """Nothing to look it up by, nothing that settles it, or no home: three things."""
    if not explained.stray.taken and not explained.stray.marking:
        return "Where it belongs is open: there is no size and no mark to look it up by."
    if explained.suiting or any(
        member.source == "part" for answer in explained.object.named for member in answer.members
    ):
        return "Where it belongs is open: what was measured does not settle it."
    return (
        f"Where it belongs: no home found{so_far(explained.bench)}{_searched(explained)}.{_other_machines(explained)}"
    )


def _searched(explained: Explained) -> str:
    here, others = len(explained.bench.assemblies), explained.also_searched
    more = f" and {others} of other machines" if others and not explained.other_machines else ""
    return f" in {here} reference{'s' * (here > 1)} here{more}"


def _other_machines(explained: Explained) -> str:
    """What of another machine it suits: by sizes or mark alone, and whether that one lacks any nobody knows."""
    parts = explained.other_machines
    if not parts:
        return ""
    by = "mark" if any(bears(part, explained.stray.marking) for part in parts) else "sizes"
    names = [member_words(explained.bench, part) for part in parts]
    return (
        f" Of another machine, its {by} suit{'s' * (by == 'mark')} the {_some(names)}; "
        "whether that one lacks any, nobody has compared."
    )


def _given_to(explained: Explained) -> str:
    """The other part that the books let fill the place which this one suits: one part fills one place."""
    if not explained.origin.named:
        return ""
    own, stray = explained.origin.named[0].origin, explained.stray
    for story in explained.books:
        if story.kind == ONE_SLIP and any(
            (place.reference, place.place) == (own.reference, own.place) for place in story.places
        ):
            other = story.strays[0]
            if (other.entry, other.home_list) != (stray.entry, stray.home_list):
                return f"entry {other.entry} of {other.home_list}"
    return ""


def stray_words(stray: Stray) -> str:
    entry = f" (entry {stray.entry})" if stray.entry and stray.home_list else ""
    count = f"{stray.count} x " if stray.count > 1 else ""
    return f"{count}{stray.what}{entry}"


def fit_words(fit: Fit, kind: str = "") -> str:
    """ "goes over the through axle: bore 20.10 on 19.98 to 19.99"."""
    does = {"does": "", "does not": "NOT: ", "cannot tell": "CANNOT TELL with this instrument: "}[fit.verdict]
    size = (
        f"{size_word(fit.taken.name, kind)} {reading_mm(fit.taken.value_mm, 2 * fit.taken.u_mm)} (good "
        f"to {good_to(2 * fit.taken.u_mm)})"
    )
    return f"{does}{fit.does} the {_lower(fit.part)}: {size}, that one {span(fit.low_mm, fit.high_mm)}"


def beyond_words(stray: Stray, candidate: Candidate) -> str:
    """By how much each measured size misses a candidate: "bore 0.40 above the high limit 17.27"."""
    words = []
    for taken in stray.taken:
        limits = candidate.size(taken.name)
        if limits is None:
            words.append(f"its {size_word(taken.name, stray.kind)} is not given")
        elif taken.value_mm > limits.high_mm:
            words.append(
                f"{size_word(taken.name, stray.kind)} {mm(taken.value_mm - limits.high_mm)} above {mm(limits.high_mm)}"
            )
        elif taken.value_mm < limits.low_mm:
            words.append(
                f"{size_word(taken.name, stray.kind)} {mm(limits.low_mm - taken.value_mm)} below {mm(limits.low_mm)}"
            )
    return listed(words) or "all sizes inside its limits"


def story_words(bench: Bench, story: Story) -> str:
    """One event of the books, told once."""
    strays = [f"{stray.what} (entry {stray.entry} of {stray.home_list})" for stray in story.strays]
    places = [_lacking_words(bench, place) for place in story.places]
    if story.kind == ONE_SLIP:
        return f"one slip: {strays[0]} suits {places[0]}, which lacks one; open in both jobs until it is fitted"
    if story.kind == SWAP:
        return f"one swap: {listed(strays)} stand each in the other's place"
    if story.kind == NO_HOME:
        return f"no home found{so_far(bench)}: {strays[0]}"
    if story.kind == LOST:
        return f"not found anywhere{so_far(bench)}: {places[0]}"
    return f"a piece, no extra part: {strays[0]} is charged to {places[0]}: found, broken, incomplete"


def _lacking_words(bench: Bench, lack: Lacking) -> str:
    reference = bench.assembly(lack.reference).reference
    name = place_words(reference, lack.place) if lack.place else _lower(reference.part(lack.part).name)
    return f"the {name} of {lack.reference}"
