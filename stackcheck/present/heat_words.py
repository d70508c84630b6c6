"""How warm everything is, in words, and what heat does to a play that a nut sets."""

from __future__ import annotations

from stackcheck.mechanics.axial.tighten import REFERENCE_C
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.set_gap import SetGap
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.figures import mm
from stackcheck.present.force_figures import because, force_words
from stackcheck.present.words import gap_words


def heat_words(heat: Heat) -> str:
    """ "all of it at 60 °C", "at 60 °C, hub at 45 °C", "hub at 45 °C"."""
    named = [f"{name} at {at_c:g} °C" for name, at_c in heat.named]
    if heat.at_c == REFERENCE_C:
        return ", ".join(named)
    return ", ".join([f"{'' if named else 'all of it '}at {heat.at_c:g} °C", *named])


def warm_play_words(value: SetGap) -> str:
    """ "then at 60 °C: gap 0.04 to 0.10, by length 0.02 less, by the races 0.03 more; a dial reads ..."; "" for a play that is not warm."""
    play, force = value.then_mm, value.then_n
    if play is None:
        return ""
    terms = f"{_more(value.by_length_mm)} by length, {_more(value.by_races_mm)} by the races"
    words = f"then, {heat_words(value.heat)}: {gap_words(play.least, play.most)} ({terms}){because(play)}"
    if force.most > 0:
        return f"{words}; preload {'none' if force.least <= 0 else force_words(force.least)} to {force_words(force.most)}{because(force)}"
    return f"{words}; no preload"


def _more(value: Spanned) -> str:
    least, most = sorted((round(abs(value.least), 3), round(abs(value.most), 3)))
    if most == 0:
        return "nothing"
    return f"{mm(least) + ' to ' if least != most else ''}{mm(most)} {'more' if value.usual > 0 else 'less'}"
