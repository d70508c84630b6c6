"""Many stiffness systems of one shape at once, each a narrow band round its diagonal.

Faces that follow one another along an axis are neighbours in the system too: once they are numbered well, all its
entries lie near the diagonal (Cuthill and McKee, ACM national conference 1969: neighbour by neighbour, from a face with
few of them; from memory). One Cholesky factorisation (LAPACK pbsv, or ptsv for a plain row) takes the systems of all
variants one behind the other, in a time that grows with the number of faces and the square of the width.
"""

from __future__ import annotations

import numpy as np

from stackcheck.mechanics.axial.lapack import dpbsv, dptsv

NARROW = 2
"""A band no wider than this is left as it is."""


def numbered(count: int, a: np.ndarray, b: np.ndarray) -> np.ndarray:
    """A number for each of `count` faces so that the two of a pair lie near each other;
    pairs with other faces are passed over.
    """
    number = np.arange(count)
    free = (a < count) & (b < count)
    if np.abs(a - b)[free].max(initial=0) <= NARROW:
        return number
    near: list[set[int]] = [set() for _ in range(count)]
    for one, other in zip(a[free].tolist(), b[free].tolist()):
        near[one].add(other)
        near[other].add(one)
    line: dict[int, None] = {}
    for first in sorted(range(count), key=lambda face: len(near[face])):
        ahead = [] if first in line else [first]
        line |= dict.fromkeys(ahead)
        for face in ahead:
            new = sorted(near[face] - line.keys(), key=lambda face: len(near[face]))
            ahead += new
            line |= dict.fromkeys(new)
    number[list(line)] = np.arange(count)
    return number


class Band:
    """The systems Σ k v vᵀ + pull·1, each v a pair of faces, b less a;
    faces from `count` on stand still and are left out.
    """

    def __init__(self, count: int, a: np.ndarray, b: np.ndarray):
        first, last = np.minimum(a, b), np.maximum(a, b)
        away, free = last - first, last < count
        self.count, self.rows = count, 1 + int((away * free).max(initial=0))
        # Where each k goes: to the diagonal for either face, and less itself between the two;
        # what has no place goes past the end.
        between = np.where(free, first * self.rows + away, count * self.rows)
        self.entries = np.minimum(np.concatenate([a * self.rows, b * self.rows, between]), count * self.rows)

    def solve(self, k: np.ndarray, pull: np.ndarray, right: np.ndarray) -> np.ndarray:
        """x of every variant: `k` has one row a variant and one column a pair, `pull` one value a variant,
        `right` is as x.
        """
        variants, size = len(k), self.count * self.rows + 1
        weights = np.concatenate([k, k, -k], axis=1).ravel()
        band = np.bincount(side_by_side(self.entries, size, variants), weights, size * variants)
        band = band.reshape(variants, size)[:, :-1].reshape(-1, self.rows)
        diagonal = band[:, 0].reshape(variants, self.count)
        while True:
            diagonal += pull[:, None]
            if self.rows == 2:
                *_, x, failed = dptsv(band[:, 0], band[:-1, 1], right.ravel())
            else:
                _, x, failed = dpbsv(band.T, right.ravel(), lower=1)
            if not failed:
                return x.reshape(right.shape)
            pull = 1e3 * pull  # so small that round-off has eaten it


def side_by_side(places: np.ndarray, size: int, variants: int) -> np.ndarray:
    """The same places in every variant, each variant `size` places behind the one before."""
    return places if variants == 1 else (places + size * np.arange(variants)[:, None]).ravel()
