"""The other side of a machine bears the same: a mirror changes no force, no play, no gap and no share of a load.

Usual values, at which nothing is drawn, agree to what rounding leaves. The ends of a range are drawn, by names that hold
those of the ends: they agree as well as that many independent draws tell them. An end that one draw in 40 lies past is
known, of n normal draws, to sqrt(q (1 - q)/n)/φ(1.96) standard deviations or 0.68/sqrt(n) of the width (order
statistics, elementary); two of them differ by 0.96/sqrt(n), and four times that is held here.
"""

from itertools import product

import msgspec
import pytest

from stackcheck.formats.library import Library
from stackcheck.mechanics import unknowns
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.heat import heat_in
from stackcheck.mechanics.load_across import LoadPoint, load_across
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.references.mirror import Mirror
from stackcheck.result.forces import all_forces
from tests.strategies import LIBRARY

FLEET = [Library(LIBRARY).reference(id) for id in Library(LIBRARY).files]
PAIRS = [
    Library(LIBRARY).reference(id)
    for id in ("bench-grinder/arbor", "boat-trailer/hub", "freight-tricycle/steering-head")
]
BY_GAUGE = {"float_slides", "float_held"}
"""Left out: an end float under the gauge force is read at the first face of the outer member against the first end of the
axle, and what gives between that end and the bearings, less on one side than on the other, moves with it.
"""
OF_THE_DRAWS = 4 * 0.96
OTHER = {"first": "second", "second": "first", "": ""}
PRELOAD = Spanned(usual=300.0, least=100.0, most=700.0)


def ranges(value) -> list[Spanned]:
    """Every range in an answer, the same ones side by side whatever their sequence was."""
    if isinstance(value, Spanned):
        return [value]
    inside = value if isinstance(value, tuple) else ()
    if isinstance(value, msgspec.Struct):
        inside = [getattr(value, name) for name in value.__struct_fields__ if name not in BY_GAUGE]
    told = [each for member in inside for each in ranges(member)]
    return sorted(told, key=lambda each: (float(f"{each.usual:.6g}"), each.most - each.least))


def agree(one: list[Spanned], other: list[Spanned]) -> None:
    assert len(one) == len(other)
    for a, b in zip(one, other):
        assert b.usual == pytest.approx(a.usual, rel=1e-6, abs=1e-9)
        drawn = max(a.most - a.least, b.most - b.least) * OF_THE_DRAWS / unknowns.DRAWS**0.5
        assert (b.least, b.most) == pytest.approx((a.least, a.most), rel=1e-6, abs=drawn + 1e-9)


@pytest.mark.parametrize("one", FLEET, ids=lambda each: each.id)
def test_the_other_side_has_the_same_forces_and_plays_in_every_state(one):
    other = Mirror(one).reference()
    for name in ("", *(state.name for state in one.states)):
        here, there = (all_forces(each, None, heat=heat_in(each, name) if name else None) for each in (one, other))
        for kind in ("joints", "set_gaps", "warm_gaps", "supports", "discs", "coils"):
            agree(ranges(getattr(here, kind)), ranges(getattr(there, kind)))


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
            figures = [
                each for each in ("radial_n", "thrust_n", "static_n", "rating") if getattr(share, each) is not None
            ]
            agree([getattr(share, each) for each in figures], [getattr(same, each) for each in figures])
            assert [len(getattr(share, each).causes) for each in figures] == [
                len(getattr(same, each).causes) for each in figures
            ]
    assert told
