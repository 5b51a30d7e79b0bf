"""The set-up card as a sheet: drawing, steps, what it gives, what proves it, room to sign.

>>> sheet = setup_sheet(card, paper)
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text, dms_text
from gaugestack.cards.anglescreen import bar_said, both
from gaugestack.cards.drawing import ASCII, drawn
from gaugestack.cards.screen import deviation_said
from gaugestack.cards.setfacts import CARE, Namer, certificate_said, warning
from gaugestack.cards.sheet import Blanks, Column, Picture, Row, Sheet, Table, safe
from gaugestack.cards.sheettext import FULL
from gaugestack.cards.stackpicture import HIGHEST, described, stack_paper
from gaugestack.lengths import engraved_text, exact_text, small_text
from gaugestack.stacks.request import Found

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.answers.proof import ProofAnswer
    from gaugestack.answers.setupcard import SetupCard
    from gaugestack.cards.papersize import PaperSize
    from gaugestack.cards.sheet import Part
    from gaugestack.lengths import Unit
    from gaugestack.stacks.wringing import WringingPlan

BESIDE = 98.0
"""Width of the drawing where the steps stand beside it, millimetres."""
OVERHEAD = 55.0
"""Height of the words in the drawing and some room, millimetres."""
SIGNED = ("set by", "checked by", "date", "reading", "temperature")


def setup_sheet(card: SetupCard, paper: PaperSize) -> Sheet:
    """Return the sheet of a set-up whose stack was found."""
    return Sheet(
        kind="Set-up card",
        title=_title(card),
        code=card.code,
        printed=str(card.stack.stock.on or ""),
        facts=tuple(_facts(card, paper)),
        parts=tuple(_parts(card, paper)),
        warning=warning(card.code),
        care=CARE,
    )


def _title(card: SetupCard) -> str:
    """Return what is set up, in one line."""
    asked = safe(card.asked, 60)
    if card.angle is None:
        return asked if asked[-1:].isalpha() else f"{asked} {card.stack.stock.unit.value}"
    use = f", {card.use}" if card.use else ""
    said = dms_text(card.angle.asked, 1).replace('.0"', '"')
    return f"{asked}{use}: {said}" if asked != said else said


def _facts(card: SetupCard, paper: PaperSize) -> Iterator[tuple[str, str]]:
    """Return what the set-up gives and where it comes from."""
    answer, angle = card.stack, card.angle
    stacks = answer.outcome.stacks if isinstance(answer.outcome, Found) else ()
    unit = answer.stock.unit
    if angle:
        yield "bar", safe(bar_said(angle.bar))
        base = exact_text(angle.bar.base_height, angle.bar.unit)
        level = f", of which {base} sets the plate level" if angle.bar.base_height else ""
        yield "height", f"{exact_text(angle.height, angle.bar.unit)}{level}"
    for built, role in zip(stacks, answer.roles or ("stack",), strict=True):
        off = f", {deviation_said(built)}" if built.deviation or not angle else ""
        yield (f"{role} stack" if answer.roles else role), f"{engraved_text(built.length, unit)}{off}"
    if angle and angle.achieved is not None and angle.error_arcsec is not None:
        yield "gives", f"{both(angle.achieved)}, error {arcsec_text(angle.error_arcsec)}"
    known = angle.known if angle else next(iter(answer.known), None)
    if known:
        more = f", {known.mostly}; assumed: {known.assumed}" if paper.wide else ""
        yield "right within", safe(f"{known.expanded} (k = {known.k:.2f}){more}", 240)
    if angle and angle.caution:
        yield "caution", safe(angle.caution.sentence, 240)
    yield "set", safe(answer.stock.name)
    for block_set in answer.stock.sets:
        yield "certificate", certificate_said(block_set, answer.stock)
    for remark in answer.remarks:
        yield "note", safe(remark, 240)


def _parts(card: SetupCard, paper: PaperSize) -> Iterator[Part]:
    """Return drawing, steps, proofs and blanks."""
    roles = card.stack.roles or ("",)
    for plan, role in zip(card.stack.plans, roles, strict=True):
        yield _picture(card, plan, role, paper)
        yield _steps(plan, role)
    if card.proof and card.angle:
        yield _readings(card.proof, card.angle.bar.unit)
        yield _checks(card.proof)
    yield Blanks(title="Signed", labels=SIGNED)


def _picture(card: SetupCard, plan: WringingPlan, role: str, paper: PaperSize) -> Picture:
    """Return the stack to scale."""
    unit = card.stack.stock.unit
    width = BESIDE if paper.wide else paper.inner
    highest = min(HIGHEST, paper.inner_height - OVERHEAD)
    drawing = stack_paper(plan.stack, unit, width_mm=width, highest_mm=highest, role=role)
    return Picture(
        title=f"Stack under the {role} roll" if role else "Stack",
        lines=tuple(safe(line, FULL) for line in drawn(plan.stack, unit, ASCII)),
        narrow=tuple(_narrow(plan, Namer(card.stack.stock), unit)),
        svg=drawing.text(),
        width=drawing.width,
        height=drawing.height,
        words=described(plan.stack, unit),
    )


def _narrow(plan: WringingPlan, namer: Namer, unit: Unit) -> Iterator[str]:
    """Return the stack for 40 columns, the top block first."""
    totals = plan.stack.running_totals()
    for index in reversed(range(len(plan.stack.blocks))):
        name = namer.name(plan.stack.blocks[index])
        yield f"{index + 1:>2} [ {name:^14} ] = {engraved_text(totals[index], unit)}"
    yield f"   {'#' * 18} plate"


def _steps(plan: WringingPlan, role: str) -> Table:
    """Return the steps in their order, each with its reason."""
    columns = (Column(name="", wide=4), Column(name="do", wide=35, key=True), Column(name="because", wide=37))
    rows = tuple(
        Row(cells=(str(number), safe(step.action), safe(step.reason)))
        for number, step in enumerate(plan.steps, 1)
    )
    return Table(title=f"Steps, {role} stack" if role else "Steps", columns=columns, rows=rows)


def _readings(found: ProofAnswer, unit: Unit) -> Table:
    """Return what an indicator shows over a level top for a minute of error."""
    columns = (
        Column(name="travel", wide=20),
        Column(name="one minute of error shows", wide=28, figures=True),
        Column(name="read", wide=28),
    )
    rows = tuple(
        Row(
            cells=(
                exact_text(row.span.length, row.span.unit),
                small_text(row.minute, unit, 1).lstrip("+"),
                "",
            )
        )
        for row in found.rows
    )
    return Table(title="Indicator over the top of the work", columns=columns, rows=rows)


def _checks(found: ProofAnswer) -> Table:
    """Return the checks of the set-up, each with its blind side."""
    columns = (Column(name="check", wide=42), Column(name="does not find", wide=36))
    rows = tuple(Row(cells=(safe(check.do, 200), safe(check.cannot_detect, 200))) for check in found.checks)
    return Table(title="Readings that prove it", columns=columns, rows=rows)
