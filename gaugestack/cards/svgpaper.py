"""A sheet of paper to draw on: lines, arcs, dimensions and labels as SVG text.

    >>> paper = Paper(160, 100)
    >>> paper.line(10 + 10j, 50 + 10j, "edge")
    >>> text = paper.text()

A unit is a millimetre.  A point is a complex number, x to the right and y
upward from the lower left corner.  Every text is escaped.  Knows no geometry.
"""

from __future__ import annotations

import cmath
import math
from itertools import pairwise

from gaugestack.errors import visible

Point = complex
_STYLES = {
    "edge": 'fill="none" stroke="#111" stroke-width="0.45" stroke-linejoin="round"',
    "thin": 'fill="none" stroke="#555" stroke-width="0.18"',
    "axis": 'fill="none" stroke="#555" stroke-width="0.2" stroke-dasharray="6 1.4 1 1.4"',
    "hidden": 'fill="none" stroke="#111" stroke-width="0.3" stroke-dasharray="1.6 1.2"',
    "part": 'fill="#e9e4d8" stroke="#111" stroke-width="0.45" stroke-linejoin="round"',
    "tool": 'fill="#c9d3da" stroke="#111" stroke-width="0.35" stroke-linejoin="round"',
    "block": 'fill="#ffffff" stroke="#111" stroke-width="0.35"',
    "angle": 'fill="none" stroke="#8a1c1c" stroke-width="0.6"',
    "dot": 'fill="#111" stroke="none"',
}
_INK = {"text": "#111", "angle": "#8a1c1c", "note": "#555"}
_PLATE_TICK = 3.0


class Paper:
    """A drawing that grows; `text` returns the whole of it."""

    def __init__(self, width: float, height: float) -> None:
        """Take an empty sheet of that size in millimetres."""
        self.width = width
        self.height = height
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
        self._parts.append(f'<circle cx="{x}" cy="{y}" r="{_number(radius)}" {_STYLES[style]}/>')

    def arc(self, centre: Point, radius: float, start: float, end: float, style: str = "angle") -> None:
        """Draw an arc from angle `start` to `end` in degrees, below 180 degrees apart."""
        ends = [centre + cmath.rect(radius, math.radians(angle)) for angle in (start, end)]
        sweep = 0 if end > start else 1
        reach = _number(radius)
        word = f"M{self._at(ends[0])}A{reach} {reach} 0 0 {sweep} {self._at(ends[1])}"
        self._parts.append(f'<path d="{word}" {_STYLES[style]}/>')

    def label(
        self, place: Point, text: str, *, ink: str = "text", size: float = 3.2, anchor: str = "start"
    ) -> None:
        """Write one line of text, escaped."""
        x, y = self._xy(place)
        self._parts.append(
            f'<text x="{x}" y="{y}" font-size="{_number(size)}" fill="{_INK[ink]}" '
            f'text-anchor="{anchor}">{escaped(text)}</text>'
        )

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
        width, height = _number(self.width), _number(self.height)
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
            f'viewBox="0 0 {width} {height}" font-family="sans-serif">'
        )
        ground = f'<rect width="{width}" height="{height}" fill="#ffffff"/>'
        return "\n".join((head, ground, *self._parts, "</svg>")) + "\n"

    def _xy(self, point: Point) -> tuple[str, str]:
        """Return a point as SVG counts it, y downward."""
        return _number(point.real), _number(self.height - point.imag)

    def _at(self, point: Point) -> str:
        """Return a point in a path."""
        return " ".join(self._xy(point))


def escaped(text: str) -> str:
    """Return a text that stands for itself in SVG, without control characters."""
    plain = visible(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return plain.replace('"', "&quot;")


def _number(value: float) -> str:
    """Print a number of millimetres to a hundredth, without closing zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
