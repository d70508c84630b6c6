"""Where a stray part goes, whatever it is: over the shaft, into the bore, through the seal, against the shoulder,
into the groove.

A verdict of its own, independent of identity and origin. The probability that it goes is Φ(room / u); below 0.05 it
does not, above 0.95 it does, between them nobody can tell with this instrument. The other part is taken at the limit
that would hinder most when it "does", and at the one that would hinder least when it "does not".
"""

from __future__ import annotations

from stackcheck.model.part import Part, Size
from stackcheck.model.reference import Reference
from stackcheck.stray.beliefs import belief, family
from stackcheck.stray.likelihood import normal_cdf
from stackcheck.stray.seen import Stray, Taken
from stackcheck.value import Value

DOES, DOES_NOT, CANNOT_TELL = "does", "does not", "cannot tell"
SHAFTS = frozenset({"axle", "shaft", "arbor", "gear"})
BORES = frozenset({"hub", "housing", "drum", "carrier", "bracket", "wheel", "cover"})


class Fit(Value, kw_only=True):
    """One question of fit: `does` in words ("goes over"), against which part, with the limits of its size [mm].

    `smaller`: whether the stray part has to be the smaller of the two.
    """

    does: str
    part: str
    verdict: str
    low_mm: float
    high_mm: float
    taken: Taken
    smaller: bool

    @property
    def says_nothing(self) -> bool:
        """Whether it goes with so much room that this tells nothing of where it belongs:
        a shim goes into any barrel.
        """
        if self.verdict != DOES or self.does.startswith("stands"):
            return False
        room = self.low_mm - self.taken.value_mm if self.smaller else self.taken.value_mm - self.high_mm
        return room > belief("substitute room", "outside" if self.smaller else "bore") * self.low_mm


def fits(stray: Stray, reference: Reference) -> tuple[Fit, ...]:
    """Every question of fit that sizes of this reference and of the stray part can answer."""
    found = []
    for part in reference.parts:
        for name, measured, does, smaller in _questions(part):
            size, taken = part.size(name), stray.size(measured)
            if name == "groove_width" and stray.kind and family(stray.kind) != "circlips":
                continue  # nothing else lies in the groove of a circlip
            if size is not None and taken is not None:
                found.append(_fit(does, part, size, taken, smaller=smaller))
    return tuple(dict.fromkeys(found))


def _questions(part: Part) -> tuple[tuple[str, str, str, bool], ...]:
    """(size of the part, size of the stray, what it would do, whether the stray's must be the smaller one)."""
    questions = []
    if part.kind in SHAFTS:
        questions += [
            ("seat", "bore", "goes over", False),
            ("shoulder", "bore", "stands against the shoulder of", True),
        ]
    if part.kind in BORES:
        questions += [
            ("seat", "outside", "enters the bore of", True),
            ("shoulder", "outside", "stands against the shoulder in", False),
        ]
    if part.kind == "seal":
        questions.append(("bore", "outside", "goes through the lip of", True))
    questions.append(("groove_width", "length", "goes into the groove of", True))
    return tuple(questions)


def _fit(does: str, part: Part, size: Size, taken: Taken, *, smaller: bool) -> Fit:
    sign = 1.0 if smaller else -1.0
    rooms = [sign * (limit - taken.value_mm) for limit in (size.low_mm, size.high_mm)]
    surely, perhaps = normal_cdf(min(rooms) / taken.u_mm), normal_cdf(max(rooms) / taken.u_mm)
    verdict = DOES if surely > belief("fit", "yes") else DOES_NOT if perhaps < belief("fit", "no") else CANNOT_TELL
    return Fit(
        does=does,
        part=part.name,
        verdict=verdict,
        low_mm=size.low_mm,
        high_mm=size.high_mm,
        taken=taken,
        smaller=smaller,
    )
