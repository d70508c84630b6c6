"""The shape of a reference file: one closed pydantic table per heading. Meaning across tables: `reference_file`."""

from typing import Annotated, Any, ClassVar, Literal

from pydantic import AfterValidator, Field, create_model

from stackcheck.formats.sections import SectionTable, ShankTable
from stackcheck.formats.sizes import (
    LISTED,
    Angle,
    CrushForce,
    Dated,
    Extent,
    ForceWanted,
    Length,
    Pair,
    PairPreload,
    Said,
    SignedLength,
    SingleLength,
    StaticRating,
    Stiffness,
    Temperature,
    Texts,
    TighteningTorque,
    Torque,
    one_of,
    refused,
)
from stackcheck.formats.source import Table, did_you_mean
from stackcheck.formats.words import CHOSEN, SIZES_ALSO_CALLED
from stackcheck.model.caution import BANK
from stackcheck.model.part import DUTIES, KINDS, SIZE_NAMES, Amount
from stackcheck.model.reference import SOURCE_KINDS

Degrees = Annotated[int | float, Field(ge=0, lt=360)]
Coefficient = Annotated[int | float, Field(gt=0, le=1.5)]
Count = Annotated[int, Field(ge=1, le=10_000)]
Kind = Annotated[str, one_of(KINDS, "kind", also=lambda word: CHOSEN.get(word.strip().lower(), word))]
SizeName = Annotated[str, one_of(SIZE_NAMES, "size")]


def _duty(value: str) -> str:
    name = value.partition(":")[0].strip()
    if name not in DUTIES:
        raise refused(value, f'unknown duty "{name}"', did_you_mean(name, list(DUTIES)))
    return value


def _slant(value: Amount) -> Amount:
    ends = [value.nominal if end is None else end for end in (value.least, value.most)]
    if not 0 < min(ends) <= max(ends) < 90:
        raise refused(
            value.text, "a contact angle lies between 0 and 90 degrees", 'write it like "12.95 deg" or "10..16 deg"'
        )
    return value


def _friction(value: tuple[float, ...]) -> tuple[float, ...]:
    if value and (len(value) not in (2, 3) or sorted(value) != list(value)):
        raise refused("", "friction is a range", "write two or three figures, the least first: [0.10, 0.14, 0.20]")
    return tuple(map(float, value))


class SourceTable(Table):
    kind: Annotated[str, one_of(SOURCE_KINDS, "kind of source")]
    what: str = ""
    state: str = "draft"


class AssemblyTable(Table):
    id: Said
    title: Said
    revision: Said
    ends: Pair
    ends_seen_from: Said
    source: SourceTable
    covers: str = ""
    years: str = ""
    serials: str = ""
    cautions: Annotated[tuple[Annotated[str, one_of(BANK, "caution")], ...], LISTED] = ()
    replaced_by: str = ""
    note: str = ""

    examples: ClassVar = {
        "ends": 'ends = ["left", "right"]',
        "source": 'source = { kind = "own record", state = "draft" }',
    }


class _PartWords(Table):
    name: Said
    kind: Kind | None = None
    number: str = ""
    accepts: Texts = ()
    also: Texts = ()
    standard: str = ""
    sections: Annotated[tuple[SectionTable, ...], LISTED] = ()
    material: str = ""
    stiffness: Stiffness | None = None
    coils: Annotated[float, Field(gt=0, le=200)] | None = None
    waves: Annotated[int, Field(ge=2, le=60)] | None = None
    rollers: Annotated[int, Field(ge=1, le=200)] | None = None
    balls: Annotated[int, Field(ge=3, le=200)] | None = None
    static_rating: StaticRating | None = None
    contact_angle: Annotated[Angle, AfterValidator(_slant)] | None = None
    crush_force: CrushForce | None = None
    pair_preload: PairPreload | None = None
    feature: str = ""
    same_both_ways: bool = False
    duty: Annotated[tuple[Annotated[str, AfterValidator(_duty)], ...], LISTED] = ()
    must_measure: Annotated[tuple[SizeName, ...], LISTED] = ()
    fixed: bool = False
    note: str = ""

    also_called: ClassVar = SIZES_ALSO_CALLED


SIGNED_SIZES = frozenset({"inner_standout"})
MAY_BE_NOTHING = frozenset({"radial_clearance", "axial_play", "pair_play"})
"""Sizes of a bearing that may be 0."""


def _read_as(name: str) -> Any:
    return SignedLength if name in SIGNED_SIZES else Length if name in MAY_BE_NOTHING else Extent


PartTable = create_model(
    "PartTable",
    __base__=_PartWords,
    **{name: (_read_as(name) | None, None) for name in SIZE_NAMES},
)


class PlaceItem(Table):
    place: Said
    toward: str = ""
    count: Count = 1
    may_be_absent: str = ""


class GapItem(Table):
    gap: Said
    least: SingleLength | None = None
    most: SingleLength | None = None
    clamped: bool = False
    set_by: str = ""
    source: str = ""


