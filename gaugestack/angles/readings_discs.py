"""Discs or plugs that touch two sides of an angle, both ways.

    sin(angle / 2) = (D - d) / (2 c)      c = distance of the centres

`angle` is the whole angle between the two sides: the included angle of a cone
or the angle of a wedge.  Where the discs touch each other c = (D + d) / 2;
where a stack lies between them it is the gap.
Source: Machinery's Handbook, 31st ed., p. 701 (seen).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle
from gaugestack.angles.trig import above_zero, amount, arcsine
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, exact_text

if TYPE_CHECKING:
    from gaugestack.lengths import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Discs:
    """Two discs set to an angle, in picometres; `gap` is the stack between them, 0 where they touch."""

    centre_distance: Length
    gap: Length


def disc_spacing(whole: Angle, *, large: Length, small: Length, unit: Unit) -> Discs:
    """Return how far apart two discs stand so that both sides of `whole` touch them.

    Raises UsageError where the discs do not differ, or would overlap, and says by how much.
    """
    _refuse_sizes(large, small, unit)
    if not 0 < whole.arcseconds < Angle.from_degrees(180).arcseconds:
        raise UsageError.about("angle", "two discs stand in an angle above 0 and below 180 degrees")
    distance = Length(round((large - small) / (2 * math.sin(whole.radians / 2))))
    gap = distance - (large + small) / 2
    if gap < -1:
        sentence = f"the discs would overlap by {amount(-gap, unit)}"
        raise UsageError.about("discs", sentence, hint="take discs that differ more in size")
    return Discs(centre_distance=distance, gap=Length(max(0, round(gap))))


def angle_of_discs(*, large: Length, small: Length, gap: Length, unit: Unit) -> Angle:
    """Return the whole angle of two sides over two discs with `gap` between them (0: touching).

    Raises UsageError for a gap below zero and for discs that do not differ.
    """
    _refuse_sizes(large, small, unit)
    if gap < 0:
        raise UsageError.about("gap", f"the discs overlap by {exact_text(-gap, unit)}")
    doubled = Length(large + small + 2 * gap)
    half = arcsine(Length(large - small), doubled, argument="discs", unit=unit)
    return Angle(arcseconds=2 * half.arcseconds)


def corner_distance(whole: Angle, diameter: Length) -> Length:
    """Return r (1 + cot(angle / 2)): from the corner of an angle to the far side of a disc lying in it.

    Measured along one side.  Source: Precision Locating and Dividing Methods,
    disk-and-square method (seen).
    """
    return Length(round(diameter / 2 * (1 + 1 / math.tan(whole.radians / 2))))


def _refuse_sizes(large: Length, small: Length, unit: Unit) -> None:
    """Refuse discs that are no size, or do not differ."""
    above_zero("small disc", small, unit)
    if large <= small:
        sentence = f"the large disc is {exact_text(small - large, unit)} below the small one"
        raise UsageError.about(
            "large disc", sentence if large < small else "both discs are the same size: no angle"
        )
