"""A card as one HTML page that needs nothing else: to look at, or to print on the paper it names.

    >>> page = sheet_html(sheet, read_paper("a4"))

Tables repeat their headings on every page and never part a row; black on white
throughout; no type below 8 points; drawings keep their millimetres.  No script,
no network.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from gaugestack.cards.sheet import Blanks, Picture, Table, Words
from gaugestack.cards.sheetstyle import style

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.cards.papersize import PaperSize
    from gaugestack.cards.sheet import Column, Part, Row, Sheet


SLACK = 0.5
"""Millimetres left over, so that no rounding sends the steps below the drawing."""
GUTTER = 5.0
"""Millimetres between a drawing and the steps beside it."""


def sheet_html(sheet: Sheet, paper: PaperSize) -> str:
    """Return a sheet as a whole page, one newline at the end."""
    lines = [*_opening(sheet, paper), *_head(sheet)]
    beside = 0.0
    for part in sheet.parts:
        lines += _part(part, beside, narrow=not paper.wide)
        beside = part.width + GUTTER if isinstance(part, Picture) and paper.wide else 0.0
    lines += [
        "<footer>",
        f'<p class="care">{_safe(sheet.care)}</p>',
        f'<p class="warning">{_safe(sheet.warning)}</p>',
        "</footer>",
        "</body>",
        "</html>",
    ]
    return "\n".join(lines) + "\n"


def _opening(sheet: Sheet, paper: PaperSize) -> Iterator[str]:
    """Return everything up to the body."""
    yield "<!DOCTYPE html>"
    yield '<html lang="en">'
    yield "<head>"
    yield '<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{_safe(sheet.kind)}: {_safe(sheet.title)}</title>"
    yield f"<style>\n{style(sheet, paper)}</style>"
    yield "</head>"
    yield '<body class="wide">' if paper.wide else '<body class="narrow">'


def _head(sheet: Sheet) -> Iterator[str]:
    """Return title, code, day and facts."""
    yield "<header>"
    yield f'<p class="kind">{_safe(sheet.kind)}</p>'
    yield f"<h1>{_own(sheet.title)}</h1>"
    printed = f"printed {_safe(sheet.printed)}"
    yield f'<p class="code">card code <strong>{_safe(sheet.code)}</strong>, {printed}</p>'
    yield "</header>"
    if not sheet.facts:
        return
    yield '<table class="facts">'
    yield "<tbody>"
    for name, said in sheet.facts:
        yield f'<tr><th scope="row">{_safe(name)}</th><td>{_own(said)}</td></tr>'
    yield "</tbody>"
    yield "</table>"


def _part(part: Part, beside: float, *, narrow: bool) -> Iterator[str]:
    """Return one part; one that stands `beside` a drawing leaves it as many millimetres."""
    if isinstance(part, Table):
        yield _table_tag(_size_of(part), beside)
        yield from _table(part, narrow=narrow)
    elif isinstance(part, Picture):
        yield f'<figure style="width: {part.width:g}mm">'
        yield part.svg.strip()
        yield "</figure>"
    elif isinstance(part, Blanks):
        yield from _blanks(part, narrow=narrow)
    elif isinstance(part, Words):
        yield f"<section><h2>{_own(part.title)}</h2>"
        yield from (f"<p>{_own(line)}</p>" for line in part.lines)
        yield "</section>"


def _size_of(table: Table) -> str:
    """Return the size of a table's type: big where a hand works from its figures, fine where nobody does."""
    if any(column.key and column.figures for column in table.columns):
        return " big"
    return "" if any(column.key or column.figures for column in table.columns) else " fine"


def _table_tag(kind: str, beside: float) -> str:
    """Return the tag that opens a table; after a drawing it stands beside it, else below everything."""
    if beside:
        return f'<table class="rows{kind}" style="width: calc(100% - {beside + SLACK:g}mm)">'
    return f'<table class="rows{kind} after">'


