"""One stack at a time: ours with a shared table and with a table each, two peers beside."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cases import Case, load_case
from peers import Answer, highs_fewest, plain_cp_sat
from rows import Check, Goal, Row, timed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from plan import Plan

PLAIN = "plain CP-SAT model, 1 worker, all stages"
HIGHS = "HiGHS (scipy milp), count only"


def nominal_rows(plan: Plan) -> Iterator[Row]:
    """Return the rows of every set."""
    for name in plan.sets:
        yield from _rows_of(load_case(name), plan)


def _rows_of(case: Case, plan: Plan) -> Iterator[Row]:
    """Return three rows of one set; each height is measured warm and cold."""
    heights = case.heights(plan.heights)
    case.warm(heights[0])
    warm = [timed(lambda h=h: case.warm(h)) for h in heights]
    cold = [timed(lambda h=h: case.cold(h)) for h in heights]
    ours = {"warm": tuple(s for s, _ in warm), "cold": tuple(s for s, _ in cold)}
    found = [case.chosen(outcome) for _, outcome in warm]
    seconds, check = _beside_plain(case, heights[: plan.plain], found, plan.plain_limit)
    for kind, words, aim in (("warm", "shared table", 20), ("cold", "table built each time", 2)):
        yield Row(
            figure=f"compose, {case.name}, {words}",
            beside=PLAIN,
            goal=Goal(aim=aim, fails=aim / 10),
            ours=ours[kind],
            same=ours[kind][: plan.plain],
            peer=seconds,
            check=check,
        )
    yield _beside_highs(case, heights, ours["warm"], found, plan)


def _beside_plain(
    case: Case, heights: list[int], found: list[tuple[tuple[int, ...], ...] | None], limit: float
) -> tuple[tuple[float, ...], Check]:
    """Return the plain model's times, and whether it chose the same stacks."""
    runs = [timed(lambda h=h: plain_cp_sat(case.sizes, case.thin, [h], limit)) for h in heights]
    check = stacks_check([answer for _, answer in runs], found)
    return tuple(seconds for seconds, _ in runs), check


def stacks_check(answers: list[Answer], found: list[tuple[tuple[int, ...], ...] | None]) -> Check:
    """Return on how many proven answers the peer chose the very blocks that we chose."""
    pairs = [(a.stacks or None, ours) for a, ours in zip(answers, found, strict=False) if a.proven]
    agreed = sum(theirs == ours for theirs, ours in pairs)
    return Check(what="same stack", compared=len(pairs), agreed=agreed, timeouts=len(answers) - len(pairs))


def _beside_highs(
    case: Case,
    heights: list[int],
    ours: tuple[float, ...],
    found: list[tuple[tuple[int, ...], ...] | None],
    plan: Plan,
) -> Row:
    """Return the row beside HiGHS, which is asked for the count only."""
    part = heights[: plan.milp]
    runs = [timed(lambda h=h: highs_fewest(case.sizes, h, plan.milp_limit)) for h in part]
    pairs = [
        (count, sum(map(len, stacks or ())))
        for (_, count), stacks in zip(runs, found, strict=False)
        if count is not None
    ]
    agreed = sum(theirs == mine for theirs, mine in pairs)
    return Row(
        figure=f"compose, {case.name}, shared table",
        beside=HIGHS,
        goal=Goal(aim=300, fails=30),
        ours=ours,
        same=ours[: plan.milp],
        peer=tuple(seconds for seconds, _ in runs),
        check=Check(what="same count", compared=len(pairs), agreed=agreed, timeouts=len(runs) - len(pairs)),
    )
