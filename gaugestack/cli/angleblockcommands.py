"""The command `angle-blocks`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli.shared import JsonOption, MostOption, finish
from gaugestack.errors import ExitCode

if TYPE_CHECKING:
    from gaugestack.stacks.anglerequest import AngleOutcome


app = typer.Typer()


@app.command("angle-blocks", epilog="Example: gaugestack angle-blocks 12d34m56s --set angle-16")
def angle_blocks(
    text: Annotated[str, typer.Argument(metavar="ANGLE", help="12d34m56s, 7:07:30, 7.125deg, ...")],
    name: Annotated[
        str | None,
        typer.Option("--set", metavar="SET", help="Angle set file or shipped angle set's name. [angle-16]"),
    ] = None,
    tolerance: Annotated[
        str | None,
        typer.Option("--tolerance", metavar="ANGLE", help="Largest error, 0: none. [half the set's step]"),
    ] = None,
    without: Annotated[
        list[str] | None, typer.Option("--without", metavar="ANGLE", help="Keep this block out.")
    ] = None,
    most: MostOption = None,
    json: JsonOption = False,
) -> None:
    """Make an angle with the fewest angle gauge blocks."""
    from gaugestack.answers import angleblocks as answers  # noqa: PLC0415

    choice = answers.AngleChoice(tolerance=tolerance, without=tuple(without or ()), most=most)
    answer = answers.angle_blocks(
        text, name=answers.DEFAULT_ANGLE_SET if name is None else name, choice=choice
    )
    if json:
        from gaugestack.cards import jsonform  # noqa: PLC0415
        from gaugestack.cards.angleblocksform import angle_blocks_form  # noqa: PLC0415

        finish(jsonform.text(angle_blocks_form(answer)))
    else:
        from gaugestack.cards.angleblockscreen import angle_blocks_text  # noqa: PLC0415

        finish(angle_blocks_text(answer))
    _leave(answer.outcome)


def _leave(outcome: AngleOutcome) -> None:
    """Leave with the exit code of the outcome."""
    from gaugestack.stacks.anglerequest import AngleImpossible, AngleUndecided  # noqa: PLC0415

    if isinstance(outcome, AngleImpossible):
        raise typer.Exit(ExitCode.NO)
    if isinstance(outcome, AngleUndecided):
        raise typer.Exit(ExitCode.UNDECIDED)
