"""The sketch in the terminal and the drawing in a file that a command offers.

    --sketch       a few lines of plain characters below the answer
    --svg FILE     the same geometry as a drawing, a millimetre is a unit

A drawing goes to a temporary file first and takes its name when it is whole.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.errors import UsageError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from gaugestack.angles.flat import Flat
    from gaugestack.angles.sketch import Geometry
    from gaugestack.angles.taper import Taper

SketchOption = Annotated[bool, typer.Option("--sketch", help="Draw which angle is meant, in the terminal.")]
SvgOption = Annotated[
    str | None, typer.Option("--svg", metavar="FILE", help="Write the drawing to FILE.svg.")
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """What is to be drawn and where: in the terminal, in a file, or nothing."""

    sketch: bool = False
    svg: str | None = None


def sketched(geometry: Geometry, read: Taper | Flat | None = None) -> str:
    """Return the terminal's sketch of a geometry."""
    from gaugestack.angles.sketch import sketch  # noqa: PLC0415

    return sketch(geometry, read)


def drawn_for(
    geometry: Geometry, read: Taper | Flat | None = None, marks: Mapping[str, str] | None = None
) -> str:
    """Return the SVG text of a geometry with its values written in."""
    from gaugestack.cards.geometrysvg import geometry_svg, marks_of  # noqa: PLC0415

    return geometry_svg(geometry, {**marks_of(read), **(marks or {})})


def save_figures(figure: Figure, svg: str) -> None:
    """Write the drawing to the file asked for; nothing where none was.

    Raises UsageError where the name does not end in .svg or cannot be written.
    """
    if figure.svg is None:
        return
    if not figure.svg.casefold().endswith(".svg"):
        raise UsageError.about("--svg", "the drawing's name ends in .svg", hint=f"like {figure.svg}.svg")
    from gaugestack.cli.outputs import replace_file  # noqa: PLC0415  (pathlib costs start-up)

    replace_file(figure.svg, svg)
