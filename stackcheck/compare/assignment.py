"""The cheapest way to give every row its own column, with the prices that prove it.

Shortest augmenting paths with row and column potentials (Kuhn, Naval Research Logistics Quarterly 2 (1955) 83-97;
the rectangular form of Jonker and Volgenant, Computing 38 (1987) 325-340). The potentials are what a search needs: a
choice other than the cheapest costs at least its reduced price more.
"""

from __future__ import annotations

from collections.abc import Sequence

INFINITE = 1 << 40


def assign(costs: Sequence[Sequence[int]]) -> tuple[list[int], list[int], list[int]]:
    """The column of each row, and the potentials u of rows and v of columns: u[i] + v[j] <= costs[i][j], v[j] <= 0.

    There must be at least as many columns as rows.

    >>> columns, u, v = assign([[4, 1, 3], [2, 0, 5]])
    >>> columns, sum(u) + sum(v)
    ([1, 0], 3)
    """
    rows, width = len(costs), len(costs[0]) if costs else 0
    u, v = [0] * (rows + 1), [0] * (width + 1)
    owner = [0] * (width + 1)
    for row in range(1, rows + 1):
        reduced = [price - v[j] for j, price in enumerate(costs[row - 1], 1)]
        cheapest = min(reduced)
        free = next((j for j, price in enumerate(reduced, 1) if price == cheapest and not owner[j]), 0)
        if free:  # its cheapest column is nobody's, as most are
            owner[free], u[row] = row, cheapest
            continue
        owner[0] = row
        column = 0
        least = [INFINITE] * (width + 1)
        came_from = [0] * (width + 1)
        done = [False] * (width + 1)
        while True:
            done[column] = True
            current, delta, following = owner[column], INFINITE, 0
            prices = costs[current - 1]
            base = u[current]
            for j in range(1, width + 1):
                if not done[j]:
                    more = prices[j - 1] - base - v[j]
                    if more < least[j]:
                        least[j], came_from[j] = more, column
                    if (
                        least[j] < delta or least[j] == delta and owner[following] and not owner[j]
                    ):  # the shortest way out
                        delta, following = least[j], j
            for j in range(width + 1):
                if done[j]:
                    u[owner[j]] += delta
                    v[j] -= delta
                else:
                    least[j] -= delta
            column = following
            if not owner[column]:
                break
        while column:
            previous = came_from[column]
            owner[column] = owner[previous]
            column = previous
    columns = [0] * rows
    for j in range(1, width + 1):
        if owner[j]:
            columns[owner[j] - 1] = j - 1
    return columns, u[1:], v[1:]
