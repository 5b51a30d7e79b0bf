"""Compose stacks: the reach table prunes, the model decides, the judge approves.

    >>> Composer(request).outcome()          # Found | Impossible | Undecided

What is known before solving, and the puzzles made of it, is the business of
puzzles.py (nominal sizes) and certified.py (certified lengths).  Explaining
an impossible request is explain.py's.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from gaugestack.blocks import Basis, Block, in_order, total
from gaugestack.errors import OurBug
from gaugestack.lengths import Length, exact_text
from gaugestack.stacks import judge
from gaugestack.stacks.certified import CertifiedGrounds
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.model import Decision, Verdict, decide
from gaugestack.stacks.puzzles import Grounds, Want
from gaugestack.stacks.request import Built, Found, Impossible, Outcome, Proof, StackRequest, Undecided
from gaugestack.stacks.residues import shortage
from gaugestack.stacks.shares import rank

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.stacks.model import Puzzle
    from gaugestack.stacks.reach import Reach
    from gaugestack.stacks.shares import Rank


AT_THE_LIMIT = 1.0
"""The effort for something to go on with where the effort of a request is spent."""


class Composer:
    """Composes one request; `table` may be shared by requests on the same free blocks."""

    def __init__(
        self, request: StackRequest, effort: Effort | None = None, table: Reach | None = None
    ) -> None:
        """Keep the request; nothing is solved yet."""
        self.request = request
        self.effort = effort or Effort()
        self.grounds = _grounds(request, table, self.effort)

    def outcome(self) -> Outcome:
        """Return the stacks, the proof that there are none, or how far the limit let us come."""
        refusal = self._plain_refusal()
        if refusal:
            return refusal
        least = 0
        for puzzles in self.grounds.rounds():
            least = least if puzzles[0].total is None else puzzles[0].total
            decision = best_of(puzzles, self.effort)
            if decision.verdict is Verdict.OPTIMAL:
                return Found(stacks=self._approved(decision))
            if decision.verdict is Verdict.LIMIT:
                return self._undecided(decision, least)
            least += not (puzzles[0].tight and len(puzzles[0].piles) > 1)
        return _TOGETHER if len(self.grounds.wants) > 1 else replace(_SOLVER, failing=0)

    def _plain_refusal(self) -> Impossible | None:
        """Return what needs no solver to be impossible, one target at a time."""
        for index, want in enumerate(self.grounds.wants):
            refusal = self._refusal_of(index, want)
            if refusal:
                return replace(refusal, failing=index)
        return self._refusal_together()

    def _refusal_together(self) -> Impossible | None:
        """Return why several targets want more blocks of a kind than there are, if counting shows it."""
        grounds, table = self.grounds, self.grounds.table
        if len(grounds.wants) < 2 or table is None or self.request.basis is not Basis.NOMINAL:
            return None
        sizes = tuple((group[0].nominal // table.step, len(group)) for group in grounds.groups)
        short = shortage(sizes, [range(want.low, want.high + 1) for want in grounds.wants])
        if short is None:
            return None
        step = exact_text(short.modulus * table.step, self.request.pool[0].unit)
        return replace(_SHORT, sentence=_SHORT.sentence.format(short.wanted, step, _are(short.there)))

    def _refusal_of(self, index: int, want: Want) -> Impossible | None:
        """Return why one target alone is impossible, if the table or a sum shows it."""
        request = self.request
        pair = request.pair(index)
        if pair and total(pair, request.basis) - request.tolerance > request.targets[index]:
            return _ENDS
        if want.aim + request.tolerance < 0:
            return _KEPT
        if want.most is not None and want.most < 0:
            return _CROWDED
        if want.aim - request.tolerance > total(self.grounds.free, request.basis):
            return _TOTAL
        table = self.grounds.table
        nominal = request.basis is Basis.NOMINAL
        return self._refusal_by_table(table, want) if table is not None and nominal else None

    def _refusal_by_table(self, table: Reach, want: Want) -> Impossible | None:
        """Return why the table shows a target impossible: never, or only with more blocks."""
        if want.low > want.high:
            return _GRID
        fewest = table.fewest(want.low, want.high)
        if fewest is None:
            return _TABLE
        return _COUNT if want.most is not None and fewest > want.most else None

    def _approved(self, decision: Decision) -> tuple[Built, ...]:
        """Return the stacks of a decision once the judge has seen them."""
        stacks = self._stacks(decision)
        judge.approve(self.request, stacks)
        return stacks

    def _stacks(self, decision: Decision) -> tuple[Built, ...]:
        """Return the stacks of a decision; of equal pieces the first free one is taken."""
        left = [list(group) for group in self.grounds.groups]
        stacks = []
        for index, counts in enumerate(decision.counts):
            chosen = [left[kind].pop(0) for kind, count in enumerate(counts) for _ in range(count)]
            stacks.append(self._built(index, chosen))
        return tuple(stacks)

    def _built(self, index: int, chosen: list[Block]) -> Built:
        """Return a stack with the blocks that stand anyway put in their places."""
        pair = self.request.pair(index)
        kept = [block for block in self.grounds.fixed[index] if block not in pair]
        inner = in_order([*chosen, *kept])
        blocks = (pair[0], *inner, pair[1]) if pair else inner
        return Built(target=self.request.targets[index], blocks=blocks, basis=self.request.basis)

    def _undecided(self, decision: Decision, least: int) -> Undecided:
        """Return what is known at the limit; an unproven stack is judged like any other.

        No stacks of fewer than `least` free blocks meet the request: such rounds came before.
        """
        best = self._approved(decision) if decision.counts else one_after_the_other(self.request)
        fixed = sum(len(blocks) for blocks in self.grounds.fixed)
        return Undecided(best=best, at_least=fixed + max(least, self.grounds.fewest))


def best_of(puzzles: Sequence[Puzzle], effort: Effort) -> Decision:
    """Return the best answer of puzzles of as many blocks; at the first limit the best known."""
    known: list[tuple[Rank, Decision]] = []
    verdict = Verdict.INFEASIBLE
    for puzzle in puzzles:
        decision = decide(puzzle, effort)
        if decision.counts:
            known.append((rank(puzzle, decision), decision))
            verdict = Verdict.OPTIMAL
        if decision.verdict is Verdict.LIMIT:
            verdict = Verdict.LIMIT
            break
    best = min(known, key=lambda one: one[0])[1] if known else Decision(verdict=verdict)
    return replace(best, verdict=verdict)


def compose(request: StackRequest, effort: Effort | None = None, table: Reach | None = None) -> Outcome:
    """Return the outcome of a request, explained nowhere; explain.explained adds the ladder.

    `table` is one of the same free blocks.
    Raises OurBug if the judge refuses what was composed, or if nothing was asked.
    """
    if not request.targets or request.tolerance < 0:
        raise OurBug.because(["a request needs at least one height and no tolerance below zero"])
    return Composer(request, effort, table).outcome()


def one_after_the_other(request: StackRequest) -> tuple[Built, ...]:
    """Return stacks of several targets, each the best of what those before it left; () where that fails.

    Not the best together, only something to go on with at the limit; judged like any other answer.
    It has a small effort of its own: at the limit there is none left.
    """
    effort = Effort(limit=AT_THE_LIMIT)
    stacks: list[Built] = []
    used: set[Block] = set()
    for index, target in enumerate(request.targets if len(request.targets) > 1 else ()):
        pool = tuple(block for block in request.pool if block not in used)
        one = replace(request, targets=(target,), pool=pool, kept_in=(), ends=request.ends[index : index + 1])
        outcome = Composer(one, effort).outcome()
        if not isinstance(outcome, Found):
            return ()
        stacks.append(outcome.stacks[0])
        used.update(outcome.stacks[0].blocks)
    return tuple(stacks) if not judge.broken_rules(request, stacks) else ()


def exactly(request: StackRequest, target: Length, effort: Effort | None = None) -> Built | None:
    """Return the best stack of exactly `target` under the rules of `request`, or None."""
    outcome = compose(replace(request, targets=(target,), tolerance=Length(0), ends=request.ends[:1]), effort)
    return outcome.stacks[0] if isinstance(outcome, Found) else None


def _are(count: int) -> str:
    """Say how many there are."""
    return f"{count} is" if count == 1 else f"{count} are"


def _grounds(request: StackRequest, table: Reach | None, effort: Effort) -> Grounds:
    """Return the grounds that suit a request.

    A nominal grid too fine for a table (inch and metric blocks together) is
    treated as if every block had a length of its own.
    """
    if request.basis is Basis.CERTIFIED:
        return CertifiedGrounds(request=request, given=table, effort=effort)
    grounds = Grounds(request=request, given=table, effort=effort)
    return grounds if grounds.table is not None else CertifiedGrounds(request=request, effort=effort)


_ENDS = Impossible(proof=Proof.ENDS, sentence="the wear pair alone is taller than the height")
_KEPT = Impossible(
    proof=Proof.KEPT, sentence="the blocks that must stand in the stack are taller than the height"
)
_CROWDED = Impossible(
    proof=Proof.COUNT, sentence="the blocks that must stand in the stack are more than allowed"
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
_SHORT = Impossible(
    proof=Proof.REMAINDER,
    sentence="each height can be made, but not all at once: "
    "they take {} blocks that are no whole multiple of {}, and only {} there",
)
_SOLVER = Impossible(proof=Proof.SOLVER, sentence="no combination of the blocks meets every condition")
