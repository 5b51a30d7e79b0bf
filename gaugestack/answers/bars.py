"""Which sine bar is meant by a name or a length.

>>> find_bar("5in", stock, ())
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.sine import KNOWN_BARS, bar_of_length
from gaugestack.errors import TextError, UsageError, nearest
from gaugestack.lengths import read_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.stock import Stock


def find_bar(text: str | None, stock: Stock, bars: Sequence[SineBar], option: str = "--bar") -> SineBar:
    """Return the bar a person means: a described bar's name, a usual bar's name, or a length.

    Without a text the only described bar is taken.  `option` is where the text
    stood.  Raises UsageError.
    """
    if text is None:
        if len(bars) == 1:
            return bars[0]
        raise UsageError.about(option, "say which sine bar", hint=_bar_hint(bars, option))
    known = {bar.name: bar for bar in (*KNOWN_BARS, *bars)}
    if text in known:
        return known[text]
    if not (text[:1].isdigit() or text[:1] in ".-+"):
        raise UsageError.about(option, f"no bar is named {text!r}", hint=nearest(text, known))
    try:
        read = read_length(text, bare_unit=stock.unit)
    except TextError as error:
        raise error.named(option) from None
    return bar_of_length(read.length, read.unit)


def _bar_hint(bars: Sequence[SineBar], option: str) -> str:
    """Name the bars there are."""
    return f"like {option} 5in or {option} 100mm{''.join(f', {option} {bar.name!r}' for bar in bars[:6])}"
