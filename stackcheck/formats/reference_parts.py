"""The parts of a reference file: [parts.collar-short] and so on -> `Part`.

A standard part (`standard = "6204 C3"`) takes its kind and sizes from the tables shipped with the tool; a size written
beside it stands instead.
"""

from __future__ import annotations

import re
from typing import Any

from stackcheck.formats.reference_tables import PartTable
from stackcheck.formats.sections import check_sections, sections_of
from stackcheck.formats.source import Reader, did_you_mean
from stackcheck.model.part import SIZE_NAMES, Duty, Part, Size
from stackcheck.tables import UnknownStandard, resolve

THRUST_SIDE = {
    "angular bearing": ("wide face of the outer ring", "wide face"),
    "taper bearing": ("small end of the rollers", "small end", "wide face"),
}
"""Of a bearing of one direction: the feature on the side that its outer ring is pushed to, and words that name it."""

ID = re.compile(r"[a-z0-9][a-z0-9-]{0,63}")
ID_WANTED = "an id is made of small letters, figures and hyphens, like spacer-tube"


def read_parts(reader: Reader, tables: dict[str, Any]) -> dict[str, Part]:
    """id -> part, for every part that can be read; the mistakes of the others are noted."""
    parts = {}
    for id, raw in tables.items():
        part = _read_part(reader, id, raw)
        if part is not None:
            parts[id] = part
    return parts


def check_parts(reader: Reader, parts: dict[str, Part], declared: list[str]) -> None:
    """What one part says about another, and about its own sizes."""
    for part in parts.values():
        path = ("parts", part.id)
        for duty in part.duties:
            if duty.name == "pair" and duty.detail not in declared:
                partner = did_you_mean(duty.detail, declared) if duty.detail else 'name it, like "pair: collar-long"'
                reader.mistake(
                    path + ("duty",), f'part "{part.id}": its partner is not known', partner, said=duty.detail
                )
        for name in part.must_measure:
            if part.size(name) is None:
                what = f'part "{part.id}": must be measured, but no {name} is given'
                reader.mistake(path + ("must_measure",), what, f'add {name} = "..." with its limits', said=name)
        bore, outside = part.size("bore"), part.size("outside")
        if bore and outside and bore.nominal_mm >= outside.nominal_mm and not part.sections:
            what = f'part "{part.id}": the bore is not smaller than the outside'
            reader.mistake(path + ("bore",), what, "look at both figures", said=bore.text)
        check_sections(reader, part)
        _check_faces(reader, part)
        _check_thrust(reader, part)
        wire = part.size("wire")
        if wire and outside and not 2 * wire.high_mm < outside.low_mm:
            what = f'part "{part.id}": a wire of half the outside leaves no coil'
            reader.mistake(path + ("wire",), what, "look at both figures", said=wire.text)
        if part.pair_preload is not None and (play := part.size("pair_play")) is not None:
            what = f'part "{part.id}": a pair is made with a preload or with a play'
            reader.mistake(path + ("pair_play",), what, "leave out one of the two", said=play.text)


def _check_thrust(reader: Reader, part: Part) -> None:
    """Which way a bearing takes thrust is read from where its feature looks, so that it must be the one that says it."""
    name, *says = THRUST_SIDE.get(part.kind, ("",))
    if part.feature and says and not any(words in part.feature.lower() for words in says):
        reader.mistake(
            ("parts", part.id, "feature"),
            f'part "{part.id}": which way it takes thrust cannot be read from that',
            f'name the {name}: write feature = "{name}", and toward = where that looks',
            said=part.feature,
        )


def _check_faces(reader: Reader, part: Part) -> None:
    """A face lies within its part, and has metal between its bore and its outside."""
    for front in ("face_", "feature_face_"):
        outside, bore = (part.size(front + name) for name in ("outside", "bore"))
        widest, narrowest = (own or part.size(name) for own, name in ((outside, "outside"), (bore, "bore")))
        for name, size in (("outside", outside), ("bore", bore)):
            whole = part.size(name)
            is_beyond = (
                size
                and whole
                and (size.nominal_mm > whole.nominal_mm if name == "outside" else size.nominal_mm < whole.nominal_mm)
            )
            is_empty = size and widest and narrowest and narrowest.nominal_mm >= widest.nominal_mm
            if is_beyond or is_empty:
                what = (
                    f'part "{part.id}": the face reaches beyond the part'
                    if is_beyond
                    else f'part "{part.id}": no face is left between its bore and its outside'
                )
                reader.mistake(("parts", part.id, front + name), what, "look at both figures", said=size.text)


def _read_part(reader: Reader, id: str, raw: Any) -> Part | None:
    path, what = ("parts", id), f'part "{id[:40]}"'
    if not ID.fullmatch(id):
        reader.mistake(path, f"{what}: the id cannot be used", ID_WANTED)
    table = reader.check(PartTable, raw, path, what)
    if table is None:
        return None
    written = {name: size for name in SIZE_NAMES if (size := getattr(table, name)) is not None}
    kind, standard_sizes = table.kind, {}
    if table.standard:
        try:
            row = resolve(table.standard)
        except UnknownStandard as problem:
            near = f"did you mean {' or '.join(problem.suggestions[:3])}? " if problem.suggestions else ""
            reader.mistake(
                path + ("standard",),
                f"{what}: the standard part is not known here",
                f"{near}{problem}",
                said=table.standard,
            )
            return None
        kind = kind or row.kind
        standard_sizes = _sizes_of(row, table.standard)
    if not kind:
        reader.mistake(path, f'{what}: "kind" is not given', 'add kind = "collar", "washer", "seal", ...')
        return None
    return Part(
        id=id,
        name=table.name,
        kind=kind,
        number=table.number,
        accepts=table.accepts,
        also=table.also,
        standard=table.standard,
        sizes=tuple((written | {name: size for name, size in standard_sizes.items() if name not in written}).items()),
        sections=sections_of(table.sections),
        material=table.material,
        stiffness=table.stiffness,
        rollers=table.rollers or 0,
        balls=table.balls or 0,
        coils=float(table.coils or 0),
        waves=table.waves or 0,
        static_rating=table.static_rating,
        contact_angle=table.contact_angle,
        crush_force=table.crush_force,
        pair_preload=table.pair_preload,
        feature=table.feature,
        same_both_ways=table.same_both_ways,
        duties=tuple(_duty(text) for text in table.duty),
        must_measure=table.must_measure,
        fixed=table.fixed,
        note=table.note,
    )


def _sizes_of(row: Any, designation: str) -> dict[str, Size]:
    return {
        size.name: Size(
            text=designation,
            nominal_mm=size.nominal_mm,
            least_mm=size.least_mm,
            most_mm=size.most_mm,
            limits_from=row.standard,
        )
        for size in row.sizes
        if size.name in SIZE_NAMES
    }


def _duty(text: str) -> Duty:
    name, _, detail = text.partition(":")
    return Duty(name=name.strip(), detail=detail.strip())
