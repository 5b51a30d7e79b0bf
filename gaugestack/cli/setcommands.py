"""The commands about sets: `set list`, `set show`, `set check`, `set copy`.  Others join the group."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli.shared import JsonOption, OnOption, chosen_stock, finish
from gaugestack.errors import ExitCode, UsageError

if TYPE_CHECKING:
    from gaugestack.answers.stock import Stock

app = typer.Typer()

SetArgument = Annotated[str | None, typer.Argument(metavar="[SET]", help="Set file or shipped set's name.")]
HiddenSetOption = Annotated[str | None, typer.Option("--set", hidden=True)]


@app.command("list", epilog="Example: gaugestack set list")
def list_(json: JsonOption = False) -> None:
    """List the shipped sets and where their compositions come from."""
    from gaugestack.answers import sets as answers  # noqa: PLC0415

    sets = answers.listed()
    if json:
        from gaugestack.cards import jsonform  # noqa: PLC0415

        finish(jsonform.text(jsonform.list_form(sets)))
    else:
        from gaugestack.cards.screen import list_text  # noqa: PLC0415

        finish(list_text(sets))


@app.command(epilog="Example: gaugestack set show inch-81")
def show(
    name: SetArgument = None,
    set_: HiddenSetOption = None,
    on: OnOption = None,
    json: JsonOption = False,
) -> None:
    """Show every piece of a set."""
    from gaugestack.answers import sets as answers  # noqa: PLC0415

    answer = answers.show(_stock(said_once(name, set_), on))
    if json:
        from gaugestack.cards import jsonform  # noqa: PLC0415

        finish(jsonform.text(jsonform.set_form(answer)))
    else:
        from gaugestack.cards.screen import set_text  # noqa: PLC0415

        finish(set_text(answer))


@app.command(epilog="Example: gaugestack set check my-set.yaml")
def check(
    name: SetArgument = None,
    set_: HiddenSetOption = None,
    on: OnOption = None,
    json: JsonOption = False,
) -> None:
    """Name everything wrong with a set: file, calibration, grade, loans; say what it reaches."""
    from gaugestack.answers import setcheck, sets  # noqa: PLC0415
    from gaugestack.cards import checkscreen, jsonform, screen  # noqa: PLC0415

    answer = sets.check(_stock(said_once(name, set_), on))
    found = answer.checked or setcheck.checked(answer.stock, answer.stock.on)
    form = {**jsonform.set_form(answer, "set-check"), **checkscreen.check_fields(found)} if json else {}
    finish(jsonform.text(form) if json else screen.set_text(answer, checkscreen.check_lines(found)))
    if found.problems:
        raise typer.Exit(ExitCode.NO)


@app.command("copy", epilog="Example: gaugestack set copy inch-81 bench.yaml --name 'Bench set'")
def copy(
    shipped: Annotated[str, typer.Argument(metavar="NAME", help="Shipped set's name.")],
    file: Annotated[str, typer.Argument(metavar="FILE", help="The new set file, ending in .yaml.")],
    name: Annotated[str, typer.Option("--name", metavar="TEXT", help="What you call your set.")] = "",
    json: JsonOption = False,
) -> None:
    """Copy a shipped set to a file of your own, to edit and to keep a ledger of."""
    from gaugestack.cards import jsonform, ledgerform, ledgerscreen  # noqa: PLC0415
    from gaugestack.inventory.copies import copy_set  # noqa: PLC0415

    path = copy_set(shipped, file, name)
    finish(
        jsonform.text(ledgerform.copy_form(shipped, path)) if json else ledgerscreen.copy_text(shipped, path)
    )


def said_once(name: str | None, set_: str | None) -> str | None:
    """Return the set named by argument or by --set.  Raises UsageError where both name different ones."""
    if name is not None and set_ is not None and name != set_:
        raise UsageError.about("--set", f"this names {set_}, the argument {name}", hint="say the set once")
    return name if set_ is None else set_


def _stock(name: str | None, on: str | None) -> Stock:
    """Return the stock of one set, or of the default one."""
    return chosen_stock(None if name is None else [name], on)
