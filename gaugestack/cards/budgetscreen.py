"""Budgets as plain text for a terminal of 80 columns.

    >>> print(budget_text(answer))

The answer first, then whether the drawing is met and what to improve, then the
table: each line with its share of the variance as a bar, what it adds to the
result, and below it where the figure is from.  Small lines are drawn together
unless all are asked for.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from gaugestack.angles.angle import arcsec_text
from gaugestack.cards.anglescreen import bar_said, both
from gaugestack.cards.drawing import LINES, Pen
from gaugestack.cards.screen import (
    blocks_line,
    deviation_said,
    outcome_lines,
    page,
    remark_lines,
    source_said,
    wrapped,
)
from gaugestack.errors import visible
from gaugestack.lengths import exact_text, small_text
from gaugestack.stacks.request import Found
from gaugestack.uncertainty.budget import USUAL_PROBABILITY
from gaugestack.uncertainty.decision import dominant_line, ratio_line
from gaugestack.uncertainty.rounding import two_digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.answers.budget import BudgetAnswer
    from gaugestack.answers.knowing import KnownResult
    from gaugestack.stacks.wringing import WringingPlan
    from gaugestack.uncertainty.budget import Component, Line

FILM = "wringing film"
BAR = 20
"""Columns of a share bar."""
SMALL = 0.005
"""Lines below this share are drawn together."""


def budget_text(answer: BudgetAnswer, pen: Pen = LINES, *, every: bool = False) -> str:
    """Return the screen of `budget stack` and `budget angle`; `every` shows small lines too."""
    remarks = list(dict.fromkeys((*answer.remarks, *(r for k in answer.known for r in k.budget.remarks))))
    return page(
        (
            *_head(answer),
            *_results(answer, pen, every=every),
            *_circumstances(answer),
            *remark_lines(visible(remark) for remark in remarks),
        )
    )


def _head(answer: BudgetAnswer) -> Iterator[str]:
    """Return which angle on which bar, which set, which tolerance."""
    if answer.angle is not None and answer.bar is not None:
        yield from wrapped(visible(f"{both(answer.angle)} on {bar_said(answer.bar)}"), "", "  ")
    yield from wrapped(visible(source_said(answer.stack)), "from ", "     ")


def _results(answer: BudgetAnswer, pen: Pen, *, every: bool) -> Iterator[str]:
    """Return each stack with its budget, or why there is no stack."""
    if not isinstance(answer.stack.outcome, Found):
        yield from outcome_lines(answer.stack, pen)
        return
    plans = answer.stack.plans
    for index, result in enumerate(answer.known):
        shown = [index] if len(plans) == len(answer.known) else range(len(plans))
        for place in shown:
            yield ""
            yield from _stack(answer, place, plans[place])
        yield ""
        yield from _told(result)
        yield from _decided(result)
        yield ""
        yield from _table(result, pen, every=every)


def _stack(answer: BudgetAnswer, index: int, plan: WringingPlan) -> Iterator[str]:
    """Return what was asked, the blocks, and how the stack was chosen."""
    laid = answer.stack.heights[index]
    one_each = len(answer.asked) == len(answer.stack.heights)
    asked = answer.asked[index] if one_each else laid
    built = answer.stack.outcome.stacks[index] if isinstance(answer.stack.outcome, Found) else None
    if built is None:
        return
    count = len(built.blocks)
    role = "" if one_each else f", {answer.stack.roles[index]} roll"
    headline = f"{exact_text(laid.length, laid.unit)}{role}: {count} block{'s' * (count > 1)}"
    yield f"{headline}, {deviation_said(built)}" if one_each else headline
    yield from wrapped(visible(blocks_line(plan.stack.blocks)), "  ", "  ")
    if laid.length != asked.length:
        added = small_text(laid.length - asked.length, asked.unit, 2)
        said = f"corrected for warmth from {exact_text(asked.length, asked.unit)}: {added}"
        yield from wrapped(said, "  ", "  ")
    if answer.search:
        usual = answer.known[index].said(answer.search.usual)
        yield from wrapped(f"{answer.search.sentence} (the usual stack: {usual})", "  chosen: ", "    ")


def _told(result: KnownResult) -> Iterator[str]:
    """Return U, what it means, what it mostly comes from, and what is known of the result itself."""
    budget = result.budget
    likely = "" if budget.coverage_factor else f": right {USUAL_PROBABILITY:.0%} of the time"
    degrees = _degrees(budget.effective_degrees_of_freedom)
    combined = result.said(budget.combined)
    yield f"  right within  {result.expanded}{likely}"
    yield from wrapped(
        f"k = {budget.k:.2f} times {combined}; degrees of freedom {degrees}", " " * 16, " " * 16
    )
    if result.rise:
        yield f"                {result.rise}"
    yield from wrapped(visible(dominant_line(budget)), "                ", " " * 16)
    if result.off and budget.unit != "nm":
        yield f"                the blocks set it {_signed(result, result.off)} off at 20 °C"
    if result.shift:
        moved, stands = _signed(result, result.shift), _signed(result, result.stands)
        yield from wrapped(f"warmth moves it {moved}; so it stands {stands} off", " " * 16, " " * 16)
    if result.growth:
        yield from wrapped(result.growth, " " * 16, " " * 16)


def _decided(result: KnownResult) -> Iterator[str]:
    """Return the decision about the drawing's tolerance, and what to improve first."""
    if result.decision and result.drawing is not None:
        asked = result.said(result.drawing)
        yield from wrapped(f"{result.decision.sentence} (ISO 14253-1)", f"  drawing {asked}: ", " " * 16)
        yield from wrapped(ratio_line(result.decision.ratio), " " * 16, " " * 16)
    if result.improvement:
        then = result.said(result.improvement.expanded_then)
        said = f"{result.improvement.line.name}: half of it leaves {then}"
        yield from wrapped(visible(said), "  improve first ", " " * 16)


