"""Tapers: one cone, its half and included angle, and which of them a set-up needs.

    C = (D - d) / l = 2 tan(half angle)       on diameter, over axial length

    >>> taper = taper_of_rate(Fraction(1, 4), call_out="3in/ft", reading="3 in per foot on diameter")
    >>> taper.one_in_text, round(taper.half.degrees, 6)
    ('1:4', 7.125016)

A cone only: a flat wedge has slope tan(angle) and no half angle.  Texts are
read in callout.py.
Source of C: ISO 3040; Machinery's Handbook, tapers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle
from gaugestack.angles.sine import height, on_step
from gaugestack.lengths import Length

if TYPE_CHECKING:
    from gaugestack.angles.sine import SineBar


class Use(StrEnum):
    """What a taper is set up for; it decides which angle is set.

    COMPOUND: the compound slide is swung, or the work stands between centres
    or with its axis along the bar; the half angle.
    INSPECTION: a plug lies on the bar on its flank; the included angle.
    """

    COMPOUND = "compound"
    INSPECTION = "inspection"


@dataclass(frozen=True, slots=True, kw_only=True)
class Taper:
    """A conical taper as it was called out.

    `call_out` is the text as written, `reading` what it was taken to mean,
    `rate` the exact C where a rate was given (None where an angle was),
    `question` what to ask before trusting it (mostly empty).
    """

    call_out: str
    reading: str
    half: Angle
    rate: Fraction | None = None
    question: str = ""

    @property
    def included(self) -> Angle:
        """The whole angle of the cone, twice the half angle."""
        return Angle(arcseconds=2 * self.half.arcseconds)

    @property
    def rate_value(self) -> float:
        """C = 2 tan(half angle), on diameter; of a rate given, that rate."""
        return float(self.exact_rate)

    @property
    def exact_rate(self) -> Fraction:
        """C exactly where it was given, else the nearest float as a fraction."""
        return Fraction(2 * math.tan(self.half.radians)) if self.rate is None else self.rate

    @property
    def per_foot_text(self) -> str:
        """Inches per foot on diameter, 12 C, to six decimals."""
        return f"{_plain(12 * self.exact_rate, 6)} in/ft"

    @property
    def one_in_text(self) -> str:
        """The ratio 1:x on diameter, 1 / C to three decimals."""
        return f"1:{_plain(1 / self.exact_rate, 3)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortCut:
    """What taper per unit length taken straight as the sine would set.

    `height_error` and `angle_error_arcsec` are short cut minus right value.
    """

    height: Length
    height_error: Length
    angle: Angle
    angle_error_arcsec: Fraction


def taper_of_rate(rate: Fraction, *, call_out: str, reading: str, question: str = "") -> Taper:
    """Return the cone of C = `rate` on diameter, above zero: half angle = atan(C / 2).

    Never half of atan(C), and no sine.  Source: ISO 3040; Machinery's
    Handbook, tapers per foot and corresponding angles.
    """
    return Taper(call_out=call_out, reading=reading, half=half_of_rate(rate), rate=rate, question=question)


def half_of_rate(rate: Fraction) -> Angle:
    """Return the half angle of a rate on diameter, atan(C / 2)."""
    return Angle.from_radians(math.atan(rate / 2))


def angle_for(taper: Taper, use: Use) -> Angle:
    """Return the angle a set-up needs: half for the compound, included for a plug on its flank."""
    return taper.half if use is Use.COMPOUND else taper.included


def short_cut(taper: Taper, bar: SineBar, use: Use) -> ShortCut | None:
    """Return what the common short cut costs, or None where its sine would reach 1.

    The short cut takes taper per unit length straight as the sine: h = L C / 2
    for the compound, h = L C for inspection, instead of L sin(atan(C / 2)) and
    L sin(2 atan(C / 2)).
    Source: workshop habit (common practice); Machinery's Handbook, 31st ed.,
    p. 695 works the right way.
    """
    sine = taper.exact_rate / 2 if use is Use.COMPOUND else taper.exact_rate
    if sine >= 1:
        return None
    right = angle_for(taper, use)
    wrong_height = on_step(bar.effective * sine, bar)
    wrong = Angle.from_radians(math.asin(sine))
    return ShortCut(
        height=wrong_height,
        height_error=Length(wrong_height - height(right, bar)),
        angle=wrong,
        angle_error_arcsec=wrong - right,
    )


def _plain(value: Fraction, places: int) -> str:
    """Print a positive number rounded to `places` decimals, without closing zeros."""
    scaled = round(value * 10**places)
    whole, decimals = divmod(scaled, 10**places)
    return f"{whole}.{decimals:0{places}d}".rstrip("0").removesuffix(".")
