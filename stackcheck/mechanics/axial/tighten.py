"""A bolted joint in two steps: tighten, then freeze the thread and let temperature, loads and settling come.

While a nut is turned to a torque it pulls with one force wherever the faces go, so the tension does not rise with the
length of the stack. Once it stands, bolt and stack are springs, and everything else changes the tension.
Source of the two steps: VDI 2230 part 1, joint diagram (from memory); the form on a network is worked out here.
"""

from __future__ import annotations

from collections.abc import Mapping

from stackcheck.mechanics.axial.laws import Element, bolt, tension
from stackcheck.mechanics.axial.network import Network, State, solve
from stackcheck.value import Value, replace

REFERENCE_C = 20.0
"""Lengths are given at 20 °C (ISO 1)."""


class Joint(Value, kw_only=True, eq=False):
    """A bolt or axle between the face under its head and that under its nut.

    `force` is its tension when tightened [N];
    `turned_deg` how far the nut is turned on from there, `pitch_mm` its thread.
    """

    name: str
    head: str
    nut: str
    force: object
    k: object
    turned_deg: object = 0.0
    pitch_mm: float = 0.0
    expansion_per_k: float = 0.0


class Warm(Value, kw_only=True):
    """How much warmer than 20 °C an element is [K] and how its material expands [1/K]."""

    kelvin: float
    expansion_per_k: float


def tightened(network: Network, joints: tuple[Joint, ...], start: Mapping[str, float] | None = None) -> State:
    """The state with every joint at its tension: the moment the wrench comes off.

    Raises:
        NetworkError: nothing opposes a joint, and others of `solve`.
    """
    return solve(with_tension(network, joints), start)


def with_tension(network: Network, joints: tuple[Joint, ...]) -> Network:
    """The network with every joint as a constant pair of forces."""
    pulled = [tension(joint.name, joint.head, joint.nut, force=joint.force) for joint in joints]
    return replace(network, elements=(*network.elements, *pulled))


def frozen(
    network: Network, joints: tuple[Joint, ...], at: State, *, warm: Mapping[str, Warm] | None = None,
    joint_kelvin: float = 0.0, settled_mm: float = 0.0,
) -> Network:  # fmt: skip
    """The network with its threads standing as they were tightened in `at`.

    L_b = e - F0/k_b - P·turned/360 + α e ΔT + settled;  L(T) = L (1 + α ΔT)

    Args:
        warm: what is warmer than 20 °C, by element name; the length of a body is its second value.
        joint_kelvin: how much warmer the bolts are [K].
        settled_mm: what the faces and the thread lose after tightening, all together [mm], not below 0.
    Raises:
        ValueError: colder than nothing.

    Source: joint diagram, VDI 2230 part 1 (from memory); lengths at 20 °C, ISO 1.
    """
    warm = warm or {}
    if joint_kelvin + REFERENCE_C < -273.15 or any(each.kelvin + REFERENCE_C < -273.15 for each in warm.values()):
        raise ValueError("a temperature lies below -273.15 °C")
    bolts = []
    for joint in joints:
        e = at.distance(joint.head, joint.nut)
        length = e - joint.force / joint.k - joint.pitch_mm * joint.turned_deg / 360
        length = length + joint.expansion_per_k * e * joint_kelvin + settled_mm
        bolts.append(bolt(joint.name, joint.head, joint.nut, length=length, k=joint.k))
    elements = [warmed(element, warm.get(element.name)) for element in network.elements]
    return replace(network, elements=(*elements, *bolts))


def warmed(element: Element, warm: Warm | None) -> Element:
    """A body at its own temperature."""
    if warm is None:
        return element
    length, *others = element.values
    return replace(element, values=(length * (1 + warm.expansion_per_k * warm.kelvin), *others))
