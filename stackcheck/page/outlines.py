"""What shows which way round a part is, as a small drawing: half section on 120 by 60 with the feature toward the left.

Toward the right it is the mirror picture. Neither size nor place of anything in it says what is expected.
"""

from __future__ import annotations

OUTLINES = {
    "flange": '<path d="M42 16H92V44H42ZM30 5H42V55H30Z"/>',
    "studs": '<path d="M46 16H92V44H46ZM34 3H46V57H34ZM16 8H34V14H16ZM16 46H34V52H16Z"/>',
    "step": '<path d="M46 7H92V53H46ZM28 19H46V41H28Z"/>',
    "dome": '<path d="M56 5H92V55H56ZM56 9A34 21 0 0 0 56 51Z"/>',
    "slots": '<path d="M50 5H92V55H50ZM30 8H50V18H30ZM30 25H50V35H30ZM30 42H50V52H30Z"/>',
    "set-screw": '<path d="M48 5H92V55H48ZM26 18H48V42H26ZM33 8H41V18H33Z"/>',
    "hollow": '<path d="M36 7H88V53H36V44H72V16H36Z"/>',
    "dish": '<path d="M32 2H44L86 21V27H76ZM32 58H44L86 39V33H76Z"/>',
    "chamfer": '<path d="M54 7H90V53H54L34 40V20Z"/>',
    "sharp": (
        '<path d="M44 2H60A10 8 0 0 1 70 10V16A10 8 0 0 1 60 24H44Z'
        'M44 58H60A10 8 0 0 0 70 50V44A10 8 0 0 0 60 36H44Z"/>'
    ),
    "grooves": '<path d="M50 4H70V56H50V50H59V44H50V33H59V27H50V16H59V10H50Z"/>',
    "nose": '<path d="M50 5H90V55H50ZM34 11H50V20H34ZM34 40H50V49H34Z"/>',
    "lip": '<path d="M58 9H88V25H58V21L28 8L30 3L60 12ZM58 51H88V35H58V39L28 52L30 57L60 48Z"/>',
    "coil": '<path d="M30 4L40 56L52 11L62 49L73 17L82 43" fill="none" stroke="currentColor" stroke-width="5"/>',
    "angular": (
        '<path d="M36 2H84V7H62L48 14H36ZM36 58H84V53H62L48 46H36ZM36 27H84V14H72L58 22H36ZM36 33H84V46H72L58 38H36Z"/>'
        '<g fill="none" stroke="currentColor" stroke-width="2">'
        '<circle cx="60" cy="14.500" r="6"/><circle cx="60" cy="45.500" r="6"/></g>'
    ),
    "taper": (
        '<path d="M34 2H82V4L34 11ZM34 58H82V56L34 49ZM32 27H90V14H86V20L38 22V19H32ZM32 33H90V46H86V40L38 38V41H32Z"/>'
        '<g fill="none" stroke="currentColor" stroke-width="2">'
        '<path d="M40 12L84 5.500V18L40 19.500ZM40 48L84 54.500V42L40 40.500Z"/></g>'
    ),
    "spring": (
        '<path d="M36 5H90V26H82V12H36ZM36 55H90V34H82V48H36ZM82 20L50 23V27H90ZM82 40L50 37V33H90Z"/>'
        '<circle cx="50" cy="18" r="4"/><circle cx="50" cy="42" r="4"/>'
    ),
    "mark": '<path d="M50 7H92V53H50ZM44 18L22 30L44 42Z"/>',
}

_OWN = {
    "studs": "studs", "dome": "dome", "slots": "slots", "jaws": "slots", "set screw": "set-screw",
    "sharp edge": "sharp", "grooved face": "grooves", "seal face": "nose", "lapped face": "nose", "lip": "lip",
    "wide end": "coil", "wide face of the outer ring": "angular", "small end of the rollers": "taper",
    "spring side": "spring",
}  # fmt: skip
_DISHED = ("disc spring", "spring washer")


def shape_of(kind: str, feature: str) -> str:
    """Which outline shows a feature of a kind of part; an arrow for one that has none of its own."""
    # Loaded here: it needs mechanics, and most pages draw nothing.
    from stackcheck.drawing.shapes import CHAMFERS, FLANGES, HOLLOWS, STEPS

    if feature in _OWN:
        return _OWN[feature]
    if feature in HOLLOWS and kind in _DISHED:
        return "dish"
    shapes = {"flange": FLANGES, "step": STEPS, "hollow": HOLLOWS, "chamfer": CHAMFERS}
    return next((shape for shape, features in shapes.items() if feature in features), "mark")
