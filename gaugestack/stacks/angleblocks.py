"""Angle gauge blocks for an angle: each added, turned round, or left in the case.

    >>> compose_angle(AngleRequest(target=angle, pool=angle_set.blocks))
    AngleFound | AngleImpossible | AngleUndecided

All sums are whole numbers of the set's grid (a part of an arcsecond or more).
The table of signed sums gives the fewest blocks and, among those, the fewest
turned round; the model of model.py then decides which: a block turned round
is a kind of negative size there, and "thin" marks it.  Order of preference,
which leaves one answer:

    1. fewest blocks within the tolerance
    2. smallest deviation from the target
    3. fewest blocks turned round
    4. the largest blocks first, added rather than turned round

A block is never both: with the fewest blocks that would be two too many.
Putting the blocks together is anglewringing.py's business.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, dms_text
from gaugestack.angles.angleset import AngleBlock, grid, in_order
from gaugestack.errors import OurBug, UsageError
from gaugestack.stacks import anglejudge, reach
from gaugestack.stacks.anglerequest import (
    AngleBuilt,
    AngleFound,
    AngleImpossible,
    AngleOutcome,
    AngleRequest,
    AngleUndecided,
    Placed,
)
from gaugestack.stacks.model import Kind, Pile, Puzzle, Verdict, decide
from gaugestack.stacks.request import Proof

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.stacks.effort import Effort

NO_STEP = Fraction(1)


class AngleTable:
    """What a pool of angle blocks reaches; may be shared by requests on the same pool."""

    def __init__(self, pool: Sequence[AngleBlock]) -> None:
        """Build the table.  Raises UsageError where the blocks are too many for their grid."""
        self.pool = in_order(pool)
        self.step = grid(self.pool) or NO_STEP
        self.sizes = tuple((block.angle.arcseconds / self.step).numerator for block in self.pool)
        self.zero = sum(self.sizes)
        if 2 * self.zero >= reach.MOST_CELLS or len(self.pool) > reach.SMALL_SET:
            raise UsageError.about("set", "these angle blocks add up to too many steps of their grid")
        self.reach = reach.turned(self.sizes, [not block.square for block in self.pool])

    def count(self, angle: Angle) -> int | None:
        """Return the fewest blocks for exactly this angle, or None where it cannot be made."""
        steps = angle.arcseconds / self.step
        return self.reach.count(steps.numerator + self.zero) if steps.denominator == 1 else None

    def angles(self, low: int, high: int, most: int | None = None) -> list[int]:
        """Return the sums from `low` to `high` grid steps, above zero, that at most `most` blocks make."""
        found = self.reach.heights(max(low, 1) + self.zero, high + self.zero, most)
        return [height - self.zero for height in found]

    def at(self, steps: int) -> Angle:
        """Return the angle of so many grid steps."""
        return Angle(arcseconds=steps * self.step)

    def price(self, steps: int) -> int:
        """Return the least cost of a sum that can be made: blocks times the weight, plus those turned."""
        return self.reach.price(steps + self.zero) or 0


def compose_angle(
    request: AngleRequest, effort: Effort | None = None, table: AngleTable | None = None
) -> AngleOutcome:
    """Return the blocks for an angle, why there are none, or how far the limit let us come.

    Raises OurBug if the judge refuses what was composed, or the request is no
    request; UsageError if the set is too large for a table.
    """
    if request.target.arcseconds <= 0 or request.tolerance < 0:
        raise OurBug.because(["an angle request needs an angle above zero and no tolerance below zero"])
    table = table or AngleTable(request.pool)
    low = -((request.tolerance - request.target.arcseconds) // table.step)
    high = (request.target.arcseconds + request.tolerance) // table.step
    sums = table.angles(low, high, request.most)
    if not sums:
        return _impossible(request, table, (low, high), effort)
    return _decided(request, table, _nearest(request, table, sums), effort)


def _nearest(request: AngleRequest, table: AngleTable, sums: list[int]) -> list[int]:
    """Return the sums that come first in preference: fewest blocks, nearest, fewest turned round."""
    weight = table.reach.weight

    def rank(steps: int) -> tuple[int, Fraction, int]:
        price = table.price(steps)
        return price // weight, abs(steps * table.step - request.target.arcseconds), price % weight

    best = min(map(rank, sums))
    return [steps for steps in sums if rank(steps) == best]


def _decided(
    request: AngleRequest, table: AngleTable, sums: list[int], effort: Effort | None
) -> AngleFound | AngleUndecided:
    """Let the model choose among the stacks of these sums, one or two equally far from the target."""
    price = table.price(sums[0])
    blocks, turned = divmod(price, table.reach.weight)
    signed = _signed(table)
    sizes = [size for _, size in signed]
    usable = table.reach.usable([s + table.zero for s in sums], sizes, [size < 0 for size in sizes], price)
    pile = Pile(
        aim=sums[0] + sums[-1],
        heights=tuple((2 * steps, 2 * steps) for steps in sums),
        kinds=tuple(usable),
    )
    kinds = tuple(Kind(size=2 * size, pieces=1, thin=size < 0) for size in sizes)
    puzzle = Puzzle(kinds=kinds, piles=(pile,), total=blocks, thin=turned, tight=True)
    decision = decide(puzzle, effort)
    if decision.verdict is Verdict.INFEASIBLE:
        raise OurBug.because(["the model refuses an angle that the table reaches"])
    built = _built(request, signed, decision.counts[0]) if decision.counts else None
    if decision.verdict is Verdict.LIMIT or built is None:
        return AngleUndecided(best=built, at_least=blocks)
    return AngleFound(built=built)


def _signed(table: AngleTable) -> list[tuple[AngleBlock, int]]:
    """Return every block with its size in grid steps, and turned round with the negative one."""
    both = []
    for block, size in zip(table.pool, table.sizes, strict=True):
        both.append((block, size))
        if not block.square:
            both.append((block, -size))
    return both


def _built(
    request: AngleRequest, signed: list[tuple[AngleBlock, int]], counts: tuple[int, ...]
) -> AngleBuilt:
    """Return the chosen blocks once the judge has seen them."""
    chosen = [
        Placed(block=block, turned=size < 0)
        for (block, size), count in zip(signed, counts, strict=True)
        if count
    ]
    built = AngleBuilt(target=request.target, placed=tuple(chosen))
    anglejudge.approve(request, built)
    return built


def _impossible(
    request: AngleRequest, table: AngleTable, window: tuple[int, int], effort: Effort | None
) -> AngleImpossible:
    """Return why no blocks make the angle, with the nearest that can be made below and above."""
    low, high = window
    below = table.angles(1, low - 1, request.most)[-1:]
    above = table.angles(high + 1, table.zero, request.most)[:1]
    proof, sentence = _proof(request, table, window)
    return AngleImpossible(
        proof=proof,
        sentence=sentence,
        below=_near(request, table, below, effort),
        above=_near(request, table, above, effort),
    )


def _near(
    request: AngleRequest, table: AngleTable, sums: list[int], effort: Effort | None
) -> AngleBuilt | None:
    """Return the best blocks of a near angle, measured against the one asked; None where there is none."""
    if not sums:
        return None
    exact = replace(request, target=table.at(sums[0]), tolerance=Fraction(0))
    outcome = _decided(exact, table, sums, effort)
    built = outcome.built if isinstance(outcome, AngleFound) else outcome.best
    return built and replace(built, target=request.target)


def _proof(request: AngleRequest, table: AngleTable, window: tuple[int, int]) -> tuple[Proof, str]:
    """Return what was shown, and the sentence that says it."""
    low, high = window
    if low > table.zero:
        return Proof.TOTAL, f"all blocks together give {dms_text(table.at(table.zero))}"
    if low > high:
        return Proof.GRID, f"no multiple of {_exact(table.at(1))} lies within the tolerance"
    counts = [table.price(steps) // table.reach.weight for steps in table.angles(low, high)]
    if request.most is not None and counts:
        return Proof.COUNT, f"it needs {min(counts)} blocks, more than the {request.most} allowed"
    return Proof.TABLE, "no combination of the blocks, added or turned round, gives it within the tolerance"


def _exact(angle: Angle) -> str:
    """Print a grid of whole or tenth seconds."""
    return dms_text(angle, 0 if angle.arcseconds.denominator == 1 else 1)
