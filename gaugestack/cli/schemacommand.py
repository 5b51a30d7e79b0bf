"""The command `schema`: the JSON Schemas of the answers, and of a set file for editors."""

from __future__ import annotations

from operator import attrgetter
from pathlib import Path
from typing import Annotated

import typer

from gaugestack.cli.shared import finish
from gaugestack.errors import UsageError, nearest

SCHEMAS = Path(__file__).parents[1] / "schemas"
app = typer.Typer()


@app.command(epilog="Example: gaugestack schema stack")
def schema(
    name: Annotated[
        str | None, typer.Argument(metavar="[NAME]", help="An answer's name, or set-file. [list them]")
    ] = None,
) -> None:
    """Print the JSON Schema of an answer or of a set file."""
    known = {path.stem: path for path in sorted(SCHEMAS.glob("*.json"), key=attrgetter("stem"))}
    if name is None:
        finish(_listed(known))
    elif name in known:
        finish(known[name].read_text(encoding="utf-8"))
    else:
        raise UsageError.about("NAME", f"there is no schema {name!r}", hint=nearest(name, known))


def _listed(known: dict[str, Path]) -> str:
    """Return the names and what each schema is of."""
    from json import loads  # noqa: PLC0415

    from gaugestack.cards.screen import page, wrapped  # noqa: PLC0415

    says = {name: loads(path.read_text(encoding="utf-8"))["description"] for name, path in known.items()}
    return page(line for name, said in says.items() for line in wrapped(said, f"{name:<14}", " " * 14))
