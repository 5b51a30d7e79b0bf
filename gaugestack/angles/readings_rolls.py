"""Measuring an outside taper over two equal rolls on two equal stacks, both ways.

The plug stands upright on the plate on one end; a roll lies on each side, on
the plate or on two stacks of the same height `h`:

    M(h) = D0 + 2 h tan(half) + d (1 + cot(45 deg - half / 2))     small end down
    M(h) = D0 - 2 h tan(half) + d (1 + cot(45 deg + half / 2))     large end down

D0 is the diameter at the plate, d the roll's.  The roll drops out of the
difference of two readings.  Contact in one plane through the axis; squareness
of the plug to the plate is assumed.
Source: Machinery's Handbook, measuring tapers (from memory), derived again;
the figure of the method was seen in a mechanical engineer's data handbook, 7.2.2.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from gaugestack.angles.trig import above_zero, amount, arctangent, half_tangent
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, exact_text

if TYPE_CHECKING:
    from gaugestack.angles.angle import Angle
    from gaugestack.angles.taper import Taper
    from gaugestack.lengths import Unit


class Stands(StrEnum):
    """Which end of the plug stands on the plate."""

    SMALL_END_DOWN = "small end down"
    LARGE_END_DOWN = "large end down"

    @property
    def sign(self) -> int:
        """+1 where the plug widens upward."""
        return 1 if self is Stands.SMALL_END_DOWN else -1


@dataclass(frozen=True, slots=True, kw_only=True)
class OverRolls:
    """Two sizes over the rolls, `low` on stacks of `low_stack`, `high` on `high_stack` (0: the plate)."""

    low: Length
    high: Length
    low_stack: Length
    high_stack: Length


def over_rolls(taper: Taper, end_diameter: Length, roll: Length, stack: Length, *, stands: Stands) -> Length:
    """Return M, the size over two rolls of diameter `roll` on stacks of height `stack` (0: on the plate).

    `end_diameter` is the plug's diameter at the plate.  Picometres.
    """
    widening = stands.sign * 2 * stack * half_tangent(taper)
    return Length(round(end_diameter + widening + roll * _roll_share(taper.half, stands)))


def half_of_rolls(measured: OverRolls, *, stands: Stands, unit: Unit) -> Angle:
    """Return the half angle: tan(half) = (M2 - M1) / (2 (h2 - h1)), the sign turned for a large end down.

    Raises UsageError where the stacks do not rise, or the readings run the wrong way.
    """
    between = measured.high_stack - measured.low_stack
    if between <= 0:
        sentence = f"the high stacks are {exact_text(-between, unit)} below the low ones"
        raise UsageError.about(
            "high stack", sentence if between else "both pairs of stacks are the same height"
        )
    if measured.low_stack < 0:
        raise UsageError.about("low stack", f"{exact_text(measured.low_stack, unit)} is below the plate")
    change = stands.sign * (measured.high - measured.low)
    if change <= 0:
        sentence = f"with the {stands.value} the size over the rolls should grow the other way: off by "
        raise UsageError.about(
            "over rolls",
            f"{sentence}{exact_text(-change, unit)}" if change else "both sizes are the same: no taper",
            hint="measure again, or say which end stands on the plate",
        )
    return arctangent(change, 2 * between)


def end_diameter_of_rolls(
    over: Length, half: Angle, roll: Length, stack: Length, *, stands: Stands, unit: Unit
) -> Length:
    """Return the plug's diameter at the plate, from one size over rolls on stacks of height `stack`.

    Raises UsageError where no plug is left between the rolls, and says by how much.
    """
    above_zero("roll", roll, unit)
    widening = stands.sign * 2 * stack * math.tan(half.radians)
    found = Length(round(over - widening - roll * _roll_share(half, stands)))
    if found <= 0:
        sentence = f"the rolls alone are {amount(-found, unit)} more than the size over them"
        raise UsageError.about("over rolls", sentence, hint="check the roll diameter and the stack")
    return found


def _roll_share(half: Angle, stands: Stands) -> float:
    """Return 1 + cot(45 deg -+ half / 2): the roll lies in the corner of plate and flank."""
    return 1 + 1 / math.tan(math.pi / 4 - stands.sign * half.radians / 2)
