"""Which stacks of exactly k blocks come closest to an aim, when every block has a length of its own.

    >>> closest(Field(lengths=lengths, aim=aim, within=tolerance), count=4)

Certified lengths have no grid, so no table holds their sums.  But a stack of
k blocks is a half of k // 2 and a half of the rest: with the lengths of all
lower halves sorted, each upper half finds its partners by bisection, and only
partners nearer than the best so far are ever looked at.  The work is that of
sorting the halves, not of the stacks; and a half is dropped while it grows
where the table of nominal sizes shows that no rest can complete it.

The answer names every block of every best stack: the model decides among
them.  numpy, like reach.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from gaugestack.stacks.effort import Effort
    from gaugestack.stacks.reach import Reach

MOST_HALVES = 3_000_000
"""Halves held at once; a count that needs more is left to the model alone."""
MOST_PARTNERS = 2_000_000
"""Pairs of halves looked at in one go."""


class TooManyHalves(Exception):  # noqa: N818  (a limit, not a fault)
    """A count has more halves than memory should hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide:
    """What the table knows: `sizes` of the blocks on its grid, and the nominal `heights` that matter."""

    table: Reach
    sizes: tuple[int, ...]
    heights: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """Where to look: block `lengths`, `aim` and largest miss `within`, all in picometres.

    `side` below zero looks for lengths not above the aim only, above zero for
    those not below it.  What is looked at is spent of `effort`.
    """

    lengths: Sequence[int]
    aim: int
    within: int
    guide: Guide | None = None
    side: int = 0
    effort: Effort | None = None

    def looked_at(self, things: int) -> None:
        """Spend what was looked at."""
        if self.effort:
            self.effort.count(things)


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
class Halves:
    """All choices of some blocks: `index` has shape (n, size), `length` shape (n,), sorted by length."""

    index: NDArray[np.int64]
    length: NDArray[np.int64]


def closest(field: Field, count: int, beyond: int = -1) -> Closest | None:
    """Return the stacks of exactly `count` of the blocks whose length misses the aim least.

    Only misses of at most `field.within` and more than `beyond` count.  None
    where no stack is that close.  Raises TooManyHalves.
    """
    size = np.asarray(field.lengths, dtype=np.int64)
    if count > len(size):
        return None
    lower, upper = halves(field, count // 2, count), halves(field, count - count // 2, count)
    if not len(upper.length):  # an upper half begins with a lower one, so these are the fewer
        return None
    aim, within = field.aim, field.within
    upper = _in_range(upper, aim - within - int(lower.length[-1]), aim + within - int(lower.length[0]))
    best = _best_miss(lower, upper, field, beyond)
    if best is None:
        return None
    offs = sorted(off for off in {best, -best} if off * field.side >= 0)
    stacks = np.concatenate([exact(lower, upper, aim, off) for off in offs])
    sums = {int(total) for total in size[stacks].sum(axis=1)}
    members = tuple(int(index) for index in np.unique(stacks))
    return Closest(miss=best, sums=tuple(sorted(sums)), members=members)


def halves(field: Field, count: int, total: int) -> Halves:
    """Return all choices of `count` blocks that can grow to a stack of `total`, sorted by length."""
    size = np.asarray(field.lengths, dtype=np.int64)
    index = _choices(field, count, total)
    length = size[index].sum(axis=1)
    order = np.argsort(length, kind="stable")
    return Halves(index=index[order], length=length[order])


def _choices(field: Field, count: int, total: int) -> NDArray[np.int64]:
    """Return every increasing choice of `count` block indices worth keeping, shape (n, count)."""
    chosen = np.zeros((1, 0), dtype=np.int64)
    for place in range(count):
        start = chosen[:, -1] + 1 if place else np.zeros(1, dtype=np.int64)
        times = len(field.lengths) - start
        if int(times.sum()) > MOST_HALVES:
            raise TooManyHalves
        rows = np.repeat(np.arange(len(chosen)), times)
        first = np.repeat(np.cumsum(times) - times, times)
        following = np.arange(int(times.sum())) - first + np.repeat(start, times)
        chosen = np.column_stack((chosen[rows], following))
        field.looked_at(len(chosen) * (place + 1 + len(field.guide.heights if field.guide else ())))
        chosen = chosen[_can_grow(field.guide, chosen, total - place - 1)]
    return chosen


def _can_grow(guide: Guide | None, chosen: NDArray[np.int64], more: int) -> NDArray[np.bool_]:
    """Tell which choices at most `more` further blocks can bring to a height that matters."""
    if guide is None:
        return np.ones(len(chosen), dtype=bool)
    sums = np.asarray(guide.sizes, dtype=np.int64)[chosen].sum(axis=1)
    grows = np.zeros(len(chosen), dtype=bool)
    for height in guide.heights:
        grows |= guide.table.within(height - sums, more)
    return grows


def _in_range(halves: Halves, low: int, high: int) -> Halves:
    """Return the halves with a length in [low, high]."""
    first, last = np.searchsorted(halves.length, [low, high + 1])
    return Halves(index=halves.index[first:last], length=halves.length[first:last])


def _best_miss(lower: Halves, upper: Halves, field: Field, beyond: int) -> int | None:
    """Return the least miss above `beyond` on the field's side of two halves without a common block."""
    want = field.aim - upper.length
    bound = field.within
    for step in _near(lower.length, want, beyond):
        inside = (step >= 0) & (step < len(lower.length))
        gap = lower.length[np.clip(step, 0, len(lower.length) - 1)] - want
        miss = np.abs(gap)
        near = np.flatnonzero(inside & (miss <= bound) & _counts(gap, beyond, field.side))
        near = near[_apart(lower.index[step[near]], upper.index[near])]
        bound = int(miss[near].min(initial=bound))
    closer = _partners(lower, want, bound, (beyond, field.side))
    better = [
        int(miss[_apart(lower.index[a], upper.index[b])].min(initial=bound + 1)) for a, b, miss in closer
    ]
    least = min(better)
    return least if least <= bound else None


def _near(length: NDArray[np.int64], want: NDArray[np.int64], beyond: int) -> list[NDArray[np.int64]]:
    """Return for each wanted length the first partners on either side that miss by more than `beyond`."""
    gap = max(beyond + 1, 0)
    above = np.searchsorted(length, want + gap)
    below = np.searchsorted(length, want - gap, side="right") - 1
    return [above, below, above + 1, below - 1]


def _partners(
    lower: Halves, want: NDArray[np.int64], bound: int, beyond: tuple[int, int]
) -> list[tuple[NDArray[np.int64], NDArray[np.int64], NDArray[np.int64]]]:
    """Return all pairs of halves that miss by at most `bound`, and `beyond` a miss on a side, in portions."""
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
        gap = lower.length[a] - want[b]
        keep = _counts(gap, *beyond)
        portions.append((a[keep], b[keep], np.abs(gap[keep])))
    return portions


def _counts(gap: NDArray[np.int64], beyond: int, side: int) -> NDArray[np.bool_]:
    """Tell which gaps (length minus aim) miss by more than `beyond`, on the side that counts."""
    return (np.abs(gap) > beyond) & (gap * side >= 0)


def exact(lower: Halves, upper: Halves, aim: int, off: int) -> NDArray[np.int64]:
    """Return all stacks whose length is exactly `aim` + `off`, as rows of block indices."""
    want = aim + off - upper.length
    portions = _partners(lower, want, 0, (-1, 0))
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
