"""The way out of a request that only blocks with one good face stand in the way of.

    >>> for way in with_two_faces(request, outcome, effort): ...

Such a block stands at an end, so a stack has room for two of them and a wear
pair for none.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from gaugestack.blocks import in_order
from gaugestack.stacks.request import Found, WayOut
from gaugestack.stacks.solve import compose

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.stacks.effort import Effort
    from gaugestack.stacks.request import Impossible, StackRequest


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
