"""A joint that clamps no two bearings, warm: by hand, and what cannot change it."""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.heat import Heat

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")
PUMP = LIBRARY.reference("bilge-pump/seal-and-impeller")


def nut(heat: Heat):
    return joint_forces(as_wanted(PUMP), PUMP.joints[0], heat=heat)


def test_a_brass_impeller_on_a_steel_shaft_is_clamped_harder_warm():
    """41.5 mm, (19 - 11.5) millionths, 40 K: 12.5 µm over what shaft and parts give."""
    own = nut(Heat(at_c=60.0))
    soft = 1 / own.terms.axle_n_per_mm + 1 / own.terms.stack_n_per_mm
    assert own.then_n.usual - own.tension_n.usual == pytest.approx(41.5 * 7.5e-6 * 40 / soft)
    assert nut(Heat(at_c=-20.0)).then_n.usual < own.tension_n.usual


def test_a_shaft_hotter_than_its_impeller_lets_go_of_it_and_never_pushes():
    told = nut(Heat(named=(("axle", 400.0),))).then_n
    assert told.least == told.usual == told.most == 0


def test_cold_and_where_two_bearings_are_clamped_nothing_is_said_twice():
    hub = LIBRARY.reference("freight-tricycle/front-hub")
    assert nut(Heat()).then_n is None
    assert joint_forces(as_wanted(hub), hub.joints[0], heat=Heat(at_c=60.0)).then_n is None


def test_what_heat_does_not_reach_says_at_which_temperature_it_stands(capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    main(["stack", "front-hub", "--temperature", "60 °C"])
    out = " ".join(capsys.readouterr().out.split())
    assert "SUPPORTS, side load and shift, at 20 °C" in out
    assert "outside of a hub 1.15 to 3 times its seat (our own figures)" in out
    assert "follows the growth" not in out  # of ball bearings no seat is counted
    main(["stack", "front-hub"])
    assert "SUPPORTS, side load and shift -" in " ".join(capsys.readouterr().out.split())


def test_a_pair_near_no_preload_is_told_both_ways(capsys, monkeypatch):
    """A web 40 K warmer than the shaft all but takes the play of the pinion where its outer rings do not follow."""
    monkeypatch.chdir(ROOT)
    main(["stack", "pinion-shaft", "--temperature", "20 °C", "--temperature", "web=60 °C"])
    out = " ".join(capsys.readouterr().out.split())
    assert "may be either: no preload and end float up to 0.10 under ±50 N, or a preload of up to 2 N" in out
    assert "an outer ring follows the growth of its seat not at all, half or wholly (our own figures)" in out


def test_the_page_says_the_tension_at_the_temperature_asked_for(capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    main(["stack", "seal-and-impeller", "--temperature", "60 °C"])
    out = " ".join(capsys.readouterr().out.split())
    assert "then, all of it at 60 °C: tension 15.6 to 24.1 kN, about 19.7" in out
    main(["stack", "steering-head", "--temperature", "60 °C"])
    assert "then, all of it at 60 °C: the same tension, axle and parts grow alike" in " ".join(
        capsys.readouterr().out.split()
    )
    main(["stack", "seal-and-impeller", "--temperature", "20 °C", "--temperature", "axle=80 °C"])
    assert "then, axle at 80 °C: may be either: no clamp is left, or tension up to " in " ".join(
        capsys.readouterr().out.split()
    )
