"""One comparison put together: findings, what was looked at, gaps, cautions, verdict. Values only; words: `present`."""

from stackcheck.result.comparison import Comparison, FindingResult, compare

__all__ = ["Comparison", "FindingResult", "compare"]
