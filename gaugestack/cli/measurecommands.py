"""The commands that measure a taper: `measure rolls`, `balls`, `discs`, `bar`, both ways."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli.figures import SketchOption, SvgOption, save_drawing, sketched
from gaugestack.cli.lathecommands import (
    BandOption,
    InsideOption,
    PartLengthOption,
    judging,
    leave_judged,
)
from gaugestack.cli.shared import (
    BarOption,
    BarsOption,
    BasisOption,
    EffortOption,
    JsonOption,
    OnOption,
    SetsOption,
    ToleranceOption,
    WithoutOption,
    chosen,
    chosen_stock,
    finish,
    known_bars,
    leave,
    pen,
)

if TYPE_CHECKING:
    from gaugestack.answers.rolls import RollsAnswer

app = typer.Typer()

RollOption = Annotated[str | None, typer.Option("--roll", metavar="LENGTH", help="Diameter of each roll.")]
ConeArgument = Annotated[
    list[str] | None,
    typer.Argument(metavar="[CALLOUT...]", help="The taper that is wanted: 3in/ft, 1:20, morse 3, ..."),
]


@app.command(
    epilog="Example: gaugestack measure rolls morse 3 --end-diameter 0.778in --roll 0.25in --stack 2in"
)
def rolls(
    call_out: ConeArgument = None,
    stack: Annotated[
        str, typer.Option("--stack", metavar="HEIGHT", help="Height of both equal stacks.")
    ] = "",
    roll: RollOption = None,
    end_diameter: Annotated[
        str | None, typer.Option("--end-diameter", metavar="LENGTH", help="The plug's diameter at the plate.")
    ] = None,
    low_stack: Annotated[
        str | None, typer.Option("--low-stack", metavar="HEIGHT", help="Two lower stacks. [the plate]")
    ] = None,
    large_down: Annotated[
        bool, typer.Option("--large-end-down", help="The plug stands on its large end.")
    ] = False,
    readings: Annotated[
        tuple[str, str] | None,
        typer.Option("--readings", metavar="M1 M2", help="Sizes as measured, low rolls first."),
    ] = None,
    band: BandOption = None,
    part_length: PartLengthOption = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    effort: EffortOption = 1,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    on: OnOption = None,
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Plug over two rolls: sizes to expect and two equal stacks, or the cone from both sizes."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers import rolls as answers  # noqa: PLC0415
    from gaugestack.cards import gaugeform, gaugescreen, jsonform  # noqa: PLC0415

    asked = answers.RollsAsked(
        end_diameter=end_diameter,
        roll=roll,
        stack=stack,
        low_stack=low_stack,
        large_down=large_down,
        readings=readings,
    )
    answer = answers.rolls(
        " ".join(call_out) if call_out else None,
        asked=asked,
        stock=chosen_stock(sets, on),
        choice=chosen(tolerance, basis, (without, None), None, None, less_used=False, times=effort),
        judging=judging(band, False, part_length, None),  # noqa: FBT003  (a plug is no bore)
    )
    figures = sketched(sketch, Geometry.ROLLS, answer.taper)
    _draw_rolls(svg, answer)
    finish(
        jsonform.text(gaugeform.rolls_form(answer))
        if json
        else gaugescreen.rolls_text(answer, pen(), figures)
    )
    leave(*(pair.outcome for pair in answer.pairs))
    leave_judged(answer.measured)


def _draw_rolls(svg: str | None, answer: RollsAnswer) -> None:
    """Write the drawing of a plug over two rolls, where one is wanted."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.cards.rows import shown  # noqa: PLC0415

    sizes = {"M1": answer.over.low, "M2": answer.over.high, "h2": answer.over.high_stack}
    sizes |= {"d": answer.roll} if answer.roll else {}
    sizes |= {"D0": answer.end_diameter} if answer.end_diameter else {}
    cone = answer.measured.cone if answer.measured else answer.taper
    marks = {name: shown(size, answer.unit) for name, size in sizes.items()}
    save_drawing(svg, Geometry.ROLLS, cone, **marks)


