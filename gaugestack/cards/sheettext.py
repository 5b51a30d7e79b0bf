"""A card as plain text: 80 columns, or 40 for a label printer.

    >>> print(sheet_text(sheet, 80))

Plain characters only, so that any printer prints it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.fitting import columns, padded, wrap
from gaugestack.cards.sheet import Blanks, Picture, Table, Words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.cards.sheet import Column, Part, Row, Sheet

FULL, NARROW = 80, 40
_APART = "  "


def sheet_text(sheet: Sheet, wide: int = FULL) -> str:
    """Return a sheet as text of at most `wide` columns, one newline at the end."""
    lines = [*head_lines(sheet, wide)]
    for part in sheet.parts:
        lines += ["", *part_lines(part, wide)]
    lines += ["", *foot_lines(sheet, wide)]
    return "\n".join(line.replace("\N{NO-BREAK SPACE}", " ").rstrip() for line in lines) + "\n"


def head_lines(sheet: Sheet, wide: int) -> Iterator[str]:
    """Return title, code, day and facts."""
    yield from wrap(f"{sheet.kind.upper()}: {sheet.title}", wide)
    yield from wrap(f"card code {sheet.code}, printed {sheet.printed}", wide)
    yield "-" * wide
    lead = max((columns(name) for name, _ in sheet.facts), default=0) if wide >= FULL else 0
    for name, said in sheet.facts:
        yield from _fact(name, said, lead, wide)


def foot_lines(sheet: Sheet, wide: int) -> Iterator[str]:
    """Return what to do by tonight, and when not to trust the card."""
    yield "-" * wide
    yield from wrap(sheet.care, wide)
    yield from wrap(sheet.warning, wide)


def _fact(name: str, said: str, lead: int, wide: int) -> Iterator[str]:
    """Return one fact: beside its name, or in narrow text after it."""
    if lead:
        indent = lead + len(_APART)
        for number, line in enumerate(wrap(said, wide - indent)):
            yield padded("" if number else name, indent) + line
        return
    for number, line in enumerate(wrap(f"{name}: {said}" if name else said, wide - 2)):
        yield line if not number else "  " + line


def part_lines(part: Part, wide: int) -> Iterator[str]:
    """Return the lines of one part."""
    yield from wrap(part.title, wide)
    if isinstance(part, Table):
        yield from _table(part, wide) if wide >= FULL else _stacked(part, wide)
    elif isinstance(part, Picture):
        yield from part.lines if wide >= FULL else part.narrow
    elif isinstance(part, Blanks):
        yield from _blanks(part, wide)
    elif isinstance(part, Words):
        for line in part.lines:
            yield from wrap(line, wide)


def _blanks(part: Blanks, wide: int) -> Iterator[str]:
    """Return lines to be filled in by hand, three in a row where there is room."""
    each = 3 if wide >= FULL else 1
    room = (wide - len(_APART) * (each - 1)) // each
    longest = max(columns(label) for label in part.labels)
    blanks = [f"{padded(label, longest)} {'_' * (room - longest - 1)}" for label in part.labels]
    for place in range(0, len(blanks), each):
        yield _APART.join(blanks[place : place + each])


def _table(table: Table, wide: int) -> Iterator[str]:
    """Return a table in columns; a cell that is too long goes on below."""
    sizes = [column.wide for column in table.columns]
    yield _APART.join(
        padded(column.name, column.wide) if columns(column.name) <= column.wide else column.name
        for column in table.columns
    )[:wide]
    yield "-" * wide
    for row in table.rows:
        yield from _row(row, sizes, wide)


def _row(row: Row, sizes: Sequence[int], wide: int) -> Iterator[str]:
    """Return the lines of one row; a sentence takes the room of the cells it stands for."""
    widths = list(sizes[: len(row.cells)])
    cells = list(row.cells)
    if row.sentence:
        used = sum(widths) + len(_APART) * len(widths)
        widths.append(wide - used)
        cells.append(row.sentence)
    broken = [wrap(cell, size) for cell, size in zip(cells, widths, strict=True)]
    for number in range(max(len(lines) for lines in broken)):
        shown = [lines[number] if number < len(lines) else "" for lines in broken]
        yield _APART.join(padded(text, size) for text, size in zip(shown, widths, strict=True))


def _stacked(table: Table, wide: int) -> Iterator[str]:
    """Return a table for narrow paper: each row a block of lines, the first cell leading."""
    for row in table.rows:
        yield "-" * wide
        first, *others = row.cells
        named = list(zip(table.columns[1 : len(row.cells)], others, strict=True))
        if columns(first) <= 2 and named:
            first = f"{first} {named.pop(0)[1]}"
        yield from wrap(first, wide)
        if row.sentence:
            yield from ("  " + line for line in wrap(row.sentence, wide - 2))
        for said in _together(named, wide - 2):
            for number, line in enumerate(wrap(said, wide - 4)):
                yield ("  " if not number else "    ") + line


def _together(named: Sequence[tuple[Column, str]], wide: int) -> list[str]:
    """Return cells after their names; one that stands under another shares its line where there is room."""
    found: list[str] = []
    for place, (column, cell) in enumerate(named):
        said = f"{column.name} {cell or '______'}"
        beside = place > 0 and column.under and not named[place - 1][0].key
        if beside and columns(found[-1] + _APART + said) <= wide - 2:
            found[-1] += _APART + said
        else:
            found.append(said)
    return found
