"""Pages in a pipe: complete, within 80 columns, the same words as on a terminal."""

from hypothesis import given
from hypothesis import strategies as st

from stackcheck.present.blocks import Heading, Rows, Text, plain

words = st.lists(st.text("abcdefgh", min_size=1, max_size=12), min_size=1, max_size=40).map(" ".join)


@given(text=words, indent=st.integers(0, 8))
def test_no_line_of_a_paragraph_is_wider_than_the_page_and_no_word_is_lost(text, indent):
    page = plain([Text(text, mark="- ", indent=indent)])
    assert all(len(line) <= 80 for line in page.splitlines())
    assert page.split() == ["-", *text.split()]


@given(cells=st.lists(st.tuples(words, st.text("0123456789.", max_size=8)), min_size=1, max_size=6))
def test_a_table_wraps_its_wide_column_and_keeps_every_word(cells):
    page = plain([Rows(("what", "mm"), tuple(cells), right=(1,))])
    assert all(len(line) <= 80 for line in page.splitlines())
    assert sorted(page.split()) == sorted(" ".join(["what mm", *(f"{a} {b}" for a, b in cells)]).split())


def test_a_heading_stands_apart_from_what_comes_before():
    assert plain([Text("first"), Heading("NOT VERIFIED"), Text("cracks")]) == "first\n\nNOT VERIFIED\ncracks\n"


def test_columns_set_to_the_right_end_together():
    page = plain([Rows(("gap", "mm"), (("a", "9.50"), ("b", "10.25")), right=(1,))])
    assert len({len(line) for line in page.splitlines()}) == 1
