"""The option `--svg` of commands whose answer has a picture, and writing that picture."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.errors import visible

if TYPE_CHECKING:
    from collections.abc import Callable

    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.stack import StackAnswer

PictureOption = Annotated[
    str | None, typer.Option("--svg", metavar="FILE", help="Write a picture to FILE.svg, 1 unit is 1 mm.")
]


def save_picture(name: str | None, picture: Callable[[], str | None]) -> None:
    """Write the picture of an answer where one is asked for; say so where there is none to draw.

    Raises UsageError where the name does not end in .svg or cannot be written.
    """
    if name is None:
        return
    from gaugestack.cli.boundary import say  # noqa: PLC0415
    from gaugestack.cli.outputs import save_svg  # noqa: PLC0415

    svg = picture()
    if svg is None:
        say(visible(f"{name} is not written: there is nothing to draw"))
    else:
        save_svg(name, svg)


def stack_picture(answer: StackAnswer) -> str | None:
    """Return the picture of the stacks of an answer; None where there is none."""
    from gaugestack.cards.stackpicture import stacks_svg  # noqa: PLC0415

    return stacks_svg(answer)


def angle_picture(answer: AngleAnswer) -> str | None:
    """Return the picture of a bar on its stack; None where there is no stack."""
    from gaugestack.cards.barpicture import set_up_svg  # noqa: PLC0415

    return set_up_svg(answer)
