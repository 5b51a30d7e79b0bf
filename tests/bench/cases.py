"""What the bench works on: shipped sets, their grids, seeded random heights."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

import numpy as np

from gaugestack.blocks import Block, grid, in_order
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import Length, Unit
from gaugestack.stacks import reach
from gaugestack.stacks.request import Found, Outcome, StackRequest
from gaugestack.stacks.solve import Composer

SEED = 20
TOPS = {Unit.INCH: 10, Unit.MILLIMETRE: 250}
"""Random heights go up to 10 in or 250 mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A shipped set: its blocks from the largest, its grid step, its table up to `top` grid heights."""

    name: str
    unit: Unit
    pool: tuple[Block, ...]
    step: int
    table: reach.Reach

    @property
    def sizes(self) -> list[int]:
        """Sizes in grid steps."""
        return [block.nominal // self.step for block in self.pool]

    @property
    def thin(self) -> list[bool]:
        """Which blocks are thin."""
        return [block.thin for block in self.pool]

    def heights(self, count: int, top: int | None = None) -> list[int]:
        """Return random grid heights from the range without gaps that ends at `top` (whole units)."""
        last = self.table.top if top is None else top * self.unit.picometres // self.step
        gaps = np.flatnonzero(self.table.cost[: last + 1] >= self.table.limit)
        first = int(gaps[-1]) + 1 if len(gaps) else 1
        random = Random(f"{SEED} {self.name}")  # noqa: S311  (repeatable, not secret)
        return [random.randint(first, last) for _ in range(count)]

    def request(self, *heights: int) -> StackRequest:
        """Return the request for exactly these grid heights."""
        targets = tuple(Length(height * self.step) for height in heights)
        return StackRequest(targets=targets, tolerance=Length(0), pool=self.pool)

    def warm(self, *heights: int) -> Outcome:
        """Compose with the shared table."""
        return Composer(self.request(*heights), table=self.table).outcome()

    def cold(self, *heights: int) -> Outcome:
        """Compose with a table of its own."""
        return Composer(self.request(*heights)).outcome()

    def chosen(self, outcome: Outcome) -> tuple[tuple[int, ...], ...] | None:
        """Return the block numbers of each stack found, smallest number first; None where none was."""
        if not isinstance(outcome, Found):
            return None
        return tuple(tuple(sorted(self.pool.index(b) for b in built.blocks)) for built in outcome)


def load_case(name: str) -> Case:
    """Return a shipped set ready to be measured.  Raises LookupError where it has no table."""
    block_set, _ = load_set(shipped_path(name))
    pool = in_order(block_set.ordinary)
    table = reach.table(pool, TOPS[block_set.unit] * block_set.unit.picometres)
    if table is None:
        raise LookupError(f"{name} has no table")
    return Case(name=name, unit=block_set.unit, pool=pool, step=grid(pool), table=table)
