"""One part explained: substitute or worn original, duties counted in, and what its absence does."""

from pathlib import Path

from stackcheck.formats.found_file import read_found
from stackcheck.model.finding import DifferentPart, Explanation, Missing
from stackcheck.model.found import Entry, Found
from stackcheck.stray.bench import Assembly, Bench, compared
from stackcheck.stray.explain import explain
from stackcheck.stray.seen import Stray, Taken, stray_of
from tests.stray.simulation import LIBRARY

EXAMPLES = Path(__file__).parents[2] / "examples"
HUB = LIBRARY.reference("freight-tricycle/front-hub")
PINION = LIBRARY.reference("orchard-tractor/pinion-shaft")
REAR = LIBRARY.reference("freight-tricycle/rear-hub")


def bench(reference, *findings, entries=()):
    found = Found(reference=reference.id, revision=reference.revision, entries=entries)
    own = Assembly(
        reference=reference, found=found, explanation=Explanation(findings=findings, notes=(), line=(), price=0)
    )
    return Bench(assemblies=(own,))


def part(kind, bore, outside, length, **more):
    sizes = {"bore": bore, "outside": outside, "length": length}
    taken = tuple(
        Taken(name=name, text="", value_mm=value, u_mm=0.03 if name == "bore" else 0.005, how="")
        for name, value in sizes.items()
    )
    return Stray(what=kind, kind=kind, taken=taken, **more)


def test_a_washer_where_the_collar_should_be_has_a_standard_identity_and_stands_in_for_it():
    """Two questions, two answers: it is a plain washer, and it is here for want of a collar."""
    entry = Entry(number=1, what="washer")
    own = bench(HUB, DifferentPart(places=("collar-short@left",), entries=(1,)), entries=(entry,))
    answer = explain(part("washer", 21.1, 36.8, 3.0, entry=1, home_list=HUB.id), own)
    assert "ISO 7089 M20" in answer.object.named[0].names
    thin = explain(part("collar", 20.2, 30.0, 13.1, entry=1, home_list=HUB.id), own)
    assert thin.origin.named[0].origin.kind == "substitute"


def test_a_stand_in_that_differs_only_by_wear_may_be_the_worn_original():
    own = bench(HUB, Missing(places=("collar-short@left",)))
    worn = explain(part("collar", 20.3, 29.9, 17.0, home_list=HUB.id), own)
    assert worn.worn_original is not None
    thick = explain(part("collar", 20.3, 29.9, 19.0, home_list=HUB.id), own)
    assert thick.worn_original is None


def test_one_ring_missing_of_three_takes_away_one_ring():
    own = bench(PINION, Missing(places=("preload-shim",)))
    answer = explain(part("shim ring", 35.1, 44.9, 0.5, home_list=PINION.id), own)
    (change,) = answer.without.changes
    assert change.change.nominal_mm == -0.5


def test_a_part_that_retains_something_is_counted_in():
    """It may carry no load and still be what keeps the wheel on."""
    answer = explain(part("tab washer", 20.3, 34.0, 4.0), Bench(assemblies=(Assembly(reference=REAR),)))
    assert len(answer.keeps) == 1


def test_used_parts_are_seldom_of_a_newly_built_assembly():
    own = bench(PINION, Missing(places=("preload-shim",)))
    shares = []
    for built in ("", "new"):
        answer = explain(
            part("shim ring", 35.1, 44.9, 0.5, home_list=PINION.id, conditions=("used",)),
            Bench(assemblies=own.assemblies, built=built),
        )
        shares.append(next(reason.share for reason in answer.origin.ranked if reason.origin.kind == "here"))
    assert shares[1] < shares[0]


def test_a_third_gasket_of_two_is_not_missed_without_it():
    """Its place holds two by itself: taken out, nothing is lacking."""
    found, reference = read_found(EXAMPLES / "32-pump-third-gasket.toml", LIBRARY.reference)
    own = compared(reference, found)
    assert not own.is_needed(3) and own.lacking(3) == ()
    answer = explain(stray_of(found.entry(3), reference.id, "gasket"), Bench(assemblies=(own,)))
    assert all(reason.origin.kind != "here" for reason in answer.origin.named)
    assert answer.doing.left_out is None
