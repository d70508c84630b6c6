"""Variants in one reference file: what is otherwise on machines of some years or serials.

    [[variants]]
    name = "early"
    serials = "up to 120"
    why = "the maker's stock of short tubes was used up first"
    without = ["dust-shield"]
    [variants.parts.spacer-tube]
    length = "57.50 mm ±0.05"
    [variants.joints."axle nut"]
    torque = "50 N·m"

Each is the tree of the file with these differences laid over it, read like any reference. What a left-out place takes
with it (limits and joints between it and others) is left out too.
"""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

from stackcheck.formats.reference_tables import VariantTable
from stackcheck.formats.remarks import NAMED_BY
from stackcheck.formats.source import Reader, did_you_mean
from stackcheck.model.coverage import Coverage, read_coverage
from stackcheck.model.reference import Reference, Variant

COVERAGE_WANTED = 'write a range: "2008 to 2013", "400 and up", "up to 399"'
NAMED = ("parts", "places", "gaps", "limits", "pairings", "joints", "supports", "states")
"""What a variant may say otherwise, in the sequence in which it is written."""
_RULES = ("limits", "pairings", "joints", "supports", "states")


def coverage_of(reader: Reader, path: tuple, text: str, what: str) -> Coverage | None:
    """The range of a text; notes the mistake where there is none."""
    if not text:
        return None
    coverage = read_coverage(text)
    if coverage is None:
        reader.mistake(path, f"{what}: the range cannot be read", COVERAGE_WANTED, said=text)
    return coverage


def read_variants(reader: Reader, raw: list[Any], build: Callable[[Reader], Reference]) -> tuple[Variant, ...]:
    """Every variant with the reference that it makes."""
    variants: list[Variant] = []
    for index, each in enumerate(raw):
        path = ("variants", index)
        table = reader.check(VariantTable, each, path, f"variant {index + 1}")
        if table is None:
            continue
        what = f'variant "{table.name}"'
        before = len(reader.mistakes)
        years = coverage_of(reader, path + ("years",), table.years, what)
        serials = coverage_of(reader, path + ("serials",), table.serials, what)
        if not (table.years or table.serials):
            reader.mistake(
                path, f"{what}: nothing says which machines it is for", 'add years = "..." or serials = "..."'
            )
        for other in variants:
            if other.name == table.name:
                reader.mistake(
                    path + ("name",), f"two variants are called {table.name}", "give each its own name", said=table.name
                )
            elif _meet(years, other.years) and _meet(serials, other.serials):
                reader.mistake(
                    path,
                    f"{what} and {other.name} cover the same machines",
                    "let their years or serials end where the other's begin",
                )
        tree = _laid_over(reader, table, path, what)
        if len(reader.mistakes) > before:
            continue
        reference = _built(reader, tree, path, what, build)
        if reference is not None:
            variants.append(
                Variant(
                    name=table.name, years=years, serials=serials, why=table.why, reference=reference, told=_told(each)
                )
            )
    return tuple(variants)


def _meet(one: Coverage | None, other: Coverage | None) -> bool:
    return one is None or other is None or one.meets(other)


def _told(raw: dict[str, Any]) -> tuple:
    """The differences as the file has them, for writing: (key, value) with tables as tuples of pairs."""
    return tuple((key, _frozen(value)) for key, value in raw.items() if key not in ("name", "years", "serials", "why"))


def _frozen(value: Any) -> Any:
    if isinstance(value, dict):
        return tuple((key, _frozen(inner)) for key, inner in value.items())
    return tuple(map(_frozen, value)) if isinstance(value, list) else value


def _built(
    reader: Reader, tree: dict[str, Any], path: tuple, what: str, build: Callable[[Reader], Reference]
) -> Reference | None:
    """The variant as a reference; its mistakes are noted at the variant, which is what has to be mended."""
    from stackcheck.errors import InputError

    overlaid = copy.copy(reader)
    overlaid.tree, overlaid.mistakes = tree, []
    try:
        return build(overlaid)
    except InputError as problem:
        for mistake in problem.mistakes:
            reader.mistake(path, f"{what}: {mistake.what}", mistake.wanted)
        return None


