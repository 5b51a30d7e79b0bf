"""What the indicator should show on a set-up, and what angle a reading means.

    >>> from fractions import Fraction
    >>> from gaugestack.angles.taper import taper_of_rate
    >>> cone = taper_of_rate(Fraction(5, 96), call_out="5/8in/ft", reading="")
    >>> carriage_reading(cone, Length(3 * 25_400_000_000)).per_side / 25_400_000_000
    0.078125

Signs: a reading is positive where the far end of the travel is higher (or
larger) than where it began.  `per_side` is what an indicator on one flank
shows, `on_diameter` twice that, the change of diameter.  Rolls, balls and
discs stand in readings_rolls.py, readings_balls.py and readings_discs.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, arcsec_text
from gaugestack.angles.trig import above_zero, arcsine, arctangent, half_sine
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, exact_text

if TYPE_CHECKING:
    from gaugestack.angles.taper import Taper
    from gaugestack.lengths import Unit

ONE_MINUTE = Angle(arcseconds=Fraction(60))


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What an indicator shows over a travel, in picometres; `on_diameter` is twice `per_side`."""

    travel: Length
    per_side: Length
    on_diameter: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class CollarCut:
    """What a two-collar test cut says.

    `half` is the half angle being cut, `error_arcsec` it minus the wanted one
    (positive: the machine cuts too steep).
    """

    rate: Fraction
    half: Angle
    error_arcsec: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Acceptance:
    """Whether a measured half angle is in its one-sided band; `by_arcsec` is how far outside, else 0."""

    accepted: bool
    by_arcsec: Fraction
    sentence: str


def slide_reading(taper: Taper, travel: Length) -> Reading:
    """Return what an indicator square to the axis shows while the swung slide moves `travel` along itself.

    per side = travel sin(half), also what the cross slide must make up.
    Source: derived; a home-shop rule says the same of 1 in of slide (seen).
    """
    return _reading(travel, travel * half_sine(taper))


def carriage_reading(taper: Taper, travel: Length) -> Reading:
    """Return what an indicator on the flank shows while the carriage moves `travel` along the axis.

    per side = travel tan(half) = travel C / 2.  Source: common practice; derived.
    """
    exact = travel * taper.exact_rate / 2
    return Reading(travel=travel, per_side=Length(round(exact)), on_diameter=Length(round(2 * exact)))


def half_of_slide_reading(per_side: Length, *, travel: Length, unit: Unit) -> Angle:
    """Return asin(reading / travel), the half angle the slide is swung to.

    Raises UsageError where the reading is longer than the travel, and says by how much.
    """
    return arcsine(per_side, travel, argument="reading", unit=unit)


def half_of_carriage_reading(per_side: Length, *, travel: Length, unit: Unit) -> Angle:
    """Return atan(reading / travel), the half angle of the flank.  Raises UsageError for no travel."""
    above_zero("travel", travel, unit)
    return arctangent(per_side, travel)


def top_reading(error: Angle, span: Length) -> Length:
    """Return span tan(error): the rise along the top of a part whose bar is set wrong by `error`.

    Zero where it is right.  Positive: the end over the raised roll is higher,
    the bar is set too steep.  Source: derived (0.000291 in per inch and minute).
    """
    return Length(round(span * math.tan(error.radians)))


def error_of_top_reading(rise: Length, *, span: Length, unit: Unit) -> Angle:
    """Return atan(rise / span), how much too steep the bar is set.  Raises UsageError for no span."""
    above_zero("span", span, unit)
    return arctangent(rise, span)


def reading_per_minute(span: Length) -> Length:
    """Return what one minute of error shows over that span."""
    return top_reading(ONE_MINUTE, span)


def collar_spacing(taper: Taper, difference: Length, *, unit: Unit) -> Length:
    """Return how far apart two collars are turned so that their diameters differ by a round amount.

    difference / C.  Raises UsageError unless the difference is above zero.
    Source: a home workshop page on setting tapers (seen); derived.
    """
    above_zero("difference", difference, unit)
    return Length(round(difference / taper.exact_rate))


def collar_cut(taper: Taper, *, large: Length, small: Length, spacing: Length, unit: Unit) -> CollarCut:
    """Return what two collars measured without taking the work out say about the angle being cut.

    `spacing` is between like edges of the collars; large minus small over it
    is the rate.  Raises UsageError where the collars do not fall, or fall by
    more than a cone can.
    """
    above_zero("spacing", spacing, unit)
    if large <= small:
        sentence = f"the large collar is {exact_text(small - large, unit)} below the small one"
        raise UsageError.about("large", sentence if large < small else "both collars are the same: no taper")
    rate = Fraction(large - small, spacing)
    half = arctangent(rate, 2)
    return CollarCut(rate=rate, half=half, error_arcsec=half - taper.half)


def acceptance(
    taper: Taper, measured_half: Angle, *, band_arcsec: Fraction, outside: bool = True
) -> Acceptance:
    """Return whether a half angle is accepted, one-sidedly.

    An outside taper may err steep by the band and bears at its large end; an
    inside one may err slow by it, and bears there too.  Raises UsageError for
    a band below zero.
    Source: a home workshop page on setting tapers (steeper, seen); Machinery's
    Handbook, Morse tolerances (shanks only above the rate, sockets only below, seen).
    """
    if band_arcsec < 0:
        raise UsageError.about("band", f"{arcsec_text(band_arcsec)} is below zero")
    error = measured_half - taper.half
    good = error if outside else -error
    by = max(-good, good - band_arcsec, Fraction(0))
    if by == 0:
        return Acceptance(accepted=True, by_arcsec=by, sentence="inside the band, tight at the large end")
    wrong_way = good < 0
    where = "small" if wrong_way else "large"
    sentence = f"{arcsec_text(by)} outside the band: too {_way(error)}, bears at the {where} end only"
    return Acceptance(accepted=False, by_arcsec=by, sentence=sentence)


def _way(error: Fraction) -> str:
    """Return which way a half angle errs."""
    return "steep" if error > 0 else "slow"


def _reading(travel: Length, per_side: float) -> Reading:
    """Return a reading rounded once, each of its two numbers by itself."""
    return Reading(travel=travel, per_side=Length(round(per_side)), on_diameter=Length(round(2 * per_side)))
