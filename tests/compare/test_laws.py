"""Laws of the comparison, on random small cases; each answer is replayed on its reference."""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stackcheck.compare import explanations, replay, same_arrangement
from stackcheck.compare.listed import is_what_was_found
from stackcheck.compare.prices import PRICES, end_for_end
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference, Stack
from stackcheck.value import replace
from tests.builders import clutch, found, hub, reference
from tests.referee.cases import random_case

OTHER_WAY = {"first": "second", "second": "first"}
few = settings(max_examples=40, deadline=None, derandomize=True)


@st.composite
def cases(draw, mistakes=2):
    rng = Random(draw(st.integers(0, 10**6)))
    return random_case(rng, places=rng.randint(2, 7), mistakes=rng.randint(0, mistakes))


def as_it_should_be(reference: Reference) -> Found:
    """A teardown list of the reference itself."""
    tokens = {"first": "<", "second": ">", "": ""}
    text = " ".join(
        f"{place.part}{tokens[place.facing]}*{place.count}"
        for place in map(reference.place, reference.line)
        if not reference.part(place.part).fixed
    )
    return found(text)


def mirrored(ref: Reference) -> Reference:
    places = tuple(replace(place, facing=OTHER_WAY.get(place.facing, "")) for place in reversed(ref.places))
    stacks = tuple(Stack(name=stack.name, items=stack.items[::-1], through=stack.through) for stack in ref.stacks)
    return replace(ref, places=places, stacks=stacks)


def from_the_other_end(list_: Found) -> Found:
    entries = tuple(
        replace(
            entry, end=None if entry.end is None else 1 - entry.end, toward=OTHER_WAY.get(entry.toward, entry.toward)
        )
        for entry in list_.entries
    )
    if all(entry.end is None for entry in list_.entries if not entry.is_loose):
        entries = tuple(replace(entry, end=1) for entry in entries)
    return replace(list_, entries=entries)


@few
@given(cases())
def test_a_reference_compared_with_itself_differs_in_nothing(case):
    ref = case[0]
    (least, *_) = explanations(ref, as_it_should_be(ref))
    assert (least.findings, least.price) == ((), 0)


@few
@given(cases())
def test_planted_slips_are_never_explained_at_a_higher_price(case):
    ref, list_, planted = case
    assert explanations(ref, list_)[0].price <= planted


@few
@given(cases())
def test_the_line_holds_every_entry_in_the_sequence_it_came_off(case):
    ref, list_, _ = case
    for explanation in explanations(ref, list_):
        assert is_what_was_found(explanation, list_)


@few
@given(cases(mistakes=1))
def test_replaying_the_findings_on_the_reference_rebuilds_what_was_found(case):
    ref, list_, _ = case
    explanation = explanations(ref, list_)[0]
    assert same_arrangement(ref, replay(ref, explanation, list_), explanation.line)


@few
@given(cases())
def test_mirroring_reference_and_list_together_changes_no_price(case):
    ref, list_, _ = case
    assert explanations(mirrored(ref), from_the_other_end(list_))[0].price == explanations(ref, list_)[0].price


@few
@given(cases())
def test_one_entry_of_three_and_three_entries_of_one_are_the_same_list(case):
    ref, list_, _ = case
    if any(entry.tag or entry.sizes for entry in list_.entries if entry.count > 1):
        return
    single = [replace(entry, count=1) for entry in list_.entries for _ in range(entry.count)]
    split = replace(list_, entries=tuple(replace(entry, number=n) for n, entry in enumerate(single, 1)))
    assert explanations(ref, split)[0].price == explanations(ref, list_)[0].price


def test_the_same_input_gives_the_same_answer():
    list_ = found("seal< collar-long< bearing hub spacer bearing seal> collar-short>")
    assert explanations(hub(), list_) == explanations(hub(), list_)


FAR_AWAY = {
    "missing": ("a b c d e f g h i j k l m n o p q r s t", "a b d e f g h i j k l m n o p q r s t", [("missing", "c")]),
    "two": (
        "a b c d e f g h i j k l m n o p q r s t",
        "a b d e f g h i j k l m n o r p q s t",
        [("missing", "c"), ("out_of_place", "r")],
    ),
    "a run moved": (
        "a b c d e f g h i j k l m n o p q r s t",
        "a b c d i j k e f g h l m n o p q r s t",
        [("run_moved", "i", "j", "k")],
    ),
    "swapped far apart": (
        "a b c d e f g h i j k l m n o p q r s t",
        "a b q d e f g h i j k l m n o p c r s t",
        [("swapped", "q", "c")],
    ),
}


@pytest.mark.parametrize("wanted, list_, findings", FAR_AWAY.values(), ids=FAR_AWAY.keys())
def test_mistakes_far_apart_are_told_one_by_one(wanted, list_, findings):
    explanation = explanations(reference(wanted), found(list_))[0]
    assert sorted((f.kind, *f.places) for f in explanation.findings) == sorted(findings)


def test_a_run_end_for_end_is_one_finding_with_its_faces():
    wanted = reference("nut cone@1> ring spacer cone@2< flange")
    explanation = explanations(wanted, found("nut cone> spacer ring cone< flange"))[0]
    assert [f.kind for f in explanation.findings] == ["swapped"]
    wanted = reference("nut cone> ring< spacer> flange washer")
    explanation = explanations(wanted, found("nut spacer< ring> cone< flange washer"))[0]
    assert [f.kind for f in explanation.findings] == ["run_end_for_end"]
    assert explanation.price == end_for_end(3)


