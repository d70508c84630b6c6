"""A reference assembly from its TOML file, and back.

The file is read table by table and then put together; every mistake is noted with its line and the reading goes on, so
that one run shows them all. The tables stand in `reference_tables`, what they mean in `reference_parts`,
`reference_places` and `reference_rules`; `reference_tree` writes.
"""

from __future__ import annotations

import re
import tempfile
from pathlib import Path
from typing import Any

from stackcheck.formats.force_limits import (
    check_force_limits,
    note_unknown_names,
    read_force_limits,
    read_state_limits,
)
from stackcheck.formats.new_file import write_new
from stackcheck.formats.reference_parts import ID, ID_WANTED, check_parts, read_parts
from stackcheck.formats.reference_places import PlacesReader
from stackcheck.formats.reference_rules import RulesReader
from stackcheck.formats.reference_tables import AssemblyTable, ReferenceTables
from stackcheck.formats.reference_text import reference_text
from stackcheck.formats.remarks import NONE, Remarks, remarks_of
from stackcheck.formats.source import Reader
from stackcheck.formats.states import check_states_named, read_states
from stackcheck.formats.variants import coverage_of, read_variants
from stackcheck.model.reference import Reference, SequenceLoopError, Source, Stack

_END = re.compile(r"[a-z0-9][a-z0-9 -]{0,31}")


def read_reference(path: Path | str, *, shown_as: str = "", consequence: str = "Nothing was compared.") -> Reference:
    """Read one reference assembly.

    Args:
        path: the TOML file; its folder names the machine.
        shown_as: how messages name the file.
        consequence: the last words of the message where the file has mistakes.
    Raises:
        InputError: every mistake of the file, each with its line, what was said and what is wanted.
    """
    return _build(Reader(Path(path), shown_as=shown_as, consequence=consequence))


def _build(reader: Reader) -> Reference:
    """The reference of a tree; a variant is built the same way, from a tree with its differences laid over."""
    tables = reader.check_top(ReferenceTables) or _what_can_still_be_read(reader.tree)
    assembly = _read_assembly(reader)
    declared = list(tables.parts)
    parts = read_parts(reader, tables.parts)
    check_parts(reader, parts, declared)
    places = PlacesReader(reader, parts, declared, assembly.ends if assembly else ())
    places.read(tables.stacks)
    if reader.tree.get("stacks") == []:
        reader.mistake(("stacks",), "the file has no stack", ReferenceTables.examples["stacks"])
    rules = RulesReader(places)
    limits, pairings = rules.limits(tables.limits), rules.pairings(tables.pairings)
    force_limits, state_limits = read_force_limits(reader, tables.limits), read_state_limits(reader, tables.limits)
    states = read_states(reader, tables.states, tuple(declared), tuple(places.places) if places.complete else None)
    check_states_named(reader, tables.states)
    joints, supports, units = rules.joints(tables.joints), rules.supports(tables.supports), rules.units(tables.units)
    history = rules.history(tables.history)
    _stop_if_mistaken(reader)
    years = coverage_of(reader, ("assembly", "years"), assembly.years, "[assembly]")
    serials = coverage_of(reader, ("assembly", "serials"), assembly.serials, "[assembly]")
    variants = read_variants(reader, tables.variants, _build)
    _stop_if_mistaken(reader)
    machine = reader.path.resolve().parent.name
    try:
        reference = Reference(
            id=f"{machine}/{assembly.id}",
            machine=machine,
            title=assembly.title,
            revision=assembly.revision,
            covers=assembly.covers,
            ends=assembly.ends,
            ends_seen_from=assembly.ends_seen_from,
            source=Source(kind=assembly.source.kind, what=assembly.source.what, state=assembly.source.state),
            parts=tuple(parts.values()),
            places=tuple(places.places.values()),
            stacks=tuple(places.stacks),
            limits=limits,
            force_limits=force_limits,
            state_limits=state_limits,
            pairings=pairings,
            joints=joints,
            supports=supports,
            states=states,
            units=units,
            cautions=assembly.cautions,
            replaced_by=assembly.replaced_by,
            note=assembly.note,
            history=history,
            years=years,
            serials=serials,
            variants=variants,
            file=reader.name,
        )
    except SequenceLoopError as problem:
        _note_loop(reader, problem, places.stacks)
        _stop_if_mistaken(reader)
        raise
    check_force_limits(reader, reference)
    reader.stop_if_mistaken()
    return reference


