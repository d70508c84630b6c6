"""A force opened to its terms: the terms add up to the force, and the shares to the spread."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.cli import main
from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.threads import Thread, torque_for
from stackcheck.mechanics.force_terms import force_terms, torque_terms
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.unknowns import with_variants
from stackcheck.model.reference import Joint

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")
HUB = LIBRARY.reference("front-hub")


@given(torque=st.floats(5e3, 3e5), friction=st.floats(0.05, 0.4), d=st.sampled_from([8.0, 16.0, 30.0]))
def test_the_terms_of_a_torque_are_the_torque(torque, friction, d):
    thread = Thread(d_mm=d, pitch_mm=1.5)
    terms = torque_terms(
        Joint(name="nut", clamps=("a", "b"), thread=f"M{d:g}x1.5", friction=(friction, friction)), torque, thread
    )
    assert min(terms.stretch_nmm, terms.flanks_nmm, terms.face_nmm) > 0
    again = torque_for(
        tension_n=terms.tension_n,
        thread=thread,
        thread_friction=friction,
        face_friction=friction,
        face_radius_mm=terms.face_radius_mm,
    )
    assert terms.stretch_nmm + terms.flanks_nmm + terms.face_nmm == pytest.approx(again, rel=1e-9)


def test_what_settles_over_what_gives_is_what_the_joint_loses():
    own = joint_forces(as_wanted(HUB), HUB.joints[0])
    terms = own.terms
    parts = [part.stiffness_n_per_mm for part in terms.parts if part.stiffness_n_per_mm]
    assert 1 / terms.stack_n_per_mm == pytest.approx(sum(1 / k for k in parts))
    least, usual, most = terms.settles_mm
    gives = 1 / terms.axle_n_per_mm + 1 / terms.stack_n_per_mm
    assert usual / gives == pytest.approx(own.settling.loss_n.usual)
    assert least / gives < own.settling.loss_n.least < own.settling.loss_n.most < most / gives


def test_the_spacer_tube_is_as_stiff_as_by_hand():
    """206 000 N/mm² over π/4 (28² - 20.2²) mm², 58 long: 1.05e6 N/mm."""
    parts = {part.name: part for part in force_terms(as_wanted(HUB), HUB.joints[0], 60e3).parts}
    assert parts["Spacer tube"].stiffness_n_per_mm == pytest.approx(1.05e6, rel=0.01)


def test_clamp_and_bearings_share_what_the_nut_pulls():
    """Wherever a cut goes through both paths, inner and outer ring together carry the tension."""
    loop = joint_forces(as_wanted(HUB), HUB.joints[0], torque_nmm=40e3).loops[0]
    carried = {name: force.usual for name, force in loop.carried_held}
    tube, hub = (
        next(force for name, force in carried.items() if name.endswith(what))
        for what in ("Spacer tube", "outer: 2 Hub")
    )
    assert tube + hub == pytest.approx(loop.pull_held.usual, rel=1e-6)


def test_every_cause_says_what_it_moves_and_its_share():
    """Two unknowns added: ±3 and ±4 are 9 and 16 of 25 of the spread."""
    unknowns, total = with_variants(lambda u: u.value("a", -3, 0, 3) + u.value("b", -4, 0, 4))
    causes = unknowns.spanned(total).causes
    assert [(cause.name, cause.at_least, cause.at_most) for cause in causes] == [("b", -4, 4), ("a", -3, 3)]
    assert [cause.share for cause in causes] == pytest.approx([16 / 25, 9 / 25])


def test_stack_opens_its_forces_on_request(capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    main(["stack", "front-hub", "--terms"])
    out = " ".join(capsys.readouterr().out.split())
    assert (
        "4.1 to stretch the axle (pitch 1.5 mm), 25.5 rubbed off on the flanks (mean radius 7.51 mm), 30.4 under the nut"
        in out
    )
    assert "Spacer tube 58.00 1049 16.4" in out
    assert "settling of each pair of faces 2.1 kN 3.6 kN 18 in 100" in out


def test_past_the_static_rating_only_shares_are_opened(capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    main(["stack", "front-hub", "--found", "examples/06-front-hub-short-tube-and-ring.toml", "--terms"])
    out = capsys.readouterr().out
    opened = out[out.index("TERMS of the axle nut, as found") : out.index("HOW IT WAS RECKONED")]
    assert "groove distance of the hub bearing 48 in 100" in " ".join(opened.split())
    assert "balls at" not in opened


def test_across_a_play_that_the_nut_sets_no_row_of_parts_is_told_as_pressed_together(capsys):
    """Backed off, the inner rings of the rear hub do not touch; seated, the pull goes through the rollers and the hub."""
    hub = LIBRARY.reference("rear-hub")
    terms = force_terms(as_wanted(hub), hub.joints[0], 60e3)
    assert (terms.parts, terms.stack_n_per_mm, terms.sets) == ((), None, "end float")
    main(["stack", "rear-hub", "--terms"])
    out = " ".join(capsys.readouterr().out.split("HOW IT WAS RECKONED")[0].split())
    assert "Across the end float no ring presses on the next: seated, the pull goes from ring to ring" in out
    assert "pressed together" not in out