def test_other_explanations_come_with_what_separates_them():
    sizes = {"washer-thick": {"length": (3.0, 2.95, 3.05)}, "washer-thin": {"length": (2.0, 1.95, 2.05)}}
    pump = reference("washer-thick washer-thin impeller nut", sizes=sizes)
    least, other, *_ = explanations(pump, found("?washer impeller nut"))
    assert [f.places for e in (least, other) for f in e.findings] == [("washer-thin",), ("washer-thick",)]
    assert other.separated_by == (
        "measure the length of entry 1: 3.00 mm means washer thin missing, "
        "2.00 mm means washer thick missing (good to 0.23 mm or better)"
    )


def test_every_price_has_a_reason():
    assert all(price.reason for price in PRICES.values())


def test_a_long_clutch_pack_with_a_lost_plate_is_one_finding():
    pack = clutch(40)
    plates = [pack.place(name).part for name in pack.line]
    del plates[20]
    assert [f.kind for f in explanations(pack, found(" ".join(plates)))[0].findings] == ["missing"]


def kinds_and_price(ref: Reference, list_: Found) -> tuple:
    least = explanations(ref, list_)[0]
    return least.price, sorted(finding.kind for finding in least.findings)


@few
@given(cases(), st.randoms(use_true_random=False))
def test_relabelling_places_of_identical_parts_changes_nothing(case, rng):
    ref, list_, _ = case
    new = {}
    for part in dict.fromkeys(place.part for place in ref.places):
        names = [place.name for place in ref.places if place.part == part]
        new.update(zip(names, rng.sample(names, len(names))))
    places = tuple(replace(place, name=new[place.name]) for place in ref.places)
    stacks = tuple(
        Stack(name=s.name, items=tuple(new[name] for name in s.items), through=s.through) for s in ref.stacks
    )
    assert explanations(replace(ref, places=places, stacks=stacks), list_)[0].price == explanations(ref, list_)[0].price


@few
@given(cases())
def test_left_first_and_right_first_lists_give_the_same_findings(case):
    ref, list_, _ = case
    entries = [entry for entry in list_.entries if not entry.is_loose and not entry.tag]
    if any(entry.end is None for entry in entries):
        entries = [replace(entry, end=0) for entry in entries]
    line = [e for e in entries if e.end == 0] + [e for e in entries if e.end == 1][::-1]
    left = [replace(entry, end=0, number=n) for n, entry in enumerate(line, 1)]
    right = [replace(entry, end=1, number=n) for n, entry in enumerate(reversed(line), 1)]
    told_left, told_right = (
        kinds_and_price(ref, replace(list_, entries=tuple(side), finished=True)) for side in (left, right)
    )
    assert told_left[0] == told_right[0]


LONG = [f"part-{i}" for i in range(48)]
FACED = {f"part-{i}" for i in range(0, 48, 2)}
STRETCH = 12


def planted(kind: str, at: int) -> tuple[tuple[str, str], tuple[str, frozenset[str]]]:
    """One mistake near a place: how that stretch of the list is typed, and the finding that it must give."""
    start = at // STRETCH * STRETCH
    line = LONG[start : start + STRETCH]
    a = at - start
    one, other = line[a], line[a + 2]
    facing = dict.fromkeys(line, ">")
    places = {one}
    if kind == "missing":
        line.remove(one)
    elif kind == "extra":
        line.insert(a, f"stray-{at}")
        places = set()
    elif kind == "swapped":
        line[a], line[a + 2] = other, one
        places = {one, other}
    elif kind == "out_of_place":
        line.insert(a + 3, line.pop(a))
    elif kind == "run_moved":
        places = set(line[a : a + 2])
        line[a : a + 5] = [*line[a + 2 : a + 5], *line[a : a + 2]]
    else:
        one = line[a + a % 2]
        places, facing[one] = {one}, "<"
    text = " ".join(name + (facing[name] if name in FACED else "") for name in line)
    return text, (kind, frozenset(places))


def as_planted(mistakes: dict[int, tuple[str, int]]) -> tuple[Found, set]:
    """The whole list with at most one mistake in each stretch."""
    texts, findings = [], set()
    for stretch in range(len(LONG) // STRETCH):
        start = stretch * STRETCH
        if stretch in mistakes:
            kind, offset = mistakes[stretch]
            text, finding = planted(kind, start + offset)
            texts.append(text)
            findings.add(finding)
        else:
            texts.append(" ".join(name + (">" if name in FACED else "") for name in LONG[start : start + STRETCH]))
    return found(" ".join(texts)), findings


KINDS_FAR_APART = ("missing", "extra", "swapped", "out_of_place", "run_moved", "turned_round")
far_apart = st.dictionaries(
    st.integers(0, 3), st.tuples(st.sampled_from(KINDS_FAR_APART), st.integers(3, 5)), min_size=1
)


def findings_of(list_: Found) -> set:
    ref = reference(" ".join(name + (">" if name in FACED else "") for name in LONG))
    return {(f.kind, frozenset(f.places)) for f in explanations(ref, list_)[0].findings}


@settings(max_examples=12, deadline=None, derandomize=True)
@given(far_apart)
def test_mistakes_planted_far_apart_are_recovered_exactly(mistakes):
    list_, wanted = as_planted(mistakes)
    assert findings_of(list_) == wanted


@settings(max_examples=4, deadline=None, derandomize=True)
@given(far_apart)
def test_undoing_one_finding_removes_it_and_adding_it_again_adds_nothing_else(mistakes):
    whole = findings_of(as_planted(mistakes)[0])
    for stretch, mistake in mistakes.items():
        rest = findings_of(as_planted({s: m for s, m in mistakes.items() if s != stretch})[0])
        assert whole - rest == as_planted({stretch: mistake})[1] and rest <= whole
