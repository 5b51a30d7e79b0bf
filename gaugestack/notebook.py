"""Answers that show themselves in a notebook: the picture to scale, the screen, a card as its page.

    %load_ext gaugestack              in Jupyter or IPython: every answer shows itself
    gaugestack.shown(answer)          elsewhere: a value with _repr_html_ and _repr_svg_

Values below know nothing of this; it is the last layer, as the command is, and
loads what an answer needs when it is shown.  It asks for no notebook library.
"""

from __future__ import annotations

from base64 import b64encode
from dataclasses import dataclass
from html import escape
from importlib import import_module
from typing import TYPE_CHECKING, Any, Protocol

from gaugestack.errors import GaugestackError, UsageError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.cards.sheet import Sheet

PAPER = "a4"
_SCREENS = {
    "stack.StackAnswer": "screen.stack_text",
    "alternatives.Alternatives": "alternativescreen.alternatives_text",
    "angle.AngleAnswer": "anglescreen.angle_text",
    "taper.TaperAnswer": "taperscreen.taper_text",
    "taper.FlatAnswer": "taperscreen.taper_text",
    "angleblocks.AngleBlocksAnswer": "angleblockscreen.angle_blocks_text",
    "sets.SetAnswer": "screen.set_text",
    "reach.ReachAnswer": "reachscreen.reach_text",
    "reach.RangeAnswer": "reachscreen.range_text",
    "health.MattersAnswer": "healthscreen.matters_text",
    "health.BuyAnswer": "healthscreen.buy_text",
    "health.HealthAnswer": "healthscreen.health_text",
    "job.JobAnswer": "jobscreen.job_text",
    "budget.BudgetAnswer": "budgetscreen.budget_text",
    "history.History": "ledgerscreen.history_text",
    "record.Recorded": "ledgerscreen.record_text",
    "cardcheck.CardChecked": "cardcheckscreen.card_check_text",
    "plate.PlateAnswer": "platescreen.plate_text",
    "correct.CorrectAnswer": "platescreen.correct_text",
    "fromstack.FromStackAnswer": "platescreen.from_stack_text",
    "proof.ProofAnswer": "proofscreen.proof_text",
    "lathe.SwingAnswer": "lathescreen.swing_text",
    "lathe.OffsetAnswer": "lathescreen.offset_text",
    "lathe.AttachmentAnswer": "lathescreen.attachment_text",
    "lathe.CollarsAnswer": "lathescreen.collars_text",
    "rolls.RollsAnswer": "gaugescreen.rolls_text",
    "bores.BallsAnswer": "gaugescreen.balls_text",
    "bores.DiscsAnswer": "gaugescreen.discs_text",
    "onpart.OnPartAnswer": "gaugescreen.on_part_text",
}
"""Answers by module and class, and what prints each, by module and function of cards/."""
_PICTURES = {
    "stack.StackAnswer": "stackpicture.stacks_svg",
    "angle.AngleAnswer": "barpicture.set_up_svg",
    "reach.RangeAnswer": "reachsvg.range_svg",
    "history.History": "trendpicture.history_svg",
}
"""Answers that have a picture, and what draws it."""
_CARDS = ("boxcard.BoxCard", "setupcard.SetupCard")
_PICTURE = '<img alt="{said}" src="data:image/svg+xml;base64,{data}" style="background: #fff; padding: 2mm">'
_PAGE = (
    '<iframe sandbox title="card" srcdoc="{page}" style="border: 1px solid #888; background: #fff;'
    ' box-sizing: content-box; width: {width:g}mm; height: {height:g}mm; max-width: 100%"></iframe>'
)


class Interpreter(Protocol):
    """What is used of an interactive interpreter."""

    display_formatter: Any
    custom_exceptions: tuple[type[BaseException], ...]

    def set_custom_exc(self, kinds: tuple[type[BaseException], ...], handler: object) -> None:
        """Let a handler tell errors of some kinds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """An answer as it is shown: the screen, its pictures as SVG, the HTML page of a card or nothing."""

    text: str
    pictures: tuple[str, ...] = ()
    page: str = ""

    def __str__(self) -> str:
        """Return the screen."""
        return self.text

    def _repr_svg_(self) -> str | None:
        """Return the picture, where there is just one."""
        return self.pictures[0] if len(self.pictures) == 1 else None

    def _repr_html_(self) -> str:
        """Return a card's page, or the pictures with the screen below; no word of it is taken for HTML."""
        if self.page:
            return self.page
        drawn = "".join(_picture(svg) for svg in self.pictures)
        return f"<div>{drawn}<pre>{escape(self.text.rstrip())}</pre></div>"

    def _repr_mimebundle_(
        self, include: Iterable[str] | None = None, exclude: Iterable[str] | None = None
    ) -> dict[str, str]:
        """Return every form there is."""
        del include, exclude  # whoever asks sorts them out
        forms = {"text/plain": self.text.rstrip(), "text/html": self._repr_html_()}
        svg = self._repr_svg_()
        return {**forms, "image/svg+xml": svg} if svg else forms


