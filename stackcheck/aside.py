"""Modules that stand aside while another is loaded that would load them for nothing.

A look-up takes less time than starting Python for it,
and a fifth of that start went into modules that nothing of ours uses.
"""

import sys
from collections.abc import Mapping


class Aside:
    """While it is entered, each named module has a stand-in, unless somebody has loaded it already."""

    def __init__(self, stand_ins: Mapping[str, object]):
        self.stand_ins = {name: stand_in for name, stand_in in stand_ins.items() if name not in sys.modules}

    def __enter__(self) -> None:
        sys.modules.update(self.stand_ins)  # type: ignore[arg-type]

    def __exit__(self, *_: object) -> None:
        for name in self.stand_ins:
            del sys.modules[name]
