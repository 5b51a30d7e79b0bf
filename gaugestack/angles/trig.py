"""The few functions of angles and lengths that set-ups and readings share.

    >>> round(arctangent(1, 1).degrees, 9)
    45.0

Floats only inside; lengths come and go in whole picometres, angles exact to
1e-15 arcsecond.  Impossible geometry is refused with the amount.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle
from gaugestack.errors import UsageError
from gaugestack.lengths import Unit, exact_text

if TYPE_CHECKING:
    from fractions import Fraction

    from gaugestack.angles.taper import Taper
    from gaugestack.lengths import Length


def half_tangent(taper: Taper) -> float:
    """Return tan(half angle), C / 2 of a rate given."""
    return float(taper.exact_rate / 2)


def half_sine(taper: Taper) -> float:
    """Return sin(half angle), from the exact rate where one was given."""
    tangent = half_tangent(taper)
    return tangent / math.hypot(1, tangent)


def arctangent(over: Fraction | float, under: Fraction | float) -> Angle:
    """Return atan2(over, under) as an angle, sharp at any size."""
    return Angle.from_radians(math.atan2(over, under))


def arcsine(opposite: Length, hypotenuse: Length, *, argument: str, unit: Unit) -> Angle:
    """Return asin(opposite / hypotenuse), either sign, as atan2 so that it stays sharp near 90 degrees.

    Raises UsageError of `argument` where the opposite side is the longer, and says by how much.
    """
    if hypotenuse <= 0:
        raise UsageError.about(
            argument, f"over {exact_text(hypotenuse, unit)}: the length must be above zero"
        )
    over = abs(opposite) - hypotenuse
    if over > 0:
        sentence = (
            f"{exact_text(opposite, unit)} over {exact_text(hypotenuse, unit)} is impossible: "
            f"{exact_text(over, unit)} too much"
        )
        raise UsageError.about(argument, sentence, hint="no angle has a sine above 1")
    run = math.sqrt((hypotenuse - opposite) * (hypotenuse + opposite))
    return arctangent(opposite, run)


def above_zero(argument: str, length: int, unit: Unit) -> None:
    """Refuse a length that is zero or below.  Raises UsageError of `argument`."""
    if length <= 0:
        raise UsageError.about(argument, f"{exact_text(length, unit)} is not above zero")


def amount(length: float, unit: Unit) -> str:
    """Return a computed length for a sentence: to 0.01 µin or 0.1 nm, so that it ends in its own unit."""
    step = 254 if unit is Unit.INCH else 100
    return exact_text(round(length / step) * step, unit)
