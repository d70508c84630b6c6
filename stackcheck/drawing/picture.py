"""What a picture is made of: parts with their outlines, labels, gaps, distances, shifts and the rows of its parts list.

Values only, in mm from the datum along the axis and from the centre line across it. What they say for a comparison is
decided in `layout.py`; how they are put on paper or on a terminal, by whoever draws them.
"""

from __future__ import annotations

from stackcheck.drawing.figure import Figure
from stackcheck.drawing.shapes import Drawn
from stackcheck.result.comparison import Comparison
from stackcheck.value import Value

FOUND, REFERENCE = "found", "reference"
NORMAL, UNSEEN, MISSING = "normal", "unseen", "missing"


class Piece(Value, kw_only=True):
    """One part of one half as it is drawn; `mark` is its item number, `hatch` one of four ways to hatch it."""

    half: str
    mark: str
    figure: Figure
    drawn: Drawn
    style: str = NORMAL
    hatch: int = 0

    @property
    def assumed(self) -> bool:
        return bool(self.figure.assumed)


class Label(Value, kw_only=True):
    """What stands beside the picture with a leader to a point in it: `mark` large, `words` above it.

    The leader may end anywhere from `first_mm` to `second_mm` along the axis, at `radius_mm`.
    """

    half: str
    mark: str
    words: tuple[str, ...]
    first_mm: float
    second_mm: float
    radius_mm: float
    rank: int


class OpenGap(Value, kw_only=True):
    """Room between two faces, drawn as a dimension: `words` are its name and figure."""

    half: str
    words: tuple[str, ...]
    first_mm: float
    second_mm: float
    radius_mm: float


class Distance(Value, kw_only=True):
    """A distance of the machine between two fixed members, drawn as a dimension line."""

    half: str
    mark: str
    first_mm: float
    second_mm: float


class Moved(Value, kw_only=True):
    """A watched part that stands elsewhere: the middle of it as found and by the reference."""

    mark: str
    found_mm: float
    reference_mm: float
    words: str


class Item(Value, kw_only=True):
    """A row of the parts list. `assumed` names the sizes that were assumed to draw it;
    `drawn` False: it is only listed.
    """

    mark: str
    name: str
    place: str
    entry: int | None
    assumed: tuple[str, ...] = ()
    drawn: bool = True
    loose: bool = False


class Fold(Value, kw_only=True):
    """A stretch of repeats that is drawn `width_mm` wide instead of its own width."""

    half: str
    first_mm: float
    second_mm: float
    width_mm: float


class Layout(Value, kw_only=True):
    """The whole picture, in mm from the datum along the axis and from the centre line across it.

    `window` is the stretch of the axis that is drawn, None for all of it; `folds` are stretches drawn shorter.
    """

    comparison: Comparison
    pieces: tuple[Piece, ...]
    labels: tuple[Label, ...]
    gaps: tuple[OpenGap, ...]
    distances: tuple[Distance, ...]
    moved: tuple[Moved, ...]
    items: tuple[Item, ...]
    core_mm: float
    remarks: tuple[str, ...] = ()
    folds: tuple[Fold, ...] = ()
    window: tuple[float, float] | None = None

    def half(self, half: str) -> tuple[Piece, ...]:
        return tuple(piece for piece in self.pieces if piece.half == half)
