"""Compose stacks: the reach table prunes, the model decides, the judge approves.

    >>> Composer(request).outcome()          # Found | Impossible | Undecided

The table gives each target's fewest blocks and, among those, the fewest thin
ones.  A puzzle that fixes these lower bounds is small and nearly always has
an answer, which is then the best.  Where it has none (several stacks wanting
the same block), the bounds are lifted step by step and at last left to the
model altogether, whose word is then the proof.

Explaining an impossible request is explain.py's business.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from gaugestack.blocks import Block, in_order, total
from gaugestack.errors import OurBug
from gaugestack.lengths import Length
from gaugestack.stacks import judge, reach
from gaugestack.stacks.model import Decision, Effort, Kind, Pile, Puzzle, Verdict, decide
from gaugestack.stacks.request import Built, Found, Impossible, Outcome, Proof, StackRequest, Undecided

if TYPE_CHECKING:
    from collections.abc import Iterator

LIFTS = 2
"""How many blocks above the lower bound are tried before the model counts by itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Want:
    """What one target still wants from the free blocks, in picometres and grid heights.

    `aim` is the target less the blocks that stand anyway, `low`..`high` the
    grid heights within tolerance, `most` the blocks still allowed.
    """

    aim: int
    low: int
    high: int
    most: int | None


