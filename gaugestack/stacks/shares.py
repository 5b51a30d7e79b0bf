"""Several stacks at once: how a number of blocks may be shared among them.

    >>> list(shares(1, 2))          # one block more than the fewest, two stacks
    [(1, 0), (0, 1)]

A stack of a share holds exactly its own number of blocks, so that the table
prunes each stack as sharply as a stack alone; the best answer over all shares
of one number of blocks, by the order of preference, is the best there is.
"""

from __future__ import annotations

from math import comb
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.stacks.model import Decision, Puzzle

Rank = tuple[object, ...]


def shares(blocks: int, stacks: int) -> Iterator[tuple[int, ...]]:
    """Return every way to give so many blocks to so many stacks, the first stack most first."""
    if stacks == 1:
        yield (blocks,)
        return
    for first in range(blocks, -1, -1):
        for rest in shares(blocks - first, stacks - 1):
            yield (first, *rest)


def ways(blocks: int, stacks: int) -> int:
    """Return how many ways there are to share so many blocks among so many stacks."""
    return comb(blocks + stacks - 1, blocks)


def rank(puzzle: Puzzle, decision: Decision) -> Rank:
    """Return what an answer is ordered by among answers of as many blocks; the least is the best.

    The order of preference of model.py from the deviations on.
    """
    kinds = puzzle.kinds
    used = [(kinds[k], count) for counts in decision.counts for k, count in enumerate(counts)]
    deviation = sum(
        abs(sum(kind.size * count for kind, count in zip(kinds, counts, strict=True)) - pile.aim)
        for pile, counts in zip(puzzle.piles, decision.counts, strict=True)
    )
    thin = sum(count for kind, count in used if kind.thin)
    uses = sum(kind.uses * count for kind, count in used)
    sizes = [_by_size(puzzle, counts) for counts in decision.counts]
    return deviation, thin, uses, sizes, [[-count for count in counts] for counts in decision.counts]


def _by_size(puzzle: Puzzle, counts: Sequence[int]) -> list[int]:
    """Return how many blocks of each size a stack has, less than zero, the largest size first."""
    sizes: dict[int, int] = {}
    for kind, count in zip(puzzle.kinds, counts, strict=True):
        size = kind.nominal or kind.size
        sizes[size] = sizes.get(size, 0) - count
    return list(sizes.values())
