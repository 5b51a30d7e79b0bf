"""The nearest lengths below and above a target where no table holds every sum.

    >>> for side, near, built in nearest_stacks(request): ...

Certified lengths, and inch and metric blocks together, have no common grid.
Stacks are then compared by halves, count by count, as far as there are not too
many halves; `at_most` says how far that was where it was not to the end.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import comb
from typing import TYPE_CHECKING

from gaugestack.blocks import in_order, total
from gaugestack.lengths import Length
from gaugestack.stacks.closest import Field, closest
from gaugestack.stacks.onegoodface import can_stand, placings, two_faced
from gaugestack.stacks.solve import exactly

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.blocks import Block
    from gaugestack.stacks.effort import Effort
    from gaugestack.stacks.request import Built, StackRequest

MOST_HALVES = 120_000
"""Halves of one count that are worth the wait for a hint."""
SIDES = {"below": -1, "above": 1}
_Best = tuple[int, tuple["Block", ...]]
"""A miss, and the free blocks of the stacks that have it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """The nearest length on one side, with all that stands anyway, and the blocks that can make it.

    `at_most` is the largest number of blocks that was looked at, None where
    stacks of more blocks cannot come nearer.
    """

    length: Length
    blocks: tuple[Block, ...]
    at_most: int | None = None


def nearest_stacks(request: StackRequest, effort: Effort | None = None) -> Iterator[tuple[str, Near, Built]]:
    """Return the nearest stacks on both sides of the tolerance that every rule of the request allows."""
    for name, side in SIDES.items():
        near = nearest_length(request, side)
        built = built_of(request, near, effort) if near else None
        if near and built:
            yield name, near, built


def nearest_length(request: StackRequest, side: int) -> Near | None:
    """Return the nearest length outside the tolerance of the first target: -1 below, 1 above.

    It includes the wear pair and the blocks kept in, respects the largest
    count, and has an end for every block with one good face.
    """
    most = request.most
    while True:
        asked = replace(request, most=most)
        looked = [_nearest_with(asked, fixed, side) for fixed in placings(request)]
        limits = [limit for _, limit in looked if limit is not None]
        if not limits:
            break
        most = min(limits)
    found = [near for near, _ in looked if near]
    if not found:
        return None
    length = min((near.length for near in found), key=lambda length: length * side)
    blocks = dict.fromkeys(block for near in found if near.length == length for block in near.blocks)
    return Near(length=length, blocks=tuple(blocks), at_most=most if most != request.most else None)


def _nearest_with(
    request: StackRequest, fixed: tuple[Block, ...], side: int
) -> tuple[Near | None, int | None]:
    """Return the nearest length with some blocks standing anyway, all others with two good faces.

    And the largest number of blocks that was looked at, None where that was to the end.
    """
    stands, free = total(fixed, request.basis), two_faced(request)
    edge = request.targets[0] + side * request.tolerance - stands
    most = _most(request, fixed)
    if most < 0:
        return None, None
    bare: _Best | None = (-edge * side, ()) if can_stand(request, fixed) and edge * side < 0 else None
    largest = sorted(free, key=lambda block: -block.length(request.basis))[:most]
    top = total(largest, request.basis)
    if not largest or (top <= edge and side > 0):
        best, far = bare, None
    elif top < edge:
        best, far = (edge - top, tuple(largest)), None
    else:
        best, far = _by_counts(request, (edge, side, most), bare)
    limit = None if far is None else far + len(fixed)
    if best is None:
        return None, limit
    chosen = (block for block in fixed if block in request.free)
    return Near(length=Length(edge + side * best[0] + stands), blocks=(*chosen, *best[1])), limit


def built_of(request: StackRequest, near: Near, effort: Effort | None = None) -> Built | None:
    """Return the best stack of a near length under every rule of the request, or None."""
    pool = in_order((*request.kept_in, *near.blocks))
    end_only = tuple(block for block in request.end_only if block in pool)
    return exactly(replace(request, pool=pool, end_only=end_only), near.length, effort)


def _by_counts(
    request: StackRequest, wanted: tuple[int, int, int], best: _Best | None
) -> tuple[_Best | None, int | None]:
    """Return the nearest free blocks of every count that can be looked at, and how far that was.

    `wanted` is the edge of the tolerance, the side of it, and the most blocks.
    """
    free, (edge, side, most) = two_faced(request), wanted
    lengths = [block.length(request.basis) for block in free]
    useful = min(most, _fit(lengths, edge) + (side > 0))
    counts = [k for k in range(1, useful + 1) if _halves(len(free), k) <= MOST_HALVES]
    for count in counts:
        within = best[0] - 1 if best else max(edge, sum(lengths) - edge)
        found = closest(Field(lengths=lengths, aim=edge, within=within, side=side), count, 0)
        if found:
            best = (found.miss, tuple(free[index] for index in found.members))
    far = counts[-1] if counts else 0
    return best, None if far == useful else far


def _most(request: StackRequest, fixed: tuple[Block, ...]) -> int:
    """Return the largest number of blocks a stack may have besides those that stand anyway."""
    free = len(two_faced(request))
    return free if request.most is None else min(free, request.most - len(fixed))


def _fit(lengths: list[Length], edge: int) -> int:
    """Return how many of the blocks, the smallest first, reach no higher than the edge."""
    count = 0
    for length in sorted(lengths):
        edge -= length
        if edge < 0:
            break
        count += 1
    return count


def _halves(blocks: int, count: int) -> int:
    """Return how many halves stacks of `count` out of so many blocks have."""
    return comb(blocks, min(count - count // 2, blocks // 2))
