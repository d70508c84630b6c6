"""The shape of a teardown list: one closed pydantic table per heading. Meaning against the reference: `found_file`."""

from typing import Annotated, Any, ClassVar, Literal

from pydantic import BeforeValidator, Field, create_model

from stackcheck.formats.reference_tables import Count
from stackcheck.formats.sizes import LISTED, Dated, MeasuredGap, MeasuredLength, Said, Texts, Warmth, one_of
from stackcheck.formats.source import Table
from stackcheck.formats.words import SIZES_ALSO_CALLED, named_kind
from stackcheck.model.found import SYMPTOMS
from stackcheck.model.part import KINDS, SIZE_NAMES

PLACE_SEEN = ("seen in place", "inferred", "found loose")


def _year(value: Any) -> Any:
    return str(value) if isinstance(value, int) and not isinstance(value, bool) else value


class FoundTables(Table):
    kind: Literal["as found"]
    format: Literal[1]
    reference: Said
    revision: Said
    finished: bool = True
    not_seen: Texts = ()
    title: str = ""
    story: str = ""
    by: str = ""
    date: Dated = ""
    year: Annotated[str, BeforeValidator(_year)] = ""
    serial: Annotated[str, BeforeValidator(_year)] = ""
    parts_at: Warmth | None = None
    instruments_at: Warmth | None = None
    off: list[Any] = Field(default_factory=list)
    measured: list[Any] = Field(default_factory=list)
    symptoms: list[Any] = Field(default_factory=list)

    examples: ClassVar = {"kind": 'kind = "as found"', "format": "format = 1"}
    also_called: ClassVar = {
        "entry": "off",
        "entries": "off",
        "part": "off",
        "parts": "off",
        "measure": "measured",
        "symptom": "symptoms",
    }


class MeasuredSectionTable(Table):
    length: MeasuredLength
    outside: MeasuredLength
    bore: MeasuredLength
    material: str = ""

    also_called: ClassVar = SIZES_ALSO_CALLED


class _OffWords(Table):
    what: Said | None = None
    end: str | None = None
    part: Said | None = None
    sure: bool = True
    kind: Annotated[str, one_of(KINDS, "kind", also=named_kind)] | None = None
    number: str = ""
    count: Count = 1
    sections: Annotated[tuple[MeasuredSectionTable, ...], LISTED] = ()
    feature: str = ""
    toward: str = ""
    feel: Texts = ()
    look: Texts = ()
    came_off: str = ""
    card: str = ""
    tag: str = ""
    place_seen: Annotated[str, one_of(PLACE_SEEN, "way of knowing the place")] | None = None
    stuck_to_next: bool = False
    note: str = ""

    also_called: ClassVar = {
        "name": "what", "side": "end", "facing": "toward", "towards": "toward", "marked": "number", "quantity": "count",
        "remark": "note", "comment": "note", "place": "end",
    }  # fmt: skip


OffTable = create_model(
    "OffTable",
    __base__=_OffWords,
    **{name: (MeasuredLength | None, None) for name in (*SIZE_NAMES, *SIZES_ALSO_CALLED)},
)


class MeasuredTable(Table):
    reading: MeasuredGap
    place: str = ""
    size: str = ""
    gap: str = ""

    examples: ClassVar = {"reading": 'reading = "57.97 depth mic"'}


class SymptomTable(Table):
    what: Annotated[str, one_of(SYMPTOMS, "symptom")]
    place: str = ""
    toward: str = ""
    by: MeasuredLength | None = None
    note: str = ""

    examples: ClassVar = {"what": 'what = "moved on release"'}
