"""Puzzles on the certified basis, where every block has a length of its own.

    >>> for puzzles in CertifiedGrounds(request=request).rounds(): ...

For one target and each number of blocks from the fewest: the table, on
nominal sizes, says which blocks can stand at all in a stack of so many blocks
that strays as far as its deviations allow; closest.py finds the least miss
and every block of the stacks that have it; the model decides among those.
Where a further rule forbids all of them, the next larger miss follows.

Several targets are first asked for their own closest stacks each, which nothing
beats where they share no block.  Then, and for counts too large to enumerate,
the model decides with both sums linked: the certified one and, on its coarse
grid, the nominal one.

Serves nominal sizes too where their grid is too fine for a table.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.stacks import closest, leastmiss, reach
from gaugestack.stacks.puzzles import Grounds, Want

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.stacks.model import Pile, Puzzle
    from gaugestack.stacks.puzzles import Round
    from gaugestack.stacks.reach import Reach

MOST_ENUMERATED = 8
"""Stacks of up to this many free blocks are enumerated by halves, where memory allows."""


@dataclass(frozen=True, kw_only=True)
class CertifiedGrounds(Grounds):
    """What is known of a request whose blocks count with their certified lengths."""

    def rounds(self) -> Iterator[Round]:
        """Return rounds of one puzzle each, by number of blocks and growing miss, then the linked one."""
        linked = True
        if len(self.wants) > 1 and not self.request.scarce:
            yield from ((puzzle,) for puzzle in self._closest_each())
        elif not self.request.scarce:
            yield from ((puzzle,) for puzzle in self._counted_puzzles(self.wants[0]))
            linked = self.counts(self.wants[0])[-1] > MOST_ENUMERATED
        if linked:
            yield (self.puzzle([self._linked_pile(want) for want in self.wants]),)

    @property
    def fewest(self) -> int:
        """The fewest free blocks all stacks can have together, by their nominal sizes."""
        table = self.table
        if table is None:
            return 0
        near = (self._nominal_heights(table, want, None) for want in self.wants)
        return sum(min((table.count(height) or 0 for height in heights), default=0) for heights in near)

    def _closest_each(self) -> Iterator[Puzzle]:
        """Return the puzzle that asks each of several targets for its own fewest blocks and least miss.

        Nothing beats it where it has an answer; no puzzle where that is not soon known of each.
        """
        try:
            piles = [self._closest_pile(want) for want in self.wants]
        except closest.TooManyHalves:
            return
        yield replace(self.puzzle(piles, sum(pile.exactly or 0 for pile in piles)), tight=True)

    def _closest_pile(self, want: Want) -> Pile:
        """Return the pile of all stacks of the fewest blocks that miss least.  Raises TooManyHalves."""
        for count in self.counts(want)[: leastmiss.WORTH_IT]:
            if not count:
                break
            pieces, field = self._pieces(want, count)
            best = self._closest(field, count, -1)
            if best:
                return replace(self._pile_of(want, best, pieces), exactly=count)
        raise closest.TooManyHalves

    def counts(self, want: Want) -> range:
        """Return the numbers of free blocks a stack for this want can have at all."""
        room, most = want.aim + self.request.tolerance, 0
        for length in sorted(block.length(self.request.basis) for block in self.free):
            room -= length
            if room < 0:
                break
            most += 1
        least = 0 if self.fixed[0] else 1
        return range(least, min(most, want.most if want.most is not None else most) + 1) or range(
            least, least + 1
        )

    def _counted_puzzles(self, want: Want) -> Iterator[Puzzle]:
        """Return the puzzles of every count that can be enumerated, least miss first."""
        for count in self.counts(want)[: MOST_ENUMERATED + 1]:
            if count > MOST_ENUMERATED:
                return
            if count:
                yield from self._missing_puzzles(want, count)
            elif abs(want.aim) <= self.request.tolerance:
                yield self.puzzle([want.pile(((0, 0),), ())], 0)

    def _missing_puzzles(self, want: Want, count: int) -> Iterator[Puzzle]:
        """Return the puzzles of one count, the least miss first, while misses are within tolerance."""
        pieces, field = self._pieces(want, count)
        miss = -1
        try:
            yield from self._least_puzzle(want, field, pieces, count)
            while best := self._closest(field, count, miss):
                yield self._closest_puzzle(want, best, pieces, count)
                miss = best.miss
        except closest.TooManyHalves:
            kinds = tuple(sorted(set(pieces)))
            yield self.puzzle([replace(self._linked_pile(want), kinds=kinds)], count)

    def _pieces(self, want: Want, count: int) -> tuple[list[int], closest.Field]:
        """Return the kinds of the pieces that can stand in a stack of a count, and where to look."""
        heights = self._nominal_heights(self.table, want, count) if self.table else []
        pieces = [kind for kind in self._near_kinds(heights, count) for _ in self.groups[kind]]
        return pieces, self._field(want, pieces, heights)

    def _least_puzzle(
        self, want: Want, field: closest.Field, pieces: list[int], count: int
    ) -> Iterator[Puzzle]:
        """Return the puzzle of the least miss there can be, where that is soon found."""
        if not self.effort.left or count < leastmiss.WORTH_IT:
            return
        thick = [block for block in self.free if not block.thin]
        table = reach.table(thick, sum(block.nominal for block in thick))
        if table is None or not field.guide:
            return
        sides = leastmiss.Sides(thin=tuple(self.kinds[kind].thin for kind in pieces), table=table)
        best = leastmiss.fewest_thin(field, sides, count)
        if best:
            yield self._closest_puzzle(want, best, pieces, count)

    def _closest_puzzle(self, want: Want, best: closest.Closest, pieces: list[int], count: int) -> Puzzle:
        """Return the puzzle of the blocks of the closest stacks of a count."""
        return replace(self.puzzle([self._pile_of(want, best, pieces)], count), tight=True)

    def _pile_of(self, want: Want, best: closest.Closest, pieces: list[int]) -> Pile:
        """Return the pile of the blocks of the closest stacks."""
        members = tuple(sorted({pieces[index] for index in best.members}))
        return want.pile(tuple((length, length) for length in best.sums), members)

    def _closest(self, field: closest.Field, count: int, miss: int) -> closest.Closest | None:
        """Return the closest stacks beyond a miss.  Raises TooManyHalves, also where no effort is left."""
        if not self.effort.left:
            raise closest.TooManyHalves
        return closest.closest(field, count, miss)

    def _near_kinds(self, heights: list[int], count: int) -> tuple[int, ...]:
        """Return the kinds that can stand in a stack of `count` blocks near these nominal heights."""
        if self.table is None:
            return tuple(range(len(self.kinds)))
        return self.usable(self.table, heights, (count + 1) * self.table.weight - 1)

    def _field(self, want: Want, pieces: list[int], heights: list[int]) -> closest.Field:
        """Return where to look for the closest stacks of these pieces."""
        table, guide = self.table, None
        if table is not None:
            sizes = tuple(self.kinds[kind].nominal // table.step for kind in pieces)
            guide = closest.Guide(table=table, sizes=sizes, heights=tuple(heights))
        lengths = [self.kinds[kind].size for kind in pieces]
        within, effort = self.request.tolerance, self.effort
        return closest.Field(lengths=lengths, aim=want.aim, within=within, guide=guide, effort=effort)

    def _nominal_heights(self, table: Reach, want: Want, count: int | None) -> list[int]:
        """Return the reachable nominal heights from which `count` deviations can lead into tolerance."""
        reach = self.request.tolerance + self.stray(len(self.free) if count is None else count)
        low, high = -((reach - want.aim) // table.step), (want.aim + reach) // table.step
        return table.heights(max(low, 0 if self.fixed[0] else 1), high, count)

    def _linked_pile(self, want: Want) -> Pile:
        """Return the pile of a want with both its sums, for the model to count and to choose."""
        tolerance = self.request.tolerance
        least = 0 if want.standing else 1
        heights = ((max(want.aim - tolerance, least), want.aim + tolerance),)
        pile = want.pile(heights, tuple(range(len(self.kinds))))
        table = self.table
        if table is None:
            return pile
        grid = self._nominal_heights(table, want, None)
        kinds = self.usable(table, grid, table.limit - 1)
        sums = tuple((height * table.step, height * table.step) for height in grid)
        return replace(pile, kinds=kinds, nominals=sums)
