"""How hard a request may be searched: one budget that all its searches share.

    >>> effort = Effort(limit=2.0)
    >>> compose(request, effort)        # and whatever else is asked of the same request

Counted in the solver's deterministic time and in the work of our own searches,
never in seconds of the clock: where the budget ends is the same on any machine.
What it runs out on ends undecided.
"""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

USUAL = 10.0
"""The budget of a request: some 10 s of an ordinary machine."""
COUNTED = 20_000_000
"""Things our own searches look at for one unit of effort, about a second as well."""


@dataclass(slots=True, kw_only=True)
class Effort:
    """The budget of one request, job or card; it grows smaller as it is spent.

    `limit` is deterministic time, about seconds but repeatable; `seed` and
    `workers` must not change any answer and exist so that tests can show it.
    """

    limit: float = USUAL
    seed: int = 1
    workers: int = 1
    spent: float = 0.0

    @property
    def left(self) -> float:
        """What may still be spent; 0 where nothing is left."""
        return max(self.limit - self.spent, 0.0)

    def spend(self, time: float) -> None:
        """Take deterministic time off the budget."""
        self.spent += time

    @contextmanager
    def half(self) -> Iterator[Effort]:
        """Lend half of what is left, for a search that should leave something to others."""
        lent = Effort(limit=self.left / 2, seed=self.seed, workers=self.workers)
        yield lent
        self.spend(lent.spent)

    def count(self, looked_at: int) -> None:
        """Take off what our own search looked at."""
        self.spent += looked_at / COUNTED
