"""The answer of `explain` as a plain tree for `--json`."""

from __future__ import annotations

from typing import Any

from stackcheck.present.as_json import effect, rounded_mm
from stackcheck.present.stray_words import identity_words, origin_words, story_words, summary
from stackcheck.present.words import sentence
from stackcheck.stray.bench import Bench
from stackcheck.stray.candidates import Candidate
from stackcheck.stray.decide import Decision
from stackcheck.stray.explain import Explained
from stackcheck.stray.seen import Stray


def explained(value: Explained) -> dict[str, Any]:
    """Everything on the page, and the share of each answer for sorting."""
    stray, bench = value.stray, value.bench
    home = bench.assembly(stray.home_list) if stray.home_list else None
    doing = value.doing
    return {
        "verdict": value.object.verdict,
        "exit_status": value.exit_status,
        "sentence": summary(value),
        "part": {
            "what": stray.what,
            "kind": stray.kind,
            "entry": stray.entry,
            "count": stray.count,
            "magnetic": stray.magnetic,
            "marking": stray.marking,
            "material": stray.material,
            "features": dict(stray.features),
            "conditions": list(stray.conditions),
            "sizes": [
                {
                    "name": taken.name,
                    "as_typed": taken.text,
                    "value_mm": rounded_mm(taken.value_mm),
                    "good_to_mm": rounded_mm(2 * taken.u_mm),
                    "how": taken.how,
                    "remark": taken.remark,
                }
                for taken in stray.taken
            ],
            "not_measured": list(stray.not_measured),
        },
        "object": _objects(bench, value.object, stray),
        "origin": _origins(bench, value.origin, stray),
        "unproven": value.object.unproven,
        "suiting": [_part(part) for part in value.suiting],
        "called": [_part(part) for part in value.called],
        "marked": [_part(part) for part in value.marked],
        "keeps": list(value.keeps),
        "other_machines": [_part(part) for part in value.other_machines],
        "worn_original_or_substitute": value.worn_original is not None,
        "spoken_against": value.spoken_against,
        "fits": [
            {
                "reference": each.reference.id,
                "does": fit.does,
                "part": fit.part,
                "verdict": fit.verdict,
                "size": fit.taken.name,
                "limits_mm": {"least": rounded_mm(fit.low_mm), "most": rounded_mm(fit.high_mm)},
            }
            for each in value.fits
            for fit in each.fits
        ],
        "effect": None
        if doing is None
        else {
            "finding": sentence(doing.finding, home.reference, home.found) if doing.finding else "",
            "stays_in": effect(doing.stays, home.reference),
            "left_out": effect(doing.left_out, home.reference),
            "paths": [{"stack": path.stack, "where": path.where} for path in doing.paths],
            "does_not_explain": [sentence(finding, home.reference, home.found) for finding in doing.not_explained],
        },
        "next": [
            {"what": look.what, "settles": look.settles, "instrument": look.instrument, "size": look.size}
            for look in value.looks
        ],
        "not_looked_at": list(value.not_looked_at),
        "books": [
            {
                "kind": story.kind,
                "sentence": story_words(bench, story),
                "strays": [{"reference": stray.home_list, "entry": stray.entry} for stray in story.strays],
                "places": [
                    {"reference": place.reference, "place": place.place, "part": place.part} for place in story.places
                ],
            }
            for story in value.books
        ],
    }


def _part(member: Candidate) -> dict[str, Any]:
    return {
        "name": member.name,
        "kind": member.kind,
        "source": member.source,
        "reference": member.reference,
        "part": member.part,
    }


def _objects(bench: Bench, decision: Decision, stray: Stray) -> dict[str, Any]:
    return {
        "verdict": decision.verdict,
        "named": [
            {
                "sentence": identity_words(bench, answer, stray), "share": round(answer.share, 4),
                "members": [_part(member) for member in answer.members],
            }
            for answer in decision.named
        ],
    }  # fmt: skip


def _origins(bench: Bench, decision: Decision, stray: Stray) -> dict[str, Any]:
    return {
        "verdict": decision.verdict,
        "named": [
            {
                "sentence": origin_words(bench, reason, stray),
                "share": round(reason.share, 4),
                "kind": reason.origin.kind,
                "reference": reason.origin.reference,
                "place": reason.origin.place,
                "part": reason.origin.part,
            }
            for reason in decision.named
        ],
    }
