"""What a set can reach: for every height on its grid, the fewest blocks that make it.

One numpy array over the grid, filled block by block (each block once):

    cost[h] = min over stacks that sum to h of (blocks x WEIGHT + thin blocks)

so one table knows both the fewest blocks and, among those, the fewest thin
ones.  Exact for stacks without further rules; a lower bound otherwise, which
is what pruning needs: block s can stand in a stack for h of cost at most c
only if cost[h - s] + cost(s) <= c.

For surveys and rankings, which count and never build, `Counts` holds the
fewest blocks alone, one byte a height.

Imports numpy, as closest.py does; no other module may.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from gaugestack.blocks import grid
from gaugestack.lengths import Length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from gaugestack.blocks import Block

    Picks = range | NDArray[np.intp]
    """Grid heights looked at, ascending and not below zero."""

WEIGHT = 1024
"""What one block costs; a thin one costs one more.  Above the most pieces a set may have."""
SMALL_WEIGHT = 256
"""The same for sets small enough for 16 bits a height."""
SMALL_SET = 240
MOST_CELLS = 64_000_000
"""Heights a table may hold at all."""
QUICK_CELLS = 8_000_000
"""Heights a table for pruning may hold: beyond that it costs more than it saves."""
NEVER = 254
"""In a table of counts: no stack of at most 253 blocks.  One more still fits a byte."""
MOST_BLOCKS = NEVER - 1
MOST_BITS = 256_000_000
"""Heights looked at one bit each, where only reached or not is asked."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reach:
    """The table of one pool of blocks.

    `step` is the grid in picometres, `cost` has shape (top + 1,), `limit` is
    the cost of what cannot be reached, `weight` the cost of one block.
    """

    step: Length
    cost: NDArray[np.uint16 | np.uint32]
    limit: int
    weight: int

    @property
    def top(self) -> int:
        """The largest grid height the table knows."""
        return len(self.cost) - 1

    def count(self, height: int) -> int | None:
        """Return the fewest blocks for a grid height, or None where it cannot be made."""
        cost = int(self.cost[height]) if 0 <= height <= self.top else self.limit
        return None if cost >= self.limit else cost // self.weight

    def price(self, height: int) -> int | None:
        """Return the least cost of a grid height, or None where it cannot be made."""
        cost = int(self.cost[height]) if 0 <= height <= self.top else self.limit
        return None if cost >= self.limit else cost

    def fewest(self, low: int, high: int) -> int | None:
        """Return the fewest blocks that make any grid height in [low, high], or None."""
        low, high = max(low, 0), min(high, self.top)
        cost = int(self.cost[low : high + 1].min()) if low <= high else self.limit
        return None if cost >= self.limit else cost // self.weight

    def heights(self, low: int, high: int, count: int | None = None) -> list[int]:
        """Return the grid heights in [low, high] that at most `count` blocks can make."""
        return [int(h) for h in self._made(low, high, count)]

    def below(self, height: int, count: int | None = None) -> int | None:
        """Return the largest reachable grid height below `height`, above zero."""
        found = self._made(1, height - 1, count)
        return int(found[-1]) if len(found) else None

    def above(self, height: int, count: int | None = None) -> int | None:
        """Return the smallest reachable grid height above `height` in the table."""
        found = self._made(max(height + 1, 1), self.top, count)
        return int(found[0]) if len(found) else None

    def _made(self, low: int, high: int, count: int | None) -> NDArray[np.intp]:
        """Return the grid heights in [low, high] that at most `count` blocks can make, ascending."""
        low, high = max(low, 0), min(high, self.top)
        ceiling = self.limit if count is None else min(self.limit, (count + 1) * self.weight)
        return np.flatnonzero(self.cost[low : max(high + 1, low)] < ceiling) + low

    def within(self, heights: NDArray[np.int64], count: int) -> NDArray[np.bool_]:
        """Tell for each grid height whether at most `count` blocks make it; below zero none do."""
        cost = self.cost[np.clip(heights, 0, self.top)]
        return (heights >= 0) & (heights <= self.top) & (cost < min(self.limit, (count + 1) * self.weight))

    def usable(
        self, heights: Sequence[int], sizes: Sequence[int], thin: Sequence[bool], budget: int
    ) -> list[int]:
        """Return the indices of the sizes that can stand in a stack of cost at most `budget`.

        `heights` and `sizes` are grid numbers; the test is necessary, not sufficient.
        """
        own = np.fromiter((self.weight + flag for flag in thin), dtype=np.int64, count=len(thin))
        size = np.asarray(sizes, dtype=np.int64)
        fits = np.zeros(len(sizes), dtype=bool)
        for height in heights:
            rest = height - size
            cost = self.cost[np.clip(rest, 0, self.top)].astype(np.int64) + own
            fits |= (rest >= 0) & (cost <= budget)
        return [int(i) for i in np.flatnonzero(fits)]


