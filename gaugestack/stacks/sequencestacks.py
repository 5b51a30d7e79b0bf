"""Every stack of so many blocks for a height, in canonical order.

    >>> Lister(pool, top).stacks(height, 4, cap=400)    # Listing(stacks, complete)

Exact: the table of fewest blocks cuts branches that cannot end.  Nominal sizes
only; two pieces of one size are two blocks.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from gaugestack.blocks import grid, in_order
from gaugestack.stacks import reach

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.blocks import Block


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """Stacks, largest blocks first; `complete` unless there are more than were wanted."""

    stacks: tuple[tuple[Block, ...], ...]
    complete: bool = True


class Lister:
    """Lists stacks from one pool; its table reaches up to `top` picometres."""

    def __init__(self, pool: Sequence[Block], top: int) -> None:
        """Keep the pool in canonical order."""
        self.pool = in_order(pool)
        self.step = grid(self.pool) or 1
        self.cells = min(top, sum(block.nominal for block in self.pool)) // self.step
        self.sizes = [block.nominal // self.step for block in self.pool]

    @cached_property
    def counts(self) -> bytes:
        """The fewest blocks for each grid height, one byte a height."""
        return reach.counted(self.sizes, self.cells).cells.tobytes()

    def stacks(self, height: int, count: int, cap: int) -> Listing:
        """Return all stacks of exactly `count` blocks that sum to `height` picometres, `cap` at most.

        In canonical order: of two stacks the one that first shows a larger
        block, then the earlier piece of a size, comes first.
        """
        steps, rest = divmod(height, self.step)
        if rest or not 0 < steps <= self.cells or count < 1:
            return Listing(stacks=())
        if self.cells > reach.MOST_CELLS:
            return Listing(stacks=(), complete=False)
        found: list[tuple[Block, ...]] = []
        for chosen in self._chosen(0, steps, count):
            if len(found) == cap:
                return Listing(stacks=tuple(found), complete=False)
            found.append(tuple(self.pool[index] for index in chosen))
        return Listing(stacks=tuple(found))

    def _chosen(self, start: int, rest: int, left: int) -> Iterator[tuple[int, ...]]:
        """Return the ways to make `rest` from `left` blocks at or after `start`, as indices."""
        counts, sizes = self.counts, self.sizes
        for index in range(start, len(sizes) - left + 1):
            size = sizes[index]
            if size * left < rest:
                return
            if left == 1:
                if size == rest:
                    yield (index,)
            elif size < rest and counts[rest - size] < left:
                for others in self._chosen(index + 1, rest - size, left - 1):
                    yield (index, *others)
