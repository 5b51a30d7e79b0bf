"""Other stacks for one height: the next best ones, one that shares no block, fewer blocks or less deviation.

    >>> next_best(request, best, 5)          # the five that come after the best
    >>> proof_stack(request, best)           # the best without any block of the best
    >>> trade_offs(request, best)            # more blocks for a smaller deviation

Every stack is proven to be what it is said to be, by the order of preference
in model.py; pieces that nothing tells apart make no other stack.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.lengths import Length
from gaugestack.stacks.request import Built, Found, Outcome, StackRequest, Undecided
from gaugestack.stacks.solve import Composer, compose

if TYPE_CHECKING:
    from gaugestack.stacks.effort import Effort

MOST_TRADED = 7
"""Stacks of more blocks are not offered for a smaller deviation: practice stops at five."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """Stacks in their order; `complete` says that there are no more, None that it was not found out.

    False where more were not asked for.
    """

    stacks: tuple[Built, ...]
    complete: bool | None = False


def next_best(request: StackRequest, best: Built, count: int, effort: Effort | None = None) -> Listed:
    """Return the stacks that come after the best in the order of preference, `count` at most."""
    barred = [best.blocks]
    found: list[Built] = []
    table = Composer(request, effort).grounds.table
    while len(found) < count:
        outcome = Composer(replace(request, barred=tuple(barred)), effort, table).outcome()
        if not isinstance(outcome, Found):
            return Listed(stacks=tuple(found), complete=None if isinstance(outcome, Undecided) else True)
        found.append(outcome.stacks[0])
        barred.append(outcome.stacks[0].blocks)
    return Listed(stacks=tuple(found))


def proof_stack(request: StackRequest, best: Built, effort: Effort | None = None) -> Outcome:
    """Return the best stack of the same height from the blocks that the best leaves in the case.

    Blocks kept in are in the best already.  `request.ends` holds two pairs
    where wear pairs are asked for; the second is for this stack.
    """
    rest = tuple(block for block in request.pool if block not in best.blocks)
    faces = tuple(block for block in request.end_only if block in rest)
    return compose(replace(request, pool=rest, kept_in=(), ends=request.ends[1:], end_only=faces), effort)


def trade_offs(request: StackRequest, best: Built, effort: Effort | None = None) -> Listed:
    """Return the stacks that no other beats both in blocks and in deviation, the fewest blocks first.

    The first is the best; each further one has more blocks and a smaller
    deviation, the smallest of its number.  Up to MOST_TRADED blocks, or as
    many as the request allows.
    """
    most = MOST_TRADED if request.most is None else min(request.most, MOST_TRADED)
    front = [best]
    while front[-1].deviation and len(front[-1].blocks) < most:
        closer = Length(abs(front[-1].deviation) - 1)
        outcome = compose(replace(request, tolerance=closer, most=most), effort)
        if not isinstance(outcome, Found):
            return Listed(stacks=tuple(front), complete=None if isinstance(outcome, Undecided) else True)
        front.append(outcome.stacks[0])
    return Listed(stacks=tuple(front), complete=True)
