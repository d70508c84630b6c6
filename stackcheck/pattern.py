"""A pattern that is compiled when it is first looked for.

Patterns say best at the head of a module what people write, but compiling those of the bench takes as long as starting
Python, and one command uses few of them.
"""

import re
from typing import Any


class Pattern:
    """A `re.Pattern` in all that it is asked for."""

    def __init__(self, pattern: str, flags: int = 0):
        self.pattern, self.flags = pattern, flags

    def __getattr__(self, name: str) -> Any:
        """What it does not have yet is what the compiled one has."""
        if name.startswith("_"):
            raise AttributeError(name)
        compiled = re.compile(self.pattern, self.flags)
        for each in ("match", "fullmatch", "search", "finditer", "findall", "sub", "subn", "split"):
            setattr(self, each, getattr(compiled, each))
        return getattr(compiled, name)
