"""One picture of a comparison, in mm: as found above the centre line, the reference below, counted from one datum.

Everything that is drawn is decided here, once, for every way of drawing: outlines and where they come from, item marks,
words of difference, gaps with their figures, shifts. Numbers go by the line of the reference, letters name the members
that stay on the machine, X1, X2 what has no place in the reference. A part that nobody looked at has no feature and no
filling; a missing one is an outline that is not filled either.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.drawing.callouts import Callout, callouts, gap_label, unseen_words
from stackcheck.drawing.figure import CORE, DISTANCE, HIDDEN, HOUSING, WITHIN, Figure
from stackcheck.drawing.figures import figures_of
from stackcheck.drawing.hatching import hatches
from stackcheck.drawing.marks import item_marks
from stackcheck.drawing.picture import (
    FOUND,
    MISSING,
    NORMAL,
    REFERENCE,
    UNSEEN,
    Distance,
    Item,
    Label,
    Layout,
    Moved,
    OpenGap,
    Piece,
)
from stackcheck.drawing.positions import Line, Who, line_of
from stackcheck.drawing.radii import core_radius
from stackcheck.drawing.roles import Surroundings, assumed_length
from stackcheck.drawing.shapes import drawn
from stackcheck.mechanics.arrangement import Arrangement, as_believed, as_wanted, standing_in
from stackcheck.model.reference import Gap, Reference
from stackcheck.present.names import listed
from stackcheck.present.words import mm
from stackcheck.result.comparison import Comparison
from stackcheck.result.points import AGREES, DIFFERS, FACING
from stackcheck.value import replace


def layout(comparison: Comparison) -> Layout:
    """The picture of a comparison."""
    reference, found, best = comparison.reference, comparison.found, comparison.best
    wanted, believed = as_wanted(reference), as_believed(reference, found, best)
    marks = item_marks(comparison)
    around = Surroundings.of(reference)
    own, own_figures = _half(comparison, around, wanted)
    seen, seen_figures = _half(comparison, around, believed, own)
    hatch = hatches(reference, own, own_figures)
    pieces = [
        *_pieces(comparison, FOUND, seen_figures, marks, hatch),
        *_pieces(comparison, REFERENCE, own_figures, marks, hatch),
    ]
    pieces += _missing(comparison, marks, hatch, own, own_figures, seen)
    words = callouts(comparison)
    gaps = [*_gaps(comparison, FOUND, seen, seen_figures), *_gaps(comparison, REFERENCE, own, own_figures)]
    return Layout(
        comparison=comparison,
        pieces=tuple(pieces),
        labels=(*_labels(comparison, pieces, words), *_gap_labels(gaps)),
        gaps=tuple(gaps),
        distances=tuple(
            Distance(half=half, mark=marks[who], first_mm=figure.first_mm, second_mm=figure.second_mm)
            for half, figures in ((FOUND, seen_figures), (REFERENCE, own_figures))
            for who, figure in figures.items()
            if figure.role == DISTANCE
        ),
        moved=_moved(comparison, marks, own_figures, seen_figures),
        items=_items(comparison, marks, own_figures, seen_figures),
        core_mm=core_radius(reference, around, own_figures),
        remarks=tuple(each.words[0] for each in words if not each.keys),
    )


def _half(
    comparison: Comparison, around: Surroundings, arrangement: Arrangement, usual: Line | None = None
) -> tuple[Line, dict[Who, Figure]]:
    reference, ruler = comparison.reference, arrangement.ruler
    kinds: dict[Who, str] = {}

    def kind_of(standing) -> str:
        part = ruler.part(standing)
        if part is not None:
            return part.kind
        entry = comparison.found.entry(standing.entry) if standing.entry else None
        return (entry.kind if entry else "") or (
            reference.part_at(standing.home).kind if standing.home and reference.has_place(standing.home) else "ring"
        )

    def length_of(standing) -> float:
        return assumed_length(around, standing, ruler.part(standing), kind_of(standing))

    def gap_of(gap: Gap) -> float | None:
        if ruler.as_found:
            reading = next((item.reading for item in comparison.found.measured if item.gap == gap.name), None)
            if reading is not None:
                return reading.value_mm
        known = [each for each in (gap.least_mm, gap.most_mm) if each is not None]
        return max(0.0, sum(known) / len(known)) if known else None

    line = line_of(arrangement, reference.datum, length_of, gap_of, usual)
    for who, standee in line.standees.items():
        kinds[who] = kind_of(standee.standing)
    facings = _facings(comparison, line) if ruler.as_found else _facings_wanted(reference, line)
    return line, figures_of(reference, around, ruler, line, kinds, facings)


_SIDE = {"first": -1, "second": 1}


def _facings_wanted(reference: Reference, line: Line) -> dict[Who, int]:
    return {
        who: _SIDE.get(reference.place(standee.standing.home).facing, 0)
        for who, standee in line.standees.items()
        if standee.standing.home is not None and reference.has_place(standee.standing.home)
    }


def _facings(comparison: Comparison, line: Line) -> dict[Who, int]:
    """Which way each part looked as far as somebody said so."""
    reference, found = comparison.reference, comparison.found
    exchanged = any(result.finding.kind == "entered_from_other_end" for result in comparison.findings)
    settled = {point.place for point in comparison.points if point.what == FACING and point.state in (AGREES, DIFFERS)}
    facings = {}
    for who, standee in line.standees.items():
        standing = standee.standing
        entry = found.entry(standing.entry) if standing.entry is not None else None
        if entry is not None and entry.toward in _SIDE:
            facings[who] = -_SIDE[entry.toward] if exchanged else _SIDE[entry.toward]
        elif (
            standing.home is not None
            and reference.has_place(standing.home)
            and (standing.home in settled or reference.part_at(standing.home).fixed)
        ):
            wanted = _SIDE.get(reference.place(standing.home).facing, 0)
            facings[who] = -wanted if standing.turned else wanted
    return facings


def _pieces(
    comparison: Comparison, half: str, figures: dict[Who, Figure], marks: dict, hatch: dict[object, int]
) -> list[Piece]:
    pieces = []
    for who, figure in figures.items():
        style = UNSEEN if half == FOUND and _is_unseen(comparison, figure) else NORMAL
        pieces.append(
            Piece(
                half=half, mark=marks[who], figure=figure, drawn=drawn(figure), style=style, hatch=hatch.get(who[0], 2)
            )
        )
    return pieces


def _is_unseen(comparison: Comparison, figure: Figure) -> bool:
    """Not reached, not looked at, or inside a unit that nobody opened."""
    standing = figure.standing
    if figure.fixed or standing.entry is not None:
        return False
    unit = any(standing.home in unit.members for unit in comparison.reference.units)
    return standing.home is not None or unit


def _missing(comparison: Comparison, marks: dict, hatch: dict, own: Line, own_figures, seen: Line) -> list[Piece]:
    """The empty places, as wide as the part that should be there, beside the neighbour as found."""
    pieces = []
    there = {standing.home for standing in comparison.best.line}
    for result in comparison.findings:
        if result.finding.kind != "missing":
            continue
        for place in result.finding.places:
            who = place, 0
            if who not in own_figures or place in there:
                continue
            figure = own_figures[who]
            first = _empty_at(own, seen, who, figure)
            figure = replace(
                figure,
                first_mm=first,
                second_mm=first + figure.length_mm,
                standing=standing_in(comparison.reference.place(place)),
            )
            pieces.append(
                Piece(
                    half=FOUND,
                    mark=marks[place],
                    figure=figure,
                    drawn=drawn(figure),
                    style=MISSING,
                    hatch=hatch.get(place, 0),
                )
            )
    return pieces


def _empty_at(own: Line, seen: Line, who: Who, figure: Figure) -> float:
    for path in (own.paths[stack] for stack in own.standees[who].stacks):
        here = path.index(who)
        before = next((each for each in reversed(path[:here]) if each in seen.faces), None)
        after = next((each for each in path[here + 1 :] if each in seen.faces), None)
        if figure.first_mm >= 0 and before is not None:
            return seen.faces[before][1] + own.faces[who][0] - own.faces[path[here - 1]][1]
        if after is not None:
            return seen.faces[after][0] - figure.length_mm
        if before is not None:
            return seen.faces[before][1]
    return figure.first_mm


def _labels(comparison: Comparison, pieces: Iterable[Piece], told: Iterable[Callout]) -> list[Label]:
    """One label for every part, and one more for each piece of a group about which there is something to say."""
    labels = []
    numbered: set[tuple[str, str]] = set()
    said: set[tuple[str, str, tuple[str, ...]]] = set()
    bearings = [piece for piece in pieces if "bearing" in piece.figure.kind]
    for piece in pieces:
        figure = piece.figure
        if figure.role in (DISTANCE, HIDDEN) or not piece.mark:
            continue
        lines = tuple(dict.fromkeys(_words_at(comparison, piece, told))) if piece.half == FOUND else ()
        if (piece.half, piece.mark, lines) in said or (not lines and (piece.half, piece.mark) in numbered):
            continue
        numbered.add((piece.half, piece.mark))
        said.add((piece.half, piece.mark, lines))
        first, second, radius = _anchor(figure, piece, bearings)
        mark = piece.mark + ("~" if piece.assumed else "")
        rank = 0 if lines else 1 if figure.fixed else 2
        labels.append(
            Label(
                half=piece.half, mark=mark, words=lines, first_mm=first, second_mm=second, radius_mm=radius, rank=rank
            )
        )
    return labels


def _words_at(comparison: Comparison, piece: Piece, told: Iterable[Callout]) -> list[str]:
    standing = piece.figure.standing
    keys = {standing.home, standing.entry} - {None}
    lines = [line for each in told if keys & set(each.keys) for line in each.words]
    if piece.style == UNSEEN:
        lines += unseen_words(comparison, standing.home)
    elif not piece.figure.facing and piece.style == NORMAL and _wants_facing(comparison, piece):
        lines.append("way round?")
    return lines


def _wants_facing(comparison: Comparison, piece: Piece) -> bool:
    home, reference = piece.figure.standing.home, comparison.reference
    return (
        not piece.figure.fixed and home is not None and reference.has_place(home) and bool(reference.place(home).facing)
    )


def _anchor(figure: Figure, piece: Piece, bearings: list[Piece]) -> tuple[float, float, float]:
    """Where the leader of a part may end: inside its outline;
    for a ring inside a bearing's outline, in the outer part of that.
    """
    if figure.role == WITHIN:
        near = min(
            (each.figure for each in bearings if each.half == piece.half),
            key=lambda each: abs(each.first_mm + each.second_mm - 2 * figure.first_mm), default=figure,
        )  # fmt: skip
        return near.first_mm, near.second_mm, near.outer_mm - 0.1 * (near.outer_mm - near.inner_mm)
    if figure.role == CORE:
        return figure.first_mm, figure.second_mm, 0.4 * figure.outer_mm
    if figure.role == HOUSING and not (figure.steps and figure.open_mm is None):
        end = figure.open_mm[0] if figure.open_mm else figure.second_mm
        return figure.first_mm, end, figure.inner_mm + 0.5 * (figure.outer_mm - figure.inner_mm)
    if figure.steps:
        widest = max(figure.stages, key=lambda stage: stage.second_mm - stage.first_mm)
        return widest.first_mm, widest.second_mm, (widest.inner_mm + widest.outer_mm) / 2
    height = min(figure.outer_mm, 2 * figure.inner_mm + 0.5 * figure.length_mm) - figure.inner_mm
    share = 0.82 if figure.kind == "seal" or "bearing" in figure.kind else 0.5
    return figure.first_mm, figure.second_mm, figure.inner_mm + share * height


def _gaps(comparison: Comparison, half: str, line: Line, figures: dict[Who, Figure]) -> list[OpenGap]:
    gaps = []
    told: set[str] = set()
    for spot in line.gaps:
        if spot.before is None or spot.after is None or spot.gap.name in told:
            continue
        first, second = line.faces[spot.before][1], line.faces[spot.after][0]
        words = gap_label(comparison, spot.gap, as_found=half == FOUND, drawn_mm=second - first)
        if not words:
            continue
        told.add(spot.gap.name)
        before, after = figures[spot.before], figures[spot.after]
        low = max(before.inner_mm, after.inner_mm)
        high = min(before.outer_mm, after.outer_mm)
        radius = (low + high) / 2 if high > low else max(before.inner_mm, 0.5 * before.outer_mm)
        gaps.append(OpenGap(half=half, words=words, first_mm=first, second_mm=second, radius_mm=radius))
    return gaps


def _gap_labels(gaps: Iterable[OpenGap]) -> list[Label]:
    return [
        Label(
            half=gap.half, mark="", words=gap.words, first_mm=min(gap.first_mm, gap.second_mm),
            second_mm=max(gap.first_mm, gap.second_mm),
            radius_mm=gap.radius_mm, rank=0 if any(word.isupper() for word in gap.words) else 1,
        )
        for gap in gaps
    ]  # fmt: skip


def _moved(comparison: Comparison, marks: dict, own: dict[Who, Figure], seen: dict[Who, Figure]) -> tuple[Moved, ...]:
    """Watched parts that stand elsewhere as found, all findings together.

    The figure is that of the findings' effects where these account for it, so that picture and text say the same.
    """
    reference = comparison.reference
    told: dict[str, tuple[float, ...]] = {}
    for shift in (shift for result in comparison.findings if result.effect for shift in result.effect.shifts):
        told[shift.place] = tuple(
            before + by for before in told.get(shift.place, (0.0,)) for by in shift.either_mm or (shift.mm,)
        )
    moved = []
    for place in reference.places:
        who = place.name, 0
        if not reference.part(place.part).has_duty("watch") or who not in own or who not in seen:
            continue
        ours, theirs = ((figure.first_mm + figure.second_mm) / 2 for figure in (seen[who], own[who]))
        by = ours - theirs
        if abs(by) < 0.05:
            continue
        said = told.get(place.name, (by,))
        figures = said if min(said) - 0.25 < by < max(said) + 0.25 else (by,)
        words = (
            f"{listed((mm(abs(round(figure, 2))) for figure in figures), 'or')} further toward {reference.ends[by > 0]}"
        )
        moved.append(Moved(mark=marks[place.name], found_mm=ours, reference_mm=theirs, words=words))
    return tuple(moved)


def _items(comparison: Comparison, marks: dict, own: dict[Who, Figure], seen: dict[Who, Figure]) -> tuple[Item, ...]:
    reference, found = comparison.reference, comparison.found
    entries = {standing.home: standing.entry for standing in comparison.best.line if standing.home}
    items = []
    for name in reference.line:
        figures = [figure for figure in (own.get((name, 0)), seen.get((name, 0))) if figure is not None]
        assumed = tuple(dict.fromkeys(size for figure in figures for size in figure.assumed))
        hidden = not figures or figures[0].role == HIDDEN
        items.append(
            Item(
                mark=marks[name],
                name=reference.part_at(name).name,
                place=name,
                entry=entries.get(name),
                assumed=assumed,
                drawn=not hidden,
            )
        )
    for who, figure in seen.items():
        if figure.standing.home is None and figure.standing.entry is not None:
            items.append(
                Item(
                    mark=marks[who],
                    name=found.entry(figure.standing.entry).what,
                    place="",
                    entry=figure.standing.entry,
                    assumed=figure.assumed,
                )
            )
    for key, mark in marks.items():
        if isinstance(key, int):
            items.append(Item(mark=mark, name=found.entry(key).what, place="", entry=key, drawn=False, loose=True))
    return tuple(items)
