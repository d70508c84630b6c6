"""How well the sizes and looks of a stray part suit one candidate, as a density per mm of the sizes measured.

    true length, outside = uniform between the limits - wear + coat
    true bore            = uniform between the limits + wear - coat

Wear is exponential with a heavy tail (two exponentials), so it only thins and only widens; a coat sits on every size at
once. The reading adds a normal error. The limits of a drawing are taken as uniform, never as a bell over their middle.
Wear is integrated in closed form, coats over a few fixed nodes.

What a candidate does not define counts less than for a thing nobody knows, never 1; unlike things are then densities
per mm of the same measured sizes and can be compared. A reading that lies beyond three standard uncertainties and every
wear and coat is out at once (`gate`), however the rest may suit.
"""

from __future__ import annotations

from functools import cache
from math import erfc, exp, inf, log, prod, sqrt

from stackcheck.stray.beliefs import belief, beliefs, family
from stackcheck.stray.candidates import Candidate, Limits
from stackcheck.stray.seen import MATERIALS, Stray, Taken, name_words

GROWS = frozenset({"bore"})
"""Sizes that wear makes larger and a coat smaller."""
AUSTENITIC, NOT_HELD = (
    ("stainless",),
    ("brass", "bronze", "aluminium", "copper", "rubber", "plastic", "nylon", "paper", "fibre"),
)


def normal_cdf(x: float) -> float:
    return 0.5 * erfc(-x / sqrt(2))


def worn_cdf(x: float, u_mm: float, wear_mm: float) -> float:
    """Probability that reading error less wear stays at or below x [mm].

    Error normal with standard uncertainty `u_mm`, wear exponential with mean `wear_mm`, independent:
    F(x) = Φ(x/u) + exp(x/λ + u²/2λ²) Φ(-x/u - u/λ).
    Source: convolution worked by hand; tests hold it against numerical integration.

    >>> round(worn_cdf(0.0, 1e-9, 0.02), 6)  # wear only takes away
    1.0
    """
    if wear_mm < u_mm / 30:
        return normal_cdf((x + wear_mm) / u_mm)
    tail = normal_cdf(-x / u_mm - u_mm / wear_mm)
    growth = x / wear_mm + u_mm**2 / (2 * wear_mm**2)
    return normal_cdf(x / u_mm) + (exp(growth) * tail if tail and growth < 700 else 0.0)


def size_density(taken: Taken, limits: Limits, wear_mm: float, coat_mm: float = 0.0) -> float:
    """Density per mm of one reading, given the candidate's limits, the mean wear and the coat [mm].

    >>> washer = Taken(name="length", text="2.5", value_mm=2.5, u_mm=0.001, how="micrometer")
    >>> round(size_density(washer, Limits("length", 2.0, 3.0), 0.001), 2)
    1.0
    """
    sign = -1.0 if taken.name in GROWS else 1.0
    value, low, high = sign * taken.value_mm - coat_mm, sign * limits.low_mm, sign * limits.high_mm
    low, high = min(low, high), max(low, high)
    share, factor = belief("wear tail", "share"), belief("wear tail", "factor")
    inside = sum(
        part * (worn_cdf(value - low, taken.u_mm, mean) - worn_cdf(value - high, taken.u_mm, mean))
        for part, mean in ((1 - share, wear_mm), (share, wear_mm * factor))
    )
    return max(0.0, inside) / (high - low)


def mean_wear(stray: Stray, name: str) -> float:
    """Mean wear of this size [mm] by the condition that was said; used where nothing was."""
    condition = next((word for word in ("worn", "new") if word in stray.conditions), "used")
    means = beliefs(f"wear {condition}")
    return means.get(name, means["any"])


def coats(stray: Stray) -> dict[float, float]:
    """Thickness of the coat [mm] -> how likely it is."""
    condition = next((word for word in ("painted", "dirty") if word in stray.conditions), "not said")
    return _coats(f"coating {condition}")


@cache
def _coats(topic: str) -> dict[float, float]:
    return {float(name): weight for name, weight in beliefs(topic).items()}


