"""A bored taper over two balls, an angle between two discs: both ways.

>>> answer = balls("1:10", asked=BallsAsked(large="40mm", small="32mm", mouth="45mm"))

A ball's top is positive above the face of the bore and negative below it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.readings_balls import InBore, half_of_balls, mouth_of_ball, top_of_ball
from gaugestack.angles.readings_discs import angle_of_discs, disc_spacing
from gaugestack.answers.asked import asked_angle, asked_cone, asked_length, kept, spoken_of, wanted
from gaugestack.answers.measured import Judging, measured
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, ReadLength, exact_text

if TYPE_CHECKING:
    from fractions import Fraction

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.taper import Taper
    from gaugestack.answers.measured import Measured
    from gaugestack.answers.options import Choice
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.lengths import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class BallsAsked:
    """What was typed about the balls: diameters, and the mouth or both tops over the face."""

    large: str
    small: str
    mouth: str | None = None
    tops: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BallsAnswer:
    """Two balls in a bore: their tops over the face, the mouth, and the cone where it was measured."""

    taper: Taper | None
    unit: Unit
    bore: InBore
    mouth: Length
    measured: Measured | None = None

    @property
    def centre_distance(self) -> Length:
        """How far apart the centres stand along the axis."""
        return kept(self.bore.doubled_centre_distance / 2, self.unit)


@dataclass(frozen=True, slots=True, kw_only=True)
class DiscsAnswer:
    """Two discs between two sides: centre distance and gap, the stack for it, or the angle measured."""

    angle: Angle
    unit: Unit
    large: Length
    small: Length
    centre_distance: Length
    gap: Length
    stack: StackAnswer | None = None
    error_arcsec: Fraction | None = None


def balls(call_out: str | None, *, asked: BallsAsked, judging: Judging | None = None) -> BallsAnswer:
    """Return where two balls stand in a bored taper, or the cone their measured tops say.

    Raises UsageError where a ball would sit on the edge or the centres are too
    near each other, and says by how much.
    """
    taper = None if call_out is None else asked_cone(call_out)
    large, small = asked_length(asked.large, "--large"), asked_length(asked.small, "--small")
    names = {"large ball": "--large", "small ball": "--small", "ball heights": "--tops", "balls": "--tops"}
    if asked.tops is not None:
        with spoken_of(names):
            return _from_tops(taper, large, small, asked.tops, judging or Judging())
    if taper is None:
        raise UsageError.about("CALLOUT", "is wanted, or --tops that were measured")
    mouth = asked_length(wanted("--mouth", asked.mouth, "the bore's diameter at its face"), "--mouth")
    _refuse_same(large, small)
    tops = [
        kept(top_of_ball(taper, mouth.length, ball.length, unit=mouth.unit), mouth.unit)
        for ball in (large, small)
    ]
    bore = InBore(large=large.length, small=small.length, large_top=tops[0], small_top=tops[1])
    return BallsAnswer(taper=taper, unit=mouth.unit, bore=bore, mouth=mouth.length)


def discs(
    text: str | None, *, sizes: tuple[str, str], gap: str | None, stock: Stock, choice: Choice | None = None
) -> DiscsAnswer:
    """Return how far apart two discs stand for an angle and the stack between them, or the angle of a gap.

    `text` is the whole angle between the two sides; `sizes` are the large and
    the small disc.  Raises UsageError for discs that would overlap.
    """
    angle = None if text is None else asked_angle(text, "ANGLE").angle
    large, small = (asked_length(size, "--discs", bare_unit=stock.unit) for size in sizes)
    names = {"large disc": "--discs", "small disc": "--discs", "discs": "--discs", "gap": "--gap"}
    with spoken_of(names):
        if gap is not None:
            return _from_gap(
                angle, large, small, asked_length(gap, "--gap", bare_unit=stock.unit, signed=True)
            )
        if angle is None:
            raise UsageError.about("ANGLE", "is wanted, or the --gap that was measured")
        found = disc_spacing(angle, large=large.length, small=small.length, unit=large.unit)
    between = kept(found.gap, large.unit)
    return DiscsAnswer(
        angle=angle,
        unit=large.unit,
        large=large.length,
        small=small.length,
        centre_distance=kept(found.centre_distance, large.unit),
        gap=between,
        stack=_gap_stack(between, large.unit, stock, choice),
    )


def _from_tops(
    taper: Taper | None, large: ReadLength, small: ReadLength, tops: tuple[str, str], judging: Judging
) -> BallsAnswer:
    """Return the cone two measured tops say."""
    high, low = (asked_length(text, "--tops", signed=True).length for text in tops)
    unit = large.unit
    bore = InBore(large=large.length, small=small.length, large_top=high, small_top=low)
    half = half_of_balls(bore, unit=unit)
    mouth = kept(mouth_of_ball(small.length, low, half, unit=unit), unit)
    return BallsAnswer(
        taper=taper, unit=unit, bore=bore, mouth=mouth, measured=measured(half, taper, judging, unit)
    )


def _from_gap(angle: Angle | None, large: ReadLength, small: ReadLength, gap: ReadLength) -> DiscsAnswer:
    """Return the whole angle of two sides over two discs and the gap between them."""
    found = angle_of_discs(large=large.length, small=small.length, gap=gap.length, unit=large.unit)
    distance = gap.length + (large.length + small.length) / 2
    return DiscsAnswer(
        angle=found,
        unit=large.unit,
        large=large.length,
        small=small.length,
        centre_distance=kept(distance, large.unit),
        gap=gap.length,
        error_arcsec=None if angle is None else found - angle,
    )


def _gap_stack(gap: Length, unit: Unit, stock: Stock, choice: Choice | None) -> StackAnswer | None:
    """Return the stack between the discs; None where they touch."""
    if not gap:
        return None
    from gaugestack.answers.options import Choice  # noqa: PLC0415  (numpy: balls need no stack)
    from gaugestack.answers.stack import compose_heights  # noqa: PLC0415

    read = ReadLength(length=gap, unit=unit, bare=False, text=exact_text(gap, unit))
    return compose_heights((read,), stock, choice or Choice())


def _refuse_same(large: ReadLength, small: ReadLength) -> None:
    """Refuse balls that do not fall in size."""
    if large.length > small.length:
        return
    below = exact_text(small.length - large.length, large.unit)
    sentence = f"the large ball is {below} below the small one"
    raise UsageError.about(
        "--large", sentence if large.length < small.length else "both balls are the same size: no angle"
    )
