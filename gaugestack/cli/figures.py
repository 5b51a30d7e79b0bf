"""The sketch in the terminal and the drawing in a file that a command offers.

    --sketch       a few lines of plain characters below the answer
    --svg FILE     the same geometry as a drawing, a millimetre is a unit

A drawing goes to a temporary file first and takes its name when it is whole.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from gaugestack.angles.flat import Flat
    from gaugestack.angles.sketch import Geometry
    from gaugestack.angles.taper import Taper

SketchOption = Annotated[bool, typer.Option("--sketch", help="Draw which angle is meant, in the terminal.")]
SvgOption = Annotated[
    str | None, typer.Option("--svg", metavar="FILE", help="Write the drawing to FILE.svg.")
]


def sketched(wanted: bool, geometry: Geometry, read: Taper | Flat | None = None) -> list[str]:  # noqa: FBT001  (an option's value)
    """Return the terminal's sketch of a geometry, where one is wanted."""
    if not wanted:
        return []
    from gaugestack.angles.sketch import sketch  # noqa: PLC0415

    return [sketch(geometry, read)]


def save_drawing(
    name: str | None, geometry: Geometry, read: Taper | Flat | None = None, **marks: str
) -> None:
    """Write a geometry with its values to the file asked for; nothing where none was.

    Raises UsageError as `save_svg` does.
    """
    if name is None:
        return
    from gaugestack.cards.geometrysvg import geometry_svg, marks_of  # noqa: PLC0415
    from gaugestack.cli.outputs import save_svg  # noqa: PLC0415

    said = {key.replace("_", " "): value for key, value in marks.items()}
    save_svg(name, geometry_svg(geometry, {**marks_of(read), **said}))
