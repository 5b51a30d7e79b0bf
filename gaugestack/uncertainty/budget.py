"""The uncertainty budget: single doubts in, one figure to put behind the result out.

    film = Component(name="wringing", value=25, distribution=Distribution.RECTANGULAR, unit="nm")
    report = Component(name="calibration", value=60, divisor=2, unit="nm")
    budget = Budget(quantity="stack", unit="nm", components=(film, report))
    budget.combined, budget.k, budget.expanded

For who never read the GUM: each component says how far off one thing may be.
Divided by its divisor that is a standard uncertainty; times its sensitivity it
is what it does to the result.  Independent contributions add as the root of the
sum of their squares; those of one `group` go wrong together, so they add with
their signs before they are squared.  The sum times k is U: the result is right
within plus and minus U about as often as `probability` says.

Units are labels: nanometres and metres give the same budget.  Asymmetric
results and corrections are not made here; U is for a result already corrected.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from gaugestack.errors import UsageError
from gaugestack.uncertainty.distribution import Distribution, divisor_of, read_distribution
from gaugestack.uncertainty.student import coverage_factor

USUAL_PROBABILITY = math.erf(math.sqrt(2))
"""95.45 %: what k = 2 stands for on a calibration certificate (EA-4/02, from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Component:
    """One thing that may be off.

    `value` is a limit or an expanded uncertainty in `unit`, never below zero;
    `divisor` what makes it a standard uncertainty (None: that of the
    distribution); `sensitivity` the change of the result for one unit, with its
    sign; `degrees_of_freedom` from 1 to infinite; `group` names what goes wrong
    together; `source` says where the value is from.

    Raises UsageError on a value below zero or not finite, a divisor (k) of zero or
    below, degrees of freedom below 1 and an unknown distribution.
    """

    name: str
    value: float
    unit: str
    distribution: Distribution = Distribution.NORMAL
    divisor: float | None = None
    degrees_of_freedom: float = math.inf
    sensitivity: float = 1.0
    group: str = ""
    source: str = ""

    def __post_init__(self) -> None:
        """Refuse what is no doubt at all."""
        object.__setattr__(self, "distribution", read_distribution(self.distribution))
        if not math.isfinite(self.value) or not math.isfinite(self.sensitivity):
            raise UsageError.about(self.name, "not a finite number", hint="how far off may it be?")
        if self.value < 0:
            sentence = f"an uncertainty of {self.value:g} {self.unit}: it cannot be below zero"
            raise UsageError.about(self.name, sentence, hint="write how far it may be off, without a sign")
        if self.divisor is not None:
            refuse_no_coverage(self.name, self.divisor)
        if not self.degrees_of_freedom >= 1:
            sentence = (
                f"{self.degrees_of_freedom:g} degrees of freedom: one reading more than one is the least"
            )
            raise UsageError.about(self.name, sentence, hint="readings minus one")

    @property
    def standard(self) -> float:
        """The standard uncertainty, in `unit`."""
        return self.value / (divisor_of(self.distribution) if self.divisor is None else self.divisor)

    @property
    def contribution(self) -> float:
        """What the result gets of it, in the result's unit, with the sign of the sensitivity."""
        return self.sensitivity * self.standard


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One independent line of a budget: a component, or a group that goes wrong together.

    `contribution` is above or at zero in the budget's unit, `share` its part of the
    variance, 0 to 1.
    """

    name: str
    contribution: float
    share: float
    degrees_of_freedom: float
    components: tuple[Component, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """All doubts about one quantity, in one unit.

    `probability` is the wanted coverage; `coverage_factor` fixes k instead, as a
    certificate does with k = 2.  `remarks` tell what was left out or assumed.
    Raises UsageError without components and for a fixed k of zero or below.
    """

    quantity: str
    unit: str
    components: tuple[Component, ...]
    probability: float = USUAL_PROBABILITY
    coverage_factor: float | None = None
    remarks: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a budget that would say nothing."""
        if not self.components:
            raise UsageError.about(self.quantity, "a budget without a single component", hint="name a doubt")
        if self.coverage_factor is not None:
            refuse_no_coverage(self.quantity, self.coverage_factor)

    @property
    def combined(self) -> float:
        """The combined standard uncertainty: root of the sum of squares (JCGM 100:2008, 5.1.2, 5.2.2)."""
        return math.hypot(*(_summed(group) for group in self._groups()))

    @property
    def effective_degrees_of_freedom(self) -> float:
        """Welch-Satterthwaite from unrounded values, itself unrounded (JCGM 100:2008, G.4.1).

        A group that goes wrong together counts once, with the fewest degrees of its members.
        Infinite where nothing was estimated from few readings.
        """
        doubt = math.fsum(_summed(group) ** 4 / _fewest(group) for group in self._groups())
        return self.combined**4 / doubt if doubt > 0 else math.inf

    @property
    def degrees_used(self) -> float:
        """The effective degrees cut to the whole number below, at least 1: k is never too small."""
        exact = self.effective_degrees_of_freedom
        return exact if math.isinf(exact) else float(max(1, math.floor(exact * (1 + 1e-12))))

    @property
    def k(self) -> float:
        """The fixed coverage factor, or Student's t for the probability and `degrees_used`."""
        if self.coverage_factor is not None:
            return self.coverage_factor
        return coverage_factor(self.probability, self.degrees_used)

    @property
    def expanded(self) -> float:
        """U = k times the combined standard uncertainty, unrounded."""
        return self.k * self.combined

    def lines(self) -> tuple[Line, ...]:
        """Return the independent lines, largest share first; equal ones in the order given."""
        variance = self.combined**2
        lines = [_line(group, variance) for group in self._groups()]
        return tuple(sorted(lines, key=lambda line: -line.share))

    def share(self, component: Component) -> float:
        """Return the part of the variance a component stands for; below zero where it cancels in its group.

        The shares of all components sum to 1.
        """
        if not self.combined:
            return 0.0
        group = next(group for group in self._groups() if component in group)
        together = math.fsum(member.contribution for member in group)
        return component.contribution * together / self.combined**2

    def _groups(self) -> tuple[tuple[Component, ...], ...]:
        """Return the components by group, each without a group alone, in the order given."""
        groups: dict[object, list[Component]] = {}
        for place, component in enumerate(self.components):
            groups.setdefault(component.group or place, []).append(component)
        return tuple(tuple(group) for group in groups.values())


def second_order(first: Component, second: Component, *, mixed: float, name: str) -> Component:
    """Return the component of a product whose factors are both in doubt.

    `mixed` is the second derivative of the result by both inputs.  The term is
    (mixed u1 u2)^2, exact for a product of independent inputs: JCGM 100:2008, 5.1.2,
    note (half the square counted twice) and H.1.7 (memory).  Its degrees of freedom combine
    as 1/v = 1/v1 + 1/v2, which gives the 21.6 that library documentation prints for H.1.
    """
    doubt = 1 / first.degrees_of_freedom + 1 / second.degrees_of_freedom
    return Component(
        name=name,
        value=first.standard * second.standard,
        unit=f"{first.unit} {second.unit}",
        distribution=Distribution.PRODUCT,
        degrees_of_freedom=max(1.0, 1 / doubt) if doubt else math.inf,
        sensitivity=mixed,
        source="product of two doubts, JCGM 100:2008, 5.1.2, note",
    )


def scaled(components: tuple[Component, ...], factor: float) -> tuple[Component, ...]:
    """Return the components as they count in another quantity: every sensitivity times `factor`."""
    return tuple(replace(item, sensitivity=item.sensitivity * factor) for item in components)


def degrees_from_reliability(relative: float) -> float:
    """Return 1 / (2 r^2) for an uncertainty that is itself only sure to the part r (JCGM 100:2008, G.4.2).

    0.25 gives 8 degrees of freedom, 0.1 gives 50.  Raises UsageError unless 0 < r < 0.7.
    """
    if not 0 < relative < 0.7:
        sentence = f"a reliability of {relative:g}: it lies above 0 and below 0.7"
        raise UsageError.about(
            "reliability", sentence, hint="0.25 says: the limit itself is sure to a quarter"
        )
    return 1 / (2 * relative * relative)


def refuse_no_coverage(name: str, factor: float) -> None:
    """Refuse a divisor or coverage factor k of zero, below it or not finite."""
    if not math.isfinite(factor) or factor <= 0:
        sentence = f"a coverage factor k of {factor:g}: it is above zero"
        raise UsageError.about(name, sentence, hint="a certificate prints it beside U; usually k = 2")


def _summed(group: tuple[Component, ...]) -> float:
    """Return what a group that goes wrong together does to the result."""
    return abs(math.fsum(component.contribution for component in group))


def _fewest(group: tuple[Component, ...]) -> float:
    """Return the fewest degrees of freedom in a group."""
    return min(component.degrees_of_freedom for component in group)


def _line(group: tuple[Component, ...], variance: float) -> Line:
    """Return the line of a group."""
    contribution = _summed(group)
    return Line(
        name=group[0].group or group[0].name,
        contribution=contribution,
        share=contribution**2 / variance if variance else 0.0,
        degrees_of_freedom=_fewest(group),
        components=group,
    )
