"""One stack on certified lengths: every block of a shipped set with a deviation of its own.

Deviations are drawn as certificates print them, whole 0.1 µin up to 6 µin or
whole 10 nm up to 0.3 µm, from a fixed seed; aims lie between the grid points,
the tolerance is half the grid.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from random import Random
from typing import TYPE_CHECKING

from cases import SEED, TOPS, load_case
from certifiedpeers import Task, enumerated, linked_cp_sat
from rows import Check, Goal, Row, timed

from gaugestack.blocks import Basis, Block, in_order
from gaugestack.lengths import Length, Unit
from gaugestack.stacks import reach
from gaugestack.stacks.request import Found, Outcome, StackRequest
from gaugestack.stacks.solve import Composer

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from plan import Plan

STEPS = {Unit.INCH: (2_540, 60), Unit.MILLIMETRE: (10_000, 30)}
"""Picometres a step of a certificate's last digit, and how many at most."""
LINKED = "CP-SAT, two linked sums, no pruning (count, miss)"
HALVES = "enumeration by halves, vectorised (count, miss)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Certified:
    """A shipped set whose every block is certified, its grid step, its table."""

    name: str
    pool: tuple[Block, ...]
    step: int
    table: reach.Reach
    aims: tuple[int, ...]

    def compose(self, aim: int) -> Outcome:
        """Compose for an aim within half a step."""
        request = StackRequest(
            targets=(Length(aim),),
            tolerance=Length(self.step // 2),
            pool=self.pool,
            basis=Basis.CERTIFIED,
        )
        return Composer(request, table=self.table).outcome()

    def task(self, aim: int) -> Task:
        """Return the same question for a peer."""
        return Task(
            sizes=tuple(block.nominal // self.step for block in self.pool),
            deviations=tuple(int(block.deviation or 0) for block in self.pool),
            step=self.step,
            aim=aim,
            within=self.step // 2,
        )


def certified_rows(plan: Plan) -> Iterator[Row]:
    """Return the rows of every set."""
    for name in plan.sets:
        yield from _rows_of(_certified(name, plan.heights), plan)


def _certified(name: str, count: int) -> Certified:
    """Return a shipped set with a deviation for every block, and random aims between the grid points."""
    case = load_case(name)
    random = Random(f"{SEED} certified {name}")  # noqa: S311  (repeatable, not secret)
    one, most = STEPS[case.unit]
    pool = in_order(
        replace(block, deviation=Length(random.randint(-most, most) * one)) for block in case.pool
    )
    table = reach.table(pool, (TOPS[case.unit] + 1) * case.unit.picometres)
    if table is None:
        raise LookupError(f"{name} has no table")
    aims = [h * case.step + random.randint(-case.step // 2, case.step // 2) for h in case.heights(count)]
    return Certified(name=name, pool=pool, step=case.step, table=table, aims=tuple(aims))


def _rows_of(case: Certified, plan: Plan) -> Iterator[Row]:
    """Return the rows of one set."""
    case.compose(case.aims[0])
    runs = [timed(partial(case.compose, aim)) for aim in case.aims]
    ours, found = tuple(seconds for seconds, _ in runs), [outcome for _, outcome in runs]
    peers = (
        (LINKED, plan.milp, 2.0, lambda task: linked_cp_sat(task, plan.plain_limit)),
        (HALVES, plan.plain, 2.0, enumerated),
    )
    for beside, count, aim, ask in peers:
        asked = [timed(partial(ask, case.task(a))) for a in case.aims[:count]]
        yield Row(
            figure=f"compose certified, {case.name}, shared table",
            beside=beside,
            goal=Goal(aim=aim, fails=aim / 10),
            ours=ours,
            same=ours[:count],
            peer=tuple(seconds for seconds, _ in asked),
            checks=(_same([answer for _, answer in asked], found),),
        )


def _same(answers: Sequence[tuple[int, int] | None], found: Sequence[Outcome]) -> Check:
    """Return on how many answers count and miss are ours; None means time or halves ran out."""
    pairs = [(a, _ours(o)) for a, o in zip(answers, found, strict=False) if a is not None]
    agreed = sum(theirs == ours for theirs, ours in pairs)
    return Check(
        what="same count and miss", compared=len(pairs), agreed=agreed, timeouts=len(answers) - len(pairs)
    )


def _ours(outcome: Outcome) -> tuple[int, int] | None:
    """Return the count and the miss of what we found."""
    if not isinstance(outcome, Found):
        return None
    return len(outcome.stacks[0].blocks), abs(outcome.stacks[0].deviation)
