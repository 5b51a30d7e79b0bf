"""What the set as it stands still makes: `reach HEIGHT` and `reach LOW..HIGH`.

    >>> answer = reach("0.6202in", stock=stock)
    >>> answer.at_hand.outcome, answer.issued
    >>> reach_range("0.2..4in", stock=stock, most=5).found.share(5)

Both stand beside the set as issued, which is every piece it ever had.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.answers.options import Choice, read_height
from gaugestack.answers.ranges import read_span
from gaugestack.answers.stack import compose_heights
from gaugestack.blocks import in_order
from gaugestack.stacks.request import Found
from gaugestack.stacks.solve import compose
from gaugestack.stacks.survey import survey

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.stacks.effort import Effort
    from gaugestack.stacks.request import Built, StackRequest
    from gaugestack.stacks.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachAnswer:
    """One height: the stack of the blocks at hand, or the proof and the ladder that `at_hand` carries.

    `issued` is the stack of the set as issued where that takes fewer blocks,
    `back` the blocks of it that are not at hand; None and none otherwise.
    """

    at_hand: StackAnswer
    issued: Built | None = None
    back: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeAnswer:
    """A range of heights: `pool` is what was counted, `missing` what the set as issued had besides."""

    stock: Stock
    pool: tuple[Block, ...]
    missing: tuple[Block, ...]
    found: Survey
    remarks: tuple[str, ...] = ()


def reach(
    height: str, *, stock: Stock, choice: Choice | None = None, effort: Effort | None = None
) -> ReachAnswer:
    """Return whether the blocks at hand make a height, and what the set as issued used.

    Raises UsageError as answers.stack.stack does.
    """
    read = (read_height(height, stock),)
    now = compose_heights(read, stock, choice or Choice(), effort)
    if not isinstance(now.outcome, Found):
        return ReachAnswer(at_hand=now)
    issued = _as_issued(now.request, now.outcome, effort)
    out = missing(now.request)
    back = in_order(block for block in issued.blocks if block in out) if issued else ()
    return ReachAnswer(at_hand=now, issued=issued, back=back)


def reach_range(
    text: str, *, stock: Stock, step: str | None = None, most: int | None = None, without: Sequence[str] = ()
) -> RangeAnswer:
    """Return what the blocks at hand make of a range, beside the set as issued.

    Counted on nominal sizes without wear blocks.  `most` is the largest count
    that makes a height reachable, None for any number.  Raises UsageError for
    a range, step, count or block that cannot be used.
    """
    request = Choice(without=tuple(without), most=most).request(stock, ())
    gone = missing(request)
    issued = in_order((*request.pool, *gone))
    looked = read_span(text, stock=stock, blocks=issued, step=step)
    pool = request.pool if gone else issued
    return RangeAnswer(
        stock=stock,
        pool=pool,
        missing=gone,
        found=survey(pool, issued, looked.span, most),
        remarks=(*looked.remarks, *one_face_remark(stock)),
    )


def missing(request: StackRequest) -> tuple[Block, ...]:
    """Return the ordinary blocks of the set as issued that a request may not use."""
    return in_order(withheld.block for withheld in request.withheld if not withheld.block.wear)


def one_face_remark(stock: Stock) -> tuple[str, ...]:
    """Say that a count of heights takes a block with one good face for a whole one."""
    named = ", ".join(block.engraved for block in stock.end_only)
    return (f"counted as if both faces were good: {named}",) if named else ()


def _as_issued(request: StackRequest, now: Found, effort: Effort | None) -> Built | None:
    """Return the stack of the set as issued where it is shorter than the one found."""
    out = missing(request)
    if not out:
        return None
    whole = replace(request, pool=in_order((*request.pool, *out)), withheld=())
    found = compose(whole, effort)
    if not isinstance(found, Found):
        return None
    built = found.stacks[0]
    return built if len(built.blocks) < len(now.stacks[0].blocks) else None
