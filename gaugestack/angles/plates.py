"""Sine bars, sine plates and compound sine plates under a part, and a stack read backwards.

    >>> from gaugestack.angles.sine import KNOWN_BARS
    >>> a, b = Angle.from_degrees(20), Angle.from_degrees(15)
    >>> plate = compound_plate(a, b, bottom=KNOWN_BARS[0], top=KNOWN_BARS[0], views=Views.OF_THE_PLATE)
    >>> round(plate.top_angle.degrees, 6), round(plate.tilt.degrees, 4)
    (14.132723, 24.3212)

Which angle a seat needs is decided here, in one table.  Does not choose blocks.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, dms_text
from gaugestack.angles.sine import angle_of, complement_of, height, stack_height, steep_caution
from gaugestack.angles.taper import Taper
from gaugestack.angles.trig import arctangent
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, exact_text

if TYPE_CHECKING:
    from gaugestack.angles.flat import Flat
    from gaugestack.angles.sine import Caution, SineBar


class Seat(StrEnum):
    """How the part and the bar lie; it decides the angle and whether one stack sets it."""

    FLANK_ON_BAR = "the part lies on the bar on its flank"
    AXIS_ON_BAR = "the part's axis is parallel to the bar, between centres or in a vee"
    BAR_ON_FLANK = "the bar lies on the top flank, the part on the plate on its other flank"
    BAR_ABOVE_AXIS = "the bar lies on the top flank, the part's axis level"


@dataclass(frozen=True, slots=True, kw_only=True)
class BarSetting:
    """A bar set for a part, in picometres.

    `rise` is how much higher one roll stands than the other.  `stack` is the
    blocks under one roll, base height included, and None where the bar lies on
    the part: then `rise` is the difference of two stacks that reach its rolls.
    """

    angle: Angle
    rise: Length
    stack: Length | None
    caution: Caution | None
    sentence: str


class Views(StrEnum):
    """What two view angles describe, which decides the plate that takes the corrected one."""

    OF_THE_PLATE = "the slopes of the plate's surface in two fixed upright planes"
    OF_THE_PART = "the slopes of the part's face in its own two views, to be brought level"


@dataclass(frozen=True, slots=True, kw_only=True)
class CompoundPlate:
    """Both plates of a compound sine plate, heights in picometres.

    `tilt` is the true tilt, acos(cos bottom cos top); `direction` is where it
    falls, from the first view's plane towards the second's.  `left_over` is
    the tilt that stays where the second angle is set uncorrected: second minus
    corrected, because both turns are about one hinge.
    """

    views: Views
    bottom_angle: Angle
    top_angle: Angle
    bottom_stack: Length
    top_stack: Length
    tilt: Angle
    direction: Angle
    left_over: Angle


@dataclass(frozen=True, slots=True, kw_only=True)
class FromStack:
    """What a stack on a bar sets: the angle, and the cone it stands for on that seat."""

    angle: Angle
    seat: Seat
    taper: Taper


_INCLUDED_SEATS = frozenset({Seat.FLANK_ON_BAR, Seat.BAR_ON_FLANK})
_ON_PART = frozenset({Seat.BAR_ON_FLANK, Seat.BAR_ABOVE_AXIS})


def seat_angle(taper: Taper, seat: Seat) -> Angle:
    """Return the angle a seat shows: included where a flank is the datum, half where the axis is.

    Source: workshop handbook page on measuring tapers (included, seen);
    work between centres is common practice.
    """
    return taper.included if seat in _INCLUDED_SEATS else taper.half


def bar_setting(taper: Taper, bar: SineBar, seat: Seat) -> BarSetting:
    """Return the bar's setting for a cone on that seat.  Raises UsageError as `height` does."""
    kind = "included" if seat in _INCLUDED_SEATS else "half"
    return _setting(seat_angle(taper, seat), bar, on_part=seat in _ON_PART, name=f"the {kind} angle")


def flat_setting(flat: Flat, bar: SineBar) -> BarSetting:
    """Return the bar's setting for a wedge on one of its faces.  Raises UsageError as `height` does."""
    return _setting(flat.angle, bar, on_part=False, name="the whole angle of the wedge")


