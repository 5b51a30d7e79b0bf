"""The blocks on the bench to the angle and the taper they give on a bar.

>>> answer = from_stack(["0.5in", "0.1201in"], bar=bar, stock=stock)

The angle is that of the engraved sizes.  Where the set knows by how much its
blocks deviate, the sum and the angle of their certified lengths stand beside it;
which blocks the set does not hold is only remarked.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.flat import Flat
from gaugestack.angles.plates import Seat
from gaugestack.angles.plates import from_stack as read_stack
from gaugestack.angles.sine import angle_of
from gaugestack.answers.asked import asked_length, spoken_of
from gaugestack.answers.stackremarks import UNIT_WORDS
from gaugestack.blocks import Basis, total
from gaugestack.errors import UsageError, nearest
from gaugestack.lengths import Length, engraved_text, exact_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.plates import FromStack
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block, Trust
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
class CertifiedSum:
    """The blocks by their certified lengths: `counted` of them the set knows, the others by their sizes.

    `angle` is what the sum sets on the bar, None where it leaves the bar; `sources`
    says where the deviations come from.
    """

    length: Length
    angle: Angle | None
    counted: int
    sources: tuple[Trust, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FromStackAnswer:
    """What blocks give on a bar: the angle, the wedge of that angle, the cone of each seat.

    `certified` is None where the set knows the deviation of none of the blocks.
    """

    blocks: tuple[ReadLength, ...]
    length: Length
    bar: SineBar
    angle: Angle
    flat: Flat
    seats: tuple[FromStack, ...]
    certified: CertifiedSum | None = None
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
    pieces = _pieces(blocks, stock)
    return FromStackAnswer(
        blocks=blocks,
        length=length,
        bar=bar,
        angle=angle,
        flat=Flat(call_out=exact_text(length, bar.unit), reading="the blocks on the bench", angle=angle),
        seats=seats,
        certified=_certified(blocks, pieces, bar),
        remarks=tuple(_remarks(blocks, pieces, stock)),
    )


def _pieces(blocks: Sequence[ReadLength], stock: Stock) -> tuple[Block | None, ...]:
    """Return the piece of the set that each size names, fit ones first, wear blocks last; or None."""
    pieces = sorted(stock.pieces, key=lambda piece: (not piece.fit, piece.block.wear))
    left = [piece.block for piece in pieces]
    found: list[Block | None] = []
    for block in blocks:
        piece = next((one for one in left if one.nominal == block.length), None)
        found.append(piece)
        if piece is not None:
            left.remove(piece)
    return tuple(found)


def _certified(
    blocks: Sequence[ReadLength], pieces: Sequence[Block | None], bar: SineBar
) -> CertifiedSum | None:
    """Return the sum and the angle by certified lengths; None where the set knows no deviation."""
    known = [piece for piece in pieces if piece is not None and piece.deviation is not None]
    if not known:
        return None
    off = total(known, Basis.CERTIFIED) - total(known)
    length = Length(sum(block.length for block in blocks) + off)
    rise = length - bar.base_height
    return CertifiedSum(
        length=length,
        angle=angle_of(Length(rise), bar) if 0 < rise <= bar.effective else None,
        counted=len(known),
        sources=tuple(dict.fromkeys(piece.trust for piece in known)),
    )


def _remarks(blocks: Sequence[ReadLength], pieces: Sequence[Block | None], stock: Stock) -> Iterator[str]:
    """Say which unit was taken, which blocks the set does not hold, and which pieces were taken."""
    bare = [block.text for block in blocks if block.bare]
    if bare:
        yield f"{', '.join(bare)} taken in {UNIT_WORDS[stock.unit]}, the unit of {stock.block_set.name}"
    for block, piece in zip(blocks, pieces, strict=True):
        if piece is None:
            yield f"{stock.name} holds no {engraved_text(block.length, block.unit)} for it"
    counted = [piece for piece in pieces if piece is not None]
    for size in dict.fromkeys(piece.nominal for piece in counted):
        yield from _which([piece for piece in counted if piece.nominal == size], stock)


def _which(counted: Sequence[Block], stock: Stock) -> Iterator[str]:
    """Say which of the pieces of one size were counted, where others deviate otherwise."""
    alike = [piece.block for piece in stock.pieces if piece.block.nominal == counted[0].nominal]
    if len(alike) > len(counted) and len({block.deviation for block in alike}) > 1:
        serials = ", ".join(block.serial or f"piece {block.copy}" for block in counted)
        said = f"of {len(alike)} pieces of {counted[0].engraved} that deviate differently"
        yield f"{said}, {serials} is counted"
