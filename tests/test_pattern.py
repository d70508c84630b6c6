"""A pattern that waits is the pattern that `re` compiles."""

import ast
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import stackcheck
from stackcheck.formats.words import TYPED, kinds_in
from stackcheck.pattern import Pattern


@given(text=st.text("ab 1"))
def test_a_pattern_finds_what_the_compiled_one_finds(text):
    waiting, compiled = Pattern("A(b*)", re.IGNORECASE), re.compile("A(b*)", re.IGNORECASE)
    assert [match.groups() for match in waiting.finditer(text)] == [match.groups() for match in compiled.finditer(text)]
    assert waiting.sub("-", text) == compiled.sub("-", text)
    assert waiting.pattern == compiled.pattern


def test_a_pattern_that_cannot_be_is_told_where_it_is_used():
    with pytest.raises(re.error):
        Pattern("(").search("")


FORMATS = Path(stackcheck.__file__).parent / "formats"

PHRASES = [phrase for phrases in TYPED.values() for phrase in phrases]


@given(
    words=st.lists(st.sampled_from([*PHRASES, "s", "es", "old", "under", ",", "NUT", "x"]), max_size=6),
    between=st.sampled_from([" ", "-", ""]),
)
def test_the_phrases_in_a_text_are_those_that_a_pattern_of_all_phrases_finds(words, between):
    """Only those that the text holds are looked for."""
    text = between.join(words)
    longest_first = sorted(PHRASES, key=lambda phrase: -len(phrase))
    every = re.compile("|".join(rf"\b{re.escape(phrase)}(?:e?s)?\b" for phrase in longest_first), re.IGNORECASE)
    ends = [match.end() for match in every.finditer(text)]
    assert [end for _, end, _ in kinds_in(text)] == [
        end for end, start in zip(ends, [*[match.start() for match in every.finditer(text)][1:], None])
        if start is None or not re.fullmatch("[ -]", text[end:start])
    ]  # fmt: skip


def _compiled_at_import(module):
    """Lines at the head of a module on which `re` compiles, outside every function."""
    heads = (node for node in module.body if not isinstance(node, (ast.FunctionDef, ast.ClassDef)))
    return [
        call.lineno
        for head in heads
        for call in ast.walk(head)
        if isinstance(call, ast.Call) and ast.unparse(call.func) == "re.compile"
    ]


def test_no_module_of_the_bench_compiles_a_pattern_when_it_is_loaded():
    """One line typed at the bench needs few of its patterns, and compiling all of them takes as long as the start."""
    modules = [*FORMATS.glob("bench_*.py"), *(FORMATS / f"{name}.py" for name in ("spoken_numbers", "typed_text"))]
    assert len(modules) > 10
    found = {path.name: lines for path in modules if (lines := _compiled_at_import(ast.parse(path.read_text())))}
    assert found == {}
