"""The answers of `shims` and `slots` as trees of plain values; the manual describes every field."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.loops import against
from stackcheck.mechanics.nut_slots import Slot
from stackcheck.mechanics.shims import Pack
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.present.as_json import finding, interval, reading, reference, rounded_mm
from stackcheck.result.choosing import ShimAnswer, SlotAnswer, WarmSlots


def shims(own: Reference, value: ShimAnswer, found: Found | None) -> dict[str, Any]:
    """`shims`."""
    choice = value.choice
    return {
        "reference": reference(own), "gap": value.loop.name, "place": value.place, "target_mm": _ends(value.target),
        "now_mm": interval(value.now), "measured": reading(value.gap_now), "gap_without_mm": interval(value.bare_gap),
        "thickness_wanted_mm": None if value.wanted_mm is None else _ends(value.wanted_mm),
        "packs": [] if choice is None else [_pack(value, pack) for pack in choice.packs],
        "nearest": [] if choice is None else [_pack(value, pack) for pack in choice.nearest],
        "put_right_first": [finding(item, own, found) for item in value.put_right_first] if found is not None else [],
        "needs": list(value.needs), "reckoned_from_the_reference_alone": value.reckoned,
    }  # fmt: skip


def _pack(answer: ShimAnswer, value: Pack) -> dict[str, Any]:
    return {
        "pieces": [
            {"thickness_mm": rounded_mm(shim.thickness.nominal_mm), "count": count}
            for shim, count in zip(answer.box, value.counts)
            if count
        ],
        "thickness_mm": interval(value.thickness),
        "gap_mm": interval(value.gap),
        "verdict": against(value.gap, answer.target),
    }


def slots(own: Reference, value: SlotAnswer) -> dict[str, Any]:
    """`slots`."""
    return {
        "reference": reference(own), "gap": value.loop.name, "joint": value.joint.name, "measured": reading(value.play),
        "target_mm": _ends(value.target),
        "slots": [_slot(value, slot) for slot in value.slots],
        "from_another_hole": [
            {"hole_deg": other.hole_deg, "slots": [_slot(value, slot) for slot in other.slots]}
            for other in value.elsewhere
        ],
        "warm": [
            {"state": own.heat.state or None, "at_c": own.heat.at_c, "apart_c": dict(own.heat.named),
             "more_mm": None if own.more_mm is None else _spanned(own), "needs": list(own.needs)}
            for own in value.warm
        ],
    }  # fmt: skip


def _spanned(own: WarmSlots) -> dict[str, Any] | None:
    from stackcheck.present.forces_json import spanned  # loads what knows forces

    return spanned(own.more_mm, 3)


def _slot(value: SlotAnswer, slot: Slot) -> dict[str, Any]:
    warm = [None if own.more_mm is None else interval(own.play(slot)) for own in value.warm]
    return {
        "turned_deg": slot.turned_deg, "play_mm": interval(slot.play), "verdict": against(slot.play, value.target),
        "warm_play_mm": warm,
    }  # fmt: skip


def _ends(value: tuple[float, float]) -> dict[str, float | None]:
    return {"least": rounded_mm(value[0]), "most": rounded_mm(value[1])}
