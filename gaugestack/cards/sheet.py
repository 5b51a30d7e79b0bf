"""What stands on a card, whatever it is printed as: facts, tables, a picture, blanks to fill in.

    sheet = Sheet(kind="Box card", title="Bench set", code="K7QF-2M9P", ...)

sheettext.py, sheetsvg.py and sheethtml.py each make one form of it.  Every
word is already safe: cut, without control characters; escaping for a form is
that form's business.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from gaugestack.cards.fitting import cut
from gaugestack.errors import visible

LONGEST = 120
"""Columns of a user's own text on a card."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table: its heading, its share of 80 columns, whether its cells are numbers.

    `key` marks the column that a hand looks for; it is printed heavier.  A
    column `under` another stands below the one before it where paper is narrow.
    """

    name: str
    wide: int
    figures: bool = False
    key: bool = False
    under: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row: its cells, or its first cells and a sentence in place of the others."""

    cells: tuple[str, ...]
    sentence: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows under headings; `title` says what they are."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing: lines for plain text, SVG of `width` x `height` millimetres, words that say the same.

    `narrow` is the same in 40 columns.
    """

    title: str
    lines: tuple[str, ...]
    narrow: tuple[str, ...]
    svg: str
    width: float
    height: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanks:
    """Lines to be filled in by hand: what belongs on each."""

    title: str
    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """Sentences under a title."""

    title: str
    lines: tuple[str, ...]


Part = Table | Picture | Blanks | Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A whole card.

    `code` and `printed` (a day) let a reader ask whether it still holds;
    `warning` says when not to trust it, `care` what to do by tonight.
    """

    kind: str
    title: str
    code: str
    printed: str
    facts: tuple[tuple[str, str], ...] = ()
    parts: tuple[Part, ...] = field(default=())
    warning: str = ""
    care: str = ""


def safe(text: str, most: int = LONGEST) -> str:
    """Return a user's text as a card may hold it."""
    return cut(visible(text), most)
