"""Student's t: how many standard uncertainties hold a wanted share of all cases.

    coverage_factor(0.99, 16)        # 2.9207816...
    coverage_factor(0.95, math.inf)  # 1.9599639...

Whole degrees of freedom only: effective ones are cut before they come here.
Up to 1000 degrees the share within t is a finite sum, above it t is a series
about the normal value; both agree with scipy to 1e-11 of the value.
Source: Handbook of Mathematical Functions (AMS 55), 26.7.3, 26.7.4 and 26.7.5
(from memory; checked against scipy in the tests).
"""

from __future__ import annotations

import math

from gaugestack.errors import UsageError

_SUM_UP_TO = 1000
_HIGHEST = 0.9999


def coverage_factor(probability: float, degrees: float) -> float:
    """Return k so that the share `probability` of all cases lies within plus and minus k.

    `probability` is above 0 and at most 0.9999, `degrees` a whole number from 1, or infinite.
    Raises UsageError outside these.
    """
    if not 0 < probability <= _HIGHEST:
        sentence = f"a coverage probability of {probability:g}: it lies above 0 and at most {_HIGHEST}"
        raise UsageError.about("probability", sentence, hint="0.95 says: right 95 times in 100")
    if not degrees >= 1 or (math.isfinite(degrees) and degrees % 1):
        sentence = f"{degrees:g} degrees of freedom: a whole number from 1 is wanted"
        raise UsageError.about("degrees of freedom", sentence, hint="readings minus one; cut, not rounded")
    if math.isinf(degrees):
        return _normal(probability)
    if degrees > _SUM_UP_TO:
        return _series(_normal(probability), degrees)
    return _from_sum(probability, int(degrees))


def share_within(t: float, degrees: int) -> float:
    """Return the share of all cases within plus and minus t; `degrees` whole, from 1.

    Source: Handbook of Mathematical Functions, 26.7.3 (odd) and 26.7.4 (even), from memory.
    """
    return _share(math.atan(t / math.sqrt(degrees)), degrees)


def _share(angle: float, degrees: int) -> float:
    """Return the share within t = sqrt(degrees) tan(angle) as a finite sum of powers of the cosine."""
    cosine, sine = math.cos(angle), math.sin(angle)
    odd = degrees % 2
    term = cosine if odd else 1.0
    total = term if degrees > 1 else 0.0
    for power in range(2 + odd, degrees, 2):
        term *= cosine * cosine * (power - 1) / power
        total += term
    return 2 / math.pi * (angle + sine * total) if odd else sine * total


def _from_sum(probability: float, degrees: int) -> float:
    """Return t by halving the range of its angle until nothing is left between."""
    low, high = 0.0, math.pi / 2
    while low < (middle := (low + high) / 2) < high:
        if _share(middle, degrees) < probability:
            low = middle
        else:
            high = middle
    return math.sqrt(degrees) * math.tan((low + high) / 2)


def _normal(probability: float) -> float:
    """Return the value of the normal distribution, by Newton's rule on the error function."""
    z = 1.0
    for _ in range(60):
        step = (math.erf(z / math.sqrt(2)) - probability) / (math.sqrt(2 / math.pi) * math.exp(-z * z / 2))
        z -= max(-0.5, min(0.5, step))
    return z


def _series(z: float, degrees: float) -> float:
    """Return t of many degrees of freedom as a series about the normal value (26.7.5)."""
    terms = (
        z,
        (z**3 + z) / 4,
        (5 * z**5 + 16 * z**3 + 3 * z) / 96,
        (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384,
        (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92160,
    )
    return sum(term / degrees**power for power, term in enumerate(terms))
