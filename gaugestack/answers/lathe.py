"""A cone on the lathe: compound slide, tailstock, taper attachment, test collars.

>>> answer = swing("morse 3", travels=("1in",))
>>> answer.rows[0].carriage.per_side

Lengths are read with their units; a bare number is refused, no set is asked.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from gaugestack.angles.angle import Angle
from gaugestack.angles.readings import (
    carriage_reading,
    collar_cut,
    collar_spacing,
    half_of_carriage_reading,
    half_of_slide_reading,
    slide_reading,
)
from gaugestack.angles.setups import (
    Graduated,
    attachment_setting,
    compound_swing,
    half_of_offset,
    tailstock_offset,
)
from gaugestack.angles.taper import Taper
from gaugestack.answers.asked import asked_cone, asked_length, kept, spoken_of, wanted
from gaugestack.answers.measured import Judging, measured
from gaugestack.errors import UsageError, nearest
from gaugestack.lengths import Length, exact_text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.angles.readings import Reading
    from gaugestack.angles.setups import AttachmentSetting, CompoundSwing, TailstockOffset
    from gaugestack.answers.measured import Measured
    from gaugestack.lengths import ReadLength

Along = Literal["slide", "carriage"]
USUAL_TRAVELS = ("1in", "3in", "25mm", "75mm")
_MOST_TRAVELS = 12
SCALES = {"per-foot": Graduated.PER_FOOT, "half": Graduated.HALF, "included": Graduated.INCLUDED}


@dataclass(frozen=True, slots=True, kw_only=True)
class SwingRow:
    """What the indicator shows over one travel, along the slide and along the carriage.

    The two minutes are what one minute of angle changes in each reading per side.
    """

    travel: ReadLength
    slide: Reading
    carriage: Reading
    slide_minute: Length
    carriage_minute: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class SwingAnswer:
    """The swing of the compound slide, its readings, and what a measured reading says."""

    taper: Taper
    swing: CompoundSwing
    rows: tuple[SwingRow, ...]
    measured: Measured | None = None
    along: Along | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OffsetAnswer:
    """The tailstock's offset; `measured` is what an offset already set turns."""

    taper: Taper
    between: ReadLength
    length: ReadLength
    offset: TailstockOffset
    measured: Measured | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AttachmentAnswer:
    """What to set a taper attachment to."""

    taper: Taper
    setting: AttachmentSetting


@dataclass(frozen=True, slots=True, kw_only=True)
class CollarsAnswer:
    """Two test collars: how far apart for a difference, or what two readings say."""

    taper: Taper
    unit_length: ReadLength
    spacing: Length
    difference: Length
    measured: Measured | None = None


def swing(
    call_out: str,
    *,
    travels: Sequence[str] = (),
    reading: str | None = None,
    along: str | None = None,
    judging: Judging | None = None,
) -> SwingAnswer:
    """Return the swing of the compound slide and what the indicator shows over each travel.

    `reading` per side over the one travel given says what the slide really
    does, `along` the slide or the carriage.  Raises UsageError.
    """
    taper = asked_cone(call_out)
    if len(travels) > _MOST_TRAVELS:
        raise UsageError.about("--travel", f"{len(travels)} travels at once; at most {_MOST_TRAVELS}")
    read = [asked_length(text, "--travel") for text in travels or USUAL_TRAVELS]
    found, way = None, None
    if reading is not None:
        way = _way(along)
        found = _swung(reading, way, read if travels else [], taper, judging or Judging())
    return SwingAnswer(
        taper=taper,
        swing=compound_swing(taper),
        rows=tuple(_swing_row(taper, one) for one in read),
        measured=found,
        along=way,
    )


def offset(
    call_out: str,
    *,
    between: str,
    length: str,
    limit: str | None = None,
    measured_offset: str | None = None,
    judging: Judging | None = None,
) -> OffsetAnswer:
    """Return the tailstock's offset for work `between` centres that tapers over `length`.

    Raises UsageError where the taper is longer than the work or the tailstock
    does not go so far, and says by how much.
    """
    taper = asked_cone(call_out)
    whole, tapered = asked_length(between, "--between"), asked_length(length, "--length")
    most = None if limit is None else asked_length(limit, "--limit").length
    with spoken_of({"taper length": "--length", "between centres": "--between", "offset": "--limit"}):
        found = tailstock_offset(
            taper, between_centres=whole.length, taper_length=tapered.length, unit=whole.unit, limit=most
        )
    made = None
    if measured_offset is not None:
        over = asked_length(measured_offset, "--measured").length
        with spoken_of({"offset": "--measured"}):
            half = half_of_offset(over, between_centres=whole.length, unit=whole.unit)
        made = measured(half, taper, judging or Judging(), whole.unit)
    return OffsetAnswer(taper=taper, between=whole, length=tapered, offset=found, measured=made)


