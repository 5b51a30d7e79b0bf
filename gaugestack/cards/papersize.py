"""The paper a card is printed on.

    >>> read_paper("a6").width
    105.0
    >>> read_paper("100x150mm").height
    150.0

Sizes of the A series: ISO 216:2007; letter is 8.5 in by 11 in (216 mm by 279 mm).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from gaugestack.errors import UsageError

SMALLEST, LARGEST = 100.0, 1200.0
"""Millimetres; a drawing of a stack needs 90 mm within its margins."""
WIDE = 150.0
"""Paper from this width on takes the larger type and the drawing beside the steps."""
_NAMED = {"a3": (297.0, 420.0), "a4": (210.0, 297.0), "a5": (148.0, 210.0), "a6": (105.0, 148.0)}
_LETTER = (215.9, 279.4)
_MEASURED = re.compile(r"([0-9]{1,4}(?:\.[0-9])?)\s*x\s*([0-9]{1,4}(?:\.[0-9])?)\s*mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperSize:
    """A sheet of paper, millimetres; sizes of type in points."""

    name: str
    width: float
    height: float

    @property
    def wide(self) -> bool:
        """Whether it is a page, not a card."""
        return self.width >= WIDE

    @property
    def margin(self) -> float:
        """The margin on every side."""
        return 12.0 if self.wide else 5.0

    @property
    def foot(self) -> float:
        """The margin below, with the code and the number of the page in it."""
        return 14.0 if self.wide else 9.0

    @property
    def inner(self) -> float:
        """The width between the margins."""
        return self.width - 2 * self.margin

    @property
    def inner_height(self) -> float:
        """The height between the margins."""
        return self.height - self.margin - self.foot


def read_paper(text: str) -> PaperSize:
    """Return the paper a word or a size in millimetres names.  Raises UsageError."""
    word = text.strip().casefold()
    match = _MEASURED.fullmatch(word)
    if match:
        width, height = float(match[1]), float(match[2])
    elif word == "letter":
        width, height = _LETTER
    elif word in _NAMED:
        width, height = _NAMED[word]
    else:
        raise UsageError.about("--paper", f"{text!r} is no paper", hint="a4, letter, a6 or like 100x150mm")
    if not (SMALLEST <= width <= LARGEST and SMALLEST <= height <= LARGEST):
        sentence = f"{text!r} is smaller than {SMALLEST:g} mm or larger than {LARGEST:g} mm"
        raise UsageError.about("--paper", sentence)
    return PaperSize(name=word, width=width, height=height)
