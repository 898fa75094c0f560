"""The cheapest way to give each valve one shim, exact: no other assignment is better, and equal ones are told apart.

Costs are whole numbers of any size, so that "fewest bought, then nearest the aim, then fewest moved" is one number.
"""

from __future__ import annotations

from collections.abc import Sequence


def assign(costs: Sequence[Sequence[int | None]]) -> tuple[int, ...] | None:
    """For each row the column it takes, at the least sum; nothing where no full assignment exists.

    Shortest augmenting paths with potentials, O(rows²·columns). Source: H. W. Kuhn, Naval Research Logistics
    Quarterly 2 (1955) 83–97; J. Munkres, J. SIAM 5 (1957) 32–38, in the form with potentials.
    """
    rows = len(costs)
    columns = len(costs[0]) if rows else 0
    if rows > columns:
        return None
    barred = 1 + sum(max((c for c in row if c is not None), default=0) for row in costs)
    table = [[barred if c is None else c for c in row] for row in costs]
    taken = _augment_all(table, rows, columns)
    found = [0] * rows
    for column, row in enumerate(taken):
        if row:
            found[row - 1] = column - 1
    if any(costs[row][column] is None for row, column in enumerate(found)):
        return None
    return tuple(found)


def _augment_all(table: Sequence[Sequence[int]], rows: int, columns: int) -> list[int]:
    """Which row (from 1) each column (from 1) is taken by."""
    up, down, taken = [0] * (rows + 1), [0] * (columns + 1), [0] * (columns + 1)
    for row in range(1, rows + 1):
        taken[0], at = row, 0
        least: list[int | None] = [None] * (columns + 1)
        came, used = [0] * (columns + 1), [False] * (columns + 1)
        while True:
            used[at] = True
            step, following = _reach(table[taken[at] - 1], up[taken[at]], down, least, came, used, at)
            for column in range(columns + 1):
                if used[column]:
                    up[taken[column]] += step
                    down[column] -= step
                elif (rest := least[column]) is not None:
                    least[column] = rest - step
            at = following
            if not taken[at]:
                break
        while at:
            taken[at], at = taken[came[at]], came[at]
    return taken


def _reach(
    costs: Sequence[int],
    up: int,
    down: Sequence[int],
    least: list[int | None],
    came: list[int],
    used: Sequence[bool],
    at: int,
) -> tuple[int, int]:
    """Look from the row at column `at` to every free column: the least step, and the column it leads to."""
    step: int | None = None
    following = 0
    for column in range(1, len(used)):
        if used[column]:
            continue
        reduced = costs[column - 1] - up - down[column]
        rest = least[column]
        if rest is None or reduced < rest:
            least[column] = rest = reduced
            came[column] = at
        if step is None or rest < step:
            step, following = rest, column
    assert step is not None
    return step, following
