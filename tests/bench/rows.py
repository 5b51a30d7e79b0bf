"""One row of the bench: our times, a peer's or a floor's times, and their ratio.

A row without a peer cannot be made: `Row` refuses it.  What could not be
measured is a row with `missing` filled in, and no figure at all.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Goal:
    """What the ratio should be, and where the smoke run fails.

    A peer is to be beaten: the ratio is peer over ours, `aim` the least wanted.
    A floor cannot be beaten: the ratio is ours over floor, `aim` the most wanted.
    """

    aim: float
    fails: float
    floor: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """Whether peer and we agree: `agreed` of `compared` cases, on `what`; `timeouts` left out."""

    what: str
    compared: int = 0
    agreed: int = 0
    timeouts: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A figure beside its peer; all times in seconds.

    `ours` holds every time of ours, `same` those on the cases the peer was
    given too: the ratio is taken on these alone.
    """

    figure: str
    beside: str
    goal: Goal
    ours: tuple[float, ...] = ()
    same: tuple[float, ...] = ()
    peer: tuple[float, ...] = ()
    checks: tuple[Check, ...] = ()
    note: str = ""
    missing: str = ""

    def __post_init__(self) -> None:
        """Refuse a figure that has no peer."""
        if not self.missing and not (self.ours and self.same and self.peer):
            raise ValueError(f"{self.figure}: a figure needs its peer measured in the same run")

    @property
    def ratio(self) -> float | None:
        """Ratio of the medians on the same cases; None where nothing was measured."""
        if self.missing:
            return None
        faster = median(self.peer) / median(self.same)
        return 1 / faster if self.goal.floor else faster

    def holds(self, mark: float) -> bool:
        """Return whether the ratio is on the right side of a mark."""
        if self.ratio is None:
            return False
        return self.ratio <= mark if self.goal.floor else self.ratio >= mark


def timed(call: Callable[[], T]) -> tuple[float, T]:
    """Return how long a call took, and what it returned."""
    start = perf_counter()
    result = call()
    return perf_counter() - start, result


def share(times: Sequence[float], part: float) -> float:
    """Return the time that `part` of the times do not exceed (nearest rank)."""
    return sorted(times)[max(ceil(part * len(times)) - 1, 0)]