def attachment(call_out: str, *, scale: str | None) -> AttachmentAnswer:
    """Return what to set a taper attachment to; `scale` says what it counts.

    Raises UsageError where it is not said, with all three settings.
    """
    taper = asked_cone(call_out)
    if scale is not None and scale not in SCALES:
        raise UsageError.about("--scale", f"{scale!r} is no scale", hint=nearest(scale, SCALES))
    with spoken_of({"graduated": "--scale"}):
        setting = attachment_setting(taper, None if scale is None else SCALES[scale])
    return AttachmentAnswer(taper=taper, setting=setting)


def collars(
    call_out: str,
    *,
    difference: str | None = None,
    diameters: tuple[str, str] | None = None,
    spacing: str | None = None,
    judging: Judging | None = None,
) -> CollarsAnswer:
    """Return how far apart two collars stand for a `difference`, or what two measured ones say.

    `diameters` are the large and the small collar, `spacing` is between like
    edges.  Raises UsageError.
    """
    taper = asked_cone(call_out)
    if diameters is None:
        read = asked_length(wanted("--difference", difference, "like --difference 0.100in"), "--difference")
        apart = collar_spacing(taper, read.length, unit=read.unit)
        return CollarsAnswer(
            taper=taper, unit_length=read, spacing=kept(apart, read.unit), difference=read.length
        )
    large, small = (asked_length(text, "--collars") for text in diameters)
    between = asked_length(wanted("--spacing", spacing, "like --spacing 2in"), "--spacing")
    with spoken_of({"large": "--collars", "spacing": "--spacing"}):
        cut = collar_cut(
            taper, large=large.length, small=small.length, spacing=between.length, unit=large.unit
        )
    return CollarsAnswer(
        taper=taper,
        unit_length=large,
        spacing=between.length,
        difference=Length(large.length - small.length),
        measured=measured(cut.half, taper, judging or Judging(), large.unit),
    )


def _swing_row(taper: Taper, travel: ReadLength) -> SwingRow:
    """Return the readings over one travel, and what a minute changes in each."""
    less = Taper(call_out="", reading="", half=Angle(arcseconds=taper.half.arcseconds - 60))
    slide, carriage = slide_reading(taper, travel.length), carriage_reading(taper, travel.length)
    slide_less, carriage_less = slide_reading(less, travel.length), carriage_reading(less, travel.length)
    return SwingRow(
        travel=travel,
        slide=slide,
        carriage=carriage,
        slide_minute=Length(slide.per_side - slide_less.per_side),
        carriage_minute=Length(carriage.per_side - carriage_less.per_side),
    )


def _way(along: str | None) -> Along:
    """Return what was moved while the indicator was read."""
    if along == "slide":
        return "slide"
    if along == "carriage":
        return "carriage"
    sentence = "was the slide moved or the carriage?" if along is None else f"{along!r} is no travel"
    raise UsageError.about("--along", sentence, hint="slide: a sine; carriage: a tangent")


def _swung(
    reading: str, along: Along, travels: Sequence[ReadLength], taper: Taper, judging: Judging
) -> Measured:
    """Return what a reading per side over the one travel says."""
    if len(travels) != 1:
        raise UsageError.about("--travel", "a reading needs the one travel it was taken over")
    travel = travels[0]
    shown = asked_length(reading, "--reading", signed=True)
    if shown.length <= 0:
        sentence = f"{exact_text(shown.length, shown.unit)} is no taper: the reading grows along the flank"
        raise UsageError.about("--reading", sentence)
    back = half_of_slide_reading if along == "slide" else half_of_carriage_reading
    with spoken_of({"reading": "--reading", "travel": "--travel"}):
        half = back(shown.length, travel=travel.length, unit=shown.unit)
    return measured(half, taper, judging, travel.unit)
