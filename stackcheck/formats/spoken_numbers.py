"""Numbers in words, as a telephone takes them down: "forty-five", "point two nine", "fifteen sixteenths" -> figures.

Only what can hardly be anything else is turned into figures: "a", "half" and most times "one" alone stay words, "point"
needs a digit word behind it. The caller keeps the typed words; this only says where which figure stands.
"""

from __future__ import annotations

import re

from stackcheck.pattern import Pattern

_DIGITS = ("nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_UNDER_TWENTY = (
    *_DIGITS,
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
)
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_VALUE = {word: value for value, word in enumerate(_UNDER_TWENTY)} | {
    word: 10 * (place + 2) for place, word in enumerate(_TENS)
}
_VALUE |= {"zero": 0, "oh": 0}
_BELOW = {
    "half": 2, "halves": 2, "third": 3, "quarter": 4, "eighth": 8, "sixteenth": 16,
    "thirty-second": 32, "thirty second": 32, "sixty-fourth": 64, "sixty fourth": 64,
}  # fmt: skip

_GAP = r"[ -]"
_DIGIT = rf"(?:{'|'.join((*_DIGITS, 'zero', 'oh'))})"
_SMALL = rf"(?:{'|'.join(sorted(_UNDER_TWENTY, key=len, reverse=True))})"
_TEN = rf"(?:{'|'.join(_TENS)})"
_TO_99 = rf"(?:{_TEN}(?:{_GAP}{_DIGIT})?|{_SMALL}|zero)"
_WHOLE = rf"(?:{_DIGIT} hundred(?: and)?(?: {_TO_99})?|{_TO_99})"
_UNDER = rf"(?:{'|'.join(sorted(_BELOW, key=len, reverse=True))})s?"
_OVER = rf"(?:{_TO_99}|an?)"
_UNIT = r"(?:mm|millimet(?:re|er)s?|inch(?:es)?|in|thou)"

_SPOKEN = Pattern(
    rf"\b(?:"
    rf"(?P<whole_too>{_WHOLE}) and (?P<over_too>{_OVER})[ -](?P<under_too>{_UNDER})"
    rf"|(?P<over>{_TO_99})[ -](?P<under>{_UNDER})(?: of)?(?: an?)?(?= {_UNIT}\b)"
    rf"|(?P<over_only>{_TO_99})[ -](?P<under_only>{_UNDER})"
    rf"|(?:an? )?(?P<single>half|quarter|third|eighth|sixteenth)(?: of)?(?: an?)?(?= {_UNIT}\b)"
    rf"|an? (?P<unit>inch|millimet(?:re|er)) and (?P<unit_over>{_OVER})[ -](?P<unit_under>{_UNDER})"
    rf"|(?:(?P<before>{_WHOLE}) )?(?:decimal |point )(?P<after>{_DIGIT}(?:{_GAP}{_DIGIT})*)"
    rf"|(?P<number>{_WHOLE})"
    rf")\b",
    re.IGNORECASE,
)
_FIGURE_POINT = Pattern(r"\b(?P<whole>\d+ )?point (?P<digits>\d+)\b", re.IGNORECASE)
_ONE_THING = Pattern(r"\s*one (?!of\b|at\b|side\b|end\b|is\b|was\b|more\b)[a-z]", re.IGNORECASE)
_ONE_UNIT = Pattern(rf"one (?={_UNIT}\b)", re.IGNORECASE)


def spoken_numbers(text: str) -> list[tuple[int, int, str]]:
    """(start, end, figure) of every number in words, in the sequence of the text.

    >>> spoken_numbers("forty-five od half a millimetre ring")
    [(0, 10, '45'), (14, 20, '1/2')]
    >>> spoken_numbers("three shims point two nine")
    [(0, 5, '3'), (12, 26, '0.29')]
    """
    found = []
    for match in _SPOKEN.finditer(text):
        starts = not text[: match.start()].strip() and _ONE_THING.match(text)
        if match.group().lower() != "one" or starts or _ONE_UNIT.match(text, match.start()):
            found.append((match.start(), match.end(), _figure(match)))
    for match in _FIGURE_POINT.finditer(text):  # a telephone often writes the digits itself: "point 29"
        found.append((match.start(), match.end(), f"{(match['whole'] or '0').strip()}.{match['digits']}"))
    return sorted(found)


def _figure(match: re.Match[str]) -> str:
    said = {name: words.lower() for name, words in match.groupdict().items() if words}
    if "whole_too" in said:
        return f"{_whole(said['whole_too'])} {_over(said['over_too'])}/{_under(said['under_too'])}"
    if "unit" in said:
        return f"1 {_over(said['unit_over'])}/{_under(said['unit_under'])} {said['unit']}"
    if "single" in said:
        return f"1/{_under(said['single'])}"
    if "after" in said:
        digits = "".join(str(_VALUE[word]) for word in re.split(_GAP, said["after"]))
        return f"{_whole(said['before']) if 'before' in said else 0}.{digits}"
    if "number" in said:
        return str(_whole(said["number"]))
    over, under = said.get("over") or said["over_only"], said.get("under") or said["under_only"]
    return f"{_over(over)}/{_under(under)}"


def _whole(words: str) -> int:
    total = 0
    for word in re.split(_GAP, words):
        if word == "hundred":
            total *= 100
        elif word != "and":
            total += _VALUE[word]
    return total


def _over(words: str) -> int:
    return 1 if words in ("a", "an") else _whole(words)


def _under(words: str) -> int:
    return _BELOW.get(words) or _BELOW[words.removesuffix("s")]
