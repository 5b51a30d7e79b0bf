"""Small drawings in characters, so that nobody mixes the half and the included angle.

    >>> print(sketch(Geometry.WEDGE).splitlines()[0])
    flat wedge: one angle, no half of it

Every line is at most 60 columns of plain characters.  Given a taper, a last
line names the angle to set, in figures.  No scale: a drawing shows which
angle, never how large.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from gaugestack.angles.angle import dms_text
from gaugestack.angles.flat import Flat

if TYPE_CHECKING:
    from gaugestack.angles.taper import Taper

WIDEST = 60


class Geometry(StrEnum):
    """What can be drawn; the value is the title."""

    CONE = "a cone: the half angle and the included angle"
    COMPOUND = "compound slide: swing the HALF angle"
    CENTRES = "tailstock set over: the HALF angle, seen from above"
    FLANK_ON_BAR = "part on the bar on its flank: the INCLUDED angle"
    AXIS_ON_BAR = "part's axis along the bar: the HALF angle"
    BAR_ON_FLANK = "bar on the part, part on its flank: INCLUDED angle"
    WEDGE = "flat wedge: one angle, no half of it"
    ROLLS = "two rolls on two equal stacks: the HALF angle"
    BALLS = "two balls in a bore: the HALF angle"
    DISCS = "two discs between two sides: the INCLUDED angle"
    COLLARS = "two collars cut at one setting: the HALF angle"
    COMPOUND_PLATE = "compound sine plate: two hinges square to each other"


_HALF = frozenset(
    {
        Geometry.COMPOUND,
        Geometry.CENTRES,
        Geometry.AXIS_ON_BAR,
        Geometry.ROLLS,
        Geometry.BALLS,
        Geometry.COLLARS,
    }
)
_INCLUDED = frozenset({Geometry.FLANK_ON_BAR, Geometry.BAR_ON_FLANK, Geometry.DISCS})

_CONE = r"""
                        ______------|
          ______------              |   \
     -----  \ a/2                   |    \
   - - - - - ) - - - - - - - - - - -|- -  ) a   axis
     -----                          |    /
          ~~~~~~------              |   /
                      ~~~~~~------__|
   a/2: one flank to the axis    a: flank to flank
"""
_COMPOUND = r"""
                  ___----|        slide moves
         ___------       |        along the flank
  |------  \ a/2         |
 d|- - - - -)- - - - - - |D  axis of the work
  |------                |
         ~~~------       |        a/2: between
                  ~~~----|        flank and axis
"""
_CENTRES = r"""
   headstock                          tailstock
     >-------------------------------___
       - - - - - - - - - - - - - - -    ---<   |
     axis of the lathe                      - -  offset
       a/2: between the two lines              |
     |<--------- L between centres -------->|
   offset = L sin a/2        (shop rule: L C / 2)
"""
_FLANK_ON_BAR = r"""
     ===================================  top flank:
     |          cone      ______-------   LEVEL
     |    ______----------   \
     |----                    ) a
     |__----  bar -------O    (the lower flank lies
     O              [ stack ]  on the bar)
   ----------------------------------------- plate
"""
_AXIS_ON_BAR = r"""
     =====================================  top flank:
     |                   _____-----  axis   LEVEL
     |      _____----- -      ) a/2
     |----- -      _____-------O
     O-------- bar              [ stack ]
   ------------------------------------------- plate
   the bar is parallel to the axis
"""
_BAR_ON_FLANK = r"""
                       ___---O  roll 2: stack 2 reaches it
             ___---bar--
  roll 1  O--     ___---
          ___---  part  |     a = included
  _______/______________|____________ plate
  rise = stack 2 - stack 1 = L sin a
"""
_WEDGE = r"""
                      ____-----|
           ____-------         | H
   |-------  ) b               |
 h |___________________________|
   |<----------- l ----------->|
   tan b = (H - h) / l        b: the whole angle
