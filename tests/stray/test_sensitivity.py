"""Each prior halved and doubled: the sizes must decide what a part is, not what we believe before anybody measures.

`python -m tests.stray.sensitivity` does the same with 1,000 strays and prints the table of the manual.
"""

from functools import cache

import pytest

from stackcheck.stray import beliefs as data
from stackcheck.stray.hypotheses import ORIGINS, hypotheses
from tests.stray.sensitivity import FACTORS, ROOT, reweighed, scored, stories, turned
from tests.stray.simulation import cases

PRIORS = tuple(data.beliefs("prior"))
COUNT = 80
MOST_STORIES, MOST_SIMULATED = 2, 4
"""Verdicts on the object that one prior may turn: those of parts with one size or none, and of some in a hundred."""


@pytest.fixture(autouse=True)
def here(monkeypatch):
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)


@cache
def as_told():
    return stories()


@cache
def told():
    return scored(as_told())


@cache
def thrown():
    return scored((case.stray, case.bench) for case in cases(COUNT, 3))


@cache
def turned_by(prior, factor):
    """Of the stories, and of the simulated strays."""
    return turned(told(), prior, factor), turned(thrown(), prior, factor)


def test_every_origin_has_its_prior():
    assert set(PRIORS) == set(ORIGINS)


@pytest.mark.parametrize("factor", FACTORS)
@pytest.mark.parametrize("prior", PRIORS)
def test_no_prior_makes_one_thing_another(prior, factor):
    """A verdict may become less or more sure; what was identified as one thing is never identified as another."""
    assert [counts.other_thing for counts in turned_by(prior, factor)] == [0, 0]


@pytest.mark.parametrize("factor", FACTORS)
@pytest.mark.parametrize("prior", PRIORS)
def test_few_verdicts_on_the_object_turn(prior, factor):
    of_stories, of_simulated = turned_by(prior, factor)
    assert of_stories.objects <= MOST_STORIES
    assert of_simulated.objects <= MOST_SIMULATED


@pytest.mark.parametrize("prior", PRIORS)
def test_multiplying_the_shares_is_the_same_as_another_prior(prior, monkeypatch):
    """The table stands on this: a prior is a plain factor of every hypothesis of its origin."""
    (stray, bench), *_ = [each for each in as_told() if each[0].home_list]
    topics = data._by_topic()
    expected = {_name(each): each.share for each in reweighed(hypotheses(stray, bench), prior, 2.0)}
    monkeypatch.setattr(
        data, "_by_topic", lambda: topics | {"prior": topics["prior"] | {prior: 2 * topics["prior"][prior]}}
    )
    found = {_name(each): each.share for each in hypotheses(stray, bench)}
    assert found == pytest.approx(expected)


def _name(hypothesis):
    return hypothesis.origin, hypothesis.candidate
