"""Several stacks at once from one set, beside the plain joint model."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from cases import Case, load_case
from nominal import joint_checks
from peers import plain_cp_sat
from rows import Goal, Row, timed

from gaugestack.stacks.request import Impossible, Undecided

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from plan import Plan

    from gaugestack.stacks.request import Outcome


@dataclass(frozen=True, slots=True)
class Field:
    """Where the heights come from: a set, up to `top` whole units, every `stride`-th grid height."""

    name: str
    top: int
    stride: int
    words: str
    aim: float = 20


FIELDS = (
    Field("inch-81", 4, 1, "every 0.0001 in to 4 in"),
    Field("metric-112", 100, 2, "every 1 µm to 100 mm"),
    Field("metric-112", 100, 1, "every 0.5 µm to 100 mm, one block for the half", 1),
)
"""Three heights of 10 in are more than the whole set; two odd half micrometres are impossible together."""
WORDS = {2: "pairs", 3: "triples"}
JOINT = "plain joint CP-SAT model, 1 worker"


def several_rows(plan: Plan) -> Iterator[Row]:
    """Return the rows of pairs and triples."""
    for field in FIELDS:
        if field.name in plan.sets:
            case = load_case(field.name)
            for number in plan.stacks:
                yield _row(case, field, number, plan)


def _jobs(case: Case, field: Field, number: int, count: int) -> list[list[int]]:
    """Return jobs of `number` heights each."""
    heights = [-(-h // field.stride) * field.stride for h in case.heights(count * number, field.top)]
    return [heights[start : start + number] for start in range(0, len(heights), number)]


def _row(case: Case, field: Field, number: int, plan: Plan) -> Row:
    """Return the row of jobs of `number` stacks each."""
    jobs = _jobs(case, field, number, plan.jobs)
    runs = [timed(partial(case.warm, *job)) for job in jobs]
    beside = [
        timed(partial(plain_cp_sat, case.sizes, case.thin, job, plan.plain_limit))
        for job in jobs[: plan.joint]
    ]
    ours, theirs = (tuple(seconds for seconds, _ in part) for part in (runs, beside))
    outcomes = [outcome for _, outcome in runs]
    return Row(
        figure=f"{WORDS[number]}, {field.name}, {field.words}",
        beside=JOINT,
        goal=Goal(aim=field.aim, fails=field.aim / 10),
        ours=ours,
        same=ours[: plan.joint],
        peer=theirs,
        checks=joint_checks([answer for _, answer in beside], [case.chosen(o) for o in outcomes]),
        note=f"sums {sum(theirs) / sum(ours[: plan.joint]):.2g}x; {ends(outcomes)}",
    )


def ends(outcomes: Sequence[Outcome]) -> str:
    """Return how the jobs ended."""
    impossible = sum(isinstance(outcome, Impossible) for outcome in outcomes)
    undecided = sum(isinstance(outcome, Undecided) for outcome in outcomes)
    return f"{len(outcomes) - impossible - undecided} found, {impossible} impossible, {undecided} undecided"
