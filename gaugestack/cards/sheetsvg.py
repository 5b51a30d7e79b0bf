"""A card as an SVG drawing of the paper's size: one unit is a millimetre.

    >>> drawing = sheet_svg(sheet, paper)
    >>> drawing.fits

The words stand in a grid of 80 columns on a page, 40 on a card, as in plain
text; drawings stand in it to their own scale.  A sheet that is too long for
the paper makes a longer drawing, and `fits` tells so.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

from gaugestack.cards.fitting import wrap
from gaugestack.cards.sheet import Picture
from gaugestack.cards.sheettext import FULL, NARROW, foot_lines, head_lines, part_lines

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.cards.papersize import PaperSize
    from gaugestack.cards.sheet import Sheet

ADVANCE = 0.602
"""Width of a character of a monospaced face, in sizes of its type (common practice)."""
LEAST = 8 * 25.4 / 72
"""8 points in millimetres: type is made smaller down to this where that keeps a card on its paper."""
LEADING = 1.22
_SIZE = re.compile(r'(width|height)="([0-9.]+)mm"')
"""The size of a drawing that stands by itself; within another its unit is a millimetre already."""
_FACE = "'DejaVu Sans Mono', 'Liberation Mono', 'Courier New', monospace"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """The whole SVG file, and whether it is no longer than the paper."""

    svg: str
    fits: bool


def sheet_svg(sheet: Sheet, paper: PaperSize) -> Drawing:
    """Return a sheet as one drawing."""
    wide = FULL if paper.wide else NARROW
    largest = paper.inner / wide / ADVANCE
    sizes = (largest * share / 20 for share in range(20, 0, -1))
    tried = [_laid(sheet, paper, wide, max(size, LEAST)) for size in sizes if size * 20 / 19 > LEAST]
    return next((drawing for drawing in tried if drawing.fits), tried[0])


def _laid(sheet: Sheet, paper: PaperSize, wide: int, size: float) -> Drawing:
    """Return a sheet in one size of type."""
    grid = _Grid(paper, size)
    title = len(wrap(f"{sheet.kind.upper()}: {sheet.title}", wide))
    grid.lines(head_lines(sheet, wide), bold=title)
    for part in sheet.parts:
        grid.gap()
        if isinstance(part, Picture):
            grid.picture(part)
        else:
            grid.lines(part_lines(part, wide), bold=len(wrap(part.title, wide)))
    grid.gap()
    grid.lines(foot_lines(sheet, wide))
    return grid.drawing(f"{sheet.kind}: {sheet.title}")


class _Grid:
    """Lines of type laid down the paper one after the other."""

    def __init__(self, paper: PaperSize, size: float) -> None:
        """Begin at the upper margin, with type of `size` millimetres."""
        self.paper = paper
        self.size = size
        self.y = paper.margin
        self._parts: list[str] = []

    def lines(self, lines: Iterable[str], *, bold: int = 0) -> None:
        """Write lines, the first `bold` ones heavy; a line of dashes is ruled."""
        for number, line in enumerate(lines):
            self.y += self.size * LEADING
            if line and not line.strip("-"):
                self._rule()
            elif line.strip():
                self._write(line, heavy=number < bold)

    def gap(self) -> None:
        """Leave room before a part."""
        self.y += self.size * LEADING * 0.5

    def picture(self, picture: Picture) -> None:
        """Place a drawing at its own size."""
        place = f'<svg x="{self.paper.margin:g}" y="{self.y:.2f}" '
        svg = picture.svg.strip().replace("<svg ", place, 1)
        self._parts.append(_SIZE.sub(r'\1="\2"', svg, count=2))
        self.y += picture.height

    def drawing(self, title: str) -> Drawing:
        """Return the whole, as long as the paper at least."""
        needed = self.y + self.paper.margin
        fits = needed <= self.paper.height
        height = self.paper.height if fits else needed
        size = f"{self.paper.width:g}mm", f"{height:.4g}mm", f"0 0 {self.paper.width:g} {height:.4g}"
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{size[0]}" height="{size[1]}" '
            f'viewBox="{size[2]}" role="img" xml:lang="en" font-family="{_FACE}" '
            f'font-size="{self.size:.3f}" fill="#000">'
        )
        ground = f'<rect width="{self.paper.width:g}" height="{height:.4g}" fill="#fff"/>'
        body = (head, f"<title>{escape(title)}</title>", ground, *self._parts, "</svg>")
        return Drawing(svg="\n".join(body) + "\n", fits=fits)

    def _rule(self) -> None:
        """Draw a line across."""
        y = self.y - self.size * 0.35
        self._parts.append(
            f'<path d="M{self.paper.margin:g} {y:.2f}h{self.paper.inner:g}" '
            f'stroke="#000" stroke-width="0.3"/>'
        )

    def _write(self, line: str, *, heavy: bool) -> None:
        """Write one line; its spaces hold the columns."""
        words = escape(line.replace(" ", "\N{NO-BREAK SPACE}"))
        weight = ' font-weight="bold"' if heavy else ""
        self._parts.append(f'<text x="{self.paper.margin:g}" y="{self.y:.2f}"{weight}>{words}</text>')
