"""What several commands share: the options about sets and choice, printing, leaving.

Imports of answers/ and cards/ stand inside the functions: `--help` needs none.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.errors import ExitCode, UsageError, nearest

if TYPE_CHECKING:
    import datetime as dt

    from gaugestack.angles.sine import SineBar
    from gaugestack.angles.taper import Use
    from gaugestack.answers.options import Choice
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Basis
    from gaugestack.cards.drawing import Pen
    from gaugestack.stacks.request import Outcome

SetsOption = Annotated[
    list[str] | None,
    typer.Option("--set", metavar="SET", help="Set file or shipped set's name; twice: two sets."),
]
ToleranceOption = Annotated[
    str | None,
    typer.Option("--tolerance", metavar="LENGTH", help="Largest deviation, 0: none. [half the set's step]"),
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
EffortOption = Annotated[
    int, typer.Option("--effort", metavar="N", help="Search N times as long before it ends undecided.")
]
LessUsedOption = Annotated[
    bool, typer.Option("--less-used", help="Of equal stacks take the one whose blocks were used least.")
]
DifferenceOption = Annotated[
    bool, typer.Option("--difference", help="Blocks under both rolls. [where one stack cannot do it]")
]
NextOption = Annotated[
    int | None, typer.Option("--next", metavar="K", help="List the next best K stacks too.")
]
ProofStackOption = Annotated[
    bool, typer.Option("--proof-stack", help="A second stack that shares no block with the first.")
]
TradeOffsOption = Annotated[
    bool, typer.Option("--trade-offs", help="List more blocks against a smaller deviation.")
]
WhyOption = Annotated[
    bool, typer.Option("--why", help="Every rule with what it rests on, and the work at the bench.")
]
OnOption = Annotated[
    str | None, typer.Option("--on", metavar="DATE", help="The day the set is looked at. [today]")
]
JobOption = Annotated[
    str, typer.Option("--job", metavar="NAME", help="The job; blocks reserved for it may be used.")
]
BarOption = Annotated[
    str | None,
    typer.Option("--bar", metavar="BAR", help="Centre distance (5in, 100mm) or a described bar's name."),
]
BarsOption = Annotated[
    str | None, typer.Option("--bars", metavar="FILE", help="YAML file that describes sine bars.")
]
JsonOption = Annotated[bool, typer.Option("--json", help="Answer as JSON.")]


def day(text: str | None, option: str = "--on") -> dt.date:
    """Return the day a text names, else today.  Raises UsageError."""
    import datetime as dt  # noqa: PLC0415

    if text is None:
        return dt.datetime.now(tz=dt.UTC).astimezone().date()
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise UsageError.about(option, f"{text!r} is no day", hint="like 2026-11-25") from None


def chosen_stock(names: list[str] | None, on: str | None = None, job: str = "") -> Stock:
    """Return the stock of the sets asked for, else GAUGESTACK_SET's, else the shipped default's."""
    from gaugestack.answers.stock import load  # noqa: PLC0415
    from gaugestack.inventory.shipped import DEFAULT_SET  # noqa: PLC0415

    return load(names or [os.environ.get("GAUGESTACK_SET") or DEFAULT_SET], on=day(on), job=job)


def known_bars(stock: Stock, file: str | None) -> tuple[SineBar, ...]:
    """Return the bars that the sets and a bar file describe."""
    from gaugestack.inventory.barfile import load_bars  # noqa: PLC0415

    return (*stock.bars, *(load_bars(file) if file else ()))


def chosen(
    tolerance: str | None,
    basis: str,
    kept: tuple[list[str] | None, list[str] | None],
    wear: str | None,
    most: int | None,
    less_used: bool,  # noqa: FBT001  (an option's value, not a switch of this function)
    times: int = 1,
) -> Choice:
    """Return the choice the options make; `kept` holds the sizes kept out and kept in, `times` the effort."""
    from gaugestack.answers.options import Choice  # noqa: PLC0415

    return Choice(
        tolerance=tolerance,
        basis=basis_of(basis),
        without=tuple(kept[0] or ()),
        keep=tuple(kept[1] or ()),
        wear=wear,
        most=most,
        less_used=less_used,
        times=times,
    )


def basis_of(text: str) -> Basis:
    """Return the basis a word names.  Raises UsageError."""
    from gaugestack.blocks import Basis  # noqa: PLC0415

    try:
        return Basis(text)
    except ValueError:
        hint = nearest(text, [basis.value for basis in Basis])
        raise UsageError.about("--basis", f"{text!r} is no basis", hint=hint) from None


def use_of(text: str | None) -> Use | None:
    """Return the use of a taper a word names, None where none was said.  Raises UsageError."""
    from gaugestack.angles.taper import Use  # noqa: PLC0415

    if text is None:
        return None
    try:
        return Use(text)
    except ValueError:
        known = [use.value for use in Use]
        meant = "compound sets half the angle, inspection the included one"
        hint = f"{nearest(text, known)}; {meant}"
        raise UsageError.about("--for", f"no set-up is called {text!r}", hint=hint) from None


def finish(text: str) -> None:
    """Print an answer."""
    from gaugestack.cli.terminal import emit  # noqa: PLC0415

    emit(text)


def pen() -> Pen:
    """Return the drawing characters of this terminal."""
    from gaugestack.cli.terminal import pen as terminal_pen  # noqa: PLC0415

    return terminal_pen()


def leave(*outcomes: Outcome) -> None:
    """Leave with the exit code of the worst outcome: impossible, undecided, found."""
    from gaugestack.stacks.request import Impossible, Undecided  # noqa: PLC0415

    if any(isinstance(outcome, Impossible) for outcome in outcomes):
        raise typer.Exit(ExitCode.NO)
    if any(isinstance(outcome, Undecided) for outcome in outcomes):
        raise typer.Exit(ExitCode.UNDECIDED)
