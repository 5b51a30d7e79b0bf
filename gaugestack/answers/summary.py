"""How well an answer is known, in one line, wherever its set tells enough.

    >>> of_stack(outcome, stock)     # one Summary a stack, or () where nothing is told

A set tells enough with a certificate that states an uncertainty, with a known
grade, or with a ledger that does.  Where none does, nothing of uncertainty/ is
even loaded.  The circumstances are the assumed ones; the whole budget, and
other circumstances, are answers/budget.py's.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.stacks.request import Found

if TYPE_CHECKING:
    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.oneline import Summary
    from gaugestack.answers.stock import Stock
    from gaugestack.stacks.request import Outcome


def tells(stock: Stock) -> bool:
    """Tell whether anything says how far the blocks of a stock may be off."""
    return any(
        (found.certificate and found.certificate.uncertainty) or (found.standard and found.grade)
        for found in stock.sets
    ) or any(piece.uncertainty is not None for piece in stock.pieces)


def of_stack(outcome: Outcome, stock: Stock, wear: str | None = None) -> tuple[Summary, ...]:
    """Return one summary for each stack found; none where a stack's blocks are not all known."""
    if not (isinstance(outcome, Found) and tells(stock)):
        return ()
    from gaugestack.answers.oneline import stack_summaries  # noqa: PLC0415  (only where a set tells enough)

    return stack_summaries(outcome, stock, wear)


def of_angle(
    outcome: Outcome, stock: Stock, asked: Angle, bar: SineBar, wear: str | None = None
) -> Summary | None:
    """Return the summary of the angle a stack sets; None where the stack's blocks are not all known."""
    if not (isinstance(outcome, Found) and tells(stock)):
        return None
    from gaugestack.answers.oneline import angle_summary  # noqa: PLC0415  (only where a set tells enough)

    return angle_summary(outcome, stock, (asked, bar), wear)
