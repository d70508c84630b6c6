"""A reference as the text of its TOML file: sizes as they were written, standard parts by their designation."""

from __future__ import annotations

from typing import Any

from stackcheck.formats.new_file import Remarked, join_tables, key_text, section_text, table_text
from stackcheck.formats.remarks import NONE, Remarks
from stackcheck.formats.sections import STEPS, section_tables
from stackcheck.formats.variants import NAMED
from stackcheck.model.limits import ForceLimit, Limit, Pairing, StateLimit
from stackcheck.model.part import Duty, Part
from stackcheck.model.reference import Gap, Joint, Place, Reference, Revised, Stack, Support, Variant
from stackcheck.model.state import State


def reference_text(reference: Reference, remarks: Remarks = NONE) -> str:
    """The whole file; `read_reference` reads it back to the same reference, `remarks_of` to the same remarks."""
    tables = ["".join(f"# {line}".rstrip() + "\n" for line in remarks.head)] if remarks.head else []
    tables.append(table_text("", {"kind": "reference assembly", "format": 1}))
    tables.append(table_text("[assembly]", _assembly(reference), remarks.about("assembly")))
    for section, parts in _sections(reference):
        tables.append(section_text(section))
        tables += [table_text(f"[parts.{part.id}]", _part(part), remarks.about("parts", part.id)) for part in parts]
    tables.append(section_text(f"how they stand, {reference.ends[0]} to {reference.ends[1]}"))
    described: set[str] = set()
    for stack in reference.stacks:
        values = _stack(stack, reference, described, remarks.about("places"))
        tables.append(table_text("[[stacks]]", values, remarks.about("stacks", stack.name)))
    rules = [table_text("[[limits]]", _limit(each), remarks.about("limits", each.what)) for each in reference.limits]
    rules += [
        table_text("[[limits]]", _limit_of(each), remarks.about("limits", each.what))
        for each in (*reference.force_limits, *reference.state_limits)
    ]
    rules += [
        table_text("[[pairings]]", _pairing(each), remarks.about("pairings", each.what)) for each in reference.pairings
    ]
    rules += [table_text("[[joints]]", _joint(each), remarks.about("joints", each.name)) for each in reference.joints]
    rules += [
        table_text("[[supports]]", _support(each), remarks.about("supports", each.place)) for each in reference.supports
    ]
    rules += [
        table_text(f"[units.{unit.id}]", {"name": unit.name, "members": unit.members}, remarks.about("units", unit.id))
        for unit in reference.units
    ]
    tables += [section_text("what must hold"), *rules] if rules else []
    if reference.states:
        tables.append(section_text("how warm it is"))
        tables += [
            table_text("[[states]]", _state(each), remarks.about("states", each.name)) for each in reference.states
        ]
    if reference.variants:
        tables.append(section_text("what is otherwise on some machines"))
        tables += [text for variant in reference.variants for text in _variant(variant)]
    if reference.history:
        tables.append(section_text("history"))
        tables += [table_text("[[history]]", _revised(each)) for each in reference.history]
    return join_tables(tables)


def _sections(reference: Reference) -> list[tuple[str, tuple[Part, ...]]]:
    """The parts under their headings, in the sequence of the reference:
    those that stay apart only where they stand together.
    """
    stay = [part.fixed for part in reference.parts]
    if stay != sorted(stay, reverse=True) or not any(stay):
        return [("parts", reference.parts)]
    staying = tuple(part for part in reference.parts if part.fixed)
    coming_off = tuple(part for part in reference.parts if not part.fixed)
    sections = [("parts that stay on the machine", staying), ("parts that come off", coming_off)]
    return [(section, parts) for section, parts in sections if parts]


def _variant(variant: Variant) -> list[str]:
    covers = {
        "years": variant.years.text if variant.years else "",
        "serials": variant.serials.text if variant.serials else "",
    }
    told = dict(variant.told)
    head = {"name": variant.name, **covers, "why": variant.why, "without": told.get("without", ())}
    texts = [table_text("[[variants]]", head)]
    for table in NAMED:
        texts += [
            table_text(f"[variants.{table}.{key_text(name)}]", {key: _thawed(key, value) for key, value in keys})
            for name, keys in told.get(table, ())
        ]
    return texts


