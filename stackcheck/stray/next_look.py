"""The one look or measurement that tells the leading answers apart best for its trouble.

    e(q, i) = ½ ∫ min(p1(m), p2(m)) dm     the least share of mistakes at equal odds

For every look and every size with every instrument e is worked out for the pair of answers; what settles most per
minute comes first. Free looks (magnet, marking, chamfer, plate) cost next to nothing. Where the limits of the two
overlap, no instrument helps, and none is proposed: a finer one must at least halve what a coarser one leaves open.
"""

from __future__ import annotations

from stackcheck.formats.bare_sizes import length_word
from stackcheck.stray.candidates import Candidate
from stackcheck.stray.likelihood import magnet_holds, mean_wear, size_density
from stackcheck.stray.seen import INSIDE, THREAD, Stray, Taken
from stackcheck.units.instruments import INSTRUMENTS, standard_uncertainty
from stackcheck.value import Value

FREE_MINUTES = 0.25
SETTLES, HELPS = 0.1, 0.3
"""Below the first share of mistakes a look settles the question, above the second it is not worth the trouble."""
TOOLS = ("calliper 0.1", "calliper", "micrometer", "pin gauge")
LOOKS = {
    "tab": "look for a tab or a tongue",
    "teeth": "look for teeth or splines",
    "dished": "lay it on a plate: flat or hollow?",
    "chamfer": "look for a chamfer on the bare face",
}
STEPS = 600


class NextLook(Value, kw_only=True):
    """One thing to do: in words, the share of mistakes that it leaves, what it costs,
    whether it settles the question.
    """

    what: str
    mistakes: float
    minutes: float
    instrument: str = ""
    size: str = ""

    @property
    def settles(self) -> bool:
        return self.mistakes <= SETTLES

    @property
    def gain_per_minute(self) -> float:
        return (0.5 - self.mistakes) / self.minutes


def next_looks(stray: Stray, first: Candidate, second: Candidate, *, most: int = 3) -> tuple[NextLook, ...]:
    """The best things to do to tell two candidates apart, best first; empty where nothing would."""
    looks = [*_free_looks(stray, first, second), *_measurements(stray, first, second)]
    worth = [look for look in looks if look.mistakes <= HELPS]
    best = sorted(worth, key=lambda look: (not look.settles, -look.gain_per_minute))
    settled = {look.size: look for look in reversed(best) if look.size and look.settles}
    # One tool that settles it is enough.
    return tuple(look for look in best if settled.get(look.size, look) is look)[:most]


def _free_looks(stray: Stray, first: Candidate, second: Candidate) -> list[NextLook]:
    found = []
    if stray.magnetic is None:
        difference = abs(magnet_holds(first) - magnet_holds(second))
        found.append(_free("hold a magnet to it", 0.5 - difference / 2))
    carries = any(each.kind.endswith("bearing") or each.source == "piece" for each in (first, second))
    if stray.marking is None and carries and set(first.numbers) != set(second.numbers):
        found.append(_free("look for a number on its face or rim", 0.15))
    if any(
        stray.size(name) is None and None not in (pair := (first.size(name), second.size(name))) and pair[0] != pair[1]
        for name in THREAD
    ):
        found.append(_free("hold a thread gauge to it, or try it on a thread that is known", 0.05))
    known = dict(first.features), dict(second.features)
    for name, words in LOOKS.items():
        if (
            stray.feature(name) is None
            and known[0].get(name, False) != known[1].get(name, False)
            and (name in known[0] or name in known[1])
        ):
            both = name in known[0] and name in known[1]
            found.append(_free(words, 0.05 if both else 0.25))
    return found


def _free(what: str, mistakes: float) -> NextLook:
    return NextLook(what=what, mistakes=mistakes, minutes=FREE_MINUTES)


def _measurements(stray: Stray, first: Candidate, second: Candidate) -> list[NextLook]:
    found: list[NextLook] = []
    for limits in first.sizes:
        name = limits.name
        if second.size(name) is None or name in THREAD:
            continue
        done = stray.size(name)
        best_yet = overlap(stray, name, done.u_mm, first, second) if done else 0.5
        for tool in TOOLS:
            u_mm = standard_uncertainty(INSTRUMENTS[tool], inside=name in INSIDE)
            if u_mm is None or done and u_mm > done.u_mm * 0.7:
                continue
            mistakes = overlap(stray, name, u_mm, first, second)
            if mistakes <= best_yet / 2:  # a finer tool is no help where the limits themselves overlap
                words = (
                    f"measure the {length_word(stray.kind) if name == 'length' else name.replace('_', ' ')} by {tool}"
                )
                found.append(
                    NextLook(
                        what=words, mistakes=mistakes, minutes=INSTRUMENTS[tool].minutes, instrument=tool, size=name
                    )
                )
                best_yet = mistakes
    return found


def overlap(stray: Stray, name: str, u_mm: float, first: Candidate, second: Candidate) -> float:
    """Least share of mistakes [0 to 0.5] when this size, read with this standard uncertainty [mm], has to decide.

    Both candidates are taken at equal odds, with the wear that the condition of the part allows. Midpoint rule over
    `STEPS` readings.
    """
    pair = first.size(name), second.size(name)
    wear = mean_wear(stray, name)
    reach = 5 * u_mm + 12 * wear
    low, high = min(limits.low_mm for limits in pair) - reach, max(limits.high_mm for limits in pair) + reach
    step = (high - low) / STEPS
    total = 0.0
    for index in range(STEPS):
        value = low + (index + 0.5) * step
        taken = Taken(name=name, text="", value_mm=value, u_mm=max(u_mm, step), how="")
        total += min(size_density(taken, limits, wear) for limits in pair)
    return min(0.5, total * step / 2)
