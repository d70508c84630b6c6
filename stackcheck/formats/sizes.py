"""Sizes in files: pydantic types that read a size text, and the step from a written fit (20 H8) to its limits."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import PlainValidator
from pydantic_core import PydanticCustomError

from stackcheck.errors import SizeError
from stackcheck.model.part import Amount, Reading, Size
from stackcheck.tables import UnknownFit, fit_limits
from stackcheck.units import Written, read_limits, read_reading


def _said(problem: SizeError) -> PydanticCustomError:
    return PydanticCustomError("size", "{wanted}", {"said": problem.said, "wanted": problem.wanted})


def size_of(written: Written) -> Size:
    """The written text as a size with limits [mm]; a fit is looked up in ISO 286. Raises SizeError for an unknown fit."""
    if not written.fit:
        limits_from = "written" if written.least is not None else ""
        return Size(
            text=written.text, nominal_mm=written.nominal, least_mm=written.least, most_mm=written.most, limits_from=limits_from
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


def _length(value: Any) -> Size:
    try:
        return size_of(read_limits(value))
    except SizeError as problem:
        raise _said(problem) from None


def _signed_length(value: Any) -> Size:
    try:
        return size_of(read_limits(value, may_be_negative=True))
    except SizeError as problem:
        raise _said(problem) from None


def _reading(value: Any) -> Reading:
    try:
        read = read_reading(value)
    except SizeError as problem:
        raise _said(problem) from None
    return Reading(
        text=read.text, value_mm=read.value_mm, good_to_mm=read.good_to_mm, how=read.how, readings_mm=read.readings_mm
    )


def _amount(dimension: str):
    def read(value: Any) -> Amount:
        try:
            written = read_limits(value, dimension=dimension, may_be_negative=dimension == "temperature")
        except SizeError as problem:
            raise _said(problem) from None
        return Amount(
            text=written.text, dimension=dimension, nominal=written.nominal, least=written.least, most=written.most
        )

    return read


Length = Annotated[Size, PlainValidator(_length)]
SignedLength = Annotated[Size, PlainValidator(_signed_length)]
MeasuredLength = Annotated[Reading, PlainValidator(_reading)]
Torque = Annotated[Amount, PlainValidator(_amount("torque"))]
Angle = Annotated[Amount, PlainValidator(_amount("angle"))]
Stiffness = Annotated[Amount, PlainValidator(_amount("stiffness"))]
