"""Which blocks matter: what each one there is worth, and which missing ones to buy first.

    >>> what_matters(pool, span, most=5)           # what the loss of each block would cost
    >>> what_is_missed(pool, absent, span, most=5) # what each absent one would bring back
    >>> buy_first(pool, absent, 2, span, most=5)   # the best two to buy, with proof or bound

Counted over a range, or over listed heights (somebody's own jobs), on nominal
sizes, each piece used once.  Prices and wear are not weighed.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import product
from math import comb
from typing import TYPE_CHECKING

from gaugestack.blocks import in_order
from gaugestack.errors import UsageError
from gaugestack.stacks import reach
from gaugestack.stacks.survey import Span, common_grid, in_steps, largest_count

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.blocks import Block
    from gaugestack.lengths import Length

    Heights = Span | Sequence[Length]
    """A range, or listed heights in picometres, each counted as often as it is listed.

    Listed heights off the grid of the blocks cannot be made and count for nothing.
    """

MOST_RANKED_CELLS = 16_000_000
"""Heights a table may hold where one is made for every block."""
EXACT_WORK = 4_000_000_000
"""Table cells that may be written to prove a purchase the best, or to walk back: about a second."""
LEAF_WORK = 30_000
"""What looking at one choice costs beside its heights, in cells."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockValue:
    """What the want of one block costs: `lost` heights, and `longer` ones that take more blocks."""

    block: Block
    lost: int
    longer: int


class PurchaseProof(StrEnum):
    """How a purchase was found: shown to be the best, or the best of two greedy walks."""

    EXACT = "exact"
    GREEDY = "greedy"


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """Absent blocks to buy first, and how many heights they restore.

    `bound`: no purchase of as many blocks restores more.  It equals
    `restored` where the proof is exact; otherwise it is what all candidates at
    once would restore, which holds always: restored heights are not
    submodular (two blocks may restore what neither does alone), so greedy
    promises no share of the best.
    """

    blocks: tuple[Block, ...]
    restored: int
    proof: PurchaseProof
    bound: int


def what_matters(pool: Sequence[Block], heights: Heights, most: int | None = None) -> tuple[BlockValue, ...]:
    """Return what the loss of each block of `pool` would cost.

    One entry a piece, the most heights lost first, then the most made longer,
    then in canonical order.  Raises UsageError for a range that cannot be
    looked at.
    """
    unit = common_grid(pool)
    picks = _on_grid(heights, unit)
    sizes, limit = in_steps(pool, unit), largest_count(most)
    whole = _base(pool, unit, picks).seen(picks)
    costs = {}
    for place, counts in reach.without_each(sizes, _base((), unit, picks)):
        less = counts.seen(picks)
        costs[sizes[place]] = (whole.within(limit) - less.within(limit), less.more_than(whole, limit))
    rows = [(block, *costs[size]) for block, size in zip(pool, sizes, strict=True)]
    return _ranked([BlockValue(block=block, lost=lost, longer=longer) for block, lost, longer in rows])


def how_many(
    pool: Sequence[Block], heights: Heights, most: int | None = None, others: Sequence[Block] = ()
) -> int:
    """Return how many of the heights at most `most` blocks of `pool` make.

    `others` are blocks whose grid the heights may lie on, and that are not
    used.  Refusals as in what_matters.
    """
    unit = common_grid(pool, others)
    picks = _on_grid(heights, unit)
    return _base(pool, unit, picks).seen(picks).within(largest_count(most))


def what_is_missed(
    pool: Sequence[Block], absent: Sequence[Block], heights: Heights, most: int | None = None
) -> tuple[BlockValue, ...]:
    """Return what the want of each absent block costs while the others stay absent.

    `lost` are the heights it alone would bring back, `longer` those it alone
    would shorten.  Order and refusals as in what_matters.
    """
    unit = common_grid(pool, absent)
    picks = _on_grid(heights, unit)
    limit = largest_count(most)
    counts = _base(pool, unit, picks)
    now, found = counts.seen(picks), []
    for block, size in zip(absent, in_steps(absent, unit), strict=True):
        more = counts.seen_with(picks, size)
        lost = more.within(limit) - now.within(limit)
        longer = now.more_than(more, limit)
        found.append(BlockValue(block=block, lost=lost, longer=longer))
    return _ranked(found)


