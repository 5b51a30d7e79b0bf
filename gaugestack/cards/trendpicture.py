"""The wear of one block over its calibrations, drawn with its limits.

    >>> svg = history_svg(answer)          # of the command `history`
    >>> svg = trend_svg(wear)              # from its parts

Dots are calibrations with their uncertainty, the full line is the trend, drawn
on beyond the last of them, and the dashed ones are its 95 % band; limits are
heavy lines that carry their names, so nothing depends on colour.  The terminal
has trendrows.py.  Judges nothing: trend.py does.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.cards.ledgerscreen import outlook_said
from gaugestack.cards.svg import BODY, NOTE, filled, fitted, number
from gaugestack.cards.svgpaper import HEADED, LEADING, MARGIN, Paper
from gaugestack.lengths import small_text
from gaugestack.trend import DAYS_A_YEAR, Trend

if TYPE_CHECKING:
    from gaugestack.answers.history import History
    from gaugestack.lengths import Length, Unit
    from gaugestack.trend import Calibration, NoTrend

WIDTH = 190.0
_LEFT, _RIGHT, _FOOT, _ROOM = 22.0, 70.0, 16.0, 80.0
_AHEAD, _FURTHEST = 0.5, 20.0
"""How far the line is drawn beyond the last calibration: half its own length, 20 years at most."""
_MOST_YEARS, _MOST_TICKS = 9, 8
_STEPS = (1, 2, 5)


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitLine:
    """A pair of limits of the deviation, and whose they are."""

    name: str
    lower: Length
    upper: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Wear:
    """What is drawn: a block, its calibrations, their trend, its limits, and what is said below."""

    name: str
    unit: Unit
    calibrations: tuple[Calibration, ...]
    trend: Trend | NoTrend
    limits: tuple[LimitLine, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """Where a day and a deviation are drawn: years across, the small unit upward."""

    years: tuple[int, int]
    values: tuple[float, float]
    width: float
    foot: float

    def at(self, on: float, value: float) -> complex:
        """Return the point of a day (as a decimal year) and a deviation."""
        (first, last), (low, high) = self.years, self.values
        x = (on - first) / (last - first) * self.width
        return complex(_LEFT + x, self.foot + (value - low) / (high - low) * _ROOM)


def history_svg(answer: History) -> str:
    """Return the drawing of a block's wear as `history` tells it."""
    return trend_svg(wear_of(answer))


def wear_of(answer: History) -> Wear:
    """Return what is drawn of an answer of `history`."""
    unit, trend, block = answer.block_set.unit, answer.trend, answer.piece.block
    serial = f" #{block.serial}" if block.serial else ""
    said = trend.sentence(unit) if isinstance(trend, Trend) else f"no trend yet: {trend.why}"
    return Wear(
        name=f"{block.engraved}{serial} of {answer.block_set.name}",
        unit=unit,
        calibrations=answer.calibrations,
        trend=trend,
        limits=tuple(LimitLine(name=o.limit, lower=o.lower, upper=o.upper) for o in answer.outlooks),
        notes=(said, *(f"{outlook.limit}: {outlook_said(outlook)}" for outlook in answer.outlooks)),
    )


def trend_svg(wear: Wear) -> str:
    """Return the drawing of a block's wear as a whole SVG file; without calibrations it says so."""
    notes = [line for note in wear.notes for line in filled(note, WIDTH - 2 * MARGIN, NOTE)]
    unit = f"deviation in {wear.unit.small}"
    height = HEADED + (len(notes) + 1) * LEADING + 4 + _ROOM + _FOOT
    paper = Paper(WIDTH, height, title=f"Wear of {wear.name}", description=_described(wear))
    paper.heading(paper.title)
    paper.notes([*notes, unit], height - HEADED)
    if not wear.calibrations:
        paper.label(complex(_LEFT, height / 2 - 5), "no calibration is known")
        return paper.text()
    frame = _frame(wear)
    _axes(paper, frame)
    _limits(paper, frame, wear)
    if isinstance(wear.trend, Trend):
        _line(paper, frame, wear.trend, wear.unit)
    for point in wear.calibrations:
        _dot(paper, frame, point, wear.unit)
    return paper.text()


def _frame(wear: Wear) -> _Frame:
    """Return whole years and values that hold every point, its uncertainty, and each limit."""
    days = [_year(point.on) for point in wear.calibrations]
    ahead = min(_AHEAD * (max(days) - min(days)), _FURTHEST) if isinstance(wear.trend, Trend) else 0.0
    ends = [
        point.deviation + sign * (point.uncertainty or 0) for point in wear.calibrations for sign in (-1, 1)
    ]
    ends += [end for limit in wear.limits for end in (limit.lower, limit.upper)]
    values = [0.0, *(end / wear.unit.small_picometres for end in ends)]
    edge = 0.06 * (max(values) - min(values)) or 1.0
    return _Frame(
        years=(math.floor(min(days)), math.floor(max(days) + ahead) + 1),
        values=(min(values) - edge, max(values) + edge),
        width=WIDTH - _LEFT - _RIGHT,
        foot=_FOOT,
    )


