"""Two stacks whose difference is the height: for what no single stack makes.

    >>> compose_difference(DifferenceRequest(target=height, rules=request))
    DifferenceFound | Impossible | Undecided

Order of preference, which leaves one answer (settled in model.py):

    1. fewest blocks in both stacks together
    2. smallest deviation of the difference
    3. fewest thin blocks
    4. fewest uses so far, where they are counted
    5. the lower stack as low as can be: what stands under both rolls is only
       there to be outweighed, and warms, bends and tilts the less
    6. the largest blocks first, the higher stack before the lower

Which blocks can take part at all, and which make the best of so many blocks, is
found by meeting signed sums of one and of two blocks (meeting.py); the model
decides among those.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from gaugestack.blocks import Basis, grid, in_order, total
from gaugestack.stacks import differencejudge
from gaugestack.stacks.differencerequest import DifferenceFound, DifferenceOutcome, DifferenceRequest
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.meeting import MOST_MET, Meeting
from gaugestack.stacks.model import Decision, Lift, Pile, Puzzle, Verdict, decide
from gaugestack.stacks.puzzles import Grounds
from gaugestack.stacks.request import Built, Impossible, Proof, Undecided

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.blocks import Block
    from gaugestack.stacks.meeting import Met, Side


def compose_difference(request: DifferenceRequest, effort: Effort | None = None) -> DifferenceOutcome:
    """Return the two stacks, the proof that there are none, or how far the limit let us come.

    Raises OurBug if the judge refuses what was composed.
    """
    effort = effort or Effort()
    difference = _Difference(request=request, effort=effort)
    if difference.off_grid():
        return _GRID
    least = 0
    for puzzle in difference.puzzles():
        least = max(least, MOST_MET + 1) if puzzle.total is None else puzzle.total
        decision = decide(puzzle, effort)
        if decision.verdict is Verdict.INFEASIBLE:
            continue
        found = difference.built(decision) if decision.counts else None
        if found and decision.verdict is Verdict.OPTIMAL:
            return found
        best = (found.high, found.low) if found else ()
        return Undecided(best=best, at_least=least + difference.standing)
    return _NONE


@dataclass(frozen=True, kw_only=True)
class _Difference:
    """What is known of a request before anything is solved."""

    request: DifferenceRequest
    effort: Effort

    @cached_property
    def grounds(self) -> Grounds:
        """The kinds of blocks and what stands anyway, for two stacks."""
        return Grounds(request=self.request.each(self.request.target, self.request.target))

    @cached_property
    def lift(self) -> Lift:
        """The difference that the free blocks have to make."""
        rules = self.request.rules
        over, under = (total(fixed, rules.basis) for fixed in self.grounds.fixed)
        aim = self.request.target - over + under
        step = grid(self.grounds.free) or 1
        return Lift(aim=aim, low=aim - rules.tolerance, high=aim + rules.tolerance, step=step)

    @property
    def standing(self) -> int:
        """How many blocks stand anyway."""
        return sum(len(fixed) for fixed in self.grounds.fixed)

    def off_grid(self) -> bool:
        """Return whether no multiple of the set's step lies within the tolerance."""
        lift = self.lift
        nominal = self.request.rules.basis is Basis.NOMINAL
        return nominal and lift.high // lift.step * lift.step < lift.low

    def puzzles(self) -> Iterator[Puzzle]:
        """Return the puzzles of each number of free blocks, then the one the model counts in.

        The first of a number is that of the best that meet, which no other can
        beat; where a rule forbids them all, that of all that meet comes next.
        """
        meeting = Meeting(self.grounds.kinds, self.lift, self.effort)
        if self.standing and self.lift.low <= 0 <= self.lift.high:
            yield self._puzzle(frozenset(), 0)
        for count in range(1 if self.standing else 2, MOST_MET + 1):
            met = meeting.met(count)
            if met and met.best is not None:
                yield self._best_puzzle(met.best, met, count)
            if met:
                yield self._puzzle(met.sides, count)
        kinds = range(len(self.grounds.kinds))
        yield self._puzzle(frozenset((kind, side) for kind in kinds for side in (1, -1)), None)

    def _best_puzzle(self, best: frozenset[Side], met: Met, count: int) -> Puzzle:
        """Return the puzzle of what misses least with the fewest thin blocks: little is left to decide."""
        puzzle = self._puzzle(best, count)
        lift = replace(self.lift, low=self.lift.aim - met.miss, high=self.lift.aim + met.miss)
        return replace(puzzle, lift=lift, thin=met.thin, tight=True)

    def built(self, decision: Decision) -> DifferenceFound:
        """Return the stacks of a decision once the judge has seen them."""
        left = [list(group) for group in self.grounds.groups]
        high, low = (
            self._stack(place, [left[k].pop(0) for k, count in enumerate(counts) for _ in range(count)])
            for place, counts in enumerate(decision.counts)
        )
        differencejudge.approve(self.request, high, low)
        return DifferenceFound(target=self.request.target, high=high, low=low)

    def _stack(self, place: int, chosen: Sequence[Block]) -> Built:
        """Return one stack, its wear pair outermost."""
        rules, inner = self.request.rules, in_order(chosen)
        pair = rules.pair(place)
        blocks = (pair[0], *inner, pair[1]) if pair else inner
        return Built(target=total(blocks, rules.basis), blocks=blocks, basis=rules.basis)

    def _puzzle(self, members: frozenset[Side], count: int | None) -> Puzzle:
        """Return the puzzle of these kinds on their sides."""
        piles = tuple(self._pile(place, members, side) for place, side in enumerate((1, -1)))
        return Puzzle(kinds=self.grounds.kinds, piles=piles, total=count, lift=self.lift)

    def _pile(self, place: int, members: frozenset[Side], side: int) -> Pile:
        """Return the pile of one stack: any height, but not empty."""
        want, kinds = self.grounds.wants[place], self.grounds.kinds
        highest = sum(kind.size * kind.pieces for kind in kinds)
        own = tuple(sorted(kind for kind, at in members if at == side))
        return want.pile(((0 if want.standing else 1, max(highest, 1)),), own)


_GRID = Impossible(
    proof=Proof.GRID, sentence="no multiple of the set's step lies within the tolerance", failing=0
)
_NONE = Impossible(
    proof=Proof.SOLVER, sentence="no two stacks of the blocks differ by it within the tolerance", failing=0
)
