"""Which size a typed figure is where no name says so, and what "wide", "high" and "thick" mean:
the kind of part decides.

The one rule for whatever people type, at the bench, to `find` and to `explain`. Three figures are the two diameters,
whichever is the larger being the outside, and the length along the axis. It looks at values alone; how figures are
found in a text, and what is asked or refused where the rule has no answer, is for those who read the text.
"""

from __future__ import annotations

from collections.abc import Sequence

LENGTHS_MM: dict[str, tuple[float, float]] = {
    "shim ring": (0.02, 6), "washer": (0.2, 20), "thrust washer": (0.5, 20), "tab washer": (0.3, 10),
    "spring washer": (0.2, 20),
    "gasket": (0.05, 6), "circlip": (0.5, 6), "ring": (0.02, 40), "disc spring": (0.3, 20), "steel plate": (0.5, 12),
    "friction plate": (0.8, 12), "plate": (0.5, 20), "O-ring": (0.8, 12), "": (0.02, 400), "loose balls": (0.8, 60),
}  # fmt: skip
"""Lengths along the axis that a part of a kind can have [mm] (ball diameters for balls). Common practice, no source."""
OTHER_LENGTHS_MM = (1, 400)

ONE = {"loose balls": "ball", "split pin": "shaft"}
TWO = {"O-ring": ("bore", "length"), "split pin": ("shaft", "length"), "key": ("width", "length")}
THREE = {"key": ("width", "", "length"), "disc spring": ("outside", "bore", "disc_thickness")}
FOUR = {"disc spring": ("outside", "bore", "disc_thickness", "disc_height")}
ALONG = {
    "thick": ("washer", "shim ring", "ring", "gasket", "circlip", "plate", "O-ring", "disc spring", "disc", "cover"),
    "wide": ("bearing", "seal", "wheel", "pulley", "gear", "sprocket", "impeller"),
    "high": ("nut",),
}
"""How people say the length along the axis of a kind, by its last word; "long" of all others."""
_LENGTH = {"thick": "thickness", "wide": "width", "high": "height", "long": "length", "": "thickness"}
NO_DIAMETERS = frozenset({"axle", "shaft", "arbor", "bolt", "nut", "loose balls", "spring"})
"""Kinds of which two bare figures are no pair of diameters."""


def names_of(values_mm: Sequence[float], kind: str) -> tuple[str, ...]:
    """Names for two to four figures that stand together, "" for one that is no size of ours;
    () where the rule has no answer.

    >>> names_of((28, 20, 0.5), "washer"), names_of((0.5, 45, 35), "shim ring"), names_of((20, 2.5), "O-ring")
    (('outside', 'bore', 'length'), ('length', 'outside', 'bore'), ('bore', 'length'))
    """
    count = len(values_mm)
    if own := {2: TWO, 3: THREE, 4: FOUR}.get(count, {}).get(kind):
        return own
    if kind in NO_DIAMETERS or count not in (2, 3):
        return ()
    if count == 3:
        least, most = LENGTHS_MM.get(kind, OTHER_LENGTHS_MM)
        if values_mm[2] > most and least <= values_mm[0] <= most:  # written length first, where only that can be
            return ("length", *diameters(values_mm[1:]))
    return (*diameters(values_mm), "length")[:count]


def diameters(values_mm: Sequence[float]) -> tuple[str, str]:
    """The larger of the first two is the outside: shim rings are written the other way about."""
    return ("outside", "bore") if values_mm[0] >= values_mm[1] else ("bore", "outside")


def size_by_kind(word: str, kind: str) -> str:
    """The size that "width", "height" and "thickness" mean for this kind; any other name is itself."""
    if kind == "disc spring" and word in ("height", "thickness"):
        return f"disc_{word}"
    if word == "width" and kind == "key":  # of anything else everybody means the length along the axis
        return word
    return "length" if word in ("width", "height", "thickness") else word


def along(kind: str) -> str:
    if not kind:
        return ""
    return next((word for word, kinds in ALONG.items() if kind in kinds or kind.rpartition(" ")[2] in kinds), "long")


def length_word(kind: str) -> str:
    """What the length along the axis is called on such a part; "thickness" where the kind is not known.

    >>> length_word("washer"), length_word("ball bearing"), length_word("nut"), length_word("spacer tube")
    ('thickness', 'width', 'height', 'length')
    """
    return _LENGTH[along(kind)]
