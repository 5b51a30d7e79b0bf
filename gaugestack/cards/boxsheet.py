"""The box card as a sheet: the set as it stands, then the stacks this shop uses.

    >>> sheet = box_sheet(card)

Blocks are named in the order they are pulled from the case, largest first, and
again in the order they are wrung, from the bottom.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text
from gaugestack.blocks import Basis, in_order
from gaugestack.cards.screen import bar_named
from gaugestack.cards.setfacts import CARE, UNIT_WORDS, Namer, out_facts, set_facts, total_said, warning
from gaugestack.cards.sheet import Column, Row, Sheet, Table, safe
from gaugestack.lengths import exact_text, small_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.answers.boxcard import BoxCard, Line, Section

_TITLES = {"heights": "Heights", "angles": "Angles", "tapers": "Tapers"}
_ASKED = {"heights": "height", "angles": "angle", "tapers": "taper"}


def box_sheet(card: BoxCard) -> Sheet:
    """Return the sheet of a box card."""
    return Sheet(
        kind="Box card",
        title=safe(card.stock.name, 80),
        code=card.code,
        printed=str(card.stock.on or ""),
        facts=tuple(_facts(card)),
        parts=tuple(_table(card, section) for section in card.sections),
        warning=warning(card.code),
        care=CARE,
    )


def _facts(card: BoxCard) -> Iterator[tuple[str, str]]:
    """Return what stands above the tables."""
    unit, shown = card.stock.unit, card.shown
    yield from set_facts(card.stock)
    yield "reach", f"{exact_text(shown.lowest, unit)} to {exact_text(shown.highest, unit)}"
    if shown.every_step:
        low, high = (exact_text(length, unit) for length in shown.every_step)
        yield "", f"every {exact_text(shown.step, unit)} from {low} to {high}"
    yield from out_facts(card.stock)
    if card.sections:
        yield "tolerance", f"{exact_text(card.tolerance, unit)}, {safe(card.tolerance_said)}"
    if card.sections and card.basis is Basis.CERTIFIED:
        yield "lengths", "certified; sizes to pull are those engraved"
    for text in card.stock.warnings:
        yield "ledger", safe(text)


def _table(card: BoxCard, section: Section) -> Table:
    """Return the table of one section."""
    namer, unit = Namer(card.stock), card.stock.unit
    title = f"{_TITLES[section.kind]}, sizes in {UNIT_WORDS[unit]}"
    if section.bar:
        bar = section.bar
        plain = bar.name == exact_text(bar.effective, bar.unit).replace(" ", "")
        named = "bar" if plain else f"{safe(bar_named(bar), 44)},"
        title += f"; {named} centre distance {exact_text(bar.effective, bar.unit)}"
        if bar.base_height:
            title += f", base {exact_text(bar.base_height, bar.unit)} included"
    first, blocks, last = (19, 19, 7) if section.kind == "tapers" else (11, 22, 8)
    columns = (
        Column(name=_ASKED[section.kind], wide=first),
        Column(name="pull", wide=blocks, figures=True, key=True),
        Column(name="wring upward", wide=blocks, figures=True, under=True),
        Column(name="total", wide=last, figures=True),
        Column(name="error" if section.bar else "off", wide=last, figures=True, under=True),
    )
    return Table(title=title, columns=columns, rows=tuple(_row(card, line, namer) for line in section.lines))


def _row(card: BoxCard, line: Line, namer: Namer) -> Row:
    """Return one line of a table: its stack, or why there is none."""
    label = safe(line.wanted.label, 60)
    if line.built is None or line.plan is None:
        return Row(cells=(label,), sentence=f"no stack: {line.sentence}")
    unit = card.stock.unit
    if line.error_arcsec is not None:
        off = arcsec_text(line.error_arcsec)
    else:
        off = small_text(line.built.deviation, unit) if line.built.deviation else "0"
    pull = namer.line(in_order(line.built.blocks))
    wring = namer.line(line.plan.stack.blocks)
    return Row(cells=(label, pull, wring, total_said(line.built.length, unit), off))
