"""The rules that make identified, shortlist or unknown, and what counts as one answer."""

import pytest

from stackcheck.stray import beliefs as data
from stackcheck.stray.bench import Bench
from stackcheck.stray.candidates import standard
from stackcheck.stray.decide import identity, origin
from stackcheck.stray.hypotheses import hypotheses
from stackcheck.stray.seen import Stray, Taken

EMPTY = Bench(assemblies=())


def washer(bore, outside, length, u=0.005, **looks):
    sizes = {"bore": bore, "outside": outside, "length": length}
    return Stray(
        what="washer", kind="washer",
        taken=tuple(Taken(name=n, text=f"{v}", value_mm=v, u_mm=max(u, 0.03) if n == "bore" else u, how="micrometer") for n, v in sizes.items()),
        **looks,
    )  # fmt: skip


def test_shares_sum_to_one_and_the_unknown_is_always_among_them():
    shares = hypotheses(washer(17.1, 29.8, 3.0), EMPTY)
    assert sum(hypothesis.share for hypothesis in shares) == pytest.approx(1)
    assert any(hypothesis.candidate is None for hypothesis in shares)


def test_washers_of_equal_sizes_are_one_class_named_with_its_members():
    """Two standards that share every size of M16: no measurement proves one of them."""
    decision = identity(washer(17.1, 29.8, 3.0), hypotheses(washer(17.1, 29.8, 3.0), EMPTY))
    assert decision.verdict == "identified"
    assert set(decision.named[0].names) == {"ISO 7089 M16", "ISO 7090 M16"}


def test_a_chamfer_that_was_looked_for_names_one_member():
    stray = washer(17.1, 29.8, 3.0, features=(("chamfer", True),))
    assert identity(stray, hypotheses(stray, EMPTY)).named[0].names == ("ISO 7090 M16",)


def test_a_thing_of_no_known_size_is_unknown():
    stray = washer(19.3, 44.1, 7.7)
    shares = hypotheses(stray, EMPTY)
    assert identity(stray, shares).verdict == origin(stray, shares).verdict == "unknown"


def test_a_kind_alone_identifies_nothing():
    stray = Stray(what="washer", kind="washer")
    assert identity(stray, hypotheses(stray, EMPTY)).verdict == "unknown"


@pytest.mark.parametrize("factor", [1 / 3, 3])
@pytest.mark.parametrize("name", ["here", "elsewhere", "spare", "standard", "substitute", "piece", "unknown"])
def test_the_sizes_decide_and_not_the_priors(name, factor, monkeypatch):
    """Each prior three times larger and smaller: the same object is named."""
    topics = data._by_topic()
    other = topics | {"prior": topics["prior"] | {name: topics["prior"][name] * factor}}
    monkeypatch.setattr(data, "_by_topic", lambda: other)
    stray = washer(17.1, 29.8, 3.0)
    assert identity(stray, hypotheses(stray, EMPTY)).named[0].names == ("ISO 7089 M16", "ISO 7090 M16")


def test_classes_are_computed_from_the_tables():
    """Chamfered and plain washers share sizes over part of their range: from M5 on, where both exist."""
    by_object: dict[tuple, set[str]] = {}
    for item in standard():
        by_object.setdefault(item.object, set()).add(item.name)
    shared = {names for names in map(frozenset, by_object.values()) if len(names) > 1}
    assert frozenset({"ISO 7089 M16", "ISO 7090 M16"}) in shared
    assert not any({"ISO 7089 M16", "ISO 7091 M16"} <= names for names in shared)


def test_a_thread_of_the_second_choice_is_rarer_than_its_neighbours():
    """A table that learns M18 and M22 must not make its everyday sizes less likely than before."""
    weights = {item.name: item.weight for item in standard()}
    assert weights["ISO 7089 M16"] == weights["ISO 7089 M20"] == 10
    assert weights["ISO 7089 M18"] == weights["ISO 7089 M22"] == weights["ISO 7089 M3.5"] == 2


def test_every_belief_has_a_reason():
    for file in ("beliefs.csv", "commonness.csv", "shop.csv"):
        rows = data.records(file)
        assert rows
        assert all(row["reason"].strip() for row in rows)


def test_priors_of_all_origins_share_one():
    assert sum(data.beliefs("prior").values()) == pytest.approx(1)


@pytest.mark.parametrize(
    ("stray", "why"),
    [
        (washer(17.1, 30.1, 3.0, u=0.06), "coarse"),
        (washer(17.1, 29.8, 2.35, conditions=("worn",)), "worn"),
        (washer(17.1, 29.8, 3.0), ""),
    ],
)
def test_a_single_answer_that_is_not_identified_has_its_reason(stray, why):
    """What a coarse tool alone explains is no wear, and what only wear explains no fault of the tool."""
    decision = identity(stray, hypotheses(stray, EMPTY))
    assert len(decision.named) == 1
    assert (decision.unproven, decision.verdict == "identified") == (why, why == "")
