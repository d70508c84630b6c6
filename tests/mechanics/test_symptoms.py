"""What was noticed, held against every finding by direction and size: on a hub that can be worked by hand.

The hub of `axle_hub`: 126 between legs that stand 129.2 apart. Its twin `clamped` has no free gap: the stack is as long as the
legs are apart, and the nut pulls the right leg against it.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.arrangement import standing_in
from stackcheck.mechanics.effects import effect
from stackcheck.mechanics.symptoms import CANNOT_TELL, DOES_NOT, EXPLAINS, MAY_EXPLAIN, NOT_THE_SIZE, try_symptoms
from stackcheck.model.finding import Condition, Extra, Missing, Standing, Swapped
from stackcheck.model.found import DRAG, MOVED, ROCK, STANDS_OFF, Symptom
from stackcheck.model.reference import Support
from stackcheck.value import replace
from tests.builders import found, reading
from tests.mechanics.small import FREE_GAP, axle_hub, explained, mirrored, nut_hub, with_duty

OUTSIDE_COLLAR = {"after": "collar-short", "before": "bearing@left"}


def clamped():
    """Legs 126 apart, no gap on purpose: both legs are pulled against the stack."""
    own = axle_hub(fork={"length": (126.0, 125.9, 126.1)})
    return replace(
        own, stacks=tuple(replace(s, items=tuple(item for item in s.items if item != FREE_GAP)) for s in own.stacks)
    )


def floating():
    return replace(axle_hub(), supports=(Support(place="leg@right", floating=True),))


def tried(own, symptom, finding, listed=None):
    """What one finding says to one symptom."""
    listed = replace(listed or found("?ring/length=3±0.02/bore=20.5/outside=28"), symptoms=(symptom,))
    explanation = explained(own, finding)
    its = effect(own, listed, finding, explanation=explanation) if not isinstance(finding, Condition) else None
    answer = try_symptoms(own, listed, explanation, ((finding, its),))[0]
    return answer.trials[0].answer if answer.trials else None


def moved(toward: str, by: float | None = None, place: str = "leg@right") -> Symptom:
    return Symptom(what=MOVED, place=place, toward=toward, by=None if by is None else reading(by, 0.5, "rule"))


RING, NO_COLLAR = Extra(entries=(1,), **OUTSIDE_COLLAR), Missing(places=("collar-short",))


@pytest.mark.parametrize(
    ("finding", "toward", "by", "answer"),
    [
        (NO_COLLAR, "second", 18.0, EXPLAINS),  # the leg had been pulled in by the 18 that lack
        (NO_COLLAR, "second", None, EXPLAINS),
        (NO_COLLAR, "second", 3.0, NOT_THE_SIZE),
        (NO_COLLAR, "first", 18.0, DOES_NOT),
        (RING, "second", 3.0, DOES_NOT),  # a ring too many pushes the leg out: it comes in when released
        (RING, "first", 3.0, EXPLAINS),
    ],
)
def test_a_leg_that_went_out_had_been_pulled_in_and_by_no_more_than_the_stack_is_short(finding, toward, by, answer):
    assert tried(clamped(), moved(toward, by), finding) == answer


def test_the_other_leg_goes_the_other_way():
    assert tried(clamped(), moved("first", 18.0, "leg@left"), NO_COLLAR) == EXPLAINS
    assert tried(clamped(), moved("second", 18.0, "leg@left"), NO_COLLAR) == DOES_NOT


def test_a_floating_leg_is_pushed_by_a_ring_only_where_no_room_is_left():
    """A ring of 3 leaves 0.2 of 3.2, one of 5 overlaps by 1.8."""
    thick = found("?ring/length=5±0.02/bore=20.5/outside=28")
    assert tried(floating(), moved("first", 3.0), RING) == DOES_NOT
    assert tried(floating(), moved("first", 1.8), RING, thick) == EXPLAINS
    assert tried(floating(), moved("second", 3.0), RING) == DOES_NOT


def test_a_floating_leg_may_have_been_pinched_off_its_free_place_and_no_length_shows_it():
    listed = replace(found(""), symptoms=(moved("second", 3.0),))
    assert try_symptoms(floating(), listed, explained(floating()), ())[0].room.nominal_mm == pytest.approx(3.2)
    assert try_symptoms(axle_hub(), listed, explained(axle_hub()), ())[0].room is None


def test_a_part_that_stands_off_is_explained_by_what_shifts_it_that_way_and_that_far():
    swapped = Swapped(places=("collar-short", "collar-long"))
    stands = {
        (toward, by): tried(axle_hub(), Symptom(what=STANDS_OFF, place="hub", toward=toward, by=reading(by)), swapped)
        for toward, by in (("second", 4.0), ("first", 4.0), ("second", 2.0))
    }
    assert stands == {("second", 4.0): EXPLAINS, ("first", 4.0): DOES_NOT, ("second", 2.0): NOT_THE_SIZE}


def test_several_findings_that_move_one_thing_are_tried_together():
    """A ring of 3 pushes out, a collar of 18 that lacks pulls in: together 15."""
    own, listed = (
        clamped(),
        replace(found("?ring/length=3±0.02/bore=20.5/outside=28"), symptoms=(moved("second", 15.0),)),
    )
    findings = (NO_COLLAR, RING)
    line = tuple(Standing(entry=1) if name == "collar-short" else standing_in(own.place(name)) for name in own.line)
    explanation = explained(own, *findings, line=line)
    answer = try_symptoms(
        own, listed, explanation, [(f, effect(own, listed, f, explanation=explanation)) for f in findings]
    )[0]
    assert [(trial.finding, trial.answer) for trial in answer.trials] == [
        (0, NOT_THE_SIZE),
        (1, DOES_NOT),
        (None, EXPLAINS),
    ]


def test_a_member_outside_every_frame_cannot_be_told():
    assert tried(axle_hub(), moved("first", 1.0, "spacer"), NO_COLLAR) == CANNOT_TELL


INNER = Extra(entries=(1,), after="bearing@left", before="spacer")
OUTER = Extra(entries=(1,), after="bearing@left", before="hub")
WIDE = found("?ring/length=0.5±0.01/bore=40/outside=46.5")
BACK_TO_BACK = {"kind": "angular bearing", "facings": ("second", "first")}
ROUGH = Condition(places=("bearing@left",), words=("gritty",))


@pytest.mark.parametrize(
    ("own", "finding", "listed", "drag", "rock"),
    [
        (nut_hub(), OUTER, WIDE, EXPLAINS, DOES_NOT),
        (nut_hub(), INNER, None, MAY_EXPLAIN, DOES_NOT),  # only if the outer rings are held fast
        (nut_hub(), RING, None, DOES_NOT, DOES_NOT),
        (with_duty(nut_hub(), "brake", "hub"), RING, None, MAY_EXPLAIN, DOES_NOT),  # the disc has moved with the hub
        (nut_hub(**BACK_TO_BACK), OUTER, WIDE, EXPLAINS, DOES_NOT),
        (nut_hub(**BACK_TO_BACK), INNER, None, DOES_NOT, EXPLAINS),
        (nut_hub(), ROUGH, None, EXPLAINS, DOES_NOT),
        (nut_hub(), Missing(places=("bearing@left",)), None, DOES_NOT, EXPLAINS),
    ],
)
def test_drag_wants_loaded_bearings_and_rock_wants_end_float(own, finding, listed, drag, rock):
    assert tried(own, Symptom(what=DRAG, place="hub"), finding, listed) == drag
    assert tried(own, Symptom(what=ROCK, place="hub"), finding, listed) == rock


@given(st.sampled_from([RING, NO_COLLAR]), st.sampled_from(["first", "second"]), st.integers(1, 200))
def test_seen_from_the_other_side_the_same_symptom_is_explained_by_the_same_finding(finding, toward, tenths):
    there = {"first": "second", "second": "first"}[toward]
    turned = replace(finding, after=finding.before, before=finding.after)
    assert tried(clamped(), moved(toward, tenths / 10), finding) == tried(
        mirrored(clamped()), moved(there, tenths / 10), turned
    )
