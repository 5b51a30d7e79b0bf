"""What height to lay so that it is right although part, bar and blocks are not at 20 °C.

    corrected_height(height, against=part, blocks=Warm(expansion=steel, celsius=24.0))

Set the body the height is for first: the part for a plain height (its size is
wanted at 20 °C), the bar for a sine height (its centre distance is stated at
20 °C).  The answer is the sum of block sizes, as they are engraved or certified
at 20 °C, that stands as the wanted height would if all were at 20 °C.
Does not choose blocks; does not say how sure it is: stack.py and angle.py do.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.errors import UsageError
from gaugestack.lengths import Length
from gaugestack.uncertainty.temperature import COLDEST, HOTTEST, REFERENCE

if TYPE_CHECKING:
    from gaugestack.uncertainty.materials import Expansion


@dataclass(frozen=True, slots=True, kw_only=True)
class Warm:
    """A body, its expansion and its temperature in °C.  Raises UsageError outside -10 °C to 60 °C."""

    expansion: Expansion
    celsius: float | Fraction = 20

    def __post_init__(self) -> None:
        """Refuse what no bench has, NaN with it."""
        if not COLDEST <= self.celsius <= HOTTEST:
            sentence = f"{float(self.celsius):g} °C is no temperature of a bench"
            raise UsageError.about("temperature", sentence, hint="-10 °C to 60 °C; 68 °F is 20 °C")

    @property
    def stretch(self) -> Fraction:
        """How many times its length at 20 °C the body has; decimals are taken as they print."""
        above = Fraction(str(self.celsius)) - REFERENCE
        return 1 + Fraction(str(self.expansion.per_kelvin)) * above


def corrected_height(wanted: Length, *, against: Warm, blocks: Warm) -> Length:
    """Return the height to lay, wanted (1 + a t) / (1 + a_blocks t_blocks), rounded to a picometre.

    `against` is the part, or the bar for a sine height; t counts from 20 °C.
    Source: length = length at 20 °C (1 + coefficient x kelvin above), both sides set equal.
    """
    return Length(round(wanted * against.stretch / blocks.stretch))


def correction(wanted: Length, *, against: Warm, blocks: Warm) -> Length:
    """Return how much to add to the wanted height, picometres; below zero where blocks are the warmer."""
    return Length(corrected_height(wanted, against=against, blocks=blocks) - wanted)