def table(blocks: Sequence[Block], top: int) -> Reach | None:
    """Return the table of `blocks` up to `top` picometres, or None where it would be too large.

    Heights above the sum of all blocks are left out.
    """
    step = grid(blocks)
    if not step:
        return Reach(step=Length(1), cost=np.zeros(1, dtype=np.uint16), limit=1, weight=SMALL_WEIGHT)
    cells = min(int(top), sum(block.nominal for block in blocks)) // step
    if cells > QUICK_CELLS:
        return None
    return priced(
        [block.nominal // step for block in blocks], [block.thin for block in blocks], step, max(cells, 0)
    )


def priced(sizes: Sequence[int], extra: Sequence[int], step: Length, cells: int) -> Reach:
    """Return the table for grid sizes, each costing one weight plus its `extra` (0 or 1)."""
    small = len(sizes) <= SMALL_SET
    weight = SMALL_WEIGHT if small else WEIGHT
    limit = 65_535 - weight - 1 if small else 2**31
    cost: NDArray[np.uint16 | np.uint32] = np.full(cells + 1, limit, dtype=np.uint16 if small else np.uint32)
    cost[0] = 0
    reached = 0
    for size, more in sorted(zip(sizes, extra, strict=True)):
        if size > cells:
            continue
        upper = min(cells, reached + size)
        part = cost[size : upper + 1]
        np.minimum(part, cost[: upper + 1 - size] + cost.dtype.type(weight + more), out=part)
        reached = upper
    return Reach(step=step, cost=cost, limit=limit, weight=weight)


def turned(sizes: Sequence[int], turning: Sequence[bool]) -> Reach:
    """Return the table of sums in which each size stands added, taken away (where `turning`), or not at all.

    The cell `sum(sizes)` is the sum zero, so heights are asked for with that
    much added.  A size taken away costs one more than a size added.
    """
    zero = sum(sizes)
    limit = 65_535 - SMALL_WEIGHT - 1
    cost: NDArray[np.uint16 | np.uint32] = np.full(2 * zero + 1, limit, dtype=np.uint16)
    cost[zero] = 0
    for size, turns in zip(sizes, turning, strict=True):
        before = cost + np.uint16(SMALL_WEIGHT)
        np.minimum(cost[size:], before[:-size], out=cost[size:])
        if turns:
            np.minimum(cost[:-size], before[size:] + np.uint16(1), out=cost[:-size])
    return Reach(step=Length(1), cost=cost, limit=limit, weight=SMALL_WEIGHT)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Counts:
    """The fewest blocks for the grid heights 0 to the top, NEVER where there is no stack.

    `reached` is the sum of the blocks in it: nothing above can be made.
    """

    cells: NDArray[np.uint8]
    reached: int = 0

    def plus(self, size: int) -> Counts:
        """Return the counts with one more block of `size` grid steps."""
        return _with_all(self, [size], np.empty_like(self.cells))

    def seen(self, picks: Picks) -> Window:
        """Return the counts of the picked heights."""
        return Window(counts=self.cells[_index(picks, 0)])

    def seen_with(self, picks: Picks, size: int) -> Window:
        """Return the counts of the picked heights as they are with one more block of `size`."""
        counts = self.cells[_index(picks, 0)].copy()
        skip = _not_below(picks, size)
        part = counts[skip:]
        np.minimum(part, self.cells[_index(picks[skip:], size)] + np.uint8(1), out=part)
        return Window(counts=counts)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Window:
    """The fewest blocks for some heights, in their order."""

    counts: NDArray[np.uint8]

    def within(self, most: int) -> int:
        """Return how many heights at most `most` blocks can make."""
        return int(np.count_nonzero(self.counts <= most))

    def more_than(self, other: Window, most: int) -> int:
        """Return how many heights take at most `most` blocks here, and more than in `other`."""
        return int(np.count_nonzero((self.counts > other.counts) & (self.counts <= most)))

    def tally(self, top: int) -> tuple[int, ...]:
        """Return how many heights need exactly 0, 1, ... `top` blocks."""
        return tuple(int(n) for n in np.bincount(self.counts, minlength=NEVER + 2)[: top + 1])

    def longest_within(self, most: int) -> tuple[int, int] | None:
        """Return first and last index of the longest run made with at most `most` blocks, or None."""
        return _longest(_runs(self.counts <= most))

    def runs_beyond(self, most: int, other: Window | None = None) -> list[Series]:
        """Return the runs of heights that need more than `most` blocks.

        With `other`, only of those that need no more than `most` there.
        """
        flags = self.counts > most
        if other is not None:
            flags &= other.counts <= most
        return _series(_runs(flags))

    def last_within(self, most: int) -> int | None:
        """Return the index of the last height that at most `most` blocks can make, or None."""
        found = np.flatnonzero(self.counts <= most)
        return int(found[-1]) if len(found) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """The indices `first` to `last`, and the same again `times` times in all, each `every` further."""

    first: int
    last: int
    times: int = 1
    every: int = 0


def picks(heights: Sequence[int]) -> Picks:
    """Return grid heights in the form the counts are asked with; a rising range stays a range."""
    return heights if isinstance(heights, range) else np.asarray(sorted(heights), dtype=np.intp)


def counted(sizes: Sequence[int], cells: int) -> Counts:
    """Return the counts of grid sizes up to the height `cells`."""
    counts = np.full(cells + 1, NEVER, dtype=np.uint8)
    counts[0] = 0
    return _with_all(Counts(cells=counts), sizes, np.empty_like(counts))


def without_each(sizes: Sequence[int], base: Counts) -> Iterator[tuple[int, Counts]]:
    """Return for each place in `sizes` the counts of `base` and all the others; equal sizes once.

    Halves the sizes, adds one half, descends into the other: n log n additions
    where one table for each block takes n squared.
    """
    kinds = sorted(set(sizes))
    spare = [size for kind in kinds for size in [kind] * (sizes.count(kind) - 1)]
    buffer = np.empty_like(base.cells)
    todo = [(_with_all(base, spare, buffer), kinds)]
    while todo:
        counts, left = todo.pop()
        if len(left) == 1:
            yield sizes.index(left[0]), counts
        elif left:
            half = len(left) // 2
            todo.append((_with_all(counts, left[half:], buffer), left[:half]))
            todo.append((_with_all(counts, left[:half], buffer), left[half:]))


def every_step(sizes: Sequence[int], every: int) -> tuple[int, int] | None:
    """Return first and last of the longest run of multiples of `every` that any number of the sizes makes.

    In grid steps; None where there is no such height, or more than MOST_BITS
    to look at.  A height is one bit of a long number here, so whole sets are
    cheap.
    """
    if sum(sizes) > MOST_BITS:
        return None
    sums = 1
    for size in sorted(sizes):
        sums |= sums << size
    held = np.frombuffer(sums.to_bytes((sums.bit_length() + 7) // 8, "little"), dtype=np.uint8)
    flags = np.unpackbits(held, bitorder="little")[every::every].astype(bool)
    run = _longest(_runs(flags))
    return run and ((run[0] + 1) * every, (run[1] + 1) * every)


def _with_all(counts: Counts, sizes: Sequence[int], buffer: NDArray[np.uint8]) -> Counts:
    """Return new counts with more blocks, added smallest first."""
    cells, reached = counts.cells.copy(), counts.reached
    for size in sorted(sizes):
        _add_block(cells, reached, size, buffer)
        reached += size
    return Counts(cells=cells, reached=reached)


def _add_block(cells: NDArray[np.uint8], reached: int, size: int, buffer: NDArray[np.uint8]) -> None:
    """Let one more block stand on every stack there is, where that takes fewer blocks."""
    upper = min(len(cells) - 1, reached + size)
    if size <= upper:
        part = cells[size : upper + 1]
        longer = np.add(cells[: upper + 1 - size], np.uint8(1), out=buffer[: upper + 1 - size])
        np.minimum(part, longer, out=part)


def _index(picked: Picks, down: int) -> slice | NDArray[np.intp]:
    """Return the index of the picked heights, each `down` lower."""
    if not isinstance(picked, range):
        return picked - down
    if not picked:
        return slice(0, 0)
    return slice(picked.start - down, picked[-1] - down + 1, picked.step)


def _not_below(picked: Picks, size: int) -> int:
    """Return how many of the picked heights are below `size`."""
    if isinstance(picked, range):
        return len(range(picked.start, min(size, picked.stop), picked.step))
    return int(np.searchsorted(picked, size))


def _runs(flags: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Return first and last index of every run of true flags, shape (runs, 2)."""
    framed = np.concatenate(([False], flags, [False]))
    edges = np.flatnonzero(framed[1:] != framed[:-1]).reshape(-1, 2)
    edges[:, 1] -= 1
    return edges


def _longest(runs: NDArray[np.intp]) -> tuple[int, int] | None:
    """Return the longest run, the first of equals, or None where there is none."""
    if not len(runs):
        return None
    first, last = runs[int(np.argmax(runs[:, 1] - runs[:, 0]))]
    return int(first), int(last)


def _series(runs: NDArray[np.intp]) -> list[Series]:
    """Return runs in their order, three or more of one length at one distance written as one series."""
    length, apart = runs[:, 1] - runs[:, 0], np.diff(runs[:, 0])
    alike = np.where(length[1:] == length[:-1], apart, -1)
    borders = np.flatnonzero(np.diff(alike, prepend=-2, append=-2))
    found, start = [], 0
    for a, b in zip(borders.tolist(), borders[1:].tolist(), strict=False):
        begin = max(a, start)
        times = b - begin + 1 if alike[a] > 0 else 1
        if times > 2:
            found += [_one(runs[i]) for i in range(start, begin)]
            found.append(_one(runs[begin], times=times, every=int(alike[a])))
            start = b + 1
    return [*found, *(_one(run) for run in runs[start:])]


def _one(run: NDArray[np.intp], times: int = 1, every: int = 0) -> Series:
    """Return one run as a series."""
    return Series(first=int(run[0]), last=int(run[1]), times=times, every=every)
