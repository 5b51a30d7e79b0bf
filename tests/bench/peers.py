"""The peers and floors: what a straightforward user would write with public tools.

Nothing here knows how gaugestack works; whole numbers come in, chosen block
numbers and counts come out.  Blocks are listed from the largest.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from time import perf_counter
from typing import TYPE_CHECKING, Any

import numpy as np
from ortools.sat.python import cp_model
from scipy.optimize import Bounds, LinearConstraint, milp

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

BITS = 50
"""Largest-first is a number with one bit a block; so many bits go into one objective."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """`stacks` holds the block numbers of each stack, or is empty: none exists, or none found in time.

    `proven` says that every stage ended within its limit, `counted` that the
    first one did, so that the number of blocks is the least; it took
    `count_seconds`.
    """

    stacks: tuple[tuple[int, ...], ...] = ()
    proven: bool = False
    counted: bool = False
    count_seconds: float = 0.0


def plain_cp_sat(sizes: Sequence[int], thin: Sequence[bool], targets: Sequence[int], limit: float) -> Answer:
    """Return the best stacks by one plain CP-SAT model: a bool a block and stack, no pruning.

    Order of preference in stages: fewest blocks, fewest thin ones, the
    largest blocks first.  `limit` is in seconds a stage.
    """
    start = perf_counter()
    model, chosen = _plain_model(sizes, targets)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = limit
    answer = Answer()
    for objective in _objectives(chosen, thin):
        model.minimize(objective)
        status = solver.solve(model)
        count_seconds = answer.count_seconds or perf_counter() - start
        if status != cp_model.OPTIMAL:
            none = status == cp_model.INFEASIBLE
            return replace(answer, proven=none, counted=answer.counted or none, count_seconds=count_seconds)
        stacks = tuple(tuple(i for i, x in enumerate(row) if solver.value(x)) for row in chosen)
        answer = Answer(stacks=stacks, counted=True, count_seconds=count_seconds)
        model.add(objective == round(solver.objective_value))
    return replace(answer, proven=True)


def plain_difference(sizes: Sequence[int], target: int, limit: float) -> int | None:
    """Return the fewest blocks of two stacks that differ by `target`, by one plain CP-SAT model.

    None where the limit (seconds) came first or there are none.
    """
    model, solver = cp_model.CpModel(), cp_model.CpSolver()
    high, low = ([model.new_bool_var(f"{side}{i}") for i in range(len(sizes))] for side in "hl")
    over, under = (sum(size * x for size, x in zip(sizes, row, strict=True)) for row in (high, low))
    model.add(over - under == target)
    for one, other in zip(high, low, strict=True):
        model.add_at_most_one(one, other)
    for row in (high, low):
        model.add_bool_or(row)
    model.minimize(sum(high) + sum(low))
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = limit
    return round(solver.objective_value) if solver.solve(model) == cp_model.OPTIMAL else None


def bare_cp_sat(sizes: Sequence[int], target: int) -> None:
    """Let CP-SAT add up these sizes to a target: what one model and one search cost at the very least."""
    model, solver = cp_model.CpModel(), cp_model.CpSolver()
    chosen = [model.new_bool_var("") for _ in sizes]
    model.add(cp_model.LinearExpr.weighted_sum(chosen, list(sizes)) == target)
    model.minimize(cp_model.LinearExpr.sum(chosen))
    solver.parameters.num_workers = 1
    solver.solve(model)


def _plain_model(sizes: Sequence[int], targets: Sequence[int]) -> tuple[Any, list[list[Any]]]:
    """Return the model: each stack adds up to its target, no block stands twice."""
    model = cp_model.CpModel()
    chosen = [[model.new_bool_var(f"x{t}_{i}") for i in range(len(sizes))] for t in range(len(targets))]
    for target, row in zip(targets, chosen, strict=True):
        model.add(sum(size * x for size, x in zip(sizes, row, strict=True)) == target)
    if len(targets) > 1:
        for column in zip(*chosen, strict=True):
            model.add_at_most_one(column)
    return model, chosen


def _objectives(chosen: list[list[Any]], thin: Sequence[bool]) -> Iterator[Any]:
    """Return what is minimised, stage by stage."""
    every = [x for row in chosen for x in row]
    yield sum(every)
    if any(thin):
        yield sum(x for row in chosen for x, is_thin in zip(row, thin, strict=True) if is_thin)
    for start in range(0, len(every), BITS):
        part = every[start : start + BITS]
        yield -sum(x * (1 << (len(part) - 1 - i)) for i, x in enumerate(part))


def highs_fewest(sizes: Sequence[int], target: int, limit: float) -> int | None:
    """Return the least number of blocks by HiGHS, a general MILP solver; None where it ran out of time.

    It is asked for the count only: no thin blocks, no largest first.
    """
    ones = np.ones(len(sizes))
    result = milp(
        ones,
        integrality=ones,
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(np.asarray([sizes], dtype=float), target, target),
        options={"time_limit": limit},
    )
    return round(result.fun) if result.status == 0 else None


def dict_table(sizes: Sequence[int], top: int) -> dict[int, int]:
    """Return the fewest blocks for each height up to `top`, in a plain dict, a loop a block and height."""
    fewest = {0: 0}
    for size in sizes:
        for height, count in list(fewest.items()):
            new = height + size
            if new <= top and fewest.get(new, 1 << 30) > count + 1:
                fewest[new] = count + 1
    return fewest


def left_out(sizes: Sequence[int], low: int, top: int, most: int) -> list[int]:
    """Return for each block how many heights from `low` to `top` at most `most` blocks lose without it."""

    def made(kept: Sequence[int]) -> int:
        fewest = np.full(top + 1, 255, dtype=np.uint8)
        fewest[0] = 0
        for size in kept:
            if size <= top:
                longer = np.minimum(fewest[: top + 1 - size], 254) + np.uint8(1)
                fewest[size:] = np.minimum(fewest[size:], longer)
        return int(np.count_nonzero(fewest[low:] <= most))

    whole = made(sizes)
    return [whole - made([*sizes[:place], *sizes[place + 1 :]]) for place in range(len(sizes))]


@dataclass(frozen=True, slots=True)
class Touch:
    """The floor of a table: one np.minimum a block over the slices a table must touch."""

    sizes: tuple[int, ...]
    cells: int

    def __call__(self) -> None:
        """Touch the slices, in 16-bit cells; the result means nothing."""
        cells, out = np.zeros((2, self.cells + 1), dtype=np.uint16)
        reached = 0
        for size in sorted(self.sizes):
            upper = min(self.cells, reached + size)
            if size <= upper:
                np.minimum(cells[size : upper + 1], cells[: upper + 1 - size], out=out[size : upper + 1])
            reached = upper
