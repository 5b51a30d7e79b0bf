"""A certificate table's text to cells, each with its place.

    sheet = read_sheet(text, file="values.csv", findings=findings)

Columns are parted by tabs, semicolons or commas; which of them is settled by
counting.  A cell may stand in double quotes, a quote inside it doubled; a cell
ends on its line.  Blank lines, and lines of empty cells, are passed over.  Does
not know what the columns mean.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.blocks import MOST_PIECES
from gaugestack.errors import Place
from gaugestack.inventory.nodes import Scalar

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from gaugestack.inventory.findings import Findings

DELIMITERS = {"\t": "tabs", ";": "semicolons", ",": "commas"}
"""What parts columns, the surest first."""
MOST_COLUMNS = 100
MOST_ROWS = 2 * MOST_PIECES
"""Beyond this, header included, nothing is read; up to it, each row gets its own sentence."""
_LINES_COUNTED = 50
_LINE_END = re.compile("\r\n|[\r\n]")
_CELL = {
    mark: re.compile(rf' *(?P<quoted>"(?:[^"]|"")*") *(?={mark}|$)|(?P<plain>[^{mark}]*)')
    for mark in DELIMITERS
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the table; `cells` holds every cell of it, `cells[0]` at least."""

    cells: tuple[Scalar, ...]

    @property
    def line(self) -> int:
        """The line of the file."""
        return self.cells[0].place.line


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A whole table: its header, its other rows, and what parts its columns."""

    header: Row
    rows: tuple[Row, ...]
    delimiter: str


def read_sheet(text: str, *, file: str, findings: Findings) -> Sheet:
    """Return the table a text holds.

    Raises RefusedFile at once where there is no header, no second column, no
    row beneath the header, or twice as many rows as a set has pieces.
    """
    lines = [(number, line) for number, line in numbered(text) if line.strip(" \t;,")]
    if not lines:
        findings.stop(_whole(file, "the table is empty").problem("the table is empty"))
    delimiter = _delimiter([line for _, line in lines])
    first = row_of(*lines[0], delimiter or ",", file)
    if not delimiter:
        hint = "part the columns with semicolons, tabs or commas"
        findings.stop(first.cells[0].problem("the header has one column only", hint=hint))
    if len(lines) == 1:
        findings.stop(first.cells[0].problem("there is no row beneath the header"))
    if len(lines) > MOST_ROWS:
        sentence = f"{len(lines) - 1} rows: a set has at most {MOST_PIECES} pieces"
        findings.stop(first.cells[0].problem(sentence, hint="is this the table of one set?"))
    rows = tuple(row_of(number, line, delimiter, file) for number, line in lines[1:])
    _refuse_decimal_commas(first, rows, delimiter, findings)
    refuse_open_quotes((first, *rows), findings)
    return Sheet(header=first, rows=rows, delimiter=delimiter)


def numbered(text: str) -> Iterator[tuple[int, str]]:
    """Return the lines of a text, counted from 1."""
    return enumerate(_LINE_END.split(text.removeprefix("\ufeff")), start=1)


def _whole(file: str, source: str) -> Scalar:
    """Return a cell that stands for the file as a whole."""
    return Scalar(place=Place(file=file, line=1, column=1), source="", text=source)


def _delimiter(lines: list[str]) -> str:
    """Return what parts the columns; nothing where the header has one column whatever it is.

    That mark wins with which most lines have as many cells as the header; of
    equals the tab comes before the semicolon and that before the comma, because
    a comma may also be a decimal mark or part of a heading.
    """
    agreeing: dict[str, int] = {}
    for mark in DELIMITERS:
        counts = [len(_cut(line, mark)) for line in lines[: _LINES_COUNTED + 1]]
        if counts[0] > 1:
            agreeing[mark] = counts.count(counts[0])
    return max(agreeing, key=lambda mark: agreeing[mark], default="")


def _cut(line: str, mark: str) -> list[re.Match[str]]:
    """Return one match a cell, at most 100."""
    matches: list[re.Match[str]] = []
    start = 0
    while start <= len(line) and len(matches) < MOST_COLUMNS:
        match = _CELL[mark].match(line, start)
        if match is None:
            break
        matches.append(match)
        start = match.end() + 1
    return matches


def row_of(number: int, line: str, mark: str, file: str) -> Row:
    """Return the cells of a line."""
    return Row(cells=tuple(_cell(match, number, line, file) for match in _cut(line, mark)))


def _cell(match: re.Match[str], number: int, line: str, file: str) -> Scalar:
    """Return one cell; its place is that of its first character that is no blank."""
    quoted = match["quoted"] is not None
    group = "quoted" if quoted else "plain"
    written = match[group]
    start = match.start(group) + len(written) - len(written.lstrip())
    shown = written.strip()
    text = shown[1:-1].replace('""', '"').strip() if quoted else shown
    place = Place(file=file, line=number, column=start + 1)
    return Scalar(place=place, source=line, width=max(1, len(shown)), text=text, quoted=quoted)


def _refuse_decimal_commas(header: Row, rows: tuple[Row, ...], delimiter: str, findings: Findings) -> None:
    """Refuse a table parted by commas, without points, in which every row goes beyond the header.

    Decimal commas do that, and which comma is which cannot be told.
    """
    columns = len(header.cells)
    if delimiter == "," and all(_goes_beyond(row, columns) for row in rows):
        sentence = "decimal commas and commas between the columns cannot be told apart"
        hint = "part the columns with semicolons, or write decimal points"
        findings.stop(rows[0].cells[0].problem(sentence, hint=hint))


def _goes_beyond(row: Row, columns: int) -> bool:
    """Return whether a row has texts beyond so many columns, and no point in any of its cells."""
    surplus = any(cell.text for cell in row.cells[columns:])
    return surplus and not any("." in cell.text for cell in row.cells)


def refuse_open_quotes(rows: Iterable[Row], findings: Findings) -> None:
    """Refuse a quote that opens a cell and is not closed at its end."""
    for cell in (cell for row in rows for cell in row.cells):
        if not cell.quoted and cell.text.startswith('"'):
            findings.add(cell.problem("a quote that does not close at the end of its cell"))
