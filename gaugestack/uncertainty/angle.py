"""The budget of a sine bar's angle: height, centre distance, rolls, bar, plate, set-up, warmth.

    result = angle_uncertainty(angle, bar, height, Conditions())
    result.budget.expanded            # arcseconds
    result.rise(length)               # what that is over a stated length of the work, in picometres

From h = L sin(angle): an error of height counts 1/cos(angle), one of the centre
distance tan(angle).  The part's own warmth turns no angle, since it grows alike
all round.  For an error that is known rather than doubted, see the functions
`turned_by_height`, `turned_by_centre_distance`, `turned_by_yaw` and `turned_by_warmth`.

Does not choose the set-up and does not read the indicator.
Source of the sensitivities: derivatives of the sine formula (checked against mpmath).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.errors import UsageError
from gaugestack.lengths import Unit, exact_text
from gaugestack.uncertainty.budget import USUAL_PROBABILITY, Budget, Component, scaled
from gaugestack.uncertainty.distribution import Distribution
from gaugestack.uncertainty.knowledge import PM_PER_NM
from gaugestack.uncertainty.materials import Role, expansion
from gaugestack.uncertainty.rounding import length_text, limit_text
from gaugestack.uncertainty.stack import blocks_side, height_components, height_remarks
from gaugestack.uncertainty.thermal import Segment, Side, shift, thermal_components

if TYPE_CHECKING:
    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.lengths import Length
    from gaugestack.uncertainty.conditions import Conditions
    from gaugestack.uncertainty.stack import Height

ARCSECONDS_PER_RADIAN = 648_000 / math.pi
_IS_5359 = "IS 5359:1969, 100 mm bar, as quoted in a metrology textbook"

_ASSUMED = "nobody measured the bar: its limits are the usual ones"


@dataclass(frozen=True, slots=True, kw_only=True)
class BarLimits:
    """How far a bar and its set-up may be off; lengths in nm, plus and minus.

    centre_distance   limit, or expanded uncertainty where `centre_distance_k` is given
    roll_difference   greatest difference of the two roll diameters; half of it counts as height
    parallelism       of the working face to the rolls' datum, over the centre distance
    face_flatness     of the working face, over the centre distance
    plate_flatness    of the plate, between the two places the bar stands on
    yaw_degrees       how far the work may be turned on the bar
    """

    centre_distance: float
    centre_distance_k: float | None = None
    roll_difference: float = 2000.0
    parallelism: float = 1000.0
    face_flatness: float = 1000.0
    plate_flatness: float = 1500.0
    yaw_degrees: float = 0.25
    source: str = "given"

    def lines(self, unit: Unit = Unit.MILLIMETRE) -> tuple[str, ...]:
        """Return one line a limit, with where they are from; lengths said in `unit`."""
        k = f", k = {self.centre_distance_k:g}" if self.centre_distance_k else ""
        return (
            f"bar: {self.source}",
            f"centre distance right within {limit_text(self.centre_distance, unit)}{k}",
            f"rolls alike within {limit_text(self.roll_difference, unit)}",
            f"working face parallel within {limit_text(self.parallelism, unit)}",
            f"working face flat within {limit_text(self.face_flatness, unit)}",
            f"plate flat within {limit_text(self.plate_flatness, unit)} under the bar",
            f"work square on the bar within {self.yaw_degrees:g}°",
        )


def usual_limits(bar: SineBar) -> BarLimits:
    """Return the limits of a bar nobody measured.

    Centre distance: 3 µm on 100 mm (IS 5359:1969, seen as quoted in a textbook), 0.0002 in on 5 in for
    an inch bar (what bought and shop-made ones hold: seen), in proportion to the length.  Rolls 2 µm,
    face 1 µm flat and parallel: IS 5359:1969.  Plate: half of grade A for 12 by 18 in, GGG-P-463c (seen).
    Yaw a quarter of a degree: assumed.
    """
    inch = bar.unit is Unit.INCH
    rate = 0.0002 / 5 if inch else 0.003 / 100
    first = "0.0002 in on 5 in, common in bought bars" if inch else _IS_5359
    source = f"assumed: {first}; plate half of grade A, GGG-P-463c; yaw assumed"
    return BarLimits(centre_distance=bar.effective * rate / PM_PER_NM, source=source)


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleUncertainty:
    """The budget in arcseconds, and how much steeper makes it worse.

    `height_growth` is 1/cos(angle): how many times as much a height error turns the bar
    as at 0 degrees.  `centre_distance_growth` is tan(angle), the same for the centre
    distance.  `shift` is how many arcseconds warmth turns the bar; the budget holds for
    a height corrected by it.
    """

    budget: Budget
    height_growth: float
    centre_distance_growth: float
    shift: float

    def rise(self, length: Length) -> float:
        """Return what the expanded uncertainty is over a length of the work's surface, picometres.

        It is what an indicator swept over that length would show.
        """
        return rise(self.budget.expanded, length)

    def rise_line(self, length: Length, unit: Unit) -> str:
        """Say what the expanded uncertainty is over a length of the work, in the part's unit."""
        return (
            f"{length_text(self.rise(length) / PM_PER_NM, unit)} over {exact_text(length, unit)} of the work"
        )

    def growth_line(self) -> str:
        """Say in one line what the steepness does."""
        return (
            f"a height error turns the bar {self.height_growth:.2f} times as far as at 0°; "
            f"an error of the centre distance counts {self.centre_distance_growth:.2f} times its share of it"
        )


