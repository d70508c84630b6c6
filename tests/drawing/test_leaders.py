"""Leaders do not cross and labels do not overlap, whatever stands where."""

from itertools import combinations, pairwise

from hypothesis import given
from hypothesis import strategies as st

from stackcheck.drawing.leaders import placed
from stackcheck.drawing.picture import Label

stretches = st.tuples(st.floats(0, 150), st.floats(0, 30), st.floats(0, 40), st.floats(2, 16), st.integers(0, 2))


def label(start, length, radius, rank):
    return Label(
        half="found", mark="1", words=(), first_mm=start, second_mm=start + length, radius_mm=radius, rank=rank
    )


def set_out(spans, right=180.0):
    labels = [label(start, length, radius, rank) for start, length, radius, _, rank in spans]
    widths = {id(each): span[3] for each, span in zip(labels, spans)}
    return placed(
        labels,
        x=lambda along: along,
        width=lambda each: widths[id(each)],
        covered=lambda each, spot: 0,
        left=0.0,
        right=right,
    )


def crosses(a, b):
    """Whether two segments cross in a point inside both."""

    def side(p, q, r):
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(*a, b[0]) * side(*a, b[1]) < -1e-9 and side(*b, a[0]) * side(*b, a[1]) < -1e-9


@given(st.lists(stretches, max_size=40))
def test_labels_stand_in_the_sequence_of_their_points_and_never_overlap(spans):
    row, _ = set_out(spans)
    assert [each.anchor for each in row] == sorted(each.anchor for each in row)
    for a, b in pairwise(row):
        assert b.middle - a.middle >= (a.width + b.width) / 2 - 1e-6


@given(st.lists(stretches, max_size=25))
def test_no_two_leaders_cross(spans):
    row, _ = set_out(spans)
    lines = [((each.anchor, 50 - each.label.radius_mm), (each.anchor, 0.0), (each.middle, -7.0)) for each in row]
    for one, other in combinations(lines, 2):
        assert not any(crosses(a, b) for a in pairwise(one) for b in pairwise(other))


@given(st.lists(stretches, min_size=1, max_size=60))
def test_what_has_no_room_is_left_out_and_counted_the_least_needed_first(spans):
    row, dropped = set_out(spans)
    assert len(row) + dropped == len(spans)
    if dropped:
        kept, all_ranks = [each.label.rank for each in row], sorted(span[4] for span in spans)
        assert sorted(kept) == all_ranks[: len(kept)]


def test_a_label_alone_stands_over_its_point():
    row, _ = set_out([(80.0, 10.0, 5.0, 8.0, 2)])
    assert row[0].middle == row[0].anchor == 85.0
