"""Joints and the orders that keep them: the physics of a job of many set-ups.

What is taken to be true, and is all that is:

    joint    two blocks wrung on each other, an unordered pair of neighbours in
             the stack; turning a pile over parts nothing
    kept     a joint of one set-up that is a joint of the next one too
    made     every other joint of the next set-up: one wring each
    parted   a joint that the next set-up has no use for is slid apart, also
             where a later set-up would want it again: nothing is left wrung
             aside (left wrung, faces seize: common practice)

A stack may stand in every order in which thin blocks stand inside where two
thicker ones are there for the ends, and blocks with one good face stand at an
end, thin or not.  The thickest block need not be the base here, because a pile kept is the
base; the thicker of the two ends stands below.
"""

from __future__ import annotations

from itertools import pairwise, permutations
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

MOST_ORDERED = 7
"""Stacks of more blocks are not tried in every order: 8 blocks have 20 160."""

Joint = tuple[int, int]
"""Two piece numbers, the smaller first."""
Joints = frozenset[Joint]
"""The joints of a stack, or those two stacks have together."""


def joints(order: Sequence[int]) -> Joints:
    """Return the joints of a stack of piece numbers."""
    return frozenset((a, b) if a < b else (b, a) for a, b in pairwise(order))


def allowed(order: Sequence[int], thin: Iterable[int], one_face: Iterable[int]) -> bool:
    """Return whether thin pieces stand inside where they can, and pieces with one good face at an end."""
    if len(order) < 2:
        return True
    ends, small = (order[0], order[-1]), set(thin)
    thick = sum(piece not in small for piece in order)
    if sum(piece in small for piece in ends) > max(0, 2 - thick):
        return False
    faces = set(one_face)
    return not any(piece in faces for piece in order[1:-1])


def orders(pieces: Sequence[int], thin: Iterable[int], one_face: Iterable[int]) -> Iterator[tuple[int, ...]]:
    """Return every allowed order of the pieces, the lower number of the two ends first.

    Piece numbers count from the largest block, so the thicker end is the base.
    """
    small, faces = frozenset(thin), frozenset(one_face)
    for order in permutations(sorted(pieces)):
        if order[0] <= order[-1] and allowed(order, small, faces):
            yield order


class Bounds:
    """How many joints two stacks can have together at most, looked at alone.

    Depends only on how many blocks, thick and thin, they have together and
    apart, so every such pattern is worked out once.
    """

    def __init__(self) -> None:
        """Begin with no pattern."""
        self._known: dict[tuple[int, ...], int] = {}

    def most(self, both: tuple[int, int], one: tuple[int, int], other: tuple[int, int]) -> int:
        """Return the most joints kept; each argument counts (thick, thin): common, one's own, the other's."""
        low, high = sorted((one, other))
        key = (*both, *low, *high)
        if key not in self._known:
            self._known[key] = _most(both, one, other)
        return self._known[key]


def _most(both: tuple[int, int], one: tuple[int, int], other: tuple[int, int]) -> int:
    """Return the most joints that some allowed orders of two stacks have together."""
    ceiling = max(0, sum(both) - 1)
    if ceiling == 0 or sum(both) + max(sum(one), sum(other)) > MOST_ORDERED:
        return ceiling
    first, second = (_shared(both, alone) for alone in (one, other))
    best = 0
    for a in first:
        for b in second:
            best = max(best, len(a & b))
        if best == ceiling:
            break
    return best


def _shared(both: tuple[int, int], alone: tuple[int, int]) -> set[Joints]:
    """Return what joints among the common pieces the orders of one stack can have."""
    common = sum(both)
    thin = {*range(both[0], common), *range(common + alone[0], common + sum(alone))}
    found = orders(range(common + sum(alone)), thin, ())
    return {frozenset(joint for joint in joints(order) if joint[1] < common) for order in found}
