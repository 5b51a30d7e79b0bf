"""The blocks at hand: one set, or several together, as they stand on a day.

    >>> stock = load(["inch-81"])
    >>> len(stock.fit)
    81

Blocks of several sets keep the name of their set as `owner`; inch and metric
blocks may stand in one stack, their lengths are exact in both.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.blocks import Block, BlockSet, in_order
from gaugestack.inventory.stockroom import Piece, as_described, open_set
from gaugestack.stacks.request import Withheld

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from gaugestack.angles.sine import SineBar
    from gaugestack.inventory.events import Record
    from gaugestack.lengths import Length, Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """One set or several, every piece of them, the bars they describe.

    The first set gives the unit of bare numbers and the step tolerances are
    halves of.  `warnings` says what is odd about a ledger.  `records` holds
    the ledger of each set, `on` is the day the sets are looked at.
    """

    sets: tuple[BlockSet, ...]
    pieces: tuple[Piece, ...]
    bars: tuple[SineBar, ...] = ()
    warnings: tuple[str, ...] = ()
    records: tuple[tuple[Record, ...], ...] = ()
    on: dt.date | None = None

    @property
    def block_set(self) -> BlockSet:
        """The first set."""
        return self.sets[0]

    @property
    def name(self) -> str:
        """The names of all sets."""
        return " + ".join(found.name for found in self.sets)

    @property
    def unit(self) -> Unit:
        """The unit of bare numbers."""
        return self.block_set.unit

    @property
    def step(self) -> Length:
        """The finest step of the first set."""
        return self.block_set.finest_step

    @property
    def fit(self) -> tuple[Block, ...]:
        """The blocks fit for use that are no wear blocks."""
        return tuple(piece.block for piece in self.pieces if piece.fit and not piece.block.wear)

    @property
    def wear(self) -> tuple[Block, ...]:
        """The wear blocks fit for use."""
        return tuple(piece.block for piece in self.pieces if piece.fit and piece.block.wear)

    @property
    def end_only(self) -> tuple[Block, ...]:
        """The fit blocks with one good face."""
        return tuple(piece.block for piece in self.pieces if piece.fit and piece.end_only)

    @property
    def withheld(self) -> tuple[Withheld, ...]:
        """The pieces that are not fit, each with the states that bit."""
        unfit = (piece for piece in self.pieces if not piece.fit)
        return tuple(Withheld(block=piece.block, reason="; ".join(piece.reasons)) for piece in unfit)

    @property
    def uses(self) -> tuple[tuple[Block, int], ...]:
        """How often each block was used, where it was."""
        return tuple((piece.block, piece.uses) for piece in self.pieces if piece.uses)

    @property
    def owners(self) -> tuple[str, ...]:
        """What the blocks of each set call their owner: its name, numbered from the second of one name."""
        names = [found.name for found in self.sets]
        times = [names[: place + 1].count(name) for place, name in enumerate(names)]
        return tuple(_owner(name, number) for name, number in zip(names, times, strict=True))

    def at_hand(self) -> int:
        """Return how many pieces are fit for use, wear blocks included."""
        return sum(piece.fit for piece in self.pieces)


def load(names: Sequence[str], *, on: dt.date | None = None, job: str = "") -> Stock:
    """Return the stock of sets by file or shipped name, at the end of the day `on`.

    Raises UsageError for an unknown name, RefusedFile with every fault of a
    set file or ledger.
    """
    opened = [open_set(name, on=on, job=job) for name in names]
    stocks = [
        Stock(
            sets=(found.block_set,),
            pieces=found.pieces,
            bars=found.bars,
            warnings=found.warnings,
            records=(found.records,),
            on=on,
        )
        for found in opened
    ]
    return stocks[0] if len(stocks) == 1 else together(stocks)


def stock_of(block_set: BlockSet, bars: tuple[SineBar, ...] = ()) -> Stock:
    """Return the stock of a set that is already read, without a ledger."""
    return Stock(sets=(block_set,), pieces=as_described(block_set), bars=bars)


def together(stocks: Sequence[Stock]) -> Stock:
    """Return several stocks as one; sets of the same name are numbered, so that no piece is lost."""
    pieces: list[Piece] = []
    seen: dict[str, int] = {}
    for stock in stocks:
        for found in stock.sets:
            seen[found.name] = seen.get(found.name, 0) + 1
        number = max(seen[found.name] for found in stock.sets)
        pieces += [_owned(piece, number) for piece in stock.pieces]
    order = {block: place for place, block in enumerate(in_order(piece.block for piece in pieces))}
    return Stock(
        sets=tuple(found for stock in stocks for found in stock.sets),
        pieces=tuple(sorted(pieces, key=lambda piece: order[piece.block])),
        bars=tuple(bar for stock in stocks for bar in stock.bars),
        warnings=tuple(text for stock in stocks for text in stock.warnings),
        records=tuple(records for stock in stocks for records in (stock.records or ((),) * len(stock.sets))),
        on=stocks[0].on,
    )


def _owned(piece: Piece, number: int) -> Piece:
    """Return a piece that says which of several sets of one name it belongs to."""
    if number < 2:
        return piece
    return replace(piece, block=replace(piece.block, owner=_owner(piece.block.owner, number)))


def _owner(name: str, number: int) -> str:
    """Return the name of the `number`-th set of one name."""
    return f"{name} ({number})" if number > 1 else name
