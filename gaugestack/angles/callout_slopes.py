"""Call-outs in percent, as the slope of each side, and as diameters at gauge lines.

    >>> slope_per_side("slope 1:20 per side", None).one_in_text
    '1:10'

Each rule returns a Taper, or None where the text is not of its form.  A bare
`5%` is refused: on diameter and per side differ by a factor of two.
Source of percent: taper 1:x is 100/x percent on diameter (ISO 3040, from memory).
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.ambiguity import TAPER_HINT, refuse, spelled
from gaugestack.angles.callout_parts import (
    NUMBER,
    length_at,
    not_zero,
    of_rate,
    per_length_at,
    refuse_mixed_units,
)
from gaugestack.errors import TextError
from gaugestack.lengths import Unit, exact_text

if TYPE_CHECKING:
    from gaugestack.angles.taper import Taper
    from gaugestack.lengths import ReadLength

_SIDE = r"(?:/\s*side|(?:per|each)\s+side)"
_PERCENT = re.compile(
    rf"(?i)\s*(?:slope\s+)?(?P<number>{NUMBER})\s*(?:%|percent)\s*"
    rf"(?P<kind>on\s+diameter|/\s*diameter|(?:slope\s+)?{_SIDE})?\s*"
)
_SLOPE = re.compile(rf"(?i)\s*(?:slope\s+(?P<after>.+?)|(?P<before>.+?)\s+slope)\s*{_SIDE}\s*")
_SLOPE_WORD = re.compile(r"(?i)\s*slope\b.*|.*\bslope\s*")
_RATIO = re.compile(rf"\s*(?P<over>{NUMBER})\s*:\s*(?P<under>{NUMBER})\s*")
_RATE = re.compile(r"(?is)(?P<over>.*)(?:/|\bper\b)(?P<under>.*)")
_STATIONS = re.compile(r"(?is)(?P<one>.*?)\bat\b(?P<one_at>.*?)\band\b(?P<other>.*?)\bat\b(?P<other_at>.*)")


def percent(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`5% on diameter` is C = 1/20, `5%/side` C = 1/10; `5%` alone is refused with both."""
    match = _PERCENT.fullmatch(text)
    if match is None:
        return None
    number = match["number"]
    rate = not_zero(text, number) / 100
    kind = (match["kind"] or "").casefold()
    if "diameter" in kind:
        return of_rate(text, rate, f"{number} % on diameter")
    if "side" in kind:
        return of_rate(text, 2 * rate, f"{number} % slope of each side, twice that on diameter")
    hint = "; ".join((spelled(f"{number}% on diameter", rate), spelled(f"{number}%/side", 2 * rate)))
    return refuse(text, f"{text.strip()!r} may be the taper on diameter or the slope of each side", hint)


def slope_per_side(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`slope 1:20 per side`, `slope 0.25in/ft per side`: radius over length, half the rate on diameter."""
    match = _SLOPE.fullmatch(text)
    if match is None:
        _refuse_slope(text)
        return None
    name = "before" if match["after"] is None else "after"
    slope = slope_at(text, *match.span(name))
    written = match[name].strip()
    return of_rate(text, 2 * slope, f"{written} slope of each side, twice that on diameter")


def slope_at(text: str, start: int, end: int) -> Fraction:
    """Return the slope written in text[start:end]: a ratio or a length per length.

    Raises TextError.
    """
    part = text[start:end]
    ratio = _RATIO.fullmatch(part)
    if ratio is not None:
        _refuse_minutes(text, part.strip(), ratio["over"], ratio["under"])
        return not_zero(text, ratio["over"]) / not_zero(text, ratio["under"])
    match = _RATE.fullmatch(part)
    if match is None:
        hint = "write a slope like 1:20 or 0.25in/ft"
        raise TextError(text, start, end, f"{part.strip()!r} is not a slope", hint=hint)
    over = length_at(text, start, start + match.end("over"), bare_unit=None)
    under = per_length_at(text, start + match.start("under"), start + match.end("under"))
    return Fraction(over.length, under.length)


def diameters_at(text: str, bare_unit: Unit | None) -> Taper | None:
    """`1.25in at 0in and 0.75in at 4in`: two gauge-line diameters and where they stand on the axis."""
    match = _STATIONS.fullmatch(text)
    if match is None:
        return None
    names = ("one", "one_at", "other", "other_at")
    one, one_at, other, other_at = (
        length_at(text, *match.span(name), bare_unit=bare_unit, signed=name.endswith("_at")) for name in names
    )
    refuse_mixed_units(text, (one, one_at, other, other_at), bare_unit)
    apart = abs(other_at.length - one_at.length)
    if apart == 0:
        refuse(text, f"both diameters stand at {_said(one_at)}: no length between them", TAPER_HINT)
    if one.length == other.length:
        refuse(text, f"both diameters are {_said(one)}: no taper", TAPER_HINT)
    reading = f"{_said(one)} diameter at {_said(one_at)}, {_said(other)} diameter at {_said(other_at)}"
    return of_rate(text, Fraction(abs(one.length - other.length), apart), reading)


def _refuse_minutes(text: str, part: str, over: str, under: str) -> None:
    """Refuse `7:07` as a slope: 7 degrees 7 minutes looks just like it."""
    if len(under) > 1 and under[0] == "0" and under[1].isdigit():
        hint = f"write {over}d{under}m for the angle, {over}:{under.lstrip('0') or '0'} for the slope"
        refuse(text, f"{part!r} may be degrees and minutes or a slope", hint)


def _said(read: ReadLength) -> str:
    """Return a length in the unit it was written in."""
    return exact_text(read.length, read.unit)


def _refuse_slope(text: str) -> None:
    """Refuse `slope 1:20`: of each side of a cone, or of a flat."""
    if _SLOPE_WORD.fullmatch(text) is None:
        return
    bare = re.sub(r"(?i)\bslope\b", "", text).strip()
    hint = f"write slope {bare} per side for a cone, flat {bare} for a wedge"
    refuse(text, "a slope alone: of each side of a cone, or of a flat wedge?", hint)
