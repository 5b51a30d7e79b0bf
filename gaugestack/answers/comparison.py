"""A set beside a shipped one of the same make, for a set without a record of what it was issued with.

    >>> beside = compared(stock, load(["inch-81"]))
    >>> beside.missing, beside.extra

Pieces are matched by size and by wear or not, nothing else: a shipped set
knows no serials.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.blocks import in_order
from gaugestack.errors import UsageError

if TYPE_CHECKING:
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block

_AWAY = ("lent ", "standing ", "reserved ")
"""How the ledger begins to say that a block is away and comes back: nobody buys another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """The fit blocks of a set (`pool`) beside what it should hold (`issued`), wear blocks included.

    `missing` is what would have to be bought, in canonical order; `away` what
    is not at hand but comes back; `extra` what is there and the other set has
    not; `there` of its `pieces` are fit for use here; `name` is the other
    set's, empty where the set is measured against itself.
    """

    pool: tuple[Block, ...]
    missing: tuple[Block, ...]
    away: tuple[Block, ...] = ()
    extra: tuple[Block, ...] = ()
    name: str = ""
    there: int = 0
    pieces: int = 0

    @property
    def whole(self) -> str:
        """What sentences call the set with nothing missing."""
        return f"a whole {self.name}" if self.name else "as issued"

    @property
    def issued(self) -> tuple[Block, ...]:
        """Everything the set holds, held or should hold."""
        return in_order((*self.pool, *self.missing, *self.away))


def compared(stock: Stock, like: Stock | None = None) -> Beside:
    """Return a set beside another, or beside itself as issued.

    Raises UsageError where one is in inches and the other in millimetres, or
    the two have no size in common.
    """
    pool = tuple(piece.block for piece in stock.pieces if piece.fit)
    away = tuple(piece.block for piece in stock.pieces if not piece.fit and _comes_back(piece.reasons))
    if like is None:
        gone = tuple(piece.block for piece in stock.pieces if not piece.fit and piece.block not in away)
        return Beside(pool=pool, missing=gone, away=away, there=len(pool), pieces=len(stock.pieces))
    return _beside_other(pool, away, stock, like)


def _beside_other(pool: tuple[Block, ...], away: tuple[Block, ...], stock: Stock, like: Stock) -> Beside:
    """Return the blocks of a set matched one by one with another's, those at hand first."""
    if stock.unit is not like.unit:
        sentence = f"{stock.name} is in {stock.unit.value}, {like.name} in {like.unit.value}"
        raise UsageError.about("--like", sentence, hint="name a set in the same unit")
    left, missing = [*pool, *away], []
    for wanted in (piece.block for piece in like.pieces):
        match = next((block for block in left if _alike(block, wanted)), None)
        if match is None:
            missing.append(wanted)
        else:
            left.remove(match)
    if len(missing) == len(like.pieces):
        raise UsageError.about("--like", f"{stock.name} and {like.name} have no piece in common")
    return Beside(
        pool=pool,
        missing=in_order(missing),
        away=away,
        extra=in_order(block for block in left if block in pool),
        name=like.name,
        there=sum(block not in left for block in pool),
        pieces=len(like.pieces),
    )


def _comes_back(reasons: tuple[str, ...]) -> bool:
    """Tell whether everything that keeps a piece away ends by itself."""
    return bool(reasons) and all(reason.startswith(_AWAY) for reason in reasons)


def _alike(one: Block, other: Block) -> bool:
    """Tell whether two pieces are the same size and kind."""
    return (one.nominal, one.wear) == (other.nominal, other.wear)