class Composer:
    """Composes one request; `table` may be shared by requests on the same free blocks."""

    def __init__(
        self, request: StackRequest, effort: Effort | None = None, table: reach.Reach | None = None
    ) -> None:
        """Keep the request; nothing is solved yet."""
        self.request = request
        self.effort = effort or Effort()
        self.given = table

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
    def table(self) -> reach.Reach | None:
        """The reach table of the free blocks; None where it would be too large."""
        top = max(self.request.targets) + self.request.tolerance
        return self.given or reach.table(self.free, top)

    @cached_property
    def wants(self) -> tuple[Want, ...]:
        """What each target still wants."""
        return tuple(self._want(index, target) for index, target in enumerate(self.request.targets))

    def _want(self, index: int, target: Length) -> Want:
        """Return what one target still wants; without fixed blocks at least one more."""
        request, fixed = self.request, self.fixed[index]
        step = self.table.step if self.table else 1
        aim = target - total(fixed, request.basis)
        low = -((request.tolerance - aim) // step)
        most = None if request.most is None else request.most - len(fixed)
        least = 0 if fixed else 1
        return Want(aim=aim, low=max(low, least), high=(aim + request.tolerance) // step, most=most)

    @cached_property
    def kinds(self) -> tuple[tuple[Block, ...], ...]:
        """Free blocks grouped by what tells them apart: size, and being kept in."""
        groups: dict[tuple[int, bool, bool], list[Block]] = {}
        for block in self.free:
            length = block.length(self.request.basis)
            key = (-length, block not in self.request.kept_in, block in self.request.scarce)
            groups.setdefault(key, []).append(block)
        return tuple(tuple(groups[key]) for key in sorted(groups))

    def outcome(self) -> Outcome:
        """Return the stacks, the proof that there are none, or how far the limit let us come."""
        refusal = self._plain_refusal()
        if refusal:
            return refusal
        for puzzle in self._puzzles():
            decision = decide(puzzle, self.effort)
            if decision.verdict is Verdict.OPTIMAL:
                return Found(stacks=self._approved(decision))
            if decision.verdict is Verdict.LIMIT:
                return self._undecided(decision)
        return _TOGETHER if len(self.wants) > 1 else _SOLVER

    def _plain_refusal(self) -> Impossible | None:
        """Return what needs no solver to be impossible, one target at a time."""
        for index, want in enumerate(self.wants):
            refusal = self._refusal_of(index, want)
            if refusal:
                return refusal
        return None

    def _refusal_of(self, index: int, want: Want) -> Impossible | None:
        """Return why one target alone is impossible, if the table or a sum shows it."""
        request = self.request
        if want.aim + request.tolerance < 0 or (want.most is not None and want.most < 0):
            return _ENDS if request.pair(index) else _KEPT
        if want.aim - request.tolerance > total(self.free, request.basis):
            return _TOTAL
        return self._refusal_by_table(self.table, want) if self.table else None

    def _refusal_by_table(self, table: reach.Reach, want: Want) -> Impossible | None:
        """Return why the table shows a target impossible: never, or only with more blocks."""
        if want.low > want.high:
            return _GRID
        fewest = table.fewest(want.low, want.high)
        if fewest is None:
            return _TABLE
        return _COUNT if want.most is not None and fewest > want.most else None

    def _puzzles(self) -> Iterator[Puzzle]:
        """Return puzzles from the tightest to the one the model decides alone."""
        table = self.table
        if table is None:
            yield self._puzzle([self._blind_pile(want) for want in self.wants], None, None)
            return
        if not self.request.scarce:
            yield from self._bounded_puzzles(table)
        yield self._puzzle([self._open_pile(table, want, None) for want in self.wants], None, None)

    def _bounded_puzzles(self, table: reach.Reach) -> Iterator[Puzzle]:
        """Return puzzles whose number of blocks is the table's lower bound or little more."""
        fewest = [table.fewest(want.low, want.high) or 0 for want in self.wants]
        yield self._tight_puzzle(table, fewest)
        for lift in range(LIFTS + 1):
            piles = [
                self._open_pile(table, want, k + lift) for want, k in zip(self.wants, fewest, strict=True)
            ]
            yield self._puzzle(piles, sum(fewest) + lift, None)

    def _tight_puzzle(self, table: reach.Reach, fewest: list[int]) -> Puzzle:
        """Return the puzzle that asks each target for its own best in every respect."""
        piles, thin = [], 0
        for want, count in zip(self.wants, fewest, strict=True):
            near = _nearest_heights(table, want, count)
            price = min(table.price(height) or 0 for height in near)
            best = [height for height in near if table.price(height) == price]
            piles.append(self._pile(table, want, best, price))
            thin += price % table.weight
        return replace(self._puzzle(piles, sum(fewest), thin), tight=True)

    def _open_pile(self, table: reach.Reach, want: Want, count: int | None) -> Pile:
        """Return the pile of every height of a want that `count` blocks can make."""
        budget = table.limit - 1 if count is None else (count + 1) * table.weight - 1
        return self._pile(table, want, table.heights(want.low, want.high, count), budget)

    def _blind_pile(self, want: Want) -> Pile:
        """Return the pile of a want where there is no table: the whole window, every kind."""
        kinds = tuple(range(len(self.kinds)))
        heights = ((want.low, want.high),) if want.low <= want.high else ()
        return Pile(aim=want.aim, heights=heights, kinds=kinds, most=want.most)

    def _pile(self, table: reach.Reach, want: Want, heights: list[int], budget: int) -> Pile:
        """Return the pile of one target for these grid heights, its kinds pruned by the table."""
        sizes = [group[0].nominal // table.step for group in self.kinds]
        thin = [group[0].thin for group in self.kinds]
        kinds = tuple(table.usable(heights, sizes, thin, budget))
        sums = tuple((height * table.step, height * table.step) for height in heights)
        return Pile(aim=want.aim, heights=sums, kinds=kinds, most=want.most)

    def _puzzle(self, piles: list[Pile], blocks: int | None, thin: int | None) -> Puzzle:
        """Return the puzzle of these piles."""
        kinds = tuple(self._kind(group) for group in self.kinds)
        return Puzzle(kinds=kinds, piles=tuple(piles), total=blocks, thin=thin)

    def _kind(self, group: tuple[Block, ...]) -> Kind:
        """Return the kind of equal blocks."""
        kept = group[0] in self.request.kept_in
        return Kind(
            size=group[0].length(self.request.basis),
            pieces=len(group),
            thin=group[0].thin,
            least=len(group) if kept else 0,
            scarce=group[0] in self.request.scarce,
        )

    def _approved(self, decision: Decision) -> tuple[Built, ...]:
        """Return the stacks of a decision once the judge has seen them."""
        stacks = self._stacks(decision)
        judge.approve(self.request, stacks)
        return stacks

    def _stacks(self, decision: Decision) -> tuple[Built, ...]:
        """Return the stacks of a decision; of equal pieces the first free one is taken."""
        left = [list(group) for group in self.kinds]
        stacks = []
        for index, counts in enumerate(decision.counts):
            chosen = [left[kind].pop(0) for kind, count in enumerate(counts) for _ in range(count)]
            stacks.append(self._built(index, chosen))
        return tuple(stacks)

    def _built(self, index: int, chosen: list[Block]) -> Built:
        """Return a stack with the blocks that stand anyway put in their places."""
        pair = self.request.pair(index)
        kept = [block for block in self.fixed[index] if block not in pair]
        inner = in_order([*chosen, *kept])
        blocks = (pair[0], *inner, pair[1]) if pair else inner
        return Built(target=self.request.targets[index], blocks=blocks, basis=self.request.basis)

    def _undecided(self, decision: Decision) -> Undecided:
        """Return what is known at the limit; an unproven stack is judged like any other."""
        best = self._approved(decision) if decision.counts else ()
        fixed = sum(len(blocks) for blocks in self.fixed)
        table = self.table
        least = sum(table.fewest(want.low, want.high) or 0 for want in self.wants) if table else 0
        return Undecided(best=best, at_least=fixed + least)


def compose(request: StackRequest, effort: Effort | None = None) -> Outcome:
    """Return the outcome of a request, explained nowhere; explain.explained adds the ladder.

    Raises OurBug if the judge refuses what was composed, or if nothing was asked.
    """
    if not request.targets or request.tolerance < 0:
        raise OurBug.because(["a request needs at least one height and no tolerance below zero"])
    return Composer(request, effort).outcome()


def exactly(request: StackRequest, target: Length, effort: Effort | None = None) -> Built | None:
    """Return the best stack of exactly `target` under the rules of `request`, or None."""
    outcome = compose(replace(request, targets=(target,), tolerance=Length(0), ends=request.ends[:1]), effort)
    return outcome.stacks[0] if isinstance(outcome, Found) else None


def _nearest_heights(table: reach.Reach, want: Want, count: int) -> list[int]:
    """Return the grid heights nearest the aim that `count` blocks can make: one or two."""
    heights = table.heights(want.low, want.high, count)
    nearest = min(abs(height * table.step - want.aim) for height in heights)
    return [height for height in heights if abs(height * table.step - want.aim) == nearest]


_ENDS = Impossible(
    proof=Proof.ENDS, sentence="the wear pair alone is taller than the height, or more blocks than allowed"
)
_KEPT = Impossible(
    proof=Proof.KEPT, sentence="the blocks kept in are taller than the height, or more than allowed"
)
_TOTAL = Impossible(proof=Proof.TOTAL, sentence="all blocks together are shorter than the height")
_GRID = Impossible(proof=Proof.GRID, sentence="no multiple of the set's step lies within the tolerance")
_TABLE = Impossible(
    proof=Proof.TABLE, sentence="no combination of the blocks reaches it within the tolerance"
)
_COUNT = Impossible(proof=Proof.COUNT, sentence="it needs more blocks than were allowed")
_TOGETHER = Impossible(
    proof=Proof.SOLVER, sentence="each height can be made, but not all at once: they want the same blocks"
)
_SOLVER = Impossible(proof=Proof.SOLVER, sentence="no combination of the blocks meets every condition")
