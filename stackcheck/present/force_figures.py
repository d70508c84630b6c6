"""A force or a play with its range, and what most of the range comes from."""

from __future__ import annotations

from collections.abc import Callable

from stackcheck.mechanics.static_limit import StaticLimit
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.figures import mm


def force_words(newton: float) -> str:
    """No more digits than any friction or stiffness allows: 87 N, 580 N, 2.5 kN, 23.0 kN, 1915 kN."""
    if newton >= 1000:
        return f"{kilonewtons(newton)} kN"
    return f"{round(newton, -1) if newton >= 100 else round(newton):g} N"


def kilonewtons(newton: float) -> str:
    return f"{newton / 1000:.{0 if newton >= 99_950 else 1}f}"


def spanned_force(value: Spanned) -> str:
    """ "15.0 to 27.2 kN, about 20.6"; "14 N to 12.8 kN, about 6.8 kN" where a tenth of a kilonewton is too coarse."""
    if value.most >= 1000 and any(0 < each < 50 for each in (value.least, value.usual)):
        return f"{range_of_force(value)}, about {force_words(value.usual)}"
    if value.most >= 1000:
        least, most, usual = map(kilonewtons, (value.least, value.most, value.usual))
        return f"{least} to {most} kN, about {usual}"
    least, most, usual = (force_words(each).removesuffix(" N") for each in (value.least, value.most, value.usual))
    return f"{least} to {most} N, about {usual}"


def range_of_force(value: Spanned) -> str:
    """ "64 to 100 N", "580 N to 2.5 kN"; one figure where both ends come to the same."""
    low, high = force_words(value.least), force_words(value.most)
    return low if low == high else _to(low, high)


def _to(low: str, high: str) -> str:
    """ "580 N to 2.5 kN", "5.8 to 7.4 kN": a unit that both have is said once."""
    unit = high.partition(" ")[2]
    return f"{low.removesuffix(f' {unit}') if unit else low} to {high}"


def spanned_mm(value: Spanned) -> str:
    low, high = mm(round(value.least, 2)), mm(round(value.most, 2))
    return low if low == high else f"{low} to {high}"


def because(value: Spanned) -> str:
    return f"; most of the range from the {value.main_cause}" if value.main_cause else ""


def limit_words(value: StaticLimit) -> str:
    """ "its static rating C0 of 33.5 kN", "an estimated static rating C0, about 38 kN": two digits of an estimate."""
    if value.is_given:
        return f"{value.called} of {force_words(value.force_n)}"
    return f"{value.called}, about {force_words(float(f'{value.force_n:.2g}')).replace('.0 kN', ' kN')}"


def signed(value: Spanned, said: Callable[[float], str]) -> str:
    """ "0.10 to 0.20 more", "3 N less to 12 N more", "up to 0.07 less"."""
    low, high, nothing = said(abs(value.least)), said(abs(value.most)), said(0.0)
    if low == high and value.least * value.most >= 0:
        return f"{said(abs(value.usual))} {'more' if value.usual > 0 else 'less'}"
    if value.least >= 0 or low == nothing:
        return f"up to {high} more" if low == nothing else f"{_to(low, high)} more"
    if value.most <= 0 or high == nothing:
        return f"up to {low} less" if high == nothing else f"{_to(high, low)} less"
    return f"{low} less to {high} more"
