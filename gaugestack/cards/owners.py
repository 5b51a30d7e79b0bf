"""Letters for the sets that blocks come from, where there are several.

    >>> labels_of(answer.stock)
    {'Bench set': 'A', 'metric-88': 'B'}

With one set there are no letters: nobody needs them.
"""

from __future__ import annotations

from string import ascii_uppercase
from typing import TYPE_CHECKING

from gaugestack.errors import visible

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block

NO_LABELS: Mapping[str, str] = {}


def labels_of(stock: Stock) -> Mapping[str, str]:
    """Return a letter for each set of a stock of several, by what its blocks call their owner."""
    owners = stock.owners
    if len(owners) < 2:
        return NO_LABELS
    return {owner: letter_of(place) for place, owner in enumerate(owners)}


def letter_of(place: int) -> str:
    """Return the letter of a place: A to Z, then Z and the number."""
    return ascii_uppercase[place] if place < len(ascii_uppercase) else f"Z{place}"


def sets_said(stock: Stock) -> str:
    """Return the names of the sets, each with its letter where there are several."""
    labels = labels_of(stock)
    return " + ".join(f"{letter}: {owner}" for owner, letter in labels.items()) if labels else stock.name


def block_said(block: Block, labels: Mapping[str, str] = NO_LABELS) -> str:
    """Return a block's size, and where it comes from: its letter, or for a wear pair its set's name."""
    if not labels:
        return block.engraved
    return f"{block.engraved} [{labels.get(block.owner) or visible(block.owner)[:8]}]"


def blocks_said(blocks: Iterable[Block], labels: Mapping[str, str] = NO_LABELS) -> list[str]:
    """Return the blocks of a stack, wear blocks marked."""
    return [block_said(block, labels) + (" (wear)" if block.wear else "") for block in blocks]
