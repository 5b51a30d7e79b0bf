"""The commands around a set-up: `plate`, `correct`, `from-stack`, `proof`, `tapers`."""

from __future__ import annotations

from typing import Annotated

import typer

from gaugestack.cli.figures import SketchOption, SvgOption, save_drawing, sketched
from gaugestack.cli.lathecommands import PartLengthOption  # noqa: TC001  (typer reads it)
from gaugestack.cli.shared import (
    BarOption,
    BarsOption,
    BasisOption,
    EffortOption,
    JobOption,
    JsonOption,
    MostOption,
    OnOption,
    SetsOption,
    ToleranceOption,
    WearOption,
    WithOption,
    WithoutOption,
    chosen,
    chosen_stock,
    finish,
    known_bars,
    leave,
    pen,
    use_of,
)

app = typer.Typer()

SetBefore = Annotated[
    list[str], typer.Argument(metavar="ANGLE|CALLOUT...", help="The angle that was set, or the taper.")
]
UseOption = Annotated[
    str | None,
    typer.Option("--for", metavar="USE", help="What was set: compound (half) or inspection (included)."),
]


@app.command(epilog="Example: gaugestack plate 20deg 30deg --bottom 5in --top 5in --views part")
def plate(
    first: Annotated[str, typer.Argument(metavar="FIRST", help="Slope in the first view.")],
    second: Annotated[str, typer.Argument(metavar="SECOND", help="Slope in the second, square to it.")],
    views: Annotated[
        str | None,
        typer.Option("--views", metavar="WHAT", help="What both describe: the plate's surface or the part."),
    ] = None,
    bottom: Annotated[
        str | None, typer.Option("--bottom", metavar="BAR", help="Bottom plate's centre distance or name.")
    ] = None,
    top: Annotated[
        str | None, typer.Option("--top", metavar="BAR", help="Top plate's. [the bottom plate's]")
    ] = None,
    bars: BarsOption = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    effort: EffortOption = 1,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    on: OnOption = None,
    job: JobOption = "",
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Set a compound sine plate: two stacks from one set."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers import plate as answers  # noqa: PLC0415
    from gaugestack.answers.bars import find_bar  # noqa: PLC0415
    from gaugestack.cards import jsonform, plateform, platescreen  # noqa: PLC0415
    from gaugestack.cards.rows import angle_mark  # noqa: PLC0415
    from gaugestack.lengths import exact_text  # noqa: PLC0415

    stock = chosen_stock(sets, on, job)
    known = known_bars(stock, bars)
    low = find_bar(bottom, stock, known, "--bottom")
    high = find_bar(top or bottom, stock, known, "--top")
    choice = chosen(tolerance, basis, (without, with_), wear, None, less_used=False, times=effort)
    answer = answers.plate(
        first, second, bars=(low, high), views=answers.views_of(views), stock=stock, choice=choice
    )
    figures = sketched(sketch, Geometry.COMPOUND_PLATE)
    found = answer.plate
    save_drawing(
        svg,
        Geometry.COMPOUND_PLATE,
        A=angle_mark(found.bottom_angle),
        C=angle_mark(found.top_angle),
        h1=exact_text(found.bottom_stack, low.unit),
        h2=exact_text(found.top_stack, high.unit),
    )
    finish(
        jsonform.text(plateform.plate_form(answer))
        if json
        else platescreen.plate_text(answer, pen(), figures)
    )
    leave(answer.stack.outcome)


@app.command(
    epilog="Example: gaugestack correct morse 2 --for inspection --bar 5in --rise 0.0004in --span 3in"
)
def correct(
    text: SetBefore,
    bar: BarOption = None,
    bars: BarsOption = None,
    rise: Annotated[
        str | None, typer.Option("--rise", metavar="LENGTH", help="Rise along the top; + : stack end high.")
    ] = None,
    span: Annotated[
        str | None, typer.Option("--span", metavar="LENGTH", help="Level travel of the indicator.")
    ] = None,
    tip: Annotated[
        str | None, typer.Option("--tip", metavar="ANGLE", help="Angle of a lever indicator's arm. [0]")
    ] = None,
    error: Annotated[
        str | None, typer.Option("--error", metavar="ANGLE", help="How much too steep it is set, like 0d2m.")
    ] = None,
    half_error: Annotated[
        str | None,
        typer.Option("--half-error", metavar="ANGLE", help="How much too steep the half angle came out."),
    ] = None,
    use: UseOption = None,
    part_length: PartLengthOption = None,
    was: Annotated[
        list[str] | None,
        typer.Option("--was", metavar="SIZE", help="A block of the old stack. [the set's best]"),
    ] = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    effort: EffortOption = 1,
    on: OnOption = None,
    job: JobOption = "",
    json: JsonOption = False,
) -> None:
    """Correct a bar by what the indicator showed: next stack."""
    from gaugestack.answers.bars import find_bar  # noqa: PLC0415
    from gaugestack.answers.correct import CorrectAsked  # noqa: PLC0415
    from gaugestack.answers.correct import correct as answer_correct  # noqa: PLC0415
    from gaugestack.cards import jsonform, plateform, platescreen  # noqa: PLC0415

    stock = chosen_stock(sets, on, job)
    asked = CorrectAsked(
        error=error,
        half_error=half_error,
        rise=rise,
        span=span,
        tip=tip,
        use=use_of(use),
        length=part_length,
        old_blocks=tuple(was or ()),
    )
    choice = chosen(tolerance, basis, (without, None), wear, most, less_used=False, times=effort)
    found = find_bar(bar, stock, known_bars(stock, bars))
    answer = answer_correct(" ".join(text), asked=asked, bar=found, stock=stock, choice=choice)
    finish(jsonform.text(plateform.correct_form(answer)) if json else platescreen.correct_text(answer, pen()))
    leave(answer.new.outcome)


@app.command(epilog="Example: gaugestack from-stack 0.1008in 0.150in --bar 5in")
def from_stack(
    sizes: Annotated[list[str], typer.Argument(metavar="SIZE...", help="The blocks on the bench.")],
    bar: BarOption = None,
    bars: BarsOption = None,
    seat: Annotated[
        str | None,
        typer.Option(
            "--seat", metavar="SEAT", help="How it lies: flank, axis, bar-on-flank, bar-above-axis."
        ),
    ] = None,
    sets: SetsOption = None,
    on: OnOption = None,
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Say the angle and taper that blocks on the bench give, by their sizes and as certified."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers.bars import find_bar  # noqa: PLC0415
    from gaugestack.answers.fromstack import from_stack as answer_from_stack  # noqa: PLC0415
    from gaugestack.answers.fromstack import seat_of  # noqa: PLC0415
    from gaugestack.cards import jsonform, plateform, platescreen  # noqa: PLC0415
    from gaugestack.cards.rows import shown  # noqa: PLC0415

    stock = chosen_stock(sets, on)
    found = find_bar(bar, stock, known_bars(stock, bars))
    answer = answer_from_stack(sizes, bar=found, stock=stock, seat=seat_of(seat))
    drawn = Geometry[answer.seats[0].seat.name] if seat != "bar-above-axis" else Geometry.BAR_ON_FLANK
    figures = sketched(sketch, drawn, answer.seats[0].taper)
    marks = {"h": shown(answer.length, found.unit), "L": shown(found.effective, found.unit)}
    save_drawing(svg, drawn, answer.seats[0].taper, **marks)
    finish(
        jsonform.text(plateform.from_stack_form(answer))
        if json
        else platescreen.from_stack_text(answer, figures)
    )


@app.command(epilog="Example: gaugestack proof morse 3 --kind bar --span 3in")
def proof(
    call_out: Annotated[
        list[str] | None, typer.Argument(metavar="[CALLOUT...]", help="A taper, a flat or an angle.")
    ] = None,
    kind: Annotated[
        str | None, typer.Option("--kind", metavar="SET-UP", help="bar, lathe, plug or bore. [all]")
    ] = None,
    spans: Annotated[
        list[str] | None,
        typer.Option("--span", metavar="LENGTH", help="Travel of the indicator; several times: a table."),
    ] = None,
    turned: Annotated[
        tuple[str, str] | None,
        typer.Option("--reversal", metavar="RISE RISE", help="Rises before and after turning end for end."),
    ] = None,
    json: JsonOption = False,
) -> None:
    """List the checks that prove a set-up, and their blind spots."""
    from gaugestack.answers.proof import proof as answer_proof  # noqa: PLC0415
    from gaugestack.cards import jsonform, proofform, proofscreen  # noqa: PLC0415

    text = " ".join(call_out) if call_out else None
    answer = answer_proof(text, kind=kind, spans=spans or (), turned=turned)
    finish(jsonform.text(proofform.proof_form(answer)) if json else proofscreen.proof_text(answer))


@app.command(epilog="Example: gaugestack tapers morse 3")
def tapers(
    name: Annotated[
        list[str] | None, typer.Argument(metavar="[NAME...]", help="A series or one taper: morse, jarno 6.")
    ] = None,
    json: JsonOption = False,
) -> None:
    """List the published tapers and where they are published."""
    from gaugestack.answers.tapers import tapers as answer_tapers  # noqa: PLC0415
    from gaugestack.cards import jsonform, proofform, proofscreen  # noqa: PLC0415

    found = answer_tapers(" ".join(name) if name else None)
    finish(jsonform.text(proofform.tapers_form(found)) if json else proofscreen.tapers_text(found))
