"""Drawings of sine bars and plates under, on and beside a part; see geometrysvg.py."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from gaugestack.cards.geometrysvg_cones import marked, turned

if TYPE_CHECKING:
    from collections.abc import Mapping

    from gaugestack.cards.svgpaper import Paper, Point

_ANGLE = 16.0
"""The angle every bar is drawn at, in degrees."""
_ROLL = 4.0
_TOP = 6.0
"""How far a bar's top lies above the centres of its rolls."""


def flank_on_bar(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw a cone on its lower flank on a bar; its top flank is level."""
    low, along = _bar(paper, 30 + 32j, 88, marks, "a")
    height, end = 84.0, turned(1, 90 + _ANGLE / 2)
    feet = (low + 22 * along, low + 76 * along)
    tops = [foot + (height - foot.imag) / end.imag * end for foot in feet]
    paper.path((*feet, tops[1], tops[0]), "part")
    _level(paper, tops[0].real, tops[1].real, height)
    paper.label(complex(feet[0].real + 12, height - 14), "part", ink="note")


def axis_on_bar(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw a cone with its axis along a bar; its top flank is level."""
    low, along = _bar(paper, 30 + 30j, 88, marks, "a/2")
    square = along * 1j
    start = low + 8 * along + 18 * square
    half = math.tan(math.radians(_ANGLE))
    radii = [(distance, 15 - distance * half) for distance in (0.0, 40.0)]
    tops = [start + s * along + radius * square for s, radius in radii]
    feet = [start + s * along - radius * square for s, radius in radii]
    paper.path((tops[0], tops[1], feet[1], feet[0]), "part")
    for distance in (-1.5, 41.5):
        post = start + distance * along
        paper.line(post, post - 18 * square, "hidden")
    paper.line(start - 8 * along, start + 49 * along, "axis")
    paper.label(start + 51 * along - 5j, "axis, parallel to the bar", ink="note")
    _level(paper, tops[0].real, tops[1].real, tops[0].imag)


def bar_on_flank(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw a cone lying on the plate with a bar on its top flank, and both stacks to the rolls."""
    ground = 24.0
    paper.plate(complex(14, ground), 134)
    along = turned(1, _ANGLE)
    square = along * 1j
    apex = complex(10, ground + 4)
    feet = [apex + 40 * along, apex + 96 * along]
    paper.path((*feet, complex(feet[1].real, ground), complex(feet[0].real, ground)), "part")
    low = apex + 26 * along + 0.3 * square
    paper.path(
        (low - 3 * along, low + 90 * along, low + 90 * along + 7 * square, low - 3 * along + 7 * square),
        "tool",
    )
    for distance, letter in ((0.0, "h1"), (87.0, "h2")):
        centre = low + distance * along
        paper.circle(centre, _ROLL, "tool")
        top = centre.imag - _ROLL
        paper.pile(complex(centre.real, ground), top - ground, 12)
        paper.label(complex(centre.real, ground - 6), marked(letter, marks), anchor="middle")
    corner = complex(apex.real - 4 / math.tan(math.radians(_ANGLE)), ground)
    paper.arc(corner, 62, 0, _ANGLE)
    paper.label(complex(58, ground + 5), marked("a", marks), ink="angle")
    paper.label(low + 40 * along + 10 * square, "bar", ink="note", anchor="middle")


def compound_plate(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw both plates of a compound sine plate, each seen along its own hinge."""
    for left, name, angle, stack in (
        (12.0, "bottom plate, seen along its hinge", "A", "h1"),
        (90.0, "top plate, seen along its hinge", "C", "h2"),
    ):
        paper.label(complex(left, 72), name, ink="note")
        low, along = _bar(paper, complex(left + 5, 34), 46, {}, "")
        square = along * 1j
        paper.arc(complex(left + 5, 34), 26, 0, _ANGLE)
        paper.label(complex(left, 64), marked(angle, marks), ink="angle")
        paper.label(complex(left, 20), marked(stack, marks))
        if angle == "C":
            paper.path(
                (
                    low + 8 * along,
                    low + 34 * along,
                    low + 34 * along + 10 * square,
                    low + 8 * along + 10 * square,
                ),
                "part",
            )


def _bar(
    paper: Paper, roll: Point, length: float, marks: Mapping[str, str], letter: str
) -> tuple[Point, Point]:
    """Draw a bar on the plate and on its stack; return where its top begins and its direction."""
    along = turned(1, _ANGLE)
    square = along * 1j
    ground = roll.imag - _ROLL
    paper.plate(complex(roll.real - 8, ground), length + 22)
    high = roll + length * along
    paper.pile(complex(high.real, ground), high.imag - _ROLL - ground, 12)
    body = (roll - 5 * along, high + 5 * along)
    paper.path((body[0], body[1], body[1] + _TOP * square, body[0] + _TOP * square), "tool")
    for centre in (roll, high):
        paper.circle(centre, _ROLL, "tool")
        paper.circle(centre, 0.5, "dot")
    paper.line(roll, roll + 0.9 * length, "thin")
    if letter:
        paper.arc(roll, 50, 0, _ANGLE)
        place = complex(roll.real + 34, ground - 7)
        paper.label(place, marked(letter, marks), ink="angle")
        paper.line(place + 10 + 3j, roll + turned(50, _ANGLE / 3), "thin")
        paper.across(complex(high.real + 9, ground), complex(high.real + 9, high.imag - _ROLL), "")
        paper.label(complex(high.real + 11, ground + 6), marked("h", marks))
        paper.label(complex(roll.real - 8, ground - 7), marked("L", marks))
    return roll + _TOP * square, along


def _level(paper: Paper, left: float, right: float, height: float) -> None:
    """Draw the indicator's travel along a top that is level."""
    paper.line(complex(left, height + 3), complex(right, height + 3), "thin")
    for x in (left + 2, right - 2):
        paper.path((complex(x, height), complex(x - 1.2, height + 3), complex(x + 1.2, height + 3)), "edge")
    paper.label(complex(right + 3, height + 2.4), "LEVEL: the reading stays", ink="note")
