"""The commands about uncertainty: `budget stack` and `budget angle`.

Exit codes: 0 also means that the drawing's tolerance is proven met and the
uncertainty limit kept, where they were asked for; 1 a plain no; 4 cannot tell.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli.budgetoptions import (  # noqa: TC001  (typer reads them at run time)
    AnyBasisOption,
    BarAboveOption,
    BarLimitOption,
    BarMaterialOption,
    BlockMaterialOption,
    BlocksAboveOption,
    CorrectOption,
    DrawingOption,
    EveryOption,
    FaceLimitOption,
    FactorOption,
    FilmOption,
    FootOption,
    LeastOption,
    OverOption,
    PartAboveOption,
    PartMaterialOption,
    PlateLimitOption,
    RollsLimitOption,
    SharedOption,
    TemperatureLimitOption,
    TemperatureOption,
    TogetherOption,
    WarmthLimitOption,
    WithinOption,
    YawOption,
)
from gaugestack.cli.pictures import PictureOption, save_picture
from gaugestack.cli.shared import (
    BarOption,
    BarsOption,
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
)
from gaugestack.errors import ExitCode

if TYPE_CHECKING:
    from gaugestack.answers.budget import BudgetAnswer, Wish
    from gaugestack.answers.options import Choice
    from gaugestack.answers.stock import Stock

app = typer.Typer()


@app.command(epilog="Example: gaugestack budget stack 0.6202in --temperature 23C --set my-set.yaml")
def stack(
    heights: Annotated[list[str], typer.Argument(metavar="HEIGHT...", help="0.6202in, 15.752mm, 5/8in, ...")],
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    basis: AnyBasisOption = None,
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    effort: EffortOption = 1,
    on: OnOption = None,
    job: JobOption = "",
    temperature: TemperatureOption = None,
    temperature_limit: TemperatureLimitOption = None,
    blocks_above: BlocksAboveOption = None,
    part_above: PartAboveOption = None,
    warmth_limit: WarmthLimitOption = None,
    part_material: PartMaterialOption = None,
    block_material: BlockMaterialOption = None,
    film: FilmOption = None,
    joints_together: TogetherOption = False,
    foot: FootOption = True,
    shared: SharedOption = None,
    k: FactorOption = None,
    drawing: DrawingOption = None,
    least: LeastOption = False,
    within: WithinOption = None,
    correct: CorrectOption = False,
    every: EveryOption = False,
    svg: PictureOption = None,
    json: JsonOption = False,
) -> None:
    """Tell how well a stack is known: every doubt, what it adds, what that decides."""
    from gaugestack.answers import budget as answers  # noqa: PLC0415
    from gaugestack.answers.circumstances import Circumstances  # noqa: PLC0415

    said = Circumstances(
        temperature=temperature, temperature_limit=temperature_limit,
        blocks_above=blocks_above, part_above=part_above, warmth_limit=warmth_limit,
        part_material=part_material, block_materials=tuple(block_material or ()),
        film=film, joints_together=joints_together, foot_joint=foot, shared=shared, k=k,
    )  # fmt: skip
    wish = answers.Wish(
        circumstances=said, drawing=drawing, least=least, within=within, correct=correct,
        best_basis=basis is None,
    )  # fmt: skip
    choice = chosen(tolerance, basis or "nominal", (without, with_), wear, most, False, effort)  # noqa: FBT003
    stock = chosen_stock(sets, on, job)
    _answer(
        answers.stack_budget(heights, stock=stock, choice=choice, wish=wish), every=every, svg=svg, json=json
    )


@app.command(
    epilog="Example: gaugestack budget angle 30deg --bar 5in --drawing-tolerance 9s --set my-set.yaml"
)
def angle(
    text: Annotated[str, typer.Argument(metavar="ANGLE", help="7d7m30s, 7:07:30, 7.125deg, 0.1rad, ...")],
    bar: BarOption = None,
    bars: BarsOption = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    basis: AnyBasisOption = None,
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    effort: EffortOption = 1,
    on: OnOption = None,
    job: JobOption = "",
    temperature: TemperatureOption = None,
    temperature_limit: TemperatureLimitOption = None,
    blocks_above: BlocksAboveOption = None,
    bar_above: BarAboveOption = None,
    warmth_limit: WarmthLimitOption = None,
    bar_material: BarMaterialOption = None,
    block_material: BlockMaterialOption = None,
    film: FilmOption = None,
    joints_together: TogetherOption = False,
    foot: FootOption = True,
    shared: SharedOption = None,
    k: FactorOption = None,
    bar_limit: BarLimitOption = None,
    rolls_limit: RollsLimitOption = None,
    face_limit: FaceLimitOption = None,
    plate_limit: PlateLimitOption = None,
    yaw: YawOption = None,
    over: OverOption = None,
    drawing: DrawingOption = None,
    least: LeastOption = False,
    within: WithinOption = None,
    correct: CorrectOption = False,
    every: EveryOption = False,
    svg: PictureOption = None,
    json: JsonOption = False,
) -> None:
    """Tell how well an angle is known: every doubt, in seconds of arc."""
    from gaugestack.answers import budget as answers  # noqa: PLC0415
    from gaugestack.answers.circumstances import BarSaid, Circumstances  # noqa: PLC0415

    said = Circumstances(
        temperature=temperature, temperature_limit=temperature_limit,
        blocks_above=blocks_above, bar_above=bar_above, warmth_limit=warmth_limit,
        bar_material=bar_material, block_materials=tuple(block_material or ()),
        film=film, joints_together=joints_together, foot_joint=foot, shared=shared, k=k,
    )  # fmt: skip
    wish = answers.Wish(
        circumstances=said, drawing=drawing, least=least, within=within, correct=correct, over=over,
        bar=BarSaid(centre=bar_limit, rolls=rolls_limit, face=face_limit, plate=plate_limit, yaw=yaw),
        best_basis=basis is None,
    )  # fmt: skip
    choice = chosen(tolerance, basis or "nominal", (without, with_), wear, most, False, effort)  # noqa: FBT003
    answer = _angle_answer(text, (bar, bars), chosen_stock(sets, on, job), choice, wish)
    _answer(answer, every=every, svg=svg, json=json)


def _angle_answer(
    text: str, named: tuple[str | None, str | None], stock: Stock, choice: Choice, wish: Wish
) -> BudgetAnswer:
    """Return the budget of an angle on the bar a person means."""
    from gaugestack.answers.bars import find_bar  # noqa: PLC0415
    from gaugestack.answers.budget import angle_budget  # noqa: PLC0415

    found = find_bar(named[0], stock, known_bars(stock, named[1]))
    return angle_budget(text, bar=found, stock=stock, choice=choice, wish=wish)


def _picture(answer: BudgetAnswer) -> str | None:
    """Return the picture of what the uncertainty comes from; None where there is no stack."""
    from gaugestack.cards.sharespicture import budget_svg  # noqa: PLC0415

    return budget_svg(answer) if answer.known else None


def _answer(answer: BudgetAnswer, *, every: bool, svg: str | None, json: bool) -> None:
    """Print an answer, write its picture where one is wanted, and leave with its exit code."""
    save_picture(svg, lambda: _picture(answer))
    if json:
        from gaugestack.cards import budgetform, jsonform  # noqa: PLC0415

        finish(jsonform.text(budgetform.budget_form(answer)))
    else:
        from gaugestack.cards.budgetscreen import budget_text  # noqa: PLC0415

        finish(budget_text(answer, pen(), every=every))
    leave(answer.stack.outcome)
    verdicts = {verdict.value for verdict in answer.verdicts}
    if "no" in verdicts:
        raise typer.Exit(ExitCode.NO)
    if "cannot tell" in verdicts:
        raise typer.Exit(ExitCode.UNDECIDED)
