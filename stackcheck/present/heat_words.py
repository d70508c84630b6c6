"""How warm everything is, in words, and what heat does to a play that a nut sets."""

from __future__ import annotations

from stackcheck.mechanics.axial.tighten import REFERENCE_C
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.set_gap import SetGap
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.mechanics.warm_gaps import WarmGap
from stackcheck.present.figures import mm
from stackcheck.present.force_figures import because, force_words
from stackcheck.present.words import gap_words


def heat_words(heat: Heat) -> str:
    """ "all of it at 60 °C", "at 60 °C, hub at 45 °C", "hub at 45 °C"."""
    named = [f"{name} at {at_c:g} °C" for name, at_c in heat.named]
    if heat.at_c == REFERENCE_C:
        return ", ".join(named)
    return ", ".join([f"{'' if named else 'all of it '}at {heat.at_c:g} °C", *named])


def warm_gap_words(value: WarmGap) -> str:
    """ "then, all of it at 60 °C: 0.013 less by length"."""
    change = round(value.wider_mm, 3)
    said = "no more and no less" if change == 0 else f"{mm(abs(change))} {'more' if change > 0 else 'less'}"
    return f"then, {heat_words(value.heat)}: {said} by length"


def warm_play_words(value: SetGap) -> str:
    """ "then at 60 °C: gap 0.04 to 0.10, by length 0.02 less, by the races 0.03 more; a dial reads ...";
    "" for a play that is not warm.
    """
    play, force = value.then_mm, value.then_n
    if play is None:
        return ""
    terms = f"{_more(value.by_length_mm)} by length, {_more(value.by_races_mm)} by the races"
    words = f"then, {heat_words(value.heat)}: {gap_words(play.least, play.most)} ({terms}){because(play)}"
    why = because(force) if force.main_cause != play.main_cause else ""
    return f"{words}; {_preload(value, force)}{why}"


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
    least, most = sorted((round(abs(value.least), 3), round(abs(value.most), 3)))
    if most == 0:
        return "nothing"
    return f"{mm(least) + ' to ' if least != most else ''}{mm(most)} {'more' if value.usual > 0 else 'less'}"
