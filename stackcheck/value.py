"""The base of everything that is a value: frozen, compared by value, built in no time.

A dataclass writes and compiles its methods anew at every start, about a millisecond each; with a hundred kinds of value
that was a quarter of a whole comparison. A msgspec structure has them ready. pydantic still reads what comes from files.
"""

from __future__ import annotations

import sys

if "typing_extensions" not in sys.modules:
    # msgspec would load it for names that `typing` itself has since 3.11, and it takes longer to load than all of msgspec.
    sys.modules["typing_extensions"] = None  # type: ignore[assignment]
    import msgspec

    del sys.modules["typing_extensions"]
else:
    import msgspec

replace = msgspec.structs.replace
"""The same value with some of its fields changed."""


class Value(msgspec.Struct, frozen=True, gc=False):
    """A value: its fields are set once, by name where the class says `kw_only`; equal fields make equal values.

    Made of what was there before it, no value comes to hold itself, so the search for such rings need not look at values;
    in a comparison of 10,000 places all that searching took a third of the time.
    """