def plate_setting(angle: Angle, plate: SineBar) -> BarSetting:
    """Return a sine plate's setting: the angle of the face against the datum face, base height included.

    Raises UsageError as `height` does.
    """
    return _setting(angle, plate, on_part=False, name="the angle of the face")


def compound_plate(
    first: Angle, second: Angle, *, bottom: SineBar, top: SineBar, views: Views
) -> CompoundPlate:
    """Return both plates for slopes `first` and `second` seen in two views square to each other.

    OF_THE_PLATE: bottom = first, tan(top) = tan(second) cos(first).
    OF_THE_PART: top = first, tan(bottom) = tan(second) cos(first).  Both view
    angles above 0 and below 90 degrees.

    Raises UsageError outside that range, and as `height` does.
    Source: Machinery's Handbook, compound angles (from memory), confirmed with
    vectors; the order for a part's face was seen on a page about compound plates.
    """
    for name, angle in (("first view", first), ("second view", second)):
        _refuse_view(name, angle)
    corrected = arctangent(math.tan(second.radians) * math.cos(first.radians), 1)
    of_plate = views is Views.OF_THE_PLATE
    low, high = (first, corrected) if of_plate else (corrected, first)
    return CompoundPlate(
        views=views,
        bottom_angle=low,
        top_angle=high,
        bottom_stack=stack_height(low, bottom),
        top_stack=stack_height(high, top),
        tilt=true_tilt(low, high),
        direction=arctangent(math.tan(second.radians), math.tan(first.radians)),
        left_over=Angle(arcseconds=second - corrected),
    )


def true_tilt(bottom: Angle, top: Angle) -> Angle:
    """Return acos(cos bottom cos top), the tilt of the top face, as atan2 so that small tilts stay sharp.

    Source: the upright component of the normal after two turns (derived).
    """
    across = math.hypot(math.sin(bottom.radians) * math.cos(top.radians), math.sin(top.radians))
    return arctangent(across, math.cos(bottom.radians) * math.cos(top.radians))


def from_stack(stack: Length, bar: SineBar, seat: Seat) -> FromStack:
    """Return what blocks on the bench set on a bar, and the cone that is on that seat.

    The base height of a plate is taken off first; the taper gives its rate,
    per foot and both angles.  Raises UsageError below the base height, at zero
    and above the centre distance.
    """
    rise = stack - bar.base_height
    if rise <= 0:
        sentence = f"{exact_text(stack, bar.unit)} is {exact_text(-rise, bar.unit)} below the base height"
        raise UsageError.about("stack", sentence if rise else "the bar lies level: no angle")
    angle = angle_of(Length(rise), bar)
    half = Angle(arcseconds=angle.arcseconds / 2) if seat in _INCLUDED_SEATS else angle
    if rise == bar.effective and half == angle:
        raise UsageError.about("stack", "the bar stands upright: no cone has that half angle")
    reading = f"{exact_text(stack, bar.unit)} on {bar.name}: {dms_text(angle)}, {seat.value}"
    return FromStack(
        angle=angle, seat=seat, taper=Taper(call_out=exact_text(stack, bar.unit), reading=reading, half=half)
    )


def _setting(angle: Angle, bar: SineBar, *, on_part: bool, name: str) -> BarSetting:
    """Return a setting with its caution and a sentence that names the angle."""
    rise = height(angle, bar)
    how = "a difference of two stacks" if on_part else "one stack"
    return BarSetting(
        angle=angle,
        rise=rise,
        stack=None if on_part else stack_height(angle, bar),
        caution=steep_caution(angle),
        sentence=f"{name}, {dms_text(angle)}, by {how}",
    )


def _refuse_view(name: str, angle: Angle) -> None:
    """Refuse a view angle no compound plate sets."""
    if angle.arcseconds <= 0:
        raise UsageError.about(name, "not above zero", hint="one slope alone needs a single sine plate")
    if angle >= Angle.from_degrees(90):
        sentence = (
            f"{dms_text(angle)} is {dms_text(Angle(arcseconds=-complement_of(angle).arcseconds))} above 90"
        )
        raise UsageError.about(
            name, f"{sentence}\N{DEGREE SIGN} or at it", hint="turn the part to another view"
        )