@app.command(epilog="Example: gaugestack measure balls --large 40mm --small 32mm --tops 8mm -76mm")
def balls(
    large: Annotated[str, typer.Option("--large", metavar="LENGTH", help="Diameter of the large ball.")],
    small: Annotated[str, typer.Option("--small", metavar="LENGTH", help="Diameter of the small ball.")],
    call_out: ConeArgument = None,
    mouth: Annotated[
        str | None, typer.Option("--mouth", metavar="LENGTH", help="The bore's diameter at its face.")
    ] = None,
    tops: Annotated[
        tuple[str, str] | None,
        typer.Option("--tops", metavar="T1 T2", help="Tops over the face, large ball first; below: minus."),
    ] = None,
    band: BandOption = None,
    part_length: PartLengthOption = None,
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Bore over two balls: where they stand, or the cone and mouth from their tops."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers import bores  # noqa: PLC0415
    from gaugestack.cards import gaugeform, gaugescreen, jsonform  # noqa: PLC0415
    from gaugestack.cards.rows import shown  # noqa: PLC0415

    answer = bores.balls(
        " ".join(call_out) if call_out else None,
        asked=bores.BallsAsked(large=large, small=small, mouth=mouth, tops=tops),
        judging=judging(band, True, part_length, None),  # noqa: FBT003  (a bore may err slow)
    )
    figures = sketched(sketch, Geometry.BALLS, answer.taper)
    bore, unit = answer.bore, answer.unit
    sizes = {"top_1": bore.large_top, "top_2": bore.small_top, "mouth": answer.mouth}
    cone = answer.measured.cone if answer.measured else answer.taper
    save_drawing(svg, Geometry.BALLS, cone, **{name: shown(size, unit) for name, size in sizes.items()})
    finish(jsonform.text(gaugeform.balls_form(answer)) if json else gaugescreen.balls_text(answer, figures))
    leave_judged(answer.measured)


@app.command(epilog="Example: gaugestack measure discs 15deg --discs 1.5in 1in --set inch-81")
def discs(
    sizes: Annotated[
        tuple[str, str], typer.Option("--discs", metavar="LARGE SMALL", help="Both disc diameters.")
    ],
    angle: Annotated[
        str | None, typer.Argument(metavar="[ANGLE]", help="The whole angle between the two sides.")
    ] = None,
    gap: Annotated[
        str | None, typer.Option("--gap", metavar="LENGTH", help="The gap as measured; 0: they touch.")
    ] = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    effort: EffortOption = 1,
    without: WithoutOption = None,
    on: OnOption = None,
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Two discs in an angle: their gap and a stack for it, or the angle from the gap."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers import bores  # noqa: PLC0415
    from gaugestack.cards import gaugeform, gaugescreen, jsonform  # noqa: PLC0415
    from gaugestack.cards.rows import angle_mark, shown  # noqa: PLC0415

    choice = chosen(tolerance, "nominal", (without, None), None, None, less_used=False, times=effort)
    answer = bores.discs(angle, sizes=sizes, gap=gap, stock=chosen_stock(sets, on), choice=choice)
    figures = sketched(sketch, Geometry.DISCS)
    marks = {"D": answer.large, "d": answer.small, "c": answer.centre_distance, "gap": answer.gap}
    said = {name: shown(size, answer.unit) for name, size in marks.items()}
    save_drawing(svg, Geometry.DISCS, None, a=angle_mark(answer.angle), **said)
    finish(
        jsonform.text(gaugeform.discs_form(answer))
        if json
        else gaugescreen.discs_text(answer, pen(), figures)
    )
    if answer.stack:
        leave(answer.stack.outcome)


@app.command(epilog="Example: gaugestack measure bar 1:10 --bar 5in --low-stack 1in")
def bar(
    call_out: ConeArgument = None,
    bar: BarOption = None,
    bars: BarsOption = None,
    lies: Annotated[
        str, typer.Option("--lies", metavar="HOW", help="The part: flank, on its flank; axis, axis level.")
    ] = "flank",
    low_stack: Annotated[
        str | None, typer.Option("--low-stack", metavar="HEIGHT", help="Stack that reaches the lower roll.")
    ] = None,
    heights: Annotated[
        tuple[str, str] | None,
        typer.Option("--heights", metavar="H1 H2", help="Stacks under both rolls, as measured."),
    ] = None,
    band: BandOption = None,
    inside: InsideOption = False,
    part_length: PartLengthOption = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    effort: EffortOption = 1,
    without: WithoutOption = None,
    on: OnOption = None,
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Lay the bar on the part: two stacks for its rolls, or the cone from both."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers.bars import find_bar  # noqa: PLC0415
    from gaugestack.answers.onpart import OnPartAsked, bar_on_part  # noqa: PLC0415
    from gaugestack.cards import gaugeform, gaugescreen, jsonform  # noqa: PLC0415
    from gaugestack.lengths import exact_text  # noqa: PLC0415

    stock = chosen_stock(sets, on)
    answer = bar_on_part(
        " ".join(call_out) if call_out else None,
        asked=OnPartAsked(lies=lies, low_stack=low_stack, heights=heights),
        bar=find_bar(bar, stock, known_bars(stock, bars)),
        stock=stock,
        choice=chosen(tolerance, "nominal", (without, None), None, None, less_used=False, times=effort),
        judging=judging(band, inside, part_length, None),
    )
    cone = answer.measured.cone if answer.measured else answer.taper
    figures = sketched(sketch, Geometry.BAR_ON_FLANK, cone) if lies == "flank" else []
    screen = gaugescreen.on_part_text(answer, pen(), figures)
    unit = answer.bar.unit
    heights_said = {"h1": exact_text(answer.low, unit), "h2": exact_text(answer.high, unit)}
    save_drawing(svg, Geometry.BAR_ON_FLANK, cone, **heights_said)
    finish(jsonform.text(gaugeform.on_part_form(answer)) if json else screen)
    if answer.stack:
        leave(answer.stack.outcome)
    leave_judged(answer.measured)