def _axes(paper: Paper, frame: _Frame) -> None:
    """Draw the frame, its years and its values."""
    (first, last), (low, high) = frame.years, frame.values
    paper.box(complex(_LEFT, frame.foot), complex(frame.width, _ROOM), "thin")
    every = next(
        step * 10**power
        for power in range(4)
        for step in _STEPS
        if (last - first) / (step * 10**power) <= _MOST_YEARS
    )
    for year in range(first, last + 1, every):
        foot = frame.at(year, low)
        paper.line(foot, foot - 1.5j, "thin")
        paper.label(foot - 5j, str(year), size=NOTE, anchor="middle")
    for value in _round_values(low, high):
        place = frame.at(first, value)
        paper.line(place, place - 1.5, "thin")
        paper.label(place - 2.5 - 1j, number(value, 4), size=NOTE, anchor="end")
    if low < 0 < high:
        paper.line(frame.at(first, 0), frame.at(last, 0), "thin")


def _round_values(low: float, high: float) -> list[float]:
    """Return round values between two, at most eight."""
    power = 10.0 ** math.floor(math.log10((high - low) / _MOST_TICKS))
    every = next(
        step * power * ten for ten in (1, 10) for step in _STEPS if (high - low) / (step * power * ten) <= 8
    )
    return [step * every for step in range(math.ceil(low / every), math.floor(high / every) + 1)]


def _limits(paper: Paper, frame: _Frame, wear: Wear) -> None:
    """Draw each limit as a heavy line with its name and value on the right."""
    labels = []
    end = _LEFT + frame.width
    for limit in wear.limits:
        for value in (limit.lower, limit.upper):
            place = frame.at(frame.years[0], value / wear.unit.small_picometres)
            paper.line(place, complex(end, place.imag), "heavy")
            said = fitted(f"{small_text(value, wear.unit)} {limit.name}", _RIGHT - 5 - MARGIN, BODY)
            labels.append((complex(end, place.imag), said))
    labels.sort(key=lambda label: label[0].imag)
    paper.column(labels, end + 5, (frame.foot, frame.foot + _ROOM))


def _line(paper: Paper, frame: _Frame, trend: Trend, unit: Unit) -> None:
    """Draw the trend to the edge of the frame, and its 95 % band beside it."""
    start, end = _year(trend.first), float(frame.years[1])
    steps = [start + (end - start) * step / 40 for step in range(41)]
    for side, style in ((0, "edge"), (-1, "dashed"), (1, "dashed")):
        points = [(year, _value(trend, year - start, side) / unit.small_picometres) for year in steps]
        inside = [frame.at(*point) for point in points if frame.values[0] <= point[1] <= frame.values[1]]
        if len(inside) > 1:
            paper.path(tuple(inside), "edge" if not side else style, closed=False)


def _value(trend: Trend, years: float, side: int) -> float:
    """Return the line (`side` 0) or an edge of its 95 % band (-1, 1), in picometres.

    The uncertainty of the line is that of its mean and of its slope, added as
    the root of the sum of their squares.
    """
    away = years - trend.middle / DAYS_A_YEAR
    doubt = math.hypot(trend.mean_uncertainty, trend.slope_uncertainty * away)
    return trend.mean + trend.slope * away + side * trend.factor * doubt


def _dot(paper: Paper, frame: _Frame, point: Calibration, unit: Unit) -> None:
    """Draw a calibration, with a bar for its uncertainty where one is known."""
    on, one = _year(point.on), unit.small_picometres
    if point.uncertainty:
        ends = [frame.at(on, (point.deviation + sign * point.uncertainty) / one) for sign in (-1, 1)]
        paper.line(ends[0], ends[1], "edge")
        for end in ends:
            paper.line(end - 0.9, end + 0.9, "edge")
    paper.circle(frame.at(on, point.deviation / one), 1.0, "dot")


def _described(wear: Wear) -> str:
    """Return in words what the drawing shows."""
    points = [f"{point.on}: {small_text(point.deviation, wear.unit)}" for point in wear.calibrations]
    limits = [
        f"{limit.name}: {small_text(limit.lower, wear.unit)} to {small_text(limit.upper, wear.unit)}"
        for limit in wear.limits
    ]
    return "; ".join((*points, *limits, *wear.notes)) + "."


def _year(on: dt.date) -> float:
    """Return a day as a decimal year."""
    first = dt.date(on.year, 1, 1)
    return on.year + (on - first).days / (dt.date(on.year + 1, 1, 1) - first).days
