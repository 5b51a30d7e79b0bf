"""Which blocks matter, what to buy, how a set is, as plain text for a terminal of 80 columns.

>>> print(matters_text(answer, LINES))
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.cards.drawing import LINES, Pen
from gaugestack.cards.reachpicture import ASCII_SHADES, SHADES, share_text
from gaugestack.cards.reachscreen import heights_said, limit_said, span_said
from gaugestack.cards.screen import at_hand, page, remark_lines, wrapped
from gaugestack.errors import visible
from gaugestack.stacks.health import Verdict
from gaugestack.stacks.ranking import PurchaseProof

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.answers.health import BuyAnswer, HealthAnswer, Looked, MattersAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.stacks.ranking import BlockValue, Purchase

BAR = 30
"""Columns of the longest bar."""
_SIZE, _NUMBER = 14, 9


def matters_text(answer: MattersAnswer, pen: Pen = LINES) -> str:
    """Return the screen of `set matters`."""
    lines = [*_head(answer.stock, answer.looked), _made_said(answer.made, answer.looked.total), ""]
    table = list(_table(("without", "lost", "longer"), answer.values, pen))
    lines += [*table, "", *_LOST_LEGEND] if table else ["No block at hand makes a difference."]
    free = [value.block for value in answer.values if not (value.lost or value.longer)]
    if free:
        lines += ["", *wrapped(visible(f"no height misses: {_named(free)}"), "", "  ")]
    return page((*lines, *remark_lines(visible(remark) for remark in answer.remarks)))


def buy_text(answer: BuyAnswer, pen: Pen = LINES) -> str:
    """Return the screen of `set buy`."""
    lines = [*_head(answer.stock, answer.looked), _made_said(answer.made, answer.looked.total), ""]
    if answer.purchase is None:
        lines += wrapped(_nothing_absent(answer), "", "  ")
    else:
        lines += _purchase_lines(answer.purchase, answer.made, answer.looked.total)
        table = list(_table(("alone", "restores", "shortens"), answer.alone, pen))
        lines += ["", *table, "", *_ALONE_LEGEND] if table else []
    return page((*lines, *remark_lines(visible(remark) for remark in answer.remarks)))


def health_text(answer: HealthAnswer) -> str:
    """Return the screen of `set health`."""
    health = answer.health
    lines = [*wrapped(visible(f"{answer.stock.name}: {_VERDICTS[health.verdict]}"), "", "  "), ""]
    for sentence in answer.sentences:
        lines += wrapped(visible(sentence), " -  ", "    ")
    if health.missing:
        lines += ["", *wrapped(visible(f"not there or not fit: {_named(health.missing)}"), "", "  ")]
    if answer.purchase and answer.purchase.blocks:
        survey = health.survey
        made = survey.within(survey.most)
        lines += ["", *_purchase_lines(answer.purchase, made, survey.span.heights)]
    return page((*lines, *remark_lines(visible(remark) for remark in answer.remarks)))


_LOST_LEGEND = ("lost: heights it cannot make then; longer: heights that take more blocks then",)
_ALONE_LEGEND = ("what each would do alone: heights it brings back, heights that take fewer blocks",)
_VERDICTS = {
    Verdict.COMPLETE: "complete",
    Verdict.NOTHING_LOST: "pieces are missing, no height is lost",
    Verdict.HEIGHTS_LOST: "pieces are missing, heights are lost",
}


def _head(stock: Stock, looked: Looked) -> Iterator[str]:
    """Say which blocks were counted, over which heights."""
    yield from wrapped(visible(f"{stock.name}, {at_hand(stock)}"), "from ", "     ")
    over = span_said(looked.span, stock.unit) if looked.span else f"{heights_said(looked.total)} as listed"
    yield from wrapped(f"{over}; {limit_said(looked.most)}", "", "  ")


def _made_said(made: int, total: int) -> str:
    """Say how many heights are made."""
    return f"{made} of them can be made, {share_text(Fraction(made, total))}"


def _table(heads: tuple[str, str, str], values: Sequence[BlockValue], pen: Pen) -> Iterator[str]:
    """Return a line for each block that costs something, with a bar as long as its cost."""
    costly = [value for value in values if value.lost or value.longer]
    if not costly:
        return
    longest = max(value.lost for value in costly)
    yield f"{heads[0]:<{_SIZE}}{heads[1]:>{_NUMBER}}{heads[2]:>{_NUMBER}}"
    for value in costly:
        size = visible(_name(value.block))
        bar = _bar(value.lost, longest, pen)
        yield f"{size:<{_SIZE}}{value.lost:>{_NUMBER}}{value.longer:>{_NUMBER}}  {bar}".rstrip()


def _bar(number: int, longest: int, pen: Pen) -> str:
    """Return a bar; anything above nothing shows."""
    shades = SHADES if pen is LINES else ASCII_SHADES
    return shades[4] * (-(-number * BAR // longest) if longest else 0)


def _purchase_lines(purchase: Purchase, made: int, total: int) -> Iterator[str]:
    """Say what to buy first, what it restores, and how well that is known."""
    if not purchase.blocks:
        yield "Buy nothing: no missing block brings back a height."
        return
    yield from wrapped(visible(f"Buy first: {_named(purchase.blocks)}"), "", "  ")
    after = made + purchase.restored
    restored = f"brings back {heights_said(purchase.restored)}"
    yield from wrapped(
        f"{restored}: then {after} of {total}, {share_text(Fraction(after, total))}", "  ", "    "
    )
    yield from wrapped(_proof_said(purchase), "  ", "    ")


def _proof_said(purchase: Purchase) -> str:
    """Say how well a purchase is known to be the best."""
    if purchase.proof is PurchaseProof.EXACT:
        return "no other choice of as many blocks brings back more (proven)"
    bound = heights_said(purchase.bound)
    return (
        f"found step by step, not proven the best; no choice of as many blocks brings back more than {bound}"
    )


def _nothing_absent(answer: BuyAnswer) -> str:
    """Say that there is nothing to buy, and what to do where the set's own record is not to be trusted."""
    if answer.beside.name:
        return f"Nothing to buy: every piece of {visible(answer.beside.name)} is there."
    return (
        "Nothing to buy: no piece is recorded as gone. --like SET measures against another set, like inch-81."
    )


def _named(blocks: Sequence[Block]) -> str:
    """Name blocks in one sentence: pieces of one size counted, a unit they all have said once."""
    names = [_name(block) for block in blocks]
    counts = {name: names.count(name) for name in names}
    said = [name if count == 1 else f"{count} x {name}" for name, count in counts.items()]
    units = {name.rpartition(" ")[2] for name in said}
    if len(said) > 2 and len(units) == 1:
        said = [*(name.rpartition(" ")[0] for name in said[:-1]), said[-1]]
    return ", ".join(said)


def _name(block: Block) -> str:
    """Name one block."""
    serial = f" #{block.serial}" if block.serial else ""
    return f"{block.engraved}{serial}{' (wear)' if block.wear else ''}"
