"""The command `card job`: the sheet of a whole job."""

from __future__ import annotations

from typing import Annotated

import typer

from gaugestack.cli.boundary import say
from gaugestack.cli.cardoutput import FormOption, OutputOption, PaperOption, card_form, give
from gaugestack.cli.jobcommands import job_order, job_stock, leave_job
from gaugestack.cli.patience import patience
from gaugestack.cli.shared import (
    BarOption,
    BarsOption,
    BasisOption,
    EffortOption,
    MostOption,
    OnOption,
    SetsOption,
    ToleranceOption,
    WithOption,
    WithoutOption,
    chosen,
    known_bars,
)

app = typer.Typer()


@app.command(epilog="Example: gaugestack card job monday.yaml --set inch-81 --form html")
def job(
    file: Annotated[str, typer.Argument(metavar="FILE", help="Job file: heights, angles, tapers by name.")],
    sets: SetsOption = None,
    bar: BarOption = None,
    bars: BarsOption = None,
    order: Annotated[
        str | None, typer.Option("--order", metavar="ORDER", help="free or fixed. [as the file says]")
    ] = None,
    tolerance: ToleranceOption = None,
    effort: EffortOption = 1,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    most: MostOption = None,
    on: OnOption = None,
    paper: PaperOption = "a4",
    form: FormOption = None,
    output: OutputOption = None,
) -> None:
    """Print the sheet of a job: every set-up in its order, what stays wrung, what goes on."""
    from gaugestack.answers import job as answers  # noqa: PLC0415
    from gaugestack.cards.jobscreen import job_text  # noqa: PLC0415
    from gaugestack.cards.jobsheet import job_sheet  # noqa: PLC0415
    from gaugestack.inventory.jobfile import load_job  # noqa: PLC0415

    made = card_form(form, output, paper)
    read = load_job(file)
    stock = job_stock(read, sets, on)
    wish = answers.JobChoice(
        choice=chosen(tolerance, basis, (without, with_), None, most, less_used=False, times=effort),
        bar=bar,
        bars=known_bars(stock, bars),
        order=job_order(order),
    )
    with patience("planning the job"):
        answer = answers.job(read, stock=stock, wish=wish)
    if answer.plan:
        give(job_sheet(answer), made)
    else:
        say(job_text(answer).rstrip())
    leave_job(answer)
