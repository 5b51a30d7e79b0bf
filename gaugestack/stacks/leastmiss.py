"""The stacks of many certified blocks that miss an aim by the least there can be.

    >>> least_miss((100, 130, 160), count=2, aim=255)    # sums are 200, 230, 260, ...
    5

Certified lengths are whole steps of the certificate's last digit, so the sums of
k blocks lie on a lattice, and none comes nearer to the aim than its nearest
point.  With many blocks that point is nearly always met; what counts next is the
fewest thin blocks.  So the stacks are made of thin blocks on one side and of
thick ones on the other, from no thin block on: thick blocks have a coarse grid,
and few sums of thin ones lead to it.  Where the point is met, all stacks that
meet it with so few thin blocks are known; where it is not, nothing is known,
and closest.py must look at all.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import gcd
from typing import TYPE_CHECKING

import numpy as np

from gaugestack.stacks.closest import Closest, Field, Guide, Halves, TooManyHalves, exact, halves

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from gaugestack.stacks.reach import Reach

WORTH_IT = 7
"""Stacks of fewer blocks are found as fast by their halves."""
MOST_THIN = 3
"""Stacks of more thin blocks are left to the halves."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """Which blocks of a field are thin, and the table of the thick ones."""

    thin: tuple[bool, ...]
    table: Reach

    def of(self, *, thin: bool) -> list[int]:
        """Return the places of the thin blocks, or of the thick ones."""
        return [place for place, is_thin in enumerate(self.thin) if is_thin is thin]


def least_miss(lengths: Sequence[int], count: int, aim: int) -> int:
    """Return the least that a sum of `count` of the lengths can miss the aim by; it may not be met."""
    step = gcd(*(length - lengths[0] for length in lengths))
    over = aim - count * lengths[0]
    return min(over % step, -over % step) if step else abs(over)


def fewest_thin(field: Field, sides: Sides, count: int) -> Closest | None:
    """Return the stacks of `count` blocks that miss by the least there can be, with the fewest thin blocks.

    None where there are none, or where they are too many to look at.
    """
    if count < WORTH_IT or count > len(field.lengths) or field.guide is None or all(sides.thin):
        return None
    miss = least_miss(field.lengths, count, field.aim)
    if miss > field.within:
        return None
    try:
        for thin in range(min(count, MOST_THIN) + 1):
            stacks = _of_so_many_thin(field, sides, (thin, count - thin), miss)
            if len(stacks):
                sums = np.unique(np.asarray(field.lengths, dtype=np.int64)[stacks].sum(axis=1))
                members = tuple(int(place) for place in np.unique(stacks))
                return Closest(miss=miss, sums=tuple(int(total) for total in sums), members=members)
    except TooManyHalves:
        pass
    return None


def _of_so_many_thin(field: Field, sides: Sides, counts: tuple[int, int], miss: int) -> NDArray[np.int64]:
    """Return the stacks of so many thin and so many thick blocks that miss by exactly `miss`, as places."""
    thin, rests = _thin_part(field, sides, counts)
    if not len(thin.length):
        return np.zeros((0, sum(counts)), dtype=np.int64)
    places = np.asarray(sides.of(thin=False), dtype=np.int64)
    own = replace(
        field, lengths=[field.lengths[place] for place in places], guide=_thick_guide(field, sides, rests)
    )
    found = halves(own, counts[1], counts[1])
    thick = Halves(index=places[found.index], length=found.length)
    return np.concatenate([exact(thin, thick, field.aim, off) for off in sorted({miss, -miss})])


def _thin_part(field: Field, sides: Sides, counts: tuple[int, int]) -> tuple[Halves, tuple[int, ...]]:
    """Return the choices of so many thin blocks that thick ones can complete, and what those have to make.

    Both on nominal sizes; what is to be made counts steps of the table of the thick blocks.
    """
    places = np.asarray(sides.of(thin=True), dtype=np.int64)
    own = replace(field, lengths=[field.lengths[place] for place in places], guide=None)
    found = halves(own, counts[0], counts[0])
    guide, index = field.guide, places[found.index]
    sizes = np.asarray(guide.sizes if guide else (), dtype=np.int64)
    coarse = sides.table.step // guide.table.step if guide else 1
    completed = np.zeros(len(index), dtype=bool)
    rests: set[int] = set()
    for height in guide.heights if guide else ():
        rest = height - sizes[index].sum(axis=1)
        does = (rest % coarse == 0) & sides.table.within(rest // coarse, counts[1])
        completed |= does
        rests.update(int(one) for one in np.unique(rest[does] // coarse))
    return Halves(index=index[completed], length=found.length[completed]), tuple(sorted(rests))


def _thick_guide(field: Field, sides: Sides, rests: tuple[int, ...]) -> Guide | None:
    """Return the guide of the thick blocks, on their own table."""
    if field.guide is None:
        return None
    coarse = sides.table.step // field.guide.table.step
    sizes = tuple(field.guide.sizes[place] // coarse for place in sides.of(thin=False))
    return Guide(table=sides.table, sizes=sizes, heights=rests)
