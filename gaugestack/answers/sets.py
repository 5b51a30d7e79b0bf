"""What sets there are, what is in them, what they reach: `set list`, `set show`, `set check`.

>>> check(block_set).every_step
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.blocks import BlockSet, grid, total
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_names, shipped_path
from gaugestack.lengths import exact_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.angles.sine import SineBar
    from gaugestack.blocks import Block
    from gaugestack.lengths import Length

MOST_CELLS = 4_000_000
"""Heights looked at to find the unbroken reach of a set."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One physical piece of a set and whether it is fit for use; `reason` says why not."""

    block: Block
    fit_for_use: bool
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAnswer:
    """A set: its pieces in canonical order, its reach, and what is worth knowing about it.

    `every_step` is the longest unbroken run of heights, from and to, on the
    grid `step`; None where it was not asked for or the table would be too
    large.
    """

    block_set: BlockSet
    bars: tuple[SineBar, ...]
    pieces: tuple[Piece, ...]
    step: Length
    lowest: Length
    highest: Length
    every_step: tuple[Length, Length] | None
    remarks: tuple[str, ...]


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


def show(block_set: BlockSet, bars: tuple[SineBar, ...] = ()) -> SetAnswer:
    """Return a set piece by piece."""
    fit = [Piece(block=block, fit_for_use=True) for block in block_set.blocks]
    gone = [Piece(block=block, fit_for_use=False, reason="absent") for block in block_set.absent]
    ordinary = block_set.ordinary or block_set.blocks
    return SetAnswer(
        block_set=block_set,
        bars=bars,
        pieces=tuple(sorted((*fit, *gone), key=lambda piece: piece.block.order)),
        step=block_set.finest_step,
        lowest=min(block.nominal for block in ordinary),
        highest=total(ordinary),
        every_step=None,
        remarks=tuple(_remarks(block_set)),
    )


def check(block_set: BlockSet, bars: tuple[SineBar, ...] = ()) -> SetAnswer:
    """Return a set that was read without a fault, and the heights it makes without a gap."""
    answer = show(block_set, bars)
    return replace(answer, every_step=_every_step(block_set.ordinary or block_set.blocks))


def _every_step(blocks: tuple[Block, ...]) -> tuple[Length, Length] | None:
    """Return the longest run of grid heights that can all be made."""
    from gaugestack.stacks import reach  # noqa: PLC0415  (numpy: `set show` does without)

    highest = total(blocks)
    if highest // grid(blocks) > MOST_CELLS:
        return None
    table = reach.table(blocks, highest)
    return table.longest_run() if table else None


def _remarks(block_set: BlockSet) -> Iterator[str]:
    """Return what a person should know about a set."""
    unit = block_set.unit
    if block_set.absent:
        yield f"absent: {', '.join(block.engraved for block in block_set.absent)}"
    if not block_set.wear_pairs() and block_set.ordinary:
        yield "no wear pair in this set: the end blocks wear on plate and roll"
    if not block_set.certificate:
        yield "no certificate: heights are nominal, known only as well as the grade"
    for block in block_set.blocks:
        if block.note:
            yield f"{exact_text(block.nominal, unit)}: {block.note}"
