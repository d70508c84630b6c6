"""The other side of a machine bears the same: a mirror changes no share of a load across, and nothing that comes of it.

Usual values, at which nothing is drawn, agree to what rounding leaves. The ends of a range are drawn, by names that hold
those of the ends: they agree as well as that many independent draws tell them. An end that one draw in 40 lies past is
known, of n normal draws, to sqrt(q (1 - q)/n)/φ(1.96) standard deviations or 0.68/sqrt(n) of the width (order
statistics, elementary); two of them differ by 0.96/sqrt(n), and four times that is held here.
"""

from itertools import product

import pytest

from stackcheck.formats.library import Library
from stackcheck.mechanics import unknowns
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.load_across import LoadPoint, load_across
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.references.mirror import Mirror
from tests.strategies import LIBRARY

PAIRS = [
    Library(LIBRARY).reference(id) for id in ("bench-grinder/arbor", "boat-trailer/hub", "freight-tricycle/steering-head")
]
OF_THE_DRAWS = 4 * 0.96
OTHER = {"first": "second", "second": "first", "": ""}
PRELOAD = Spanned(usual=300.0, least=100.0, most=700.0)


def agree(one: list[Spanned], other: list[Spanned]) -> None:
    assert len(one) == len(other)
    for a, b in zip(one, other):
        assert b.usual == pytest.approx(a.usual, rel=1e-6, abs=1e-9)
        drawn = max(a.most - a.least, b.most - b.least) * OF_THE_DRAWS / unknowns.DRAWS**0.5
        assert (b.least, b.most) == pytest.approx((a.least, a.most), rel=1e-6, abs=drawn + 1e-9)


@pytest.mark.parametrize("one", PAIRS, ids=lambda each: each.id)
def test_the_other_side_shares_a_load_across_as_this_one_does(one, monkeypatch):
    """Drawn 10 000 times: a length that is counted twice from one side shows in the ends of a range alone."""
    monkeypatch.setattr(unknowns, "DRAWS", 10_000)
    mirror = Mirror(one)
    here, there = as_wanted(one), as_wanted(mirror.reference())
    told = 0
    for place, face in product(one.line, ("first", "second", "")):
        point = LoadPoint(text="here", place=place, face=face, along_mm=(3.0, 4.0, 4.5))
        turned = LoadPoint(text="there", place=mirror.names[place], face=OTHER[face], along_mm=(-4.5, -4.0, -3.0))
        a, b = load_across(here, 2000.0, point, PRELOAD), load_across(there, 2000.0, turned, PRELOAD)
        assert bool(a.needs) == bool(b.needs)
        if a.needs:
            continue
        told += 1
        agree([a.axial_n, a.span_mm], [b.axial_n, b.span_mm])
        for share, same in zip(a.shares, reversed(b.shares)):
            assert mirror.names[share.place] == same.place
            figures = [each for each in ("radial_n", "thrust_n", "static_n", "rating") if getattr(share, each) is not None]
            agree([getattr(share, each) for each in figures], [getattr(same, each) for each in figures])
            assert [len(getattr(share, each).causes) for each in figures] == [
                len(getattr(same, each).causes) for each in figures
            ]
    assert told