def _thawed(key: str, value: Any) -> Any:
    """A value of a variant as its file has it: steps are tables, and so is what stands apart by its temperature."""
    if key == "apart":
        return dict(value)
    return [dict(step) for step in value] if key in STEPS else value


def _revised(entry: Revised) -> dict[str, Any]:
    return {"revision": entry.revision, "date": entry.date, "what": entry.what, "by": entry.by}


def _assembly(reference: Reference) -> dict[str, Any]:
    source = reference.source
    return {
        "id": reference.id.rpartition("/")[2],
        "title": reference.title,
        "revision": reference.revision,
        "covers": reference.covers,
        "years": reference.years.text if reference.years else "",
        "serials": reference.serials.text if reference.serials else "",
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
        "sections": section_tables(part.sections),
        "material": part.material,
        "stiffness": part.stiffness and part.stiffness.text,
        "rollers": part.rollers or None,
        "balls": part.balls or None,
        "coils": part.coils or None,
        "waves": part.waves or None,
        "static_rating": part.static_rating and part.static_rating.text,
        "contact_angle": part.contact_angle and part.contact_angle.text,
        "crush_force": part.crush_force and part.crush_force.text,
        "pair_preload": part.pair_preload and part.pair_preload.text,
        "feature": part.feature,
        "same_both_ways": part.same_both_ways or None,
        "duty": [_duty(duty) for duty in part.duties],
        "must_measure": part.must_measure,
        "fixed": part.fixed or None,
        "note": part.note,
    }


def _duty(duty: Duty) -> str:
    return f"{duty.name}: {duty.detail}" if duty.detail else duty.name


def _stack(stack: Stack, reference: Reference, described: set[str], remarks: dict[str, str]) -> dict[str, Any]:
    order = []
    for item in stack.items:
        if isinstance(item, Gap):
            name, said = item.name, _gap(item)
        else:
            place = _place(reference.place(item), reference)
            name, said = item, item if item in described or len(place) == 1 else place
        # A remark stands behind the first mention, where the place is described; a gap may be called as a place is.
        order.append(Remarked(said, remarks[name]) if name in remarks and name not in described else said)
        described.update(() if isinstance(item, Gap) else (name,))
    return {"name": stack.name, "through": stack.through, "order": order}


def _place(place: Place, reference: Reference) -> dict[str, Any]:
    toward = place.toward or (reference.end_name(place.facing) if place.facing else "")
    said = {"toward": toward, "count": place.count if place.count != 1 else "", "may_be_absent": place.may_be_absent}
    return {"place": place.name} | {key: value for key, value in said.items() if value}


def _gap(gap: Gap) -> dict[str, Any]:
    return {"gap": gap.name, **_limits(gap), "clamped": gap.clamped or None, "set_by": gap.set_by, "source": gap.source}


def _limit(limit: Limit) -> dict[str, Any]:
    return {"what": limit.what, "between": limit.between, **_limits(limit), "source": limit.source}


def _limit_of(limit: ForceLimit | StateLimit) -> dict[str, Any]:
    least, _, most = limit.text.partition("..")
    return {
        "what": limit.what, "of": limit.of, "state": limit.state, "least": least, "most": most, "source": limit.source,
    }  # fmt: skip


def _state(state: State) -> dict[str, Any]:
    return {
        "name": state.name,
        "temperature": state.temperature.text,
        "apart": {name: amount.text for name, amount in state.apart} or None,
        "source": state.source,
    }


def _limits(what: Gap | Limit | Pairing) -> dict[str, str]:
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
        **_limits(pairing),
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
        "shank": section_tables(joint.shank),
        "note": joint.note,
    }


def _support(support: Support) -> dict[str, Any]:
    return {
        "place": support.place,
        "stiffness": support.stiffness and support.stiffness.text,
        "outside": support.outside and support.outside.text,
        "bore": support.bore and support.bore.text,
        "reach": support.reach and support.reach.text,
        "material": support.material,
        "free_position": support.free_position and support.free_position.text,
        "end": support.end,
        "floating": support.floating or None,
        "pinched_after_settling": support.pinched_after_settling or None,
        "note": support.note,
    }
