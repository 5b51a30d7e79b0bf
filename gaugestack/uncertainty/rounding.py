"""How an uncertainty is printed: two digits that count, a U never rounded down.

    two_digits(31.66), two_digits_up(92.48)      # '32', '93'
    length_text(93.4, Unit.INCH)                 # '3.7 µin'

Source: JCGM 100:2008, 7.2.6 (at most two digits; rounding up may be right), from memory.
Reads nothing, and never rounds what is still calculated with.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.lengths import Unit, small_text

if TYPE_CHECKING:
    from collections.abc import Callable

_SLACK = 1e-9


def two_digits(value: float) -> str:
    """Print a value to two digits that count, half to even."""
    return _printed(value, round)


def two_digits_up(value: float) -> str:
    """Print an expanded uncertainty to two digits that count, rounded up."""
    return _printed(value, lambda scaled: math.ceil(scaled * (1 - Fraction(_SLACK))))


def length_text(nanometres: float, unit: Unit) -> str:
    """Print an uncertainty of length in µm or µin, two digits that count, rounded up."""
    small = nanometres * 1000 / unit.small_picometres
    rounded = Fraction(two_digits_up(small))
    return small_text(rounded * unit.small_picometres, unit, _places(float(rounded))).lstrip("+")


def limit_text(nanometres: float, unit: Unit) -> str:
    """Print a given limit of length in µm or µin, as it was given: four digits at most."""
    return f"{nanometres * 1000 / unit.small_picometres:.4g} {unit.small}"


def _places(value: float) -> int:
    """Return how many decimals two digits that count need; none from 10 on."""
    return max(0, 1 - _exponent(value))


def _exponent(value: float) -> int:
    """Return the power of ten of the first digit that counts."""
    return math.floor(math.log10(value) + _SLACK) if value > 0 else 1


def _printed(value: float, to_whole: Callable[[Fraction], int]) -> str:
    """Print a value at or above zero with the decimals that two digits need."""
    step = _exponent(value) - 1
    whole = to_whole(Fraction(value) / Fraction(10) ** step)
    if whole == 100:
        whole, step = 10, step + 1
    exact = whole * Fraction(10) ** step
    return f"{float(exact):.{max(0, -step)}f}"
