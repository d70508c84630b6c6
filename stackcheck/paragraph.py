"""Breaks a paragraph into lines, at its blanks alone.

As `textwrap` does it, which takes longer to load than a look-up takes.
"""

_BLANKS = dict.fromkeys(map(ord, "\t\n\v\f\r"), " ")


def lines_of(text: str, width: int, *, first: str = "", then: str = "") -> list[str]:
    """The lines of a paragraph, `first` before the first and `then` before the others.

    A word too long for a line has one of its own.

    >>> lines_of("collar, then washer", 12, first="- ", then="  ")
    ['- collar,', '  then', '  washer']
    """
    lines: list[str] = []
    line, words, blanks = first, 0, -1
    for word in text.expandtabs().translate(_BLANKS).split(" "):
        blanks += 1
        if not word:
            continue
        if len(line) + blanks + len(word) > width:
            if words:
                lines.append(line)
                line = then
            blanks = 0
        line, words, blanks = line + " " * blanks + word, words + 1, 0
    return [*lines, line] if words else []
