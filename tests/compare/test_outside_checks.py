"""The comparison against public methods that know nothing of it: counts of mistakes on total orders of distinct parts."""

from random import Random

import networkx
import pytest
from rapidfuzz.distance import Indel

from stackcheck.compare import explanations
from stackcheck.compare.prices import PRICES
from stackcheck.compare.slip_search import SlipSearch
from stackcheck.compare.slips import Budget, Item
from stackcheck.compare.task import longest_rising
from tests.builders import found, reference

LETTERS = "abcdefghijklmnopqrstuvwxyz"


def longest_increasing(values) -> int:
    """Length of the longest increasing subsequence, by the plain quadratic recurrence."""
    best: list[int] = []
    for i, value in enumerate(values):
        best.append(1 + max((best[j] for j in range(i) if values[j] < value), default=0))
    return max(best, default=0)


def item(position: int) -> Item:
    return Item(key=position, low=(position,), rank=(position,), group=position)


def settled_singly(line: list[int]) -> int:
    """How many parts are moved when each is moved by itself."""
    before = [sum(1 << j for j, other in enumerate(line) if other < value) for value in line]
    return len(SlipSearch([item(value) for value in line], before, Budget()).singly().slips)


@pytest.mark.parametrize("seed", range(30))
def test_parts_to_move_singly_are_all_but_the_longest_increasing_subsequence(seed):
    """Fredman, Discrete Mathematics 11 (1975) 29-35: the length that patience sorting gives."""
    line = Random(seed).sample(range(9), 9)
    assert settled_singly(line) == 9 - longest_increasing(line)
    assert len(longest_rising(list(enumerate(line)))) == longest_increasing(line)


@pytest.mark.parametrize("seed", range(30))
def test_parts_to_move_singly_are_a_largest_matching_of_the_contradictions(seed):
    """Dilworth, Annals of Mathematics 51 (1950) 161-166, with König: a bipartite matching in networkx."""
    line = Random(1000 + seed).sample(range(9), 9)
    graph = networkx.Graph()
    graph.add_nodes_from(("earlier", i) for i in range(9))
    graph.add_nodes_from(("later", i) for i in range(9))
    graph.add_edges_from((("earlier", i), ("later", j)) for i in range(9) for j in range(i + 1, 9) if line[i] > line[j])
    matching = networkx.bipartite.maximum_matching(graph, top_nodes=[("earlier", i) for i in range(9)])
    assert settled_singly(line) == len(matching) // 2


@pytest.mark.parametrize("seed", range(20))
def test_missing_and_extra_parts_alone_are_the_insertions_and_deletions_of_rapidfuzz(seed):
    """Needleman and Wunsch, Journal of Molecular Biology 48 (1970) 443-453, with gaps only."""
    rng = Random(seed)
    wanted = list(LETTERS)
    came_off = [part for part in wanted if rng.random() > 0.08]
    came_off.insert(rng.randint(0, len(came_off)), "washer")
    findings = explanations(reference(" ".join(wanted)), found(" ".join(came_off)))[0].findings
    assert {f.kind for f in findings} <= {"missing", "extra"}
    assert len(findings) == Indel.distance(wanted, came_off)


def cheapest_by_single_moves(wanted: list[str], came_off: list[str]) -> int:
    """Who is who and what was moved in one integer programme: a part is missing, over, moved by itself, or stays.

    x says that piece p is the part of place s, k that it stayed there too; two that stayed never contradict each other.
    Solved by scipy's `milp` (HiGHS: Huangfu and Hall, Mathematical Programming Computation 10 (2018) 119-142).
    """
    numpy, optimize = pytest.importorskip("numpy"), pytest.importorskip("scipy.optimize")
    pairs = [(p, s) for p, part in enumerate(came_off) for s, place in enumerate(wanted) if part == place]
    if not pairs:
        return 100 * (len(wanted) + len(came_off))
    n = len(pairs)
    rows, most = [], []

    def at_most(limit: int, said: dict[int, int]) -> None:
        row = numpy.zeros(2 * n)
        for column, factor in said.items():
            row[column] = factor
        rows.append(row)
        most.append(limit)

    for side, size in ((0, len(came_off)), (1, len(wanted))):
        for one in range(size):
            at_most(1, {i: 1 for i, pair in enumerate(pairs) if pair[side] == one})
    for i, (p, s) in enumerate(pairs):
        at_most(0, {n + i: 1, i: -1})
        for j, (q, t) in enumerate(pairs):
            if p < q and s > t:
                at_most(1, {n + i: 1, n + j: 1})
    moved, over = PRICES["out_of_place"].points, PRICES["extra"].points + PRICES["missing"].points
    cost = numpy.array([moved - over] * n + [-moved] * n)
    answer = optimize.milp(
        cost, integrality=numpy.ones(2 * n), bounds=optimize.Bounds(0, 1),
        constraints=optimize.LinearConstraint(numpy.array(rows), ub=numpy.array(most)),
    )  # fmt: skip
    return round(answer.fun) + 100 * (len(wanted) + len(came_off))


@pytest.mark.parametrize("seed", range(60))
def test_an_answer_of_single_parts_only_costs_what_an_integer_programme_finds(seed):
    """And one of swaps and runs costs no more: pairing equal parts and finding what moved are one problem."""
    rng = Random(seed)
    wanted = [rng.choice("abcdef") for _ in range(rng.randint(3, 8))]
    came_off = list(wanted)
    for _ in range(rng.randint(1, 2)):
        part = came_off.pop(rng.randrange(len(came_off)))
        if rng.random() < 0.8:
            came_off.insert(rng.randint(0, len(came_off)), part)
    if rng.random() < 0.3:
        came_off.insert(rng.randint(0, len(came_off)), "z")
    places = " ".join(f"{part}@{number}" for number, part in enumerate(wanted))
    least = explanations(reference(places), found(" ".join(came_off)))[0]
    singly = cheapest_by_single_moves(wanted, came_off)
    assert least.bound <= singly
    assert least.price <= singly or not least.proved_least
    if least.proved_least and {finding.kind for finding in least.findings} <= {"missing", "extra", "out_of_place"}:
        assert least.price == singly
