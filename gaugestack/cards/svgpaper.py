"""A sheet of paper to draw on: lines, arcs, dimensions and labels as SVG text.

    >>> paper = Paper(160, 100, title="A taper")
    >>> paper.line(10 + 10j, 50 + 10j, "edge")
    >>> text = paper.text()

A unit is a millimetre.  A point is a complex number, x to the right and y
upward from the lower left corner.  Every text is escaped.  Knows no geometry.
"""

from __future__ import annotations

import cmath
import math
from itertools import pairwise
from typing import TYPE_CHECKING

from gaugestack.cards.svg import BODY, HEAD, INK, NOTE, escaped, fitted, number, opening, spread

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

Point = complex
PITCH = 5.2
"""From one line of a column of labels to the next."""
_STYLES = {
    "edge": 'fill="none" stroke="#111" stroke-width="0.45" stroke-linejoin="round"',
    "thin": 'fill="none" stroke="#555" stroke-width="0.18"',
    "axis": 'fill="none" stroke="#555" stroke-width="0.2" stroke-dasharray="6 1.4 1 1.4"',
    "hidden": 'fill="none" stroke="#111" stroke-width="0.3" stroke-dasharray="1.6 1.2"',
    "part": 'fill="#e9e4d8" stroke="#111" stroke-width="0.45" stroke-linejoin="round"',
    "tool": 'fill="#c9d3da" stroke="#111" stroke-width="0.35" stroke-linejoin="round"',
    "block": 'fill="#ffffff" stroke="#111" stroke-width="0.35"',
    "heavy": 'fill="none" stroke="#111" stroke-width="0.9"',
    "dashed": 'fill="none" stroke="#111" stroke-width="0.35" stroke-dasharray="2.4 1.4"',
    "dotted": 'fill="none" stroke="#111" stroke-width="0.35" stroke-dasharray="0.5 1.1"',
    "full": 'fill="#111" stroke="#111" stroke-width="0.2"',
    "angle": 'fill="none" stroke="#8a1c1c" stroke-width="0.6"',
    "dot": 'fill="#111" stroke="none"',
}
_INK = {
    "text": '#111"',
    "head": '#111" font-weight="bold"',
    "angle": '#8a1c1c"',
    "note": '#555"',
}
MARGIN = 5.0
LEADING = 4.2
"""From one line of small print to the next."""
HEADED = MARGIN + HEAD + 2.0
"""What the heading takes from the top of a sheet."""
_ROOM_FOR_BOLD = 1.1
"""How much wider bold words are."""
_PLATE_TICK = 3.0


