"""What the uncertainty of a stack cannot be below, quickly.

    >>> floor = Floor(rest=..., reference=..., singles={id(block): Single(alone=...)}, joint=..., k=2.0)
    >>> floor.of_stack(blocks), floor.of_count(5, lowest)

For a search that lists many stacks: whole budgets are made only of those that
could be better.  Variances in the square of the budget's unit.  Joints count
each alone and the foot not at all, which is never too much.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from gaugestack.blocks import Block


@dataclass(frozen=True, slots=True, kw_only=True)
class Single:
    """The doubts of a block by itself: the variance it has alone, and what it shares.

    `shared` is a standard uncertainty that adds up with those of the same `group`.
    """

    alone: float
    shared: float = 0.0
    group: str = ""


_NOTHING = Single(alone=0.0)


@dataclass(frozen=True, kw_only=True)
class Floor:
    """The floor under the uncertainty of the stacks of one request.

    `rest` is the variance, at the height `reference` in picometres, of what does not
    hang on the choice; it falls at most with the square of the height.  `singles`
    goes by the identity of the blocks: hashing them would cost more than all else.
    """

    rest: float
    reference: int
    singles: Mapping[int, Single]
    joint: float
    k: float

    def of_stack(self, blocks: Sequence[Block]) -> float:
        """Return what the expanded uncertainty of these blocks cannot be below."""
        groups: dict[str, float] = {}
        own = 0.0
        height = 0
        for block in blocks:
            single = self.singles.get(id(block), _NOTHING)
            own += single.alone
            height += block.nominal
            if single.shared:
                groups[single.group] = groups.get(single.group, 0.0) + single.shared
        own += math.fsum(shared * shared for shared in groups.values())
        return self._expanded(own, len(blocks), height)

    def of_count(self, count: int, lowest: int) -> float:
        """Return what no stack of `count` blocks at least `lowest` high can be below.

        Some of the blocks belong to a certificate: for each number of these the least
        doubts there are, each block once.  What blocks of n groups share adds at least
        the n-th part of the square of its sum (Cauchy and Schwarz).
        """
        apart, together, shared = self._sums
        ways = range(max(0, count - len(apart) + 1), min(count, len(together) - 1) + 1)
        own = min(
            (together[n] + shared[n] ** 2 / self._groups + apart[count - n] for n in ways),
            default=math.inf,
        )
        return self._expanded(own, count, lowest)

    def _expanded(self, own: float, count: int, height: int) -> float:
        """Return U of the variance the blocks have of their own, their joints, and the rest."""
        shrunk = min(1.0, max(0.0, height / self.reference)) ** 2
        return self.k * math.sqrt(self.rest * shrunk + own + max(0, count - 1) * self.joint)

    @cached_property
    def _groups(self) -> int:
        """How many groups share anything, at least one."""
        return max(1, len({single.group for single in self.singles.values() if single.shared}))

    @cached_property
    def _sums(self) -> tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]:
        """The least sums: of blocks that share nothing, and of those that do, alone and shared."""
        singles = self.singles.values()
        return (
            _least(single.alone for single in singles if not single.shared),
            _least(single.alone for single in singles if single.shared),
            _least(single.shared for single in singles if single.shared),
        )


def _least(values: Iterable[float]) -> tuple[float, ...]:
    """Return the sums of the none, one, two, ... smallest values."""
    return tuple(accumulate(sorted(values), initial=0.0))
