"""A survey as strips of characters: a line for each count, a column for each lot of heights.

    >>> for line in picture(found, Unit.INCH, LINES): print(line)

The darker a column, the more of its heights are made; the shades differ by
shape as well, so neither colour nor a fine screen is needed.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.cards.drawing import LINES, Pen
from gaugestack.lengths import exact_text
from gaugestack.stacks.health import percent_text
from gaugestack.stacks.survey import bins

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.lengths import Unit
    from gaugestack.stacks.survey import Bin, Survey

COLUMNS = 48
"""Columns of a strip."""
MOST_ROWS = 12
"""Counts that get a strip of their own."""
SHADES = " ░▒▓█"
ASCII_SHADES = " .:+#"
NEARLY, HALF, LITTLE = Fraction(9, 10), Fraction(1, 2), Fraction(1, 1000)
LOST = "x"
_LABEL = 9


def picture(found: Survey, unit: Unit, pen: Pen = LINES) -> Iterator[str]:
    """Return the lines of the picture, with the share of each count now and as issued beside it."""
    columns = bins(found, COLUMNS)
    side, ends = pen.side, _ends(found, unit, len(columns) + 2)
    yield f"{'at most':<{_LABEL}} {ends}{'now':>8}{'as issued':>11}"
    for count in counts_shown(found.top):
        strip = f"{side}{''.join(shade(column.within(count), pen) for column in columns)}{side}"
        now, before = share_text(found.share(count)), share_text(found.share_issued(count))
        yield f"{blocks_said(count):<{_LABEL}} {strip:<{len(ends)}}{now:>8}{before:>11}"
    if found.lost:
        yield f"{'lost':<{_LABEL}} {side}{''.join(_mark(column) for column in columns)}{side}"
    yield ""
    yield " " * (_LABEL + 1) + legend(pen, lost=bool(found.lost))


def counts_shown(top: int) -> list[int]:
    """Return the counts that get a strip: all, or the first ones and the last."""
    counts = list(range(1, top + 1))
    return counts if top <= MOST_ROWS else [*counts[: MOST_ROWS - 1], top]


def shade(share: Fraction, pen: Pen = LINES) -> str:
    """Return the character of a share: all, nine tenths, half, some, none."""
    shades = SHADES if pen is LINES else ASCII_SHADES
    if share == 1:
        return shades[4]
    return shades[3] if share >= NEARLY else shades[2] if share >= HALF else shades[bool(share)]


def legend(pen: Pen = LINES, *, lost: bool = False) -> str:
    """Return what the characters mean."""
    shades = SHADES if pen is LINES else ASCII_SHADES
    said = f"{shades[4]} all   {shades[3]} 90 % or more   {shades[2]} half or more   {shades[1]} some"
    return f"{said}   {LOST} some lost" if lost else said


def share_text(share: Fraction) -> str:
    """Print a share as per cent, cut; what is above nothing never looks like nothing."""
    return "<0.1 %" if 0 < share < LITTLE else percent_text(share)


def blocks_said(count: int) -> str:
    """Return a count with its word."""
    return f"{count} block{'s' * (count != 1)}"


def _mark(column: Bin) -> str:
    """Return the mark of a column where heights were lost."""
    return LOST if column.lost else " "


def _ends(found: Survey, unit: Unit, width: int) -> str:
    """Return the ends of the range above the ends of a strip."""
    low, high = exact_text(found.span.low, unit), exact_text(found.span.high, unit)
    room = width - len(low) - len(high)
    return f"{low}{' ' * room}{high}" if room > 0 else f"{low:<{width}}"
