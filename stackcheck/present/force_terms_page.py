"""Every force of `stack` opened to its terms:
where the torque goes, what gives, what each part carries, what each unknown does.
"""

from __future__ import annotations

from stackcheck.mechanics.force_terms import ForceTerms, TorqueTerms
from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.loop_forces import NOTHING_N, LoopForces
from stackcheck.mechanics.unknowns import Spanned, told_apart
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.force_figures import force_words, kilonewtons, range_of_force
from stackcheck.present.forces_page import threads
from stackcheck.present.words import mm
from stackcheck.result.forces import ForcesResult

USUAL = (
    "At the usual value of all that is not known; each row of a cause moves that one alone to its least and its most."
)

SEATED = (
    "seated, the pull goes from ring to ring through the balls or rollers, and back through what stands between the "
    "other two rings; backed off, nothing is pressed"
)
BESIDE = "Bearings take of the pull, so that it presses no one row of parts together: what each carries is told below."
ONE_ROW = 0.9
"""From this share of the tension on it is told as going through one row of parts: our own figure."""


def terms_blocks(results: tuple[ForcesResult, ...], *, with_found: bool) -> list[Block]:
    """One heading a joint; as found where something was found."""
    blocks: list[Block] = []
    for result in results:
        joint = result.as_found if with_found else result.reference
        if joint.terms is None or joint.tension_n is None or joint.is_unclamped:
            continue
        blocks += [Heading(f"TERMS of the {joint.joint.name}{', as found' if with_found else ''}"), Text(USUAL)]
        blocks += [Text(torque_words(joint.terms.torque)), *_causes("tension", joint.tension_n)]
        blocks += [Text(BESIDE)] if _goes_past(joint) else _give(joint.terms)
        blocks += [] if joint.settling is None or joint.settling.loss_n is None else _settles(joint)
        for loop in joint.loops:
            blocks += _loop(loop)
    return blocks


def _goes_past(joint: JointForces) -> bool:
    """Whether bearings take of the pull, so that what it presses together is no one row."""
    clamps = [loop.least_clamp_n for loop in joint.loops if loop.least_clamp_n is not None]
    return any(clamp.usual < ONE_ROW * joint.tension_n.usual for clamp in clamps)


def torque_words(value: TorqueTerms) -> str:
    """ "60 N·m at friction 0.17: 4.1 to stretch the axle (pitch 1.5), 25.5 on the flanks (radius 7.51),
    30.4 under the nut ...".
    """
    torque = (value.prevailing_nmm + value.stretch_nmm + value.flanks_nmm + value.face_nmm) / 1000
    parts = [f"{value.prevailing_nmm / 1000:.1f} taken by the locking nut"] if value.prevailing_nmm else []
    parts += [
        f"{value.stretch_nmm / 1000:.1f} to stretch the axle (pitch {value.pitch_mm:.4g} mm)",
        f"{value.flanks_nmm / 1000:.1f} rubbed off on the flanks (mean radius {value.flank_mm / 2:.2f} mm)",
        f"{value.face_nmm / 1000:.1f} under the nut (mean radius {value.face_radius_mm:.2f} mm)",
    ]
    return (
        f"{torque:.4g} N·m at friction {value.friction:.2f}, in N·m: {', '.join(parts)}; "
        f"it leaves {force_words(value.tension_n)}."
    )


def _give(value: ForceTerms) -> list[Block]:
    if value.sets:
        return [Text(f"Across the {value.sets} no ring presses on the next: {SEATED}.")]
    if value.needs:
        return [Text(f"cannot tell what gives under the pull: needs {' and '.join(value.needs)}")]
    pull = value.torque.tension_n
    rows = [
        (
            f"- {row.name}" if row in part.sections else row.name,
            mm(round(row.length_mm, 3)),
            _stiff(row.stiffness_n_per_mm),
            f"{1000 * pull / row.stiffness_n_per_mm:.1f}",
        )
        for part in value.parts
        if part.stiffness_n_per_mm is not None
        for row in (part, *part.sections)
    ]
    rows.append(
        (
            "all of it",
            mm(round(sum(part.length_mm for part in value.parts), 3)),
            _stiff(value.stack_n_per_mm),
            f"{1000 * pull / value.stack_n_per_mm:.1f}",
        )
    )
    rows.append(("axle, stretched", "", _stiff(value.axle_n_per_mm), f"{1000 * pull / value.axle_n_per_mm:.1f}"))
    return [Rows(("pressed together", "length, mm", "stiffness, kN/mm", "gives, µm"), tuple(rows), right=(1, 2, 3))]


