"""Ranges of heights as they are typed: `4..50mm`, `0.2in..4in`, `0.2..4in`.

    >>> looked = read_span("4..50mm", stock=stock, blocks=issued)
    >>> looked.span, looked.remarks

A number without a unit takes the unit of the other end, else the set's.  The
heights looked at lie on a step; ends between two steps move inward, and a
remark says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.blocks import grid
from gaugestack.errors import Place, TextError, UsageError
from gaugestack.lengths import Length, exact_text, read_length
from gaugestack.stacks.survey import Span

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.lengths import ReadLength, Unit

DOTS = ".."
_HINT = "write a range like 4..50mm, 0.2in..4in or 0.2..4in"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadSpan:
    """A range on the steps of a set, and what a person should know of how it was read."""

    span: Span
    remarks: tuple[str, ...] = ()


def read_span(
    text: str, *, stock: Stock, blocks: Sequence[Block], step: str | None = None, argument: str = "RANGE"
) -> ReadSpan:
    """Return the heights of a range as typed, in steps as typed or else of the first set.

    `blocks` are those whose grid the step has to lie on.  Raises UsageError
    for a text that is no range, a range without a height, or such a step.
    """
    low, high = read_range(text, stock.unit, argument)
    every = _step(step, stock, grid(blocks))
    first, last = Length(max(-(-low.length // every), 1) * every), Length(high.length // every * every)
    if first > last:
        sentence = f"no multiple of {exact_text(every, stock.unit)} lies between these heights"
        raise UsageError.about(argument, sentence)
    ends = (_moved(low.length, first, "begins", stock.unit), _moved(high.length, last, "ends", stock.unit))
    return ReadSpan(span=Span(low=first, high=last, step=every), remarks=tuple(text for text in ends if text))


def read_range(text: str, unit: Unit, argument: str = "RANGE") -> tuple[ReadLength, ReadLength]:
    """Return both ends of a range; `unit` is taken where neither has one.

    The low end may be zero.  Raises UsageError with the wrong characters.
    """
    low_text, dots, high_text = text.partition(DOTS)
    if not dots:
        raise UsageError.about(argument, f"{text!r} is no range of heights", hint=_HINT)
    high = _end(text, high_text, len(low_text) + len(DOTS), unit, argument)
    low = _end(text, low_text, 0, high.unit, argument)
    if high.bare and not low.bare:
        high = _end(text, high_text, len(low_text) + len(DOTS), low.unit, argument)
    if low.length < 0 or low.length > high.length:
        sentence = "below zero" if low.length < 0 else "the first height is above the last"
        raise UsageError.about(argument, f"{text!r}: {sentence}", hint=_HINT)
    return low, high


def _end(whole: str, text: str, offset: int, unit: Unit, argument: str) -> ReadLength:
    """Return one end of a range, a bare number in `unit`."""
    try:
        return read_length(text, bare_unit=unit, signed=not offset)
    except TextError as error:
        raise UsageError([error.at(Place(file=argument), source=whole, offset=offset)]) from None


def _step(text: str | None, stock: Stock, own: Length) -> Length:
    """Return the step as typed, or the first set's; it lies on the grid of the blocks."""
    if not own:
        raise UsageError.about("--set", f"{stock.name} has no ordinary block")
    if text is None:
        return stock.step
    try:
        step = read_length(text, bare_unit=stock.unit).length
    except TextError as error:
        raise error.named("--step") from None
    if step % own:
        hint = f"take a multiple of {exact_text(own, stock.unit)}"
        raise UsageError.about("--step", f"{text} does not lie on the grid of {stock.name}", hint=hint)
    return step


def _moved(asked: Length, taken: Length, verb: str, unit: Unit) -> str:
    """Say where a range begins or ends instead, if it does."""
    if asked == taken:
        return ""
    why = "the first step above zero" if not asked else "the nearest step inside"
    return f"the range {verb} at {exact_text(taken, unit)}, {why}"
