"""Drawings of cones on the lathe and of a wedge; see geometrysvg.py.

Each function draws on a sheet of 160 by 105 mm and writes the values it finds
among `marks`.
"""

from __future__ import annotations

import cmath
import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from gaugestack.cards.svgpaper import Paper, Point

_HALF = 14.0
"""The half angle every cone is drawn with, in degrees."""


def marked(letter: str, marks: Mapping[str, str]) -> str:
    """Return a letter with its value, or the letter alone."""
    return f"{letter} = {marks[letter]}" if letter in marks else letter


def turned(distance: float, degrees: float) -> Point:
    """Return the point at a distance in a direction."""
    return cmath.rect(distance, math.radians(degrees))


def cone(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw a cone with its half angle and its included angle at the point of its flanks."""
    apex = 22 + 50j
    up, down = (turned(1 / math.cos(math.radians(_HALF)), side * _HALF) for side in (1, -1))
    paper.path((apex + 60 * up, apex + 115 * up, apex + 115 * down, apex + 60 * down), "part")
    for flank in (up, down):
        paper.line(apex, apex + 60 * flank, "thin")
    paper.line(apex - 6, apex + 128, "axis")
    paper.arc(apex, 48, 0, _HALF)
    paper.arc(apex, 30, -_HALF, _HALF)
    paper.label(apex + 34 + 20j, marked("a/2", marks), ink="angle", anchor="middle")
    paper.line(apex + 44 + 18.5j, apex + turned(48, _HALF / 2), "thin")
    paper.label(apex + 12 - 22j, marked("a", marks), ink="angle")
    paper.line(apex + 18 - 18j, apex + turned(30, -4), "thin")
    paper.label(apex + 63 + 2j, "axis", ink="note")
    paper.label(apex + 88 + 9j, "flank", ink="note", anchor="middle")


def compound(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw a cone in the lathe, seen from above, and the slide swung along its flank."""
    apex = 20 + 64j
    slope = math.tan(math.radians(_HALF))
    small, large = 42.0, 104.0
    ends = [apex + x + side * 1j * x * slope for side in (1, -1) for x in (small, large)]
    paper.path((ends[0], ends[1], ends[3], ends[2]), "part")
    paper.path((ends[1], ends[1] + 12, ends[3] + 12, ends[3]), "part")
    paper.line(apex, apex + 136, "axis")
    along = turned(1, -_HALF)
    square = along * 1j
    foot = apex + 38 * along - 13.5 * square
    paper.path((foot, foot + 66 * along, foot + 66 * along + 9 * square, foot + 9 * square), "tool")
    paper.line(apex, apex + turned(110, -_HALF), "thin")
    paper.arc(apex, 38, -_HALF, 0)
    paper.label(apex - 8 - 18j, marked("a/2", marks), ink="angle")
    paper.line(apex + 12 - 14.5j, apex + turned(38, -_HALF / 2), "thin")
    paper.label(foot + 33 * along + 3 * square, "compound slide", anchor="middle")
    tip = foot + 40 * along + 9 * square
    paper.path((tip - 2 * along, tip + 2 * along, tip + 4 * square), "edge")
    paper.label(apex + 118 + 2j, "axis", ink="note")
    paper.label(apex + 73 + 6j, "work", ink="note", anchor="middle")


def centres(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw work between centres with the tailstock set over, seen from above."""
    head, tail = 26 + 58j, 136 + 44j
    along = (tail - head) / abs(tail - head)
    square = along * 1j
    paper.path(
        (
            head + 8 * along + 7 * square,
            tail - 8 * along + 7 * square,
            tail - 8 * along - 7 * square,
            head + 8 * along - 7 * square,
        ),
        "part",
    )
    paper.line(head - 8, head + 126, "axis")
    paper.line(head, tail, "thin")
    for point, way in ((head, -1), (tail, 1)):
        paper.path((point, point + way * (9 + 5j), point + way * (9 - 5j)), "tool")
    paper.arc(head, 74, 0, math.degrees(cmath.phase(along)))
    paper.label(head + 62 + 14j, marked("a/2", marks), ink="angle", anchor="middle")
    paper.line(head + 66 + 13j, head + turned(74, -3), "thin")
    over = complex(tail.real, head.imag)
    paper.across(over + 8, tail + 8, "")
    paper.label(over + 10 + 4j, marked("S", marks), anchor="end")
    paper.across(head - 24 * square, tail - 24 * square, marked("L", marks))
    for point in (head, tail):
        paper.line(point, point - 25 * square, "thin")
    paper.label(14 + 66j, "headstock", ink="note")
    paper.label(150 + 36j, "tailstock", ink="note", anchor="end")
    paper.label(8 + 48j, "lathe axis", ink="note")


def collars(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw two test collars on a bar and the spacing between like edges."""
    axis = 55j
    paper.path((20 + axis - 6j, 140 + axis - 6j, 140 + axis + 6j, 20 + axis + 6j), "part")
    for left, radius, letter in ((34, 11, "D1"), (108, 20, "D2")):
        foot = left + axis
        paper.path(
            (foot - 1j * radius, foot + 12 - 1j * radius, foot + 12 + 1j * radius, foot + 1j * radius), "part"
        )
        paper.label(foot + 14 + 1j * (radius - 3), marked(letter, marks))
    paper.line(34 + axis + 11j, 108 + axis + 20j, "hidden")
    paper.line(12 + axis, 148 + axis, "axis")
    paper.across(34 + 28j, 108 + 28j, marked("l", marks))
    for left, radius in ((34, 11), (108, 20)):
        paper.line(left + axis - 1j * radius, left + 27j, "thin")
    slope = math.degrees(math.atan2(9, 74))
    paper.line(34 + axis + 11j, 82 + axis + 11j, "thin")
    paper.arc(34 + axis + 11j, 40, 0, slope)
    paper.label(60 + axis + 20j, marked("a/2", marks), ink="angle", anchor="middle")


def wedge(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw a flat wedge and its one angle."""
    left, right = 34 + 30j, 126 + 30j
    paper.path((left, right, right + 36j, left + 14j), "part")
    paper.line(left + 14j, right + 14j, "thin")
    slope = math.degrees(math.atan2(22, 92))
    paper.arc(left + 14j, 50, 0, slope)
    paper.label(left + 56 + 17.5j, marked("b", marks), ink="angle")
    paper.across(left - 5j, right - 5j, marked("l", marks))
    paper.across(left - 4, left - 4 + 14j, "")
    paper.label(left - 6 + 6j, marked("h", marks), anchor="end")
    paper.across(right + 5, right + 5 + 36j, marked("H", marks))
