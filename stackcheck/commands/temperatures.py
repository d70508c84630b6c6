"""`--temperature`: named states, or one for everything (or a range to sweep over), and others for what is named:
"running", "60 °C", "hub=45 °C".
"""

from __future__ import annotations

import argparse
from typing import Any, NamedTuple

from stackcheck.commands.common import mistake, said


class Asked(NamedTuple):
    """How warm it is asked for: `heat` of one answer (None: as it is put together), `swept` a range of everything (else
    None), `states` by their names where several are asked for side by side.
    """

    heat: Any
    swept: Any = None
    states: tuple[str, ...] = ()


def add_temperature(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--temperature",
        metavar="TEMPERATURE",
        action="append",
        default=[],
        help='a state that the reference names, like "running", several of them, or "states" for all, side by side '
        'with that of assembly; or all of it at this, like "60 °C", a range for a sweep, and once more for a part, a place, "inner rings", '
        '"outer rings" or "axle": "hub=45 °C"; put together at 20 °C, or as the state "assembly" of the reference says',
    )


def temperatures(texts: list[str], reference: Any) -> Asked:
    """What is asked for.

    Raises:
        InputError: no temperature, an unknown name, one name twice, or none that can be.
    """
    if not texts:
        return Asked(None)  # what knows heat loads the numerical libraries
    from stackcheck.mechanics.heat import Heat, heat_in, put_together
    from stackcheck.model.state import ASSEMBLY, EVERY

    known = list(dict.fromkeys([ASSEMBLY, *(state.name for state in reference.states)]))
    states = [text for text in texts if text in (*known, EVERY)]
    if states and len(states) < len(texts):
        other = next(text for text in texts if text not in states)
        raise mistake(
            "--temperature", f'"{other[:60]}" does not go with "{states[0]}"', "a state says all its temperatures"
        )
    if states:
        if EVERY in states and known == [ASSEMBLY]:
            raise mistake("--temperature", "the reference names no states", 'write them: [[states]] with name = "..."')
        names = tuple(known if EVERY in states else dict.fromkeys(states))
        if len(names) > 1:
            return Asked(None, states=tuple(dict.fromkeys([ASSEMBLY, *names])))
        return Asked(heat_in(reference, names[0]))
    everything, named = None, {}
    for text in texts:
        name, is_named, words = text.rpartition("=")
        if not is_named and not any(sign.isdigit() for sign in text):
            _refuse_state(text, known)
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
    together = put_together(reference)
    is_swept = everything is not None and everything.least is not None and everything.least < everything.most
    at_c = together.at_c if everything is None or is_swept else everything.nominal
    return Asked(
        Heat(at_c=at_c, named=tuple(named.items()), before=together.before), swept=everything if is_swept else None
    )


def heats_asked(texts: list[str], reference: Any) -> tuple[Any, ...]:
    """How warm it gets, each asked for beside the others: states by name, or one temperature; none of a sweep.

    Raises:
        InputError: as `temperatures`, and a range.
    """
    asked = temperatures(texts, reference)
    if asked.swept is not None:
        raise mistake("--temperature", f'"{asked.swept.text}" is a range', "name one temperature, or states")
    if asked.states:
        from stackcheck.mechanics.heat import heat_in
        from stackcheck.model.state import ASSEMBLY

        return tuple(heat_in(reference, name) for name in asked.states if name != ASSEMBLY)
    return () if asked.heat is None else (asked.heat,)


def _refuse_state(text: str, known: list[str]) -> None:
    from stackcheck.formats.near_words import did_you_mean

    wanted = f'{did_you_mean(text, known)}; or write a temperature, like "60 °C"'
    raise mistake("--temperature", f'the reference has no state "{text[:60]}"', wanted)


def _amount(text: str, words: str) -> Any:
    from stackcheck.formats.sizes import amount_of
    from stackcheck.model.state import TEMPERATURE_WANTED, out_of_range

    amount = said("--temperature", words.strip(), lambda each: amount_of("temperature", each))
    if what := out_of_range(amount):
        what = what if what == "out of range" else f"out of range, {what}"
        raise mistake("--temperature", f'"{text[:60]}" is {what}', f"name {TEMPERATURE_WANTED}")
    return amount


def _known(reference: Any, name: str, named: dict[str, float]) -> str:
    from stackcheck.formats.near_words import did_you_mean
    from stackcheck.model.state import can_be_apart

    words = can_be_apart((part.id for part in reference.parts), (place.name for place in reference.places))
    if name not in words:
        raise mistake("--temperature", f'no part or place is called "{name[:60]}"', did_you_mean(name, words))
    if name in named:
        raise mistake("--temperature", f'"{name}" is given twice', "name its one temperature")
    return name
