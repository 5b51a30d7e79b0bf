"""Peers of composing on certified lengths: the linked CP-SAT model, and enumeration by halves.

Whole numbers come in: nominal sizes in grid steps and deviations, lengths in
picometres.  Both answer with the fewest blocks and the least miss.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np
from ortools.sat.python import cp_model

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

MOST_BLOCKS = 6
"""The enumeration stops at halves of three."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """`sizes` in steps of `step` picometres, `deviations` and `aim` and `within` in picometres."""

    sizes: tuple[int, ...]
    deviations: tuple[int, ...]
    step: int
    aim: int
    within: int

    @property
    def lengths(self) -> list[int]:
        """Certified lengths."""
        return [n * self.step + d for n, d in zip(self.sizes, self.deviations, strict=True)]

    def stray(self, count: int) -> int:
        """How far `count` blocks can stray from their nominal sum."""
        return sum(sorted(map(abs, self.deviations), reverse=True)[:count])


def linked_cp_sat(task: Task, limit: float) -> tuple[int, int] | None:
    """Return fewest blocks and least miss by two linked sums, no pruning; None where time ran out."""
    model = cp_model.CpModel()
    x = [model.new_bool_var("") for _ in task.sizes]
    nominal = cp_model.LinearExpr.weighted_sum(x, list(task.sizes))
    strays = cp_model.LinearExpr.weighted_sum(x, list(task.deviations))
    reach = task.within + task.stray(len(x))
    height = model.new_int_var(-((reach - task.aim) // task.step), (task.aim + reach) // task.step, "")
    miss = model.new_int_var(0, task.within, "")
    model.add(nominal == height)
    model.add_abs_equality(miss, height * task.step + strays - task.aim)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = limit
    found = []
    for objective in (cp_model.LinearExpr.sum(x), miss):
        model.minimize(objective)
        if solver.solve(model) != cp_model.OPTIMAL:
            return None
        found.append(round(solver.objective_value))
        model.add(objective == found[-1])
    return found[0], found[1]


def enumerated(task: Task) -> tuple[int, int] | None:
    """Return fewest blocks and least miss by joining halves on their nominal sums, vectorised."""
    halves = {size: _halves(task, size) for size in range(MOST_BLOCKS // 2 + 1)}
    for count in range(1, MOST_BLOCKS + 1):
        misses = list(_misses(task, halves[count // 2], halves[count - count // 2], count))
        if misses:
            return count, min(misses)
    return None


def _halves(task: Task, size: int) -> tuple[NDArray[np.int64], NDArray[np.int64], NDArray[np.int64]]:
    """Return every choice of `size` blocks sorted by nominal sum: indices, nominal sums, lengths."""
    rows = list(combinations(range(len(task.sizes)), size))
    index = np.array(rows, dtype=np.int64).reshape(len(rows), size)
    nominal = np.array(task.sizes, dtype=np.int64)[index].sum(axis=1)
    order = np.argsort(nominal, kind="stable")
    length = np.array(task.lengths, dtype=np.int64)[index].sum(axis=1)
    return index[order], nominal[order], length[order]


def _misses(task: Task, lower: tuple, upper: tuple, count: int) -> Iterator[int]:  # type: ignore[type-arg]
    """Return the least miss within tolerance for each nominal height near the aim."""
    reach = task.within + task.stray(count)
    for height in range(-((reach - task.aim) // task.step), (task.aim + reach) // task.step + 1):
        first = np.searchsorted(lower[1], height - upper[1])
        times = np.searchsorted(lower[1], height - upper[1], side="right") - first
        b = np.repeat(np.arange(len(times)), times)
        a = np.arange(int(times.sum())) - np.repeat(np.cumsum(times) - times, times) + np.repeat(first, times)
        miss = np.abs(lower[2][a] + upper[2][b] - task.aim)
        near = miss <= task.within
        shared = _shared(lower[0][a[near]], upper[0][b[near]])
        if (~shared).any():
            yield int(miss[near][~shared].min())


def _shared(left: NDArray[np.int64], right: NDArray[np.int64]) -> NDArray[np.bool_]:
    """Tell for each row whether its two halves share a block."""
    shared = np.zeros(len(left), dtype=bool)
    for column in range(left.shape[1]):
        shared |= (right == left[:, column : column + 1]).any(axis=1)
    return shared
