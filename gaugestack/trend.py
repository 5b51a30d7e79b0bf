"""The wear of one block over its calibrations: how fast, how sure, and until when.

    trend = trend_of(calibrations)              Trend, or NoTrend and why
    trend.sentence(Unit.INCH)
    leaving_of(trend, lower, upper)             the day it is expected to leave its limits

A straight line by least squares; its uncertainty by Student's t.  Floats, for
this is statistics: nothing here decides which block is taken.  A calibration's
uncertainty is the expanded one, coverage factor 2.  Does not read ledgers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum
from typing import TYPE_CHECKING

from gaugestack.lengths import Unit, small_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from gaugestack.lengths import Length

FEWEST = 3
"""Two points always lie on a line; only a third can say how well."""
SHORTEST_DAYS = 365
DAYS_A_YEAR = 365.25
FURTHEST_YEARS = 100.0
"""Nobody plans further ahead."""
CONFIDENCE = 0.95
_COVERAGE = 2.0
_PLACES = {Unit.INCH: 1, Unit.MILLIMETRE: 3}
"""Decimals of a wear a year: to 0.1 µin and to 1 nm."""


class Direction(StrEnum):
    """What the 95 % interval of the slope says."""

    WEARS = "wears"
    STEADY = "steady"
    GREW = "grew"


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """One calibration: its day, deviation and expanded uncertainty in picometres."""

    on: dt.date
    deviation: Length
    uncertainty: Length | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NoTrend:
    """No line can be drawn; `why` says what is missing."""

    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """A line through `count` calibrations from `first` to `last`.

    Lengths in picometres, `slope` and its standard uncertainty in picometres a
    year; `lowest` and `highest` are the ends of its 95 % interval.  The line
    passes through `mean` on the day `middle` days after `first`, known there
    to `mean_uncertainty`.  `factor` makes standard uncertainties 95 % ones.
    """

    first: dt.date
    last: dt.date
    count: int
    slope: float
    slope_uncertainty: float
    mean: float
    mean_uncertainty: float
    middle: float
    factor: float

    @property
    def lowest(self) -> float:
        """The lower end of the slope's 95 % interval."""
        return self.slope - self.factor * self.slope_uncertainty

    @property
    def highest(self) -> float:
        """The upper end of the slope's 95 % interval."""
        return self.slope + self.factor * self.slope_uncertainty

    @property
    def direction(self) -> Direction:
        """Whether the interval lies below zero, above it, or holds it."""
        if self.highest < 0:
            return Direction.WEARS
        return Direction.GREW if self.lowest > 0 else Direction.STEADY

    @property
    def question(self) -> str:
        """What to ask where the block seems to have grown; nothing otherwise."""
        if self.direction is not Direction.GREW:
            return ""
        return "grew: stable steel does not grow; ask the laboratory"

    def sentence(self, unit: Unit) -> str:
        """Return the trend in words, and how sure it is."""
        places = _PLACES[unit]
        low, slope, high = (
            small_text(round(value), unit, places) for value in (self.lowest, self.slope, self.highest)
        )
        years = (self.last - self.first).days / DAYS_A_YEAR
        basis = f"{self.count} calibrations over {years:.1f} years"
        said = {
            Direction.WEARS: f"wears: {slope} a year",
            Direction.STEADY: f"no change can be told from the scatter: {slope} a year",
            Direction.GREW: f"{self.question}: {slope} a year",
        }[self.direction]
        return f"{said} (95 %: {low} to {high}; {basis})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaving:
    """When a block is expected to leave its limits.

    `expected` is where the line crosses, `earliest` and `latest` where its 95 %
    band does; None: not within a hundred years.  `already`: the line lay
    outside on the day of the last calibration.  `sure`: the slope is told from
    zero; without that `expected` is little more than a guess.
    """

    expected: dt.date | None
    earliest: dt.date | None
    latest: dt.date | None
    already: bool
    sure: bool


def trend_of(calibrations: Iterable[Calibration]) -> Trend | NoTrend:
    """Return the least-squares line through the calibrations of one block.

    Ordinary least squares, every calibration alike.  The scatter about the line
    gives the standard uncertainties; where every calibration states its own,
    and these make the interval wider, they count instead, with factor 2.
    """
    points = sorted(calibrations, key=lambda point: (point.on, point.deviation))
    if len(points) < FEWEST:
        return NoTrend(why=f"{_counted(len(points))}: a trend needs at least {FEWEST}")
    first, last = points[0].on, points[-1].on
    if (last - first).days < SHORTEST_DAYS:
        days = (last - first).days
        return NoTrend(why=f"all calibrations lie within {days} days: a trend needs at least a year")
    years = [(point.on - first).days / DAYS_A_YEAR for point in points]
    line = _line(years, [float(point.deviation) for point in points])
    uncertainties = _uncertainties(line, years, points)
    return Trend(
        first=first,
        last=last,
        count=len(points),
        slope=line.slope,
        slope_uncertainty=uncertainties.slope,
        mean=line.mean,
        mean_uncertainty=uncertainties.mean,
        middle=line.middle * DAYS_A_YEAR,
        factor=uncertainties.factor,
    )


def leaving_of(trend: Trend, lower: Length, upper: Length) -> Leaving:
    """Return when the block is expected to leave the limits `lower` to `upper`.

    Looks to the side the slope points to: the limit that wear or growth meets.
    """
    limit = float(lower if trend.slope <= 0 else upper)
    outward = -1.0 if trend.slope <= 0 else 1.0
    distance = (limit - trend.mean) * outward
    slope = trend.slope * outward
    ahead = (trend.last - trend.first).days - trend.middle
    return Leaving(
        expected=_day(trend, _line_crosses(distance, slope)),
        earliest=_day(trend, _outer_side_crosses(trend, distance, slope)),
        latest=_day(trend, _inner_side_crosses(trend, distance, slope)),
        already=slope * ahead / DAYS_A_YEAR > distance,
        sure=trend.direction is not Direction.STEADY,
    )


