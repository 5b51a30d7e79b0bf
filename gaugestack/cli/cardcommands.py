"""The commands about paper: `card box`, `card setup`, `card check`; `card job` is cardjob.py's."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli import cardoutput
from gaugestack.cli.cardoutput import FormOption, OutputOption, PaperOption, card_form, give, give_no_stack
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
    use_of,
)
from gaugestack.errors import ExitCode, UsageError

if TYPE_CHECKING:
    from gaugestack.answers.boxcard import BoxWish
    from gaugestack.answers.options import Choice
    from gaugestack.answers.setupcard import SetupCard
    from gaugestack.answers.stock import Stock

app = typer.Typer()
_KINDS = ("stack", "angle", "taper")


@app.command(
    epilog='Example: gaugestack card box --set my-set.yaml --angles "every 30m" --bar 5in --form html'
)
def box(
    sets: SetsOption = None,
    heights: Annotated[
        str | None, typer.Option("--heights", metavar="FILE", help="A file of heights, one a line.")
    ] = None,
    angles: Annotated[
        list[str] | None,
        typer.Option(
            "--angles", metavar="ROW", help='"every 30m", "every 1d from 5d to 30d", or a file of angles.'
        ),
    ] = None,
    tapers: Annotated[
        str | None, typer.Option("--tapers", metavar="FILE", help="A file of taper call-outs, one a line.")
    ] = None,
    bar: Annotated[
        list[str] | None, typer.Option("--bar", metavar="BAR", help="A sine bar; again for more.")
    ] = None,
    bars: BarsOption = None,
    tolerance: ToleranceOption = None,
    effort: EffortOption = 1,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    on: OnOption = None,
    job: JobOption = "",
    paper: PaperOption = "a4",
    form: FormOption = None,
    output: OutputOption = None,
) -> None:
    """Print the card of a set: how it stands, and the stacks this shop uses, from its own blocks."""
    from gaugestack.answers.boxcard import BoxWish, answer_box, wanted  # noqa: PLC0415
    from gaugestack.cards.boxsheet import box_sheet  # noqa: PLC0415
    from gaugestack.cli.counting import counting  # noqa: PLC0415

    made = card_form(form, output, paper)
    stock = chosen_stock(sets, on, job)
    if len(stock.sets) != 1:
        raise UsageError.about("--set", "a box card is the card of one set")
    choice = chosen(tolerance, basis, (without, None), wear, most, less_used=False, times=effort)
    wish = BoxWish(heights=heights, angles=tuple(angles or ()), tapers=tapers, choice=choice)
    wish = _with_bars(wish, bar, bars, stock)
    groups = wanted(stock, wish)
    with counting("composing stacks", sum(len(group) for group in groups)) as tick:
        card = answer_box(stock, wish, groups, tick)
    give(box_sheet(card), made)
    if card.failing:
        cardoutput.talk(f"lines without a stack: {card.failing}; the card says which")


@app.command(epilog="Example: gaugestack card setup angle 7d7m30s --bar 5in --form html --output card.html")
def setup(
    kind: Annotated[str, typer.Argument(metavar="KIND", help="stack, angle or taper.")],
    text: Annotated[list[str], typer.Argument(metavar="WHAT...", help="0.6202in; 7d7m30s; 3in/ft, morse 3")],
    bar: BarOption = None,
    bars: BarsOption = None,
    use: Annotated[
        str | None,
        typer.Option("--for", metavar="USE", help="compound (half angle) or inspection (included)."),
    ] = None,
    sets: SetsOption = None,
    tolerance: ToleranceOption = None,
    basis: BasisOption = "nominal",
    without: WithoutOption = None,
    with_: WithOption = None,
    wear: WearOption = None,
    most: MostOption = None,
    effort: EffortOption = 1,
    on: OnOption = None,
    job: JobOption = "",
    paper: PaperOption = "a4",
    form: FormOption = None,
    output: OutputOption = None,
) -> None:
    """Print the card of one set-up: drawing to scale, steps, what proves it, room to sign."""
    from gaugestack.cards.setupsheet import setup_sheet  # noqa: PLC0415
    from gaugestack.stacks.request import Found  # noqa: PLC0415

    made = card_form(form, output, paper)
    stock = chosen_stock(sets, on, job)
    choice = chosen(tolerance, basis, (without, with_), wear, most, less_used=False, times=effort)
    card = _setup(kind, " ".join(text), (bar, bars, use), stock, choice)
    if not isinstance(card.stack.outcome, Found):
        give_no_stack(card.stack)
    give(setup_sheet(card, made.paper), made)


@app.command(epilog="Example: gaugestack card check K7QF-2M9P --set my-set.yaml")
def check(
    code: Annotated[
        str, typer.Argument(metavar="CODE|FILE", help="The code on the card, or the card's file.")
    ],
    sets: SetsOption = None,
    on: OnOption = None,
    json: JsonOption = False,
) -> None:
    """Say whether a printed card still holds for the set as it stands."""
    from gaugestack.answers.cardcheck import check_card, code_in  # noqa: PLC0415
    from gaugestack.cards import cardcheckscreen, jsonform  # noqa: PLC0415

    found = check_card(code_in(_card_text(code)), chosen_stock(sets, on))
    finish(
        jsonform.text(cardcheckscreen.card_check_form(found))
        if json
        else cardcheckscreen.card_check_text(found)
    )
    if not found.holds:
        raise typer.Exit(ExitCode.NO)


def _with_bars(wish: BoxWish, names: list[str] | None, file: str | None, stock: Stock) -> BoxWish:
    """Return the wish with the bars asked for, else with the only one described."""
    from dataclasses import replace  # noqa: PLC0415

    from gaugestack.answers.bars import find_bar  # noqa: PLC0415

    known = known_bars(stock, file)
    if not names and not wish.angles and wish.tapers is None:
        return wish
    wanted: tuple[str | None, ...] = tuple(names or ()) or (None,)
    return replace(wish, bars=tuple(find_bar(name, stock, known) for name in wanted))


def _setup(
    kind: str, text: str, on_bar: tuple[str | None, str | None, str | None], stock: Stock, choice: Choice
) -> SetupCard:
    """Return the card of one set-up; `on_bar` holds bar, file of bars and use."""
    from gaugestack.answers import setupcard  # noqa: PLC0415
    from gaugestack.answers.bars import find_bar  # noqa: PLC0415
    from gaugestack.errors import nearest  # noqa: PLC0415

    bar, bars, use = on_bar
    if kind == "stack":
        _refuse_for_a_height({"--bar": bar, "--bars": bars, "--for": use})
        return setupcard.height_card(text, stock=stock, choice=choice)
    if kind not in _KINDS:
        raise UsageError.about("KIND", f"{kind!r} is no set-up", hint=nearest(kind, _KINDS))
    found = find_bar(bar, stock, known_bars(stock, bars))
    if kind == "taper":
        return setupcard.taper_card(text, bar=found, stock=stock, use=use_of(use), choice=choice)
    _refuse_for_a_height({"--for": use})
    return setupcard.angle_card(text, bar=found, stock=stock, choice=choice)


def _refuse_for_a_height(options: dict[str, str | None]) -> None:
    """Refuse options that mean nothing for this set-up."""
    for option, value in options.items():
        if value is not None:
            raise UsageError.about(option, "means nothing for this set-up")


def _card_text(code: str) -> str:
    """Return a code as typed, or the text of the card's file."""
    from gaugestack.answers.fingerprint import looks_like_a_code  # noqa: PLC0415
    from gaugestack.inventory.textfile import read_text_file  # noqa: PLC0415

    if looks_like_a_code(code) or "\n" in code or not Path(code).is_file():
        return code
    return read_text_file(code)
