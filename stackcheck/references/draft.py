"""A reference as it is being written down: parts in line, gaps between them, which stacks they belong to.

A draft becomes a `Reference` and the remarks that a careful person would write beside it. Rows that name the same part
again are another place of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from stackcheck.formats.drawn_sizes import DrawnPart, drawn_size
from stackcheck.formats.remarks import Remarks
from stackcheck.model.coverage import Coverage
from stackcheck.model.limits import Limit
from stackcheck.model.part import SIZE_NAMES, Amount, Duty, Part, Size
from stackcheck.model.reference import Gap, Joint, Place, Reference, Source, Stack
from stackcheck.references.suggest import PRACTICE
from stackcheck.tables import resolve
from stackcheck.units import read_limits
from stackcheck.value import Value, replace

MAIN = "main stack"
TO_BEARING = "the bearing"
"""Where a feature points that looks at the bearing beside it; an end as soon as the line is complete."""


TO_OUTSIDE = "the outside"
"""Where a feature points that looks away from the middle of the line; an end as soon as the line is complete."""


class DraftPart(Value, kw_only=True):
    """One row: a part in one place. `sizes` are (name, text as written); `remarks` are (key, text)."""

    name: str
    kind: str
    number: str = ""
    standard: str = ""
    sizes: tuple[tuple[str, str], ...] = ()
    material: str = ""
    feature: str = ""
    toward: str = ""
    same_both_ways: bool = False
    fixed: bool = False
    duties: tuple[str, ...] = ()
    must_measure: tuple[str, ...] = ()
    note: str = ""
    count: int = 1
    stacks: tuple[str, ...] = (MAIN,)
    remarks: tuple[tuple[str, str], ...] = ()
    remark: str = ""
    is_distance: bool = False
    """Between two members that stay on: no part, what closes a gap."""
    passes_through: bool = False
    """An axle, a bolt, a split pin: it touches its neighbour, and its length is none of the line's."""
    in_bore: bool = False
    """A seal beside a bearing, in the bore of what runs on it: the rings on the shaft are not clamped by it."""
    locked_by: str = ""
    torque: str = ""
    thread_condition: str = ""
    """Of a nut, as said in its line; they belong to its joint."""


class DraftGap(Value, kw_only=True):
    """A gap left open on purpose between the rows before and after it."""

    name: str
    least: str = ""
    most: str = ""
    set_by: str = ""
    source: str = ""
    stacks: tuple[str, ...] = (MAIN,)


class DraftJoint(Value, kw_only=True):
    """What clamps: between two rows (their positions among the rows)."""

    name: str
    rows: tuple[int, int]
    thread: str = ""
    torque: Amount | None = None
    thread_condition: str = ""
    locked_by: str = ""


class DraftLimit(Value, kw_only=True):
    what: str
    rows: tuple[int, int]
    least: str = ""
    most: str = ""
    source: str = ""


class Draft(Value, kw_only=True):
    """Everything said so far; `through` are (stack, "inner rings" or "outer rings")."""

    title: str
    ends: tuple[str, str]
    seen_from: str
    source: Source
    rows: tuple[DraftPart | DraftGap, ...] = ()
    through: tuple[tuple[str, str], ...] = ()
    joints: tuple[DraftJoint, ...] = ()
    limits: tuple[DraftLimit, ...] = ()
    revision: str = "A"
    covers: str = ""
    years: Coverage | None = None
    serials: Coverage | None = None
    note: str = ""
    head: tuple[str, ...] = ()
    remarks: tuple[tuple[tuple[str, ...], str], ...] = ()

    @property
    def parts(self) -> tuple[DraftPart, ...]:
        return tuple(row for row in self.rows if isinstance(row, DraftPart))


def again(draft: Draft, drawn: DrawnPart) -> DraftPart | None:
    """The row that names the same part: the same number, or the same name with nothing new said beside it."""
    for row in draft.parts:
        if drawn.number and drawn.number == row.number:
            return row
        alike = (
            drawn.name.lower() == row.name.lower()
            and drawn.standard in ("", row.standard)
            and drawn.sizes in ((), row.sizes)
        )
        if alike and not drawn.number:
            return row
    return None


