"""The blocks on the bench to the angle and the taper they give on a bar.

>>> answer = from_stack(["0.5in", "0.1201in"], bar=bar, stock=stock)

A pure sum of what is named: whether a set holds the blocks is only remarked.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.flat import Flat
from gaugestack.angles.plates import Seat
from gaugestack.angles.plates import from_stack as read_stack
from gaugestack.answers.asked import asked_length, spoken_of
from gaugestack.answers.stackremarks import UNIT_WORDS
from gaugestack.errors import UsageError, nearest
from gaugestack.lengths import Length, engraved_text, exact_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.plates import FromStack
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import ReadLength

SEATS = {
    "flank": Seat.FLANK_ON_BAR,
    "axis": Seat.AXIS_ON_BAR,
    "bar-on-flank": Seat.BAR_ON_FLANK,
    "bar-above-axis": Seat.BAR_ABOVE_AXIS,
}
_USUAL = (Seat.FLANK_ON_BAR, Seat.AXIS_ON_BAR)
_MOST_BLOCKS = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class FromStackAnswer:
    """What blocks give on a bar: the angle, the wedge of that angle, the cone of each seat."""

    blocks: tuple[ReadLength, ...]
    length: Length
    bar: SineBar
    angle: Angle
    flat: Flat
    seats: tuple[FromStack, ...]
    remarks: tuple[str, ...] = ()


def seat_of(word: str | None) -> Seat | None:
    """Return the seat a word names.  Raises UsageError."""
    if word is None:
        return None
    if word not in SEATS:
        raise UsageError.about("--seat", f"{word!r} is no seat", hint=nearest(word, SEATS))
    return SEATS[word]


def from_stack(
    sizes: Sequence[str], *, bar: SineBar, stock: Stock, seat: Seat | None = None
) -> FromStackAnswer:
    """Return the angle of the blocks named and the cone it is; `seat` None answers for flank and axis.

    Raises UsageError where the stack is below the base height or above the bar.
    """
    if not 0 < len(sizes) <= _MOST_BLOCKS:
        raise UsageError.about("SIZE", f"from 1 to {_MOST_BLOCKS} blocks", hint="like 0.5in 0.1201in")
    blocks = tuple(asked_length(text, "SIZE", bare_unit=stock.unit) for text in sizes)
    length = Length(sum(block.length for block in blocks))
    with spoken_of({"stack": "SIZE", "height": "SIZE"}):
        seats = tuple(read_stack(length, bar, one) for one in ([seat] if seat else _USUAL))
    angle = seats[0].angle
    return FromStackAnswer(
        blocks=blocks,
        length=length,
        bar=bar,
        angle=angle,
        flat=Flat(call_out=exact_text(length, bar.unit), reading="the blocks on the bench", angle=angle),
        seats=seats,
        remarks=tuple(_remarks(blocks, stock)),
    )


def _remarks(blocks: Sequence[ReadLength], stock: Stock) -> Iterator[str]:
    """Say which unit was taken, and which blocks the set does not hold."""
    bare = [block.text for block in blocks if block.bare]
    if bare:
        yield f"{', '.join(bare)} taken in {UNIT_WORDS[stock.unit]}, the unit of {stock.block_set.name}"
    held = [piece.block.nominal for piece in stock.pieces]
    for block in blocks:
        if block.length in held:
            held.remove(block.length)
        else:
            yield f"{stock.name} holds no {engraved_text(block.length, block.unit)} for it"
