"""Which stacks of exactly k blocks come closest to an aim, when every block has a length of its own.

    >>> closest(blocks, count=4, aim=aim, within=tolerance)

Certified lengths have no grid, so no table holds their sums.  But a stack of
k blocks is a half of k // 2 and a half of the rest: with the lengths of all
lower halves sorted, each upper half finds its partners by bisection, and only
partners nearer than the best so far are ever looked at.  The work is that of
sorting the halves, not of the stacks.

The answer names every block of every best stack: the model decides among
them.  numpy, like reach.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import comb
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

MOST_HALVES = 4_000_000
"""Halves held at once; a count that needs more is left to the model alone."""
MOST_PARTNERS = 2_000_000
"""Pairs of halves looked at in one go."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closest:
    """The best stacks of one count.

    `miss` is |length - aim| in picometres, `sums` the lengths that miss by it
    (one or two), `members` the indices of all blocks that stand in one of them.
    """

    miss: int
    sums: tuple[int, ...]
    members: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Halves:
    """All choices of some blocks: `index` has shape (n, size), `length` shape (n,), sorted by length."""

    index: NDArray[np.int64]
    length: NDArray[np.int64]


def can_enumerate(blocks: int, count: int) -> bool:
    """Tell whether the halves of a count fit in memory."""
    return comb(blocks, count - count // 2) <= MOST_HALVES


def closest(lengths: Sequence[int], count: int, aim: int, within: int, beyond: int = -1) -> Closest | None:
    """Return the stacks of exactly `count` of the blocks whose length misses `aim` least.

    `lengths` in picometres; only misses of at most `within` and more than
    `beyond` count.  None where no stack is that close.
    """
    size = np.asarray(lengths, dtype=np.int64)
    if count > len(size):
        return None
    lower, upper = _halves(size, count // 2), _halves(size, count - count // 2)
    upper = _in_range(upper, aim - within - int(lower.length[-1]), aim + within - int(lower.length[0]))
    best = _best_miss(lower, upper, aim, within, beyond)
    if best is None:
        return None
    stacks = np.concatenate([_exact(lower, upper, aim, sign * best) for sign in {1, -1} if best or sign > 0])
    sums = {int(total) for total in size[stacks].sum(axis=1)} if len(stacks) else set()
    members = tuple(int(index) for index in np.unique(stacks))
    return Closest(miss=best, sums=tuple(sorted(sums)), members=members)


def _halves(size: NDArray[np.int64], count: int) -> _Halves:
    """Return all choices of `count` blocks, sorted by length."""
    index = _choices(len(size), count)
    length = size[index].sum(axis=1) if count else np.zeros(1, dtype=np.int64)
    order = np.argsort(length, kind="stable")
    return _Halves(index=index[order], length=length[order])


def _choices(blocks: int, count: int) -> NDArray[np.int64]:
    """Return every increasing choice of `count` indices below `blocks`, shape (n, count)."""
    chosen = np.zeros((1, 0), dtype=np.int64)
    for place in range(count):
        start = chosen[:, -1] + 1 if place else np.zeros(1, dtype=np.int64)
        times = blocks - start
        rows = np.repeat(np.arange(len(chosen)), times)
        first = np.repeat(np.cumsum(times) - times, times)
        following = np.arange(int(times.sum())) - first + np.repeat(start, times)
        chosen = np.column_stack((chosen[rows], following))
    return chosen


def _in_range(halves: _Halves, low: int, high: int) -> _Halves:
    """Return the halves with a length in [low, high]."""
    first, last = np.searchsorted(halves.length, [low, high + 1])
    return _Halves(index=halves.index[first:last], length=halves.length[first:last])


def _best_miss(lower: _Halves, upper: _Halves, aim: int, within: int, beyond: int) -> int | None:
    """Return the least miss above `beyond` and at most `within` of two halves without a common block."""
    want = aim - upper.length
    bound = within
    found = False
    for step in _near(lower.length, want, beyond):
        inside = (step >= 0) & (step < len(lower.length))
        miss = np.abs(lower.length[np.clip(step, 0, len(lower.length) - 1)] - want)
        near = np.flatnonzero(inside & (miss <= bound) & (miss > beyond))
        near = near[_apart(lower.index[step[near]], upper.index[near])]
        if len(near):
            bound, found = int(miss[near].min()), True
    closer = _partners(lower, want, bound, beyond)
    better = [
        int(miss[_apart(lower.index[a], upper.index[b])].min(initial=bound + 1)) for a, b, miss in closer
    ]
    least = min(better, default=bound + 1)
    if least <= bound:
        return least
    return bound if found else None


def _near(length: NDArray[np.int64], want: NDArray[np.int64], beyond: int) -> list[NDArray[np.int64]]:
    """Return for each wanted length the first partners on either side that miss by more than `beyond`."""
    gap = max(beyond + 1, 0)
    above = np.searchsorted(length, want + gap)
    below = np.searchsorted(length, want - gap, side="right") - 1
    return [above, below, above + 1, below - 1]


def _partners(
    lower: _Halves, want: NDArray[np.int64], bound: int, beyond: int
) -> list[tuple[NDArray[np.int64], NDArray[np.int64], NDArray[np.int64]]]:
    """Return all pairs of halves that miss by at most `bound` and more than `beyond`, in portions."""
    first = np.searchsorted(lower.length, want - bound)
    times = np.searchsorted(lower.length, want + bound, side="right") - first
    edges = np.searchsorted(np.cumsum(times), np.arange(0, int(times.sum()) + MOST_PARTNERS, MOST_PARTNERS))
    portions = []
    for start, end in zip(edges, [*edges[1:], len(want)], strict=True):
        many = times[start:end]
        b = np.repeat(np.arange(start, end), many)
        a = (
            np.arange(int(many.sum()))
            - np.repeat(np.cumsum(many) - many, many)
            + np.repeat(first[start:end], many)
        )
        miss = np.abs(lower.length[a] - want[b])
        keep = miss > beyond
        portions.append((a[keep], b[keep], miss[keep]))
    return portions


def _exact(lower: _Halves, upper: _Halves, aim: int, off: int) -> NDArray[np.int64]:
    """Return all stacks whose length is exactly `aim` + `off`, as rows of block indices."""
    want = aim + off - upper.length
    portions = _partners(lower, want, 0, -1)
    rows = []
    for a, b, _ in portions:
        apart = _apart(lower.index[a], upper.index[b])
        rows.append(np.column_stack((lower.index[a[apart]], upper.index[b[apart]])))
    return np.concatenate(rows)


def _apart(left: NDArray[np.int64], right: NDArray[np.int64]) -> NDArray[np.bool_]:
    """Tell for each row whether the two halves share no block."""
    shared = np.zeros(len(left), dtype=bool)
    for column in range(left.shape[1]):
        shared |= (right == left[:, column : column + 1]).any(axis=1)
    return ~shared
