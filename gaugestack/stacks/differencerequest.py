"""What is asked of two stacks whose difference counts, and how it can end.

    DifferenceRequest                        the difference, and the rules for both stacks
    DifferenceFound | Impossible | Undecided  the outcome

Pure values, lengths in whole picometres.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.lengths import Length
from gaugestack.stacks.request import Impossible, Undecided

if TYPE_CHECKING:
    from gaugestack.stacks.request import Built, StackRequest


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceRequest:
    """Two stacks from one pool, no block twice, the first higher than the second by `target`.

    `rules` says all else: tolerance of the difference, pool, blocks kept in
    (in one of the two), two wear pairs or none, largest number of blocks in
    one stack, basis.  Its targets count for nothing.
    """

    target: Length
    rules: StackRequest

    def each(self, high: Length, low: Length) -> StackRequest:
        """Return the request that stacks of exactly these two lengths must meet."""
        return replace(self.rules, targets=(high, low), tolerance=Length(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceFound:
    """Two stacks, approved by the judge and proven the best; the target of each is its own length."""

    target: Length
    high: Built
    low: Built

    @property
    def difference(self) -> Length:
        """How much higher the one stands, on the basis of the request."""
        return Length(self.high.length - self.low.length)

    @property
    def deviation(self) -> Length:
        """Difference minus target."""
        return Length(self.difference - self.target)


DifferenceOutcome = DifferenceFound | Impossible | Undecided
