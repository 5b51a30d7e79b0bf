"""A compound sine plate: two angles from two views, two stacks from one set at once.

>>> answer = plate("20deg", "30deg", bottom=bar, top=bar, views=Views.OF_THE_PART, stock=stock)
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.plates import Views, compound_plate, true_tilt
from gaugestack.angles.sine import angle_of, steep_caution
from gaugestack.answers.asked import asked_angle, spoken_of
from gaugestack.answers.options import Choice
from gaugestack.answers.stack import compose_heights, lengths_of
from gaugestack.errors import UsageError, nearest
from gaugestack.lengths import Length, ReadLength, exact_text

if TYPE_CHECKING:
    from fractions import Fraction

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.plates import CompoundPlate
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock

VIEWS = {"plate": Views.OF_THE_PLATE, "part": Views.OF_THE_PART}


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateAchieved:
    """The angles the two stacks really set, and each error in arcseconds, achieved minus asked."""

    bottom: Angle
    top: Angle
    tilt: Angle
    bottom_error: Fraction
    top_error: Fraction
    tilt_error: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateAnswer:
    """Both plates of a compound sine plate and the two stacks, or why there are none."""

    first: Angle
    second: Angle
    plate: CompoundPlate
    bottom_bar: SineBar
    top_bar: SineBar
    stack: StackAnswer
    achieved: PlateAchieved | None
    remarks: tuple[str, ...] = ()


def views_of(word: str | None) -> Views:
    """Return what the two view angles describe.  Raises UsageError where it is not said."""
    if word is None:
        sentence = "do the two angles describe the plate's surface or the part's face?"
        raise UsageError.about("--views", sentence, hint="; ".join(f"{k}: {v}" for k, v in VIEWS.items()))
    if word not in VIEWS:
        raise UsageError.about("--views", f"{word!r} is no view", hint=nearest(word, VIEWS))
    return VIEWS[word]


def plate(
    first: str,
    second: str,
    *,
    bars: tuple[SineBar, SineBar],
    views: Views,
    stock: Stock,
    choice: Choice | None = None,
) -> PlateAnswer:
    """Return the corrected angles, the true tilt and two stacks that share no block.

    `bars` are the bottom and the top plate.  Raises UsageError for view angles
    no compound plate sets.
    """
    one, other = asked_angle(first, "FIRST"), asked_angle(second, "SECOND")
    bottom, top = bars
    with spoken_of({"first view": "FIRST", "second view": "SECOND"}):
        found = compound_plate(one.angle, other.angle, bottom=bottom, top=top, views=views)
    heights = (_height(found.bottom_stack, bottom), _height(found.top_stack, top))
    stacks = compose_heights(heights, stock, choice or Choice())
    bare = [read.text for read in (one, other) if read.bare]
    said = [f"{', '.join(bare)} read as decimal degrees"] if bare else []
    cautions = [steep_caution(angle) for angle in (found.bottom_angle, found.top_angle)]
    return PlateAnswer(
        first=one.angle,
        second=other.angle,
        plate=found,
        bottom_bar=bottom,
        top_bar=top,
        stack=stacks,
        achieved=_achieved(found, bars, stacks),
        remarks=(*said, *(c.sentence for c in cautions if c), *stacks.remarks),
    )


def _height(length: Length, bar: SineBar) -> ReadLength:
    """Return a height as it is asked of the set."""
    return ReadLength(length=length, unit=bar.unit, bare=False, text=exact_text(length, bar.unit))


def _achieved(
    found: CompoundPlate, bars: tuple[SineBar, SineBar], stacks: StackAnswer
) -> PlateAchieved | None:
    """Return what the stacks set; None where there are none."""
    lengths = lengths_of(stacks)
    if not lengths:
        return None
    bottom, top = (
        angle_of(Length(length - bar.base_height), bar) for length, bar in zip(lengths, bars, strict=True)
    )
    tilt = true_tilt(bottom, top)
    return PlateAchieved(
        bottom=bottom,
        top=top,
        tilt=tilt,
        bottom_error=bottom - found.bottom_angle,
        top_error=top - found.top_angle,
        tilt_error=tilt - found.tilt,
    )
