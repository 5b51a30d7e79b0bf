"""What `stack` and `angle` print of a whole list, each target answered for itself.

>>> answer_list("monday.csv", Heights(stock=stock, choice=choice), json=False, csv=False)
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any

import typer

from gaugestack.cli.shared import finish
from gaugestack.errors import ExitCode, UsageError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from gaugestack.answers.batch import Angles, Heights
    from gaugestack.inventory.targetsfile import Target, Wanted

TargetsOption = Annotated[
    str | None,
    typer.Option(
        "--targets", metavar="FILE", help="A list, one a line or CSV, each answered for itself; - is stdin."
    ),
]
CsvOption = Annotated[bool, typer.Option("--csv", help="With --targets: answer as CSV for a spreadsheet.")]
STDIN = "-"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rendered:
    """What is to be done with every target of a list: answered, and made a row of one form."""

    work: Heights | Angles
    form: str

    def begin(self) -> Callable[[Target], tuple[str, Any]]:
        """Return what makes a row of a target, and tells how it ended."""
        answered: Callable[[Target], Any] = self.work.begin()
        row = _row_of(self.form, self.work.wanted.word)
        return lambda target: _rendered(target, answered(target), row)


def refuse_beside(targets: str | None, alone: Mapping[str, object], *, csv: bool, json: bool) -> None:
    """Refuse beside a list what is for one target `alone`, and --csv without a list."""
    if targets is None:
        if csv:
            raise UsageError.about("--csv", "is for a list of targets", hint="name it with --targets FILE")
        return
    for option, value in alone.items():
        if value:
            raise UsageError.about(option, "is for one target alone, not beside a list (--targets)")
    if csv and json:
        raise UsageError.about("--csv", "and --json are two forms of one answer: ask for one of them")


def answer_list(file: str, work: Heights | Angles, *, json: bool, csv: bool) -> None:
    """Answer every target of a list, print them in its order, leave with the code of the worst."""
    from gaugestack.cli.cores import worked_off  # noqa: PLC0415
    from gaugestack.cli.counting import counting  # noqa: PLC0415

    targets = _read(file, work.wanted)
    ready_for = work.up_to(targets)
    form = "json" if json else "csv" if csv else "screen"
    with counting("composing", len(targets)) as tick:
        rows = worked_off(Rendered(work=ready_for, form=form), targets, tick)
    finish(_text(form, _named(file), ready_for, [row for _, row in rows]))
    _leave({ended for ended, _ in rows})


def _read(file: str, wanted: Wanted) -> tuple[Target, ...]:
    """Return the targets of a file or of standard input."""
    from gaugestack.inventory.targetsfile import load_targets, targets_of_bytes  # noqa: PLC0415
    from gaugestack.inventory.textfile import LARGEST_FILE  # noqa: PLC0415

    if file != STDIN:
        return load_targets(file, wanted)
    if sys.stdin is None:
        raise UsageError.about("--targets", "standard input is closed")
    return targets_of_bytes(sys.stdin.buffer.read(LARGEST_FILE + 1), file=_named(file), wanted=wanted)


def _named(file: str) -> str:
    """Return what a list is called in places and answers."""
    return "standard input" if file == STDIN else file


def _rendered(target: Target, answer: Any, row: Callable[[Target, Any], Any]) -> tuple[str, Any]:  # noqa: ANN401
    """Return how an answer ended, and its row."""
    from gaugestack.cards.batchrows import ended  # noqa: PLC0415

    return ended(getattr(answer, "stack", answer).outcome), row(target, answer)


def _row_of(form: str, word: str) -> Callable[[Target, Any], Any]:
    """Return what makes a row of an answer."""
    if form == "screen":
        from gaugestack.cards import batchscreen  # noqa: PLC0415

        return batchscreen.angle_line if word == "angle" else batchscreen.stack_line
    if form == "csv":
        from gaugestack.cards import batchcsv  # noqa: PLC0415

        return batchcsv.angle_row if word == "angle" else batchcsv.stack_row
    from gaugestack.cards import batchform  # noqa: PLC0415

    return batchform.angle_row if word == "angle" else batchform.stack_row


def _text(form: str, file: str, work: Heights | Angles, rows: list[Any]) -> str:
    """Return a whole answer."""
    angles = work.wanted.word == "angle"
    if form == "csv":
        from gaugestack.cards.batchcsv import ANGLE_COLUMNS, STACK_COLUMNS, csv_text  # noqa: PLC0415

        return csv_text(ANGLE_COLUMNS if angles else STACK_COLUMNS, rows)
    if form == "screen":
        from gaugestack.cards.batchscreen import batch_text  # noqa: PLC0415

        return batch_text(work.wanted.word, work.made(), rows)
    from gaugestack.cards.batchform import batch_form  # noqa: PLC0415
    from gaugestack.cards.jsonform import text  # noqa: PLC0415

    return text(
        batch_form("angle" if angles else "stack", file, work.made(), getattr(work, "bar", None), rows)
    )


def _leave(ends: set[str]) -> None:
    """Leave with 1 where a target is impossible, else with 4 where one is undecided."""
    from gaugestack.cards.batchrows import IMPOSSIBLE, UNDECIDED  # noqa: PLC0415

    if IMPOSSIBLE in ends:
        raise typer.Exit(ExitCode.NO)
    if UNDECIDED in ends:
        raise typer.Exit(ExitCode.UNDECIDED)
