"""Many single stacks from one set, one after the other, over one shared reach table.

    >>> outcomes = tuple(batch(heights, stock, choice))

Every height is answered for itself: the stacks are alternatives and may share
blocks.  The table is built once, up to the highest of them.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from gaugestack.blocks import total
from gaugestack.stacks import reach
from gaugestack.stacks.solve import Composer

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.options import Choice
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import Length
    from gaugestack.stacks.reach import Reach
    from gaugestack.stacks.request import Outcome, StackRequest


def batch(heights: Sequence[Length], stock: Stock, choice: Choice) -> Iterator[Outcome]:
    """Yield the outcome of each height by itself, each composed when it is asked for.

    Raises UsageError for an option that cannot be met.
    """
    if not heights:
        return
    first = choice.request(stock, heights[:1])
    table = _table(first, max(heights))
    known: dict[Length, Outcome] = {}
    for height in heights:
        if height not in known:
            known[height] = Composer(replace(first, targets=(height,)), table=table).outcome()
        yield known[height]


def _table(request: StackRequest, highest: Length) -> Reach | None:
    """Return the table of the request's free blocks as far as any of its heights can need."""
    free = request.free
    strays = sum(abs(block.deviation or 0) for block in free)
    return reach.table(free, min(highest + request.tolerance + strays, total(free)))
