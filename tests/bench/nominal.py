"""One stack at a time: ours with a shared table and with a table each, the peers beside."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from cases import Case, load_case
from peers import Answer, highs_fewest, plain_cp_sat
from rows import Check, Goal, Row, timed

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from plan import Plan

    Chosen = tuple[tuple[int, ...], ...] | None

PLAIN = "plain CP-SAT model, 1 worker, all stages"
COUNT = "the same, first stage only (count)"
HIGHS = "HiGHS (scipy milp), count only"


def nominal_rows(plan: Plan) -> Iterator[Row]:
    """Return the rows of every set."""
    for name in plan.sets:
        yield from _rows_of(load_case(name), plan)


def _rows_of(case: Case, plan: Plan) -> Iterator[Row]:
    """Return the rows of one set; each height is measured warm and cold."""
    heights = case.heights(plan.heights)
    case.warm(heights[0])
    warm = [timed(partial(case.warm, h)) for h in heights]
    cold = [timed(partial(case.cold, h)) for h in heights]
    ours = {"warm": tuple(s for s, _ in warm), "cold": tuple(s for s, _ in cold)}
    found = [case.chosen(outcome) for _, outcome in warm]
    part = heights[: plan.plain]
    plain = [timed(partial(plain_cp_sat, case.sizes, case.thin, [h], plan.plain_limit)) for h in part]
    answers = [answer for _, answer in plain]
    for kind, words, aim in (("warm", "shared table", 20), ("cold", "table built each time", 10)):
        yield Row(
            figure=f"compose, {case.name}, {words}",
            beside=PLAIN,
            goal=Goal(aim=aim, fails=aim / 10),
            ours=ours[kind],
            same=ours[kind][: plan.plain],
            peer=tuple(seconds for seconds, _ in plain),
            checks=(same_stack(answers, found),),
        )
    yield Row(
        figure=f"compose, {case.name}, shared table",
        beside=COUNT,
        goal=Goal(aim=10, fails=1),
        ours=ours["warm"],
        same=ours["warm"][: plan.plain],
        peer=tuple(answer.count_seconds for answer in answers),
        checks=(same_count([_count(answer) for answer in answers], found),),
    )
    yield _beside_highs(case, heights, ours["warm"], found, plan)


def _count(answer: Answer) -> int | None:
    """Return the least number of blocks the peer has proven, 0 for no stack; None where it ran out."""
    return sum(map(len, answer.stacks)) if answer.counted else None


def same_stack(answers: Sequence[Answer], found: Sequence[Chosen]) -> Check:
    """Return on how many proven answers the peer chose the very blocks that we chose."""
    pairs = [(a.stacks or None, ours) for a, ours in zip(answers, found, strict=False) if a.proven]
    agreed = sum(theirs == ours for theirs, ours in pairs)
    return Check(what="same stack", compared=len(pairs), agreed=agreed, timeouts=len(answers) - len(pairs))


def same_count(counts: Sequence[int | None], found: Sequence[Chosen]) -> Check:
    """Return on how many proven counts the peer needs as many blocks as we do."""
    pairs = [
        (count, sum(map(len, stacks or ())))
        for count, stacks in zip(counts, found, strict=False)
        if count is not None
    ]
    agreed = sum(theirs == ours for theirs, ours in pairs)
    return Check(what="same count", compared=len(pairs), agreed=agreed, timeouts=len(counts) - len(pairs))


def joint_checks(answers: Sequence[Answer], found: Sequence[Chosen]) -> tuple[Check, ...]:
    """Return both checks for answers that may end after the first stage."""
    return same_stack(answers, found), same_count([_count(answer) for answer in answers], found)


def _beside_highs(
    case: Case, heights: list[int], ours: tuple[float, ...], found: Sequence[Chosen], plan: Plan
) -> Row:
    """Return the row beside HiGHS, which is asked for the count only."""
    part = heights[: plan.milp]
    runs = [timed(partial(highs_fewest, case.sizes, h, plan.milp_limit)) for h in part]
    return Row(
        figure=f"compose, {case.name}, shared table",
        beside=HIGHS,
        goal=Goal(aim=300, fails=30),
        ours=ours,
        same=ours[: plan.milp],
        peer=tuple(seconds for seconds, _ in runs),
        checks=(same_count([count for _, count in runs], found),),
    )