def _table(table: Table, *, narrow: bool) -> Iterator[str]:
    """Return a table; its title stands in the heading, so that both are repeated."""
    shown = [place for place, column in enumerate(table.columns) if not (narrow and column.under)]
    widths = [_share(table, place, narrow=narrow) for place in shown]
    yield "<colgroup>"
    yield from (f'<col style="width: {100 * wide / sum(widths):.1f}%">' for wide in widths)
    yield "</colgroup>"
    yield "<thead>"
    yield f'<tr><th class="title" colspan="{len(shown)}" scope="colgroup">{_own(table.title)}</th></tr>'
    headings = (_heading(table, place, narrow=narrow) for place in shown)
    yield "<tr>" + "".join(headings) + "</tr>"
    yield "</thead>"
    yield "<tbody>"
    for row in table.rows:
        yield _row(table, row, shown, narrow=narrow)
    yield "</tbody>"
    yield "</table>"


def _share(table: Table, place: int, *, narrow: bool) -> int:
    """Return how wide a column is beside the others."""
    wide = table.columns[place].wide
    return max(wide, _under(table, place).wide) if narrow and _stands_under(table, place) else wide


def _heading(table: Table, place: int, *, narrow: bool) -> str:
    """Return the heading of a column, with that of the one under it on narrow paper."""
    said = _safe(table.columns[place].name)
    if narrow and _stands_under(table, place):
        said += f'<br><span class="under">{_safe(_under(table, place).name)}</span>'
    return f'<th scope="col">{said}</th>' if said else "<td></td>"


def _row(table: Table, row: Row, shown: list[int], *, narrow: bool) -> str:
    """Return one row, its first cell a heading."""
    kind = "" if table.columns[0].name else ' class="number"'
    cells = [f'<th scope="row"{kind}>{_own(row.cells[0])}</th>']
    cells += [_cell(table, row, place, narrow=narrow) for place in shown[1:] if place < len(row.cells)]
    if row.sentence:
        left = len(shown) - len(cells)
        cells.append(f'<td class="no" colspan="{left}">{_own(row.sentence)}</td>')
    return f"<tr>{''.join(cells)}</tr>"


def _cell(table: Table, row: Row, place: int, *, narrow: bool) -> str:
    """Return one cell, with the one under it on narrow paper."""
    said = _own(row.cells[place])
    if narrow and _stands_under(table, place):
        said += f'<br><span class="under">{_own(row.cells[place + 1])}</span>'
    kind = _kind(table.columns[place])
    return f'<td class="{kind}">{said}</td>' if kind else f"<td>{said}</td>"


def _kind(column: Column) -> str:
    """Return the classes of a column's cells."""
    return " ".join(word for word, has in (("figures", column.figures), ("key", column.key)) if has)


def _stands_under(table: Table, place: int) -> bool:
    """Tell whether the next column may stand under this one."""
    return place + 1 < len(table.columns) and table.columns[place + 1].under


def _under(table: Table, place: int) -> Column:
    """Return the column under another."""
    return table.columns[place + 1]


def _blanks(part: Blanks, *, narrow: bool) -> Iterator[str]:
    """Return lines to be filled in by hand, three in a row on a page."""
    each = 1 if narrow else 3
    rows = [part.labels[place : place + each] for place in range(0, len(part.labels), each)]
    yield '<table class="blanks after">'
    title = f'<th class="title" colspan="{2 * each}" scope="colgroup">{_own(part.title)}</th>'
    yield f"<thead><tr>{title}</tr></thead>"
    yield "<tbody>"
    for labels in rows:
        cells = (f'<th scope="row">{_safe(label)}</th><td class="line"></td>' for label in labels)
        yield f"<tr>{''.join(cells)}{'<td></td><td></td>' * (each - len(labels))}</tr>"
    yield "</tbody>"
    yield "</table>"


def _own(text: str) -> str:
    """Return a text that may hold a user's words: escaped, its direction kept to itself."""
    said = _safe(text)
    return said if text.isascii() else f"<bdi>{said}</bdi>"


def _safe(text: str) -> str:
    """Return a text as HTML."""
    return escape(text)
