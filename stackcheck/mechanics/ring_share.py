"""How much of the section of a bearing belongs to each ring: where a ring ends at its face, and how thick it is.

Shares are of outside less bore, D - d, in diameter: the inner ring ends at d + share (D - d), the outer one begins at
D - share (D - d). A bearing of one direction has a thick and a thin face on each ring: where the wide face of the outer
ring looks, the inner ring is narrow, and the other way round. Every share is a range over one maker's sizes.
Left out: the recess for a seal (about 0.21 of the outer ring is left there), the groove that thins a ring inside its
width, and that the faces of the two rings of a taper bearing do not lie in one plane.
Source: SKF, product tables (d1, d2, D1 of 31 deep groove and 9 angular bearings, d1 and the abutments of 27 taper
bearings), which `tests/mechanics/test_ring_share.py` reads; the wide face of the outer ring of a taper bearing by the
small inside diameter E of ISO 355 (16 sizes, from memory).
"""

from __future__ import annotations

from stackcheck.value import Value

INNER, OUTER = "inner", "outer"


class Share(Value, kw_only=True):
    """A share of outside less bore, from its least over makers' sizes to its most."""

    least: float
    usual: float
    most: float


def _of(least: float, usual: float, most: float) -> Share:
    return Share(least=least, usual=usual, most=most)


AT_WIDE_FACE = {
    "ball bearing": {INNER: _of(0.27, 0.32, 0.37), OUTER: _of(0.26, 0.31, 0.36)},
    "angular bearing": {INNER: _of(0.19, 0.21, 0.24), OUTER: _of(0.34, 0.36, 0.39)},
    "taper bearing": {INNER: _of(0.16, 0.22, 0.29), OUTER: _of(0.30, 0.36, 0.44)},
}
"""By kind and ring, on the side that the wide face of the outer ring looks to; a ball bearing is the same on both."""

AT_NARROW_FACE = AT_WIDE_FACE | {
    "angular bearing": {INNER: _of(0.38, 0.40, 0.42), OUTER: _of(0.12, 0.18, 0.25)},
    "taper bearing": {INNER: _of(0.43, 0.50, 0.62), OUTER: _of(0.06, 0.13, 0.17)},
}
"""The same on the other side. The outer rings by the abutments of the tables: nothing is said of their bore there."""


def face_share(kind: str, ring: str, at_wide: bool | None) -> Share:
    """Where a ring ends at one side of a bearing; `at_wide` whether the wide face of the outer ring looks there,
    None where nobody says: then from the thin face to the thick one.

    >>> face_share("taper bearing", "outer", False).usual, face_share("taper bearing", "outer", None).most
    (0.13, 0.44)
    """
    wide, narrow = AT_WIDE_FACE[kind][ring], AT_NARROW_FACE[kind][ring]
    if at_wide is None:
        return _of(min(wide.least, narrow.least), (wide.usual + narrow.usual) / 2, max(wide.most, narrow.most))
    return wide if at_wide else narrow


def wall_share(kind: str, ring: str) -> Share:
    """How thick a ring is over its whole width: midway between its two faces.

    >>> round(wall_share("taper bearing", "outer").usual, 3)
    0.245
    """
    wide, narrow = AT_WIDE_FACE[kind][ring], AT_NARROW_FACE[kind][ring]
    return _of((wide.least + narrow.least) / 2, (wide.usual + narrow.usual) / 2, (wide.most + narrow.most) / 2)
