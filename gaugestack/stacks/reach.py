"""What a set can reach: for every height on its grid, the fewest blocks that make it.

One numpy array over the grid, filled block by block (each block once):

    cost[h] = min over stacks that sum to h of (blocks x WEIGHT + thin blocks)

so one table knows both the fewest blocks and, among those, the fewest thin
ones.  Exact for stacks without further rules; a lower bound otherwise, which
is what pruning needs: block s can stand in a stack for h of cost at most c
only if cost[h - s] + cost(s) <= c.

The only module that imports numpy.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from gaugestack.blocks import grid
from gaugestack.lengths import Length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from gaugestack.blocks import Block

WEIGHT = 1024
"""What one block costs; a thin one costs one more.  Above the most pieces a set may have."""
SMALL_WEIGHT = 256
"""The same for sets small enough for 16 bits a height."""
SMALL_SET = 240
MOST_CELLS = 64_000_000
"""Heights a table may hold; beyond that there is no table and no pruning."""


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
        low, high = max(low, 0), min(high, self.top)
        if low > high:
            return []
        ceiling = self.limit if count is None else min(self.limit, (count + 1) * self.weight)
        return [int(h) + low for h in np.flatnonzero(self.cost[low : high + 1] < ceiling)]

    def below(self, height: int, count: int | None = None) -> int | None:
        """Return the largest reachable grid height below `height`, above zero."""
        found = self.heights(1, height - 1, count)
        return found[-1] if found else None

    def above(self, height: int, count: int | None = None) -> int | None:
        """Return the smallest reachable grid height above `height` in the table."""
        found = self.heights(max(height + 1, 1), self.top, count)
        return found[0] if found else None

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
    if cells > MOST_CELLS:
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
