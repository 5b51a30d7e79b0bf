"""Heights to stacks: the answer of the command `stack`.

>>> answer = stack(["0.6202in"], stock=stock)
>>> answer.outcome
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.answers.options import Choice, read_height
from gaugestack.answers.stackremarks import remarks
from gaugestack.answers.summary import of_stack
from gaugestack.errors import UsageError
from gaugestack.stacks.explain import explained
from gaugestack.stacks.request import Found
from gaugestack.stacks.wringing import plan

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.answers.oneline import Summary
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import Length, ReadLength
    from gaugestack.stacks.effort import Effort
    from gaugestack.stacks.request import Outcome, StackRequest
    from gaugestack.stacks.wringing import WringingPlan

MOST_HEIGHTS = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class StackAnswer:
    """Stacks for heights, or why there are none.

    `plans` holds one wringing plan a stack where the outcome is Found;
    `remarks` are sentences the person should read.  `roles` says what each
    stack is for, where that is not plain from the heights.  `known` holds one summary of
    the uncertainty a stack, where the set tells enough.
    """

    stock: Stock
    request: StackRequest
    heights: tuple[ReadLength, ...]
    tolerance_said: str
    outcome: Outcome
    plans: tuple[WringingPlan, ...] = ()
    remarks: tuple[str, ...] = ()
    known: tuple[Summary, ...] = ()
    roles: tuple[str, ...] = ()


def stack(
    heights: Sequence[str], *, stock: Stock, choice: Choice | None = None, effort: Effort | None = None
) -> StackAnswer:
    """Return the stacks for heights as typed, all at once from one set, no block twice.

    Raises UsageError for a text that is no height or an option that cannot be
    met, RefusedFile for a wear set that cannot be read.
    """
    if not heights:
        raise UsageError.about("HEIGHT", "a height is wanted", hint="like 0.6202in or 15.752mm")
    if len(heights) > MOST_HEIGHTS:
        raise UsageError.about("HEIGHT", f"{len(heights)} heights at once; at most {MOST_HEIGHTS}")
    read = tuple(read_height(text, stock) for text in heights)
    choice = choice or Choice()
    answer = compose_heights(read, stock, choice, effort)
    return replace(answer, known=of_stack(answer.outcome, stock, choice.wear))


def compose_heights(
    read: tuple[ReadLength, ...], stock: Stock, choice: Choice, effort: Effort | None = None
) -> StackAnswer:
    """Return the stacks for heights already read."""
    request = choice.request(stock, [height.length for height in read])
    outcome = explained(request, effort or choice.begun().effort)
    return answer_of(read, request, outcome, stock, choice)


def answer_of(
    read: tuple[ReadLength, ...], request: StackRequest, outcome: Outcome, stock: Stock, choice: Choice
) -> StackAnswer:
    """Return the answer of an outcome: its wringing plans, and what a person should know."""
    found = tuple(outcome) if isinstance(outcome, Found) else ()
    plans = tuple(plan(built.blocks, request.end_only) for built in found)
    return StackAnswer(
        stock=stock,
        request=request,
        heights=read,
        tolerance_said=choice.tolerance_said(stock),
        outcome=outcome,
        plans=plans,
        remarks=remarks(read, plans, stock, choice.basis),
    )


def lengths_of(answer: StackAnswer) -> tuple[Length, ...]:
    """Return the lengths of the stacks found, in the order asked."""
    return tuple(built.length for built in answer.outcome) if isinstance(answer.outcome, Found) else ()