class RepeatItem(Table):
    repeat: Annotated[int, Field(ge=1, le=1000)]
    of: Texts

    examples: ClassVar = {"of": 'of = ["friction-plate", "steel-plate"]'}


class StackTable(Table):
    name: Said
    order: Annotated[tuple[Any, ...], LISTED]
    through: Annotated[str, one_of(("inner rings", "outer rings", ""), "way through")] = ""

    examples: ClassVar = {"order": 'order = ["collar@left", "bearing@left"]'}


class LimitTable(Table):
    what: Said
    between: Pair
    least: SingleLength | None = None
    most: SingleLength | None = None
    source: str = ""

    examples: ClassVar = {"between": 'between = ["hub", "bearing@right"]'}


class ForceLimitTable(Table):
    what: Said
    of: Said
    least: ForceWanted | None = None
    most: ForceWanted | None = None
    source: Said
    state: str = ""

    examples: ClassVar = {"source": 'source = "maker\'s drawing", or "common practice, no source"'}


class StateLimitTable(Table):
    """A limit of a gap in one state."""

    what: Said
    of: Said
    least: SingleLength | None = None
    most: SingleLength | None = None
    source: Said
    state: Said

    examples: ClassVar = ForceLimitTable.examples


class PairingTable(Table):
    what: Said
    outer: Pair
    inner: Pair
    least: SingleLength | None = None
    most: SingleLength | None = None
    source: str = ""

    examples: ClassVar = {"outer": 'outer = ["bearing", "bore"]', "inner": 'inner = ["axle", "seat"]'}


class JointTable(Table):
    name: Said
    clamps: Pair
    thread: str = ""
    torque: TighteningTorque | None = None
    thread_condition: str = ""
    angle: Angle | None = None
    prevailing: Torque | None = None
    friction: Annotated[tuple[Coefficient, ...], LISTED, AfterValidator(_friction)] = ()
    face: Extent | None = None
    thread_stop: Extent | None = None
    locked_by: str = ""
    slots: Annotated[int, Field(ge=1, le=60)] | None = None
    holes: Annotated[tuple[Degrees, ...], LISTED] = (0,)
    shank: Annotated[tuple[ShankTable, ...], LISTED] = ()
    note: str = ""

    examples: ClassVar = {"clamps": 'clamps = ["leg@left", "collar@right"]'}


class SupportTable(Table):
    place: Said
    stiffness: Stiffness | None = None
    outside: Extent | None = None
    bore: Length | None = None
    reach: Extent | None = None
    material: str = ""
    free_position: SignedLength | None = None
    end: Annotated[str, one_of(("free", "guided", ""), "end of a support")] = ""
    floating: bool = False
    pinched_after_settling: bool = False
    note: str = ""


class StateTable(Table):
    name: Said
    temperature: Temperature
    apart: dict[str, Temperature] = Field(default_factory=dict)
    source: str = ""

    examples: ClassVar = {"temperature": 'temperature = "60 °C"'}
    also_called: ClassVar = {"all": "temperature", "at": "temperature", "parts": "apart"}


class UnitTable(Table):
    name: Said
    members: Texts

    examples: ClassVar = {"members": 'members = ["bearing", "seal"]'}


Tables = dict[str, dict[str, Any]]


class VariantTable(Table):
    name: Said
    years: str = ""
    serials: str = ""
    why: str = ""
    without: Texts = ()
    parts: Tables = Field(default_factory=dict)
    places: Tables = Field(default_factory=dict)
    gaps: Tables = Field(default_factory=dict)
    limits: Tables = Field(default_factory=dict)
    pairings: Tables = Field(default_factory=dict)
    joints: Tables = Field(default_factory=dict)
    supports: Tables = Field(default_factory=dict)
    states: Tables = Field(default_factory=dict)


class HistoryTable(Table):
    revision: Said
    date: Dated = ""
    what: str = ""
    by: str = ""


class ReferenceTables(Table):
    """The whole file: tables are checked one by one, so that a mistake in one hides none in another."""

    kind: Literal["reference assembly"]
    format: Literal[1]
    assembly: dict[str, Any]
    parts: dict[str, Any]
    stacks: list[Any]
    limits: list[Any] = Field(default_factory=list)
    pairings: list[Any] = Field(default_factory=list)
    joints: list[Any] = Field(default_factory=list)
    supports: list[Any] = Field(default_factory=list)
    states: list[Any] = Field(default_factory=list)
    units: dict[str, Any] = Field(default_factory=dict)
    history: list[Any] = Field(default_factory=list)
    variants: list[Any] = Field(default_factory=list)

    examples: ClassVar = {
        "format": "format = 1",
        "kind": 'kind = "reference assembly"',
        "assembly": "[assembly] with id, title, revision, ends, ends_seen_from and source",
        "parts": "[parts.collar] and so on, each with a name and a kind",
        "stacks": "[[stacks]] with a name and an order of places",
    }
