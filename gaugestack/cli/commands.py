"""The commands: each reads its words, asks one function of answers/, prints.

Answers and cards are imported inside the commands: `--help` needs neither.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli import setcommands
from gaugestack.errors import ExitCode, UsageError, nearest

if TYPE_CHECKING:
    from gaugestack.angles.sine import SineBar
    from gaugestack.angles.taper import Use
    from gaugestack.answers import Choice
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.blocks import Basis, BlockSet
    from gaugestack.cards.drawing import Pen

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="Gauge-block stacks, sine bars and tapers: from a drawing call-out to the blocks of your own set.",
)
app.add_typer(setcommands.app, name="set")

SetOption = Annotated[
    str | None,
    typer.Option(
        "--set", metavar="SET", help="Set file, or a shipped set's name (see: gaugestack set list)."
    ),
]
ToleranceOption = Annotated[
    str | None,
    typer.Option(
        "--tolerance", metavar="LENGTH", help="Largest deviation; 0: exactly. [half the set's step]"
    ),
]
BasisOption = Annotated[
    str, typer.Option("--basis", metavar="BASIS", help="Length that counts: nominal or certified.")
]
WithoutOption = Annotated[
    list[str] | None,
    typer.Option("--without", metavar="SIZE", help="Keep this block out; SIZE#SERIAL for one piece."),
]
WithOption = Annotated[list[str] | None, typer.Option("--with", metavar="SIZE", help="Keep this block in.")]
WearOption = Annotated[
    str | None,
    typer.Option(
        "--wear", metavar="PAIR", help="Wear blocks at both ends: own, a size, or a set that holds a pair."
    ),
]
MostOption = Annotated[int | None, typer.Option("--most", metavar="N", help="At most N blocks in a stack.")]
BarOption = Annotated[
    str | None,
    typer.Option("--bar", metavar="BAR", help="Centre distance (5in, 100mm) or a described bar's name."),
]
BarsOption = Annotated[
    str | None, typer.Option("--bars", metavar="FILE", help="YAML file that describes sine bars.")
]
JsonOption = Annotated[bool, typer.Option("--json", help="Answer as JSON.")]


@app.command(epilog="Example: gaugestack stack 0.6202in --set inch-81")
def stack(
    heights: Annotated[list[str], typer.Argument(metavar="HEIGHT...", help="0.6202in, 15.752mm, 5/8in, ...")],
    set_: SetOption = None,
    tolerance: ToleranceOption = None,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    json: JsonOption = False,
) -> None:
    """Make a height, or several at once, with the fewest blocks of a set."""
    from gaugestack import answers  # noqa: PLC0415
    from gaugestack.cards import jsonform, screen  # noqa: PLC0415

    block_set, _ = chosen_set(set_)
    choice = chosen(tolerance, basis, without, with_, wear, most)
    answer = answers.stack(heights, block_set=block_set, choice=choice)
    finish(jsonform.text(jsonform.stack_form(answer)) if json else screen.stack_text(answer, _pen()))
    leave(answer)


@app.command(epilog="Example: gaugestack angle 7d7m30s --bar 5in --set inch-81")
def angle(
    text: Annotated[str, typer.Argument(metavar="ANGLE", help="7d7m30s, 7:07:30, 7.125deg, 0.1rad, ...")],
    bar: BarOption = None,
    bars: BarsOption = None,
    set_: SetOption = None,
    tolerance: ToleranceOption = None,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    json: JsonOption = False,
) -> None:
    """Set a sine bar or plate to an angle."""
    from gaugestack import answers  # noqa: PLC0415
    from gaugestack.cards import anglescreen, jsonform  # noqa: PLC0415

    block_set, known = chosen_set(set_, bars)
    choice = chosen(tolerance, basis, without, with_, wear, most)
    on = answers.find_bar(bar, block_set, known)
    answer = answers.angle(text, bar=on, block_set=block_set, bars=known, choice=choice)
    finish(jsonform.text(jsonform.angle_form(answer)) if json else anglescreen.angle_text(answer, _pen()))
    leave(answer.stack)


@app.command(epilog="Example: gaugestack taper 3in/ft --bar 5in --for compound --set inch-81")
def taper(
    call_out: Annotated[
        list[str],
        typer.Argument(
            metavar="CALLOUT...",
            help="3in/ft, 1:4, 50mm/m, 7.5deg/side, 15deg included, '1.25in to 0.75in over 4in'.",
        ),
    ],
    bar: BarOption = None,
    bars: BarsOption = None,
    use: Annotated[
        str | None,
        typer.Option("--for", metavar="USE", help="compound (half angle) or inspection (included). [both]"),
    ] = None,
    set_: SetOption = None,
    tolerance: ToleranceOption = None,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    json: JsonOption = False,
) -> None:
    """Turn a taper call-out into its angles, and set a sine bar to them."""
    from gaugestack import answers  # noqa: PLC0415
    from gaugestack.cards import anglescreen, jsonform  # noqa: PLC0415

    block_set, known = chosen_set(set_, bars)
    choice = chosen(tolerance, basis, without, with_, wear, most)
    on = answers.find_bar(bar, block_set, known)
    answer = answers.taper(
        " ".join(call_out), bar=on, block_set=block_set, bars=known, use=_use(use), choice=choice
    )
    finish(jsonform.text(jsonform.taper_form(answer)) if json else anglescreen.taper_text(answer, _pen()))
    leave(*(role.angle.stack for role in answer.roles))


@app.callback(invoke_without_command=True)
def _version(
    version: Annotated[bool, typer.Option("--version", help="Print the version and leave.")] = False,
) -> None:
    """Print the version where asked for."""
    if version:
        from importlib.metadata import version as installed  # noqa: PLC0415

        finish(f"gaugestack {installed('gaugestack')}\n")
        raise typer.Exit


def chosen_set(name: str | None, bars: str | None = None) -> tuple[BlockSet, tuple[SineBar, ...]]:
    """Return the set asked for, else GAUGESTACK_SET's, else the shipped default, and all bars described."""
    from gaugestack.inventory.barfile import load_bars  # noqa: PLC0415
    from gaugestack.inventory.setfile import load_set  # noqa: PLC0415
    from gaugestack.inventory.shipped import DEFAULT_SET, find_set  # noqa: PLC0415

    block_set, own = load_set(find_set(name or os.environ.get("GAUGESTACK_SET") or DEFAULT_SET))
    return block_set, (*own, *(load_bars(bars) if bars else ()))


