"""A reference as the text of its TOML file: sizes as they were written, standard parts by their designation."""

from __future__ import annotations

from typing import Any

from stackcheck.formats.new_file import join_tables, table_text
from stackcheck.model.part import Duty, Part
from stackcheck.model.reference import Gap, Joint, Limit, Pairing, Place, Reference, Stack, Support


def reference_text(reference: Reference) -> str:
    """The whole file; `read_reference` reads it back to the same reference."""
    tables = [table_text("", {"kind": "reference assembly", "format": 1}), table_text("[assembly]", _assembly(reference))]
    tables += [table_text(f"[parts.{part.id}]", _part(part)) for part in reference.parts]
    described: set[str] = set()
    tables += [table_text("[[stacks]]", _stack(stack, reference, described)) for stack in reference.stacks]
    tables += [table_text("[[limits]]", _limit(limit)) for limit in reference.limits]
    tables += [table_text("[[pairings]]", _pairing(pairing)) for pairing in reference.pairings]
    tables += [table_text("[[joints]]", _joint(joint)) for joint in reference.joints]
    tables += [table_text("[[supports]]", _support(support)) for support in reference.supports]
    tables += [table_text(f"[units.{unit.id}]", {"name": unit.name, "members": unit.members}) for unit in reference.units]
    return join_tables(tables)


def _assembly(reference: Reference) -> dict[str, Any]:
    source = reference.source
    return {
        "id": reference.id.rpartition("/")[2],
        "title": reference.title,
        "revision": reference.revision,
        "covers": reference.covers,
        "ends": reference.ends,
        "ends_seen_from": reference.ends_seen_from,
        "source": {"kind": source.kind, "what": source.what, "state": source.state},
        "cautions": reference.cautions,
        "replaced_by": reference.replaced_by,
        "note": reference.note,
    }


def _part(part: Part) -> dict[str, Any]:
    own = {name: size.text for name, size in part.sizes if not part.standard or size.text != part.standard}
    return {
        "name": part.name,
        "number": part.number,
        "accepts": part.accepts,
        "also": part.also,
        "kind": part.kind,
        "standard": part.standard,
        **own,
        "material": part.material,
        "stiffness": part.stiffness and part.stiffness.text,
        "feature": part.feature,
        "same_both_ways": part.same_both_ways or None,
        "duty": [_duty(duty) for duty in part.duties],
        "must_measure": part.must_measure,
        "fixed": part.fixed or None,
        "note": part.note,
    }


def _duty(duty: Duty) -> str:
    return f"{duty.name}: {duty.detail}" if duty.detail else duty.name


def _stack(stack: Stack, reference: Reference, described: set[str]) -> dict[str, Any]:
    order = []
    for item in stack.items:
        if isinstance(item, Gap):
            order.append(_gap(item))
            continue
        place = _place(reference.place(item), reference)
        order.append(item if item in described or len(place) == 1 else place)
        described.add(item)
    return {"name": stack.name, "through": stack.through, "order": order}


def _place(place: Place, reference: Reference) -> dict[str, Any]:
    toward = place.toward or (reference.end_name(place.facing) if place.facing else "")
    said = {"toward": toward, "count": place.count if place.count != 1 else "", "may_be_absent": place.may_be_absent}
    return {"place": place.name} | {key: value for key, value in said.items() if value}


def _gap(gap: Gap) -> dict[str, Any]:
    return {"gap": gap.name, **_limits(gap), "clamped": gap.clamped or None, "set_by": gap.set_by, "source": gap.source}


def _limit(limit: Limit) -> dict[str, Any]:
    return {"what": limit.what, "between": limit.between, **_limits(limit), "source": limit.source}


def _limits(what: Gap | Limit) -> dict[str, str]:
    """Both limits as they were written, or the figures where nothing was."""
    least, dots, most = what.text.partition("..")
    return {"least": least, "most": most} if dots else {"least": _mm(what.least_mm), "most": _mm(what.most_mm)}


def _mm(value: float | None) -> str:
    return "" if value is None else f"{value:.9f}".rstrip("0").rstrip(".") + " mm"


def _pairing(pairing: Pairing) -> dict[str, Any]:
    return {
        "what": pairing.what,
        "outer": pairing.outer,
        "inner": pairing.inner,
        "least": _mm(pairing.least_mm),
        "most": _mm(pairing.most_mm),
        "source": pairing.source,
    }


def _joint(joint: Joint) -> dict[str, Any]:
    return {
        "name": joint.name,
        "clamps": joint.clamps,
        "thread": joint.thread,
        "torque": joint.torque and joint.torque.text,
        "thread_condition": joint.thread_condition,
        "angle": joint.angle and joint.angle.text,
        "prevailing": joint.prevailing and joint.prevailing.text,
        "friction": joint.friction or None,
        "face": joint.face and joint.face.text,
        "thread_stop": joint.thread_stop and joint.thread_stop.text,
        "locked_by": joint.locked_by,
        "slots": joint.slots or None,
        "holes": joint.holes_deg if joint.holes_deg != (0.0,) else None,
        "note": joint.note,
    }


def _support(support: Support) -> dict[str, Any]:
    return {
        "place": support.place,
        "stiffness": support.stiffness and support.stiffness.text,
        "free_position": support.free_position and support.free_position.text,
        "end": support.end,
        "floating": support.floating or None,
        "pinched_after_settling": support.pinched_after_settling or None,
        "note": support.note,
    }
