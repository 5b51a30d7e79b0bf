"""What a budget says at the bench: what dominates, what to improve, and yes, no or cannot tell.

    dominant_line(budget), improve_first(budget)
    decide(value, Tolerance(lower=-500, upper=500, unit="nm"), budget.expanded).verdict

Inside the limits by more than U is a yes, outside by more than U a no; between,
nothing is proven and nobody should pretend.
Source: ISO 14253-1 with U as guard band (that a no needs U beyond the limit: seen;
the rest from memory).  The edition of 2017 allows a band of 1.65 u instead (memory);
give it as `guard_band` to use it.  Prints nothing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from gaugestack.errors import UsageError
from gaugestack.uncertainty.distribution import Distribution
from gaugestack.uncertainty.rounding import two_digits_up

if TYPE_CHECKING:
    from gaugestack.uncertainty.budget import Budget, Line

GOOD_RATIO = 4.0
"""Tolerance to uncertainty, span to span: ANSI/NCSL Z540.3, 5.3 (seen in conference papers)."""

_NOISE = 1e-9


class Verdict(StrEnum):
    """Whether a requirement is met."""

    YES = "yes"
    NO = "no"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerance:
    """Limits of a value, in `unit`; one may be infinite.  Raises UsageError unless lower < upper."""

    lower: float
    upper: float
    unit: str = ""

    def __post_init__(self) -> None:
        """Refuse limits that leave nothing."""
        if not self.lower < self.upper:
            sentence = f"limits from {self.lower:g} to {self.upper:g}: the lower one comes first"
            raise UsageError.about("tolerance", sentence)


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """The verdict, one sentence for it, and tolerance over uncertainty (span to span)."""

    verdict: Verdict
    sentence: str
    ratio: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Improvement:
    """The line to improve first, and U with it halved, in the budget's unit."""

    line: Line
    expanded_now: float
    expanded_then: float
    sentence: str


def decide(value: float, tolerance: Tolerance, guard_band: float) -> Decision:
    """Return yes, no or cannot tell for a value with the guard band U, all in one unit.

    Yes within [lower + U, upper - U], no at or beyond lower - U and upper + U.
    Raises UsageError on a value that is not finite and a U below zero.
    """
    if not math.isfinite(value) or not (math.isfinite(guard_band) and guard_band >= 0):
        raise UsageError.about("decision", "a value and an uncertainty from zero are wanted")
    inside = min(value - tolerance.lower, tolerance.upper - value)
    verdict = _verdict(inside, guard_band)
    return Decision(
        verdict=verdict,
        sentence=_sentence(verdict, inside, guard_band, tolerance.unit),
        ratio=tolerance_ratio(tolerance, guard_band),
    )


def tolerance_ratio(tolerance: Tolerance, expanded: float) -> float:
    """Return (upper - lower) / 2U, infinite for U = 0; 4 or more is called good."""
    return (tolerance.upper - tolerance.lower) / (2 * expanded) if expanded else math.inf


def ratio_line(ratio: float) -> str:
    """Say what a ratio of tolerance to uncertainty is worth."""
    if ratio >= GOOD_RATIO:
        return f"the tolerance is {_times(ratio)} the uncertainty: good (4 is the usual least)"
    if ratio >= 1:
        return f"the tolerance is only {_times(ratio)} the uncertainty: 4 is the usual least"
    return "the uncertainty is larger than the tolerance: this set-up cannot prove it met"


def dominant_line(budget: Budget) -> str:
    """Say in one line what the uncertainty mostly comes from."""
    lines = budget.lines()
    if not budget.combined:
        return "nothing is in doubt here: every limit was given as zero"
    first = lines[0]
    if first.share > 0.5 + _NOISE:
        return f"mostly {first.name}: {first.share:.0%} of the variance"
    second = lines[1]
    return f"first {first.name} ({first.share:.0%} of the variance), then {second.name} ({second.share:.0%})"


def improve_first(budget: Budget) -> Improvement:
    """Return the line whose halving makes U smallest, and what U would be then.

    A product of two doubts is passed over: it falls with its factors.
    Raises UsageError where nothing is in doubt.
    """
    if not budget.combined:
        raise UsageError.about(budget.quantity, "nothing is in doubt here: nothing to improve")
    candidates = [line for line in budget.lines() if line.contribution]
    plain = [
        line for line in candidates if line.components[0].distribution is not Distribution.PRODUCT
    ] or candidates
    found = [(_with_halved(budget, line).expanded, place, line) for place, line in enumerate(plain)]
    then, _, line = min(found)
    now = budget.expanded
    sentence = (
        f"improve {line.name} first: half of it brings U from {two_digits_up(now)} "
        f"to {two_digits_up(then)} {budget.unit}"
    )
    return Improvement(line=line, expanded_now=now, expanded_then=then, sentence=sentence)


def _with_halved(budget: Budget, line: Line) -> Budget:
    """Return the budget with one line halved."""
    halved = tuple(
        replace(item, value=item.value / 2) if any(item is member for member in line.components) else item
        for item in budget.components
    )
    return replace(budget, components=halved)


def _verdict(inside: float, guard_band: float) -> Verdict:
    """Return the verdict for a value so far inside the nearer limit (below zero: outside)."""
    if inside >= guard_band:
        return Verdict.YES
    return Verdict.NO if inside <= -guard_band else Verdict.CANNOT_TELL


def _sentence(verdict: Verdict, inside: float, guard_band: float, unit: str) -> str:
    """Say why."""
    margin = f"{abs(inside):.3g} {unit}".strip()
    doubt = f"{two_digits_up(guard_band)} {unit}".strip()
    where = f"{margin} {'inside' if inside >= 0 else 'outside'} the nearer limit"
    if verdict is Verdict.YES:
        return f"yes: {where}, and the doubt is {doubt}"
    if verdict is Verdict.NO:
        return f"no: {where}, and the doubt is only {doubt}"
    return f"cannot tell: {where}, which is less than the doubt of {doubt}"


def _times(ratio: float) -> str:
    """Print a ratio."""
    return "any number of times" if math.isinf(ratio) else f"{ratio:.1f} times"
