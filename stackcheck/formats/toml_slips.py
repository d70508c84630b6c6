"""What somebody did who wrote a line that is not TOML, and how to put it right.

tomllib speaks to programmers ("Cannot overwrite a value"); a mechanic wants to hear which sign is missing. Reasons by a
piece of tomllib's own words, each with what it comes from most often; the line itself tells more than the reason where
quotes are concerned.
"""

from __future__ import annotations

import re

from stackcheck.formats.positions import first_twice

_REASONS: tuple[tuple[str, str, str], ...] = (
    ("Unterminated string", "a text in quotes does not end", 'put " at both ends of the text'),
    ("Illegal character '\\n'", "a text in quotes does not end on its line", 'put " at both ends of the text'),
    ("Unescaped", "a backslash in a text means something else", "write / instead, or put the text in single quotes"),
    ("Invalid hex", "a backslash in a text means something else", "write / instead, or put the text in single quotes"),
    ("Escaped character", "a backslash in a text means something else",
     "write / instead, or put the text in single quotes"),
    ("Unclosed array", "a list does not end", "separate its entries by commas and put ] behind the last"),
    ("Unclosed inline table", "a table in braces does not end",
     "separate its keys by commas and put } behind the last"),
    ("Expected '=' after a key", "= is missing behind the key", 'a line reads key = "value"'),
    ("Expected ']]' at the end", "the heading does not end", "a heading reads [[off]] for each entry of a list"),
    ("Expected ']' at the end", "the heading does not end", "a heading reads [parts.collar]"),
    ("Expected newline", "something stands behind the value",
     'text stands in quotes, like "22.0 mm"; a remark begins with #'),
    ("Invalid date", "this is no date", 'write it as text, in quotes: "2025-03-31"'),
    ("Invalid value", "the value cannot be read",
     'text stands in quotes, like "22.0 mm"; yes and no are written true and false'),
    ("Invalid initial character", "this cannot be a key", "a key is made of letters, figures, _ and -"),
    ("Invalid statement", "this line cannot be read", 'a line reads key = "value"; a remark begins with #'),
    ("invalid character", "a sign stands here that no file can hold", "take the control character out"),
    ("Illegal character", "a sign stands here that no file can hold", "take the control character out"),
)  # fmt: skip
_TWICE = ("overwrite", "twice", "namespace", "Duplicate")
_CURLY = re.compile(r"[“”„‘’]")
_INCH = re.compile(r'=\s*"[^"]*\d"\s*[^\s,\]}#]')


def explain_slip(reason: str, text: str, line: str) -> tuple[str, str, tuple[int, int] | None]:
    """(what it is, what is wanted, which piece of the text to point at or None) for a refusal of tomllib.

    Args:
        reason: tomllib's own words.
        text: the whole file.
        line: the line where tomllib stopped.
    """
    if any(word in reason for word in _TWICE):
        return _stands_twice(text)
    if _CURLY.search(line):
        return "curly quotes cannot be read", 'use the plain sign: "', None
    if _INCH.search(line):
        return (
            'the inch sign " ends the text',
            "write in for inch, or put the text in single quotes: '1 1/2\" rule'",
            None,
        )
    if "(at end of document)" in reason:
        return "the file ends in the middle of something", "write the rest, or take the last line out", None
    for piece, what, wanted in _REASONS:
        if piece in reason:
            return what, wanted, None
    return "this line cannot be read", 'a line reads key = "value"; a heading stands in [brackets]', None


def _stands_twice(text: str) -> tuple[str, str, tuple[int, int] | None]:
    twice = first_twice(text)
    if twice is None:
        return "a key or heading stands here that says something else above", "give one of them another name", None
    path, first, second = twice
    line = text.count("\n", 0, first.key[0]) + 1
    said = text[slice(*second.key)]
    wanted = "give one of them another name, or take it out"
    if said.startswith("[") and (len(path) == 1 or isinstance(path[-1], int)):
        wanted = f"each entry of a list stands under double brackets: [[{path[0]}]]"
    return f"{said} stands already in line {line}", wanted, second.key
