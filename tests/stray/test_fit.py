"""Does it go over the shaft, into the bore, through the seal? A verdict of its own, whatever the part is."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.stray.fit import fits
from stackcheck.stray.seen import Stray, Taken
from tests.builders import reference

SIZES = {
    "axle": {"seat": (20.0, 19.98, 19.993), "shoulder": (26.0, 25.9, 26.1)}, "hub": {"seat": (47.0, 46.97, 46.99)},
    "seal": {"bore": (30.0, 29.8, 30.2)}, "clip": {"groove_width": (1.3, 1.3, 1.44)},
}  # fmt: skip
HUB = reference("hub! seal axle clip", sizes=SIZES, kinds={"clip": "circlip"})


def verdicts(u=0.005, **sizes):
    taken = tuple(Taken(name=name, text="", value_mm=value, u_mm=u, how="micrometer") for name, value in sizes.items())
    return {fit.does: fit.verdict for fit in fits(Stray(what="ring", taken=taken), HUB)}


@pytest.mark.parametrize(
    ("sizes", "question", "verdict"),
    [
        ({"bore": 20.1}, "goes over", "does"), ({"bore": 19.9}, "goes over", "does not"), ({"bore": 19.99}, "goes over", "cannot tell"),
        ({"bore": 20.1}, "stands against the shoulder of", "does"), ({"bore": 27.0}, "stands against the shoulder of", "does not"),
        ({"outside": 46.5}, "enters the bore of", "does"), ({"outside": 47.2}, "enters the bore of", "does not"),
        ({"outside": 29.0}, "goes through the lip of", "does"), ({"outside": 31.0}, "goes through the lip of", "does not"),
        ({"length": 1.2}, "goes into the groove of", "does"), ({"length": 1.6}, "goes into the groove of", "does not"),
    ],
)  # fmt: skip
def test_each_question_is_answered_by_its_own_size(sizes, question, verdict):
    assert verdicts(**sizes)[question] == verdict


def test_the_same_reading_by_a_coarse_tool_cannot_tell():
    assert verdicts(bore=20.03, u=0.005)["goes over"] == "does"
    assert verdicts(bore=20.03, u=0.05)["goes over"] == "cannot tell"


def test_what_was_not_measured_asks_nothing():
    assert verdicts() == {}


@given(st.floats(19, 21), st.floats(0.003, 0.5))
def test_a_coarser_tool_never_turns_does_into_does_not(bore, u):
    pair = {verdicts(bore=bore, u=u).get("goes over"), verdicts(bore=bore, u=3 * u).get("goes over")}
    assert pair != {"does", "does not"}


def test_a_ring_that_rattles_says_nothing_of_where_it_belongs():
    """A shim of 28 goes into every barrel of 47, and a large washer over every axle."""
    taken = tuple(
        Taken(name=name, text="", value_mm=value, u_mm=0.005, how="micrometer")
        for name, value in {"bore": 25.2, "outside": 28.0}.items()
    )
    silent = {fit.does: fit.says_nothing for fit in fits(Stray(what="ring", taken=taken), HUB)}
    assert silent == {
        "goes over": True,
        "stands against the shoulder of": False,
        "enters the bore of": True,
        "goes through the lip of": False,
    }


def test_only_a_circlip_is_tried_in_the_groove_of_a_circlip():
    taken = (Taken(name="length", text="", value_mm=1.2, u_mm=0.005, how="micrometer"),)
    assert [fits(Stray(what="", kind=kind, taken=taken), HUB) == () for kind in ("plate", "washer", "circlip", "")] == [
        True,
        True,
        False,
        False,
    ]