def _stop_if_mistaken(reader: Reader) -> None:
    """What is of nothing is told beside the other mistakes, though no reference is there to look it up in."""
    if reader.mistakes:
        note_unknown_names(reader)
    reader.stop_if_mistaken()


def write_sound_reference(reference: Reference, path: Path, remarks: Remarks = NONE) -> Reference:
    """Write a reference as a new file, if it reads as a sound one; returns what was read back, the same reference.

    Raises:
        InputError: the file exists already (somebody's own, with its remarks, is never written over), or what would stand
            in it has mistakes.
    """
    text = reference_text(reference, remarks)
    with tempfile.TemporaryDirectory() as folder:
        draft = Path(folder) / path.name
        draft.write_text(text, encoding="utf-8")
        read_reference(draft, shown_as=str(path), consequence="Nothing was written.")
    write_new(path, text)
    return read_reference(path)


def read_remarks(path: Path | str) -> Remarks:
    """The remarks that somebody wrote into a sound reference file."""
    reader = Reader(Path(path))
    return remarks_of(reader.text, reader.tree)


def _what_can_still_be_read(tree: dict[str, Any]) -> ReferenceTables:
    """The headings that have their shape, of a file whose outermost shape is not right."""
    shapes = {"assembly": dict, "parts": dict, "stacks": list, "limits": list, "pairings": list, "joints": list,
              "supports": list, "states": list, "units": dict, "history": list, "variants": list}  # fmt: skip
    kept = {name: tree[name] if isinstance(tree.get(name), shape) else shape() for name, shape in shapes.items()}
    return ReferenceTables.model_validate({"kind": "reference assembly", "format": 1, **kept})


def _read_assembly(reader: Reader) -> AssemblyTable | None:
    """The [assembly] table, None where it cannot be used."""
    mistakes_before = len(reader.mistakes)
    raw = reader.tree.get("assembly")
    if not isinstance(raw, dict):
        return None  # its absence or wrong shape is noted with the other headings
    table = reader.check(AssemblyTable, raw, ("assembly",), "[assembly]")
    if table is None:
        return None
    if not ID.fullmatch(table.id):
        reader.mistake(("assembly", "id"), "[assembly]: the id cannot be used", ID_WANTED, said=table.id)
    for end in table.ends:
        if not _END.fullmatch(end) or end in ("middle", "outside"):
            what = f'[assembly]: an end cannot be called "{end}"'
            reader.mistake(("assembly", "ends"), what, 'use words like "left" and "right", in small letters', said=end)
    if table.ends[0] == table.ends[1]:
        what = "[assembly]: the two ends have one name"
        reader.mistake(("assembly", "ends"), what, 'give them two, like "left" and "right"', said="")
    return table if len(reader.mistakes) == mistakes_before else None


def _note_loop(reader: Reader, problem: SequenceLoopError, stacks: list[Stack]) -> None:
    index = next(index for index, stack in enumerate(stacks) if stack.name == problem.stacks[-1])
    places = problem.places if len(problem.places) <= 6 else (*problem.places[:5], "...")
    what = f"the stacks contradict each other: {' before '.join([*places, places[0]])}"
    wanted = f"look at the order of {' and of '.join(dict.fromkeys(problem.stacks))}"
    reader.mistake(("stacks", index, "order"), what, wanted, said=problem.places[0])
