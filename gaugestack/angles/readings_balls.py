"""Measuring a bored taper with two balls, both ways.

The mouth (large end) is up.  A ball's top is positive ABOVE the face and
negative BELOW it; its centre lies `radius - top` below the face.

    sin(half) = (R - r) / c,   c = distance of the centres along the axis
    mouth = 2 (R / cos(half) + centre depth tan(half))

Source: derived; problems of examinations (seen) check it.  The bore must be a
true cone where the balls touch.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.trig import above_zero, amount, arcsine, half_sine, half_tangent
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, exact_text

if TYPE_CHECKING:
    from gaugestack.angles.angle import Angle
    from gaugestack.angles.taper import Taper
    from gaugestack.lengths import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class InBore:
    """Two balls in a bore: diameters, and the height of each top over the face (below it: negative)."""

    large: Length
    small: Length
    large_top: Length
    small_top: Length

    @property
    def doubled_centre_distance(self) -> int:
        """Twice the distance of the centres along the axis, exactly."""
        return 2 * (self.large_top - self.small_top) - (self.large - self.small)


def half_of_balls(balls: InBore, *, unit: Unit) -> Angle:
    """Return the half angle of the bore.

    Raises UsageError where the large ball is not the larger, or the centres
    are too near each other for any cone, and says by how much.
    """
    above_zero("small ball", balls.small, unit)
    if balls.large <= balls.small:
        sentence = f"the large ball is {exact_text(balls.small - balls.large, unit)} below the small one"
        raise UsageError.about(
            "large ball", sentence if balls.large < balls.small else "both balls are the same size: no angle"
        )
    doubled, difference = balls.doubled_centre_distance, balls.large - balls.small
    if doubled <= difference:
        sentence = (
            f"the centres stand {_halved(doubled, unit)} apart, and {_halved(difference, unit)} "
            f"is the least any cone allows: {_halved(difference - doubled, unit)} too little"
        )
        hint = "a top above the face is positive, below it negative"
        raise UsageError.about("ball heights", sentence, hint=hint)
    return arcsine(Length(difference), Length(doubled), argument="balls", unit=unit)


def mouth_of_ball(ball: Length, top: Length, half: Angle, *, unit: Unit) -> Length:
    """Return the bore's diameter at the face, from one ball and the height of its top over the face.

    Raises UsageError where the ball is not in the bore: it would touch the cone
    above the face, and by how much.
    """
    above_zero("ball", ball, unit)
    radius = ball / 2
    depth = radius - top
    _refuse_above_face(depth + radius * math.sin(half.radians), unit)
    return Length(round(2 * (radius / math.cos(half.radians) + depth * math.tan(half.radians))))


def top_of_ball(taper: Taper, mouth: Length, ball: Length, *, unit: Unit) -> Length:
    """Return how high a ball's top stands over the face of a bored taper; negative is below it.

    Raises UsageError where the ball is too large: it would sit on the edge.
    """
    above_zero("ball", ball, unit)
    radius, tangent = ball / 2, half_tangent(taper)
    depth = (mouth / 2 - radius * math.hypot(1, tangent)) / tangent
    _refuse_above_face(depth + radius * half_sine(taper), unit)
    return Length(round(radius - depth))


def _refuse_above_face(contact_depth: float, unit: Unit) -> None:
    """Refuse a ball that would touch the cone above the face."""
    if contact_depth < 0:
        above = amount(-contact_depth, unit)
        sentence = f"the ball would touch the cone {above} above the face: it sits on the edge"
        raise UsageError.about("ball", sentence, hint="take a smaller ball")


def _halved(doubled: int, unit: Unit) -> str:
    """Print half of a length."""
    return amount(doubled / 2, unit)