def read_back(row: DraftPart) -> str:
    """How a line was read: "Long collar: collar, length 22.0 mm ±0.05, bore 20 H8, number FT-1207"."""
    called = {**SIZE_NAMES, "shaft": "thickness"} if row.kind == "split pin" else SIZE_NAMES
    said = [
        row.kind,
        row.standard,
        *(f"{called[name].removesuffix(' along the axis')} {text}" for name, text in row.sizes),
    ]
    said += [f"number {row.number}"] if row.number else []
    said += [f"{row.count} pieces"] if row.count > 1 else []
    return f"{row.name}: {', '.join(filter(None, said))}"


def assembled(draft: Draft, id: str) -> tuple[Reference, Remarks]:
    """The draft as a reference and its remarks."""
    ids = _ids(draft.parts)
    names = _places(draft, ids)
    parts: dict[str, Part] = {}
    behind: dict[tuple[str, ...], str] = dict(draft.remarks)
    for row in draft.parts:
        own = ids[_identity(row)]
        parts.setdefault(own, _part(row, own))
        behind |= {("parts", own, key): text for key, text in row.remarks}
    parts = {part.id: part for part in _named_apart(parts.values())}
    places, items = [], []
    for row, name in zip(draft.rows, names, strict=True):
        items.append(_gap(row) if isinstance(row, DraftGap) else name)
        if isinstance(row, DraftPart):
            places.append(Place(name=name, part=ids[_identity(row)], toward=row.toward, count=row.count))
            if row.remark:
                behind["places", name] = row.remark
    through = dict(draft.through)
    stacks = tuple(
        Stack(
            name=name,
            items=tuple(item for row, item in zip(draft.rows, items) if name in row.stacks),
            through=through.get(name, ""),
        )
        for name in dict.fromkeys((MAIN, *(name for row in draft.rows for name in row.stacks)))
        if any(name in row.stacks for row in draft.rows)
    )
    met = {name: place for stack in stacks for name in stack.places for place in places if place.name == name}
    reference = Reference(
        id=f"draft/{id}", machine="draft", title=draft.title, revision=draft.revision, covers=draft.covers,
        years=draft.years, serials=draft.serials, ends=draft.ends, ends_seen_from=draft.seen_from, source=draft.source,
        parts=_in_sequence(parts.values()), places=tuple(met.values()), stacks=stacks,
        joints=tuple(_joint(joint, names) for joint in draft.joints),
        limits=tuple(_limit(limit, names) for limit in draft.limits), note=draft.note,
    )  # fmt: skip
    return reference, Remarks(head=draft.head, behind=behind)


def _named_apart(parts: Iterable[Part]) -> tuple[Part, ...]:
    """Parts of one name by their designation or their id as well: nobody knows which washer "washer" is."""
    parts = tuple(parts)
    names = [part.name.lower() for part in parts]
    kept = []
    for part in parts:
        same = [other for other in parts if other.name.lower() == part.name.lower()]
        own = [other.standard for other in same].count(part.standard) == 1 and part.standard
        number = same.index(part) + 1
        apart = f"{part.name} {part.standard.split()[-1]}" if own else f"{part.name} {number}"
        told_apart = names.count(part.name.lower()) > 1 and apart.lower() not in names
        kept.append(replace(part, name=apart) if told_apart else part)
    return tuple(kept)


def _in_sequence(parts: Iterable[Part]) -> tuple[Part, ...]:
    """Those that stay on the machine first, as the files of the fleet have them."""
    return tuple(sorted(parts, key=lambda part: not part.fixed))


def _identity(row: DraftPart) -> tuple:
    return ("number", row.number) if row.number else (row.name.lower(), row.kind, row.standard, row.sizes)


def _ids(rows: Iterable[DraftPart]) -> dict[tuple, str]:
    """An id for each part, made of its name."""
    ids: dict[tuple, str] = {}
    for row in rows:
        if _identity(row) in ids:
            continue
        own = slug(row.name) or slug(row.kind)
        id, number = own, 2
        while id in ids.values():
            id, number = f"{own}-{number}", number + 1
        ids[_identity(row)] = id
    return ids


