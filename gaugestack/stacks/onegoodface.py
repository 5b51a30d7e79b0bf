"""Blocks with one good face: every way to place them, and the way out where only they stand in the way.

    >>> for fixed in placings(request): ...
    >>> for way in with_two_faces(request, outcome, effort): ...

Such a block stands at an end, so a stack has room for two of them and a wear
pair for none.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from typing import TYPE_CHECKING

from gaugestack.blocks import in_order
from gaugestack.stacks.request import Found, WayOut
from gaugestack.stacks.solve import compose

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.blocks import Block
    from gaugestack.stacks.effort import Effort
    from gaugestack.stacks.request import Impossible, StackRequest


def placings(request: StackRequest) -> Iterator[tuple[Block, ...]]:
    """Return every way to place the blocks with one good face of a request for one target.

    Each is what then stands anyway, blocks kept in and wear pair included; what
    is left to choose among has two good faces.
    """
    free = [block for block in request.free if block in request.end_only]
    ends = 0 if request.pair(0) else 2
    room = ends - sum(block in request.end_only for block in request.kept_in)
    for count in range(min(room, len(free)) + 1):
        for chosen in combinations(free, count):
            yield (*request.kept_in, *chosen, *request.pair(0))


def two_faced(request: StackRequest) -> tuple[Block, ...]:
    """Return the blocks to choose among that have two good faces."""
    return tuple(block for block in request.free if block not in request.end_only)


def can_stand(request: StackRequest, fixed: tuple[Block, ...]) -> bool:
    """Return whether blocks make a stack without any other: not none, nor one with one good face."""
    return len(fixed) > 1 or (len(fixed) == 1 and fixed[0] not in request.end_only)


def with_two_faces(request: StackRequest, outcome: Impossible, effort: Effort | None) -> Iterator[WayOut]:
    """Return the stack that blocks with one good face would make if they had two, and name them."""
    del outcome
    if not request.end_only:
        return
    found = compose(replace(request, end_only=()), effort)
    if isinstance(found, Found):
        bit = in_order(block for built in found for block in built.blocks if block in request.end_only)
        named = ", ".join(block.engraved for block in bit)
        sentence = f"it could be made if {named} (one good face, at an end only) had two"
        yield WayOut(kind="one good face", sentence=sentence, built=found.stacks[0], blocks=bit)
