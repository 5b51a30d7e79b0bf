"""Which blocks of a set matter, which to buy first, and how a set is: `set matters`, `set buy`, `set health`.

    >>> matters(stock, HeightsAsked(range="4..50mm")).values
    >>> buy(stock, count=2).purchase
    >>> health(stock, like=load(["inch-81"])).verdict

Counted on nominal sizes without wear blocks.  Prices, rust and what a
certificate says of a block's length are not weighed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.answers.comparison import Beside, compared
from gaugestack.answers.options import read_height
from gaugestack.answers.ranges import read_span
from gaugestack.answers.reach import one_face_remark
from gaugestack.blocks import DueState, due_state, grid
from gaugestack.errors import UsageError
from gaugestack.inventory.heightsfile import load_heights
from gaugestack.lengths import Length, exact_text
from gaugestack.stacks import health as engine
from gaugestack.stacks.ranking import buy_first, how_many, what_is_missed, what_matters
from gaugestack.stacks.survey import Span

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.lengths import ReadLength
    from gaugestack.stacks.ranking import BlockValue, Heights, Purchase

USUAL_MOST = engine.USUAL_MOST
FIRST = 3
"""How many blocks to buy first are told where nobody says how many: the same in both answers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeightsAsked:
    """The heights that count, as they were typed: a range, or listed ones, or the set's usual range.

    `file` names a file of heights, one a line; `most` is the largest number of
    blocks in one stack.
    """

    range: str | None = None
    heights: tuple[str, ...] = ()
    file: str | None = None
    most: int = USUAL_MOST


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """The heights that count, read: `heights` for the engines, how many `total`, and remarks."""

    heights: Heights
    most: int
    total: int
    remarks: tuple[str, ...] = ()

    @property
    def span(self) -> Span | None:
        """The range, where the heights are one."""
        return self.heights if isinstance(self.heights, Span) else None

    @property
    def listed(self) -> tuple[Length, ...]:
        """The listed heights, where they are."""
        return () if isinstance(self.heights, Span) else tuple(self.heights)


@dataclass(frozen=True, slots=True, kw_only=True)
class MattersAnswer:
    """What the loss of each block at hand would cost; `made` of the heights are made now."""

    stock: Stock
    looked: Looked
    made: int
    values: tuple[BlockValue, ...]
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyAnswer:
    """What to buy first: `alone` says what each candidate would bring back by itself."""

    stock: Stock
    beside: Beside
    looked: Looked
    count: int
    made: int
    alone: tuple[BlockValue, ...]
    purchase: Purchase | None
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class HealthAnswer:
    """How a set is, beside itself as issued or a shipped one; `purchase` where something is to be bought."""

    stock: Stock
    beside: Beside
    health: engine.Health
    sentences: tuple[str, ...]
    purchase: Purchase | None = None
    remarks: tuple[str, ...] = ()


def matters(stock: Stock, asked: HeightsAsked | None = None) -> MattersAnswer:
    """Return for each fit block how many heights are lost, or take more blocks, without it.

    Raises UsageError for heights that cannot be used or a set without blocks.
    """
    beside = compared(stock)
    pool = _ordinary(beside.pool)
    looked = look(stock, _ordinary(beside.issued), asked or HeightsAsked())
    heights = _on_grid_of(pool, looked.heights)
    return MattersAnswer(
        stock=stock,
        looked=looked,
        made=how_many(pool, heights, looked.most),
        values=what_matters(pool, heights, looked.most),
        remarks=(*looked.remarks, *one_face_remark(stock)),
    )


def buy(
    stock: Stock, *, count: int = FIRST, asked: HeightsAsked | None = None, like: Stock | None = None
) -> BuyAnswer:
    """Return which absent blocks to buy first, at most `count`.

    Candidates are the pieces of the set as issued that are gone for good, or
    those of `like` that the set has not.  Raises UsageError as matters does,
    for a count below one, and for two sets with nothing in common.
    """
    beside = compared(stock, like)
    pool, candidates = _ordinary(beside.pool), _ordinary(beside.missing)
    looked = look(stock, _ordinary(beside.issued), asked or HeightsAsked())
    if count < 1:
        raise UsageError.about("--count", "at least one block is bought")
    heights = _on_grid_of((*pool, *candidates), looked.heights)
    return BuyAnswer(
        stock=stock,
        beside=beside,
        looked=looked,
        count=count,
        made=how_many(pool, heights, looked.most, candidates),
        alone=what_is_missed(pool, candidates, heights, looked.most),
        purchase=buy_first(pool, candidates, count, heights, looked.most) if candidates else None,
        remarks=(*looked.remarks, *one_face_remark(stock), *_beside_remarks(beside)),
    )