def student_factor(degrees_of_freedom: int, confidence: float = CONFIDENCE) -> float:
    """Return how many standard uncertainties hold the share `confidence`, by Student's t.

    Inverts the finite sums for whole degrees of freedom (Abramowitz and Stegun,
    Handbook of Mathematical Functions, 26.7.3 and 26.7.4; from memory).
    """
    low, high = 0.0, math.pi / 2
    for _ in range(200):
        angle = (low + high) / 2
        if _student_share(angle, degrees_of_freedom) < confidence:
            low = angle
        else:
            high = angle
    return math.tan(low) * math.sqrt(degrees_of_freedom)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """A fitted line: through `mean` at `middle`; `spread` is the sum of squares of the years."""

    slope: float
    mean: float
    middle: float
    spread: float
    scatter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Uncertainties:
    """Standard uncertainties of a line's slope and mean, and the factor to 95 %."""

    slope: float
    mean: float
    factor: float


def _line(years: list[float], deviations: list[float]) -> _Line:
    """Return the least-squares line and the standard deviation of the scatter about it."""
    count = len(years)
    middle, mean = math.fsum(years) / count, math.fsum(deviations) / count
    spread = math.fsum((x - middle) ** 2 for x in years)
    pairs = list(zip(years, deviations, strict=True))
    slope = math.fsum((x - middle) * (y - mean) for x, y in pairs) / spread
    squares = math.fsum((y - mean - slope * (x - middle)) ** 2 for x, y in pairs)
    scatter = math.sqrt(squares / (count - 2))
    return _Line(slope=slope, mean=mean, middle=middle, spread=spread, scatter=scatter)


def _uncertainties(line: _Line, years: list[float], points: list[Calibration]) -> _Uncertainties:
    """Return the uncertainties by the scatter or by the certificates, whichever say less."""
    count = len(points)
    by_scatter = _Uncertainties(
        slope=line.scatter / math.sqrt(line.spread),
        mean=line.scatter / math.sqrt(count),
        factor=student_factor(count - 2),
    )
    stated = [point.uncertainty / _COVERAGE for point in points if point.uncertainty is not None]
    if len(stated) < count:
        return by_scatter
    terms = (((x - line.middle) / line.spread * u) ** 2 for x, u in zip(years, stated, strict=True))
    by_certificate = _Uncertainties(
        slope=math.sqrt(math.fsum(terms)),
        mean=math.sqrt(math.fsum(u**2 for u in stated)) / count,
        factor=_COVERAGE,
    )
    return max(by_scatter, by_certificate, key=lambda each: each.slope * each.factor)


def _line_crosses(distance: float, slope: float) -> float | None:
    """Return the years from the middle at which the line is `distance` out."""
    return distance / slope if slope > 0 else None


def _outer_side_crosses(trend: Trend, distance: float, slope: float) -> float | None:
    """Return the years from the middle at which the outer side of the band is `distance` out.

    The band is the line plus or minus the root of (f u_mean)^2 + (f u_slope x)^2.
    """
    at_mean = trend.factor * trend.mean_uncertainty
    if at_mean >= distance:
        return 0.0
    return min((x for x in _band_roots(trend, distance, slope) if x > 0), default=None)


def _inner_side_crosses(trend: Trend, distance: float, slope: float) -> float | None:
    """Return the years at which the inner side is `distance` out; never where the slope is not sure.

    The inner side is the later one to be there.
    """
    sure = slope > trend.factor * trend.slope_uncertainty
    return max(_band_roots(trend, distance, slope)) if sure else None


def _band_roots(trend: Trend, distance: float, slope: float) -> list[float]:
    """Return the years at which either side of the band is `distance` out, where it is."""
    a = slope**2 - (trend.factor * trend.slope_uncertainty) ** 2
    c = distance**2 - (trend.factor * trend.mean_uncertainty) ** 2
    return _roots(a, -2 * slope * distance, c)


def _roots(a: float, b: float, c: float) -> list[float]:
    """Return the real roots of a x^2 + b x + c, without cancellation; a line without doubt has one twice."""
    if a == 0:
        return [-c / b] if b else []
    q = -(b + math.copysign(math.sqrt(max(0.0, b * b - 4 * a * c)), b)) / 2
    return [q / a, c / q] if q else [0.0]


def _day(trend: Trend, years: float | None) -> dt.date | None:
    """Return the day `years` after the middle; None for none and for what is too far away."""
    if years is None or abs(years) > FURTHEST_YEARS:
        return None
    return trend.first + timedelta(days=math.floor(trend.middle + years * DAYS_A_YEAR))


def _student_share(angle: float, degrees: int) -> float:
    """Return the share of Student's t within the root of `degrees` times the tangent of `angle`."""
    cosine, sine = math.cos(angle), math.sin(angle)
    if degrees == 1:
        return 2 / math.pi * angle
    if degrees % 2:
        term = total = cosine
        for k in range(2, degrees - 2, 2):
            term *= cosine**2 * k / (k + 1)
            total += term
        return 2 / math.pi * (angle + sine * total)
    term = total = 1.0
    for k in range(1, degrees - 2, 2):
        term *= cosine**2 * k / (k + 1)
        total += term
    return sine * total


def _counted(count: int) -> str:
    """Return a number of calibrations in words."""
    return {0: "no calibration", 1: "one calibration"}.get(count, f"{count} calibrations")
