"""Words that no page may hold, because they assure, blame or judge a machine."""

import re

AVOIDED = re.compile(
    r"\b(error|safe|pass|fail\w*|OK|correct|user|wrong|certified|tolerance|good(?! to))\b", re.IGNORECASE
)
