"""Which way round a part was, as typed in a line: "spring side out", "small end of rollers to gear".

A feature that is named with a direction; the direction stays the typed word, because only the line of parts around it
can say which end it is (`stackcheck.formats.facing`). A feature without a direction says nothing about facing.
"""

from __future__ import annotations

import re
from collections.abc import Collection

from stackcheck.formats.words import INWARD, OUTWARD, TYPED
from stackcheck.pattern import Pattern

FEATURES = {
    "spring side": r"spring side|spring",
    "open side": r"open side",
    "lip": r"lips?",
    "seal face": r"seal face",
    "lapped face": r"lapped face",
    "seal land": r"seal land",
    "flange": r"flange",
    "step": r"step(?:ped side)?",
    "chamfer": r"chamfer(?:ed side)?",
    "groove": r"groove",
    "sharp edge": r"sharp (?:edge|side)",
    "grooved face": r"grooved (?:face|side)|soft face",
    "hollow side": r"hollow side|hollow|dished side|dish",
    "wide face of the outer ring": r"wide (?:face|side)(?: of (?:the )?outer(?: ring)?)?",
    "narrow face of the outer ring": r"narrow (?:face|side)(?: of (?:the )?outer(?: ring)?)?",
    "small end of the rollers": r"small ends?(?: of (?:the )?rollers?)?",
    "sealed side": r"sealed side",
    "marked side": r"marked side|marking|numbers?",
    "long boss": r"long boss",
    "short boss": r"short boss",
    "teeth": r"teeth",
    "dot": r"dot",
    "oil slots": r"oil slots",
    "slots": r"slots",
    "tab": r"tab",
    "insert": r"insert",
    "set screw": r"set ?screw",
    "arrow": r"arrow",
    "wide end": r"wide end",
    "spigot": r"spigot",
    "recess": r"recess",
}
"""What shows which way round a part is -> what people type for it; a reference brings its own beside these."""

_LINK = r"\s*(?:(?:is|was|are|were|faces|facing|faced|points|pointing|pointed|looks|looking|toward|towards|goes)\s+)?"
_STATED = r"same both ways|both ways|either way|not seen"
_PREPOSITION = r"(?:toward|towards|to|away from|against|at|on|in(?=(?: the)? (?:slot|groove|keyway|recess|flat)\b))"
_CHAIN = r"[^\W\d][\w'-]*(?: [^\W\d][\w'-]*){0,5}"


def facing_pattern(features: Collection[str], ends: Collection[str]) -> re.Pattern[str]:
    """A feature with its direction: groups `feature`, and `toward` or `chain` (words that hold the direction first)."""
    own = [re.escape(feature) for feature in features]
    named = "|".join(sorted([*own, *FEATURES.values()], key=len, reverse=True))
    words = "|".join(sorted((re.escape(word) for word in {*INWARD, *OUTWARD, *ends}), key=len, reverse=True))
    return re.compile(
        rf"\b(?P<feature>{named})(?:{_LINK}|\s*[:=]\s*)(?:(?P<prep>{_PREPOSITION})\s+)?(?:the\s+)?"
        rf"(?:(?P<toward>{_STATED}"
        rf"|(?:{words})\b(?!\s+(?:the|a|of|its|my|place|leg|slot|groove|keyway|recess|flat|\w*ing)\b))"
        rf"|(?(prep)(?P<chain>{_CHAIN})|(?P<named>{_leg()})))",
        re.IGNORECASE,
    )


def _leg() -> str:
    return r"(?:\w+ )?(?:leg|bearing|nut|slot|hub|gear|wheel|web|housing)\b"


def feature_named(typed: str, features: Collection[str]) -> str:
    """The name of a feature: that of the reference where it has one, ours otherwise."""
    for feature in features:
        if feature.lower() == typed.lower():
            return feature
    ours = next((name for name, phrase in FEATURES.items() if re.fullmatch(phrase, typed, re.IGNORECASE)), typed)
    return next((feature for feature in features if feature.lower() == ours.lower()), ours)


_NAMES = sorted({phrase for phrases in TYPED.values() for phrase in phrases}, key=len, reverse=True)
_THING = Pattern(rf"\b(?:{'|'.join(map(re.escape, _NAMES))})s?\b", re.IGNORECASE)


def direction_in(chain: str, names: Collection[str]) -> str:
    """The words of a chain that name a thing or an end: "left leg gritty" -> "left leg"; else its first word."""
    known = [match.end() for match in _THING.finditer(chain)]
    lower = chain.lower()
    for name in names:
        known += [match.end() for match in re.finditer(rf"\b{re.escape(name.lower())}\b", lower)]
    return chain[: max(known)] if known else chain.split(" ")[0]
