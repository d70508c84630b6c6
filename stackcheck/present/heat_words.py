"""How warm everything is, in words, and what heat does to a play that a nut sets."""

from __future__ import annotations

from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.set_gap import SetGap
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.mechanics.warm_gaps import WarmGap
from stackcheck.present.figures import mm
from stackcheck.present.force_figures import because, force_words, signed
from stackcheck.present.words import gap_words

HALF_A_DIGIT_MM = 0.0005
"""What heat does is told to a thousandth of a millimetre: less than half of one is nothing."""


def heat_words(heat: Heat) -> str:
    """ "all of it at 60 °C", "at 60 °C, hub at 45 °C", "hub at 45 °C"; of a state its name, "running"."""
    if heat.state:
        return heat.state
    named = _named(heat)
    if heat.at_c == heat.together.at_c and named:
        return named
    return f"{'' if named else 'all of it '}at {heat.at_c:g} °C{f', {named}' if named else ''}"


def state_words(heat: Heat) -> str:
    """ "State running: at 60 °C, hub at 45 °C; put together at 20 °C."."""
    return f"State {heat.state}: {temperature_words(heat)}; put together {temperature_words(heat.together)}."


def temperature_words(heat: Heat) -> str:
    """ "at 20 °C", "at 10 °C, inner rings at 80 °C"."""
    return ", ".join(filter(None, (f"at {heat.at_c:g} °C", _named(heat))))


def _named(heat: Heat) -> str:
    return ", ".join(f"{name} at {at_c:g} °C" for name, at_c in heat.named)


def warm_gap_words(value: WarmGap) -> str:
    """ "then, all of it at 60 °C: 0.013 less by length"."""
    return f"then, {heat_words(value.heat)}: {growth_words(value)}"


def growth_words(value: WarmGap) -> str:
    """ "0.013 less by length", "0.044 more by length, up to 0.09 more by the races"."""
    change, races = round(value.wider_mm, 3), value.by_races_mm
    said = "no more and no less" if change == 0 else f"{mm(abs(change))} {'more' if change > 0 else 'less'}"
    return f"{said} by length{f', {_more(races)} by the races' if races is not None else ''}"


def warm_play_words(value: SetGap) -> str:
    """ "then at 60 °C: gap 0.04 to 0.10, by length 0.02 less, by the races 0.03 more; a dial reads ...";
    "" for a play that is not warm.
    """
    play, force = value.then_mm, value.then_n
    if play is None:
        return ""
    if not heat_moves(value):
        return f"then, {heat_words(value.heat)}: as it was set, axle and parts grow alike"
    words = f"then, {heat_words(value.heat)}: {gap_words(play.least, play.most)} ({play_terms(value)}){because(play)}"
    why = because(force) if force.main_cause != play.main_cause else ""
    return f"{words}; {_preload(value, force)}{why}"


def heat_moves(value: SetGap) -> bool:
    """Whether heat does anything to the play: 95 of 100 draws of what is set are no change of it."""
    grown = (value.by_length_mm, value.by_races_mm)
    return any(max(abs(each.least), abs(each.most)) >= HALF_A_DIGIT_MM for each in grown if each is not None)


def play_terms(value: SetGap) -> str:
    """ "0.021 less by length, 0.054 to 0.078 more by the races", "" for a play that is not warm."""
    if value.by_length_mm is None or value.by_races_mm is None:
        return ""
    return f"{_more(value.by_length_mm)} by length, {_more(value.by_races_mm)} by the races"


def _preload(value: SetGap, force: Spanned) -> str:
    limit = value.limit
    most = (
        force_words(force.most)
        if limit is None or force.most <= limit.force_n
        else f"beyond {limit.called}, about {force_words(limit.force_n)}"
    )
    if force.most <= 0:
        return "no preload"
    if force.least <= 0:
        return f"may be either: no preload, or up to {most}"
    if limit is not None and force.least > limit.force_n:
        return f"the bearings are forced {most}: no figure holds there"
    return f"preload {force_words(force.least)} to {most}"


def _more(value: Spanned) -> str:
    is_nothing = max(abs(value.least), abs(value.most)) < HALF_A_DIGIT_MM
    return "nothing" if is_nothing else signed(value, mm)
