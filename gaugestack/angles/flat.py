"""Flat tapers: a wedge, a gib or a tapered key, with one angle and no half of it.

    slope = (H - h) / l = tan(angle)        not 2 tan(angle / 2)

    >>> round(read_flat("flat 1:12", bare_unit=None).angle.degrees, 4)
    4.7636

A cone 1:12 has an included angle of 4.7719 degrees, 30 seconds more: so a
flat says `flat` and is a type of its own.
Source: ISO 2538 (from memory); a tolerancing text on flat tapers (seen).
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.ambiguity import refuse
from gaugestack.angles.angle import Angle, dms_text, refuse_odd_text, short_degrees_text
from gaugestack.angles.callout_parts import NUMBER, angle_at, length_at, not_zero, refuse_mixed_units
from gaugestack.angles.callout_slopes import slope_at
from gaugestack.angles.taper import angle_for
from gaugestack.errors import UsageError
from gaugestack.lengths import exact_text

if TYPE_CHECKING:
    from gaugestack.angles.taper import Taper, Use
    from gaugestack.lengths import Unit

FLAT_HINT = "write a flat like flat 1:12, flat 0.25in/ft, flat 5%, flat 5deg or flat 1.5in to 1in over 6in"
STEEPEST = Angle.from_degrees(90)
_FLAT = re.compile(r"(?is)\s*(?:flat|wedge)\b(?P<rest>.*)")
_OVER = re.compile(r"(?is)(?P<thick>.*?)\bto\b(?P<thin>.*?)\bover\b(?P<length>.*)")
_PERCENT = re.compile(rf"(?i)\s*(?P<number>{NUMBER})\s*(?:%|percent)\s*")
_SLOPE = re.compile(r"(?is).*[:/].*|.*\bper\b.*")
_COLONS = re.compile(r".*:.*:.*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Flat:
    """A flat taper as it was called out: one face slopes by `angle` to the other.

    `slope` is tan(angle), exact where a slope was given, None where an angle
    was.  It has no half angle and no included angle.
    """

    call_out: str
    reading: str
    angle: Angle
    slope: Fraction | None = None

    @property
    def exact_slope(self) -> Fraction:
        """The rise over the run: exact where given, else the nearest float as a fraction."""
        return Fraction(math.tan(self.angle.radians)) if self.slope is None else self.slope


def is_flat(text: str) -> bool:
    """Return whether a call-out begins with the word `flat` or `wedge`."""
    return _FLAT.fullmatch(text) is not None


def read_flat(text: str, *, bare_unit: Unit | None) -> Flat:
    """Read one call-out of a wedge: `flat 1:12`, `flat 0.25in/ft`, `flat 5%`, `flat 5deg`, thicknesses.

    `bare_unit` is the unit of thicknesses and a length without one.
    Raises TextError.
    """
    refuse_odd_text(text, "a flat taper", FLAT_HINT)
    match = _FLAT.fullmatch(text)
    if match is None:
        refuse(text, "a flat begins with the word flat or wedge", FLAT_HINT)
    start, end = match.span("rest")
    if not text[start:end].strip():
        refuse(text, "a flat of what slope or angle?", FLAT_HINT)
    return _thicknesses(text, start, bare_unit) or _percent(text, start) or _slope_or_angle(text, start, end)


def flat_of_slope(slope: Fraction, *, call_out: str, reading: str) -> Flat:
    """Return the wedge of that slope, above zero: angle = atan(slope), the whole of it.

    Raises TextError where no angle is left of it, or a right one.
    """
    angle = Angle.from_radians(math.atan(slope))
    if angle.arcseconds == 0 or angle >= STEEPEST:
        refuse(call_out, "a flat's angle is above 0 and below 90\N{DEGREE SIGN}", FLAT_HINT)
    return Flat(call_out=call_out, reading=reading, angle=angle, slope=slope)


def setting_angle(read: Taper | Flat, use: Use | None) -> Angle:
    """Return the angle to set: of a cone the one its use needs, of a flat its only one.

    Raises UsageError for a flat with a use, and for a cone without one.
    """
    if isinstance(read, Flat):
        if use is not None:
            sentence = f"a flat wedge has no half and no included angle: {use.value} asks for one of them"
            raise UsageError.about(
                "use", sentence, hint=f"its one angle is {short_degrees_text(read.angle, 6)}"
            )
        return read.angle
    if use is None:
        raise UsageError.about(
            "use", "the half or the included angle of the cone?", hint="compound or inspection"
        )
    return angle_for(read, use)


def _thicknesses(text: str, start: int, bare_unit: Unit | None) -> Flat | None:
    """`flat 1.5in to 1in over 6in`: thick end, thin end, the length between."""
    match = _OVER.match(text, start)
    if match is None:
        return None
    thick, thin, length = (
        length_at(text, *match.span(name), bare_unit=bare_unit) for name in ("thick", "thin", "length")
    )
    refuse_mixed_units(text, (thick, thin, length), bare_unit)
    if thin.length >= thick.length:
        refuse(text, "the first thickness is not the larger one", FLAT_HINT)
    one, other, over = (exact_text(read.length, read.unit) for read in (thick, thin, length))
    slope = Fraction(thick.length - thin.length, length.length)
    return flat_of_slope(slope, call_out=text.strip(), reading=f"flat, {one} to {other} thick over {over}")


def _percent(text: str, start: int) -> Flat | None:
    """`flat 5%`: 5 in 100, one face against the other."""
    match = _PERCENT.fullmatch(text, start)
    if match is None:
        return None
    slope = not_zero(text, match["number"]) / 100
    return flat_of_slope(slope, call_out=text.strip(), reading=f"flat, slope {match['number']} %")


def _slope_or_angle(text: str, start: int, end: int) -> Flat:
    """`flat 1:12` and `flat 0.25in/ft` are slopes; anything else must be an angle."""
    part = text[start:end]
    if _SLOPE.fullmatch(part) and not _COLONS.fullmatch(part):
        slope = slope_at(text, start, end)
        return flat_of_slope(slope, call_out=text.strip(), reading=f"flat, slope {part.strip()}")
    read = angle_at(text, start, end)
    if read.bare:
        refuse(text, "a number alone: a slope or degrees?", FLAT_HINT)
    if read.angle.arcseconds == 0 or read.angle >= STEEPEST:
        refuse(text, "a flat's angle is above 0 and below 90\N{DEGREE SIGN}", FLAT_HINT)
    return Flat(call_out=text.strip(), reading=f"flat, {dms_text(read.angle)}", angle=read.angle)
