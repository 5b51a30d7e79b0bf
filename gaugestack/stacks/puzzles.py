"""From a request to the puzzles the model decides, on the nominal basis.

    >>> for puzzles in Grounds(request=request, table=table).rounds(): ...

`Grounds` holds what is known before solving: the blocks that stand anyway,
the free ones grouped into kinds, what each target still wants.  Rounds come
from the tightest (every lower bound of the table fixed) to the one the model
decides alone.  A round is one puzzle, or one for every way to share a number
of blocks among several stacks (shares.py); each is exact, so the first round
that has an answer has the best, among its puzzles.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, cast

from gaugestack.blocks import Basis, Block, in_order, total
from gaugestack.stacks import reach
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.model import Kind, Pile, Puzzle
from gaugestack.stacks.shares import shares, ways

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.lengths import Length
    from gaugestack.stacks.request import StackRequest

LIFTS = 2
"""How many blocks above the lower bound are tried before the model counts by itself."""
SHARED = 4
"""The same where every way to share them among several stacks is tried by itself."""
MOST_SHARES = 40
"""More ways than this are left to one puzzle."""

Round = tuple[Puzzle, ...]
"""Puzzles of one number of blocks; the best of their answers is the answer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Want:
    """What one target still wants from the free blocks, in picometres and grid heights.

    `aim` is the target less the blocks that stand anyway, `low`..`high` the
    grid heights within tolerance, `most` the blocks still allowed.  `standing`
    blocks stand anyway, `faces` of them with one good face; `ends` positions
    take such.
    """

    aim: int
    low: int
    high: int
    most: int | None
    standing: int
    faces: int
    ends: int

    def pile(self, heights: tuple[tuple[int, int], ...], kinds: tuple[int, ...]) -> Pile:
        """Return the pile of this want for these sums and kinds."""
        return Pile(
            aim=self.aim,
            heights=heights,
            kinds=kinds,
            most=self.most,
            standing=self.standing,
            faces=self.faces,
            ends=self.ends,
        )


