"""What is usual for a kind of part: its feature, its duties, limits of a length, what to measure, whether it stays on.

Suggestions for somebody who writes a reference down; each is shown, may be answered otherwise, and says where it comes
from. Figures are common practice and have no source: whoever has a drawing writes what the drawing says.
"""

from __future__ import annotations

from stackcheck.catalogue.known import standard_parts
from stackcheck.model.part import SINGLE_DIRECTION_KINDS
from stackcheck.value import Value

PRACTICE = "common practice, no source"

FEATURES: dict[str, tuple[str, ...]] = {
    "seal": ("spring side",),
    "mechanical seal": ("seal face",),
    "collar": ("flange", "step", "chamfer", "groove"),
    "circlip": ("sharp edge",),
    "thrust washer": ("grooved face",),
    "disc spring": ("hollow side",),
    "angular bearing": ("wide face of the outer ring",),
    "taper bearing": ("small end of the rollers",),
    "hub": ("long boss", "dished side"),
    "gear": ("long boss", "marked side"),
    "sprocket": ("dished side", "long boss"),
    "pulley": ("set screw", "long boss"),
    "impeller": ("open side",),
    "flange": ("hollow side", "boss"),
    "cap": ("hollow side",),
    "cover": ("hollow side", "spigot"),
    "nut": ("flange", "slots", "chamfer", "insert"),
    "cone": ("wide end",),
    "cup": ("open side",),
}
"""Kind -> what shows which way round such a part is, the usual one first. A nut of six plain sides shows nothing."""

STAYS_ON = frozenset({"leg", "bracket", "carrier", "housing", "shoulder", "hub", "drum"})
"""Kinds that stay on the machine, or with the wheel."""

DUTIES: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("seal", "gasket", "O-ring"), ("new every time",)),
    "split pin": ("retention", "new every time"),
    **dict.fromkeys(("tab washer", "key"), ("anti-turn",)),
    "circlip": ("retention",),
    "crush sleeve": ("crushes once", "new every time"),
    **dict.fromkeys(SINGLE_DIRECTION_KINDS, ("single direction",)),
}
MUST_MEASURE = frozenset({"spacer tube", "collar", "shim ring", "thrust washer"})
"""Kinds whose length decides a gap and wears, so that nothing agrees without it."""

LENGTH_LIMITS: dict[str, str] = {
    "spacer tube": "±0.02", "shim ring": "±0.01", "thrust washer": "±0.02", "collar": "±0.05", "hub": "±0.02",
    "housing": "±0.05", "seal": "±0.2", "washer": "±0.1", "tab washer": "±0.1", "gasket": "±0.05",
    "steel plate": "±0.02", "friction plate": "±0.02", "pressure plate": "±0.02", "circlip": "±0.05", "flange": "±0.1",
    "gear": "±0.05", "sprocket": "±0.1", "pulley": "±0.1", "nut": "±0.2", "leg": "±0.2", "bracket": "±0.2",
    "shaft": "±0.1", "axle": "±0.1", "wheel": "±0.3", "ring": "±0.05",
}  # fmt: skip
OTHER_LIMITS = "±0.1"

NUT_LOCKS = ("it locks itself", "split pin", "tab washer", "lock nut", "locking compound")


class Usual(Value, kw_only=True):
    """What is usual for one kind."""

    features: tuple[str, ...]
    asks_facing: bool
    stays_on: bool
    duties: tuple[str, ...]
    must_measure: bool
    limits: str


def usual(kind: str) -> Usual:
    """
    >>> usual("seal").features, usual("seal").duties, usual("washer").asks_facing
    (('spring side',), ('new every time',), False)
    """
    return Usual(
        features=FEATURES.get(kind, ()),
        asks_facing=kind in FEATURES,
        stays_on=kind in STAYS_ON,
        duties=DUTIES.get(kind, ()),
        must_measure=kind in MUST_MEASURE,
        limits=LENGTH_LIMITS.get(kind, OTHER_LIMITS),
    )


MOST_OFFERED = 4
NEAR_MM = 0.3


def standards_with(kind: str, sizes: dict[str, float]) -> tuple[str, ...]:
    """The standard parts of this kind with these sizes (two or more of bore, outside, length);
    none where they are many.

    >>> standards_with("ball bearing", {"bore": 20, "outside": 47, "length": 14})
    ('6204',)
    """
    asked = {name: value for name, value in sizes.items() if name in ("bore", "outside", "length")}
    if len(asked) < 2:
        return ()
    met = [
        part.name
        for _, part in standard_parts()
        if part.kind == kind
        and all(
            (size := part.size(name)) and size.low_mm - NEAR_MM <= value <= size.high_mm + NEAR_MM
            for name, value in asked.items()
        )
    ]
    return tuple(met) if len(met) <= MOST_OFFERED else ()
