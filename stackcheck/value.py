"""The base of everything that is a value: frozen, compared by value, built in no time.

A dataclass writes and compiles its methods anew at every start, about a millisecond each; with a hundred kinds of value
that was a quarter of a whole comparison. A msgspec structure has them ready. pydantic still reads what comes from files.
"""

from __future__ import annotations

import sys
from types import SimpleNamespace

# What msgspec loads and we do not use takes longer to load than msgspec: `typing_extensions` for names that `typing` has
# since 3.11, `uuid` for a type that none of our values holds. Both stand aside meanwhile, unless somebody has them already.
_ASIDE = {"typing_extensions": None, "uuid": SimpleNamespace(UUID=type("UUID", (), {}), SafeUUID=SimpleNamespace(unknown=None))}
_ASIDE = {name: stand_in for name, stand_in in _ASIDE.items() if name not in sys.modules and "msgspec" not in sys.modules}
sys.modules.update(_ASIDE)  # type: ignore[arg-type]
import msgspec

for name in _ASIDE:
    del sys.modules[name]

replace = msgspec.structs.replace
"""The same value with some of its fields changed."""


class Value(msgspec.Struct, frozen=True, gc=False):
    """A value: its fields are set once, by name where the class says `kw_only`; equal fields make equal values.

    Made of what was there before it, no value comes to hold itself, so the search for such rings need not look at values;
    in a comparison of 10,000 places all that searching took a third of the time.
    """
