"""Two stacks whose difference is the height, beside the plain model of the same question."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from cases import Case, load_case
from peers import plain_difference
from rows import Check, Goal, Row, timed

from gaugestack.lengths import Length
from gaugestack.stacks.difference import compose_difference
from gaugestack.stacks.differencerequest import DifferenceFound, DifferenceOutcome, DifferenceRequest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from plan import Plan

HIGHEST = 500
"""Differences up to this many grid steps: what no single stack of the set makes."""


def difference_rows(plan: Plan) -> Iterator[Row]:
    """Return a row a set: random differences below the thinnest block."""
    for name in plan.sets[:3]:
        yield _row(load_case(name), plan)


def _row(case: Case, plan: Plan) -> Row:
    """Return the row of one set; peer and we are asked for the fewest blocks, we for the best of them too."""
    heights = [1 + h % HIGHEST for h in case.heights(plan.jobs * 2)]
    runs = [timed(partial(_compose, case, h)) for h in heights]
    part = heights[: plan.joint]
    beside = [timed(partial(plain_difference, case.sizes, h, plan.plain_limit)) for h in part]
    ours = tuple(seconds for seconds, _ in runs)
    pairs = [
        (answer, _count(outcome)) for (_, answer), (_, outcome) in zip(beside, runs, strict=False) if answer
    ]
    return Row(
        figure=f"difference, {case.name}, up to {HIGHEST} steps",
        beside="plain CP-SAT model, 1 worker, count only",
        goal=Goal(aim=1, fails=0.1),
        ours=ours,
        same=ours[: plan.joint],
        peer=tuple(seconds for seconds, _ in beside),
        checks=(
            Check(
                what="blocks",
                compared=len(pairs),
                agreed=sum(theirs == count for theirs, count in pairs),
                timeouts=len(part) - len(pairs),
            ),
        ),
    )


def _compose(case: Case, height: int) -> DifferenceOutcome:
    """Return the two stacks of a difference in grid steps."""
    rules = case.request(height)
    return compose_difference(DifferenceRequest(target=Length(height * case.step), rules=rules))


def _count(outcome: DifferenceOutcome) -> int | None:
    """Return how many blocks both stacks take."""
    if not isinstance(outcome, DifferenceFound):
        return None
    return len(outcome.high.blocks) + len(outcome.low.blocks)
