"""Forces that somebody wrote, and limits of them, in words."""

from __future__ import annotations


def plain_force(newton: float) -> str:
    """ "3 kN", "3.114 kN", "800 N"."""
    return f"{newton / 1000:.4g} kN" if newton >= 1000 else f"{newton:.4g} N"


def force_limits_words(least_n: float | None, most_n: float | None) -> str:
    """ "3 to 10 kN", "at least 3 kN", "at most 800 N"; at least one of the two is given."""
    if least_n is None or most_n is None:
        return f"at least {plain_force(least_n)}" if most_n is None else f"at most {plain_force(most_n)}"
    least, most = plain_force(least_n), plain_force(most_n)
    return most if least == most else f"{least.removesuffix(' ' + most.split()[-1])} to {most}"
