"""How much of a bearing's section each ring takes: against a maker's tables, read from an open package, and ISO 355."""

from __future__ import annotations

import csv
import importlib.util
from pathlib import Path
from statistics import mean

import pytest

from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.bodies import ring_section, ring_stiffness
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.ring_share import AT_NARROW_FACE, AT_WIDE_FACE, face_share, wall_share
from stackcheck.mechanics.unknowns import with_variants
from stackcheck.model.part import RING_BEARINGS, Amount
from stackcheck.value import replace
from tests.mechanics.small import nut_hub

SMALL_INSIDE_MM = {
    (20, 47): 37.304, (25, 52): 41.135, (30, 62): 49.990, (35, 72): 58.844, (40, 80): 65.730,
    (20, 42): 32.781, (25, 47): 37.393, (30, 55): 44.438, (15, 42): 33.272, (17, 47): 37.420, (20, 52): 41.318,
    (25, 62): 50.637, (30, 72): 58.287, (17, 40): 31.408, (35, 80): 65.769, (40, 90): 72.703,
}  # fmt: skip
"""E of the outer ring by bore and outside: ISO 355, series 302, 320 and 303 (from memory)."""


def catalogue(kind: str) -> list[dict[str, str]]:
    """SKF product tables (d, D, d1, d2, D1 and abutments), as bd-warehouse 0.4.0 carries them (read)."""
    spec = importlib.util.find_spec("bd_warehouse")
    if spec is None:
        pytest.skip("bd-warehouse is not installed in this test environment")
    file = Path(spec.submodule_search_locations[0]) / "data" / f"single_row_{kind}_bearing_parameters.csv"
    with open(file, encoding="utf-8-sig", newline="") as handle:
        return [{(name or "").strip(): value for name, value in row.items()} for row in csv.DictReader(handle)]


def shares(kind: str, column: str, ring: str, *, above_mm: float = 0.0) -> list[float]:
    found = []
    for row in catalogue(kind):
        if not row["SKT:d"] or float(row["SKT:d"]) < above_mm:
            continue
        bore, outside, at = float(row["SKT:d"]), float(row["SKT:D"]), float(row[f"SKT:{column}"])
        found.append(((at - bore) if ring == "inner" else (outside - at)) / (outside - bore))
    assert len(found) > 5
    return found


@pytest.mark.parametrize(
    ("kind", "ring", "at_wide", "table", "column", "outside_the_range"),
    [
        # Bores below 10 mm are drawn freely: a third of them has a thicker or thinner inner ring.
        ("ball bearing", "inner", True, "deep_groove_ball", "d1", 9),
        ("ball bearing", "outer", True, "deep_groove_ball", "D1", 1),
        ("angular bearing", "inner", False, "angular_contact_ball", "d1", 0),
        # One row of nine repeats d1 as its d2.
        ("angular bearing", "inner", True, "angular_contact_ball", "d2", 1),
        ("angular bearing", "outer", True, "angular_contact_ball", "D1", 0),
        ("taper bearing", "inner", False, "tapered_roller", "d1", 0),
        ("taper bearing", "inner", True, "tapered_roller", "da", 0),
        ("taper bearing", "outer", False, "tapered_roller", "Dbmin", 0),
    ],
)
def test_the_sizes_of_a_maker_lie_in_the_range_and_their_mean_near_the_usual_one(
    kind, ring, at_wide, table, column, outside_the_range
):
    share, found = face_share(kind, ring, at_wide), shares(table, column, ring)
    inside = [each for each in found if share.least - 0.005 <= each <= share.most + 0.005]
    assert len(found) - len(inside) == outside_the_range
    assert mean(inside) == pytest.approx(share.usual, abs=0.015)


def test_from_10_mm_of_bore_all_but_one_ball_bearing_lie_in_the_range():
    for ring, column in (("inner", "d1"), ("outer", "D1")):
        share = face_share("ball bearing", ring, None)
        inside = [share.least <= each <= share.most for each in shares("deep_groove_ball", column, ring, above_mm=10)]
        assert inside.count(False) <= 1


def test_the_outer_ring_of_a_taper_begins_at_its_small_inside_diameter_where_its_wide_face_looks():
    share = face_share("taper bearing", "outer", True)
    found = [(outside - small) / (outside - bore) for (bore, outside), small in SMALL_INSIDE_MM.items()]
    assert all(share.least <= each <= share.most for each in found)
    assert mean(found) == pytest.approx(share.usual, abs=0.015)


def test_every_kind_with_rings_has_its_shares_and_an_unknown_side_holds_both():
    assert set(AT_WIDE_FACE) == RING_BEARINGS
    for kind in RING_BEARINGS:
        for ring in ("inner", "outer"):
            either, wall = face_share(kind, ring, None), wall_share(kind, ring)
            for side in (AT_WIDE_FACE, AT_NARROW_FACE):
                own = side[kind][ring]
                assert either.least <= own.least <= own.usual <= own.most <= either.most
            assert either.least <= wall.least < wall.usual < wall.most <= either.most
        assert wall_share(kind, "inner").most + wall_share(kind, "outer").most < 1


def test_the_give_of_a_ring_and_the_place_where_it_ends_rest_on_the_same_share():
    bearing = next(part for part in nut_hub().parts if part.id == "bearing")
    widest, narrowest = ring_section(bearing, "outer")
    assert (widest, narrowest) == (47.0, pytest.approx(47 - 0.31 * 27))
    unknowns, stiff = with_variants(lambda u: ring_stiffness(u, bearing, "outer"))
    spanned = unknowns.spanned(stiff)
    assert spanned.main_cause == "thickness of the outer ring of the bearing"
    assert 0.85 < spanned.least / spanned.usual < 1 < spanned.most / spanned.usual < 1.15


def test_of_a_kind_whose_rings_are_not_known_the_answer_names_what_is_missing():
    """A needle bearing between a nut and its shoulder: nothing is guessed, and nothing breaks."""
    hub = nut_hub(kind="needle bearing")
    joint = replace(hub.joints[0], thread="M16x1.5", torque=Amount(text="60 N·m", dimension="torque", nominal=60e3))
    found = joint_forces(as_wanted(hub), joint)
    assert found.tension_n is not None
    assert found.loops[0].needs == (
        "how thick the rings of the bearing are: nothing is known of those of a needle bearing",
    )
