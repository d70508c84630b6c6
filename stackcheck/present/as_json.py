"""The answer of `compare` and `stack` as plain trees for `--json`: units in the names,
the manual describes every field.
"""

from __future__ import annotations

from math import isinf
from typing import Any

from stackcheck.mechanics.chain import LoopState, Sum
from stackcheck.mechanics.effects import Effect
from stackcheck.mechanics.lengths import Term
from stackcheck.mechanics.spread import Spread
from stackcheck.model.finding import Explanation, Finding
from stackcheck.model.found import Found
from stackcheck.model.part import Reading, Section
from stackcheck.model.reference import Reference
from stackcheck.model.warm_reading import Warm
from stackcheck.present.force_path_json import force
from stackcheck.present.json_values import interval, rounded_mm
from stackcheck.present.symptom_json import tried
from stackcheck.present.verdict_words import headline, not_verified, point_words
from stackcheck.present.words import effect_words, grade_words, sentence
from stackcheck.result.comparison import Comparison
from stackcheck.result.lengths import LoopResult, StackResult
from stackcheck.result.points import CANNOT_TELL, NOT_LOOKED_AT


def reading(value: Reading | None) -> dict[str, Any] | None:
    if value is None:
        return None
    return {
        "as_typed": value.text,
        "value_mm": rounded_mm(value.value_mm),
        "good_to_mm": rounded_mm(value.good_to_mm),
        "how": value.how,
        "measured_warm": _warm(value.warm),
    }


def _warm(value: Warm | None) -> dict[str, Any] | None:
    if value is None:
        return None
    return {
        "read_mm": rounded_mm(value.read_mm),
        "part_c": {"least": value.part.least_c, "most": value.part.most_c},
        "instrument_c": None if value.tool is None else {"least": value.tool.least_c, "most": value.tool.most_c},
        "metal": value.metal or "steel",
        "metal_taken": not value.metal,
        "budget": [
            {"what": doubt.name, "standard_uncertainty_mm": rounded_mm(abs(doubt.adds_mm))} for doubt in value.doubts
        ],
    }


def reference(value: Reference) -> dict[str, Any]:
    return {
        "id": value.id,
        "title": value.title,
        "revision": value.revision,
        "ends": list(value.ends),
        "source_kind": value.source.kind,
        "state": value.source.state,
        "grade": grade_words(value),
        "for_machine": value.for_machine,
        "outside": value.outside,
        "variants": [variant.name for variant in value.variants],
    }


def effect(value: Effect | None, own: Reference) -> dict[str, Any] | None:
    if value is None:
        return None
    changes = [change.change for change in value.changes]
    largest = None if None in changes else max((change.nominal_mm for change in changes), key=abs, default=0.0)
    return {
        "length_change_mm": rounded_mm(largest),
        "stacks": [{"name": change.stack, "change_mm": interval(change.change)} for change in value.changes],
        "loops": [
            {
                "name": change.loop,
                "before_mm": interval(change.before),
                "after_mm": interval(change.after),
                "crosses_limit": change.crosses_limit,
            }
            for change in value.loop_changes
        ],
        "shifts": [
            {
                "place": shift.place,
                "shift_mm": None if shift.either_mm else rounded_mm(shift.mm),
                "either_mm": [rounded_mm(each) for each in shift.either_mm],
            }
            for shift in value.shifts
        ],
        "unchanged": list(value.unchanged),
        "sentence": effect_words(value, own),
    }


def finding(value: Finding, reference_: Reference, found: Found) -> dict[str, Any]:
    return {
        "kind": value.kind, "places": list(value.places), "entries": list(value.entries),
        "between": [value.after, value.before] if value.after or value.before else [],
        "sentence": sentence(value, reference_, found), "evidence": list(value.evidence),
    }  # fmt: skip


def stack(result: StackResult) -> dict[str, Any]:
    return {
        "name": result.name, "reference_mm": interval(result.reference.total),
        "as_found_mm": interval(result.as_found.total), "change_mm": rounded_mm(result.change_mm),
        "needs": list(result.as_found.needs),
    }  # fmt: skip


def loop(result: LoopResult) -> dict[str, Any]:
    return {
        "name": result.reference.loop.name,
        "reference_mm": interval(result.reference.gap),
        "as_found_mm": interval(result.as_found.gap),
        "measured": reading(result.as_found.measured),
        "contradicted": result.as_found.contradicted,
        "limits_mm": {
            "least": rounded_mm(result.reference.loop.least_mm),
            "most": rounded_mm(result.reference.loop.most_mm),
        },
        "verdict": result.as_found.verdict,
        "needs": list(result.as_found.needs),
    }


def comparison(value: Comparison) -> dict[str, Any]:
    """The whole answer by the contract of the manual."""
    own, found = value.reference, value.found
    return {
        "reference": reference(own),
        "verdict": value.verdict,
        "exit_status": value.exit_status,
        "sentence": headline(value),
        "findings": [
            finding(result.finding, own, found)
            | {"follows_from": None if result.follows is None else result.follows + 1}
            | {"effect": effect(result.effect, own), "force": force(result, own)}
            for result in value.findings
        ],
        "symptoms": [tried(each, own) for each in value.symptoms],
        "notes": [finding(note, own, found) for note in value.notes],
        "price": value.best.price,
        "proved_least": value.best.proved_least,
        "bound": value.best.bound,
        "other_explanations": [_other(other, own, found) for other in value.others],
        "not_looked_at": [point_words(own, point) for point in value.points_in(NOT_LOOKED_AT)],
        "cannot_tell": [point_words(own, point) for point in value.points_in(CANNOT_TELL)],
        "not_verified": not_verified(value),
        "points": [
            {"place": point.place, "what": point.what, "gap": point.gap, "state": point.state} for point in value.points
        ],
        "stacks": [stack(result) for result in value.stacks],
        "loops": [loop(result) for result in value.loops],
        "cautions": [{"id": caution.id, "text": caution.text} for caution in value.cautions],
    }  # fmt: skip


