"""The comparison against public methods that know nothing of it: counts of mistakes on total orders of distinct parts."""

from random import Random

import networkx
import pytest
from rapidfuzz.distance import Indel

from stackcheck.compare import explanations, knots
from stackcheck.compare.task import longest_rising
from tests.builders import found, reference

LETTERS = "abcdefghijklmnopqrstuvwxyz"


def longest_increasing(values) -> int:
    """Length of the longest increasing subsequence, by the plain quadratic recurrence."""
    best: list[int] = []
    for i, value in enumerate(values):
        best.append(1 + max((best[j] for j in range(i) if values[j] < value), default=0))
    return max(best, default=0)


def item(position: int) -> knots.Item:
    return knots.Item(key=position, low=(position,), rank=(position,), group=position)


def settled_singly(line: list[int]) -> int:
    """How many parts are moved when each is moved by itself."""
    before = [sum(1 << j for j, other in enumerate(line) if other < value) for value in line]
    return len(knots._Knot([item(value) for value in line], before, knots.Budget()).singly().slips)


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
    graph.add_edges_from(
        (("earlier", i), ("later", j)) for i in range(9) for j in range(i + 1, 9) if line[i] > line[j]
    )
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
