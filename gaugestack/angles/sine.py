"""The sine bar: angle and bar to a height, and back; how sharp it is and where it fails.

    >>> from gaugestack.angles.angle import read_angle
    >>> bar = bar_of_length(Length(5 * 25_400_000_000), Unit.INCH)
    >>> exact_text(height(read_angle("30deg").angle, bar), bar.unit)
    '2.5 in'

Every formula takes the bar's effective centre distance, its error included.
Does not choose blocks and does not decide which angle a set-up needs (taper.py does).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from gaugestack.angles.angle import ARCSECONDS_PER_DEGREE, Angle, dms_text
from gaugestack.errors import UsageError
from gaugestack.lengths import PM_PER_INCH, PM_PER_MM, Length, Unit, exact_text

if TYPE_CHECKING:
    from fractions import Fraction

SHORTEST_BAR = Length(10 * PM_PER_MM)
LONGEST_BAR = Length(2000 * PM_PER_MM)
STEEP = Angle.from_degrees(45)
"""Above this a sine bar is better set to the complement."""
_RIGHT_ANGLE = Angle.from_degrees(90)
_INCH_STEP, _METRIC_STEP = 254, 100
_NOTHING = Length(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SineBar:
    """A sine bar, sine plate or one plate of a compound one.

    `centre_distance` is what is engraved, `error` what a measurement adds to
    it (actual minus nominal), `unit` the unit heights are wanted in.
    `base_height` is the stack that lays the plate level, 0 on a plain bar.

    Raises UsageError unless the centre distance is 10 mm to 2 m.
    """

    name: str
    centre_distance: Length
    unit: Unit
    error: Length = _NOTHING
    roll_diameter: Length | None = None
    kind: Literal["single", "compound"] = "single"
    base_height: Length = _NOTHING
    file: str = ""

    def __post_init__(self) -> None:
        """Refuse what no sine bar measures."""
        fault = centre_distance_fault(self.effective, self.unit)
        if fault:
            raise UsageError.about("bar", fault, hint="the centre distance of the rolls, like 5in or 100mm")

    @property
    def effective(self) -> Length:
        """The centre distance every formula takes."""
        return Length(self.centre_distance + self.error)

    @property
    def step(self) -> int:
        """Heights are whole multiples of this: 0.01 µin (254 pm) on an inch bar, 0.1 nm on a metric one."""
        return _INCH_STEP if self.unit is Unit.INCH else _METRIC_STEP


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """Why an angle is better set another way.

    `growth` is how many times a height error counts compared with 0 degrees,
    `complement` the angle to set from the other face.
    """

    sentence: str
    complement: Angle
    growth: float
    source: str


def centre_distance_fault(length: Length, unit: Unit) -> str:
    """Say what is wrong with a centre distance; empty where it is 10 mm to 2 m."""
    if length < SHORTEST_BAR:
        return f"a centre distance of {exact_text(length, unit)} is below 10 mm"
    if length > LONGEST_BAR:
        return f"a centre distance of {exact_text(length, unit)} is above 2 m"
    return ""


KNOWN_BARS: tuple[SineBar, ...] = (
    SineBar(name="5in", centre_distance=Length(5 * PM_PER_INCH), unit=Unit.INCH),
    SineBar(name="10in", centre_distance=Length(10 * PM_PER_INCH), unit=Unit.INCH),
    SineBar(name="100mm", centre_distance=Length(100 * PM_PER_MM), unit=Unit.MILLIMETRE),
    SineBar(name="200mm", centre_distance=Length(200 * PM_PER_MM), unit=Unit.MILLIMETRE),
)
"""The usual bars (common practice)."""


def bar_of_length(length: Length, unit: Unit) -> SineBar:
    """Return a plain bar of that centre distance, named after it; heights answer in `unit`.

    Raises UsageError below 10 mm and above 2 m.
    """
    name = exact_text(length, unit).replace(" ", "")
    return SineBar(name=name, centre_distance=length, unit=unit)


def height(angle: Angle, bar: SineBar) -> Length:
    """Return h = L sin(angle): how much higher one roll stands than the other.

    `angle` above 0 and below 90 degrees, L the effective centre distance; h in
    picometres, rounded once to `bar.step`, so its text ends in the bar's unit,
    and never above L.
    Raises UsageError outside that range.
    Source: Machinery's Handbook, 31st ed., p. 695; US Army TC 9-524, appendix C.
    """
    _refuse_out_of_range(angle)
    found = min(on_step(bar.effective * math.sin(angle.radians), bar), _highest(bar))
    if found == 0:
        raise UsageError.about("ANGLE", "the bar lies flat on the plate: no blocks", hint=_TOO_SMALL)
    return found


def stack_height(angle: Angle, bar: SineBar) -> Length:
    """Return the blocks to lay: `height` plus the base height of the plate.  Raises as `height` does."""
    return Length(height(angle, bar) + bar.base_height)


def angle_of(height: Length, bar: SineBar) -> Angle:
    """Return asin(h / L), the angle a height sets; `height` from 0 to L, base height left out.

    Taken as atan2(h, sqrt(L^2 - h^2)), which stays sharp near 90 degrees.
    Raises UsageError when `height` is negative or above L.
    Source: the same formula solved for the angle.
    """
    length = bar.effective
    if height < 0:
        raise UsageError.about("height", f"{exact_text(height, bar.unit)} is below zero")
    if height > length:
        sentence = (
            f"{exact_text(height, bar.unit)} is more than the centre distance, {exact_text(length, bar.unit)}"
        )
        raise UsageError.about("height", sentence, hint="no angle has a sine above 1")
    return Angle.from_radians(math.atan2(height, math.sqrt((length - height) * (length + height))))


def sensitivity(angle: Angle, bar: SineBar) -> float:
    """Return dh/d(angle) = L cos(angle) pi / 648000, in picometres of height per arcsecond.

    An error of height divided by it is the error of angle.
    Source: derivative of h = L sin(angle).
    """
    return bar.effective * math.cos(angle.radians) * math.pi / (180 * ARCSECONDS_PER_DEGREE)


def error_growth(angle: Angle) -> float:
    """Return 1 / cos(angle): how much more angle one height error makes than at 0 degrees."""
    return 1 / math.cos(angle.radians)


def complement_of(angle: Angle) -> Angle:
    """Return 90 degrees minus `angle`, exactly."""
    return Angle(arcseconds=_RIGHT_ANGLE - angle)


def steep_caution(angle: Angle) -> Caution | None:
    """Return why an angle above 45 and below 90 degrees is better set from the other face, else None.

    Source: lecture notes on sine bars (not above 45 degrees, seen); setting
    the complement is common practice.
    """
    if not STEEP < angle < _RIGHT_ANGLE:
        return None
    growth, complement = error_growth(angle), complement_of(angle)
    sentence = (
        f"{dms_text(angle)} is above 45\N{DEGREE SIGN}: a height error turns the bar {growth:.2f} times "
        f"as far as at 0\N{DEGREE SIGN}; set {dms_text(complement)} from the other face"
    )
    return Caution(sentence=sentence, complement=complement, growth=growth, source=_STEEP_SOURCE)


def smallest_angle(least_height: Length, bar: SineBar) -> Angle:
    """Return the smallest angle a single stack sets, `least_height` being the lowest stack there is.

    Raises UsageError as `angle_of` does.
    """
    return angle_of(least_height, bar)


def on_step(picometres: float | Fraction, bar: SineBar) -> Length:
    """Return a height rounded half to even to the bar's step."""
    return Length(round(picometres / bar.step) * bar.step)


_STEEP_SOURCE = "lecture notes on sine bars; setting the complement: common practice"
_TOO_SMALL = "the height is below the last decimal that is kept"


def _highest(bar: SineBar) -> Length:
    """Return the highest whole step that is not above the centre distance."""
    return Length(bar.effective // bar.step * bar.step)


def _refuse_out_of_range(angle: Angle) -> None:
    """Refuse what no sine bar sets."""
    if angle.arcseconds == 0:
        raise UsageError.about("ANGLE", "the bar lies flat on the plate: no blocks", hint="zero degrees")
    if angle.arcseconds < 0:
        raise UsageError.about("ANGLE", "below zero: no height sets it", hint="turn the bar round")
    if angle >= _RIGHT_ANGLE:
        hint = "set it from another face of the work"
        raise UsageError.about("ANGLE", "a sine bar stands below 90 degrees", hint=hint)
