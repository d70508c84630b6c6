"""How a size can be got, what people type for it, and what it is good to."""

from __future__ import annotations

import re

INSTRUMENTS: dict[str, tuple[float, tuple[str, ...]]] = {
    "calliper": (0.03, ("cal", "calliper", "caliper", "callipers", "calipers", "vernier", "verniers")),
    "inside calliper": (0.05, ("inside cal", "inside calliper", "inside caliper")),
    "micrometer": (0.01, ("mic", "mics", "micrometer", "mike")),
    "rule": (0.5, ("rule", "ruler", "tape")),
    "dial": (0.02, ("dial", "dial gauge", "clock")),
    "depth gauge": (0.05, ("depth", "depth gauge")),
    "depth micrometer": (0.01, ("depth mic", "depth micrometer")),
    "feeler": (0.03, ("feeler", "feelers", "feeler gauge")),
    "straightedge": (0.05, ("straightedge",)),
    "pin gauge": (0.01, ("pin", "pin gauge")),
    "marking": (0.0, ("mark", "marking", "marked")),
    "drawing": (0.0, ("drawing",)),
    "guess": (1.0, ("guess", "guessed", "about", "by eye", "eye")),
}
"""Way of getting a size -> (good to [mm], what people type). Good-to values: common practice, no source."""

HOW = {typed: name for name, (_, words) in INSTRUMENTS.items() for typed in words}
"""What people type -> our name for it."""

TYPED_HOW = re.compile(
    r"(?:by |with )?(?P<typed>" + "|".join(sorted(map(re.escape, HOW), key=len, reverse=True)) + r")\b\.?", re.IGNORECASE
)
"""A way of getting a size as it stands in a text, longest spelling first."""
