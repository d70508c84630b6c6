"""The answer of `explain` as a page: what it is, where it belongs, where it goes, what it does, what would help."""

from __future__ import annotations

from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.figures import good_to, reading_mm, size_word
from stackcheck.present.stray_next import again_words, doubt_words, untold_words
from stackcheck.present.stray_words import beyond_words, fit_words, member_words, story_words, summary
from stackcheck.present.verdict_words import BLIND_SPOTS
from stackcheck.present.words import effect_words, listed, sentence
from stackcheck.stray.decide import IDENTIFIED
from stackcheck.stray.effect import A_BEARING, BETWEEN, OUTSIDE
from stackcheck.stray.explain import Explained

PATH_WORDS = {
    BETWEEN: "between the bearings: it is in the path of their preload",
    OUTSIDE: "outside the bearings: it changes no preload",
    A_BEARING: "one of the bearings themselves: their preload runs through it",
}


def page(explained: Explained) -> list[Block]:
    """The whole answer, most important first."""
    return [
        Text(summary(explained), strong=True),
        *_measured(explained),
        *_nearest(explained),
        *_fits(explained),
        *_doing(explained),
        *_books(explained),
        *_next(explained),
        *_not_verified(explained),
    ]


def _measured(explained: Explained) -> list[Block]:
    stray = explained.stray
    blocks: list[Block] = [Heading("MEASURED")]
    called = {"length": "free height"} if stray.kind == "disc spring" else {}
    rows = tuple(
        (
            called.get(taken.name) or size_word(taken.name, stray.kind),
            reading_mm(taken.value_mm, 2 * taken.u_mm),
            good_to(2 * taken.u_mm),
            taken.how,
        )
        for taken in stray.taken
    )
    blocks.append(Rows(("size", "mm", "good to", "by"), rows, right=(1, 2)) if rows else Text("no size", indent=1))
    blocks += [
        Text(f"{size_word(taken.name, stray.kind)}: {taken.remark}", indent=1) for taken in stray.taken if taken.remark
    ]
    blocks += [Text(words, indent=1) for words in stray.not_measured]
    return blocks


def _nearest(explained: Explained) -> list[Block]:
    if explained.object.verdict == IDENTIFIED or not explained.nearest:
        return []
    blocks: list[Block] = [Heading("TRIED AGAINST (nearest first)")]
    for candidate in explained.nearest:
        words = f"{member_words(explained.bench, candidate)}: {beyond_words(explained.stray, candidate)}"
        blocks.append(Text(words, mark=" -  "))
    return blocks


def _fits(explained: Explained) -> list[Block]:
    blocks: list[Block] = []
    for each in explained.fits:
        blocks.append(Heading(f"WHERE IT GOES in {each.reference.id}"))
        blocks += [Text(fit_words(fit, explained.stray.kind), mark=" -  ") for fit in each.fits]
    return blocks


def _doing(explained: Explained) -> list[Block]:
    doing = explained.doing
    blocks: list[Block] = []
    if doing is not None:
        assembly = explained.bench.assembly(explained.stray.home_list)
        reference, found = assembly.reference, assembly.found
        blocks.append(Heading("WHAT IT DOES"))
        if doing.finding is not None:
            blocks.append(Text(sentence(doing.finding, reference, found), mark="compared: "))
        if doing.stays is not None and (words := effect_words(doing.stays, reference)):
            blocks.append(Text(words, mark="stays in: "))
            blocks.append(Text("these changes go; the reference holds for them again", mark="out or put right: "))
        if doing.left_out is not None and (words := effect_words(doing.left_out, reference)):
            blocks.append(Text(words, mark="left out: "))
        for where, words in PATH_WORDS.items():
            if stacks := [path.stack for path in doing.paths if path.where == where]:
                blocks.append(Text(f"{listed(stacks)}: {words}", mark="path: "))
        if doing.not_explained:
            others = (sentence(finding, reference, found) for finding in doing.not_explained)
            blocks += [Text(other, mark="does not explain: ") for other in others]
    if explained.without is not None and explained.origin.named and (doing is None or doing.left_out is None):
        own = explained.origin.named[0].origin
        words = effect_words(explained.without, explained.bench.assembly(own.reference).reference)
        if words:
            blocks.append(Heading(f"WITHOUT IT {own.reference}"))
            blocks.append(Text(words, indent=1))
    return blocks


def _books(explained: Explained) -> list[Block]:
    if not explained.books:
        return []
    return [
        Heading("BOOKS of all open lists"),
        *(Text(story_words(explained.bench, story), mark=" -  ") for story in explained.books),
    ]


def _next(explained: Explained) -> list[Block]:
    lines = [*doubt_words(explained), *again_words(explained)]
    blocks: list[Block] = [Text(line, mark=" -  ") for line in lines]
    if explained.looks:
        first, second = explained.told_apart
        for look in explained.looks:
            says = "tells them apart" if look.settles else "helps, and may not settle it"
            blocks.append(Text(f"{look.what}: {says}", mark=" -  "))
        blocks.append(Text(f"({first} against {second})", indent=4))
    elif untold := untold_words(explained):
        blocks.append(Text(untold, mark=" -  "))
    if explained.not_looked_at:
        blocks.append(
            Text(
                f"{listed(explained.not_looked_at)}: not looked at; say what you see before an opinion is formed",
                mark=" -  ",
            )
        )
    return [Heading("NEXT"), *blocks] if blocks else []


def _not_verified(explained: Explained) -> list[Block]:
    words = []
    if explained.stray.taken:
        tools = listed(dict.fromkeys(taken.how for taken in explained.stray.taken))
        words.append(f"{tools}: not compared with anything in this job")
    words += [f"{assembly.id}: not compared" for assembly in explained.bench.assemblies if not assembly.was_compared]
    words += [f"{file}: cannot be read, not searched" for file in explained.unread]
    words.append("how it came here: nobody saw it")
    words.append("how common parts and slips are: our own judgement, in tables that can be changed")
    words += [BLIND_SPOTS[0], BLIND_SPOTS[-1]]
    return [Heading("NOT VERIFIED"), Text(" · ".join(words) + ".", indent=1)]
