"""The lines of a paragraph are those of the standard library."""

import textwrap

from hypothesis import given
from hypothesis import strategies as st

from stackcheck.paragraph import lines_of


@given(
    text=st.text("ab-, \n\té"),
    width=st.integers(1, 12),
    first=st.sampled_from(["", "- "]),
    then=st.sampled_from(["", "    "]),
)
def test_a_paragraph_is_broken_as_textwrap_breaks_it_at_blanks(text, width, first, then):
    assert lines_of(text, width, first=first, then=then) == textwrap.wrap(
        text, width, initial_indent=first, subsequent_indent=then, break_long_words=False, break_on_hyphens=False
    )
