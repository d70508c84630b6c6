"""Which years and serials something covers, and whether a machine lies inside.

"2008 to 2013", "2008..2013", "frames 400 and up", "up to 399", "2014": words before the figures are a name for them and
count where both sides have one ("B 400" is no "A 400").
"""

from __future__ import annotations

import re

from stackcheck.value import Value

_NUMBER = re.compile(r"\d{1,12}")
_UP = re.compile(r"\band (?:up|later|on|above)\b|\bor (?:later|more)\b|^\s*(?:from|since)\b|\+\s*$", re.IGNORECASE)
_DOWN = re.compile(r"\bup to\b|\buntil\b|\bbefore\b|\band (?:earlier|below|down)\b", re.IGNORECASE)
_LETTERS = re.compile(r"\b([A-Z]{1,4})[ -]?(?=\d)")


class Coverage(Value, kw_only=True):
    """From `first` to `last`, both inside; None for an open side. `text` as written."""

    text: str
    first: int | None = None
    last: int | None = None
    letters: str = ""

    def holds(self, said: str) -> bool | None:
        """Whether a year or serial lies inside; None where it has no figures to tell by."""
        numbers = _NUMBER.findall(said)
        if not numbers:
            return None
        letters = _letters(said)
        if self.letters and letters and letters != self.letters:
            return False
        number = int(numbers[-1])
        return (self.first is None or self.first <= number) and (self.last is None or number <= self.last)

    def meets(self, other: Coverage) -> bool:
        """Whether some machine lies in both."""
        if self.letters and other.letters and self.letters != other.letters:
            return False
        first = max((each.first for each in (self, other) if each.first is not None), default=None)
        last = min((each.last for each in (self, other) if each.last is not None), default=None)
        return first is None or last is None or first <= last


def read_coverage(text: str) -> Coverage | None:
    """The range of a text, None where it cannot be told.

    >>> texts = "2008 to 2013", "frames 400 and up", "up to 399", "2014", "before 400"
    >>> [(c.first, c.last) for c in map(read_coverage, texts)]
    [(2008, 2013), (400, None), (None, 399), (2014, 2014), (None, 399)]
    """
    numbers = [int(number) for number in _NUMBER.findall(text)]
    letters = _letters(text)
    if len(numbers) == 2 and numbers[0] <= numbers[1]:
        return Coverage(text=text, first=numbers[0], last=numbers[1], letters=letters)
    if len(numbers) != 1:
        return None
    if _UP.search(text):
        return Coverage(text=text, first=numbers[0], letters=letters)
    if _DOWN.search(text):
        return Coverage(text=text, last=numbers[0] - ("before" in text.lower()), letters=letters)
    return Coverage(text=text, first=numbers[0], last=numbers[0], letters=letters)


def _letters(text: str) -> str:
    match = _LETTERS.search(text)
    return match[1] if match else ""
