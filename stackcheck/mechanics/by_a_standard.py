"""A length found by its difference to a block of known size, both a little warmer or colder than 20 °C.

The block and the part lie side by side and one reading is taken off the other, so that the deviation of the gauge drops
out. Lengths are wanted at 20 °C; what the room is off matters only so far as the two expand differently or are not
equally warm, and that is what usually weighs most beside the block itself.
"""

from __future__ import annotations

from math import hypot, inf

from stackcheck.mechanics.budget import Budget, Influence, Quantity
from stackcheck.value import Value


class LengthByStandard(Value, kw_only=True):
    """A length at 20 °C and all that it hangs on, in the unit of the block."""

    length: float
    budget: Budget


def length_by_a_standard(
    *,
    standard: Quantity,
    difference: Quantity,
    expansion_per_k: Quantity,
    expansion_differs_per_k: Quantity,
    warmer_k: Quantity,
    warmth_differs_k: Quantity,
    second_order: bool = False,
) -> LengthByStandard:
    """The length of a part by its difference to a block of known size.

    l = l_s + d - l_s · (δα · θ + α_s · δθ)

    Args:
        standard: size of the block at 20 °C, l_s [any unit of length].
        difference: part less block as read, d [same unit].
        expansion_per_k: expansion of the block, α_s [1/K].
        expansion_differs_per_k: expansion of the part less that of the block, δα [1/K].
        warmer_k: how much warmer than 20 °C the part is, θ [K].
        warmth_differs_k: how much warmer the part is than the block, δθ [K].
        second_order: also count l_s · u(δα) · u(θ) and l_s · u(α_s) · u(δθ),
            which weigh where δα and δθ are near nothing.
    Source: JCGM 100:2008, H.1.1 to H.1.4, equation (H.3); second order: H.1.7.

    >>> answer = length_by_a_standard(
    ...     standard=Quantity(value=50.0, uncertainty=0.0005), difference=Quantity(value=8.0, uncertainty=0.001),
    ...     expansion_per_k=Quantity(value=11.5e-6), expansion_differs_per_k=Quantity(value=0.0, uncertainty=1e-6),
    ...     warmer_k=Quantity(value=5.0), warmth_differs_k=Quantity(value=0.0, uncertainty=1.0))
    >>> answer.length, round(answer.budget.uncertainty, 5)  # by hand: √(0.0005² + 0.001² + 0.00025² + 0.000575²)
    (58.0, 0.00128)
    """
    size = standard.value
    heat = expansion_differs_per_k.value * warmer_k.value + expansion_per_k.value * warmth_differs_k.value
    influences = [
        standard.influence("size of the block", 1 - heat),
        difference.influence("difference as read"),
        expansion_per_k.influence("expansion of the block", -size * warmth_differs_k.value),
        warmer_k.influence("temperature of the room", -size * expansion_differs_per_k.value),
        expansion_differs_per_k.influence("expansion differs", -size * warmer_k.value),
        warmth_differs_k.influence("one warmer than the other", -size * expansion_per_k.value),
    ]
    if second_order:
        both = hypot(
            expansion_differs_per_k.uncertainty * warmer_k.uncertainty,
            expansion_per_k.uncertainty * warmth_differs_k.uncertainty,
        )
        influences.append(Influence(name="second order", uncertainty=both, sensitivity=size, degrees_of_freedom=inf))
    return LengthByStandard(length=size + difference.value - size * heat, budget=Budget(tuple(influences)))
