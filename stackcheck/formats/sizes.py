"""Sizes and listed words in files: the pydantic types that the tables of every file kind are made of.

Each reads one value or refuses it with what was said and what is wanted. Here too is the step from a written fit
("20 H8") to its limits.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Collection
from functools import lru_cache
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator
from pydantic_core import PydanticCustomError

from stackcheck.errors import SizeError
from stackcheck.formats.near_words import did_you_mean
from stackcheck.formats.readings import reading_of
from stackcheck.model.part import Amount, Reading, Size
from stackcheck.model.state import TEMPERATURE_WANTED, out_of_range
from stackcheck.tables import UnknownFit, fit_limits
from stackcheck.units import Written, read_limits


def refused(said: Any, what: str, wanted: str) -> PydanticCustomError:
    """What a validator raises; `Reader` turns it into a mistake with its line."""
    return PydanticCustomError(
        "wanted", "{what}", {"said": said if isinstance(said, str) else "", "what": what, "wanted": wanted}
    )


@lru_cache(maxsize=4096)  # a library says "30 mm ±0.1" a thousand times
def _size(text: str, may_be_negative: bool = False) -> Size:
    return size_of(read_limits(text, may_be_negative=may_be_negative))


def size_of(written: Written) -> Size:
    """The written text as a size with limits [mm]; a fit is looked up in ISO 286.
    Raises SizeError for an unknown fit.
    """
    if not written.fit:
        limits_from = "written" if written.least is not None else ""
        return Size(
            text=written.text,
            nominal_mm=written.nominal,
            least_mm=written.least,
            most_mm=written.most,
            limits_from=limits_from,
        )
    try:
        lower, upper = fit_limits(written.nominal, written.fit)
    except UnknownFit as problem:
        raise SizeError(written.fit, str(problem)) from None
    return Size(
        text=written.text,
        nominal_mm=written.nominal,
        least_mm=round(written.nominal + lower, 6),
        most_mm=round(written.nominal + upper, 6),
        limits_from=f"fit {written.fit} (ISO 286)",
    )


def _length(text: Any) -> Size:
    return _size(text) if isinstance(text, str) else size_of(read_limits(text))


def _extent(text: Any) -> Size:
    size = _length(text)
    if not size.low_mm > 0:
        raise SizeError(size.text, "a size is above 0: look at the figure and its limits, or leave it out")
    return size


def _signed_length(text: Any) -> Size:
    return _size(text, may_be_negative=True) if isinstance(text, str) else size_of(read_limits(text))


def _single(written: Written) -> Size:
    if written.least is not None or written.fit:
        raise SizeError(written.text, 'a limit is one figure, like "0.10 mm": least and most are written apart')
    return size_of(written)


def amount_of(dimension: str, text: Any) -> Amount:
    """A torque, force, temperature, ... as written. Raises SizeError."""
    written = read_limits(text, dimension=dimension, may_be_negative=dimension == "temperature")
    if written.fit:
        raise SizeError(written.fit, "a fit belongs to a length")
    return Amount(
        text=written.text, dimension=dimension, nominal=written.nominal, least=written.least, most=written.most
    )


def _above_nothing(amount: Amount, what: str, like: str) -> Amount:
    if not all(end is None or end > 0 for end in (amount.least, amount.nominal, amount.most)):
        raise SizeError(amount.text, f'{what} is above 0: write it like "{like}"')
    return amount


def _one_force(amount: Amount) -> Amount:
    if amount.least is not None or amount.most is not None:
        raise SizeError(amount.text, 'a limit is one figure, like "3 kN": least and most are written apart')
    return _above_nothing(amount, "a limit of a force", "3 kN")


def temperature_of(text: Any) -> Amount:
    """One temperature that answers are meant for. Raises SizeError."""
    amount = amount_of("temperature", text)
    if amount.least is not None:
        raise SizeError(amount.text, 'write one figure, like "60 °C"')
    if what := out_of_range(amount):
        raise SizeError(amount.text, f"it is {what}; name {TEMPERATURE_WANTED}")
    return amount


def warmth_of(text: Any) -> Amount:
    """How warm something was when it was measured, one figure or a range. Raises SizeError."""
    amount = amount_of("temperature", text)
    if what := out_of_range(amount):
        raise SizeError(amount.text, f"it is {what}; name {TEMPERATURE_WANTED}")
    return amount


def _reads(read: Callable[[Any], Any]) -> PlainValidator:
    def validate(value: Any) -> Any:
        try:
            return read(value)
        except SizeError as problem:
            raise PydanticCustomError("size", "{wanted}", {"said": problem.said, "wanted": problem.wanted}) from None

    return PlainValidator(validate)


Length = Annotated[Size, _reads(_length)]
Extent = Annotated[Size, _reads(_extent)]
"""A length that cannot be nothing, not even by its limits: an outside, a width, a wire."""
SignedLength = Annotated[Size, _reads(_signed_length)]
SingleLength = Annotated[Size, _reads(lambda text: _single(read_limits(text, may_be_negative=True)))]
"""A limit of a gap or of a clearance: one figure, below zero for an overlap."""
MeasuredLength = Annotated[Reading, _reads(reading_of)]
MeasuredGap = Annotated[Reading, _reads(lambda text: reading_of(text, may_be_zero=True))]
Torque = Annotated[Amount, _reads(lambda text: amount_of("torque", text))]
Angle = Annotated[Amount, _reads(lambda text: amount_of("angle", text))]
Stiffness = Annotated[
    Amount, _reads(lambda text: _above_nothing(amount_of("stiffness", text), "a stiffness", "50..70 N/mm"))
]
CrushForce = Annotated[
    Amount, _reads(lambda text: _above_nothing(amount_of("force", text), "a force that crushes", "10..25 kN"))
]
StaticRating = Annotated[
    Amount, _reads(lambda text: _above_nothing(amount_of("force", text), "a static rating", "6.55 kN"))
]
PairPreload = Annotated[
    Amount, _reads(lambda text: _above_nothing(amount_of("force", text), "the preload of a pair", "120..260 N"))
]
Temperature = Annotated[Amount, _reads(temperature_of)]
Warmth = Annotated[Amount, _reads(warmth_of)]
ForceWanted = Annotated[Amount, _reads(lambda text: _one_force(amount_of("force", text)))]
"""A limit of a force: one figure above nothing."""
TighteningTorque = Annotated[
    Amount, _reads(lambda text: _above_nothing(amount_of("torque", text), "a torque that tightens", "60 N·m"))
]


def one_of(known: Collection[str], what: str, also: Callable[[str], str] = lambda word: word) -> BeforeValidator:
    """A word out of a list, with "did you mean"; `also` leads other spellings to a word of the list."""

    def check(value: Any) -> Any:
        word = also(value) if isinstance(value, str) and value not in known else value
        if isinstance(word, str) and word not in known:
            raise refused(value, f'unknown {what} "{value}"', did_you_mean(value, list(known)))
        return word

    return BeforeValidator(check)


def _listed(value: Any) -> Any:
    if isinstance(value, str):
        raise refused(value, "a list is wanted", 'put it in square brackets: ["..."]')
    return tuple(value) if isinstance(value, list) else value


def _paired(value: Any) -> Any:
    if not isinstance(value, list) or len(value) != 2:
        raise refused("", "two texts are wanted", 'write both in square brackets: ["...", "..."]')
    return tuple(value)


def _dated(value: Any) -> Any:
    return value.isoformat() if isinstance(value, (datetime.date, datetime.datetime)) else value


Dated = Annotated[str, BeforeValidator(_dated)]
"""A day, as TOML writes one or as text."""
Said = Annotated[str, Field(min_length=1)]
"""A text that must say something."""
LISTED = BeforeValidator(_listed)
Texts = Annotated[tuple[str, ...], LISTED]
Pair = Annotated[tuple[str, str], BeforeValidator(_paired)]