@dataclass(frozen=True, kw_only=True)
class Grounds:
    """What is known of a request before anything is solved.

    `given` is a table of the same free blocks built for another request;
    what is enumerated is spent of `effort`.
    """

    request: StackRequest
    given: reach.Reach | None = None
    effort: Effort = field(default_factory=Effort)

    @cached_property
    def fixed(self) -> tuple[tuple[Block, ...], ...]:
        """Blocks that stand in each stack whatever is chosen: wear pair, blocks kept in."""
        request = self.request
        alone = request.kept_in if len(request.targets) == 1 else ()
        return tuple((*request.pair(index), *alone) for index in range(len(request.targets)))

    @cached_property
    def free(self) -> tuple[Block, ...]:
        """Blocks to choose among, in canonical order."""
        request = self.request
        return in_order(request.free if len(request.targets) == 1 else request.pool)

    @cached_property
    def kept(self) -> frozenset[Block]:
        """Blocks kept in that are still to be placed."""
        return frozenset(self.request.kept_in) & frozenset(self.free)

    @cached_property
    def table(self) -> reach.Reach | None:
        """The reach table of the free blocks, by nominal size; None where it would be too large."""
        if self.given is not None:
            return self.given
        top = max(self.request.targets) + self.request.tolerance
        return reach.table(self.free, top + self.stray(len(self.free)))

    @property
    def _whole(self) -> reach.Reach:
        """The table, which there is: requests without one are certified.py's."""
        return cast("reach.Reach", self.table)

    @cached_property
    def wants(self) -> tuple[Want, ...]:
        """What each target still wants."""
        return tuple(self._want(index, target) for index, target in enumerate(self.request.targets))

    @property
    def fewest(self) -> int:
        """The fewest free blocks all stacks can have together, by the table."""
        return sum(self._whole.fewest(want.low, want.high) or 0 for want in self.wants)

    @cached_property
    def groups(self) -> tuple[tuple[Block, ...], ...]:
        """Free blocks grouped by what tells them apart, largest first; the least used of equals leads."""
        groups: dict[tuple[object, ...], list[Block]] = {}
        blocks, basis = self.free, self.request.basis
        if not self.marked:
            for block in blocks:
                groups.setdefault((block.nominal, block.length(basis)), []).append(block)
        for block in sorted(blocks, key=self._leading) if self.marked else ():
            groups.setdefault(self._apart(block), []).append(block)
        return tuple(tuple(group) for group in groups.values())

    @cached_property
    def kinds(self) -> tuple[Kind, ...]:
        """The kinds of the model, in the order of `groups`."""
        return tuple(self._kind(group) for group in self.groups)

    @cached_property
    def uses(self) -> dict[Block, int]:
        """How often each block was used, where the request counts it."""
        return dict(self.request.uses)

    @cached_property
    def _barred_counts(self) -> tuple[tuple[int, ...], ...]:
        """The stacks not to be taken again, as counts of the kinds."""
        barred = [frozenset(blocks) for blocks in self.request.barred]
        return tuple(tuple(len(blocks.intersection(group)) for group in self.groups) for blocks in barred)

    def stray(self, count: int) -> int:
        """Return how far `count` free blocks can stray from their nominal sum, in picometres."""
        if self.request.basis is Basis.NOMINAL:
            return 0
        strays = sorted((abs(block.deviation or 0) for block in self.free), reverse=True)
        return sum(strays[:count])

    def rounds(self) -> Iterator[Round]:
        """Return rounds from the tightest to the one the model decides alone."""
        table = self._whole
        if not self.request.scarce:
            yield from self._bounded_rounds(table)
        yield (self.puzzle([self._open_pile(table, want, None) for want in self.wants]),)

    def puzzle(self, piles: list[Pile], blocks: int | None = None, thin: int | None = None) -> Puzzle:
        """Return the puzzle of these piles."""
        return Puzzle(
            kinds=self.kinds, piles=tuple(piles), total=blocks, thin=thin, barred=self._barred_counts
        )

    def usable(self, table: reach.Reach, heights: list[int], budget: int) -> tuple[int, ...]:
        """Return the kinds that can stand in a stack of one of the grid heights within a budget."""
        sizes = [group[0].nominal // table.step for group in self.groups]
        thin = [group[0].thin for group in self.groups]
        return tuple(table.usable(heights, sizes, thin, budget))

    def _bounded_rounds(self, table: reach.Reach) -> Iterator[Round]:
        """Return rounds whose number of blocks is the table's lower bound or little more."""
        fewest = [table.fewest(want.low, want.high) or 0 for want in self.wants]
        yield (self._tight_puzzle(table, fewest),)
        for lift in range(SHARED + 1):
            if ways(lift, len(fewest)) <= MOST_SHARES:
                yield tuple(self._shared_puzzle(table, fewest, share) for share in shares(lift, len(fewest)))
            elif lift <= LIFTS:
                piles = [
                    self._open_pile(table, want, k + lift) for want, k in zip(self.wants, fewest, strict=True)
                ]
                yield (self.puzzle(piles, sum(fewest) + lift),)

    def _shared_puzzle(self, table: reach.Reach, fewest: list[int], share: tuple[int, ...]) -> Puzzle:
        """Return the puzzle that gives each target its fewest blocks and its share of further ones."""
        piles = []
        for want, least, more in zip(self.wants, fewest, share, strict=True):
            pile = self._open_pile(table, want, least + more)
            piles.append(replace(pile, exactly=least + more))
        return self.puzzle(piles, sum(fewest) + sum(share))

    def _tight_puzzle(self, table: reach.Reach, fewest: list[int]) -> Puzzle:
        """Return the puzzle that asks each target for its own best in every respect."""
        piles, thin = [], 0
        for want, count in zip(self.wants, fewest, strict=True):
            near = _nearest_heights(table, want, count)
            price = min(table.price(height) or 0 for height in near)
            best = [height for height in near if table.price(height) == price]
            piles.append(self._pile(table, want, best, price))
            thin += price % table.weight
        return replace(self.puzzle(piles, sum(fewest), thin), tight=True)

    def _open_pile(self, table: reach.Reach, want: Want, count: int | None) -> Pile:
        """Return the pile of every height of a want that `count` blocks can make."""
        budget = table.limit - 1 if count is None else (count + 1) * table.weight - 1
        return self._pile(table, want, table.heights(want.low, want.high, count), budget)

    def _pile(self, table: reach.Reach, want: Want, heights: list[int], budget: int) -> Pile:
        """Return the pile of one target for these grid heights, its kinds pruned by the table."""
        kinds = self.usable(table, heights, budget)
        sums = tuple((height * table.step, height * table.step) for height in heights)
        return want.pile(sums, kinds)

    def _want(self, index: int, target: Length) -> Want:
        """Return what one target still wants; without fixed blocks at least one more."""
        request, fixed = self.request, self.fixed[index]
        step = self.table.step if self.table else 1
        aim = target - total(fixed, request.basis)
        low = max(-((request.tolerance - aim) // step), 0 if fixed else 1)
        most = None if request.most is None else request.most - len(fixed)
        return Want(
            aim=aim,
            low=low,
            high=(aim + request.tolerance) // step,
            most=most,
            standing=len(fixed),
            faces=sum(block in request.end_only for block in fixed),
            ends=0 if request.pair(index) else 2,
        )

    @cached_property
    def marked(self) -> bool:
        """Whether the request tells blocks apart by more than their size."""
        return bool(self.kept or self.request.scarce or self.request.end_only or self.uses)

    def _leading(self, block: Block) -> tuple[object, ...]:
        """Return the order of free blocks: the largest first, the least used of equals."""
        return (-block.nominal, self.uses.get(block, 0), block.order)

    def _apart(self, block: Block) -> tuple[object, ...]:
        """Return what tells a block apart from others in this request."""
        request = self.request
        marks = (block in self.kept, block in request.scarce, block in request.end_only)
        return (block.nominal, block.length(request.basis), *marks, self.uses.get(block, 0))

    def _kind(self, group: tuple[Block, ...]) -> Kind:
        """Return the kind of equal blocks."""
        block, request = group[0], self.request
        size = block.length(request.basis)
        if not self.marked:
            return Kind(size=size, pieces=len(group), thin=block.thin, nominal=block.nominal)
        return Kind(
            size=size,
            pieces=len(group),
            thin=block.thin,
            least=len(group) if block in self.kept else 0,
            scarce=block in request.scarce,
            end_only=block in request.end_only,
            uses=self.uses.get(block, 0),
            nominal=block.nominal,
        )


def _nearest_heights(table: reach.Reach, want: Want, count: int) -> list[int]:
    """Return the grid heights nearest the aim that `count` blocks can make: one or two."""
    heights = table.heights(want.low, want.high, count)
    nearest = min(abs(height * table.step - want.aim) for height in heights)
    return [height for height in heights if abs(height * table.step - want.aim) == nearest]
