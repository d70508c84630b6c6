"""The words people type for a kind of part, each led back to our word for it.

Longest phrase first, so that "ball bearing" is no loose ball and "spacer tube" no tube. Words that mean two things in
the trade ("bush", "cone") keep the sense that the bench uses; the typed text stays in the record beside the kind.
"""

from __future__ import annotations

import re
from functools import lru_cache

from stackcheck.pattern import Pattern

TYPED: dict[str, tuple[str, ...]] = {
    "axle": ("axle", "through axle", "wheel pin"),
    "shaft": ("shaft", "layshaft", "pinion shaft", "spindle"),
    "arbor": ("arbor",),
    "spacer tube": (
        "spacer tube",
        "distance tube",
        "distance piece",
        "inner spacer",
        "centre spacer",
        "thrust tube",
        "sleeve",
        "spacer",
        "tube",
    ),
    "collar": ("collar", "wheel spacer", "end spacer", "distance collar", "end cap"),
    "washer": ("washer", "thin washer", "thick washer", "flat washer"),
    "shim ring": ("shim ring", "shim", "shims", "shim washer", "packing", "selective ring", "selective washer"),
    "thrust washer": ("thrust washer", "thrust plate"),
    "tab washer": ("tab washer", "lock tab", "tanged washer", "anti-turn washer", "keyed washer"),
    "spring washer": ("spring washer", "wave washer"),
    "disc spring": ("disc spring", "dished washer", "cone washer"),
    "circlip": ("circlip", "snap ring", "retaining ring", "clip", "c-clip", "e-clip"),
    "ball bearing": ("ball bearing", "bearing", "brg", "sealed bearing", "cartridge"),
    "angular bearing": ("angular bearing", "angular contact", "angular contact bearing"),
    "taper bearing": ("taper bearing", "tapered roller", "taper roller", "taper roller bearing", "taper"),
    "needle bearing": ("needle bearing", "needle cage", "needles"),
    "loose balls": ("loose balls", "balls", "ball bearings", "loose ball", "steel ball", "ball"),
    "seal": ("seal", "oil seal", "lip seal", "grease seal", "dust seal"),
    "mechanical seal": ("mechanical seal", "face seal", "shaft seal"),
    "O-ring": ("o-ring", "o ring"),
    "gasket": ("gasket", "joint", "paper"),
    "nut": ("nut", "castle nut", "slotted nut", "lock nut", "ring nut", "insert lock nut", "castellated nut"),
    "bolt": ("bolt", "screw"),
    "split pin": ("split pin", "cotter pin"),
    "crush sleeve": ("crush sleeve", "collapsible spacer"),
    "friction plate": ("friction plate", "friction"),
    "steel plate": ("steel plate", "steel"),
    "pressure plate": ("pressure plate",),
    "plate": ("plate",),
    "key": ("key", "feather"),
    "bush": ("bush", "bushing"),
    "ring": ("ring", "thin ring"),
    "flange": ("flange",),
    "gear": ("gear", "gear wheel", "pinion"),
    "impeller": ("impeller",),
    "wheel": ("wheel",),
    "hub": ("hub",),
    "cone": ("cone",),
    "cup": ("cup",),
    "leg": ("leg", "fork leg"),
    "bracket": ("bracket", "stay", "frame plate", "side plate"),
    "cover": ("cover", "cheek"),
    "housing": ("housing",),
    "spring": ("spring",),
    "sprocket": ("sprocket",),
    "pulley": ("pulley",),
    "disc": ("disc", "brake disc"),
    "drum": ("drum",),
    "carrier": ("carrier",),
    "cap": ("cap", "dust cap"),
}

CHOSEN = {
    "selective ring": "shim ring", "selective washer": "shim ring", "selective shim": "shim ring",
    "selective circlip": "circlip", "selective snap ring": "circlip",
}  # fmt: skip
"""Kinds as a reference may call them where one piece is chosen for its thickness."""

SIZES_ALSO_CALLED = {
    "thickness": "length",
    "od": "outside",
    "id": "bore",
    "outside_diameter": "outside",
    "inside": "bore",
}
"""Sizes that people write by another name."""

WIDTH_IS_LENGTH = frozenset(
    {"ball bearing", "angular bearing", "taper bearing", "needle bearing", "seal", "mechanical seal", "circlip", "ring"}
)
"""Kinds whose length along the axis everybody calls the width."""

INWARD = frozenset({"middle", "inside", "inward", "inwards", "inboard", "in", "centre", "center"})
OUTWARD = frozenset({"outside", "outward", "outwards", "outboard", "out"})
"""Toward the middle of the assembly, and away from it."""

FACING_NOT_TOLD = {
    "": "",
    "same both ways": "same both ways", "both ways": "same both ways", "either way": "same both ways",
    "not seen": "not seen", "unknown": "not seen", "?": "not seen",
}  # fmt: skip
"""Answers that name no direction, each led to our word."""

