"""What sets there are, what is in them, what they reach: `set list`, `set show`, `set check`.

>>> check(block_set).every_step
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.blocks import grid, total
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_names, shipped_path

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

    from gaugestack.answers.setcheck import Checked
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.lengths import Length

MOST_CELLS = 4_000_000
"""Heights looked at to find the unbroken reach of a set."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAnswer:
    """A set: its pieces in canonical order, its reach, and what is worth knowing about it.

    `every_step` is the longest unbroken run of heights, from and to, on the
    grid `step`; None where it was not asked for or the table would be too
    large.  `checked` says how the set stands, where that was asked.
    """

    stock: Stock
    step: Length
    lowest: Length
    highest: Length
    every_step: tuple[Length, Length] | None
    remarks: tuple[str, ...]
    checked: Checked | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedSet:
    """One line of the list of shipped sets."""

    name: str
    pieces: int
    title: str
    source: str


def listed() -> tuple[ListedSet, ...]:
    """Return the shipped sets.  Raises RefusedFile if one cannot be read."""
    sets = ((name, load_set(shipped_path(name))[0]) for name in shipped_names())
    return tuple(
        ListedSet(name=name, pieces=len(found.issued), title=found.name, source=found.source)
        for name, found in sets
    )


def show(stock: Stock) -> SetAnswer:
    """Return a set piece by piece."""
    ordinary = stock.fit or stock.wear or tuple(piece.block for piece in stock.pieces)
    return SetAnswer(
        stock=stock,
        step=stock.step,
        lowest=min(block.nominal for block in ordinary),
        highest=total(ordinary),
        every_step=None,
        remarks=tuple(_remarks(stock)),
    )


def check(stock: Stock, on: dt.date | None = None) -> SetAnswer:
    """Return a set that was read without a fault, how it stands, and the heights it makes without a gap.

    `on` is the day for what is due; without it that of the stock.
    """
    from gaugestack.answers.setcheck import checked  # noqa: PLC0415  (grades: `set show` does without)

    return replace(
        show(stock), every_step=_every_step(stock.fit or stock.wear), checked=checked(stock, on or stock.on)
    )


def _every_step(blocks: tuple[Block, ...]) -> tuple[Length, Length] | None:
    """Return the longest run of grid heights that can all be made."""
    from gaugestack.stacks.survey import every_step  # noqa: PLC0415  (numpy: `set show` does without)

    if not blocks or total(blocks) // grid(blocks) > MOST_CELLS:
        return None
    run = every_step(blocks)
    return (run.first, run.last) if run else None


def _remarks(stock: Stock) -> Iterator[str]:
    """Return what a person should know about a set."""
    for withheld in stock.withheld:
        yield f"{withheld.block.engraved}: {withheld.reason}"
    for block in stock.end_only:
        yield f"{block.engraved}: one good face, so it stands at an end, that face inward"
    if stock.fit and not stock.wear:
        yield "no wear pair in this set: the end blocks wear on plate and roll"
    for block_set in stock.sets:
        if not block_set.certificate and not any(piece.block.deviation is not None for piece in stock.pieces):
            yield f"{block_set.name} has no certificate: heights are nominal, known only as well as the grade"
        yield from block_set.remarks
    for piece in stock.pieces:
        if piece.block.note:
            yield f"{piece.block.engraved}: {piece.block.note}"
    yield from stock.warnings
