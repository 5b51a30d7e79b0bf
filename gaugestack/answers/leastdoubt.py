"""Choosing by the uncertainty: the least one, or the fewest blocks within a limit.

    >>> found = search(request, first, Gauge(measure=..., floor=...), limit=None)
    >>> found.built, found.sentence

Every stack is listed, by its number of blocks, from the fewest on: exactly, not
by chance.  The list ends where a floor under the uncertainty of so many blocks
shows that no further stack can be better; `sentence` says what was searched and
whether that is proven.  One height at a time.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.blocks import Basis
from gaugestack.errors import UsageError
from gaugestack.stacks.judge import broken_rules
from gaugestack.stacks.request import Built
from gaugestack.stacks.sequencestacks import Lister

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from gaugestack.answers.doubtfloor import Floor
    from gaugestack.blocks import Block
    from gaugestack.stacks.request import StackRequest

MOST_LISTED = 40_000
"""Stacks looked at before the search gives up its proof."""
MOST_HEIGHTS = 200
"""Heights on the grid looked at for certified lengths."""
_NOISE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """How a stack's uncertainty is told, in the unit of the budget.

    `measure` gives the expanded uncertainty of a stack, `floor` what it cannot be below.
    """

    measure: Callable[[Built], float]
    floor: Floor


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """What was found among how many stacks.

    `built` is the stack chosen; `met` tells whether it keeps the limit, where one
    was set; `proven` that nothing better was left unseen.  `usual` is the
    uncertainty of the stack that `stack` gives.
    """

    built: Built
    expanded: float
    usual: float
    limit: float | None
    searched: int
    most_blocks: int
    proven: bool
    met: bool = True

    @property
    def sentence(self) -> str:
        """Say what was searched and what that proves."""
        most = f"{self.most_blocks} block{'s' * (self.most_blocks > 1)}"
        looked = f"looked at {_counted(self.searched)} of up to {most}"
        if not self.proven:
            return f"{looked}: more there are, so this is the best of those seen, not proven the best"
        if not self.met:
            return f"{looked}: none keeps the limit, and no stack of more blocks can"
        if self.limit is not None:
            return f"{looked}: no fewer blocks keep the limit"
        return f"{looked}: no stack of more blocks can be known better"


def search(request: StackRequest, first: Built, gauge: Gauge, limit: float | None) -> Search:
    """Return the stack of the least uncertainty, or of the fewest blocks within a limit.

    `first` is a stack of the fewest blocks.  Raises UsageError for several heights.
    """
    if len(request.targets) != 1:
        sentence = f"{len(request.targets)} heights at once: by the uncertainty one is chosen at a time"
        raise UsageError.about("HEIGHT", sentence)
    hunt = _Hunt(request, gauge, limit)
    return hunt.run(first)


class _Hunt:
    """One search."""

    def __init__(self, request: StackRequest, gauge: Gauge, limit: float | None) -> None:
        """Keep what is asked; nothing is listed yet."""
        self.request, self.gauge, self.limit = request, gauge, limit
        self.fixed = (*request.pair(0), *request.kept_in)
        self.largest = max((abs(block.deviation or 0) for block in request.pool), default=0)
        top = request.targets[0] + request.tolerance + self._slack(len(request.pool))
        self.lister = Lister(request.free, int(top))
        self.seen = 0
        self.whole = True

    def run(self, first: Built) -> Search:
        """Return what the search finds, from the fewest blocks on."""
        usual = best_of = self.gauge.measure(first)
        best, count = first, len(first.blocks)
        done = self.limit is not None and usual <= self.limit
        most = self.request.most or len(self.request.pool) + len(self.fixed)
        while count <= most and self.whole and not done:
            if self._hopeless(count, best_of):
                break
            for built in self._of(count):
                if not self._promising(built, best_of):
                    continue
                expanded = self.gauge.measure(built)
                if self._better(built, expanded, best, best_of):
                    best, best_of = built, expanded
            done = self.limit is not None and best_of <= self.limit
            count += 1
        return Search(
            built=best,
            expanded=best_of,
            usual=usual,
            limit=self.limit,
            searched=max(1, self.seen),
            most_blocks=max(len(first.blocks), count - 1),
            proven=self.whole,
            met=self.limit is None or done,
        )

    def _hopeless(self, count: int, best_of: float) -> bool:
        """Tell whether no stack of so many blocks or more can be better than the best, or keep the limit."""
        floor = self.gauge.floor.of_count(count, self._window(count)[0])
        if self.limit is not None:
            return floor > self.limit
        return floor >= best_of * (1 + _NOISE)

    def _better(self, built: Built, expanded: float, best: Built, best_of: float) -> bool:
        """Prefer what keeps the limit, then the smaller uncertainty, the fewer blocks, the smaller deviation.

        Within a limit the deviation goes before the uncertainty.
        """
        return self._rank(built, expanded) < self._rank(best, best_of)

    def _rank(self, built: Built, expanded: float) -> tuple[float, ...]:
        """Return what stacks are ordered by, the best one lowest."""
        off, rounded = abs(built.deviation), float(f"{expanded:.9g}")
        if self.limit is not None and expanded <= self.limit:
            return (0, len(built.blocks), off, rounded)
        return (1, rounded, len(built.blocks), off)

    def _promising(self, built: Built, best_of: float) -> bool:
        """Tell whether a stack could keep the limit or be as good as the best."""
        floor = self.gauge.floor.of_stack(built.blocks)
        return floor <= best_of * (1 + _NOISE) or (self.limit is not None and floor <= self.limit)

    def _of(self, count: int) -> Iterator[Built]:
        """Return every allowed stack of so many blocks."""
        for chosen in self._listed(count - len(self.fixed)):
            built = self._built(chosen)
            if abs(built.deviation) <= self.request.tolerance and not self._broken(built):
                yield built

    def _listed(self, free: int) -> Iterator[tuple[Block, ...]]:
        """Return the ways to choose so many free blocks that may keep the tolerance."""
        if free == 0:
            yield ()
            return
        low, high = self._window(free + len(self.fixed))
        step, held = self.lister.step, sum(block.nominal for block in self.fixed)
        first, last = -((held - low) // step), (high - held) // step
        if last - first >= MOST_HEIGHTS:
            self.whole = False
            return
        for cell in range(first, last + 1):
            listing = self.lister.stacks(cell * step, free, MOST_LISTED - self.seen)
            self.seen += len(listing.stacks)
            self.whole = self.whole and listing.complete
            yield from listing.stacks

    def _window(self, count: int) -> tuple[int, int]:
        """Return the nominal heights between which so many blocks may keep the tolerance."""
        target, slack = self.request.targets[0], self.request.tolerance + self._slack(count)
        return target - slack, target + slack

    def _slack(self, count: int) -> int:
        """Return how far certified lengths can lie from nominal ones."""
        wear = sum(abs(block.deviation or 0) for block in self.fixed)
        return 0 if self.request.basis is Basis.NOMINAL else count * self.largest + wear

    def _built(self, chosen: tuple[Block, ...]) -> Built:
        """Return the stack of chosen blocks, the kept ones and the wear pair in their places."""
        pair = self.request.pair(0)
        inner = tuple(sorted((*chosen, *self.request.kept_in), key=lambda block: block.order))
        blocks = (pair[0], *inner, pair[1]) if pair else inner
        return Built(target=self.request.targets[0], blocks=blocks, basis=self.request.basis)

    def _broken(self, built: Built) -> bool:
        """Tell whether a stack breaks a rule of the request; the whole judge only where one could be."""
        return bool(self.request.end_only) and bool(broken_rules(self.request, (built,)))


def _counted(number: int) -> str:
    """Return a number of stacks in words."""
    return "one stack" if number == 1 else f"{number} stacks"