def angle_uncertainty(
    angle: Angle,
    bar: SineBar,
    height: Height,
    conditions: Conditions,
    *,
    limits: BarLimits | None = None,
    probability: float = USUAL_PROBABILITY,
) -> AngleUncertainty:
    """Return the budget of the angle a height sets on a bar, in arcseconds.

    `angle` from 0 to below 90 degrees; without `limits` those of `usual_limits`.
    Raises UsageError outside that, and as `stack_uncertainty` does.
    """
    _refuse_out_of_range(angle)
    of_bar = limits or usual_limits(bar)
    per_nm = turned_by_height(angle, bar, 1.0)
    sides = _sides(angle, bar, height, conditions)
    found = (
        *scaled(height_components(height, conditions), per_nm),
        *thermal_components(sides, conditions),
        *bar_components(angle, bar, of_bar),
    )
    budget = Budget(
        quantity="angle",
        unit="arcsec",
        components=found,
        probability=probability,
        remarks=(*height_remarks(height), *(() if limits else (_ASSUMED,))),
    )
    return AngleUncertainty(
        budget=budget,
        height_growth=1 / math.cos(angle.radians),
        centre_distance_growth=math.tan(angle.radians),
        shift=shift(sides, conditions.room_above_reference),
    )


def bar_components(angle: Angle, bar: SineBar, of_bar: BarLimits) -> tuple[Component, ...]:
    """Return the doubts of the bar, the plate and the set-up, in arcseconds; nothing for limits of 0."""
    per_nm = turned_by_height(angle, bar, 1.0)
    face = ARCSECONDS_PER_RADIAN * PM_PER_NM / bar.effective
    centre = Component(
        name="centre distance of the bar",
        value=of_bar.centre_distance,
        unit="nm",
        distribution=Distribution.RECTANGULAR if of_bar.centre_distance_k is None else Distribution.NORMAL,
        divisor=of_bar.centre_distance_k,
        sensitivity=turned_by_centre_distance(angle, bar, 1.0),
        source=of_bar.source,
    )
    others = (
        ("difference of the rolls", of_bar.roll_difference, "nm", per_nm / 2),
        ("parallelism of the working face", of_bar.parallelism, "nm", face),
        ("flatness of the working face", of_bar.face_flatness, "nm", face),
        ("flatness of the plate", of_bar.plate_flatness, "nm", per_nm),
        ("work turned on the bar", turned_by_yaw(angle, of_bar.yaw_degrees), "arcsec", 1.0),
    )
    limited = (
        Component(
            name=name,
            value=value,
            unit=unit,
            distribution=Distribution.RECTANGULAR,
            sensitivity=sensitivity,
            source=of_bar.source,
        )
        for name, value, unit, sensitivity in others
    )
    return tuple(component for component in (centre, *limited) if component.value)