Reach = tuple[tuple[str, float, float], ...]
"""Name of a size, and from where to where its limits may lie [mm]:
below its low limit at most, above its high one at least.
"""


def reach(stray: Stray) -> Reach:
    """How far the limits of a candidate may lie from each reading,
    with every wear and coat and three standard uncertainties.
    """
    return _reach(stray, means=belief("wear tail", "gate"), sigmas=belief("gate", "sigmas"))


def gate(own: Reach, candidate: Candidate) -> tuple[str, ...]:
    """The sizes that rule this candidate out."""
    limits = {size.name: size for size in candidate.sizes}
    return tuple(
        name for name, highest_low, lowest_high in own
        if name in limits and not (limits[name].low_mm <= highest_low and limits[name].high_mm >= lowest_high)
    )  # fmt: skip


def is_ordinary(stray: Stray, candidate: Candidate, sigmas: float = 0.0) -> bool:
    """Whether ordinary wear explains every size, and a coat only where one was seen;
    what needs more is never identified.

    The uncertainty has no part in this: a coarser tool must never make an answer surer. With `sigmas` it has, to tell
    what the tool alone would explain.
    """
    means, share = belief("wear tail", "ordinary"), belief("wear tail", "ordinary share")
    coat = max(coats(stray)) if {"painted", "dirty"} & set(stray.conditions) else 0.0
    return not gate(
        _reach(stray, means=means, sigmas=sigmas, room_mm=belief("wear tail", "room"), share=share, coat_mm=coat),
        candidate,
    )


def agreeing_reach(stray: Stray) -> Reach:
    """How far limits may lie from readings that plainly agree:
    ordinary wear, a coat only where one was seen, two uncertainties.
    """
    coat = max(coats(stray)) if {"painted", "dirty"} & set(stray.conditions) else 0.0
    means, share = belief("wear tail", "ordinary"), belief("wear tail", "ordinary share")
    return _reach(stray, means=means, sigmas=belief("decide", "agree"), share=share, coat_mm=coat)


def _reach(
    stray: Stray,
    *,
    means: float,
    sigmas: float = 0.0,
    room_mm: float = 0.0,
    share: float = 1.0,
    coat_mm: float | None = None,
) -> Reach:
    thickest, found = max(coats(stray)) if coat_mm is None else coat_mm, []
    for taken in stray.taken:
        wear = min(means * mean_wear(stray, taken.name), share * taken.value_mm)
        around = sigmas * taken.u_mm + min(room_mm, share * taken.value_mm)
        shrinks, grows = (thickest, wear) if taken.name in GROWS else (wear, thickest)
        found.append((taken.name, taken.value_mm + shrinks + around, taken.value_mm - grows - around))
    return tuple(found)


def sizes_density(stray: Stray, candidate: Candidate) -> float:
    """Density of all measured sizes together, averaged over the coat that sits on all of them at once."""
    undefined = belief("undefined", "share")
    pairs = [(taken, candidate.size(taken.name), mean_wear(stray, taken.name)) for taken in stray.taken]
    total = 0.0
    for coat, weight in coats(stray).items():
        density = weight
        for taken, limits, wear in pairs:
            density *= undefined * flat_density(taken) if limits is None else size_density(taken, limits, wear, coat)
        total += density
    return total


def unknown_density(stray: Stray) -> float:
    """Density of the measured sizes of a thing nobody knows: flat in the logarithm of each size."""
    return prod(flat_density(taken) for taken in stray.taken)


def flat_density(taken: Taken) -> float:
    """Density per mm of one size that could be anything: 1 / (m ln R)."""
    ranges = beliefs("unknown range")
    return 1 / (taken.value_mm * log(ranges.get(taken.name, ranges["any"])))


def looks_factor(stray: Stray, candidate: Candidate) -> float:
    """How well kind, magnet, material, marking and features suit; what was not looked at counts 1."""
    return (
        (
            belief("kind", "same")
            if stray.kind and is_called(stray.what, candidate.called)
            else kind_factor(stray.kind, candidate.kind)
        )
        * _magnet(stray, candidate)
        * _material(stray, candidate)
        * marking_factor(stray.marking, candidate)
        * _features(stray, candidate)
    )


