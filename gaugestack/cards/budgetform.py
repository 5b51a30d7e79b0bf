"""Budgets as JSON: the form "gaugestack/budget".

    >>> jsonform.text(budget_form(answer))

Holds everything the form "gaugestack/stack" does, and one entry of `budgets` a
stack.  Figures are floats to nine digits that count, in the unit beside them;
None stands for unlimited degrees of freedom.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from gaugestack.cards.jsonform import Form, headed, stack_fields
from gaugestack.lengths import exact_text
from gaugestack.uncertainty.decision import dominant_line, ratio_line

if TYPE_CHECKING:
    from gaugestack.answers.budget import BudgetAnswer
    from gaugestack.answers.knowing import KnownResult
    from gaugestack.answers.leastdoubt import Search
    from gaugestack.uncertainty.budget import Budget, Component


def budget_form(answer: BudgetAnswer) -> Form:
    """Return the form of a budget answer."""
    form: Form = {
        **stack_fields(answer.stack),
        "quantity": "angle" if answer.angle is not None else "stack",
        "asked": [exact_text(read.length, read.unit) for read in answer.asked],
        "laid": [exact_text(read.length, read.unit) for read in answer.stack.heights],
        "budgets": [_result(result) for result in answer.known],
        "circumstances": list(answer.lines),
        "remarks": list(answer.remarks),
    }
    if answer.angle is not None and answer.bar is not None:
        form["angle_degrees"] = round(answer.angle.degrees, 12)
        form["bar"] = {
            "name": answer.bar.name,
            "centre_distance": exact_text(answer.bar.effective, answer.bar.unit),
        }
    if answer.search:
        form["search"] = _search(answer.search)
    return headed("budget", form)


def _result(result: KnownResult) -> Form:
    """Return how well one result is known."""
    budget = result.budget
    form: Form = {
        **_budget(budget),
        "expanded_text": result.expanded,
        "off_at_20": _digits(result.off),
        "shift": _digits(result.shift),
        "stands_off": _digits(result.stands),
        "dominant": dominant_line(budget),
        "remarks": list(budget.remarks),
    }
    if result.improvement:
        form["improve_first"] = {
            "name": result.improvement.line.name,
            "expanded_with_half": _digits(result.improvement.expanded_then),
        }
    if result.decision and result.drawing is not None:
        form["decision"] = {
            "verdict": result.decision.verdict.value,
            "sentence": result.decision.sentence,
            "tolerance": _digits(result.drawing),
            "ratio": None if math.isinf(result.decision.ratio) else _digits(result.decision.ratio),
            "ratio_sentence": ratio_line(result.decision.ratio),
            "rule": "ISO 14253-1",
        }
    if result.growth:
        form |= {"growth": result.growth, "taper_error": result.rise}
    return form


def _budget(budget: Budget) -> Form:
    """Return the figures of a budget and its table."""
    return {
        "quantity": budget.quantity,
        "unit": budget.unit,
        "combined": _digits(budget.combined),
        "effective_degrees_of_freedom": _degrees(budget.effective_degrees_of_freedom),
        "k": _digits(budget.k),
        "k_given": budget.coverage_factor is not None,
        "probability": None if budget.coverage_factor is not None else _digits(budget.probability),
        "expanded": _digits(budget.expanded),
        "components": [_component(component, budget) for component in budget.components],
        "lines": [
            {
                "name": line.name,
                "contribution": _digits(line.contribution),
                "share": _digits(line.share),
                "degrees_of_freedom": _degrees(line.degrees_of_freedom),
            }
            for line in budget.lines()
        ],
    }


def _component(component: Component, budget: Budget) -> Form:
    """Return one row of the table; its share is below zero where it cancels in its group."""
    divisor = component.value / component.standard if component.standard else None
    return {
        "name": component.name,
        "value": _digits(component.value),
        "unit": component.unit,
        "distribution": component.distribution.value,
        "divisor": None if divisor is None else _digits(divisor),
        "degrees_of_freedom": _degrees(component.degrees_of_freedom),
        "standard": _digits(component.standard),
        "sensitivity": _digits(component.sensitivity),
        "contribution": _digits(component.contribution),
        "share": _digits(budget.share(component)),
        "together_with": component.group,
        "source": component.source,
    }


def _search(search: Search) -> Form:
    """Return what a search by uncertainty looked at."""
    return {
        "sentence": search.sentence,
        "searched": search.searched,
        "most_blocks": search.most_blocks,
        "proven": search.proven,
        "met": search.met,
        "limit": None if search.limit is None else _digits(search.limit),
        "expanded": _digits(search.expanded),
        "expanded_of_usual_stack": _digits(search.usual),
    }


def _degrees(degrees: float) -> float | None:
    """Return degrees of freedom; None for unlimited ones."""
    return None if math.isinf(degrees) else _digits(degrees)


def _digits(value: float) -> float:
    """Return a figure to nine digits that count, so that two machines print the same."""
    return float(f"{value:.9g}")