def _table(result: KnownResult, pen: Pen, *, every: bool) -> Iterator[str]:
    """Return the lines of the budget, largest share first."""
    lines = films_together(result.budget.lines())
    shown = [line for line in lines if every or line.share >= SMALL]
    small = [line for line in lines if line not in shown]
    yield f"  share{' ' * (BAR + 2)}   adds  what is in doubt (standard uncertainty)"
    for line in shown:
        yield from _line(result, line, pen)
    if small:
        together = math.sqrt(math.fsum(line.contribution**2 for line in small))
        share = math.fsum(line.share for line in small)
        said = f"{len(small)} smaller ones together (see --every)"
        yield _row(result, share, together, said, pen)


def _line(result: KnownResult, line: Line, pen: Pen) -> Iterator[str]:
    """Return one line and where it is from."""
    lead = _row(result, line.share, line.contribution, "", pen)
    yield from wrapped(visible(line.name), lead, " " * len(lead))
    for component in line.components:
        if len(line.components) > 1:
            yield from wrapped(
                visible(f"{component.name}: {_detail(component, result)}"), "       ", "         "
            )
        else:
            said = f"{_detail(component, result)}; {_source(component)}"
            yield from wrapped(visible(said), "       ", "         ")


def _row(result: KnownResult, share: float, contribution: float, name: str, pen: Pen) -> str:
    """Return the row of a line: share, bar, contribution, name."""
    return f"  {share:>4.0%} {_bar(share, pen):<{BAR}} {adds(result, contribution):>9}  {name}"


def films_together(lines: tuple[Line, ...]) -> list[Line]:
    """Return the lines with the films that each go wrong alone drawn as one line."""
    films = [line for line in lines if line.name.startswith(f"{FILM} ") and len(line.components) == 1]
    if len(films) < 2:
        return list(lines)
    one = replace(
        films[0],
        name=f"{len(films)} wringing films, each alone",
        contribution=math.sqrt(math.fsum(film.contribution**2 for film in films)),
        share=math.fsum(film.share for film in films),
    )
    return sorted([one, *(line for line in lines if line not in films)], key=lambda line: -line.share)


def _source(component: Component) -> str:
    """Return where a figure is from; what is assumed stands in full among the circumstances."""
    head, assumed, _ = component.source.partition("assumed:")
    return f"{head}assumed" if assumed else component.source


def _detail(component: Component, result: KnownResult) -> str:
    """Say what a component is: value, distribution, divisor, degrees of freedom, sensitivity."""
    value = f"{component.value / _units(component.unit, result):.4g} {_unit(component.unit, result)}"
    divisor = f"/ {component.value / component.standard:.4g}" if component.standard else ""
    degrees = f"dof {component.degrees_of_freedom:.3g}"
    one = result.budget.unit
    per = "" if component.unit == one else f" {_unit(one, result)} per {_unit(component.unit, result)}"
    factor = component.sensitivity * _units(component.unit, result) / _units(one, result)
    spread = f"{value} {component.distribution.value} {divisor}"
    return f"{spread}, {degrees}, x {factor:.4g}{per}"


def _unit(unit: str, result: KnownResult) -> str:
    """Return the unit a figure is printed in: lengths in that of the result."""
    return result.unit.small if unit == "nm" else unit


def _units(unit: str, result: KnownResult) -> float:
    """Return how many of a figure's own units make the one it is printed in."""
    return result.unit.small_picometres / 1000 if unit == "nm" else 1.0


def _bar(share: float, pen: Pen) -> str:
    """Return a share as a bar."""
    return pen.plate * round(min(1.0, max(0.0, share)) * BAR)


def adds(result: KnownResult, contribution: float) -> str:
    """Return a contribution in the unit that is printed."""
    if result.budget.unit == "nm":
        return f"{two_digits(contribution * 1000 / result.unit.small_picometres)} {result.unit.small}"
    return f'{two_digits(contribution)}"'


def _signed(result: KnownResult, value: float) -> str:
    """Return a signed error in the unit that is printed."""
    if result.budget.unit == "nm":
        return small_text(round(value * 1000), result.unit, 2)
    return arcsec_text(value, 2)


def _degrees(degrees: float) -> str:
    """Return degrees of freedom as text."""
    return "unlimited" if math.isinf(degrees) else f"{degrees:.3g}"


def _circumstances(answer: BudgetAnswer) -> Iterator[str]:
    """Return every circumstance, those that nobody gave marked."""
    yield ""
    yield "circumstances"
    for line in answer.lines:
        yield from wrapped(visible(line), "  ", "    ")
