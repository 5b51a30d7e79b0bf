"""The sketch in the terminal and the drawing in a file that a command offers.

    --sketch       a few lines of plain characters below the answer
    --svg FILE     the same geometry as a drawing, a millimetre is a unit

A drawing goes to a temporary file first and takes its name when it is whole.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.errors import UsageError

if TYPE_CHECKING:
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

    Raises UsageError as `save_figures` does.
    """
    if name is None:
        return
    from gaugestack.cards.geometrysvg import geometry_svg, marks_of  # noqa: PLC0415

    said = {key.replace("_", " "): value for key, value in marks.items()}
    save_figures(Figure(svg=name), geometry_svg(geometry, {**marks_of(read), **said}))


def save_figures(figure: Figure, svg: str) -> None:
    """Write a drawing to the file asked for; nothing where none was.

    Raises UsageError where the name does not end in .svg or cannot be written.
    """
    name = figure.svg
    if name is None:
        return
    if not name.casefold().endswith(".svg"):
        raise UsageError.about("--svg", "the drawing's name ends in .svg", hint=f"like {name}.svg")
    part = f"{name}.part"
    try:
        with open(part, "w", encoding="utf-8", newline="\n") as file:  # noqa: PTH123  (pathlib costs start-up)
            file.write(svg)
        os.replace(part, name)  # noqa: PTH105  (pathlib costs start-up)
    except OSError as error:
        raise UsageError.about("--svg", f"{name} cannot be written: {error.strerror}") from None
