"""The solvers of LAPACK that the network asks, as scipy carries them.

The rest of scipy's linear algebra, which is loaded before them otherwise, takes longer to load than a whole fleet of
networks to solve, and nothing of ours uses it.
"""

from importlib.util import find_spec, module_from_spec

from stackcheck.aside import Aside

try:
    with Aside({"scipy.linalg": module_from_spec(find_spec("scipy.linalg"))}):
        from scipy.linalg._flapack import dpbsv, dposv, dptsv
except ImportError:  # a scipy that keeps them elsewhere
    from scipy.linalg.lapack import dpbsv, dposv, dptsv

__all__ = ["dpbsv", "dposv", "dptsv"]
