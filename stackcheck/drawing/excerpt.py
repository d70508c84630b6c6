"""Parts of a layout: the neighbourhood of one finding, and packs with their repeats folded away."""

from __future__ import annotations

from stackcheck.drawing.picture import FOUND, REFERENCE, Fold, Label, Layout, Piece
from stackcheck.model.finding import Finding
from stackcheck.value import replace

NEIGHBOURS = 2
LONGEST_UNIT, FEWEST = 4, 4
"""A repeat is of up to so many parts, and folded from so many repeats on."""


def detail(layout: Layout, finding: Finding) -> Layout:
    """Just what a finding is about, with its nearest neighbours on either side, in both halves;
    the whole where it is about the list.
    """
    marks = _marks_of(layout, finding)
    spans = [_span(layout.half(half), marks) for half in (FOUND, REFERENCE)]
    known = [span for span in spans if span is not None]
    if not known:
        return layout
    first, second = min(span[0] for span in known), max(span[1] for span in known)
    margin = 0.04 * (second - first)
    window = first - margin, second + margin

    def inside(first_mm: float, second_mm: float) -> bool:
        return second_mm > window[0] and first_mm < window[1]

    pieces = tuple(piece for piece in layout.pieces if inside(*_reach(piece)))
    return replace(
        layout,
        pieces=pieces,
        labels=tuple(
            _clipped(label, window) for label in layout.labels if inside(label.first_mm - 1e-9, label.second_mm + 1e-9)
        ),
        gaps=tuple(gap for gap in layout.gaps if inside(gap.first_mm - 1e-9, gap.second_mm + 1e-9)),
        distances=(),
        moved=tuple(
            moved
            for moved in layout.moved
            if inside(moved.found_mm, moved.found_mm) and inside(moved.reference_mm, moved.reference_mm)
        ),
        items=tuple(item for item in layout.items if item.mark in {piece.mark for piece in pieces}),
        window=window,
    )


def _clipped(label: Label, window: tuple[float, float]) -> Label:
    return replace(label, first_mm=max(label.first_mm, window[0]), second_mm=min(label.second_mm, window[1]))


def _marks_of(layout: Layout, finding: Finding) -> set[str]:
    """Item marks of the parts that a finding names; of a gap those beside it."""
    beside = (
        {finding.after, finding.before}
        if finding.kind in ("gap_differs", "extra", "out_of_place", "run_moved")
        else set()
    )
    places = {*finding.places, *(place.partition("/")[0] for place in beside if place)}
    marks = {item.mark for item in layout.items if item.place in places and item.place}
    return marks | {piece.mark for piece in layout.half(FOUND) if piece.figure.standing.entry in finding.entries}


def _reach(piece: Piece) -> tuple[float, float]:
    figure = piece.figure
    first, second = figure.reach_mm or (figure.first_mm, figure.second_mm)
    return min(first, figure.first_mm), max(second, figure.second_mm)


def _span(pieces: tuple[Piece, ...], marks: set[str]) -> tuple[float, float] | None:
    """From the second neighbour before to the second after, counted by what stands on the axis there."""
    own = [piece.figure for piece in pieces if piece.mark in marks and piece.drawn.shapes]
    if not own:
        return None
    first, second = min(figure.first_mm for figure in own), max(figure.second_mm for figure in own)
    drawn = [piece.figure for piece in pieces if piece.drawn.shapes]
    before = sorted({round(figure.first_mm, 6) for figure in drawn if figure.first_mm < first - 1e-6}, reverse=True)[
        :NEIGHBOURS
    ]
    after = sorted({round(figure.second_mm, 6) for figure in drawn if figure.second_mm > second + 1e-6})[:NEIGHBOURS]
    return (before[-1] if before else first), (after[-1] if after else second)


def folded(layout: Layout) -> Layout:
    """Runs of repeats that agree, drawn once at either end and counted between."""
    current = layout
    for run, unit in _runs(layout):
        current = _fold(current, run, unit)
    return current


def _runs(layout: Layout) -> list[tuple[tuple[str, ...], int]]:
    """(places to fold away, how many parts repeat): along each stack,
    where the same parts come again and again and agree.
    """
    comparison = layout.comparison
    reference = comparison.reference
    told = {place for result in comparison.findings for place in result.finding.places}
    stood = {standing.home for standing in comparison.best.line if standing.entry is not None}
    runs: list[tuple[tuple[str, ...], int]] = []
    folded_already: set[str] = set()
    for stack in reference.stacks:
        places = stack.places
        start = 0
        while start < len(places):
            unit, end = _longest(reference, places, start, told, stood)
            count = (end - start) // unit
            if count >= FEWEST and not folded_already & set(places[start:end]):
                inner = places[start + unit : start + (count - 1) * unit]
                runs.append((inner, unit))
                folded_already |= set(places[start:end])
                start += count * unit
            else:
                start += 1
    return runs


def _longest(reference, places: tuple[str, ...], start: int, told: set[str], stood: set) -> tuple[int, int]:
    """The unit whose repeats reach farthest from a place, and where they end."""
    best = 1, start
    for unit in range(1, LONGEST_UNIT + 1):
        end = start
        while end < len(places) and places[end] not in told and places[end] in stood:
            if end >= start + unit and not _same(reference, places[end], places[end - unit]):
                break
            end += 1
        if (end - start) // unit >= FEWEST and end > best[1]:
            best = unit, end
    return best


def _same(reference, a: str, b: str) -> bool:
    one, other = reference.place(a), reference.place(b)
    return one.part == other.part and one.facing == other.facing and one.count == other.count


def _fold(layout: Layout, run: tuple[str, ...], unit: int) -> Layout:
    folds, labels = [], list(layout.labels)
    hidden = {item.mark for item in layout.items if item.place in run}
    for half in (FOUND, REFERENCE):
        own = [piece.figure for piece in layout.half(half) if piece.mark in hidden]
        if not own:
            continue
        first, second = min(figure.first_mm for figure in own), max(figure.second_mm for figure in own)
        width = (second - first) * unit / len(run)
        folds.append(Fold(half=half, first_mm=first, second_mm=second, width_mm=width))
        numbers = sorted(int(mark) for mark in hidden if mark.isdigit())
        radius = (own[0].inner_mm + own[0].outer_mm) / 2
        words = (f"{len(run) // unit} times", "as beside")
        mark = f"{numbers[0]} to {numbers[-1]}" if numbers else ""
        labels = [label for label in labels if label.half != half or label.mark.rstrip("~") not in hidden]
        labels.append(
            Label(half=half, mark=mark, words=words, first_mm=first, second_mm=second, radius_mm=radius, rank=0)
        )
    return replace(
        layout,
        pieces=tuple(piece for piece in layout.pieces if piece.mark not in hidden),
        labels=tuple(labels),
        folds=(*layout.folds, *folds),
    )
