"""What a set can do over a range of heights, beside what it could do as issued.

    >>> found = survey(pool, issued, Span(low=..., high=..., step=...), most=5)
    >>> found.share(5), found.gaps, found.lost
    >>> bins(found, 60)                 # the same in 60 columns, for a picture

Exact whole numbers and fractions from nominal sizes, each piece used once.
Draws and prints nothing, and does not say which block to buy: that is
ranking.py.  Stacks of more than 253 blocks are not looked at.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from math import gcd
from typing import TYPE_CHECKING

from gaugestack.blocks import grid
from gaugestack.errors import UsageError
from gaugestack.lengths import Length
from gaugestack.stacks import reach

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from gaugestack.blocks import Block


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """The heights `low`, `low` + `step` and so on up to `high`, in picometres."""

    low: Length
    high: Length
    step: Length

    @property
    def heights(self) -> int:
        """How many heights that is."""
        return (self.high - self.low) // self.step + 1

    def at(self, index: int) -> Length:
        """Return one height."""
        return Length(self.low + index * self.step)

    def on(self, unit: Length) -> range:
        """Return the heights in steps of the grid `unit`.

        Raises UsageError where the range is empty, off the grid, or larger
        than a table may be.
        """
        fault = self._fault(unit)
        if fault:
            raise UsageError.about("range", fault, hint="heights are above zero, from low to high")
        return range(self.low // unit, self.high // unit + 1, self.step // unit)

    def _fault(self, unit: Length) -> str:
        """Return what is wrong with the range, or nothing."""
        if self.step <= 0 or not 0 < self.low <= self.high:
            return "the range holds no height"
        if not unit or self.low % unit or self.step % unit:
            return "the range does not lie on the grid of the set"
        return "the range holds too many steps" if self.high // unit > reach.MOST_CELLS else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Every step from `first` to `last` can be made."""

    first: Length
    last: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Neighbouring heights that cannot be made, `first` to `last`.

    Where the same gap returns at equal distances it is written once: it
    stands `times` times, each `every` further.  `heights` counts them all.
    """

    first: Length
    last: Length
    heights: int
    times: int
    every: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """What a set can do over a range.

    most            largest count that "reachable" allows
    counts          counts[k]: heights whose fewest blocks are k; index 0 is 0
    counts_issued   the same for the set as issued
    gaps            heights not reachable; `lost` those that were, as issued
    longer          heights reachable that took fewer blocks as issued
    stretch         longest run of reachable heights within the range
    highest         highest reachable height of the range
    every_step      longest run over all heights above zero, any number of
                    blocks, in multiples of the step; None also where that
                    would be too many steps to look at
    total           all blocks together
    fewest          fewest blocks for each height, one byte a height; 254 for none
    fewest_issued   the same for the set as issued
    """

    span: Span
    most: int
    counts: tuple[int, ...]
    counts_issued: tuple[int, ...]
    gaps: tuple[Gap, ...]
    lost: tuple[Gap, ...]
    longer: int
    stretch: Stretch | None
    highest: Length | None
    every_step: Stretch | None
    every_step_issued: Stretch | None
    total: Length
    fewest: bytes = field(repr=False)
    fewest_issued: bytes = field(repr=False)

    @property
    def top(self) -> int:
        """The largest count that is allowed and that any height takes, now or as issued."""
        return min(self.most, max(len(self.counts), len(self.counts_issued)) - 1)

    def within(self, blocks: int) -> int:
        """Return how many heights at most `blocks` blocks make."""
        return sum(self.counts[: blocks + 1])

    def share(self, blocks: int) -> Fraction:
        """Return the share of heights that at most `blocks` blocks make, 0 to 1."""
        return Fraction(self.within(blocks), self.span.heights)

    def share_issued(self, blocks: int) -> Fraction:
        """Return the same share for the set as issued."""
        return Fraction(sum(self.counts_issued[: blocks + 1]), self.span.heights)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bin:
    """One column of a picture: heights `first` to `last`.

    `reachable` of its `heights` can be made, the worst of those with `worst`
    blocks (None where none can be made).  `counts[k]` of them take k blocks,
    `counts_issued[k]` took k as issued, up to the largest count that is
    allowed or that any height of the range takes.
    """

    first: Length
    last: Length
    heights: int
    reachable: int
    worst: int | None
    counts: tuple[int, ...]
    counts_issued: tuple[int, ...]

    @property
    def share(self) -> Fraction:
        """The share of its heights that can be made, 0 to 1."""
        return Fraction(self.reachable, self.heights)

    def within(self, blocks: int) -> Fraction:
        """Return the share of its heights that at most `blocks` blocks make."""
        return Fraction(sum(self.counts[: blocks + 1]), self.heights)

    def within_issued(self, blocks: int) -> Fraction:
        """Return the same share for the set as issued."""
        return Fraction(sum(self.counts_issued[: blocks + 1]), self.heights)

    @property
    def lost(self) -> int:
        """How many of its heights were reachable as issued and are not now."""
        return sum(self.counts_issued) - self.reachable


def survey(pool: Sequence[Block], issued: Sequence[Block], span: Span, most: int | None = None) -> Survey:
    """Return what `pool` makes of the heights of a range, beside `issued`.

    The range lies on the grid of both together; at most `most` blocks make a
    height reachable, None for any number.  Raises UsageError for a range that
    cannot be looked at.
    """
    unit = common_grid(pool, issued)
    heights = span.on(unit)
    now = seen(pool, heights, unit)
    before = now if tuple(pool) == tuple(issued) else seen(issued, heights, unit)
    limit = largest_count(most)
    run, last = now.longest_within(limit), now.last_within(limit)
    whole = every_step(pool, span.step)
    return Survey(
        span=span,
        most=limit,
        counts=_trimmed(now),
        counts_issued=_trimmed(before),
        gaps=_gaps(now.runs_beyond(limit), span),
        lost=_gaps(now.runs_beyond(limit, before), span),
        longer=now.more_than(before, limit),
        stretch=run and Stretch(first=span.at(run[0]), last=span.at(run[1])),
        highest=None if last is None else span.at(last),
        every_step=whole,
        every_step_issued=whole if before is now else every_step(issued, span.step),
        total=Length(sum(block.nominal for block in pool)),
        fewest=now.counts.tobytes(),
        fewest_issued=before.counts.tobytes(),
    )


def every_step(blocks: Sequence[Block], step: Length | None = None) -> Stretch | None:
    """Return the longest run of multiples of `step` that any number of blocks makes.

    `step` is the grid of the blocks where none is given.  None where there is
    no such height, or too many to look at.
    """
    own = grid(blocks)
    if not own:
        return None
    step = step or own
    unit = Length(gcd(own, step))
    run = reach.every_step(in_steps(blocks, unit), step // unit)
    return run and Stretch(first=Length(run[0] * unit), last=Length(run[1] * unit))


def bins(found: Survey, columns: int) -> tuple[Bin, ...]:
    """Return the survey cut into `columns` columns of equal width, or one a height where it has fewer."""
    heights = found.span.heights
    columns = max(1, min(columns, heights))
    cuts = [column * heights // columns for column in range(columns + 1)]
    return tuple(_bin(found, a, b) for a, b in pairwise(cuts))


def common_grid(*pools: Iterable[Block]) -> Length:
    """Return the grid of several lots of blocks together; 0 for none."""
    return grid(block for pool in pools for block in pool)


def in_steps(blocks: Iterable[Block], unit: Length) -> list[int]:
    """Return the nominal sizes in steps of the grid `unit`."""
    return [block.nominal // unit for block in blocks]


def seen(blocks: Iterable[Block], heights: range, unit: Length) -> reach.Window:
    """Return the fewest blocks for each of the heights, all in steps of the grid `unit`."""
    return reach.counted(in_steps(blocks, unit), heights[-1]).seen(heights)


def largest_count(most: int | None) -> int:
    """Return a largest count as the tables know it; None is any number."""
    return reach.MOST_BLOCKS if most is None else min(most, reach.MOST_BLOCKS)


def _trimmed(window: reach.Window) -> tuple[int, ...]:
    """Return the heights by number of blocks, without the zeros at the end."""
    counts = window.tally(reach.MOST_BLOCKS)
    return counts[: max((k for k, n in enumerate(counts) if n), default=0) + 1]


def _gaps(series: Iterable[reach.Series], span: Span) -> tuple[Gap, ...]:
    """Return runs of indices as gaps of a range."""
    low, step = span.low, span.step
    return tuple(
        Gap(
            first=Length(low + one.first * step),
            last=Length(low + one.last * step),
            heights=(one.last - one.first + 1) * one.times,
            times=one.times,
            every=Length(one.every * step),
        )
        for one in series
    )


def _bin(found: Survey, begin: int, end: int) -> Bin:
    """Return one column over the heights with these indices."""
    counts, counts_issued = (
        tuple(map(fewest[begin:end].count, range(found.top + 1)))
        for fewest in (found.fewest, found.fewest_issued)
    )
    return Bin(
        first=found.span.at(begin),
        last=found.span.at(end - 1),
        heights=end - begin,
        reachable=sum(counts),
        worst=max((count for count, heights in enumerate(counts) if heights), default=None),
        counts=counts,
        counts_issued=counts_issued,
    )
