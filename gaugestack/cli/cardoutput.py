"""In which form a card leaves: text, SVG, HTML or PDF, to stdout or to a file.

>>> give(sheet, card_form("html", "card.html", "a4"))
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from gaugestack.cards.document import Markup
from gaugestack.cli.boundary import say
from gaugestack.cli.shared import finish
from gaugestack.errors import ExitCode, UsageError, nearest

if TYPE_CHECKING:
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.cards.papersize import PaperSize
    from gaugestack.cards.sheet import Sheet

PaperOption = Annotated[
    str, typer.Option("--paper", metavar="PAPER", help="a4, letter, a6, or a size like 100x150mm.")
]
FormOption = Annotated[
    str | None,
    typer.Option("--form", metavar="FORM", help="text, text40, svg, html or pdf. [by the output's name]"),
]
OutputOption = Annotated[
    str | None, typer.Option("--output", metavar="FILE", help="Write to this file. [stdout]")
]
FORMS = ("text", "text40", "svg", "html", "pdf")
_ENDINGS = {".svg": "svg", ".html": "html", ".htm": "html", ".pdf": "pdf", ".txt": "text"}

_ENDINGS_HINT = f"only files that end in {', '.join(_ENDINGS)} are replaced"


@dataclass(frozen=True, slots=True, kw_only=True)
class CardForm:
    """Form, paper and file of a card that is to be made."""

    form: str
    paper: PaperSize
    output: str | None


def card_form(form: str | None, output: str | None, paper: str) -> CardForm:
    """Return the form asked for, else what the file's name says, else text.  Raises UsageError."""
    from gaugestack.cards.papersize import read_paper  # noqa: PLC0415
    from gaugestack.cli.terminal import is_a_screen  # noqa: PLC0415

    if form is not None and form not in FORMS:
        raise UsageError.about("--form", f"{form!r} is no form", hint=nearest(form, FORMS))
    ending = "." + output.rpartition(".")[2].casefold() if output else ""
    if output and ending in (".yaml", ".yml"):
        raise UsageError.about("--output", f"{output}: a card is never written over a set file or ledger")
    if output and ending not in _ENDINGS and Path(output).exists():
        raise UsageError.about("--output", f"{output} is there already and no card", hint=_ENDINGS_HINT)
    taken = form or _ENDINGS.get(ending, "text")
    if taken == "pdf" and output is None and is_a_screen():
        raise UsageError.about("--output", "name a file for the PDF", hint="like --output card.pdf")
    return CardForm(form=taken, paper=read_paper(paper), output=output)


def give(sheet: Sheet, made: CardForm) -> None:
    """Print a card, or write it to its file."""
    if made.form == "pdf":
        from gaugestack.cards.sheethtml import sheet_html  # noqa: PLC0415
        from gaugestack.cli.pdf import pdf_of  # noqa: PLC0415

        _give_bytes(pdf_of(sheet_html(sheet, made.paper)), made.output)
        return
    text = _text(sheet, made)
    if made.output is None:
        finish(text)
        return
    from gaugestack.cli.outputs import replace_file  # noqa: PLC0415

    replace_file(made.output, text)


def talk(sentence: str) -> None:
    """Say something beside the answer, on stderr."""
    say(sentence)


def give_no_stack(answer: StackAnswer) -> NoReturn:
    """Say on stderr why there is no stack for a card, and leave with the code of that outcome."""
    from gaugestack.cards.screen import stack_text  # noqa: PLC0415
    from gaugestack.stacks.request import Undecided  # noqa: PLC0415

    say(stack_text(answer).rstrip())
    raise typer.Exit(ExitCode.UNDECIDED if isinstance(answer.outcome, Undecided) else ExitCode.NO)


def _text(sheet: Sheet, made: CardForm) -> str:
    """Return a card in a form that is text."""
    if made.form == "html":
        from gaugestack.cards.sheethtml import sheet_html  # noqa: PLC0415

        return Markup(sheet_html(sheet, made.paper))
    if made.form == "svg":
        from gaugestack.cards.sheetsvg import sheet_svg  # noqa: PLC0415

        drawing = sheet_svg(sheet, made.paper)
        if not drawing.fits:
            talk(
                f"longer than {made.paper.name}: a drawing has one page; html and pdf have as many as needed"
            )
        return Markup(drawing.svg)
    from gaugestack.cards.sheettext import FULL, NARROW, sheet_text  # noqa: PLC0415

    return sheet_text(sheet, NARROW if made.form == "text40" else FULL)


def _give_bytes(data: bytes, output: str | None) -> None:
    """Write a PDF to its file, or to stdout where that is none of a person's."""
    if output is None:
        from gaugestack.cli.terminal import emit_bytes  # noqa: PLC0415

        emit_bytes(data)
        return
    from gaugestack.cli.outputs import replace_bytes  # noqa: PLC0415

    replace_bytes(output, data)