def buy_first(
    pool: Sequence[Block],
    candidates: Sequence[Block],
    count: int,
    heights: Heights,
    most: int | None = None,
) -> Purchase:
    """Return the at most `count` candidates that restore the most heights.

    All choices are tried where they fit EXACT_WORK: of equal ones the smallest
    is taken, then the one whose blocks alone restore more.  Otherwise two
    greedy walks, and exact only where they reach the bound.  Raises UsageError for a range that
    cannot be looked at, or a count below one.
    """
    if count < 1:
        raise UsageError.about("count", "at least one block is bought")
    alone = what_is_missed(pool, candidates, heights, most)
    unit = common_grid(pool, candidates)
    picks = _on_grid(heights, unit)
    shop = _Shop(
        base=_base(pool, unit, picks),
        picks=picks,
        sizes=tuple(in_steps([value.block for value in alone], unit)),
        limit=largest_count(most),
    )
    places, proof = shop.best(min(count, len(candidates)))
    before, made = shop.made(()), shop.made(places)
    highest = made if proof is PurchaseProof.EXACT else shop.made(range(len(alone)))
    return Purchase(
        blocks=in_order(alone[place].block for place in places),
        restored=made - before,
        proof=proof,
        bound=highest - before,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shop:
    """Candidates in the order they are tried, named by their places in `sizes`.

    `base` are the counts of the blocks that are there, `picks` the heights
    looked at, `limit` the largest count.  "Made" is the number of these
    heights that can be made; it never falls when a block is added.
    """

    base: reach.Counts
    picks: reach.Picks
    sizes: tuple[int, ...]
    limit: int

    def made(self, places: Sequence[int]) -> int:
        """Return how many heights are made with these candidates added."""
        return self._made(self._with(places))

    def best(self, count: int) -> tuple[tuple[int, ...], PurchaseProof]:
        """Return the best places, and how well that is known."""
        if self._work(count) <= EXACT_WORK:
            return self._exact(count), PurchaseProof.EXACT
        walks = [self._forward(count)]
        if self._work_backward(count) <= EXACT_WORK:
            walks.append(self._backward(count))
        places = max(walks, key=lambda walk: (self.made(walk), -len(walk)))
        met = self.made(places) == self.made(range(len(self.sizes)))
        return places, PurchaseProof.EXACT if met else PurchaseProof.GREEDY

    def _work(self, count: int) -> int:
        """Return the cells written to try every choice: tables inside, only the picks at the leaves."""
        ways = [comb(len(self.sizes), size) for size in range(count + 1)]
        inner = sum(ways[size] * (count - size) for size in range(1, count))
        leaves = sum(ways)
        return inner * len(self.base.cells) + leaves * (len(self.picks) + LEAF_WORK)

    def _work_backward(self, count: int) -> int:
        """Return the cells written to walk back from all candidates to `count`."""
        sizes = range(count + 1, len(self.sizes) + 1)
        return sum(n * (n.bit_length() + 1) for n in sizes) * len(self.base.cells)

    def _exact(self, count: int) -> tuple[int, ...]:
        """Return the best choice: every one is tried but those that all the rest could not make better."""
        best: tuple[int, ...] = ()
        most = self.made(())
        rest = [self.made(range(place, len(self.sizes))) for place in range(len(self.sizes))]
        for size, first in product(range(1, count + 1), range(len(self.sizes))):
            if rest[first] <= most:
                continue
            for places, made in self._choices((first,), size):
                if made > most:
                    best, most = places, made
        return best

    def _choices(self, first: tuple[int, ...], size: int) -> Iterator[tuple[tuple[int, ...], int]]:
        """Return every choice of `size` places that begins with `first`, and the heights made."""
        if size == len(first):
            yield first, self.made(first)
        else:
            yield from self._longer(first, self._with(first), size)

    def _longer(
        self, chosen: tuple[int, ...], counts: reach.Counts, size: int
    ) -> Iterator[tuple[tuple[int, ...], int]]:
        """Return every choice of `size` places that goes on from those chosen, one of equal sizes first."""
        for place in range(chosen[-1] + 1, len(self.sizes)):
            block = self.sizes[place]
            if self.sizes[place - 1] == block and place - 1 not in chosen:
                continue
            if len(chosen) + 1 == size:
                yield (*chosen, place), counts.seen_with(self.picks, block).within(self.limit)
            else:
                yield from self._longer((*chosen, place), counts.plus(block), size)

    def _forward(self, count: int) -> tuple[int, ...]:
        """Return places chosen one by one, each the one that makes most heights then; none without gain."""
        chosen: list[int] = []
        counts, made = self.base, self.made(())
        while len(chosen) < count:
            gains = {
                place: counts.seen_with(self.picks, size).within(self.limit)
                for place, size in enumerate(self.sizes)
                if place not in chosen
            }
            place = max(gains, key=lambda place: (gains[place], -place))
            if gains[place] == made:
                break
            chosen.append(place)
            counts, made = counts.plus(self.sizes[place]), gains[place]
        return tuple(chosen)

    def _backward(self, count: int) -> tuple[int, ...]:
        """Return what stays of all places when the least missed goes, one by one."""
        kept = list(range(len(self.sizes)))
        while len(kept) > count:
            sizes = [self.sizes[place] for place in kept]
            made = {index: self._made(counts) for index, counts in reach.without_each(sizes, self.base)}
            del kept[max(made, key=lambda index: (made[index], index))]
        return tuple(kept)

    def _with(self, places: Sequence[int]) -> reach.Counts:
        """Return the counts with these candidates added."""
        counts = self.base
        for place in places:
            counts = counts.plus(self.sizes[place])
        return counts

    def _made(self, counts: reach.Counts) -> int:
        """Return how many of the heights looked at these counts make."""
        return counts.seen(self.picks).within(self.limit)


def _on_grid(heights: Heights, unit: Length) -> reach.Picks:
    """Return the heights in steps of the grid; listed ones off the grid or not above zero are left out.

    Raises UsageError where the table would be too large.
    """
    picked: reach.Picks
    if isinstance(heights, Span):
        picked = heights.on(unit)
    else:
        steps = [height // unit for height in heights if unit and height > 0 and height % unit == 0]
        picked = reach.picks(steps)
    if len(picked) and picked[-1] > MOST_RANKED_CELLS:
        raise UsageError.about("range", "the heights hold too many steps of the set's grid")
    return picked


def _base(pool: Sequence[Block], unit: Length, picks: reach.Picks) -> reach.Counts:
    """Return the counts of the blocks that are there, up to the highest of the heights."""
    return reach.counted(in_steps(pool, unit), int(picks[-1]) if len(picks) else 0)


def _ranked(values: Sequence[BlockValue]) -> tuple[BlockValue, ...]:
    """Return the values in their order: most lost, most longer, canonical."""
    return tuple(sorted(values, key=lambda value: (-value.lost, -value.longer, value.block.order)))
