"""The shape of a reference file: one closed pydantic table per heading. Meaning across tables: `reference_file`."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, create_model
from pydantic_core import PydanticCustomError

from stackcheck.formats.sizes import Angle, Length, SignedLength, Stiffness, Torque
from stackcheck.formats.source import Table, did_you_mean
from stackcheck.model.part import DUTIES, KINDS, SIZE_NAMES
from stackcheck.model.reference import SOURCE_KINDS


def one_of(known: tuple[str, ...] | list[str], what: str):
    """A validator for a word out of a list, with "did you mean"."""

    def check(value: Any) -> Any:
        if isinstance(value, str) and value not in known:
            raise PydanticCustomError(
                "wanted", "{what}", {"said": value, "what": f'unknown {what} "{value}"', "wanted": did_you_mean(value, list(known))}
            )
        return value

    return BeforeValidator(check)


def _listed(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value


Texts = Annotated[tuple[str, ...], BeforeValidator(_listed)]
Kind = Annotated[str, one_of(KINDS, "kind")]
SizeName = Annotated[str, one_of(tuple(SIZE_NAMES), "size")]


def _duty(value: Any) -> Any:
    if isinstance(value, str) and value.partition(":")[0].strip() not in DUTIES:
        name = value.partition(":")[0].strip()
        raise PydanticCustomError(
            "wanted", "{what}", {"said": value, "what": f'unknown duty "{name}"', "wanted": did_you_mean(name, list(DUTIES))}
        )
    return value


DutyText = Annotated[str, BeforeValidator(_duty)]


class SourceTable(Table):
    kind: Annotated[str, one_of(tuple(SOURCE_KINDS), "kind of source")]
    what: str = ""
    state: str = "draft"


class AssemblyTable(Table):
    id: str
    title: str
    revision: str
    ends: Annotated[tuple[str, str], BeforeValidator(_listed)]
    ends_seen_from: str
    source: SourceTable
    covers: str = ""
    cautions: Texts = ()
    replaced_by: str = ""
    note: str = ""


class _PartWords(Table):
    name: str
    kind: Kind | None = None
    number: str = ""
    accepts: Texts = ()
    also: Texts = ()
    standard: str = ""
    material: str = ""
    feature: str = ""
    same_both_ways: bool = False
    duty: Annotated[tuple[DutyText, ...], BeforeValidator(_listed)] = ()
    must_measure: Annotated[tuple[SizeName, ...], BeforeValidator(_listed)] = ()
    fixed: bool = False
    note: str = ""


SIGNED_SIZES = frozenset({"inner_standout"})
PartTable = create_model(
    "PartTable",
    __base__=_PartWords,
    **{name: ((SignedLength if name in SIGNED_SIZES else Length) | None, None) for name in SIZE_NAMES},
)


class PlaceItem(Table):
    place: str
    toward: str = ""
    count: Annotated[int, Field(ge=1, le=10_000)] = 1
    may_be_absent: str = ""


class GapItem(Table):
    gap: str
    least: SignedLength | None = None
    most: SignedLength | None = None
    clamped: bool = False
    set_by: str = ""
    source: str = ""


class RepeatItem(Table):
    repeat: Annotated[int, Field(ge=1, le=10_000)]
    of: Texts


class StackTable(Table):
    name: str
    order: Annotated[tuple[Any, ...], BeforeValidator(_listed)]
    through: Literal["", "inner rings", "outer rings"] = ""


class LimitTable(Table):
    what: str
    between: Annotated[tuple[str, str], BeforeValidator(_listed)]
    least: SignedLength | None = None
    most: SignedLength | None = None
    source: str = ""


class PairingTable(Table):
    what: str
    outer: Annotated[tuple[str, str], BeforeValidator(_listed)]
    inner: Annotated[tuple[str, str], BeforeValidator(_listed)]
    least: SignedLength | None = None
    most: SignedLength | None = None
    source: str = ""


class JointTable(Table):
    name: str
    clamps: Annotated[tuple[str, str], BeforeValidator(_listed)]
    thread: str = ""
    torque: Torque | None = None
    thread_condition: str = ""
    angle: Angle | None = None
    thread_stop: Length | None = None
    locked_by: str = ""
    note: str = ""


class SupportTable(Table):
    place: str
    stiffness: Stiffness | None = None
    free_position: SignedLength | None = None
    floating: bool = False
    pinched_after_settling: bool = False
    note: str = ""


class UnitTable(Table):
    name: str
    members: Texts


class ReferenceTables(Table):
    """The whole file: tables are checked one by one, so that a mistake in one hides none in another."""

    kind: Literal["reference assembly"]
    format: Literal[1]
    assembly: dict[str, Any]
    parts: dict[str, Any]
    stacks: list[Any]
    limits: list[Any] = []
    pairings: list[Any] = []
    joints: list[Any] = []
    supports: list[Any] = []
    units: dict[str, Any] = {}
