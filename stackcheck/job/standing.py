"""Which part each thing on the bench is: by the explanation of everything that came off, not by where it lay.

After a swap the long collar is the entry that came off the short one's place. What is asked of "the long collar" is
asked of that entry, and it is that entry which goes back into the long collar's place.
"""

from __future__ import annotations

from stackcheck.job.state import Job
from stackcheck.result.comparison import Comparison


def homes(comparison: Comparison) -> dict[int, str]:
    """Number of an entry -> the place of the reference that it belongs to."""
    return {spot.entry: spot.home for spot in comparison.best.line if spot.entry is not None and spot.home}


def entry_of(comparison: Comparison, place: str) -> int:
    """The entry that belongs to a place, 0 where none does or several do."""
    own = [entry for entry, home in homes(comparison).items() if home == place]
    return own[0] if len(own) == 1 else 0


def compared(job: Job) -> Comparison:
    """The list of a job as it now is, compared."""
    return job.comparison
