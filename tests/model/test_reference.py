"""The partial order of a reference, against networkx."""

from itertools import pairwise

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.model.reference import SequenceLoopError
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
