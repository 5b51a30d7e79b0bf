"""Which blocks make a difference of so few blocks: signed sums that meet in the middle.

    >>> met = meet(field, count=3)        # Met(sides=..., miss=..., thin=...), or None

A block of the higher stack counts for its size, one of the lower stack against
it.  All sums of one, of two and at last of three such sides are sorted once; of
three to five blocks the rest is found by bisection.  Of all that lie in the range those are kept that miss
the aim least, and of those the ones with the fewest thin blocks: the model
decides among them, and rules that this does not know of are its business.
numpy, like closest.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from gaugestack.stacks.effort import Effort
    from gaugestack.stacks.model import Kind, Lift

MOST_MET = 5
"""Up to this many blocks are met."""
MOST_PAIRS = 2_000_000
"""More meetings than this are not looked at one by one."""

Side = tuple[int, int]
"""A kind, and +1 in the higher stack or -1 in the lower."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """The sides that make a difference in the range: `best` with the least miss and the fewest thin blocks.

    `sides` are all of them, `miss` and `thin` those of the best; None where
    there are too many ways to look at.
    """

    sides: frozenset[Side]
    best: frozenset[Side] | None = None
    miss: int = 0
    thin: int = 0


class Meeting:
    """All sides of some kinds, for one difference."""

    def __init__(self, kinds: Sequence[Kind], lift: Lift, effort: Effort | None = None) -> None:
        """Keep the sides in the order of their sizes; nothing is added yet."""
        sides = [(side * kind.size, k, side) for k, kind in enumerate(kinds) for side in (1, -1)]
        self.sides = sorted(sides)
        self.lift, self.effort = lift, effort
        self.value = np.asarray([value for value, _, _ in self.sides], dtype=np.int64)
        self.kind = np.asarray([k for _, k, _ in self.sides], dtype=np.int64)
        self.single = np.asarray([kinds[k].pieces < 2 for _, k, _ in self.sides], dtype=bool)
        self.thin = np.asarray([kinds[k].thin for _, k, _ in self.sides], dtype=np.int64)

    def met(self, count: int) -> Met | None:
        """Return what makes the difference with exactly `count` blocks, None where nothing does."""
        rows = self._rows(count)
        if rows is None:
            return Met(sides=frozenset((kind, side) for _, kind, side in self.sides))
        rows = rows[self._apart(rows)]
        if not len(rows):
            return None
        miss = np.abs(self.value[rows].sum(axis=1) - self.lift.aim)
        near = rows[miss == miss.min()]
        thin = self.thin[near].sum(axis=1)
        best = near[thin == thin.min()]
        return Met(
            sides=self._named(rows), best=self._named(best), miss=int(miss.min()), thin=int(thin.min())
        )

    def _named(self, rows: NDArray[np.int64]) -> frozenset[Side]:
        """Return the sides that stand in any of the rows."""
        return frozenset(self.sides[place][1:] for place in np.unique(rows))

    def _rows(self, count: int) -> NDArray[np.int64] | None:
        """Return the places of sides that sum into the range, `count` a row; None where they are too many."""
        if count == 1:
            low, high = np.searchsorted(self.value, [self.lift.low, self.lift.high + 1])
            return np.arange(low, high)[:, np.newaxis]
        return self._meetings(self._sorted(count // 2), self._sorted(count - count // 2))

    def _sorted(self, count: int) -> NDArray[np.int64]:
        """Return the places of one, two or three sides in every row, sorted by their sum."""
        if count == 1:
            return np.arange(len(self.value))[:, np.newaxis]
        return self._twos if count == 2 else self._threes

    @cached_property
    def _twos(self) -> NDArray[np.int64]:
        """The places of two sides in every row, sorted by their sum; no piece on both sides."""
        return self._in_order(np.column_stack(np.triu_indices(len(self.value))))

    @cached_property
    def _threes(self) -> NDArray[np.int64]:
        """The places of three sides in every row, sorted by their sum; no piece on both sides."""
        twos = self._twos
        lead = np.repeat(np.arange(len(self.value)), len(twos))
        rows = np.column_stack((lead, np.tile(twos, (len(self.value), 1))))
        return self._in_order(rows[rows[:, 0] <= rows[:, 1]])

    def _in_order(self, rows: NDArray[np.int64]) -> NDArray[np.int64]:
        """Return the rows that use no piece twice, sorted by their sum."""
        rows = rows[self._apart(rows)]
        return rows[np.argsort(self.value[rows].sum(axis=1), kind="stable")]

    def _meetings(self, near: NDArray[np.int64], far: NDArray[np.int64]) -> NDArray[np.int64] | None:
        """Return the rows of `near` and `far`, which stands sorted, that sum into the range."""
        have, want = self.value[near].sum(axis=1), self.value[far].sum(axis=1)
        first = np.searchsorted(want, self.lift.low - have)
        times = np.searchsorted(want, self.lift.high - have, side="right") - first
        pairs = int(times.sum())
        if self.effort:
            self.effort.count(len(near) + len(far) + pairs)
        if pairs > MOST_PAIRS:
            return None
        left = np.repeat(np.arange(len(near)), times)
        right = np.arange(pairs) - np.repeat(np.cumsum(times) - times, times) + np.repeat(first, times)
        return np.column_stack((near[left], far[right]))

    def _apart(self, rows: NDArray[np.int64]) -> NDArray[np.bool_]:
        """Tell which rows use no kind of one piece twice."""
        apart = np.ones(len(rows), dtype=bool)
        for one in range(rows.shape[1]):
            for other in range(one):
                same = self.kind[rows[:, one]] == self.kind[rows[:, other]]
                apart &= ~(same & self.single[rows[:, one]])
        return apart
