"""What heat does to a gap that no force closes: by hand, and what cannot change it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.cli import main
from stackcheck.compare import explanations
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_believed, as_wanted
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.warm_gaps import warm_gaps

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")
PUMP = as_wanted(LIBRARY.reference("bilge-pump/shaft-bearings"))
WET_END = as_wanted(LIBRARY.reference("bilge-pump/seal-and-impeller"))


def wider(arrangement, heat: Heat) -> dict[str, float]:
    return {each.gap: each.wider_mm for each in warm_gaps(arrangement, heat)}


def test_a_shaft_warmer_than_its_bracket_moves_the_sliding_bearing():
    """120 mm of steel, 40 K: 0.0552."""
    assert wider(PUMP, Heat(named=(("shaft", 60.0),)))["room of the floating bearing"] == pytest.approx(
        120 * 11.5e-6 * 40
    )
    assert wider(PUMP, Heat(named=(("bracket", 60.0),)))["room of the floating bearing"] == pytest.approx(
        -118 * 11.5e-6 * 40
    )


def test_a_brass_impeller_comes_nearer_to_its_wear_plate():
    """Casing and gasket 90.45 of steel, less 48.5 of steel and 41.5 of brass, all 40 K warmer."""
    by_hand = (90.45 * 11.5e-6 - 48.5 * 11.5e-6 - 41.5 * 19e-6) * 40
    assert wider(WET_END, Heat(at_c=60.0))["impeller clearance"] == pytest.approx(by_hand)


def test_the_rings_of_a_bearing_have_a_temperature_each():
    """The gap at the end cover runs over the outer rings of the pair, 32 mm; the inner rings stand beside none of its paths."""
    warm = wider(PUMP, Heat(named=(("outer rings", 60.0),)))
    assert warm["end float of the shaft"] == pytest.approx(-32 * 11.5e-6 * 40)
    assert wider(PUMP, Heat(named=(("inner rings", 60.0),)))["end float of the shaft"] == 0


def test_a_ring_more_than_the_reference_wants_grows_too():
    """Three gaskets of 0.15 under the end cover where two belong."""
    found, reference = read_found(ROOT / "examples" / "32-pump-third-gasket.toml", LIBRARY.reference)
    believed = as_believed(reference, found, explanations(reference, found)[0])
    warm = Heat(named=(("cover-gasket", 60.0),))
    assert wider(believed, warm)["end float of the shaft"] == pytest.approx(3 * 0.15 * 11.5e-6 * 40)
    assert wider(PUMP, warm)["end float of the shaft"] == pytest.approx(2 * 0.15 * 11.5e-6 * 40)


@given(st.floats(-60, 200), st.floats(-60, 200))
def test_one_degree_more_changes_a_gap_by_the_same_everywhere(one, other):
    a, b = (wider(WET_END, Heat(at_c=at_c)) for at_c in (one, other))
    for name in a.keys() & b.keys():
        assert a[name] * (other - 20) == pytest.approx(b[name] * (one - 20), abs=1e-12)


def test_nothing_is_said_cold_nor_of_a_gap_whose_forces_are_told(capsys, monkeypatch):
    assert warm_gaps(PUMP, Heat()) == ()
    monkeypatch.chdir(ROOT)
    main(["stack", "front-hub", "--temperature", "60 °C", "--json"])
    assert [each["gap"] for each in json.loads(capsys.readouterr().out)["warm_gaps"]] == ["free gap"]
    main(["stack", "layshaft", "--temperature", "60 °C"])
    out = " ".join(capsys.readouterr().out.split())
    assert "then, all of it at 60 °C: 0.001 more by length" in out
    assert "steel where no material is given" in out
    main(["stack", "layshaft"])
    assert "by length" not in capsys.readouterr().out