_BY_PHRASE = sorted(
    ((phrase, kind) for kind, phrases in TYPED.items() for phrase in phrases), key=lambda pair: -len(pair[0])
)
_KIND = dict(_BY_PHRASE)


def kind_of(typed: str) -> str:
    """Our kind for what somebody typed, "" where no word is known: "old spacer, rusty" -> "spacer tube".

    >>> kind_of("Lock tab, bent")
    'tab washer'
    """
    if kind := _kind(typed.lower()):  # nothing but the name of a kind, as most entries are
        return kind
    kinds = kinds_in(typed) if typed else []
    return kinds[0][2] if kinds else ""


def kinds_in(typed: str) -> list[tuple[int, int, str]]:
    """(start, end, kind) of every kind named; of names side by side the last is the thing: "axle nut" is a nut."""
    found: list[tuple[int, int, str]] = []
    for match in _phrases(typed):
        start, end = match.span()
        if found and re.fullmatch("[ -]", typed[found[-1][1] : start]):
            start = found.pop()[0]
        found.append((start, end, _kind(match.group().lower())))
    return found


_BEHIND_THE_NAME = Pattern(
    r"\s*(?:[,;(]|\b(?:of|under|on|in|between|behind|beside|for|at|with|that|to|from|over|inside|outside)\b)"
)


def head_of_name(name: str) -> str:
    """What a part is called before its name says of what, or where it is.

    >>> head_of_name("Felt ring in its cover"), head_of_name("Casing, from its flange")
    ('felt ring', 'casing')
    """
    head = name.lower()
    match = _BEHIND_THE_NAME.search(head, 1)
    return head[: match.start()] if match else head


def kind_of_name(name: str) -> str:
    """Our kind for the name of a part, "" where no word is known:
    the last word of what stands before "of", "under", ...

    >>> [kind_of_name(name) for name in ("Axle nut", "Washer under the axle nut", "Hub seal", "Fork, between the legs")]
    ['nut', 'washer', 'seal', '']
    """
    met = _phrases(head_of_name(name))
    return _kind(met[-1].group()) if met else ""


def _phrases(typed: str) -> list[re.Match[str]]:
    """Every phrase for a kind, the longest where several begin."""
    plain = typed.casefold()
    said = tuple(phrase for phrase, _ in _BY_PHRASE if phrase in plain)
    return list(_any_of(said).finditer(typed)) if said else []


@lru_cache(maxsize=1000)
def _any_of(phrases: tuple[str, ...]) -> re.Pattern[str]:
    """A pattern of these alone: that of all phrases takes longer to compile than a part to be looked up."""
    return re.compile("|".join(rf"\b{re.escape(phrase)}(?:e?s)?\b" for phrase in phrases), re.IGNORECASE)


def named_kind(phrase: str) -> str:
    """Our kind for a phrase that is nothing but the name of a kind, as typed ("Spacer");
    the phrase itself otherwise.
    """
    return _kind(phrase.strip().lower()) or phrase


def _kind(phrase: str) -> str:
    return next((kind for end in ("", "s", "es") if (kind := _KIND.get(phrase.removesuffix(end)))), "")


_BARE_SIZE = r"M?\d+(?:[.,]\d+)?(?: ?x ?\d+(?:[.,]\d+)?)?"
DESIGNATION = Pattern(
    rf"\b(?:(?:DIN|(?:DIN ?)?(?:EN ?)?ISO)\s?\d{{3,5}}(?:-\d(?!\d))?[ -]{{1,3}}"
    rf"(?:\d+/\d+ ?(?:in\b|\")|{_BARE_SIZE}(?: ?mm\b)?)"
    r"|(?:DIN ?)?EN ?16983 [ABC] ?\d{1,3}(?:[.,]\d)?"
    r"|ASME ?B18\.21\.1 type [AB] (?:No\. ?\d+|\d+(?:/\d+)?)(?: [NRW])?"
    r"|(?:6\d{2,4}|16\d{3}|3[02]\d{3}|7\d{3})(?:[ /-]?(?:2?RS1?|2?Z{1,2}|C[2-5]|X|B|AC))*)(?![\w/])",
    re.IGNORECASE,
)


def designation_in(typed: str) -> str:
    """The designation of a standard part in what somebody typed, "" where there is none.

    >>> designation_in("left bearing 6204 2RS, rusty")
    '6204 2RS'
    """
    match = DESIGNATION.search(typed)
    if match is None:
        return ""
    from stackcheck.tables import UnknownStandard, resolve  # most texts name none

    try:
        resolve(match.group())
    except UnknownStandard:
        return ""
    return match.group()


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    """A name reduced for comparing: lower case, single spaces, no hyphens."""
    return " ".join(text.lower().replace("-", " ").replace("@", " ").split())
