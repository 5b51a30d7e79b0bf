"""Do these angle blocks meet this request?  Names every broken rule; knows no solver.

    >>> broken_rules(request, built)   # () where all is well

Works from the request and the blocks alone, adding up again.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text, dms_text
from gaugestack.errors import OurBug

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.stacks.anglerequest import AngleBuilt, AngleRequest


def approve(request: AngleRequest, built: AngleBuilt) -> None:
    """Raise OurBug naming every rule the blocks break; say nothing where they break none."""
    broken = broken_rules(request, built)
    if broken:
        raise OurBug.because(broken)


def broken_rules(request: AngleRequest, built: AngleBuilt) -> tuple[str, ...]:
    """Return one sentence for every rule of the request that the blocks break."""
    return tuple(sentence for rule in _RULES for sentence in rule(request, built))


def answers_the_target(request: AngleRequest, built: AngleBuilt) -> Iterator[str]:
    """Require the answer to be one to the angle asked."""
    if built.target != request.target:
        yield f"{dms_text(built.target, 1)} is answered where {dms_text(request.target, 1)} was asked"


def within_tolerance(request: AngleRequest, built: AngleBuilt) -> Iterator[str]:
    """Require the sum of what is added less what is turned round within the tolerance."""
    added = sum(one.block.angle.arcseconds for one in built.placed if not one.turned)
    away = sum(one.block.angle.arcseconds for one in built.placed if one.turned)
    off = added - away - request.target.arcseconds
    if abs(off) > request.tolerance:
        yield f"the blocks miss {dms_text(request.target, 1)} by {arcsec_text(off)}"


def no_block_twice(request: AngleRequest, built: AngleBuilt) -> Iterator[str]:
    """Require every piece at most once, whichever way it points."""
    del request
    for block, times in Counter(one.block for one in built.placed).items():
        if times > 1:
            yield f"block {block.engraved} is used {times} times"


def only_allowed_blocks(request: AngleRequest, built: AngleBuilt) -> Iterator[str]:
    """Require every block to come from the pool."""
    for one in built.placed:
        if one.block not in request.pool:
            yield f"block {one.block.engraved} is not among the blocks allowed"


def square_not_turned(request: AngleRequest, built: AngleBuilt) -> Iterator[str]:
    """Require the square to be added only: it has no way to point."""
    del request
    if any(one.turned and one.block.square for one in built.placed):
        yield "the square is turned round"


def not_too_many(request: AngleRequest, built: AngleBuilt) -> Iterator[str]:
    """Require no more blocks than allowed."""
    if request.most is not None and len(built.placed) > request.most:
        yield f"{len(built.placed)} blocks where at most {request.most} were allowed"


def something_stands(request: AngleRequest, built: AngleBuilt) -> Iterator[str]:
    """Require at least one block."""
    del request
    if not built.placed:
        yield "an angle without blocks"


_RULES = (
    answers_the_target,
    within_tolerance,
    no_block_twice,
    only_allowed_blocks,
    square_not_turned,
    not_too_many,
    something_stands,
)
