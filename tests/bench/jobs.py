"""Jobs of many set-ups in the fewest wrings, above what it takes to choose their stacks one by one."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from cases import Case, load_case
from rows import Check, Goal, Row, timed

from gaugestack.stacks.sequence import sequence
from gaugestack.stacks.sequencerequest import JobFound, JobOutcome, JobRequest, JobUndecided

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from plan import Plan

TOP = 2
"""Heights of a job, whole inches."""


def job_rows(plan: Plan) -> Iterator[Row]:
    """Return a row for jobs of several lengths in whatever order is best."""
    case = load_case("inch-81")
    for setups in plan.setups:
        yield _row(case, setups, plan)


def _row(case: Case, setups: int, plan: Plan) -> Row:
    """Return the row of jobs of so many set-ups; the floor composes each height alone."""
    heights = case.heights(plan.plans * setups, TOP)
    jobs = [heights[start : start + setups] for start in range(0, len(heights), setups)]
    runs = [timed(partial(_plan, case, job)) for job in jobs]
    floor = [timed(partial(_alone, case, job)) for job in jobs]
    ours = tuple(seconds for seconds, _ in runs)
    outcomes = [outcome for _, outcome in runs]
    plans = [o.plan for o in outcomes if isinstance(o, JobFound | JobUndecided)]
    saved = sum(plan.naive - plan.wrings for plan in plans)
    proven = sum(isinstance(outcome, JobFound) for outcome in outcomes)
    return Row(
        figure=f"job of {setups} set-ups, inch-81, free order",
        beside="each stack alone, no plan",
        goal=Goal(aim=1000, fails=10_000, floor=True),
        ours=ours,
        same=ours,
        peer=tuple(seconds for seconds, _ in floor),
        checks=(
            Check(
                what="no more wrings than afresh",
                compared=len(plans),
                agreed=sum(plan.wrings <= plan.naive for plan in plans),
            ),
        ),
        note=f"{proven} of {len(jobs)} proven; {saved} of {sum(plan.naive for plan in plans)} wrings saved",
    )


def _plan(case: Case, job: Sequence[int]) -> JobOutcome:
    """Return the plan of a job."""
    return sequence(JobRequest(requests=tuple(case.request(height) for height in job), free=True))


def _alone(case: Case, job: Sequence[int]) -> None:
    """Compose every stack of a job by itself."""
    for height in job:
        case.warm(height)
