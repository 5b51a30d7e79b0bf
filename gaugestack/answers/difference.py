"""A difference set-up: blocks under both rolls of a sine bar, for what no single stack makes.

    >>> pair = difference_stacks(read, stock, choice)
    >>> pair.found.high, pair.found.low

Only for bars whose two rolls are free: the one roll of a hinged plate stays down.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.answers.stackremarks import values_left
from gaugestack.blocks import Basis
from gaugestack.errors import UsageError
from gaugestack.lengths import ReadLength, exact_text
from gaugestack.stacks.difference import compose_difference
from gaugestack.stacks.differencerequest import DifferenceFound, DifferenceRequest
from gaugestack.stacks.request import Found, Impossible, Undecided, WayOut
from gaugestack.stacks.wringing import plan

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.options import Choice
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import Unit
    from gaugestack.stacks.request import Built, Outcome
    from gaugestack.stacks.wringing import WringingPlan

ROLES = ("high", "low")
"""Under which roll the first and the second stack stand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """An answer whose stacks are the high and the low one, and the difference where there is one."""

    stack: StackAnswer
    found: DifferenceFound | None = None


def rolls_are_free(bar: SineBar) -> bool:
    """Return whether blocks can stand under both rolls: not on a hinged plate."""
    return bar.kind == "single" and not bar.base_height


def with_difference(single: StackAnswer, stock: Stock, choice: Choice) -> Pair:
    """Return the two stacks where the single one is impossible and two can be made, else the single answer.

    The reason against a single stack becomes a remark; so does a search for two that ended undecided.
    """
    if not isinstance(single.outcome, Impossible):
        return Pair(stack=single)
    try:
        pair = difference_stacks(single, stock, choice)
    except UsageError:
        return Pair(stack=_with_bare_pair(single, single.outcome, stock, choice))
    if isinstance(pair.stack.outcome, Undecided):
        return Pair(stack=replace(single, remarks=(*single.remarks, _UNDECIDED)))
    if pair.found is None:
        return Pair(stack=single)
    said = f"no single stack makes {_asked(single)}: {single.outcome.sentence}"
    return replace(pair, stack=replace(pair.stack, remarks=(said, *pair.stack.remarks)))


def difference_stacks(single: StackAnswer, stock: Stock, choice: Choice) -> Pair:
    """Return the two stacks that differ by the one height of a single answer, as asked for.

    Raises UsageError where a wear pair is wanted and there are not two.
    """
    target = single.heights[0].length
    rules = replace(choice.request(stock, [target, target]), targets=(target,))
    outcome = compose_difference(DifferenceRequest(target=target, rules=rules), choice.effort)
    if not isinstance(outcome, DifferenceFound):
        told = _with_single(outcome, single.outcome) if isinstance(outcome, Impossible) else outcome
        return Pair(stack=replace(single, outcome=told, plans=()))
    stacks = (outcome.high, outcome.low)
    plans = tuple(plan(built.blocks, rules.end_only) for built in stacks)
    answer = replace(
        single,
        request=replace(rules, targets=(outcome.high.target, outcome.low.target)),
        heights=tuple(_read(built, single.heights[0]) for built in stacks),
        outcome=Found(stacks=stacks),
        plans=plans,
        roles=ROLES,
        remarks=_remarks(outcome, single, plans, paired=bool(rules.ends)),
    )
    return Pair(stack=answer, found=outcome)


_UNDECIDED = (
    "whether two stacks, one under each roll, make it was not settled within the limits; "
    "--effort 10 searches ten times as long"
)


def difference_said(found: DifferenceFound, unit: Unit) -> str:
    """Name the two stacks by their heights."""
    return f"{exact_text(found.high.length, unit)} - {exact_text(found.low.length, unit)}"


def _with_bare_pair(single: StackAnswer, outcome: Impossible, stock: Stock, choice: Choice) -> StackAnswer:
    """Return an impossible answer with the two stacks that would do without wear blocks as a way out."""
    try:
        found = difference_stacks(single, stock, replace(choice, wear=None)).found
    except UsageError:
        return single
    if found is None:
        return single
    said = difference_said(found, single.heights[0].unit)
    sentence = (
        f"without wear blocks two stacks make it, one under each roll: {said}; "
        "with wear blocks it takes two pairs"
    )
    way = WayOut(kind="difference", sentence=sentence)
    return replace(single, outcome=replace(outcome, ways_out=(way, *outcome.ways_out)))


def _remarks(
    found: DifferenceFound, single: StackAnswer, plans: Sequence[WringingPlan], *, paired: bool
) -> tuple[str, ...]:
    """Return what to mind where both rolls stand on blocks, then what the stacks themselves say."""
    raised = exact_text(found.low.length, single.heights[0].unit)
    plate = (
        f"both rolls are raised: the work stands {raised} higher, and the plate must be flat "
        "and clean under both stacks (common practice)"
    )
    wear = "both stacks bear a roll: let them change places from job to job, so that they wear alike"
    if not paired:
        wear += ", or put a wear pair on each (--wear, two pairs)"
    blocks = [block for one in plans for block in one.stack.blocks]
    left = values_left(blocks) if found.low.basis is Basis.NOMINAL else ()
    said = (plate, f"{wear} (common practice)", *left, *(text for one in plans for text in one.remarks))
    return tuple(dict.fromkeys(said))


def _with_single(outcome: Impossible, single: Outcome) -> Impossible:
    """Return an impossible difference with the single stack as its way out, where there is one."""
    if not isinstance(single, Found):
        ways = single.ways_out if isinstance(single, Impossible) else ()
        return replace(outcome, ways_out=ways)
    way = WayOut(kind="single stack", sentence="a single stack makes it", built=single.stacks[0])
    return replace(outcome, ways_out=(way,))


def _read(built: Built, asked: ReadLength) -> ReadLength:
    """Return the own length of a stack as a height."""
    unit = asked.unit
    return ReadLength(length=built.target, unit=unit, bare=False, text=exact_text(built.target, unit))


def _asked(single: StackAnswer) -> str:
    """Return the height asked for."""
    return exact_text(single.heights[0].length, single.heights[0].unit)
