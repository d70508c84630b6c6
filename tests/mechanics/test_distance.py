"""Distances between faces: along one stack, from ring to ring of a bearing, and by the chain of fewest parts."""

from __future__ import annotations

from itertools import combinations, pairwise
from pathlib import Path

import networkx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.chain import distance
from stackcheck.mechanics.distance import distance_in
from stackcheck.mechanics.lengths import part_length
from stackcheck.model.reference import Gap, Reference
from stackcheck.value import replace
from tests.builders import reference
from tests.mechanics.small import axle_hub, mirrored, row, rows

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")


def faces_as_a_graph(reference: Reference) -> networkx.Graph:
    """The faces of a reference and the parts between them, built again from the description alone.

    A face is (place, ring, end); an edge weighs the parts that it passes: 0 where two parts touch, 1 through a part, 1
    through each half of a bearing ring or from back to back of a taper bearing, 1000 through a part of which no length is known.
    """
    graph = networkx.Graph()
    open_at = {frozenset(loop.gap_between) for loop in reference.loops if loop.stated}
    for stack in reference.stacks:
        for place in stack.places:
            part = reference.part_at(place)
            ring = stack.through if "bearing" in part.kind else ""
            first, second, middle = (place, ring, "first"), (place, ring, "second"), (place, "", "middle")
            graph.add_nodes_from((first, second))
            known = part_length(part, stack.through) is not None
            if known or not part.fixed:
                graph.add_edge(first, second, parts=1 if known else 1000)
            if part.kind == "taper bearing" and part.size("inner_width") is not None:
                ends = ("first", "second") if reference.place(place).facing == "second" else ("second", "first")
                backs = ((place, ring, end) for ring, end in zip(("inner rings", "outer rings"), ends))
                graph.add_edge(*backs, parts=1)  # its width lies between the backs of its two rings
            elif "bearing" in part.kind:
                graph.add_edge(first, middle, parts=1)
                graph.add_edge(middle, second, parts=1)
        for a, b in pairwise(stack.items):
            if not isinstance(a, Gap) and not isinstance(b, Gap) and frozenset((a, b)) not in open_at:
                ring = {name: stack.through if "bearing" in reference.part_at(name).kind else "" for name in (a, b)}
                graph.add_edge((a, ring[a], "second"), (b, ring[b], "first"), parts=0)
    return graph


def fewest_parts(reference: Reference, graph: networkx.Graph, a: str, b: str) -> int | None:
    """By networkx: how many parts the shortest chain between the faces passes that look at one another."""
    starts = [node for node in graph if node[0] == a and node[2] == "second"]
    ends = [node for node in graph if node[0] == b and node[2] == "first"]
    lengths = [
        networkx.dijkstra_path_length(graph, start, end, weight="parts")
        for start in starts
        for end in ends
        if networkx.has_path(graph, start, end)
    ]
    return min(lengths, default=None)


@pytest.mark.parametrize("id", LIBRARY.files)
def test_the_chain_has_as_few_parts_as_the_one_that_networkx_finds(id):
    """Dijkstra stands twice: here by a library that many people use, in the package in a dozen lines."""
    reference = LIBRARY.reference(id)
    if any(part.size("inner_standout") for part in reference.parts):
        pytest.skip("its rings are joined by their stand-out, which is no part")
    graph, arrangement = faces_as_a_graph(reference), as_wanted(reference)
    compared = 0
    for a, b in list(combinations(reference.line, 2))[::3]:
        lengths = distance_in(arrangement, a, b)
        parts = fewest_parts(reference, graph, a, b)
        if parts is None:
            assert lengths.missing == (f"a chain of parts that touch from {a} to {b}",), (a, b)
        else:
            assert len(lengths.terms) + 1000 * len(lengths.missing) == parts, (a, b)
            compared += 1
    assert compared > 0


@given(rows(), st.data())
def test_distances_along_one_stack_add_up(lengths, data):
    ref = row(lengths)
    a, b, c = (f"{data.draw(st.sampled_from(ref.line))}/{data.draw(st.sampled_from(ref.ends))}" for _ in range(3))
    apart = {(x, y): distance(ref, x, y).total.nominal_mm for x, y in ((a, b), (b, c), (a, c), (c, a))}
    assert apart[a, b] + apart[b, c] == apart[a, c]
    assert apart[a, c] == -apart[c, a]


@given(rows(), st.data())
def test_a_distance_seen_from_the_other_side_has_the_other_sign(lengths, data):
    ref = row(lengths)
    a, b = (f"{data.draw(st.sampled_from(ref.line))}/{data.draw(st.sampled_from(ref.ends))}" for _ in range(2))
    assert distance(mirrored(ref), a, b).total.nominal_mm == -distance(ref, a, b).total.nominal_mm


def test_a_bearing_is_crossed_at_the_plane_of_its_balls():
    """Inner ring 20 wide, outer 16, middle in middle: 18 + 20/2 + 16/2 = 36 from the leg to the hub."""
    ref = axle_hub(bearing={"length": (21.0,), "inner_width": (20.0,), "outer_width": (16.0,)})
    across = distance(ref, "leg@left", "hub")
    assert across.total.nominal_mm == 36.0
    assert [term.name for term in across.terms] == [
        "collar short", "bearing, half of the inner ring", "bearing, half of the outer ring",
    ]  # fmt: skip


def test_a_bearing_is_crossed_by_the_stand_out_of_its_inner_ring_where_that_is_given():
    """The inner ring stands 1.5 out toward the first end: its face lies 1.5 before that of the outer ring.

    From the leg to the outer ring's face on the hub's side: 18 + 1.5 + 16 = 35.5.
    """
    ref = axle_hub(
        bearing={"length": (21.0,), "inner_width": (20.0,), "outer_width": (16.0,), "inner_standout": (1.5,)}
    )
    assert distance(ref, "leg@left", "hub").total.nominal_mm == 35.5


def test_two_faces_that_nothing_joins_have_no_distance():
    """The gap at the right leg stays open and there is no fork here to go round by."""
    ref = axle_hub()
    ref = replace(ref, stacks=ref.stacks[:2])
    assert distance(ref, "leg@left", "leg@right").needs == ("a chain of parts that touch from leg@left to leg@right",)


def test_a_chain_goes_round_a_part_of_unknown_length_where_it_can():
    """Three known parts one way, one of unknown length the other."""
    sizes = {"ring": {"length": (5.0,)}}
    ref = reference("leg@left! ring@1 ring@2 ring@3 leg@right!", "leg@left! tube leg@right!", sizes=sizes)
    assert distance(ref, "leg@left", "leg@right").total.nominal_mm == 15.0
    assert distance(replace(ref, stacks=ref.stacks[1:]), "leg@left", "leg@right").needs == ("length of tube",)


@pytest.mark.parametrize(
    "face, told", [("sprocket", 'no place "sprocket"'), ("hub/top", "named after an end, left or right")]
)
def test_a_face_that_is_not_there_is_refused(face, told):
    with pytest.raises(ValueError, match=told):
        distance(axle_hub(), "leg@left", face)