class Paper:
    """A drawing that grows; `text` returns the whole of it."""

    def __init__(self, width: float, height: float, *, title: str, description: str = "") -> None:
        """Take an empty sheet of that size in millimetres; both texts are for who cannot see it."""
        self.width = width
        self.height = height
        self.title = title
        self.description = description
        self._parts: list[str] = []

    def line(self, start: Point, end: Point, style: str = "edge") -> None:
        """Draw a straight line."""
        self.path((start, end), style, closed=False)

    def path(self, points: tuple[Point, ...], style: str, *, closed: bool = True) -> None:
        """Draw a line through points, closed to an area unless told otherwise."""
        word = "M" + "L".join(self._at(point) for point in points) + ("Z" if closed else "")
        self._parts.append(f'<path d="{word}" {_STYLES[style]}/>')

    def circle(self, centre: Point, radius: float, style: str) -> None:
        """Draw a whole circle."""
        x, y = self._xy(centre)
        self._parts.append(f'<circle cx="{x}" cy="{y}" r="{number(radius)}" {_STYLES[style]}/>')

    def arc(self, centre: Point, radius: float, start: float, end: float, style: str = "angle") -> None:
        """Draw an arc from angle `start` to `end` in degrees, below 180 degrees apart."""
        ends = [centre + cmath.rect(radius, math.radians(angle)) for angle in (start, end)]
        sweep = 0 if end > start else 1
        reach = number(radius)
        word = f"M{self._at(ends[0])}A{reach} {reach} 0 0 {sweep} {self._at(ends[1])}"
        self._parts.append(f'<path d="{word}" {_STYLES[style]}/>')

    def label(
        self, place: Point, text: str, *, ink: str = "text", size: float = 3.2, anchor: str = "start"
    ) -> None:
        """Write one line of text, escaped; nothing where it is empty."""
        if not text:
            return
        x, y = self._xy(place)
        self._parts.append(
            f'<text x="{x}" y="{y}" font-size="{number(size)}" fill="{_INK[ink]} '
            f'text-anchor="{anchor}">{escaped(text)}</text>'
        )

    def label_along(self, start: Point, end: Point, text: str) -> None:
        """Write one line of text above the middle of a line, along it."""
        way = (end - start) / abs(end - start)
        x, y = self._xy((start + end) / 2 + 1.2j * way)
        turn = number(-math.degrees(cmath.phase(way)), 3)
        self._parts.append(
            f'<text x="{x}" y="{y}" font-size="{number(BODY)}" fill="{INK}" text-anchor="middle" '
            f'transform="rotate({turn} {x} {y})">{escaped(text)}</text>'
        )

    def heading(self, text: str) -> None:
        """Write the heading in the upper left corner, cut to the sheet."""
        room = (self.width - 2 * MARGIN) / _ROOM_FOR_BOLD
        place = complex(MARGIN, self.height - MARGIN - HEAD)
        self.label(place, fitted(text, room, HEAD), ink="head", size=HEAD)

    def notes(self, lines: Sequence[str], top: float) -> None:
        """Write small lines at the left margin, the first just below `top`."""
        for index, line in enumerate(lines, 1):
            self.label(complex(MARGIN, top - index * LEADING), line, size=NOTE)

    def column(self, labels: Sequence[tuple[Point, str]], x: float, bounds: tuple[float, float]) -> None:
        """Write labels at `x`, each joined to its point by a thin line, none on another.

        The points come from the lowest up; `bounds` are the lowest and the highest
        line.  Labels left of their points end at `x`, others begin there.
        """
        places = spread([point.imag for point, _ in labels], PITCH, *bounds)
        for (point, text), y in zip(labels, places, strict=True):
            left = x < point.real
            elbow = complex(x + (1 if left else -1), y)
            self.line(point, elbow, "thin")
            self.label(complex(x, y - BODY / 3), text, size=BODY, anchor="end" if left else "start")

    def box(self, corner: Point, size: Point, style: str) -> None:
        """Draw a rectangle from its lower left corner."""
        end = corner + size
        self.path((corner, complex(end.real, corner.imag), end, complex(corner.real, end.imag)), style)

    def hatch(self, corner: Point, size: Point, gap: float = 2.0) -> None:
        """Draw slanted lines inside a rectangle, `gap` apart."""
        wide, high = size.real, size.imag
        for step in range(1, math.ceil((wide + high) / gap)):
            reach = step * gap
            start = complex(max(0.0, reach - high), min(reach, high))
            end = complex(min(reach, wide), max(0.0, reach - wide))
            self.line(corner + start, corner + end, "thin")

    def across(self, left: Point, right: Point, text: str) -> None:
        """Draw a dimension between two points, its text above the middle, dots at its ends."""
        self.line(left, right, "thin")
        for end in (left, right):
            self.circle(end, 0.55, "dot")
        upright = abs((right - left).real) < abs((right - left).imag)
        middle = (left + right) / 2
        self.label(middle + (1.5 - 1j if upright else 1.2j), text, anchor="start" if upright else "middle")

    def plate(self, left: Point, length: float) -> None:
        """Draw the surface plate: a line with ticks below it."""
        self.line(left, left + length, "edge")
        for step in range(int(length / _PLATE_TICK)):
            foot = left + step * _PLATE_TICK
            self.line(foot + _PLATE_TICK, foot + complex(_PLATE_TICK - 2, -2), "thin")

    def pile(self, foot: Point, height: float, width: float) -> None:
        """Draw three blocks wrung together on `foot`, the middle of their base."""
        left, right = foot - width / 2, foot + width / 2
        for low, high in pairwise(height * share * 1j for share in (0, 0.55, 0.8, 1)):
            self.path((left + low, right + low, right + high, left + high), "block")

    def text(self) -> str:
        """Return the whole drawing, white paper first."""
        head = opening((self.width, self.height), self.title, self.description)
        return "\n".join((*head, *self._parts, "</svg>")) + "\n"

    def lowered(self, way: float) -> str:
        """Return what is drawn, moved down, to stand in a larger drawing."""
        return "\n".join((f'<g transform="translate(0 {number(way)})">', *self._parts, "</g>"))

    def _xy(self, point: Point) -> tuple[str, str]:
        """Return a point as SVG counts it, y downward."""
        return number(point.real), number(self.height - point.imag)

    def _at(self, point: Point) -> str:
        """Return a point in a path."""
        return " ".join(self._xy(point))


def beneath(papers: Iterable[Paper]) -> str:
    """Return sheets as one drawing, each beneath the one before; a single one as it is."""
    sheets = list(papers)
    if len(sheets) == 1:
        return sheets[0].text()
    size = max(sheet.width for sheet in sheets), sum(sheet.height for sheet in sheets)
    title, description = (
        "; ".join(words) for words in zip(*((s.title, s.description) for s in sheets), strict=True)
    )
    tops = [sum(sheet.height for sheet in sheets[:index]) for index in range(len(sheets))]
    moved = (sheet.lowered(top) for sheet, top in zip(sheets, tops, strict=True))
    return "\n".join((*opening(size, title, description), *moved, "</svg>")) + "\n"
