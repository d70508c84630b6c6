"""The partial order of a reference, against networkx."""

from itertools import pairwise

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.model.limits import Limit
from stackcheck.model.reference import Gap, SequenceLoopError
from stackcheck.value import replace
from tests.builders import reference

NAMES = "abcdefgh"
stacks = st.lists(st.lists(st.sampled_from(NAMES), min_size=2, max_size=6, unique=True), min_size=1, max_size=4)


@given(stacks)
def test_the_line_is_the_lexicographic_sort_of_the_graph_and_a_loop_in_it_cannot_be_built(lines):
    graph = networkx.DiGraph(pair for line in lines for pair in pairwise(line))
    texts = [" ".join(line) for line in lines]
    if networkx.is_directed_acyclic_graph(graph):
        built = reference(*texts)
        written = {place.name: index for index, place in enumerate(built.places)}
        assert list(built.line) == list(networkx.lexicographical_topological_sort(built.graph, key=written.__getitem__))
        assert set(built.graph.edges) == set(graph.edges)
    else:
        with pytest.raises(SequenceLoopError) as raised:
            reference(*texts)
        places = raised.value.places
        assert all(graph.has_edge(a, b) for a, b in zip(places, (*places[1:], places[0])))


def test_two_stacks_that_share_two_places_form_a_loop():
    loop = reference("leg a b leg2", "leg frame leg2").loops[0]
    assert (loop.start, loop.end, set(loop.open_path), set(loop.closed_path)) == ("leg", "leg2", {"frame"}, {"a", "b"})


def test_a_gap_with_limits_that_lies_in_no_loop_is_told_and_left_to_measuring():
    """The beginner's way to write a gap: in the one stack, with nothing that closes it."""
    plain = reference("leg a b leg2")
    gap = Gap(name="free play", least_mm=0.05, most_mm=0.3)
    stack = replace(plain.stacks[0], items=("leg", "a", gap, "b", "leg2"))
    (loop,) = replace(plain, stacks=(stack,)).loops
    assert (loop.name, loop.gap_between, loop.least_mm, loop.most_mm) == ("free play", ("a", "b"), 0.05, 0.3)
    assert loop.set_by


def test_a_limit_between_places_that_are_no_neighbours_is_told_too():
    limited = replace(
        reference("leg a b leg2"), limits=(Limit(what="leg to b", between=("leg", "b/left"), most_mm=9.0),)
    )
    assert [(loop.name, loop.start, loop.end) for loop in limited.loops] == [("leg to b", "leg", "b")]
