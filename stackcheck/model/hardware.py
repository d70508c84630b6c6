"""What a standard part is: its sizes with limits, the standard they come from, and the sources that agree on them.

A row answers "what does ISO 7089 M12 measure?" with least and most for every size, never a bare nominal, because a part
that came off is compared with limits. The figures live in `stackcheck.tables`; this module only says what they are.

Not here: loads, speeds, materials, prices. A row says what a part measures when new, not whether it may be used.
"""

from __future__ import annotations

from stackcheck.value import Value


class HardwareSize(Value, kw_only=True):
    """One size of a standard part [mm]: the nominal of the standard and the limits of a new part.

    `name` is one of `stackcheck.model.part.SIZE_NAMES`. `nominal_mm` need not lie in the middle, and for a clearance,
    which has no nominal, it is the middle of the range. `least_mm` <= `most_mm` always. For a size that
    only names what the part is made for (shaft, seat, thread), and for those of the profile of a bolt's thread, the
    standard sets no limits and all three are equal.
    """

    name: str
    nominal_mm: float
    least_mm: float
    most_mm: float


class HardwareRow(Value, kw_only=True):
    """One size of one standard, with what its sources agree on.

    `designation` is the way to write it ("ISO 7089 M12", "6204 C3"); reading it again gives the same row. `features`
    are facts that are no length, in words: "two seals", "clearance group C3", "contact angle 40". `sources` are full
    texts, at least two, or one and the rule that reproduces its figures.
    """

    standard: str
    designation: str
    kind: str
    sizes: tuple[HardwareSize, ...]
    features: tuple[str, ...] = ()
    sources: tuple[str, ...]

    def size(self, name: str) -> HardwareSize | None:
        """The size called `name`, or None where the row does not give it."""
        for size in self.sizes:
            if size.name == name:
                return size
        return None


class HardwareTable(Value, kw_only=True):
    """One table: which standard and edition, what its rows cover, what they leave out,
    and where the figures come from.
    """

    id: str
    standard: str
    edition: str
    title: str
    covers: str
    not_covered: str
    sources: tuple[str, ...]