def turned_by_height(angle: Angle, bar: SineBar, nanometres: float) -> float:
    """Return how many arcseconds an error of height turns the bar: dh / (L cos(angle))."""
    leg = bar.effective / PM_PER_NM * math.cos(angle.radians)
    return nanometres / leg * ARCSECONDS_PER_RADIAN


def turned_by_centre_distance(angle: Angle, bar: SineBar, nanometres: float) -> float:
    """Return how many arcseconds an error of the centre distance turns the bar: -tan(angle) dL / L.

    A bar longer than believed stands flatter.
    """
    share = nanometres * PM_PER_NM / bar.effective
    return -math.tan(angle.radians) * share * ARCSECONDS_PER_RADIAN


def turned_by_yaw(angle: Angle, yaw_degrees: float) -> float:
    """Return by how many arcseconds work turned on the bar reads too flat, zero or above.

    angle - asin(sin(angle) cos(yaw)), by geometry.  It has one sign only; a budget
    takes it as a limit both ways, which is the cautious side.
    """
    if not 0 <= yaw_degrees < 90:
        sentence = f"work turned by {yaw_degrees:g}°: it lies from 0° to below 90°"
        raise UsageError.about("yaw", sentence, hint="how far it may be turned, without a sign")
    sine, yaw = math.sin(angle.radians), math.radians(yaw_degrees)
    read = math.asin(sine * math.cos(yaw))
    lost = 2 * sine * math.sin(yaw / 2) ** 2  # the sine's loss, without a difference of near equals
    return 2 * math.asin(lost / (2 * math.cos((angle.radians + read) / 2))) * ARCSECONDS_PER_RADIAN


def turned_by_warmth(angle: Angle, bar: SineBar, height: Height, conditions: Conditions) -> float:
    """Return how many arcseconds the warmth of blocks and bar turns the bar from what 20 °C would give.

    Nothing where both are of one coefficient and equally warm, whatever the room.
    """
    return shift(_sides(angle, bar, height, conditions), conditions.room_above_reference)


def rise(arcseconds: float, length: Length) -> float:
    """Return the rise of an angle's error over a length of the surface, in picometres."""
    return arcseconds / ARCSECONDS_PER_RADIAN * length


def taper_error(angle: Angle, arcseconds: float, length: Length) -> float:
    """Return what an angle's error does to the rise over an axial length: length x error / cos^2, picometres.

    For a cone with the half angle `angle` that is the error of the radius over that length; twice it
    is that of the diameter.
    """
    return rise(arcseconds, length) / math.cos(angle.radians) ** 2


def _sides(angle: Angle, bar: SineBar, height: Height, conditions: Conditions) -> tuple[Side, Side]:
    """Return blocks and bar as they turn the angle when they grow, in arcseconds.

    The bar (its base height included) counts against the blocks one for one: only the
    ratio of their lengths is the sine.
    """
    blocks = blocks_side(height, conditions, turned_by_height(angle, bar, 1.0))
    weight = -math.fsum(part.weight for part in blocks.parts)
    only = Segment(weight=weight, expansion=expansion(conditions.bar_material, Role.WORK))
    grown = Side(name="bar", parts=(only,), above=conditions.bar_above, limit=conditions.bar_limit)
    return blocks, grown


def _refuse_out_of_range(angle: Angle) -> None:
    """Refuse what no sine bar sets; level is allowed."""
    if not 0 <= angle.degrees < 90:
        sentence = f"{angle.degrees:g}\N{DEGREE SIGN}: a sine bar stands from 0 to below 90 degrees"
        raise UsageError.about("angle", sentence, hint="set it from another face of the work")
