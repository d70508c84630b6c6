"""Books of a whole machine: one event is told once, and one piece fills one place."""

from stackcheck.model.finding import DifferentPart, Explanation, Extra, Missing
from stackcheck.model.found import Entry, Found
from stackcheck.model.part import Reading
from stackcheck.stray.bench import Assembly, Bench
from stackcheck.stray.books import stories
from tests.builders import reference

SIZES = {
    "washer": {"bore": (17.0, 17.0, 17.27), "outside": (30.0, 29.48, 30.0), "length": (3.0, 2.7, 3.3)},
    "shim": {"bore": (35.0, 35.0, 35.2), "outside": (45.0, 44.8, 45.0), "length": (0.5, 0.49, 0.51)},
    "collar": {"bore": (20.0, 20.0, 20.03), "outside": (30.0, 29.9, 30.1), "length": (18.0, 17.95, 18.05)},
    "spacer": {"bore": (20.0, 20.0, 20.03), "outside": (30.0, 29.9, 30.1), "length": (22.0, 21.95, 22.05)},
}
HUB = reference("leg! washer collar bearing", sizes=SIZES)
SHAFT = reference("web! shim spacer bearing", sizes=SIZES, kinds={"spacer": "collar"})


def named(own, name):
    from stackcheck.value import replace

    return replace(own, id=name)


def entry(number, kind, **sizes):
    return Entry(
        number=number, what=kind, kind=kind,
        sizes=tuple((name, Reading(text=f"{v:.2f}", value_mm=v, good_to_mm=0.01, how="micrometer" if name != "bore" else "calliper", step_mm=0.01)) for name, v in sizes.items()),
    )  # fmt: skip


SHIM = {"bore": 35.1, "outside": 44.9, "length": 0.5}


def assembly(own, name, findings, *entries):
    own = named(own, name)
    found = Found(reference=name, revision=own.revision, entries=entries)
    return Assembly(reference=own, found=found, explanation=Explanation(findings=findings, notes=(), line=(), price=0))


def told(*assemblies):
    return [
        (
            story.kind,
            tuple((s.home_list, s.entry) for s in story.strays),
            tuple((p.reference, p.place) for p in story.places),
        )
        for story in stories(Bench(assemblies=assemblies))
    ]


def test_missing_there_and_too_many_here_is_one_story():
    hub = assembly(HUB, "m/hub", (Extra(entries=(1,), loose=True),), entry(1, "shim ring", **SHIM))
    shaft = assembly(SHAFT, "m/shaft", (Missing(places=("shim",)),))
    assert told(hub, shaft) == [("one slip", (("m/hub", 1),), (("m/shaft", "shim"),))]


def test_one_stray_cannot_fill_two_holes():
    hub = assembly(HUB, "m/hub", (Extra(entries=(1,), loose=True),), entry(1, "shim ring", **SHIM))
    holes = [assembly(SHAFT, f"m/{name}", (Missing(places=("shim",)),)) for name in ("one", "two")]
    kinds = sorted(kind for kind, _, _ in told(hub, *holes))
    assert kinds == ["lost", "one slip"]


def test_of_two_equal_strays_against_one_hole_one_has_no_home():
    entries = (entry(1, "shim ring", **SHIM), entry(2, "shim ring", **SHIM))
    hub = assembly(HUB, "m/hub", (Extra(entries=(1,), loose=True), Extra(entries=(2,), loose=True)), *entries)
    shaft = assembly(SHAFT, "m/shaft", (Missing(places=("shim",)),))
    assert sorted(kind for kind, _, _ in told(hub, shaft)) == ["no home", "one slip"]


def test_a_stray_that_does_not_suit_the_hole_leaves_both_unexplained():
    hub = assembly(HUB, "m/hub", (Extra(entries=(1,)),), entry(1, "washer", bore=17.1, outside=29.8, length=3.0))
    shaft = assembly(SHAFT, "m/shaft", (Missing(places=("shim",)),))
    assert sorted(kind for kind, _, _ in told(hub, shaft)) == ["lost", "no home"]


def test_two_crossed_pairs_are_one_swap():
    """The collar of the hub stands on the shaft, and that of the shaft in the hub: one slip, not two."""
    long, short = {"bore": 20.01, "outside": 30.0, "length": 22.0}, {"bore": 20.01, "outside": 30.0, "length": 18.0}
    hub = assembly(HUB, "m/hub", (DifferentPart(places=("collar",), entries=(1,)),), entry(1, "collar", **long))
    shaft = assembly(SHAFT, "m/shaft", (DifferentPart(places=("spacer",), entries=(1,)),), entry(1, "collar", **short))
    assert [kind for kind, _, _ in told(hub, shaft)] == ["swap"]


def test_a_ring_of_a_bearing_is_charged_to_its_parent():
    sizes = SIZES | {
        "bearing": {"bore": (20.0, 19.99, 20.0), "outside": (47.0, 46.989, 47.0), "length": (14.0, 13.88, 14.0)}
    }
    hub = reference("leg! collar bearing", sizes=sizes, kinds={"bearing": "ball bearing"})
    ring = entry(1, "ring", bore=20.0, outside=27.5, length=13.95)
    assert told(assembly(hub, "m/hub", (Extra(entries=(1,), loose=True),), ring)) == [
        ("piece", (("m/hub", 1),), (("m/hub", ""),))
    ]


def test_nothing_open_tells_nothing():
    assert told() == []
