"""How a doubt is spread between its limits, and what its limit is divided by.

    read_distribution("rectangular") is Distribution.RECTANGULAR
    divisor_of(Distribution.RECTANGULAR)      # 1.7320508...

A standard uncertainty is a limit (or an expanded uncertainty) over a divisor.
Knows nothing of budgets.
Source of the divisors: JCGM 100:2008, 4.3 and 4.4 (from memory; the figures of
the worked examples in annex H.1 and of EA-4/02 agree).
"""

from __future__ import annotations

import math
from enum import StrEnum

from gaugestack.errors import UsageError, nearest


class Distribution(StrEnum):
    """What the value of a component is.

    NORMAL       an expanded uncertainty U, its divisor the k it was given with (1 for a standard one)
    RECTANGULAR  plus and minus a limit, nothing more being known
    TRIANGULAR   plus and minus a limit, the middle being likelier (a difference of two rectangular ones)
    ARCSINE      plus and minus the amplitude of something that swings, such as a heated room
    PRODUCT      the standard uncertainties of two doubts multiplied (a second-order term)
    """

    NORMAL = "normal"
    RECTANGULAR = "rectangular"
    TRIANGULAR = "triangular"
    ARCSINE = "arcsine"
    PRODUCT = "product"


_DIVISORS = {
    Distribution.NORMAL: 1.0,
    Distribution.RECTANGULAR: math.sqrt(3),
    Distribution.TRIANGULAR: math.sqrt(6),
    Distribution.ARCSINE: math.sqrt(2),
    Distribution.PRODUCT: 1.0,
}


def read_distribution(text: str) -> Distribution:
    """Return the distribution a word names.  Raises UsageError with the nearest known word."""
    for known in Distribution:
        if text.strip().casefold() == known.value:
            return known
    sentence = f"{text!r} is no distribution that is known here"
    raise UsageError.about(
        "distribution", sentence, hint=nearest(text, [known.value for known in Distribution])
    )


def divisor_of(distribution: Distribution) -> float:
    """Return what a limit of this distribution is divided by: sqrt 3, sqrt 6, sqrt 2, or 1."""
    return _DIVISORS[distribution]