def unknown_looks(stray: Stray) -> float:
    """The same for a thing nobody knows."""
    factor = 1.0
    if stray.magnetic is not None:
        factor *= 0.5
    if stray.marking:
        factor *= belief("marking", "unexpected")
    return factor * belief("feature", "not known") ** len(stray.features)


def is_called(what: str, names: tuple[tuple[str, ...], ...]) -> bool:
    """Whether somebody used one of these names, with or without the material:
    a "sleeve" that is a ring is no slip of the pen.
    """
    return bool(names) and bool(set(names) & _said_as(what))


@cache
def _said_as(what: str) -> frozenset[tuple[str, ...]]:
    words = name_words(what)
    return frozenset({words, tuple(word for word in words if word not in MATERIALS)} - {()})


def kind_factor(seen: str, own: str) -> float:
    """How likely a part of kind `own` is called `seen`; 1 where nobody said."""
    if not seen:
        return 1.0
    if seen == own:
        return belief("kind", "same")
    families = {family(seen), family(own)}
    if len(families) == 1:
        return belief("kind", "flat rings" if families == {"flat rings"} else "same family")
    return belief("kind", "flat against cone" if families == {"flat rings", "cones"} else "other")


def magnet_holds(candidate: Candidate) -> float:
    """How likely a magnet holds it."""
    material = candidate.material.lower()
    if not material:
        return belief("magnet", "not known")
    if any(word in material for word in AUSTENITIC):
        return belief("magnet", "austenitic")
    return belief("magnet", "other" if any(word in material for word in NOT_HELD) else "steel")


def _magnet(stray: Stray, candidate: Candidate) -> float:
    if stray.magnetic is None:
        return 1.0
    holds = magnet_holds(candidate)
    return holds if stray.magnetic else 1 - holds


def _material(stray: Stray, candidate: Candidate) -> float:
    if not stray.material or not candidate.material:
        return 1.0
    return belief("material", "same" if stray.material in candidate.material.lower() else "different")


def marking_factor(marking: str | None, candidate: Candidate) -> float:
    """How likely this mark is on such a part; 1 where nobody looked for one."""
    if marking is None:
        return 1.0
    carries = _carries_a_mark(candidate)
    if not marking:
        return belief("marking", "absent") if carries else 1.0
    if bears(candidate, marking):
        return belief("marking", "agrees")
    return belief("marking", "contradicts") if carries or candidate.numbers else belief("marking", "unexpected")


def bears(candidate: Candidate, marking: str | None) -> bool:
    """Whether the mark is a number or the designation of this part; a bearing may say more behind its number.

    >>> bears(Candidate(kind="collar", name="", source="part", sizes=(), numbers=("FT-1207",)), "ft 1207")
    True
    """
    if not marking:
        return False
    plain = _bare(marking)
    numbers = [_bare(number) for number in candidate.numbers]
    return plain in numbers or (
        _carries_a_mark(candidate) and any(plain.startswith(number.split("C")[0] or number) for number in numbers)
    )


def _carries_a_mark(candidate: Candidate) -> bool:
    return candidate.kind.endswith("bearing") or candidate.source == "piece"


@cache
def _bare(number: str) -> str:
    return "".join(sign for sign in number.upper() if sign.isalnum())


def _features(stray: Stray, candidate: Candidate) -> float:
    known, factor = dict(candidate.features), 1.0
    painted = "painted" in stray.conditions
    for name, there in stray.features:
        if name not in known:
            factor *= belief("feature", "not known")
        elif not there and painted:
            continue  # nobody sees a chamfer that is not there under paint
        else:
            factor *= belief("feature", "agrees" if known[name] == there else "contradicts")
    return factor


def z_worst(stray: Stray, candidate: Candidate) -> float:
    """The largest distance of a reading from the bare limits, in standard uncertainties; 0 inside all of them."""
    worst = 0.0
    for taken in stray.taken:
        limits = candidate.size(taken.name)
        if limits is None:
            return inf
        beyond = max(limits.low_mm - taken.value_mm, taken.value_mm - limits.high_mm, 0.0)
        worst = max(worst, beyond / taken.u_mm)
    return worst
