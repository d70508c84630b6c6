"""The base of everything that is a value: frozen, compared by value, built in no time.

A dataclass writes and compiles its methods anew at every start, about a millisecond each; with a hundred kinds of value
that was a quarter of a whole comparison. A msgspec structure has them ready.
pydantic still reads what comes from files.
"""

from __future__ import annotations

import _datetime
from types import SimpleNamespace

from stackcheck.aside import Aside

# Names that `typing` has since 3.11, types that none of our values holds, file kinds and descriptions that nobody asks
# for: they take longer to load than msgspec. Of `datetime`, it asks what is written in C.
_UNUSED = {
    "typing_extensions": None,
    "uuid": SimpleNamespace(UUID=type("UUID", (), {}), SafeUUID=SimpleNamespace(unknown=None)),
    "decimal": SimpleNamespace(Decimal=type("Decimal", (), {})),
    "datetime": _datetime,
    "msgspec.inspect": SimpleNamespace(),
    "msgspec.toml": SimpleNamespace(),
    "msgspec.yaml": SimpleNamespace(),
    "msgspec._json_schema": SimpleNamespace(schema=None, schema_components=None),
}
with Aside(_UNUSED):
    import msgspec

replace = msgspec.structs.replace
"""The same value with some of its fields changed."""


class Value(msgspec.Struct, frozen=True, gc=False):
    """A value: its fields are set once, by name where the class says `kw_only`; equal fields make equal values.

    Made of what was there before it, no value comes to hold itself, so the search for such rings need not look at
    values; in a comparison of 10,000 places all that searching took a third of the time.
    """
