"""The calibrations of one block in the terminal: a row each, its mark between two limits.

    >>> for line in trend_rows(answer.calibrations, (lower, upper), Unit.INCH): print(line)

A mark outside stands beyond its wall.  76 columns at most.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.lengths import small_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from gaugestack.lengths import Length, Unit
    from gaugestack.trend import Calibration

WALL, MARK = "|", "o"
_INSIDE = 41
"""Columns between the walls; an odd number has a middle."""
_LEAD = 25


def trend_rows(calibrations: Iterable[Calibration], ends: tuple[Length, Length], unit: Unit) -> Iterator[str]:
    """Return the limits, then a row for each calibration, the oldest first."""
    low, high = (small_text(end, unit) for end in ends)
    yield f"{' ' * (_LEAD + 2)}{low:<{_INSIDE // 2}}{high:>{_INSIDE - _INSIDE // 2}}"
    for point in sorted(calibrations, key=lambda one: one.on):
        cells = [" ", " ", WALL, *" " * _INSIDE, WALL, " ", " "]
        cells[_column(point.deviation, ends)] = MARK
        lead = f"  {point.on}  {small_text(point.deviation, unit):>9}"
        yield f"{lead:<{_LEAD - 1}}{''.join(cells)}".rstrip()


def _column(deviation: Length, ends: tuple[Length, Length]) -> int:
    """Return the cell of a deviation: between the walls, or beyond the one it is outside of."""
    lower, upper = ends
    if deviation < lower:
        return 0
    if deviation > upper:
        return _INSIDE + 5
    return 3 + (round((_INSIDE - 1) * (deviation - lower) / (upper - lower)) if upper > lower else 0)
