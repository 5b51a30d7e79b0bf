"""What a person should know about stacks found: units taken, sets mixed, values not known, joints.

>>> remarks(read, plans, stock, Basis.CERTIFIED)
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.blocks import Basis, Trust
from gaugestack.lengths import Unit, small_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.lengths import ReadLength
    from gaugestack.stacks.wringing import WringingPlan

UNIT_WORDS = {Unit.INCH: "inches", Unit.MILLIMETRE: "millimetres"}


def remarks(
    read: Sequence[ReadLength], plans: Sequence[WringingPlan], stock: Stock, basis: Basis
) -> tuple[str, ...]:
    """Return every remark once, in the order a person wants them."""
    blocks = [block for wringing in plans for block in wringing.stack.blocks]
    said = (
        *units_taken(read, stock),
        *_sets_mixed(blocks, stock),
        *(_values_known(blocks) if basis is Basis.CERTIFIED else values_left(blocks)),
        *(text for wringing in plans for text in wringing.remarks),
    )
    return tuple(dict.fromkeys(said))


def units_taken(read: Sequence[ReadLength], stock: Stock) -> Iterator[str]:
    """Say which unit bare numbers were taken in."""
    bare = [height.text for height in read if height.bare]
    if bare:
        yield f"{', '.join(bare)} taken in {UNIT_WORDS[stock.unit]}, the unit of {stock.block_set.name}"


def _sets_mixed(blocks: Sequence[Block], stock: Stock) -> Iterator[str]:
    """Name the sets, units and materials that stand together, where blocks are of several sets."""
    owners = [owner for owner in dict.fromkeys(block.owner for block in blocks if not block.wear) if owner]
    if len(stock.sets) < 2 or len(owners) < 2:
        return
    units = {block.unit for block in blocks}
    of = {owner: [block for block in blocks if block.owner == owner] for owner in owners}
    named = " and ".join(f"{owner} ({_kinds(of[owner])})" for owner in owners)
    exact = ", inch and millimetre sizes added up exactly" if len(units) > 1 else ""
    yield f"blocks of {len(owners)} sets stand together: {named}{exact}"


def _kinds(blocks: Sequence[Block]) -> str:
    """Return the units and materials of blocks."""
    words = (*(block.unit.value for block in blocks), *(block.material for block in blocks))
    return ", ".join(dict.fromkeys(words))


def _values_known(blocks: Sequence[Block]) -> Iterator[str]:
    """Say how many certified lengths are not known, or known from a sheet nobody vouches for."""
    for trust, said in _NOT_KNOWN.items():
        count = sum(block.trust is trust for block in blocks)
        if count:
            verb = "is" if count == 1 else "are"
            yield f"{count} of {len(blocks)} blocks {verb} {said}"


def values_left(blocks: Sequence[Block]) -> Iterator[str]:
    """Name the blocks known to deviate, though by no laboratory, whose engraved sizes count here."""
    for trust, source in _OWN_VALUES.items():
        known = [block for block in blocks if block.trust is trust and block.deviation]
        if not known:
            continue
        named = ", ".join(_deviating(block) for block in known[:_MOST_NAMED])
        more = f" and {len(known) - _MOST_NAMED} more" if len(known) > _MOST_NAMED else ""
        head = "1 block is" if len(known) == 1 else f"{len(known)} blocks are"
        counts = f"--basis certified counts {'it' if len(known) == 1 else 'them'}"
        yield f"{head} known to deviate by {source} ({named}{more}); {counts}"


def _deviating(block: Block) -> str:
    """Return the size of a block, its serial, and by how much it deviates."""
    name = f"{block.engraved} {block.serial}".rstrip()
    return f"{name} {small_text(block.deviation or 0, block.unit)}"


_MOST_NAMED = 4
_OWN_VALUES = {
    Trust.OWN_COMPARISON: "own comparison",
    Trust.UNVERIFIED_SHEET: "an unverified sheet",
}
_NOT_KNOWN = {
    Trust.NOMINAL_ONLY: "nominal only: no deviation is known, and none is counted",
    Trust.UNVERIFIED_SHEET: "known from an unverified sheet: the sum is no better than that",
}