def health(stock: Stock, *, like: Stock | None = None, on: dt.date | None = None) -> HealthAnswer:
    """Return how a set is: its pieces, what it makes, what is missed most, what to buy first.

    `on` is the day certificates are looked at.  Raises UsageError as buy does.
    """
    beside = compared(stock, like)
    found = engine.health(beside.pool, beside.issued, whole=beside.whole)
    pool, candidates = _ordinary(beside.pool), _ordinary(beside.missing)
    survey = found.survey
    purchase = (
        buy_first(pool, candidates, FIRST, survey.span, survey.most) if survey.lost and candidates else None
    )
    return HealthAnswer(
        stock=stock,
        beside=beside,
        health=found,
        sentences=(_pieces_said(beside), *found.sentences[1:]),
        purchase=purchase,
        remarks=(*_certificate_remarks(stock, on), *one_face_remark(stock), *_beside_remarks(beside)),
    )


def look(stock: Stock, issued: Sequence[Block], asked: HeightsAsked) -> Looked:
    """Return the heights that count.  Raises UsageError."""
    if asked.range and (asked.heights or asked.file is not None):
        raise UsageError.about("--range", "a range and listed heights at once", hint="give one of them")
    if asked.most < 1:
        raise UsageError.about("--most", f"{asked.most} blocks make no stack", hint="at least 1")
    if asked.heights or asked.file is not None:
        read = [read_height(text, stock, "--height") for text in asked.heights]
        read += load_heights(asked.file, stock.unit) if asked.file is not None else ()
        return listed(read, stock, asked.most)
    if not asked.range:
        span = engine.usual_span(issued)
        return Looked(heights=span, most=asked.most, total=span.heights)
    ranged = read_span(asked.range, stock=stock, blocks=issued, argument="--range")
    return Looked(heights=ranged.span, most=asked.most, total=ranged.span.heights, remarks=ranged.remarks)


def listed(read: Sequence[ReadLength], stock: Stock, most: int) -> Looked:
    """Return listed heights, each taken to the nearest step of the set, the lower of two equally near."""
    step = stock.step
    heights = [Length((2 * height.length + step - 1) // (2 * step) * step) for height in read]
    moved = sum(taken != height.length for taken, height in zip(heights, read, strict=True))
    said = f"{moved} of {len(read)} heights taken to the nearest step of {exact_text(step, stock.unit)}"
    return Looked(heights=tuple(heights), most=most, total=len(heights), remarks=(said,) if moved else ())


def _on_grid_of(blocks: Sequence[Block], heights: Heights) -> Heights:
    """Return the heights so that blocks coarser than their step can be asked for them."""
    if not isinstance(heights, Span):
        return heights
    unit = grid(blocks)
    if unit and not (heights.low % unit or heights.step % unit):
        return heights
    return [heights.at(index) for index in range(heights.heights)]


def _ordinary(blocks: Sequence[Block]) -> tuple[Block, ...]:
    """Return the blocks that are no wear blocks."""
    return tuple(block for block in blocks if not block.wear)


def _pieces_said(beside: Beside) -> str:
    """Say how many pieces are there, of how many."""
    of = f"the {beside.pieces} pieces of {beside.name}" if beside.name else f"{beside.pieces} pieces"
    return f"{beside.there} of {of} are there and fit for use"


def _beside_remarks(beside: Beside) -> Iterator[str]:
    """Say what comes back, and what the other set has not."""
    if beside.away:
        yield f"away, and not to be bought: {_named(beside.away)}"
    if beside.extra:
        yield f"there besides, and counted, though {beside.name} has none: {_named(beside.extra)}"


def _named(blocks: Sequence[Block]) -> str:
    """Name blocks in one sentence."""
    names = [block.engraved + (" (wear)" if block.wear else "") for block in blocks]
    counts = {name: names.count(name) for name in names}
    return ", ".join(name if count == 1 else f"{count} x {name}" for name, count in counts.items())


def _certificate_remarks(stock: Stock, on: dt.date | None) -> Iterator[str]:
    """Say what certificates the set has, and how they stand."""
    for block_set in stock.sets:
        head = block_set.certificate
        if head is None:
            known = "lengths are known only as well as the grade"
            known = known if block_set.grade else "and no grade: nothing says how far a length may be off"
            yield f"{block_set.name} has no certificate{':' if block_set.grade else ''} {known}"
        elif on and head.due:
            due = due_state(head, on)
            late = "overdue since" if due.state is DueState.OVERDUE else "due"
            yield f"certificate {head.number or 'without a number'} ({head.source}) {late} {head.due}"
