"""The main commands, `stack`, `angle` and `taper`: each reads its words, asks answers/, prints.

Answers and cards are imported inside the commands: `--help` needs neither.
"""

from __future__ import annotations

from typing import Annotated

import typer

from gaugestack.cli import stackcommands, tapercommand
from gaugestack.cli.batchcommands import CsvOption, TargetsOption, answer_list, refuse_beside
from gaugestack.cli.figures import SketchOption, SvgOption  # noqa: TC001  (typer reads them)
from gaugestack.cli.pictures import PictureOption, angle_picture, save_picture, stack_picture
from gaugestack.cli.shared import (
    BarOption,
    BarsOption,
    BasisOption,
    DifferenceOption,
    EffortOption,
    JobOption,
    JsonOption,
    LessUsedOption,
    MostOption,
    NextOption,
    OnOption,
    ProofStackOption,
    SetsOption,
    ToleranceOption,
    TradeOffsOption,
    WearOption,
    WhyOption,
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
from gaugestack.cli.why import show_why, with_why
from gaugestack.errors import UsageError

app = typer.Typer()


@app.command(epilog="Example: gaugestack stack 0.6202in --set inch-81")
def stack(
    heights: Annotated[
        list[str] | None, typer.Argument(metavar="HEIGHT...", help="0.6202in, 15.752mm, 5/8in, ...")
    ] = None,
    targets: TargetsOption = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    effort: EffortOption = 1,
    less_used: LessUsedOption = False,
    on: OnOption = None,
    job: JobOption = "",
    next_: NextOption = None,
    proof_stack: ProofStackOption = False,
    trade_offs: TradeOffsOption = False,
    svg: PictureOption = None,
    why: WhyOption = False,
    csv: CsvOption = False,
    json: JsonOption = False,
) -> None:
    """Make one height or several with the fewest blocks."""
    from gaugestack.answers.stack import stack as answer_stack  # noqa: PLC0415

    beside = {"--next": next_ is not None, "--proof-stack": proof_stack, "--trade-offs": trade_offs}
    refuse_beside(targets, {"HEIGHT": heights, **beside, "--svg": svg, "--why": why}, csv=csv, json=json)
    stock = chosen_stock(sets, on, job)
    choice = chosen(tolerance, basis, (without, with_), wear, most, less_used, effort)
    if targets is not None:
        from gaugestack.answers.batch import Heights  # noqa: PLC0415

        answer_list(targets, Heights(stock=stock, choice=choice), csv=csv, json=json)
        return
    answer = answer_stack(heights or (), stock=stock, choice=choice)
    save_picture(svg, lambda: stack_picture(answer))
    if next_ is not None or proof_stack or trade_offs:
        stackcommands.beside(answer, stock, choice, (next_, proof_stack, trade_offs), json=json)
    elif json:
        from gaugestack.cards import jsonform  # noqa: PLC0415

        finish(jsonform.text(with_why(jsonform.stack_form(answer), answer.plans, why=why)))
    else:
        from gaugestack.cards.screen import stack_text  # noqa: PLC0415

        finish(stack_text(answer, pen()))
    show_why(answer.plans, why=why and not json)
    leave(answer.outcome)


@app.command(epilog="Example: gaugestack angle 7d7m30s --bar 5in --set inch-81")
def angle(
    text: Annotated[
        str | None, typer.Argument(metavar="ANGLE", help="7d7m30s, 7:07:30, 7.125deg, 0.1rad, ...")
    ] = None,
    targets: TargetsOption = None,
    bar: BarOption = None,
    bars: BarsOption = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    effort: EffortOption = 1,
    less_used: LessUsedOption = False,
    difference: DifferenceOption = False,
    on: OnOption = None,
    job: JobOption = "",
    svg: PictureOption = None,
    why: WhyOption = False,
    csv: CsvOption = False,
    json: JsonOption = False,
) -> None:
    """Set a sine bar or plate to an angle."""
    from gaugestack.answers import angle as answers  # noqa: PLC0415
    from gaugestack.answers.bars import find_bar  # noqa: PLC0415

    refuse_beside(targets, {"ANGLE": text, "--svg": svg, "--why": why}, csv=csv, json=json)
    stock = chosen_stock(sets, on, job)
    known = known_bars(stock, bars)
    choice = chosen(tolerance, basis, (without, with_), wear, most, less_used, effort)
    found = find_bar(bar, stock, known)
    if targets is not None:
        from gaugestack.answers.batch import Angles  # noqa: PLC0415

        work = Angles(stock=stock, choice=choice, bar=found, bars=known, difference=difference)
        answer_list(targets, work, csv=csv, json=json)
        return
    if text is None:
        raise UsageError.about("ANGLE", "an angle is wanted", hint="like 7d7m30s")
    answer = answers.angle(text, bar=found, stock=stock, bars=known, choice=choice, difference=difference)
    save_picture(svg, lambda: angle_picture(answer))
    if json:
        from gaugestack.cards import jsonform  # noqa: PLC0415

        form = jsonform.angle_form(answer)
        finish(jsonform.text(with_why(form, answer.stack.plans, answer.asked.degrees, why=why)))
    else:
        from gaugestack.cards.anglescreen import angle_text  # noqa: PLC0415

        finish(angle_text(answer, pen()))
    show_why(answer.stack.plans, answer.asked.degrees, why=why and not json)
    leave(answer.stack.outcome)


@app.command(epilog="Example: gaugestack taper 3in/ft --bar 5in --for compound --set inch-81")
def taper(
    call_out: Annotated[
        list[str],
        typer.Argument(
            metavar="CALLOUT...",
            help="3in/ft, 1:4, 7.5deg/side, 15deg included, morse 3, flat 1:12, '1in to 0.75in over 4in'.",
        ),
    ],
    bar: BarOption = None,
    bars: BarsOption = None,
    use: Annotated[
        str | None,
        typer.Option("--for", metavar="USE", help="compound (half angle) or inspection (included). [both]"),
    ] = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    effort: EffortOption = 1,
    less_used: LessUsedOption = False,
    on: OnOption = None,
    job: JobOption = "",
    sketch: SketchOption = False,
    svg: SvgOption = None,
    why: WhyOption = False,
    json: JsonOption = False,
) -> None:
    """Turn a taper call-out into angles; set a sine bar to them."""
    from gaugestack.answers.bars import find_bar  # noqa: PLC0415
    from gaugestack.answers.taper import taper as answer_taper  # noqa: PLC0415

    stock = chosen_stock(sets, on, job)
    known = known_bars(stock, bars)
    choice = chosen(tolerance, basis, (without, with_), wear, most, less_used, effort)
    found = find_bar(bar, stock, known)
    answer = answer_taper(
        " ".join(call_out), bar=found, stock=stock, bars=known, use=use_of(use), choice=choice
    )
    tapercommand.show(answer, sketch=sketch, svg=svg, why=why, json=json)
