"""Heights that want the same odd blocks: shown impossible by counting, without a search.

    >>> shortage(groups, wants, step)       # Shortage(modulus, wanted=2, there=1), or None

On a coarser step most blocks are whole multiples; only the odd ones can make
what is left of a height over a multiple of it.  How many odd blocks each
height takes at least is a small table of remainders; where all heights
together take more than there are, no stacks make them all, whatever else
stands in them.  A condition that is necessary, not sufficient: None says nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import gcd
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

MOST_REMAINDERS = 1000
"""A coarser step of more steps of the grid is not tried."""
MOST_TRIED = 2000
"""Nor one of more remainders times odd blocks: a table that costs more than it saves."""

Sizes = tuple[tuple[int, int], ...]
"""Sizes in steps of the grid, each with how many pieces there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortage:
    """So many blocks that are no multiple of `modulus` grid steps are `wanted`, and fewer are `there`."""

    modulus: int
    wanted: int
    there: int


def shortage(sizes: Sizes, wants: Sequence[range]) -> Shortage | None:
    """Return why these blocks cannot make a height of every range at once, if counting shows it."""
    for modulus in _moduli(sizes):
        odd = tuple((size % modulus, pieces) for size, pieces in sizes if size % modulus)
        there = sum(pieces for _, pieces in odd)
        if there * modulus > MOST_TRIED:
            continue
        fewest = _fewest(odd, modulus)
        needs = [_need(fewest, want, modulus) for want in wants]
        wanted = sum(there + 1 if need is None else need for need in needs)
        if wanted > there:
            return Shortage(modulus=modulus, wanted=wanted, there=there)
    return None


def _moduli(sizes: Sizes) -> Iterator[int]:
    """Return the coarser steps that some of the blocks share, the finest first.

    Each is the greatest step of all blocks from one size on, when the sizes
    stand by how fine a step they need.
    """
    seen: set[int] = set()
    common = 0
    for size in sorted({size for size, _ in sizes}, key=_roundness, reverse=True):
        common = gcd(common, size)
        seen.add(_small(common))
    return iter(sorted(seen - {1}))


def _small(step: int) -> int:
    """Return a step, or a round divisor of it where it is too large for a table."""
    return step if step <= MOST_REMAINDERS else gcd(step, MOST_REMAINDERS)


def _roundness(size: int) -> int:
    """Return the largest product of twos and fives that divides a size: how round it is in decimals."""
    return gcd(size, 10**9)


def _fewest(odd: Sizes, modulus: int) -> dict[int, int]:
    """Return the fewest odd blocks for every remainder they make."""
    fewest = {0: 0}
    for remainder in (remainder for remainder, pieces in odd for _ in range(pieces)):
        for made, count in tuple(fewest.items()):
            place = (made + remainder) % modulus
            fewest[place] = min(count + 1, fewest.get(place, count + 1))
    return fewest


def _need(fewest: dict[int, int], want: range, modulus: int) -> int | None:
    """Return the fewest odd blocks for any height of a range; None where they make none of them."""
    if len(want) >= modulus:
        return 0
    made = [fewest[height % modulus] for height in want if height % modulus in fewest]
    return min(made, default=None)
