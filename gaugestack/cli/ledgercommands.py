"""The commands about what happens to blocks: `record` and `history`."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli.pictures import PictureOption, save_picture
from gaugestack.cli.shared import JsonOption, OnOption, day, finish
from gaugestack.errors import UsageError

if TYPE_CHECKING:
    import datetime as dt

    from gaugestack.answers.history import History
    from gaugestack.answers.record import CertificateTable

app = typer.Typer()

SetOption = Annotated[
    str | None, typer.Option("--set", metavar="SET", help="Set file; its ledger lies beside it.")
]
WearFlag = Annotated[bool, typer.Option("--wear", help="The wear blocks of that size are meant.")]
EventArgument = Annotated[
    str, typer.Argument(metavar="EVENT", help="missing, lent, used, worn, calibrated, void, ...")
]
SizesArgument = Annotated[
    list[str] | None,
    typer.Argument(metavar="SIZE", help="Blocks, SIZE#SERIAL for one piece; record numbers to void."),
]
SerialOption = Annotated[str, typer.Option("--serial", metavar="TEXT", help="Which piece of that size.")]
ToOption = Annotated[str, typer.Option("--to", metavar="NAME", help="Who has the block.")]
BackOption = Annotated[str, typer.Option("--back", metavar="DATE", help="The day it is promised for.")]
JobOption = Annotated[str, typer.Option("--job", metavar="NAME", help="The job.")]
WhyOption = Annotated[str, typer.Option("--why", metavar="TEXT", help="What is wrong.")]
DeviationOption = Annotated[
    str,
    typer.Option("--deviation", metavar="LENGTH", help="Actual minus nominal; a bare number: µin, µm."),
]
VariationOption = Annotated[str, typer.Option("--variation", metavar="LENGTH", help="Over the face.")]
UncertaintyOption = Annotated[
    str, typer.Option("--uncertainty", metavar="LENGTH", help="Expanded, coverage factor 2.")
]
TrustOption = Annotated[
    str,
    typer.Option("--trust", metavar="WORDS", help="laboratory-report, own-comparison, unverified-sheet."),
]
SourceOption = Annotated[str, typer.Option("--source", metavar="TEXT", help="Which report.")]
TableOption = Annotated[
    str | None, typer.Option("--table", metavar="FILE", help="Certificate table (CSV) for `calibrated`.")
]
ValueOption = Annotated[
    str, typer.Option("--value", metavar="KIND", help="The table's values: deviation, actual or wear.")
]
ColumnsOption = Annotated[
    str, typer.Option("--columns", metavar="NAMES", help="nominal=Size,deviation=Dev,serial=...")
]
TableUnitOption = Annotated[
    str, typer.Option("--table-unit", metavar="UNIT", help="µin, or nominal=in,deviation=µin.")
]
HappenedOption = Annotated[
    str | None, typer.Option("--on", metavar="DATE", help="The day it happened. [today]")
]


@app.command(epilog="Example: gaugestack record lent 0.105 --to Ola --back 2026-12-01 --set bench.yaml")
def record(
    event: EventArgument,
    sizes: SizesArgument = None,
    set_: SetOption = None,
    serial: SerialOption = "",
    wear: WearFlag = False,
    to: ToOption = "",
    back: BackOption = "",
    job: JobOption = "",
    why: WhyOption = "",
    deviation: DeviationOption = "",
    variation: VariationOption = "",
    uncertainty: UncertaintyOption = "",
    trust: TrustOption = "",
    source: SourceOption = "",
    table: TableOption = None,
    value: ValueOption = "",
    columns: ColumnsOption = "",
    table_unit: TableUnitOption = "",
    on: HappenedOption = None,
    json: JsonOption = False,
) -> None:
    """Record what happened to blocks: missing, lent, used, ...

    Events: missing, found; lent (--to, --back), returned; standing (--job),
    apart; does-not-wring, wrings; one-good-face, both-faces-good; suspect
    (--why), cleared; reserved (--job), released; worn; retired; used (--job);
    calibrated (--deviation, --trust); void (record numbers, --why).
    """
    from gaugestack.answers.record import record as answer_record  # noqa: PLC0415
    from gaugestack.answers.told import Told  # noqa: PLC0415
    from gaugestack.cards import jsonform, ledgerform, ledgerscreen  # noqa: PLC0415

    told = Told(
        event=event,
        sizes=tuple(sizes or ()),
        on=day(on),
        serial=serial,
        wear=wear,
        to=to,
        back=back,
        job=job,
        why=why,
        deviation=deviation,
        variation=variation,
        uncertainty=uncertainty,
        trust=trust,
        source=source,
    )
    layout = _table(table, value, columns, table_unit)
    answer = answer_record(told, name=_own_set(set_), now=_now(), table=layout)
    finish(jsonform.text(ledgerform.record_form(answer)) if json else ledgerscreen.record_text(answer))


@app.command(epilog="Example: gaugestack history 0.105 --jobs --since 2026-03-01 --set bench.yaml")
def history(
    size: Annotated[str, typer.Argument(metavar="SIZE", help="One block; SIZE#SERIAL for one of several.")],
    set_: SetOption = None,
    wear: WearFlag = False,
    jobs: Annotated[bool, typer.Option("--jobs", help="Only the jobs that used it.")] = False,
    since: Annotated[
        str | None, typer.Option("--since", metavar="DATE", help="Jobs from this day on.")
    ] = None,
    on: OnOption = None,
    svg: PictureOption = None,
    json: JsonOption = False,
) -> None:
    """Tell the history of one block: jobs, calibrations, wear."""
    from gaugestack.answers.history import history as answer_history  # noqa: PLC0415
    from gaugestack.cards import jsonform, ledgerform, ledgerscreen  # noqa: PLC0415

    from_day = day(since, "--since") if since else None
    answer = answer_history(size, name=_own_set(set_), on=day(on), wear=wear, since=from_day)
    save_picture(svg, lambda: _wear_picture(answer))
    screen = "" if json else ledgerscreen.history_text(answer, jobs_only=jobs)
    finish(jsonform.text(ledgerform.history_form(answer)) if json else screen)


def _wear_picture(answer: History) -> str:
    """Return the picture of a block's wear."""
    from gaugestack.cards.trendpicture import history_svg  # noqa: PLC0415

    return history_svg(answer)


def _own_set(name: str | None) -> str:
    """Return the set whose ledger is meant: nobody's ledger is written by default."""
    found = name or os.environ.get("GAUGESTACK_SET")
    if not found:
        hint = "like --set bench.yaml; gaugestack set copy inch-81 bench.yaml makes one of your own"
        raise UsageError.about("--set", "say whose ledger", hint=hint)
    return found


def _table(file: str | None, value: str, columns: str, unit: str) -> CertificateTable | None:
    """Return the certificate table asked for.  Raises UsageError for its options without it."""
    from gaugestack.answers.record import CertificateTable  # noqa: PLC0415

    if file:
        return CertificateTable(file=file, value=value, columns=columns, unit=unit)
    for option, text in (("--value", value), ("--columns", columns), ("--table-unit", unit)):
        if text:
            raise UsageError.about(option, "this is about a certificate table", hint="name it with --table")
    return None


def _now() -> dt.datetime:
    """Return the time on the wall."""
    import datetime as dt  # noqa: PLC0415

    return dt.datetime.now(tz=dt.UTC).astimezone()
