"""Drawings of rolls, balls and discs that measure a taper; see geometrysvg.py."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from gaugestack.cards.geometrysvg_cones import marked, turned

if TYPE_CHECKING:
    from collections.abc import Mapping

    from gaugestack.cards.svgpaper import Paper

_HALF = 14.0


def rolls(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw a plug upright on the plate, rolls on the plate (dashed) and on two equal stacks."""
    ground, middle, end, roll, stack = 22.0, 74.0, 12.0, 5.0, 34.0
    slope, lean = math.tan(math.radians(_HALF)), math.radians(_HALF)
    top = 62.0
    paper.plate(complex(14, ground), 132)
    corners = [
        complex(middle + side * (end + y * slope), ground + y)
        for side, y in ((-1, 0), (1, 0), (1, top), (-1, top))
    ]
    paper.path(tuple(corners), "part")
    paper.line(complex(middle, ground - 3), complex(middle, ground + top + 5), "axis")
    reach = {}
    for height, style in ((0.0, "hidden"), (stack, "tool")):
        out = end + (roll + (height + roll) * math.sin(lean)) / math.cos(lean)
        reach[height] = out + roll
        for side in (-1, 1):
            if height:
                paper.pile(complex(middle + side * (out + 2), ground), height, 10)
            paper.circle(complex(middle + side * out, ground + height + roll), roll, style)
    for height, letter, at in ((0.0, "M1", ground - 5.5), (stack, "M2", ground + top + 3)):
        ends = [complex(middle + side * reach[height], at) for side in (-1, 1)]
        for point in ends:
            paper.line(point, complex(point.real, ground + height + roll), "thin")
        paper.across(ends[0], ends[1], marked(letter, marks))
    paper.arc(complex(middle, ground - end / slope), 92, 90 - _HALF, 90)
    paper.label(complex(middle + 34, ground + top - 6), marked("a/2", marks), ink="angle")
    paper.across(complex(35, ground), complex(35, ground + stack), "")
    paper.label(complex(6, ground + stack + 4), marked("h2", marks))
    paper.label(complex(middle, ground + 4), marked("D0", marks), anchor="middle")
    paper.label(complex(116, ground + stack + 4), marked("d", marks))


def balls(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw a bored taper with its mouth up and two balls in it."""
    face, middle, mouth, depth = 73.0, 52.0, 17.0, 54.0
    lean = math.radians(_HALF)
    slope = math.tan(lean)
    foot = mouth - depth * slope
    for side in (-1, 1):
        paper.path(
            (
                complex(middle + side * mouth, face),
                complex(middle + side * 40, face),
                complex(middle + side * 40, face - depth),
                complex(middle + side * foot, face - depth),
            ),
            "part",
        )
    paper.line(complex(middle, face + 15), complex(middle, face - depth - 4), "axis")
    paper.line(complex(middle - 44, face), complex(112, face), "thin")
    for radius, letter, ball in ((15.5, "top 1", "R"), (7.0, "top 2", "r")):
        centre = complex(middle, face - (mouth * math.cos(lean) - radius) / math.sin(lean))
        paper.circle(centre, radius, "tool")
        paper.circle(centre, 0.6, "dot")
        paper.line(centre, centre + turned(radius, -_HALF), "thin")
        paper.label(centre + turned(radius / 2, -_HALF) + 1.5j, ball, anchor="middle")
        top = centre + 1j * radius
        paper.line(top, complex(108, top.imag), "thin")
        paper.label(complex(110, top.imag - 1), marked(letter, marks))
    paper.label(complex(114, face - 1), "face", ink="note")
    paper.arc(complex(middle, face - mouth / slope), 44, 90 - _HALF, 90)
    paper.label(complex(106, face - 22), marked("a/2", marks), ink="angle")
    paper.line(complex(105, face - 21), complex(middle + 5, face - mouth / slope + 43.7), "thin")
    paper.label(complex(106, face - 12), marked("mouth", marks))


def discs(paper: Paper, marks: Mapping[str, str]) -> None:
    """Draw two discs between the two sides of an angle."""
    point = 140 + 52j
    sine = math.sin(math.radians(_HALF))
    for side in (-1, 1):
        paper.line(point, point + turned(128, 180 + side * _HALF), "edge")
    paper.line(point + 6, point - 130, "axis")
    for radius, letter, lean in ((21.0, "D", -115), (9.0, "d", -60)):
        centre = point - radius / sine
        paper.circle(centre, radius, "tool")
        paper.circle(centre, 0.6, "dot")
        paper.line(centre, centre + turned(radius, lean), "thin")
        paper.label(centre + turned(radius + 12, lean), marked(letter, marks))
    large, small = (point - radius / sine for radius in (21.0, 9.0))
    paper.across(large - 26j, small - 26j, marked("c", marks))
    for centre in (large, small):
        paper.line(centre, centre - 27j, "thin")
    paper.arc(point, 24, 180 - _HALF, 180 + _HALF)
    paper.label(point + 2 + 14j, marked("a", marks), ink="angle", anchor="end")
    paper.across(large + 21, small - 9, "")
    middle = (large + 21 + small - 9) / 2
    paper.line(middle, middle + 26j, "thin")
    paper.label(middle + 27j, marked("gap", marks), anchor="middle")
