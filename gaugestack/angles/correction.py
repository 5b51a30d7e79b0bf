"""From a measured error to a new setting: exactly, and how far the school form goes wrong.

    exact   change = L (sin(set - error) - sin(set))
    school  change = -L rise / span        too much by about 1 / cos(set)

Signs: an error is what is set minus what is right, positive where the set-up
is too steep; a rise is positive where the end over the raised roll is higher.
A lever indicator whose tip stands at an angle to its travel shows too much.
Source of the school form: a teaching page on sine bars (seen); its excess and
the exact form are derived.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, arcsec_text, dms_text
from gaugestack.angles.sine import complement_of, height, on_step, sensitivity
from gaugestack.angles.trig import above_zero, arctangent
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, Unit, exact_text, rounded_text

if TYPE_CHECKING:
    from gaugestack.angles.sine import SineBar
    from gaugestack.angles.taper import Taper

STEEPEST_TIP = Angle.from_degrees(60)
"""A tip angle from here on is refused: the indicator hardly measures any more."""
_LEVEL = Angle(arcseconds=Fraction(0))
_RIGHT_ANGLE = Angle.from_degrees(90)


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """A sine bar's old and new setting, in picometres.

    `change` is new minus old height, `school_change` what the school form
    would change, `over_correction` the school form over the exact one.
    """

    error: Angle
    old_angle: Angle
    new_angle: Angle
    old_height: Length
    new_height: Length
    school_change: Length
    over_correction: float

    @property
    def change(self) -> Length:
        """New height minus old height."""
        return Length(self.new_height - self.old_height)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartError:
    """What an error of the half angle makes on the diameter over the part's length."""

    on_diameter: Length
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Resolution:
    """Whether a change of height is too small for the blocks; both as angles on that bar."""

    below: bool
    change_arcsec: float
    step_arcsec: float
    sentence: str


def true_reading(shown: Length, tip: Angle) -> Length:
    """Return shown cos(tip): the travel behind a lever indicator's reading.

    `tip` is the angle between its arm and the surface's direction of travel,
    0 where it reads right.  Raises UsageError below 0 and from 60 degrees on.
    Source: Machinery's Handbook (values 0.98, 0.94, 0.87 at 10, 20, 30 degrees).
    """
    if not _LEVEL <= tip < STEEPEST_TIP:
        hint = "set the arm nearly level with the surface"
        raise UsageError.about("tip angle", f"{dms_text(tip)} is not from 0 to below 60 degrees", hint=hint)
    return Length(round(shown * math.cos(tip.radians)))


def error_from_rise(rise: Length, *, span: Length, tip: Angle = _LEVEL, unit: Unit) -> Angle:
    """Return how much too steep a bar is set whose part should be level on top: atan(rise cos(tip) / span).

    `span` is the level travel of the indicator.  Raises UsageError as
    `true_reading` does, and for a span not above zero.
    """
    above_zero("span", span, unit)
    return arctangent(true_reading(rise, tip), span)


def error_on_seat(half_error: Fraction, *, included: bool) -> Angle:
    """Return the error of the angle set, from an error of the half angle in arcseconds.

    The whole of it where the half angle is set, twice it where the included angle is.
    """
    return Angle(arcseconds=half_error * (2 if included else 1))


def correct(set_angle: Angle, error: Angle, bar: SineBar) -> Correction:
    """Return the new setting of a bar that is too steep by `error` (negative: too slow).

    Raises UsageError where the corrected angle is not above 0 and below 90
    degrees, and says by how much.
    """
    new_angle = Angle(arcseconds=set_angle.arcseconds - error.arcseconds)
    _refuse_outside(new_angle, error)
    old, new = height(set_angle, bar), height(new_angle, bar)
    school = -bar.effective * math.tan(error.radians)
    exact = bar.effective * _sine_change(set_angle, error)
    return Correction(
        error=error,
        old_angle=set_angle,
        new_angle=new_angle,
        old_height=old,
        new_height=new,
        school_change=on_step(school, bar),
        over_correction=school / exact if exact else 1 / math.cos(set_angle.radians),
    )


def compound_nudge(error: Angle, *, radius: Length, unit: Unit) -> Length:
    """Return how far the slide's side face must move at an indicator fixed `radius` from the pivot.

    radius tan(error); negative: away from the way it was swung.  The pivot is
    seldom where it seems: correct, cut and measure again (common practice).
    Raises UsageError for a radius not above zero.
    """
    above_zero("radius", radius, unit)
    return Length(round(-radius * math.tan(error.radians)))


def part_error(taper: Taper, half_error: Angle, *, length: Length, unit: Unit) -> PartError:
    """Return the diameter error over a part's length: 2 l (tan(half + error) - tan(half)).

    Its text counts thousandths of an inch, or of a millimetre.  Raises
    UsageError for a length not above zero.
    """
    above_zero("length", length, unit)
    wrong = math.radians((taper.half.arcseconds + half_error.arcseconds) / 3600)
    change = math.sin(half_error.radians) / (math.cos(wrong) * math.cos(taper.half.radians))
    found = Length(round(2 * length * change))
    thousandths = rounded_text(1000 * found, unit, 1).split(" ")[0]
    words = "thousandths of an inch" if unit is Unit.INCH else "thousandths of a millimetre"
    return PartError(
        on_diameter=found, text=f"{thousandths} {words} on diameter over {exact_text(length, unit)}"
    )


def below_resolution(change: Length, *, step: Length, angle: Angle, bar: SineBar) -> Resolution:
    """Return whether a change of height is below half the step the blocks come in.

    Both are also given as angles, by the bar's sensitivity at `angle`.
    Raises UsageError for a step not above zero.
    """
    above_zero("step", step, bar.unit)
    per_arcsec = sensitivity(angle, bar)
    below = 2 * abs(change) < step
    change_arcsec, step_arcsec = change / per_arcsec, step / per_arcsec
    verdict = "below what the blocks can make" if below else "within what the blocks can make"
    sentence = (
        f"{exact_text(change, bar.unit)} ({arcsec_text(change_arcsec)}) is {verdict}: "
        f"one step of {exact_text(step, bar.unit)} is {arcsec_text(step_arcsec)}"
    )
    return Resolution(below=below, change_arcsec=change_arcsec, step_arcsec=step_arcsec, sentence=sentence)


def _sine_change(set_angle: Angle, error: Angle) -> float:
    """Return sin(set - error) - sin(set) without cancellation."""
    middle = set_angle.radians - error.radians / 2
    return -2 * math.cos(middle) * math.sin(error.radians / 2)


def _refuse_outside(new_angle: Angle, error: Angle) -> None:
    """Refuse a corrected angle no bar sets."""
    if new_angle.arcseconds <= 0:
        sentence = f"taking {dms_text(error, 1)} off leaves {dms_text(new_angle, 1)}: no height sets it"
        raise UsageError.about("error", sentence, hint="check the sign: positive is too steep")
    if new_angle >= _RIGHT_ANGLE:
        over = Angle(arcseconds=-complement_of(new_angle).arcseconds)
        sentence = f"the corrected angle is {dms_text(over, 1)} above 90 degrees, or at it"
        raise UsageError.about("error", sentence, hint="check the sign: positive is too steep")
