"""How warm each part is, and what that does inside a bearing.

A joint is tightened and a play is set while everything is as warm as it is put together, at 20 °C if nobody says; then
every part is brought to its own temperature. Lengths, given at 20 °C, grow by α L ΔT
(`stackcheck.mechanics.axial.tighten`). Between two rings that are not equally warm, or an outer ring in a seat of
another metal, the races grow by different amounts too: that changes the clearance of a ball bearing, and what it
changes across an angular or taper bearing it changes 1/(2 tan α) times as much along the axis.
Source: NSK, Rolling Bearings catalogue, 9.2.2, eq. 9.6 to 9.8 (clearance); the way along the axis is geometry.

Left out: heat that flows, and a seat that grows off its ring, which stops the ring from following it.
"""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.axial.bearings import axial_from_radial
from stackcheck.mechanics.axial.tighten import REFERENCE_C
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.expansion import EXPANSION_PER_K, expansion
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.model.state import ASSEMBLY, INNER, OUTER, State
from stackcheck.value import Value, replace

FOLLOWS = (0.0, 0.5, 1.0)
"""How much of the growth of its seat an outer ring takes on:
none where it lies loose, all where it is thin and tight; our own figures.
"""

FOLLOWS_IS = "an outer ring follows the growth of its seat not at all, half or wholly (our own figures)"
"""The default in words."""


class Heat(Value, kw_only=True):
    """The temperature of everything, and of what is named apart [°C]:
    a part's id, a place, or one of the names of `stackcheck.model.state`.

    `before` is how warm it was put together, None for all of it at 20 °C; `state` the name of the state, "" for none.
    """

    at_c: float = REFERENCE_C
    named: tuple[tuple[str, float], ...] = ()
    before: Heat | None = None
    state: str = ""

    def kelvin(self, *names: str | None) -> float:
        """How much warmer than 20 °C what goes by these names is [K], the first that is told apart."""
        told = dict(self.named)
        return next((told[name] for name in names if name in told), self.at_c) - REFERENCE_C

    @property
    def together(self) -> Heat:
        """How warm it was put together."""
        return self.before or COLD

    @property
    def is_warm(self) -> bool:
        """Whether anything is warmer or colder now than when it was put together."""
        names = [name for name, _ in (*self.named, *self.together.named)]
        return self.at_c != self.together.at_c or any(self.kelvin(it) != self.together.kelvin(it) for it in names)

    @property
    def is_grown(self) -> bool:
        """Whether anything has another length than that at 20 °C."""
        return any(at_c != REFERENCE_C for at_c in (self.at_c, *(at for _, at in self.named)))

    def ring(self, part: Part, place: str | None, ring: str) -> float:
        """How much warmer than 20 °C one ring of a bearing is [K]; `ring` is "inner" or "outer"."""
        return self.kelvin(place, part.id, INNER if ring == "inner" else OUTER)


COLD = Heat()


def heat_of(state: State, before: Heat | None = None) -> Heat:
    """How warm it is in a state, put together at `before`."""
    named = tuple((name, amount.nominal) for name, amount in state.apart)
    return Heat(at_c=state.temperature.nominal, named=named, before=before, state=state.name)


def put_together(reference: Reference) -> Heat:
    """How warm a reference is put together: by its state of that name, else all of it at 20 °C."""
    told = next((state for state in reference.states if state.name == ASSEMBLY), None)
    if told is None:
        return COLD
    own = heat_of(told)
    return replace(own, before=own)


def heat_in(reference: Reference, name: str) -> Heat:
    """How warm it is in the state of this name."""
    together = put_together(reference)
    if name == ASSEMBLY:
        return replace(together, state=ASSEMBLY)
    return heat_of(next(state for state in reference.states if state.name == name), together.before)


def race_diameter(part: Part) -> float:
    """Diameter of the outer race [mm]: (4D + d)/5 of a ball bearing, (3D + d)/4 of one with rollers.

    Source: NSK, Rolling Bearings catalogue, eq. 9.7 and 9.8.
    """
    bore, outside = part.size("bore").nominal_mm, part.size("outside").nominal_mm
    return (3 * outside + bore) / 4 if part.kind == "taper bearing" else (4 * outside + bore) / 5


def clearance_growth(
    *, race_mm: float, inner_kelvin: float, outer_grows: Any, expansion_per_k: float = EXPANSION_PER_K["steel"]
) -> Any:
    """How much the radial clearance grows when the rings are not equally warm [mm]: D_e (ε_o - α ΔT_i).

    Args:
        race_mm: diameter of the outer race [mm].
        inner_kelvin: how much warmer than 20 °C inner ring and balls are [K].
        outer_grows: share by which the outer race grows, α ΔT of its own where no seat draws it along.
        expansion_per_k: linear expansion of the inner ring [1/K].

    Source: NSK, Rolling Bearings catalogue, eq. 9.6: α ΔT D_e.

    >>> round(clearance_growth(race_mm=41.6, inner_kelvin=10.0, outer_grows=0.0, expansion_per_k=12.5e-6), 4)
    -0.0052
    """
    return race_mm * (outer_grows - expansion_per_k * inner_kelvin)


def outer_growth(unknowns: Unknowns, part: Part, place: str, seat: Part | None, heat: Heat) -> Any:
    """Share by which an outer race grows: its own α ΔT,
    or that of the part it is seated in as far as it follows that.
    """
    own = EXPANSION_PER_K["steel"] * heat.ring(part, place, "outer")
    theirs = own if seat is None else expansion(seat) * heat.kelvin(seat.id)
    if theirs == own:
        return own
    return own + unknowns.value("share of its seat's growth that an outer ring follows", *FOLLOWS) * (theirs - own)


def along(clearance_mm: Any, contact_deg: Any) -> Any:
    """What a change of clearance is along the axis of an angular or taper bearing [mm]: Δd/(2 tan α).

    Args:
        clearance_mm: change of clearance across, Δd [mm], of either sign; a number or an array.
        contact_deg: contact angle [degrees], above 0, below 90; a number or an array.
    Source: geometry, as `stackcheck.mechanics.axial.bearings.axial_from_radial`.

    >>> round(float(along(0.010, 15.0)), 4)
    0.0187
    """
    import numpy as np

    return np.vectorize(lambda radial, angle: axial_from_radial(radial_mm=radial, contact_deg=angle))(
        clearance_mm, contact_deg
    )
