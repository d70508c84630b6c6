"""What was noticed, with what every finding says to it, as trees of plain values; the manual describes every field."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.symptoms import Tried
from stackcheck.model.reference import Reference
from stackcheck.present.json_values import interval
from stackcheck.present.symptom_words import pinched_words, symptom_words, trial_words


def tried(value: Tried, reference: Reference) -> dict[str, Any]:
    symptom = value.symptom
    return {
        "what": symptom.what,
        "place": symptom.place,
        "toward": reference.end_name(symptom.toward) if symptom.toward else "",
        "by_mm": None if symptom.by is None else symptom.by.value_mm,
        "sentence": symptom_words(symptom, reference),
        "explained": value.is_explained,
        "findings": [
            {
                "finding": trial.finding,
                "answer": trial.answer,
                "why": trial.why,
                "predicted_mm": interval(trial.predicted),
                "sentence": trial_words(trial, symptom, reference),
            }
            for trial in value.trials
        ],
        "may_have_been_pinched": pinched_words(value, reference),
    }
