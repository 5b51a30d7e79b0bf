"""How well one result is known, and what that decides: the core of the budgets' answers.

    >>> view = StackView(conditions=Conditions(), k=None)
    >>> view.seen(height, built)       # budget, shift, growth

A view reckons stacks in nm against a part, or angles in seconds of arc on a bar.
Composes nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.angles.sine import angle_of
from gaugestack.lengths import Length
from gaugestack.stacks.request import Found
from gaugestack.uncertainty.angle import angle_uncertainty, turned_by_height
from gaugestack.uncertainty.decision import (
    Decision,
    Improvement,
    Tolerance,
    decide,
    improve_first,
)
from gaugestack.uncertainty.knowledge import PM_PER_NM
from gaugestack.uncertainty.rounding import length_text, two_digits_up
from gaugestack.uncertainty.stack import stack_uncertainty

if TYPE_CHECKING:
    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.uncertainty import Known
    from gaugestack.lengths import ReadLength, Unit
    from gaugestack.stacks.request import Built
    from gaugestack.uncertainty.angle import BarLimits
    from gaugestack.uncertainty.budget import Budget
    from gaugestack.uncertainty.conditions import Conditions
    from gaugestack.uncertainty.stack import Height


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What is asked of the uncertainty, in the budget's unit (nm or seconds).

    `drawing` is the drawing's tolerance, plus and minus; `limit` the largest
    uncertainty allowed; `least` asks for the smallest there is.
    """

    drawing: float | None = None
    limit: float | None = None
    least: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A budget, the shift by warmth it is corrected for, and sentences that only an angle has."""

    budget: Budget
    shift: float
    growth: str = ""
    rise: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownResult:
    """How well one result is known.

    `off` is how far it is from what was asked if all were at 20 °C, `shift` what
    warmth adds, both in the budget's unit; `unit` is the one to print lengths in.
    `expanded` is U as text.  `improvement` is None where nothing is in doubt.
    """

    budget: Budget
    unit: Unit
    off: float
    shift: float
    expanded: str
    drawing: float | None = None
    decision: Decision | None = None
    improvement: Improvement | None = None
    growth: str = ""
    rise: str = ""

    @property
    def stands(self) -> float:
        """How far the result is from what was asked, as it stands in these circumstances."""
        return self.off + self.shift

    def said(self, value: float) -> str:
        """Return a value of the budget's unit as text, two digits that count, rounded up."""
        if self.budget.unit == "nm":
            return length_text(value, self.unit)
        return f'{two_digits_up(value)}"'


@dataclass(frozen=True, slots=True, kw_only=True)
class StackView:
    """Stacks in nm against a part whose size is wanted at 20 °C."""

    conditions: Conditions
    k: float | None = None

    def seen(self, height: Height) -> Seen:
        """Return the budget of a height."""
        found = stack_uncertainty(height, self.conditions)
        return Seen(budget=with_k(found.budget, self.k), shift=found.shift)

    def off(self, built: Built, asked: Length) -> float:
        """Return how far a stack is from a height, nm."""
        return (built.length - asked) / PM_PER_NM

    def per_nm(self) -> float:
        """Return what one nanometre of height does to the result."""
        return 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleView:
    """Angles in seconds of arc, set on a bar."""

    conditions: Conditions
    angle: Angle
    bar: SineBar
    limits: BarLimits
    over: Length
    k: float | None = None

    def seen(self, height: Height) -> Seen:
        """Return the budget of the angle a height sets."""
        found = angle_uncertainty(self.angle, self.bar, height, self.conditions, limits=self.limits)
        told = replace(found, budget=with_k(found.budget, self.k))
        return Seen(
            budget=told.budget,
            shift=told.shift,
            growth=told.growth_line(),
            rise=told.rise_line(self.over, self.bar.unit),
        )

    def off(self, built: Built, asked: Length, low: Built | None = None) -> float:
        """Return how far the angle of a stack, less a low one, is from the one asked, seconds."""
        del asked
        raised = self.bar.base_height + (low.length if low else 0)
        return float(angle_of(Length(built.length - raised), self.bar) - self.angle)

    def per_nm(self) -> float:
        """Return what one nanometre of height does to the result."""
        return turned_by_height(self.angle, self.bar, 1.0)


View = StackView | AngleView


def with_k(budget: Budget, k: float | None) -> Budget:
    """Return a budget with a fixed coverage factor, where one is given."""
    return budget if k is None else replace(budget, coverage_factor=k)


def known_results(
    answer: StackAnswer, known: Known, view: View, asked: tuple[ReadLength, ...], wanted: Wanted
) -> tuple[KnownResult, ...]:
    """Return how well each stack of an answer is known; `asked` are the heights before a correction.

    Two stacks for one angle are one result: their difference.
    """
    if not isinstance(answer.outcome, Found):
        return ()
    if isinstance(view, AngleView) and len(answer.outcome.stacks) == 2:
        high, low = answer.outcome.stacks
        orders = [plan.stack.blocks for plan in answer.plans]
        height = known.height(orders[0], high.basis, orders[1])
        return (_result(view.seen(height), view.off(high, asked[0].length, low), asked[0], wanted),)
    plans = zip(answer.outcome, answer.plans, asked, strict=True)
    return tuple(
        _result(
            view.seen(known.height(plan.stack.blocks, built.basis)),
            view.off(built, read.length),
            read,
            wanted,
        )
        for built, plan, read in plans
    )


def _result(seen: Seen, off: float, read: ReadLength, wanted: Wanted) -> KnownResult:
    """Return how well a result is known and what that decides."""
    result = KnownResult(
        budget=seen.budget,
        unit=read.unit,
        off=off,
        shift=seen.shift,
        expanded="",
        drawing=wanted.drawing,
        improvement=improve_first(seen.budget) if seen.budget.combined else None,
        growth=seen.growth,
        rise=seen.rise,
    )
    return replace(
        result, expanded=result.said(seen.budget.expanded), decision=_decision(result, wanted.drawing)
    )


def _decision(result: KnownResult, drawing: float | None) -> Decision | None:
    """Return whether the drawing's tolerance is met (ISO 14253-1), in the unit that is printed."""
    if drawing is None:
        return None
    if result.budget.unit == "nm":
        one, name = result.unit.small_picometres / PM_PER_NM, result.unit.small
    else:
        one, name = 1.0, "seconds"
    limits = Tolerance(lower=-drawing / one, upper=drawing / one, unit=name)
    return decide(result.stands / one, limits, result.budget.expanded / one)