def _laid_over(reader: Reader, table: Any, path: tuple, what: str) -> dict[str, Any]:
    tree = copy.deepcopy(reader.tree)
    tree.pop("variants", None)
    for id, keys in table.parts.items():
        if _known(reader, id, list(tree["parts"]), path + ("parts", id), f"{what}: unknown part"):
            tree["parts"][id] = {**tree["parts"][id], **keys}
    for name, keys in table.places.items():
        items = [
            (stack["order"], index)
            for stack in tree["stacks"]
            for index, item in enumerate(stack["order"])
            if name in _names(item)
        ]
        if _known(reader, name, _all_places(tree), path + ("places", name), f"{what}: unknown place"):
            order, index = next(((order, index) for order, index in items if isinstance(order[index], dict)), items[0])
            order[index] = {**({"place": order[index]} if isinstance(order[index], str) else order[index]), **keys}
    gaps = {
        item["gap"]: item
        for stack in tree["stacks"]
        for item in stack["order"]
        if isinstance(item, dict) and "gap" in item
    }
    rules = {heading: {rule[NAMED_BY[heading]]: rule for rule in tree.get(heading, ())} for heading in _RULES}
    for heading, known in {"gaps": gaps, **rules}.items():
        for name, keys in getattr(table, heading).items():
            if _known(
                reader, name, list(known), path + (heading, name), f"{what}: unknown {heading.removesuffix('s')}"
            ):
                known[name].update(keys)
    for name in table.without:
        if _known(reader, name, _all_places(tree), path + ("without",), f"{what}: unknown place"):
            _take_out(tree, name)
    return tree


def _known(reader: Reader, name: str, known: list[str], path: tuple, what: str) -> bool:
    if name not in known:
        reader.mistake(path, f'{what} "{name}"', did_you_mean(name, known), said=name)
    return name in known


def _names(item: Any) -> tuple[str, ...]:
    return (item,) if isinstance(item, str) else (item["place"],) if "place" in item else ()


def _all_places(tree: dict[str, Any]) -> list[str]:
    return list(dict.fromkeys(name for stack in tree["stacks"] for item in stack["order"] for name in _names(item)))


def _take_out(tree: dict[str, Any], name: str) -> None:
    """A place is gone, and with it what was said between it and others, and a part that stands nowhere else."""
    for stack in tree["stacks"]:
        stack["order"] = [item for item in stack["order"] if name not in _names(item)]
    tree["stacks"] = [stack for stack in tree["stacks"] if sum(bool(_names(item)) for item in stack["order"]) > 1]
    gone = []
    for heading, key in (("limits", "between"), ("joints", "clamps")):
        rules = tree.get(heading, ())
        tree[heading] = [each for each in rules if name not in [place.partition("/")[0] for place in each.get(key, ())]]
        gone += [each[NAMED_BY[heading]] for each in rules if each not in tree[heading]]
    tree["limits"] = [each for each in tree["limits"] if each.get("of") not in gone]
    tree["supports"] = [each for each in tree.get("supports", ()) if each["place"] != name]
    tree["states"] = [_without(state, name) for state in tree.get("states", ())]
    tree["units"] = {id: unit for id, unit in tree.get("units", {}).items() if name not in unit["members"]}
    part = name.partition("@")[0]
    if not any(other.partition("@")[0] == part for other in _all_places(tree)):
        tree["parts"].pop(part, None)
        tree["states"] = [_without(state, part) for state in tree["states"]]
        tree["pairings"] = [
            each for each in tree.get("pairings", ()) if part not in (each["outer"][0], each["inner"][0])
        ]
        for other in tree["parts"].values():
            other["duty"] = [duty for duty in other.get("duty", ()) if duty.replace(" ", "") != f"pair:{part}"]


def _without(state: dict[str, Any], name: str) -> dict[str, Any]:
    """The state without the temperature of a part or place that is gone."""
    apart = {key: value for key, value in state.get("apart", {}).items() if key != name}
    return {**state, "apart": apart} if "apart" in state else state
