"""The states of a reference: how warm it is when it is put together, and where it works.

[[states]]
name = "assembly"                  # put together at this instead of 20 °C
temperature = "10 °C"

[[states]]
name = "running"
temperature = "50 °C"              # everything
apart = { hub = "70 °C", "outer rings" = "70 °C" }       # a part, a place, "inner rings", "outer rings", "axle"
source = "common practice, no source"
"""

from __future__ import annotations

from typing import Any

from stackcheck.errors import SizeError
from stackcheck.formats.reference_tables import StateTable
from stackcheck.formats.sizes import amount_of
from stackcheck.formats.source import Reader, did_you_mean
from stackcheck.model.state import ASSEMBLY, EVERY, State, can_be_apart


def read_states(
    reader: Reader, tables: list[Any], parts: tuple[str, ...], places: tuple[str, ...] | None
) -> tuple[State, ...]:
    """Every state of the file; `places` is None where they could not all be read."""
    states: list[State] = []
    for index, raw in enumerate(tables):
        path = ("states", index)
        name = raw.get("name") if isinstance(raw, dict) else None
        what = f'state "{name}"' if isinstance(name, str) and name else f"state {index + 1}"
        table = reader.check(StateTable, raw, path, what)
        if table is None:
            continue
        if any(table.name == other.name for other in states):
            reader.mistake(
                path + ("name",), f"two states are called {table.name}", "give each its own name", said=table.name
            )
        elif not _can_be_called(table.name):
            wanted = 'use words like "cold start" or "running"'
            reader.mistake(path + ("name",), f'a state cannot be called "{table.name}"', wanted, said=table.name)
        known = can_be_apart(parts, places or ())
        for apart in table.apart:
            # A place of a stack that could not be read may be there all the same.
            if apart not in known and (places is not None or apart.partition("@")[0] not in parts):
                where = path + ("apart", apart)
                reader.mistake(where, f'{what}: unknown part or place "{apart}"', did_you_mean(apart, known))
        states.append(
            State(name=table.name, temperature=table.temperature, apart=tuple(table.apart.items()), source=table.source)
        )
    return tuple(states)


def check_states_named(reader: Reader, tables: list[Any]) -> None:
    """Notes every limit that is said for a state that is not there; one that could not be read is there all the same."""
    named = [raw["name"] for raw in tables if isinstance(raw, dict) and isinstance(raw.get("name"), str)]
    known = list(dict.fromkeys([ASSEMBLY, *named]))
    limits = reader.tree.get("limits")
    for index, raw in enumerate(limits if isinstance(limits, list) else ()):
        said = raw.get("state") if isinstance(raw, dict) else None
        if isinstance(said, str) and said and "of" in raw and said not in known:
            what = f'limit "{raw.get("what", index + 1)}"'
            reader.mistake(
                ("limits", index, "state"), f'{what}: unknown state "{said}"', did_you_mean(said, known), said=said
            )


def _can_be_called(name: str) -> bool:
    """Whether somebody who asks for it can mean nothing else: one line of text, no figure, no "hub=60 °C", not the word
    for all, nor "assembly" in other letters.
    """
    try:
        amount_of("temperature", name)
    except SizeError:
        is_taken = name != ASSEMBLY and name.lower() in (ASSEMBLY, EVERY)
        return not is_taken and "=" not in name and name == name.strip() and name.isprintable()
    return False