def _stiff(value: float) -> str:
    return f"{value / 1000:.0f}"


def _settles(joint: JointForces) -> list[Block]:
    terms, loss = joint.terms, joint.settling.loss_n
    if terms.settles_mm is None:
        return []
    words = (
        f"{joint.settling.faces} pairs of faces and {threads(joint.settling)} settle {1000 * terms.settles_mm[0]:.0f} to "
        f"{1000 * terms.settles_mm[2]:.0f} µm, over what axle and parts give together: {range_of_force(loss)} less."
    )
    return [Text(words), *_causes("loss", loss)]


def _loop(value: LoopForces) -> list[Block]:
    """What presses each body, inner path first; then the causes of the preload or of the end float."""
    if value.slides is None or value.held is None:
        return []
    if value.beyond_n is not None and max(value.slides.most, value.held.most) > value.beyond_n:
        return _shares(value)
    told: list[Spanned] = []
    both = [
        (name, _range(_as_told(free, told)), _range(_as_told(fast, told)))
        for (name, free), (_, fast) in zip(value.carried_slides, value.carried_held)
    ]
    is_one = all(free == fast for _, free, fast in both)
    header = (
        (value.loop, "pressed with") if is_one else (value.loop, "pressed with, rings free to slide", "rings held fast")
    )
    blocks: list[Block] = [
        Rows(
            header,
            tuple(row[: len(header)] for row in _whole_rings(both)),
            right=(1, 2)[: len(header) - 1],
            wraps=(0, 1),
        )
    ]
    is_loaded = max(value.slides.most, value.held.most) > NOTHING_N
    ways = ("free to slide", value.slides, value.float_slides), ("held fast", value.held, value.float_held)
    tables = [
        _causes(f"preload, rings {how}", preload)
        if is_loaded
        else _causes(f"end float, rings {how}", play, force=False)
        for how, preload, play in ways
    ]
    if tables[0] and tables[1] and tables[0][0].rows == tables[1][0].rows:
        tables = [
            _causes("preload", value.slides) if is_loaded else _causes("end float", value.float_slides, force=False)
        ]
    return blocks + [table for each in tables for table in each]


def _shares(value: LoopForces) -> list[Block]:
    """Past the limit no figure holds, but what the range comes from does."""
    words = (
        f"{value.loop}: past {value.limit.called}, about {force_words(value.beyond_n)}, "
        "no figure holds and nothing is opened but the shares."
    )
    rows = tuple((cause.name, f"{100 * cause.share:.0f} in 100") for cause in value.slides.causes)
    return [Text(words), *([Rows(("preload moved by", "share"), rows, right=(1,))] if rows else [])]


def _whole_rings(rows: list[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """The two halves of a ring as one where the same force goes through both."""
    whole: list[tuple[str, ...]] = []
    for name, *forces in rows:
        ring = name.removesuffix(", second half")
        if ring != name and whole and whole[-1] == (f"{ring}, first half", *forces):
            whole[-1] = (ring, *forces)
        else:
            whole.append((name, *forces))
    return whole


def _as_told(value: Spanned, told: list[Spanned]) -> Spanned:
    """A force that the draws cannot tell from one that stands in the table already is written as that one."""
    same = next((each for each in told if not told_apart(each, value)), None)
    if same is None:
        told.append(value)
    return same or value


def _range(value: Spanned) -> str:
    if value.most < NOTHING_N:
        return "nothing"
    if value.most >= 1000:
        return f"{kilonewtons(value.least)}..{kilonewtons(value.most)} kN"
    return f"{force_words(value.least).removesuffix(' N')}..{force_words(value.most)}"


def _causes(answer: str, value: Spanned, *, force: bool = True) -> list[Block]:
    if not value.causes:
        return []
    said = force_words if force else lambda number: f"{mm(round(number, 3))} mm"
    rows = [
        (cause.name, said(cause.at_least), said(cause.at_most), f"{100 * cause.share:.0f} in 100")
        for cause in value.causes
    ]
    return [Rows((f"{answer} moved by", "at its least", "at its most", "share"), tuple(rows), right=(1, 2, 3))]
