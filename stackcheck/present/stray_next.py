"""The words for what to do next with a stray part: what to doubt, what to take again, what no size can tell."""

from __future__ import annotations

from collections import Counter

from stackcheck.present.figures import size_word
from stackcheck.present.stray_words import MOST_MEMBERS, member_words
from stackcheck.present.words import listed
from stackcheck.stray.candidates import Candidate
from stackcheck.stray.decide import IDENTIFIED, ONE_SIZE, WORN
from stackcheck.stray.explain import Explained

MOST_ODD = 2
TIMES = {2: "two", 3: "three"}


def doubt_words(explained: Explained) -> list[str]:
    """Parts stuck together, one size that alone does not suit, look-alikes:
    what would explain it without a new part.
    """
    words = []
    if explained.stuck:
        words.append(f"try to part it with a blade: it is as thick as {_together(explained)} together")
    for odd in explained.odd_sizes[:MOST_ODD]:
        names = [_the(explained, part) for part in odd.parts]
        agrees = listed(names, "or") if len(names) <= MOST_ODD else f"{', '.join(names[:MOST_ODD])} and others"
        words.append(f"take the {size_word(odd.size, explained.stray.kind)} again: in all else it agrees with {agrees}")
    # Two that are both named are told apart below, by more than a name.
    names = {part.name.lower() for part in explained.alike}
    alikes = [
        (part, other)
        for part in explained.alike[:MOST_MEMBERS]
        for other in part.look_alikes
        if ";" in other or other.partition(",")[0].lower() not in names
    ]
    return words + [f"{_the(explained, part)} has a look-alike: {other}" for part, other in alikes]


def _together(explained: Explained) -> str:
    counted = Counter(explained.stuck)
    return listed(
        [
            f"{TIMES[count]} of {_the(explained, part)}" if count > 1 else _the(explained, part)
            for part, count in counted.items()
        ]
    )


def _the(explained: Explained, part: Candidate) -> str:
    name = member_words(explained.bench, part)
    return name if part.source == "standard" else f"the {name}"


def again_words(explained: Explained) -> list[str]:
    """Sizes to take more finely, elsewhere on the part, or as well."""
    words, unproven = [], explained.object.unproven
    if explained.again:
        words.append(
            f"take the {listed([size_word(name, explained.stray.kind) for name in explained.again])} again by calliper "
            "or finer, every digit written"
        )
    if unproven == WORN:
        words.append("clean it, and take the sizes again where it is not worn, as at the rim")
    if explained.as_well:
        words.append(
            f"take the {listed([size_word(name, explained.stray.kind) for name in explained.as_well])} as well"
        )
    elif unproven == ONE_SIZE and explained.object.named[0].members[0].source == "part":
        words.append("the reference gives no other size of it: look where it may have stood")
    return words


def untold_words(explained: Explained) -> str:
    """Why no look and no size tells the two leading answers apart, "" where nothing is to be told."""
    if explained.object.verdict == IDENTIFIED or not explained.told_apart[0]:
        return ""
    first, second = explained.pair
    names = f"{first.name} from {second.name}"
    both = [name for size in first.sizes if second.size(name := size.name)]
    one_only = [
        name
        for own, other in ((first, second), (second, first))
        for size in own.sizes
        if not other.size(name := size.name) and explained.stray.size(name) is None
    ]
    if one_only:
        return (
            f"the {listed([size_word(name, explained.stray.kind) for name in one_only])} may tell {names}: "
            "given for one of them only"
        )
    if all(_overlap(first, second, name) for name in both):
        return f"no size tells {names}: their limits overlap, and a finer instrument helps nothing"
    return f"wear blurs what tells {names}: take the sizes again where it is not worn, as at the rim"


def _overlap(first: Candidate, second: Candidate, name: str) -> bool:
    one, other = first.size(name), second.size(name)
    return one.low_mm <= other.high_mm and other.low_mm <= one.high_mm
