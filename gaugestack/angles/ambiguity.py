"""Taper call-outs that mean two things: refused, with every meaning and its angles.

One function a form; each returns None where the text is not of its form, so
it can stand among the rules of callout.py.  Nothing here returns a taper: a
wrong guess between half and included angle is a factor of two.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, NoReturn

from gaugestack.angles.angle import Angle, read_angle, short_degrees_text
from gaugestack.angles.taper import half_of_rate
from gaugestack.errors import TextError
from gaugestack.lengths import PM_PER_INCH, PM_PER_MM, Unit, read_length

if TYPE_CHECKING:
    from gaugestack.angles.taper import Taper

TAPER_HINT = (
    "write a taper like 3in/ft, 0.25in/in, 1:4, 7.125deg/side, 14.25deg included or 1in to 0.75in over 4in"
)

_NUMBER = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_ONE_IN = re.compile(rf"(?i)\s*(?P<over>{_NUMBER})\s*in\s*(?P<under>{_NUMBER})\s*")
_FRACTION = re.compile(r"\s*(?P<over>[0-9]+)\s*/\s*(?P<under>[0-9]+)\s*")
_RATIO = re.compile(rf"\s*(?P<over>{_NUMBER})\s*:\s*(?P<under>{_NUMBER})\s*")
_BARE = re.compile(rf"\s*\+?\s*(?P<number>{_NUMBER})\s*")


def refuse_one_in(text: str, _bare_unit: Unit | None) -> Taper | None:
    """Refuse `1 in 16`: on diameter, or the slope of each side."""
    match = _ONE_IN.fullmatch(text)
    if match is None:
        return None
    over, under = not_zero(text, match["over"]), not_zero(text, match["under"])
    rate = over / under
    hint = _join(
        spelled(f"{match['over']}:{match['under']}", rate, " on diameter"),
        spelled(_ratio_text(2 * rate), 2 * rate, " for that slope on each side"),
    )
    refuse(text, f"{text.strip()!r} may be the taper on diameter or the slope of each side", hint)


def refuse_lone_length(text: str, _bare_unit: Unit | None) -> Taper | None:
    """Refuse `3in`: per foot or per inch; `50mm`: per metre or per millimetre."""
    try:
        read = read_length(text)
    except TextError:
        return None
    written = text.strip()
    inch = read.unit is Unit.INCH
    long, short = ("ft", "in") if inch else ("m", "mm")
    long_pm, short_pm = (12 * PM_PER_INCH, PM_PER_INCH) if inch else (1000 * PM_PER_MM, PM_PER_MM)
    hint = _join(
        spelled(f"{written}/{long}", Fraction(read.length, long_pm)),
        spelled(f"{written}/{short}", Fraction(read.length, short_pm)),
    )
    words = "per foot or per inch?" if inch else "per metre or per millimetre?"
    refuse(text, f"a length alone is no taper: {words}", hint)


def refuse_bare_fraction(text: str, _bare_unit: Unit | None) -> Taper | None:
    """Refuse `1/4`: a ratio on diameter, the slope of each side, or inches per foot."""
    match = _FRACTION.fullmatch(text)
    if match is None:
        return None
    rate = not_zero(text, match["over"]) / not_zero(text, match["under"])
    hint = _join(
        spelled(f"{match['over']}:{match['under']}", rate, " on diameter"),
        spelled(_ratio_text(2 * rate), 2 * rate, " for that slope on each side"),
        spelled(f"{match['over']}/{match['under']}in/ft", rate / 12),
    )
    refuse(text, f"{text.strip()!r} may be a ratio, a slope or inches per foot", hint)


def refuse_bare_number(text: str, _bare_unit: Unit | None) -> Taper | None:
    """Refuse `0.25`: a rate per inch or per foot, or an angle."""
    match = _BARE.fullmatch(text)
    if match is None:
        return None
    value = not_zero(text, match["number"])
    written = match["number"]
    hint = _join(
        spelled(f"{written}in/in", value),
        spelled(f"{written}in/ft", value / 12),
        *_angle_meanings(f"{written}deg", Angle.from_degrees(value)),
    )
    refuse(text, "a number alone is no taper: per inch, per foot, or degrees?", hint)


def refuse_lone_angle(text: str, _bare_unit: Unit | None) -> Taper | None:
    """Refuse `15deg`: per side or included."""
    try:
        angle = read_angle(text).angle
    except TextError:
        return None
    if angle.arcseconds == 0:
        refuse(text, "an angle of zero is no taper", TAPER_HINT)
    meanings = _angle_meanings(text.strip(), angle)
    if not meanings:
        refuse(text, "a cone's included angle is below 180\N{DEGREE SIGN}", TAPER_HINT)
    refuse(text, "an angle alone may be the angle per side or the included angle", _join(*meanings))


def refuse_minutes_like_ratio(text: str, over: str, under: str) -> None:
    """Refuse `7:07`: nobody writes a ratio so, and 7 degrees 7 minutes looks just like it."""
    if len(under) < 2 or under[0] != "0" or not under[1].isdigit():
        return
    plain = under.lstrip("0")
    hint = f"write {over}d{under}m/side or {over}d{under}m included for an angle, {over}:{plain} for a ratio"
    refuse(text, f"{text.strip()!r} may be degrees and minutes or a ratio", hint)


def refuse_ratio_like_angle(text: str, angle: str) -> None:
    """Refuse `1:8/side`: 1 degree 8 minutes, or a slope of 1 in 8; `1:08/side` is an angle."""
    match = _RATIO.fullmatch(angle)
    if match is None or match["under"][0] == "0":
        return
    over, under = match["over"], match["under"]
    hint = (
        f"write {over}d{under}m for the angle, slope {over}:{under} per side for the slope of each side; "
        "a ratio is read on diameter, like 1:4, with nothing after it"
    )
    refuse(text, f"{angle.strip()!r} may be degrees and minutes or a ratio", hint)


def refuse(text: str, sentence: str, hint: str) -> NoReturn:
    """Raise the error of a whole text."""
    begin = len(text) - len(text.lstrip())
    raise TextError(text, begin, len(text.rstrip()), sentence, hint=hint)


def not_zero(text: str, number: str) -> Fraction:
    """Return a number as written, refused where it is zero."""
    value = Fraction(number)
    if value == 0:
        refuse(text, "zero is no taper", TAPER_HINT)
    return value


def _angle_meanings(written: str, angle: Angle) -> tuple[str, ...]:
    """Return what a lone angle can mean; per side only below 90 degrees, included only below 180."""
    meanings = []
    if angle < Angle.from_degrees(90):
        double = Angle(arcseconds=2 * angle.arcseconds)
        meanings.append(_meaning(f"{written}/side", angle, double))
    if angle < Angle.from_degrees(180):
        meanings.append(_meaning(f"{written} included", Angle(arcseconds=angle.arcseconds / 2), angle))
    return tuple(meanings)


def spelled(written: str, rate: Fraction, note: str = "") -> str:
    """Return one way of writing a rate and the angles it gives."""
    half = half_of_rate(rate)
    return _meaning(f"{written}{note}", half, Angle(arcseconds=2 * half.arcseconds))


def _meaning(written: str, half: Angle, included: Angle) -> str:
    """Return one way of writing it and both of its angles."""
    return f"{written} -> half {short_degrees_text(half, 6)}, included {short_degrees_text(included, 6)}"


def _ratio_text(rate: Fraction) -> str:
    """Return a rate as a ratio of whole numbers."""
    return f"{rate.numerator}:{rate.denominator}"


def _join(*meanings: str) -> str:
    """Return the meanings in one line."""
    return "; ".join(meanings)
