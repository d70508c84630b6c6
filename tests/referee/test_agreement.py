"""The engine against the referee: the same least price, by two methods that share nothing.

A sample; `python -m tests.referee.agree --cases 20000` judges as many as wanted and shows each difference in full.
"""

from __future__ import annotations

import pytest

from tests.referee.agree import judge, judged_text

CASES = 1000


@pytest.mark.parametrize("mistakes", [0, 1, 2, 3])
def test_the_engine_finds_the_least_price_or_says_that_it_may_not_have(mistakes):
    judged = [judge(7, number, mistakes=mistakes) for number in range(CASES // 4)]
    differing = [case for case in judged if not (case.agrees if case.engine.proved_least else case.within_its_bound)]
    assert not differing, "\n\n".join("\n".join(judged_text(case)) for case in differing)


@pytest.mark.parametrize("seed, number", [(21, 2773), (31, 5813), (31, 7917), (32, 2515)])
def test_a_case_that_once_differed_is_settled(seed, number):
    """Packs that single swaps might take to pieces, a piece grossly of another size beside a pack, three slips in two stacks."""
    case = judge(seed, number)
    assert case.agrees and case.engine.proved_least, "\n".join(judged_text(case))
