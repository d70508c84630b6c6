"""A load across at its place: what each bearing takes of it, what that does along the axis, and how far from C0 it is."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.load_across import TANDEM, BearingShare, LoadAcross
from stackcheck.mechanics.loop_forces import NOTHING_N
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.figures import mm
from stackcheck.present.force_figures import because, force_words, limit_words, range_of_force
from stackcheck.present.forces_json import spanned
from stackcheck.present.names import needed
from stackcheck.present.side_by_side import beside_lines
from stackcheck.result.across import AcrossResult

LEVER = (
    "Shared by the lever rule between the points where balls or rollers press through the axis: {lie}{span} apart. "
    "Shaft and housing are taken to be stiff; nothing pushes along from outside."
)
NO_LIMIT = "the reference sets no limit for it: not judged"


def across_blocks(value: AcrossResult | None, *, with_found: bool) -> list[Block]:
    """Nothing where no place was asked for."""
    if value is None:
        return []
    own, seen = value.reference, value.as_found
    blocks: list[Block] = [Heading(f"LOAD ACROSS of {force_words(own.load_n)} at {own.point.text}")]
    if own.span_mm is not None:
        lie = f"{own.lie}, " if own.lie else ""
        blocks.append(Text(LEVER.format(lie=lie, span=_mm(own.span_mm))))
    if not own.shares and not seen.shares:
        said = beside_lines(_needs(own), _needs(seen), with_found=with_found)
        return [*blocks, *(Text(line, mark=" -  ") for line in said)]
    for i, each in enumerate(own.shares or seen.shares):
        lines = beside_lines(_share(own, i), _share(seen, i), called=each.place, with_found=with_found)
        blocks += [Text(line, mark=" -  ") for line in lines]
    lines = beside_lines(_along(own), _along(seen), called="along the axis", with_found=with_found)
    return [*blocks, *(Text(line, mark=" -  ") for line in lines)]


def _needs(value: LoadAcross) -> str:
    return f"cannot tell how it is shared: needs {needed(value.needs)}"


def _share(value: LoadAcross, position: int) -> str:
    """ "takes 720 to 760 N, about 740; its slant makes 160 to 270 N along the axis of that; ..." """
    if not value.shares:
        return _needs(value)
    share = value.shares[position]
    words = [_takes(share.radial_n)]
    if share.is_beyond:
        return f"{words[0]}; {_beyond(share)}"
    if share.thrust_n.most > NOTHING_N:
        words.append(
            f"its slant makes {range_of_force(share.thrust_n)} along the axis of that{because(share.thrust_n)}"
        )
    return "; ".join([*words, _static(share)])


def _takes(radial: Spanned) -> str:
    if radial.most < 0:
        pressed = Spanned(usual=-radial.usual, least=-radial.most, most=-radial.least)
        return f"is pressed the other way with {_range(pressed)}: the load lies beyond the other bearing"
    if radial.least < 0:
        other = force_words(-radial.least)
        return f"takes up to {force_words(radial.most)}, or is pressed the other way with up to {other}"
    return f"takes {_range(radial)}"


def _range(value: Spanned) -> str:
    """ "720 to 760 N, about 740"; one figure where all come to the same."""
    words, usual = range_of_force(value), force_words(value.usual)
    return words if words == usual else f"{words}, about {usual}"


def _static(share: BearingShare) -> str:
    if share.static_n is None or share.rating is None or share.limit is None:
        return "cannot tell C0/P0: needs its sizes, or its static rating"
    low, high = (f"{each:.0f}" if each >= 10 else f"{each:.1f}" for each in (share.rating.least, share.rating.most))
    times = low if low == high else f"{low} to {high}"
    load, rating = range_of_force(share.static_n), limit_words(share.limit)
    return f"equivalent static load P0 {load}; C0/P0 {times} with {rating} ({NO_LIMIT})"


def _beyond(share: BearingShare) -> str:
    sure = "uses up" if share.rating.most < 1 else "may use up"
    return f"that {sure} {limit_words(share.limit)}: no figure along the axis holds there"


def _along(value: LoadAcross) -> str:
    if not value.shares:
        return _needs(value)
    if value.lie == TANDEM:
        return f"cannot tell: the two lie {TANDEM}, and nothing here takes up what they push"
    if value.is_beyond:
        return "cannot tell: a bearing may be loaded beyond its static rating"
    axial, before = value.axial_n, value.preload_n
    if axial.most <= NOTHING_N:
        return "no force of its own: these bearings have no slant; a play between them stays"
    through = f"both carry {_range(axial)}"
    if before is None:
        return f"{through}, and a preload that is not known beside it"
    if before.most <= NOTHING_N:
        return (
            f"{through}: there is no preload; the end float is taken up to one side while the load acts, and "
            f"the joint holds up to that much more{because(axial)}"
        )
    if before.least > max(share.thrust_n.most for share in value.shares):
        return (
            f"{through}: the preload of {range_of_force(before)} is more than the slant makes and stays{because(axial)}"
        )
    return (
        f"{through}: a preload of {range_of_force(before)} may be less than the slant makes; one bearing may then carry "
        f"with fewer than half of its balls or rollers{because(axial)}"
    )


def _mm(value: Spanned) -> str:
    low, high = f"{value.least:.0f}", f"{value.most:.0f}"
    return f"{mm(round(value.usual, 1)).removesuffix('0')} mm" if low == high else f"{low} to {high} mm"


def across_json(value: AcrossResult | None, *, with_found: bool) -> dict[str, Any] | None:
    if value is None:
        return None
    return {
        "load_n": value.reference.load_n,
        "at": value.reference.point.text,
        "reference": _tree(value.reference),
        "as_found": _tree(value.as_found) if with_found else None,
    }


def _tree(value: LoadAcross) -> dict[str, Any]:
    is_told = value.shares and not value.is_beyond
    return {
        "lie": value.lie or None,
        "span_mm": spanned(value.span_mm, 2),
        "from_first_centre_mm": spanned(value.point_mm, 2),
        "preload_n": spanned(value.preload_n, 1),
        "axial_n": spanned(value.axial_n, 1) if is_told else None,
        "bearings": [
            {
                "place": each.place,
                "bearing": each.bearing,
                "radial_n": spanned(each.radial_n, 1),
                "thrust_n": None if each.is_beyond else spanned(each.thrust_n, 1),
                "static_n": None if each.is_beyond else spanned(each.static_n, 1),
                "static_rating_n": None if each.limit is None else round(each.limit.force_n),
                "rating_is_given": each.limit is not None and each.limit.is_given,
                "c0_over_p0": None if each.is_beyond else spanned(each.rating, 2),
                "beyond_its_rating": each.is_beyond,
            }
            for each in value.shares
        ],
        "needs": list(value.needs),
    }
