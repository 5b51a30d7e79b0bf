"""Beside the best stack: the next best, a proof stack, fewer blocks against less deviation.

    >>> beside = alternatives(answer, stock, Beside(next_best=5, proof=True), choice)

For one height whose stack was found; anything else is refused.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.answers.options import Choice, wear_ends
from gaugestack.errors import UsageError
from gaugestack.stacks import alternatives as engine
from gaugestack.stacks.request import Found
from gaugestack.stacks.wringing import plan

if TYPE_CHECKING:
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.stacks.request import Outcome, StackRequest
    from gaugestack.stacks.wringing import WringingPlan

MOST_NEXT = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What is wanted beside the best stack: how many next best ones, a proof stack, the trade-offs."""

    next_best: int = 0
    proof: bool = False
    trade_offs: bool = False

    @property
    def anything(self) -> bool:
        """Whether anything is wanted."""
        return bool(self.next_best or self.proof or self.trade_offs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternatives:
    """What was asked for beside the best stack of `first`; None where it was not asked for.

    `proof` is the outcome of the second stack, `proof_plan` its plan where it was found.
    """

    first: StackAnswer
    next_best: engine.Listed | None = None
    trade_offs: engine.Listed | None = None
    proof: Outcome | None = None
    proof_plan: WringingPlan | None = None

    @property
    def outcomes(self) -> tuple[Outcome, ...]:
        """Every outcome that decides how the command ends."""
        return (self.first.outcome, *((self.proof,) if self.proof else ()))


def alternatives(
    answer: StackAnswer, stock: Stock, beside: Beside, choice: Choice | None = None
) -> Alternatives:
    """Return what stands beside the stack of an answer.

    Raises UsageError for several heights, for a list that is too long, and
    where a second wear pair is wanted and not there.
    """
    _refuse(answer, beside)
    if not isinstance(answer.outcome, Found):
        return Alternatives(first=answer)
    best, request = answer.outcome.stacks[0], answer.request
    effort, proof = (choice or Choice()).begun().effort, None
    if beside.proof:
        proof = engine.proof_stack(_with_two_pairs(request, stock, choice or Choice()), best, effort)
    return Alternatives(
        first=answer,
        next_best=engine.next_best(request, best, beside.next_best, effort) if beside.next_best else None,
        trade_offs=engine.trade_offs(request, best, effort) if beside.trade_offs else None,
        proof=proof,
        proof_plan=plan(proof.stacks[0].blocks, request.end_only) if isinstance(proof, Found) else None,
    )


def _refuse(answer: StackAnswer, beside: Beside) -> None:
    """Refuse several heights and lists nobody reads."""
    if len(answer.heights) > 1:
        sentence = f"{len(answer.heights)} heights: other stacks are listed for one height at a time"
        raise UsageError.about("HEIGHT", sentence)
    if not 0 <= beside.next_best <= MOST_NEXT:
        raise UsageError.about("--next", f"{beside.next_best} stacks: 1 to {MOST_NEXT} can be listed")


def _with_two_pairs(request: StackRequest, stock: Stock, choice: Choice) -> StackRequest:
    """Return the request with a wear pair for each of two stacks, where one is asked for."""
    if not choice.wear:
        return request
    gone = {withheld.block for withheld in request.withheld}
    return replace(request, ends=wear_ends(choice.wear, stock, gone, 2))
