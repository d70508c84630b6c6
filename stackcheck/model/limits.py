"""What must hold in an assembly: between two faces, of a force, of two sizes that suit each other.

A limit names places, loops, joints and parts of its reference. Whether it holds is for the engines to tell.
"""

from __future__ import annotations

from stackcheck.value import Value


class Limit(Value, kw_only=True):
    """What must hold between two faces [mm].

    `between` names two places. Neighbours in a stack: the gap where they meet. Otherwise the distance between the two
    places along the graph; "hub/left" names the left face of the hub, a bare name the face that looks at the other
    place.
    """

    what: str
    between: tuple[str, str]
    least_mm: float | None = None
    most_mm: float | None = None
    text: str = ""
    source: str = ""


class ForceLimit(Value, kw_only=True):
    """What a force must be when all is tightened [N]:
    `of` names a loop (the preload of its bearings) or a joint (its tension). `state` names the state that it is said
    for, "" for none.
    """

    what: str
    of: str
    least_n: float | None = None
    most_n: float | None = None
    text: str = ""
    source: str = ""
    state: str = ""


class StateLimit(Value, kw_only=True):
    """What the gap of a loop must be in one state [mm]; `of` names the loop."""

    what: str
    of: str
    state: str
    least_mm: float | None = None
    most_mm: float | None = None
    text: str = ""
    source: str = ""


class Pairing(Value, kw_only=True):
    """Two sizes that must suit each other: `outer` (part, size) around `inner`;
    clearance limits [mm], negative is overlap.
    """

    what: str
    outer: tuple[str, str]
    inner: tuple[str, str]
    least_mm: float | None = None
    most_mm: float | None = None
    text: str = ""
    source: str = ""
