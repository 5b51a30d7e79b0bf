"""The program: its menu of commands and `--version`.

Every command stands here with the module of cli/ that holds it; that module
is imported when the command is named.
"""

from __future__ import annotations

from typing import Annotated

import typer

from gaugestack.cli.menu import Group, Page, menu

PAGES: dict[str, Page] = {
    "stack": "maincommands",
    "angle": "maincommands",
    "taper": "maincommands",
    "angle-blocks": "angleblockcommands",
    "job": "jobcommands",
    "record": "ledgercommands",
    "history": "ledgercommands",
    "reach": "reachcommands",
    "plate": "setupcommands",
    "correct": "setupcommands",
    "from-stack": "setupcommands",
    "proof": "setupcommands",
    "tapers": "setupcommands",
    "set": Group(
        help="Look at sets: list, show, check, copy, matters, buy, health.",
        pages={
            "list": "setcommands",
            "show": "setcommands",
            "check": "setcommands",
            "copy": "setcommands",
            "matters": "reachcommands",
            "buy": "reachcommands",
            "health": "reachcommands",
        },
    ),
    "lathe": Group(
        help="Cut a taper: compound slide, tailstock, attachment, collars.",
        pages=dict.fromkeys(("swing", "offset", "attachment", "collars"), "lathecommands"),
    ),
    "measure": Group(
        help="Measure a taper: over rolls, balls in a bore, discs, a bar.",
        pages=dict.fromkeys(("rolls", "balls", "discs", "bar"), "measurecommands"),
    ),
    "budget": Group(
        help="How well a stack or an angle is known, and what decides it.",
        pages=dict.fromkeys(("stack", "angle"), "budgetcommands"),
    ),
    "schema": "schemacommand",
    "card": Group(
        help="Print cards for the box or a set-up; ask whether they hold.",
        pages={"job": "cardjob", "box": "cardcommands", "setup": "cardcommands", "check": "cardcommands"},
    ),
    "completion": "completioncommand",
}
"""Every command in the order of the help: the module of cli/ that holds it, or its group."""

app = typer.Typer(
    cls=menu(PAGES),
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="Gauge-block stacks, sine bars and tapers: from a drawing call-out to the blocks of your own set.",
)


@app.callback(invoke_without_command=True)
def _version(
    version: Annotated[bool, typer.Option("--version", help="Print the version and leave.")] = False,
) -> None:
    """Print the version where asked for."""
    if version:
        from gaugestack.cli.shared import finish  # noqa: PLC0415

        finish(f"gaugestack {_installed()}\n")
        raise typer.Exit


def _installed() -> str:
    """Return the version that is installed; a checkout that was not installed has none."""
    from importlib.metadata import PackageNotFoundError, version  # noqa: PLC0415

    try:
        return version("gaugestack")
    except PackageNotFoundError:
        return "of a checkout that is not installed"
