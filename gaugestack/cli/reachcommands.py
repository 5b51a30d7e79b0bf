"""What a set reaches and what it is worth: `reach`, `set matters`, `set buy`, `set health`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli.figures import SvgOption  # noqa: TC001  (typer reads it)
from gaugestack.cli.outputs import save_svg
from gaugestack.cli.patience import patience
from gaugestack.cli.setcommands import HiddenSetOption, SetArgument, said_once
from gaugestack.cli.shared import (
    EffortOption,
    JobOption,
    JsonOption,
    MostOption,
    OnOption,
    SetsOption,
    ToleranceOption,
    WithoutOption,
    chosen,
    chosen_stock,
    day,
    finish,
    leave,
    pen,
)
from gaugestack.errors import UsageError

if TYPE_CHECKING:
    from gaugestack.answers.health import HeightsAsked
    from gaugestack.answers.stock import Stock

app = typer.Typer()
RANGE_DOTS = ".."

RangeOption = Annotated[
    str | None,
    typer.Option("--range", metavar="LOW..HIGH", help="Heights that count. [the set's usual range]"),
]
HeightOption = Annotated[
    list[str] | None, typer.Option("--height", metavar="HEIGHT", help="A height that counts; again for more.")
]
HeightsOption = Annotated[
    str | None, typer.Option("--heights", metavar="FILE", help="A file of heights that count, one a line.")
]
FewOption = Annotated[int, typer.Option("--most", metavar="N", help="At most N blocks in a stack.")]
LikeOption = Annotated[
    str | None,
    typer.Option("--like", metavar="SET", help="Measure against this set, not against the set as issued."),
]


@app.command(epilog="Example: gaugestack reach 0.2..4in --most 5 --set inch-81")
def reach(
    text: Annotated[str, typer.Argument(metavar="HEIGHT|LOW..HIGH", help="0.6202in, or 4..50mm, 0.2..4in")],
    sets: SetsOption = None,
    most: MostOption = None,
    tolerance: ToleranceOption = None,
    effort: EffortOption = 1,
    without: WithoutOption = None,
    step: Annotated[
        str | None, typer.Option("--step", metavar="LENGTH", help="Step of a range. [the set's]")
    ] = None,
    svg: SvgOption = None,
    on: OnOption = None,
    job: JobOption = "",
    json: JsonOption = False,
) -> None:
    """Say whether the set makes a height, or how much of a range."""
    if RANGE_DOTS in text:
        _refuse("a range", {"--tolerance": tolerance})
        _reach_range(text, chosen_stock(sets, on, job), (step, most, tuple(without or ())), svg, json=json)
        return
    from gaugestack.answers.reach import reach as answer_reach  # noqa: PLC0415

    _refuse("one height", {"--step": step, "--svg": svg})
    choice = chosen(tolerance, "nominal", (without, None), None, most, less_used=False, times=effort)
    with patience("looking for stacks"):
        answer = answer_reach(text, stock=chosen_stock(sets, on, job), choice=choice)
    if json:
        from gaugestack.cards import jsonform, reachform  # noqa: PLC0415

        finish(jsonform.text(reachform.reach_form(answer)))
    else:
        from gaugestack.cards.reachscreen import reach_text  # noqa: PLC0415

        finish(reach_text(answer, pen()))
    leave(answer.at_hand.outcome)


@app.command(epilog="Example: gaugestack set matters inch-81 --range 0.2..4in")
def matters(
    name: SetArgument = None,
    set_: HiddenSetOption = None,
    range_: RangeOption = None,
    height: HeightOption = None,
    heights: HeightsOption = None,
    most: FewOption = 5,
    on: OnOption = None,
    json: JsonOption = False,
) -> None:
    """Say for each block how many heights are lost, or take more blocks, without it."""
    from gaugestack.answers import health as answers  # noqa: PLC0415
    from gaugestack.cards import healthscreen, jsonform, reachform  # noqa: PLC0415

    stock = _stock(said_once(name, set_), on)
    with patience("taking away each block"):
        answer = answers.matters(stock, _asked(range_, height, heights, most))
    form = jsonform.text(reachform.matters_form(answer)) if json else healthscreen.matters_text(answer, pen())
    finish(form)


@app.command(epilog="Example: gaugestack set buy my-set.yaml --count 2")
def buy(
    name: SetArgument = None,
    set_: HiddenSetOption = None,
    count: Annotated[int, typer.Option("--count", metavar="K", help="Buy at most K blocks.")] = 3,
    like: LikeOption = None,
    range_: RangeOption = None,
    height: HeightOption = None,
    heights: HeightsOption = None,
    most: FewOption = 5,
    on: OnOption = None,
    json: JsonOption = False,
) -> None:
    """Say which absent blocks to buy first to bring back the most heights."""
    from gaugestack.answers import health as answers  # noqa: PLC0415
    from gaugestack.cards import healthscreen, jsonform, reachform  # noqa: PLC0415

    stock, other = _stock(said_once(name, set_), on), _stock(like, on) if like else None
    with patience("trying what to buy"):
        answer = answers.buy(stock, count=count, asked=_asked(range_, height, heights, most), like=other)
    finish(jsonform.text(reachform.buy_form(answer)) if json else healthscreen.buy_text(answer, pen()))


@app.command(epilog="Example: gaugestack set health my-set.yaml --like inch-81")
def health(
    name: SetArgument = None,
    set_: HiddenSetOption = None,
    like: LikeOption = None,
    on: OnOption = None,
    json: JsonOption = False,
) -> None:
    """Look at a second-hand set before buying it: what is missing, what that costs."""
    from gaugestack.answers import health as answers  # noqa: PLC0415
    from gaugestack.cards import healthscreen, jsonform, reachform  # noqa: PLC0415

    stock, other = _stock(said_once(name, set_), on), _stock(like, on) if like else None
    with patience("looking at the set"):
        answer = answers.health(stock, like=other, on=day(on))
    finish(jsonform.text(reachform.health_form(answer)) if json else healthscreen.health_text(answer))


def _reach_range(
    text: str,
    stock: Stock,
    asked: tuple[str | None, int | None, tuple[str, ...]],
    svg: str | None,
    *,
    json: bool,
) -> None:
    """Answer for a range; `asked` holds step, largest count and the sizes kept out."""
    from gaugestack.answers.reach import reach_range  # noqa: PLC0415
    from gaugestack.cards import jsonform, reachform, reachscreen  # noqa: PLC0415

    step, most, without = asked
    with patience("counting heights"):
        answer = reach_range(text, stock=stock, step=step, most=most, without=without)
    if svg:
        from gaugestack.cards.reachsvg import range_svg  # noqa: PLC0415

        save_svg(svg, range_svg(answer))
    finish(jsonform.text(reachform.range_form(answer)) if json else reachscreen.range_text(answer, pen()))


def _refuse(what: str, options: dict[str, str | None]) -> None:
    """Refuse options that mean nothing for what was asked."""
    for option, value in options.items():
        if value is not None:
            raise UsageError.about(option, f"means nothing for {what}")


def _stock(name: str | None, on: str | None) -> Stock:
    """Return the stock of one set, or of the default one."""
    return chosen_stock(None if name is None else [name], on)


def _asked(range_: str | None, height: list[str] | None, heights: str | None, most: int) -> HeightsAsked:
    """Return the heights that count, as typed."""
    from gaugestack.answers.health import HeightsAsked  # noqa: PLC0415

    return HeightsAsked(range=range_, heights=tuple(height or ()), file=heights, most=most)
