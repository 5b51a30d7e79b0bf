"""Rankings, budgets and cards, each beside what it cannot do without."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from cases import load_case
from peers import left_out
from rows import Check, Goal, Row, timed

from gaugestack.answers.batch import batch
from gaugestack.answers.boxcard import BoxWish, box_card, wanted
from gaugestack.answers.budget import stack_budget
from gaugestack.answers.options import Choice
from gaugestack.answers.stack import stack
from gaugestack.answers.stock import load
from gaugestack.blocks import Basis
from gaugestack.cards.boxsheet import box_sheet
from gaugestack.cards.sheettext import sheet_text
from gaugestack.lengths import Length, exact_text
from gaugestack.stacks.ranking import what_matters
from gaugestack.stacks.survey import Span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from plan import Plan

    from gaugestack.answers.stack import StackAnswer
    from gaugestack.blocks import Block

BOATYARD = str(Path(__file__).parents[2] / "demo" / "boatyard-inch.yaml")
MOST = 5
TOP = 4


def other_rows(plan: Plan) -> Iterator[Row]:
    """Return a row for each."""
    yield _ranking(plan.answers)
    yield _budget(plan.answers)
    yield _card(plan.answers)


def _ranking(times: int) -> Row:
    """Return the row of what the want of each block costs, beside a table for each block left out."""
    case = load_case("inch-81")
    top = TOP * case.unit.picometres // case.step
    low = top // 20
    span = Span(low=Length(low * case.step), high=Length(top * case.step), step=Length(case.step))
    runs = [timed(partial(what_matters, case.pool, span, MOST)) for _ in range(times)]
    beside = [timed(partial(left_out, case.sizes, low, top, MOST)) for _ in range(2)]
    lost = {value.block: value.lost for value in runs[0][1]}
    theirs = beside[0][1]
    agreed = sum(lost[block] == theirs[place] for place, block in enumerate(case.pool))
    ours = tuple(seconds for seconds, _ in runs)
    return Row(
        figure=f"what each block matters, inch-81, to {TOP} in, at most {MOST} blocks",
        beside="a numpy table for each block left out",
        goal=Goal(aim=3, fails=0.3),
        ours=ours,
        same=ours,
        peer=tuple(seconds for seconds, _ in beside),
        checks=(Check(what="same heights lost", compared=len(case.pool), agreed=agreed),),
    )


def _budget(times: int) -> Row:
    """Return the row of budgets, beside the same stacks without."""
    stock = load([BOATYARD])
    texts, alone = _heights(times), partial(stack, stock=stock, choice=Choice(basis=Basis.CERTIFIED))
    alone(texts[:1])
    turns = [
        (timed(partial(stack_budget, [text], stock=stock)), timed(partial(alone, [text]))) for text in texts
    ]
    ours = tuple(mine[0] for mine, _ in turns)
    same = sum(_blocks(mine[1].stack) == _blocks(theirs[1]) for mine, theirs in turns)
    return Row(
        figure="budget of a stack, boatyard set",
        beside="floor: the stack with its one line of doubt",
        goal=Goal(aim=2, fails=20, floor=True),
        ours=ours,
        same=ours,
        peer=tuple(theirs[0] for _, theirs in turns),
        checks=(Check(what="same stack", compared=len(turns), agreed=same),),
    )


def _blocks(answer: StackAnswer) -> list[Block]:
    """Return the blocks of an answer from the bottom up."""
    return [block for plan in answer.plans for block in plan.stack.blocks]


def _card(times: int) -> Row:
    """Return the row of a card as text, beside composing its heights."""
    stock, choice = load([BOATYARD]), Choice()
    wish = BoxWish(angles=("every 1d from 5d to 44d",), bars=stock.bars[:1], choice=choice)
    heights = [one.height for group in wanted(stock, wish) for one in group]
    turns = [
        (
            timed(lambda: sheet_text(box_sheet(box_card(stock, wish)))),
            timed(lambda: list(batch(heights, stock, choice))),
        )
        for _ in range(max(times // 3, 1))
    ]
    ours = tuple(mine[0] for mine, _ in turns)
    return Row(
        figure=f"box card of {len(heights)} angles as text, boatyard set",
        beside="floor: its stacks alone",
        goal=Goal(aim=2, fails=20, floor=True),
        ours=ours,
        same=ours,
        peer=tuple(theirs[0] for _, theirs in turns),
    )


def _heights(count: int) -> list[str]:
    """Return random heights as typed."""
    case = load_case("inch-81")
    return [exact_text(Length(height * case.step), case.unit) for height in case.heights(count, TOP)]