"""
_ROLLS = r"""
     (o)\         |         /(o)   M2 over the rolls
     [ ] \        |        / [ ]   on stacks h2
     [ ]  \       |       /  [ ]
     [ ](o)\      |      /(o)[ ]   M1, stacks h1
     [ ][ ] \_____|_____/ [ ][ ]
   ------------- D0 ------------------------ plate
   a/2: flank to the axis
   tan a/2 = (M2 - M1) / (2 (h2 - h1))
"""
_BALLS = r"""
    ____              ____  face: a top above it is +,
        \   .---.    /           below it is -
         \ (  R  )  /
          \ '---'  /        c: between the centres
           \ (r)  /         a/2: side to the axis
            \    /          sin a/2 = (R - r) / c
"""
_DISCS = r"""
   -----_________________
      .---.        -------_______  side
     /     \  gap  .-.
    (   D   )-----( d )- - - - - - ) a
     \     /       '-'
      '---'    ____-------~~~~~~~  side
   -----~~~~~~~
   c = gap + (D + d) / 2,  sin a/2 = (D - d) / (2 c)
"""
_COLLARS = r"""
                         .--.
      .--.               |  |
      |  |_______________|  |
 D1 - |- |- - - - - - - -|- | - D2   axis
      |  |~~~~~~~~~~~~~~~|  |
      '--'               |  |
                         '--'
      |<--- spacing ---->|   between like edges
   tan a/2 = (D2 - D1) / (2 spacing)
"""
_COMPOUND_PLATE = r"""
        ___-------- top plate
   (o)--_______(o)
    |          [ stack 2 ]
   bottom plate, its hinge square to the top one
   (o)_______(o)
             [ stack 1 ]
   ------------------------------------ plate
   slopes of the plate: bottom A, top C
   slopes of the part:  bottom C, top A
   tan C = tan B cos A,  cos tilt = cos A cos C
"""


def sketch(geometry: Geometry, read: Taper | Flat | None = None) -> str:
    """Return the drawing: a title, the figure and, given a taper or a flat, the angle to set in figures.

    A flat is only written under the wedge, a cone under everything else; the
    compound plate, which has no one angle, never takes a figure.
    """
    lines = [str(geometry), *_figure(geometry).strip("\n").splitlines()]
    if read is not None:
        lines += _angle_lines(geometry, read)
    return "\n".join(line.rstrip() for line in lines)


def _figure(geometry: Geometry) -> str:
    """Return the figure of one geometry."""
    figures = {
        Geometry.CONE: _CONE,
        Geometry.COMPOUND: _COMPOUND,
        Geometry.CENTRES: _CENTRES,
        Geometry.FLANK_ON_BAR: _FLANK_ON_BAR,
        Geometry.AXIS_ON_BAR: _AXIS_ON_BAR,
        Geometry.BAR_ON_FLANK: _BAR_ON_FLANK,
        Geometry.WEDGE: _WEDGE,
        Geometry.ROLLS: _ROLLS,
        Geometry.BALLS: _BALLS,
        Geometry.DISCS: _DISCS,
        Geometry.COLLARS: _COLLARS,
        Geometry.COMPOUND_PLATE: _COMPOUND_PLATE,
    }
    return figures[geometry]


def _angle_lines(geometry: Geometry, read: Taper | Flat) -> list[str]:
    """Return the line that names the angle in figures, and the one that is not meant."""
    if isinstance(read, Flat):
        return [f" set the whole angle, {dms_text(read.angle)}"] if geometry is Geometry.WEDGE else []
    half, included = dms_text(read.half), dms_text(read.included)
    if geometry is Geometry.CONE:
        return [f" a/2 = half angle, {half}", f" a = included angle, {included}"]
    if geometry in _HALF:
        return [f" a/2 = half angle, {half}", f" (not the included one, {included})"]
    if geometry in _INCLUDED:
        return [f" a = included angle, {included}", f" (not the half one, {half})"]
    return []