def part_ids(rows: Iterable[DraftPart]) -> list[str]:
    """The id of each row's part."""
    rows = tuple(rows)
    ids = _ids(rows)
    return [ids[_identity(row)] for row in rows]


def called(draft: Draft) -> list[str]:
    """What each row is called where one of them is asked for: "left bearing", "spacer tube", "steel plate 3".

    Different parts of one name are told apart as two places of one part are: by the ends, or by numbers where there are
    more.
    """
    own = [row.name.lower() for row in draft.rows]
    tags = _tags(draft, own)
    return [f"{name} {tag}" if tag.isdigit() else f"{tag} {name}".strip() for name, tag in zip(own, tags)]


def who_says(draft: Draft) -> str:
    """Who is offered as the source of limits: whoever says how it should be;
    nobody for a machine, which only shows how it is.
    """
    if draft.source.kind in ("taken from a machine", "own record"):
        return ""
    return draft.source.what or PRACTICE


def who_gives(draft: Draft) -> str:
    return f"Who gives these limits?{'' if who_says(draft) else ' (empty: not said)'}"


def slug(name: str) -> str:
    """A name as an id: "Long collar, steel" -> "long-collar-steel"."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:40].strip("-")


def _places(draft: Draft, ids: dict[tuple, str]) -> list[str]:
    """The name of each row's place, "" for a gap: by the ends where there are two, by numbers where there are more."""
    of = [ids[_identity(row)] if isinstance(row, DraftPart) else "" for row in draft.rows]
    return [f"{id}@{tag}" if id and tag else id for id, tag in zip(of, _tags(draft, of))]


def _tags(draft: Draft, of: list[str]) -> list[str]:
    """What tells equal ones of a list apart, "" for one that is there once."""
    short = [end.removesuffix(" end").replace(" ", "-") for end in draft.ends]
    tags, met = [], dict.fromkeys(of, 0)
    for each in of:
        times = of.count(each)
        met[each] += 1
        tags.append("" if times == 1 else short[met[each] - 1] if times == 2 else str(met[each]))
    return tags


def _part(row: DraftPart, id: str) -> Part:
    sizes: dict[str, Size] = {name: drawn_size(text) for name, text in row.sizes}
    kind = row.kind
    if row.standard:
        hardware = resolve(row.standard)
        kind = kind or hardware.kind
        for size in hardware.sizes:
            own = Size(
                text=row.standard,
                nominal_mm=size.nominal_mm,
                least_mm=size.least_mm,
                most_mm=size.most_mm,
                limits_from=hardware.standard,
            )
            sizes.setdefault(size.name, own)
    return Part(
        id=id, name=row.name, kind=kind, number=row.number, standard=row.standard, sizes=tuple(sizes.items()),
        material=row.material, feature=row.feature, same_both_ways=row.same_both_ways,
        duties=tuple(
            Duty(name=name.partition(":")[0].strip(), detail=name.partition(":")[2].strip()) for name in row.duties
        ),
        must_measure=row.must_measure, fixed=row.fixed, note=row.note,
    )  # fmt: skip


def _gap(row: DraftGap) -> Gap:
    least, most = (drawn_limit(text) for text in (row.least, row.most))
    return Gap(
        name=row.name,
        least_mm=least,
        most_mm=most,
        text=f"{row.least}..{row.most}" if row.least or row.most else "",
        set_by=row.set_by,
        source=row.source,
    )


def drawn_limit(text: str) -> float | None:
    return read_limits(text, may_be_negative=True).nominal if text else None


def _joint(joint: DraftJoint, names: list[str]) -> Joint:
    return Joint(
        name=joint.name, clamps=(names[joint.rows[0]], names[joint.rows[1]]), thread=joint.thread, torque=joint.torque,
        thread_condition=joint.thread_condition, locked_by=joint.locked_by,
    )  # fmt: skip


def _limit(limit: DraftLimit, names: list[str]) -> Limit:
    return Limit(
        what=limit.what, between=(names[limit.rows[0]], names[limit.rows[1]]), least_mm=drawn_limit(limit.least),
        most_mm=drawn_limit(limit.most), text=f"{limit.least}..{limit.most}", source=limit.source,
    )  # fmt: skip
