"""Small references with lengths, for sums that can be worked by hand, and the same seen from the other side."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from stackcheck.model.finding import Explanation, Finding, Standing
from stackcheck.model.limits import Limit
from stackcheck.model.part import Duty
from stackcheck.model.reference import Gap, Joint, Reference
from stackcheck.value import replace
from tests.builders import reference

HUB_SIZES = {
    "collar-short": {"length": (18.0, 17.95, 18.05), "bore": (20.0,), "outside": (30.0,)},
    "collar-long": {"length": (22.0, 21.95, 22.05), "bore": (20.0,), "outside": (30.0,)},
    "bearing": {"length": (14.0, 13.88, 14.0), "bore": (20.0,), "outside": (47.0,)},
    "spacer": {"length": (58.0, 57.98, 58.02), "bore": (20.2,), "outside": (28.0,)},
    "hub": {"length": (57.95, 57.93, 57.97), "bore": (40.0,), "outside": (60.0,)},
    "fork": {"length": (129.2, 129.0, 129.4)},
    "seal": {"length": (7.0, 6.8, 7.2), "bore": (30.0,), "outside": (47.0,)},
}
SEAT_GAP = Limit(what="seat gap", between=("hub", "bearing@right"), least_mm=0.0, most_mm=0.1, source="the bench")
FREE_GAP = Gap(name="free gap", least_mm=2.5, most_mm=4.0, source="the bench")


def axle_hub(**sizes) -> Reference:
    """A hub between two legs on a through axle: two bearings, seat gap 0.05 inside 0 to 0.1, free gap 3.2 inside 2.5 to 4.0."""
    plain = reference(
        "nut leg@left! collar-short< bearing@left spacer bearing@right collar-long> leg@right!",
        "seal@left> bearing@left hub! bearing@right seal@right<",
        "leg@left! fork! leg@right!",
        sizes={"nut": {"length": (10.8, 10.6, 11.0)}} | HUB_SIZES | sizes,
    )
    axle, seats, fork = plain.stacks
    axle = replace(axle, name="axle stack", through="inner rings", items=(*axle.items[:-1], FREE_GAP, axle.items[-1]))
    seats = replace(seats, name="hub stack", through="outer rings")
    return watched(replace(plain, stacks=(axle, seats, replace(fork, name="fork")), limits=(SEAT_GAP,)), "hub")


NUT = Joint(name="axle nut", clamps=("leg@left", "collar-long"))
CLEARANCE = (0.018, 0.013, 0.028)  # C3 at 20 bore, NSK catalogue, Table 9.9


def nut_hub(*, kind: str = "ball bearing", facings: tuple[str, str] = ("", ""), **sizes):
    """The hub with its nut, and bearings of a kind; facings "first" or "second" for those of one direction."""
    plain = axle_hub(bearing=HUB_SIZES["bearing"] | {"radial_clearance": CLEARANCE}, **sizes)
    parts = tuple(replace(part, kind=kind) if part.id == "bearing" else part for part in plain.parts)
    faces = dict(zip(("bearing@left", "bearing@right"), facings))
    places = tuple(replace(place, facing=faces.get(place.name, place.facing)) for place in plain.places)
    return replace(plain, parts=parts, places=places, joints=(NUT,))


def watched(reference: Reference, *parts: str) -> Reference:
    """The same, with parts of which it matters where they stand."""
    return with_duty(reference, "watch", *parts)


def with_duty(reference: Reference, duty: str, *parts: str) -> Reference:
    return replace(
        reference,
        parts=tuple(
            replace(part, duties=(*part.duties, Duty(name=duty))) if part.id in parts else part
            for part in reference.parts
        ),
    )


def mirrored(reference: Reference) -> Reference:
    """The same assembly described by somebody at the other side: ends exchanged, every stack reversed."""
    other = {"first": "second", "second": "first", "": ""}
    return replace(
        reference,
        ends=reference.ends[::-1],
        places=tuple(replace(place, facing=other[place.facing]) for place in reversed(reference.places)),
        stacks=tuple(replace(stack, items=stack.items[::-1]) for stack in reference.stacks),
    )


def explained(
    reference: Reference, *findings: Finding, line: tuple[Standing, ...] | None = None, entries=None
) -> Explanation:
    """An explanation by hand; `entries` names which entry stands in which place."""
    if line is None:
        line = tuple(
            Standing(part=place.part, home=place.name, count=place.count, entry=(entries or {}).get(place.name))
            for place in map(reference.place, reference.line)
        )
    return Explanation(findings=findings, notes=(), line=line, price=0)


def row(lengths: list[tuple[float, float, float]], *, fixed: int | None = None) -> Reference:
    """Rings one behind the other, the ring at `fixed` staying on the machine, each with nominal, least and most length."""
    line = " ".join(f"ring-{number}{'!' if number == fixed else ''}" for number, _ in enumerate(lengths))
    return reference(line, sizes={f"ring-{number}": {"length": limits} for number, limits in enumerate(lengths)})


@st.composite
def limits(draw) -> tuple[float, float, float]:
    """Nominal, least and most in 64ths of a millimetre, so that sums of them are exact in binary arithmetic."""
    nominal, below, above = (draw(st.integers(low, high)) for low, high in ((64, 6400), (0, 16), (0, 16)))
    return float(Fraction(nominal, 64)), float(Fraction(nominal - below, 64)), float(Fraction(nominal + above, 64))


def rows(least: int = 3, most: int = 7) -> st.SearchStrategy[list[tuple[float, float, float]]]:
    return st.lists(limits(), min_size=least, max_size=most)