def chosen(
    tolerance: str | None,
    basis: str,
    without: list[str] | None,
    with_: list[str] | None,
    wear: str | None,
    most: int | None,
) -> Choice:
    """Return the choice the options make."""
    from gaugestack.answers import Choice  # noqa: PLC0415

    return Choice(
        tolerance=tolerance,
        basis=_basis(basis),
        without=tuple(without or ()),
        keep=tuple(with_ or ()),
        wear=wear,
        most=most,
    )


def finish(text: str) -> None:
    """Print an answer."""
    from gaugestack.cli.terminal import emit  # noqa: PLC0415

    emit(text)


def leave(*found: StackAnswer) -> None:
    """Leave with the exit code of the worst outcome: impossible, undecided, found."""
    from gaugestack.stacks.request import Impossible, Undecided  # noqa: PLC0415

    outcomes = [answer.outcome for answer in found]
    if any(isinstance(outcome, Impossible) for outcome in outcomes):
        raise typer.Exit(ExitCode.NO)
    if any(isinstance(outcome, Undecided) for outcome in outcomes):
        raise typer.Exit(ExitCode.UNDECIDED)


def _pen() -> Pen:
    """Return the drawing characters of this terminal."""
    from gaugestack.cli.terminal import pen  # noqa: PLC0415

    return pen()


def _basis(text: str) -> Basis:
    """Return the basis a word names."""
    from gaugestack.blocks import Basis  # noqa: PLC0415

    try:
        return Basis(text)
    except ValueError:
        known = [basis.value for basis in Basis]
        raise UsageError.about("--basis", f"{text!r} is no basis", hint=nearest(text, known)) from None


def _use(text: str | None) -> Use | None:
    """Return the use a word names."""
    from gaugestack.angles.taper import Use  # noqa: PLC0415

    if text is None:
        return None
    try:
        return Use(text)
    except ValueError:
        known = [use.value for use in Use]
        raise UsageError.about("--for", f"{text!r} is no use", hint=nearest(text, known)) from None