def shown(answer: object, *, paper: str | None = None) -> Shown:
    """Return an answer as a notebook shows it.

    A card is laid out on `paper`, A4 where none is named; the plan of a job
    becomes its sheet where one is.  Raises UsageError for what is no answer,
    and for a paper that is none.
    """
    kind = _kind(answer)
    if kind in _CARDS or (kind == "job.JobAnswer" and paper is not None):
        return _card(kind, answer, paper or PAPER)
    if kind not in _SCREENS:
        raise UsageError.about("answer", f"{type(answer).__name__} is no answer that can be shown")
    return Shown(text=_screen(kind, answer), pictures=tuple(_pictures(kind, answer)))


def load_ipython_extension(ipython: Interpreter) -> None:
    """Let every answer show itself, and let a mistake be told in its sentence, without a traceback."""
    formatter = ipython.display_formatter.mimebundle_formatter
    for name in (*_SCREENS, *_CARDS):
        module, _, kind = name.partition(".")
        formatter.for_type_by_name(f"gaugestack.answers.{module}", kind, _bundle)
    if not ipython.custom_exceptions:
        ipython.set_custom_exc((GaugestackError,), _told)


def unload_ipython_extension(ipython: Interpreter) -> None:
    """Let answers be what they were."""
    formatter = ipython.display_formatter.mimebundle_formatter
    for name in (*_SCREENS, *_CARDS):
        formatter.pop(f"gaugestack.answers.{name}", None)
    if ipython.custom_exceptions == (GaugestackError,):
        ipython.set_custom_exc((), None)


def _bundle(answer: object, **asked: Iterable[str] | None) -> dict[str, str]:
    """Return every form of an answer, for an interpreter."""
    return shown(answer)._repr_mimebundle_(**asked)


def _told(shell: Any, kind: object, error: BaseException, _trace: object, **_: object) -> None:  # noqa: ANN401  (an interpreter)
    """Tell a mistake: the sentence, its place, what to do.  Showing is the handler's own affair."""
    shell._showtraceback(kind, error, str(error).splitlines())  # noqa: SLF001  (there is no public way)


def _kind(answer: object) -> str:
    """Return the module below answers/ and the class of an answer."""
    return f"{type(answer).__module__.rpartition('.')[2]}.{type(answer).__name__}"


def _made(name: str, *answer: object) -> Any:  # noqa: ANN401  (what a function of cards/ returns)
    """Call a function of cards/ by its module and name."""
    module, _, function = name.partition(".")
    return getattr(import_module(f"gaugestack.cards.{module}"), function)(*answer)


def _screen(kind: str, answer: Any) -> str:  # noqa: ANN401  (an answer of that kind)
    """Return the screen of an answer; a set that was checked shows what was found."""
    if kind == "sets.SetAnswer" and answer.checked:
        return str(_made("screen.set_text", answer, _made("checkscreen.check_lines", answer.checked)))
    return str(_made(_SCREENS[kind], answer))


def _pictures(kind: str, answer: Any) -> Iterable[str]:  # noqa: ANN401  (an answer of that kind)
    """Yield the pictures of an answer: of a taper one a set-up, of a budget only where there is one."""
    if kind == "taper.TaperAnswer":
        found = [_made("barpicture.set_up_svg", role.angle) for role in answer.roles]
    elif kind == "taper.FlatAnswer":
        found = [_made("barpicture.set_up_svg", answer.angle)]
    elif kind == "alternatives.Alternatives":
        found = [_made("stackpicture.stacks_svg", answer.first)]
    elif kind == "budget.BudgetAnswer":
        found = [_made("sharespicture.budget_svg", answer)] if answer.known else []
    else:
        found = [_made(_PICTURES[kind], answer)] if kind in _PICTURES else []
    return (svg for svg in found if svg)


def _card(kind: str, answer: Any, paper: str) -> Shown:  # noqa: ANN401  (a card, or the plan of a job)
    """Return a card as its page; what has no stack has no card and is told instead."""
    size = _made("papersize.read_paper", paper)
    if kind == "setupcard.SetupCard":
        from gaugestack.stacks.request import Found  # noqa: PLC0415  (only a card asks)

        if not isinstance(answer.stack.outcome, Found):
            return shown(answer.stack)
        return _paged(_made("setupsheet.setup_sheet", answer, size), size)
    if kind == "boxcard.BoxCard":
        return _paged(_made("boxsheet.box_sheet", answer), size)
    return _paged(_made("jobsheet.job_sheet", answer), size) if answer.plan else shown(answer)


def _paged(sheet: Sheet, size: Any) -> Shown:  # noqa: ANN401  (a PaperSize)
    """Return a sheet as text, and as a page that its surroundings cannot touch nor be touched by."""
    page = _made("sheethtml.sheet_html", sheet, size)
    framed = _PAGE.format(page=escape(page), width=size.width, height=size.height)
    return Shown(text=_made("sheettext.sheet_text", sheet), page=framed)


def _picture(svg: str) -> str:
    """Return a picture as an image of its own size."""
    return _PICTURE.format(said="drawing to scale", data=b64encode(svg.encode("utf-8")).decode("ascii"))
