"""Several stacks at once from one set, beside the plain joint model."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from cases import Case, load_case
from nominal import joint_checks
from peers import plain_cp_sat
from rows import Goal, Row, timed

from gaugestack.lengths import Unit
from gaugestack.stacks.request import Undecided

if TYPE_CHECKING:
    from collections.abc import Iterator

    from plan import Plan

SETS = ("inch-81", "metric-112")
TOPS = {Unit.INCH: 4, Unit.MILLIMETRE: 100}
"""Heights go up to 4 in or 100 mm: three of 10 in are more than the whole set."""
WORDS = {2: "pairs", 3: "triples"}
JOINT = "plain joint CP-SAT model, 1 worker"


def several_rows(plan: Plan) -> Iterator[Row]:
    """Return the rows of pairs and triples."""
    for name in SETS:
        if name in plan.sets:
            case = load_case(name)
            for number in plan.stacks:
                yield _row(case, number, plan)


def _row(case: Case, number: int, plan: Plan) -> Row:
    """Return the row of jobs of `number` stacks each."""
    top = TOPS[case.unit]
    heights = case.heights(plan.jobs * number, top)
    jobs = [heights[start : start + number] for start in range(0, len(heights), number)]
    runs = [timed(partial(case.warm, *job)) for job in jobs]
    beside = [
        timed(partial(plain_cp_sat, case.sizes, case.thin, job, plan.plain_limit))
        for job in jobs[: plan.joint]
    ]
    ours = tuple(seconds for seconds, _ in runs)
    undecided = sum(isinstance(outcome, Undecided) for _, outcome in runs)
    return Row(
        figure=f"{WORDS[number]} up to {top} {case.unit}, {case.name}, shared table",
        beside=JOINT,
        goal=Goal(aim=20, fails=2),
        ours=ours,
        same=ours[: plan.joint],
        peer=tuple(seconds for seconds, _ in beside),
        checks=joint_checks([answer for _, answer in beside], [case.chosen(o) for _, o in runs]),
        note=f"{undecided} undecided" if undecided else "",
    )
