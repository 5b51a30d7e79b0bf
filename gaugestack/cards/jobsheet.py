"""The sheet of a job: every set-up in the order it is made, what stays wrung, what comes off and goes on.

    >>> sheet = job_sheet(answer)

Only a job that has a plan makes a sheet.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text
from gaugestack.answers.fingerprint import fingerprint
from gaugestack.answers.jobcautions import cautions
from gaugestack.cards.jobscreen import proof_said, wanted_said
from gaugestack.cards.setfacts import CARE, UNIT_WORDS, Namer, certificate_said, total_said, warning
from gaugestack.cards.sheet import Blanks, Column, Row, Sheet, Table, safe
from gaugestack.lengths import exact_text, small_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.answers.job import JobAnswer
    from gaugestack.stacks.sequencerequest import JobStep

_LONGEST_CAUTION = 400
"""Cautions stand in full; the longest there is has 250 characters."""
SIGNED = ("made by", "checked by", "date", "temperature")


def job_sheet(answer: JobAnswer) -> Sheet:
    """Return the sheet of a job that has a plan."""
    code = fingerprint(answer.stock)
    return Sheet(
        kind="Job sheet",
        title=safe(answer.job.name, 80),
        code=code,
        printed=str(answer.stock.on or ""),
        facts=tuple(_facts(answer)),
        parts=(_table(answer), Blanks(title="Signed", labels=SIGNED)),
        warning=warning(code),
        care=CARE,
    )


def _facts(answer: JobAnswer) -> Iterator[tuple[str, str]]:
    """Return the set and how many wrings the job takes."""
    stock, plan = answer.stock, answer.plan
    yield "set", safe(stock.name)
    for block_set in stock.sets:
        yield "certificate", certificate_said(block_set, stock)
    if plan:
        yield (
            "wrings",
            f"{plan.wrings} in all, {plan.naive} with every stack made afresh; {proof_said(answer)}",
        )
    tolerance = answer.request.requests[0].tolerance
    yield "tolerance", f"{exact_text(tolerance, stock.unit)}, {safe(answer.tolerance_said)}"
    for one in cautions(answer.tasks, stock.unit):
        yield "caution", f"{safe(', '.join(one.setups))}: {safe(one.sentence, _LONGEST_CAUTION)}"


def _table(answer: JobAnswer) -> Table:
    """Return the set-ups in the order they are made."""
    columns = (
        Column(name="set-up", wide=18),
        Column(name="stack, upward", wide=19, figures=True, key=True),
        Column(name="from the one before", wide=19, under=True),
        Column(name="total", wide=8, figures=True),
        Column(name="error", wide=8, figures=True, under=True),
    )
    namer = Namer(answer.stock)
    steps = answer.plan.steps if answer.plan else ()
    rows = tuple(_row(answer, number, step, namer) for number, step in enumerate(steps, 1))
    return Table(
        title=f"Set-ups in this order; sizes in {UNIT_WORDS[answer.stock.unit]}", columns=columns, rows=rows
    )


def _row(answer: JobAnswer, number: int, step: JobStep, namer: Namer) -> Row:
    """Return one set-up."""
    task, built, unit = answer.tasks[step.setup], answer.built(step), answer.stock.unit
    error = task.error_arcsec(built.length)
    off = arcsec_text(error) if error is not None else ""
    if error is None:
        off = small_text(built.deviation, unit) if built.deviation else "0"
    return Row(
        cells=(
            safe(f"{number}. {task.setup.name}: {wanted_said(task)}"),
            namer.line(step.stack.blocks),
            _handling(step, namer),
            total_said(built.length, unit),
            off,
        )
    )


def _handling(step: JobStep, namer: Namer) -> str:
    """Say what stays wrung, what comes off, what is parted and what goes on."""
    said = [f"keep {namer.line(pile)}" for pile in step.kept]
    rows = (("off", step.off), ("part", step.loose), ("add", step.on))
    said += [f"{word} {namer.line(blocks)}" for word, blocks in rows if blocks]
    return "; ".join(said)