def _other(value: Explanation, own: Reference, found: Found) -> dict[str, Any]:
    return {
        "findings": [finding(item, own, found) for item in value.findings],
        "price": value.price,
        "separated_by": value.separated_by,
    }


def term(value: Term) -> dict[str, Any]:
    return {
        "place": value.place,
        "entry": value.entry,
        "name": value.name,
        "sign": value.sign,
        "length_mm": interval(value.interval),
        "how": value.how,
        "as_written": value.text,
        "reading": reading(value.reading),
    }


def sum_(value: Sum) -> dict[str, Any]:
    measured = value.as_measured
    return {
        "terms": [term(item) for item in value.terms],
        "as_measured": None
        if measured is None
        else {
            "value_mm": rounded_mm(measured.value_mm),
            "good_to_mm": rounded_mm(measured.good_to_mm),
            "coverage": measured.coverage,
            "factor": round(measured.factor, 3),
            "degrees_of_freedom": None if isinf(measured.degrees) else round(measured.degrees, 1),
            "largest": measured.largest.name if measured.largest else None,
            "budget": [
                {"what": each.what or each.name, "standard_uncertainty_mm": rounded_mm(each.uncertainty_mm)}
                for each in measured.contributions
            ],
        },
        "even_spread": spread(value.spread),
        "fills": list(value.fills),
        "beside_them_mm": interval(value.beside_them),
        "needs": list(value.needs),
    }


def spread(value: Spread | None) -> dict[str, Any] | None:
    if value is None:
        return None
    low, high = value.central(0.95)
    return {
        "middle_mm": rounded_mm(value.middle_mm),
        "deviation_mm": rounded_mm(value.deviation_mm),
        "worst_case_half_mm": rounded_mm(value.worst_mm),
        "root_of_squares_half_mm": rounded_mm(value.root_sum_of_squares_mm),
        "holds_95_in_100_mm": {"least": rounded_mm(low), "most": rounded_mm(high)},
    }


def distance(value: StackResult, *, with_found: bool) -> dict[str, Any]:
    """One stack of `stack`, or `stack --between`: each total once, what is missing for it in its own sum."""
    return {
        "name": value.name,
        "reference_mm": interval(value.reference.total),
        "as_found_mm": interval(value.as_found.total) if with_found else None,
        "change_mm": rounded_mm(value.change_mm) if with_found else None,
        "reference": sum_(value.reference),
        "as_found": sum_(value.as_found) if with_found else None,
    }


def lengths(
    own: Reference, stacks: tuple[StackResult, ...], loops: tuple[LoopResult, ...], *, with_found: bool
) -> dict[str, Any]:
    """`stack`: every sum with its terms; what is as found is null where there is no list."""
    return {
        "reference": reference(own),
        "stacks": [distance(result, with_found=with_found) for result in stacks],
        "loops": [
            loop(result) | ({} if with_found else {"as_found_mm": None})
            | {"reference": loop_sum(result.reference), "as_found": loop_sum(result.as_found) if with_found else None}
            for result in loops
        ],
    }  # fmt: skip


def loop_sum(state: LoopState) -> dict[str, Any]:
    """A gap opened to its terms, with how it is spread and the shares of all such assemblies outside its limits."""
    below, above = state.share_outside or (None, None)
    return {
        "terms": [term(item) for item in state.terms], "even_spread": spread(state.spread),
        "share_below_least": below, "share_above_most": above,
    }  # fmt: skip


def checked_loop(state: LoopState) -> dict[str, Any]:
    return {
        "name": state.loop.name, "between": list(state.loop.gap_between), "worst_case_mm": interval(state.gap),
        "limits_mm": {"least": rounded_mm(state.loop.least_mm), "most": rounded_mm(state.loop.most_mm)},
        "set_by": state.loop.set_by, "verdict": state.verdict, "needs": list(state.needs),
    }  # fmt: skip


def section(step: Section) -> dict[str, Any]:
    """One step of a part, or of what a joint stretches."""
    return {
        "length_mm": rounded_mm(step.length.nominal_mm),
        "outside_mm": rounded_mm(step.outside.nominal_mm),
        "bore_mm": rounded_mm(step.bore.nominal_mm) if step.bore is not None else None,
        "material": step.material,
    }


def whole_reference(own: Reference, states: tuple[LoopState, ...]) -> dict[str, Any]:
    """`references show`."""
    return reference(own) | {
        "parts": [
            {
                "id": part.id,
                "name": part.name,
                "kind": part.kind,
                "number": part.number,
                "standard": part.standard,
                "feature": part.feature,
                "fixed": part.fixed,
                "duties": [duty.name for duty in part.duties],
                "sizes_mm": {
                    name: {
                        "as_written": size.text,
                        "nominal": rounded_mm(size.nominal_mm),
                        "least": rounded_mm(size.least_mm),
                        "most": rounded_mm(size.most_mm),
                    }
                    for name, size in part.sizes
                },
                "sections": [section(each) for each in part.sections],
            }
            for part in own.parts
        ],
        "places": [
            {
                "name": place.name,
                "part": place.part,
                "count": place.count,
                "toward": own.end_name(place.facing) if place.facing else "",
            }
            for place in own.places
        ],
        "stacks": [{"name": item.name, "through": item.through, "places": list(item.places)} for item in own.stacks],
        "loops": [checked_loop(state) for state in states],
        "history": [
            {"revision": entry.revision, "date": entry.date, "what": entry.what, "by": entry.by}
            for entry in own.history
        ],
    }
