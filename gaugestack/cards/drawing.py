"""A stack drawn in characters, in our own way: base below, running totals beside it.

    >>> for line in drawn(plan.stack, Unit.INCH): print(line)

Taller blocks take more lines (one up to 10 mm, two up to 30 mm, three above);
wear blocks are hatched.  Read from the bottom up, as it is built.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.cards.owners import NO_LABELS, block_said
from gaugestack.lengths import PM_PER_MM, engraved_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from gaugestack.blocks import Block, Stack
    from gaugestack.lengths import Unit

WIDTH = 22
"""Columns inside a block."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """The characters a drawing is made of."""

    top: str
    joint: str
    foot: str
    side: str
    wear: str
    plate: str
    dash: str


LINES = Pen(top="┌┐", joint="├┤", foot="└┘", side="│", wear="░", plate="▒", dash="─")
ASCII = Pen(top="++", joint="++", foot="++", side="|", wear=":", plate="#", dash="-")


def drawn(
    stack: Stack, unit: Unit, pen: Pen = LINES, labels: Mapping[str, str] = NO_LABELS
) -> tuple[str, ...]:
    """Return the lines of a drawing, the top block first; 60 columns at most.

    `labels` are the letters of the sets, where the blocks are of several.
    """
    totals = stack.running_totals()
    lines = [_rule(pen.top, pen)]
    for index in reversed(range(len(stack.blocks))):
        block, foot = stack.blocks[index], pen.joint if index else pen.foot
        side = _side_note(block, engraved_text(totals[index], unit))
        lines += _block_lines(index, block, (block_said(block, labels), side), pen)
        lines.append(_rule(foot, pen))
    return (*lines, "    " + pen.plate * (WIDTH + 6) + "  plate")


def _block_lines(index: int, block: Block, texts: tuple[str, str], pen: Pen) -> Iterator[str]:
    """Return the lines of one block: its place in the order, the texts inside and beside it."""
    rows = 1 + (block.nominal > 10 * PM_PER_MM) + (block.nominal > 30 * PM_PER_MM)
    fill = pen.wear if block.wear else " "
    for row in range(rows):
        middle = row == rows // 2
        label, side = (f" {texts[0]} ", texts[1]) if middle else ("", "")
        number = f"{index + 1:>3} " if middle else "    "
        yield f"{number}  {pen.side}{label.center(WIDTH, fill)}{pen.side}  {side}".rstrip()


def _side_note(block: Block, reached: str) -> str:
    """Return what stands beside a block: the height reached, the serial, the face."""
    note = "  wear, marked face out" if block.wear else ""
    serial = f"  #{block.serial}" if block.serial else ""
    return f"= {reached}{serial}{note}"


def _rule(corners: str, pen: Pen) -> str:
    """Return a horizontal line between two corners."""
    return f"      {corners[0]}{pen.dash * WIDTH}{corners[1]}"
