"""What was probably meant by a word that is not known."""

from __future__ import annotations

MOST = 80
"""More words than a person looks through; every kind of part is told."""


def did_you_mean(said: str, known: list[str] | tuple[str, ...]) -> str:
    """ "did you mean "length"?" for a word that is not known,
    with what is known where that is short or the guess is bold.
    """
    from difflib import get_close_matches  # only where something cannot be read

    if not known:
        return "none is known here"
    near = get_close_matches(said[:80], known, n=1, cutoff=0.6)
    if near and not 2 <= len(known) <= 8 and get_close_matches(said[:80], near, cutoff=0.75):
        return f'did you mean "{near[0]}"?'
    start = f'did you mean "{near[0]}"? ' if near else ""
    more = f" and {len(known) - MOST} more" if len(known) > MOST else ""
    return f"{start}Known here: {', '.join(known[:MOST])}{more}"
