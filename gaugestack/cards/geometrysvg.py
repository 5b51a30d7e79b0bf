"""Each geometry as a drawing of our own, so that nobody mixes up half and included.

    >>> text = geometry_svg(Geometry.COMPOUND, marks_of(taper))

Never to scale: a drawing shows which angle is meant, its label how large it
is.  `marks` are the values of the letters in it (`a/2`, `L`, `M2`); a letter
without a value stands alone.  The figures are in geometrysvg_*.py.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.flat import Flat
from gaugestack.angles.sketch import Geometry
from gaugestack.angles.taper import Taper
from gaugestack.cards import geometrysvg_bars as bars
from gaugestack.cards import geometrysvg_cones as cones
from gaugestack.cards import geometrysvg_gauges as gauges
from gaugestack.cards.rows import angle_mark
from gaugestack.cards.svgpaper import Paper

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


WIDTH, HEIGHT = 160.0, 105.0
_NOT_TO_SCALE = "not to scale: it shows which angle, the figures say how large"
_FIGURES: Mapping[Geometry, tuple[Callable[[Paper, Mapping[str, str]], None], str]] = {
    Geometry.CONE: (cones.cone, "a/2: one flank to the axis; a: flank to flank, twice a/2"),
    Geometry.COMPOUND: (cones.compound, "the slide runs along the flank; swing it by the half angle"),
    Geometry.CENTRES: (cones.centres, "seen from above; S = L sin a/2, L between the centre points"),
    Geometry.COLLARS: (cones.collars, "tan a/2 = (D2 - D1) / (2 l), l between like edges"),
    Geometry.WEDGE: (cones.wedge, "tan b = (H - h) / l: the whole angle, there is no half of it"),
    Geometry.FLANK_ON_BAR: (bars.flank_on_bar, "the lower flank lies on the bar: set the INCLUDED angle"),
    Geometry.AXIS_ON_BAR: (bars.axis_on_bar, "the axis lies along the bar: set the HALF angle"),
    Geometry.BAR_ON_FLANK: (bars.bar_on_flank, "the part lies on the plate: h2 - h1 = L sin a"),
    Geometry.COMPOUND_PLATE: (bars.compound_plate, "the two hinges stand square to each other"),
    Geometry.ROLLS: (gauges.rolls, "tan a/2 = (M2 - M1) / (2 (h2 - h1)); dashed: the first reading"),
    Geometry.BALLS: (gauges.balls, "sin a/2 = (R - r) / c; a top above the face is +, below it -"),
    Geometry.DISCS: (gauges.discs, "sin a/2 = (D - d) / (2 c), c between the centres"),
}


def geometry_svg(geometry: Geometry, marks: Mapping[str, str]) -> str:
    """Return the SVG text of a geometry with the values of its letters."""
    figure, rule = _FIGURES[geometry]
    paper = Paper(WIDTH, HEIGHT, title=str(geometry), description=rule)
    paper.label(8 + 95j, str(geometry), size=4.6)
    figure(paper, marks)
    paper.label(8 + 9j, rule)
    paper.label(8 + 4j, _NOT_TO_SCALE, ink="note", size=2.9)
    return paper.text()


def marks_of(read: Taper | Flat | None) -> dict[str, str]:
    """Return the values of the letters that a cone or a wedge gives."""
    if isinstance(read, Flat):
        return {"b": angle_mark(read.angle)}
    if isinstance(read, Taper):
        return {"a/2": angle_mark(read.half), "a": angle_mark(read.included)}
    return {}
