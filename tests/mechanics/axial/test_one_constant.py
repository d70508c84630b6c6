"""Why no constant c stands for a deep-groove bearing: its contact angle grows with the load."""

from math import asin, degrees, sqrt

import pytest

from stackcheck.mechanics.axial.bearings import cos_free_angle, estimated_deep_groove
from stackcheck.mechanics.axial.laws import PLAIN, groove

INSIDE = estimated_deep_groove(bore_mm=20, outside_mm=47)
A = INSIDE.groove_distance_mm
COS_FREE = cos_free_angle(groove_distance_mm=A, radial_clearance_mm=0.010)
SIN_FREE = sqrt(1 - COS_FREE**2)


@pytest.mark.parametrize("zk", [1.0, 3e5])
@pytest.mark.parametrize(
    "past_mm, ratio, angle", [(0.01, 1.35, 13), (0.02, 1.74, 15), (0.05, 3.2, 21), (0.10, 6.4, 29)]
)
def test_the_true_force_is_several_times_that_of_a_constant_taken_at_first_contact(past_mm, ratio, angle, zk):
    """Worked by hand for 20x47x14 with a clearance of 0.010; the ratio depends on neither Z nor K_n."""
    moved = A * SIN_FREE + past_mm
    force, _ = groove(moved, 0.0, A, COS_FREE, zk, PLAIN)
    constant = zk * SIN_FREE**2.5 * past_mm**1.5
    assert force / constant == pytest.approx(ratio, rel=0.01)
    assert degrees(asin(moved / sqrt(moved**2 + (A * COS_FREE) ** 2))) == pytest.approx(angle, abs=0.5)
