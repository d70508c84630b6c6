"""`--temperature`: one for everything, or a range to sweep over, and others for what is named: "60 °C", "hub=45 °C"."""

from __future__ import annotations

import argparse
from typing import Any

from stackcheck.commands.common import mistake, said

COLDEST_C, HOTTEST_C = -80.0, 300.0
WANTED = "-80 to 300 °C: above, steel springs and seals are something else"


def add_temperature(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--temperature",
        metavar="TEMPERATURE",
        action="append",
        default=[],
        help='tightened at 20 °C, then all of it at this, like "60 °C"; a range for a sweep; once more for a part, a '
        'place, "inner rings", "outer rings" or "axle": "hub=45 °C"',
    )


def temperatures(texts: list[str], reference: Any) -> tuple[Any, tuple[tuple[str, float], ...]]:
    """The temperature of everything (None where nobody said it), and the pairs of a name and its own [°C].

    Raises:
        InputError: no temperature, an unknown name, one name twice, or none that can be.
    """
    everything, named = None, {}
    for text in texts:
        name, is_named, words = text.rpartition("=")
        amount = _amount(text, words)
        if not is_named:
            if everything is not None:
                raise mistake(
                    "--temperature",
                    f'"{text[:60]}" is the second one for everything',
                    'name what it is for, like "hub=45 °C"',
                )
            everything = amount
        elif amount.least is not None and amount.least < amount.most:
            raise mistake(
                "--temperature",
                f'"{text[:60]}" is a range',
                "sweep over the temperature of everything and give a part one value",
            )
        else:
            named[_known(reference, name.strip(), named)] = amount.nominal
    return everything, tuple(named.items())


def _amount(text: str, words: str) -> Any:
    from stackcheck.formats.sizes import amount_of

    amount = said("--temperature", words.strip(), lambda each: amount_of("temperature", each))
    ends = [amount.nominal if end is None else end for end in (amount.least, amount.most)]
    if not COLDEST_C <= ends[0] <= ends[1] <= HOTTEST_C:
        cold = ", below the absolute zero of -273.15 °C" if ends[0] < -273.15 else ""
        raise mistake("--temperature", f'"{text[:60]}" is out of range{cold}', f"name {WANTED}")
    return amount


def _known(reference: Any, name: str, named: dict[str, float]) -> str:
    from stackcheck.formats.near_words import did_you_mean
    from stackcheck.mechanics.heat import AXLE, INNER, OUTER

    words = [AXLE, INNER, OUTER, *(part.id for part in reference.parts), *(place.name for place in reference.places)]
    if name not in words:
        raise mistake(
            "--temperature", f'no part or place is called "{name[:60]}"', did_you_mean(name, list(dict.fromkeys(words)))
        )
    if name in named:
        raise mistake("--temperature", f'"{name}" is given twice', "name its one temperature")
    return name
