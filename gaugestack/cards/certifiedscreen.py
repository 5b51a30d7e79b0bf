"""The certified lengths of a stack as lines for the terminal, below its drawing.

    >>> for line in certified_lines(built, plan): print(line)

The drawing's running totals are nominal, as the blocks are engraved; here
stands what each block deviates, where that is known from, and what it adds up to.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.blocks import Basis, total
from gaugestack.lengths import Length, Unit, engraved_text, exact_text, small_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.stacks.request import Built
    from gaugestack.stacks.wringing import WringingPlan

_MOST_PLACES = 4


def certified_lines(built: Built, plan: WringingPlan) -> Iterator[str]:
    """Return the certified lengths, top block first as drawn; nothing on the nominal basis."""
    if built.basis is not Basis.CERTIFIED:
        return
    yield ""
    yield "     certified      deviation   known from"
    blocks = plan.stack.blocks
    for index in reversed(range(len(blocks))):
        block = blocks[index]
        off = "taken as 0" if block.deviation is None else fine_text(block.deviation, block.unit)
        yield f"{index + 1:>3}  {block.engraved:<12} {off:>12}   {block.trust}"
    unit = blocks[0].unit if len({block.unit for block in blocks}) == 1 else Unit.MILLIMETRE
    off = fine_text(Length(built.length - total(blocks)), unit)
    yield f"     {'sum':<12} {off:>12}   {_length_text(built.length, unit)}"


def fine_text(deviation: Length, unit: Unit) -> str:
    """Return a deviation in µin or µm with the decimals it has, one to four."""
    for places in range(1, _MOST_PLACES):
        if deviation * 10**places % unit.small_picometres == 0:
            return small_text(deviation, unit, places)
    return small_text(deviation, unit, _MOST_PLACES)


def _length_text(length: Length, unit: Unit) -> str:
    """Return a certified length; one that has no end in its unit is engraved as near as can be."""
    exact = exact_text(length, unit)
    return exact if exact.endswith(f" {unit.value}") else engraved_text(length, unit)
