"""Figures of any dimension in the unit that somebody typed, to as many digits as the reading carries."""

from __future__ import annotations

from math import ceil, floor, log10

from stackcheck.model.gauges import Scale
from stackcheck.value import Value


class Figures(Value):
    """How figures are shown: `digits` behind the point for what was read, one more for what was worked out."""

    scale: Scale
    digits: int

    @property
    def unit(self) -> str:
        return self.scale.unit

    def shown(self, value: float) -> float:
        """The value in the unit that is shown."""
        return value / self.scale.factor

    def size(self, value: float) -> str:
        """An amount without its sign, as coarse as a reading: "0.05"."""
        return f"{abs(self.shown(value)):.{self.digits}f}"

    def fine(self, value: float) -> str:
        return f"{self.shown(value) + 0.0:.{self.digits + 1}f}"

    def good_to(self, value: float | None) -> str:
        """What something is good to, rounded up: it is never shown better than it is."""
        if value is None:
            return "not known"
        step = 10.0 ** (self.digits + 1)
        return f"{ceil(self.shown(value) * step - 1e-6) / step:.{self.digits + 1}f}"

    def more(self, value: float) -> str:
        """ "0.050 more", "0.025 less", "the same"."""
        words = self.fine(abs(value))
        if float(words) == 0:
            return "the same"
        return f"{words} {'more' if value > 0 else 'less'}"


def digits_of(step: float, scale: Scale) -> int:
    """Digits behind the point that show this step in the unit of the scale."""
    return max(0, -floor(log10(step / scale.factor) + 1e-9))
