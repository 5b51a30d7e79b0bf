"""The command `job`: many set-ups in the fewest wrings."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli.shared import (
    BarOption,
    BarsOption,
    BasisOption,
    EffortOption,
    JsonOption,
    MostOption,
    OnOption,
    SetsOption,
    ToleranceOption,
    WithOption,
    WithoutOption,
    chosen,
    chosen_stock,
    finish,
    known_bars,
)
from gaugestack.errors import ExitCode, RefusedFile, UsageError, nearest

if TYPE_CHECKING:
    from gaugestack.answers.job import JobAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.inventory.jobfile import Job, Order


app = typer.Typer()


@app.command(epilog="Example: gaugestack job monday.yaml --set inch-81 --bar 5in")
def job(
    file: Annotated[str, typer.Argument(metavar="FILE", help="Job file: heights, angles, tapers by name.")],
    sets: SetsOption = None,
    bar: BarOption = None,
    bars: BarsOption = None,
    order: Annotated[
        str | None, typer.Option("--order", metavar="ORDER", help="free or fixed. [as the file says]")
    ] = None,
    tolerance: ToleranceOption = None,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    most: MostOption = None,
    effort: EffortOption = 1,
    on: OnOption = None,
    json: JsonOption = False,
) -> None:
    """Plan many set-ups for the fewest wrings of the whole job."""
    from gaugestack.answers import job as answers  # noqa: PLC0415
    from gaugestack.inventory.jobfile import load_job  # noqa: PLC0415

    read = load_job(file)
    stock = job_stock(read, sets, on)
    wish = answers.JobChoice(
        choice=chosen(tolerance, basis, (without, with_), None, most, less_used=False, times=effort),
        bar=bar,
        bars=known_bars(stock, bars),
        order=job_order(order),
    )
    answer = answers.job(read, stock=stock, wish=wish)
    if json:
        from gaugestack.cards import jsonform  # noqa: PLC0415
        from gaugestack.cards.jobform import job_form  # noqa: PLC0415

        finish(jsonform.text(job_form(answer)))
    else:
        from gaugestack.cards.jobscreen import job_text  # noqa: PLC0415

        finish(job_text(answer))
    leave_job(answer)


def job_stock(read: Job, sets: list[str] | None, on: str | None) -> Stock:
    """Return the blocks at hand: the caller's sets, else the job's, else the default.

    A file the job names stands beside the job file.
    """
    if sets or read.set is None:
        return chosen_stock(sets, on, read.name)
    name = read.set.text
    beside = Path(read.file).parent / name
    try:
        return chosen_stock([str(beside) if beside.is_file() else name], on, read.name)
    except UsageError as error:
        told = error.problems[0]
        raise RefusedFile([read.set.problem(told.sentence, hint=told.hint)]) from None


def job_order(text: str | None) -> Order | None:
    """Return the order a word names.  Raises UsageError."""
    from gaugestack.inventory.jobfile import Order  # noqa: PLC0415

    if text is None:
        return None
    try:
        return Order(text)
    except ValueError:
        hint = nearest(text, [order.value for order in Order])
        raise UsageError.about("--order", f"{text!r} is no order", hint=hint) from None


def leave_job(answer: JobAnswer) -> None:
    """Leave with the exit code of the outcome."""
    from gaugestack.stacks.request import Impossible  # noqa: PLC0415
    from gaugestack.stacks.sequencerequest import JobUndecided  # noqa: PLC0415

    if any(isinstance(outcome, Impossible) for _, outcome in answer.failures):
        raise typer.Exit(ExitCode.NO)
    if answer.failures or isinstance(answer.outcome, JobUndecided):
        raise typer.Exit(ExitCode.UNDECIDED)
