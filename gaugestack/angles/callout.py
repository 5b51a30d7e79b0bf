"""Taper call-outs: what stands on a drawing, read into a `Taper`.

    >>> read_taper("3in/ft", bare_unit=None).one_in_text
    '1:4'
    >>> read_taper("7.125deg/side", bare_unit=None).included.degrees
    14.25

Each form is one small rule of `_RULES`, tried in order: it returns a Taper,
or None where the text is not of its form.  Texts with two meanings are not
guessed at: ambiguity.py refuses them and spells the meanings out.
Published tapers are read by their standard names (published.py); a flat wedge
is no cone and a value of its own (flat.py), which only `read_call_out` returns.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.ambiguity import (
    TAPER_HINT,
    refuse,
    refuse_bare_fraction,
    refuse_bare_number,
    refuse_lone_angle,
    refuse_lone_length,
    refuse_minutes_like_ratio,
    refuse_one_in,
)
from gaugestack.angles.angle import Angle, dms_text, refuse_odd_text, short_degrees_text
from gaugestack.angles.callout_parts import (
    NUMBER,
    angle_at,
    length_at,
    of_half,
    of_rate,
    per_length_at,
    refuse_mixed_units,
    unit_name,
)
from gaugestack.angles.callout_slopes import diameters_at, percent, slope_per_side
from gaugestack.angles.flat import Flat, is_flat, read_flat
from gaugestack.angles.published import find_published, looks_like_a_name
from gaugestack.errors import TextError
from gaugestack.lengths import LENGTH_HINT, PM_PER_INCH, PM_PER_MM, ReadLength, Unit, exact_text

if TYPE_CHECKING:
    from collections.abc import Callable

    from gaugestack.angles.taper import Taper

_PER_NAMES = {
    PM_PER_INCH: "inch",
    12 * PM_PER_INCH: "foot",
    PM_PER_MM: "mm",
    10 * PM_PER_MM: "cm",
    1000 * PM_PER_MM: "metre",
}
_OVER = re.compile(r"(?is)(?P<large>.*?)\bto\b(?P<small>.*?)\bover\b(?P<length>.*)")
_INCLUDED = re.compile(
    r"(?is)(?P<angle>.*?)(?<![a-z])(?:included|incl\.?)(?:\s+angle)?\s*|\s*included\s+(?P<after>.*)"
)
_PER_SIDE = re.compile(r"(?is)(?P<angle>.*?)(?:/|\b(?:per|each)\b)\s*side\s*")
_RATIO = re.compile(rf"\s*(?P<over>{NUMBER})\s*:\s*(?P<under>{NUMBER})\s*")
_RATE = re.compile(r"(?is)(?P<over>.*)(?:/|\bper\b)(?P<under>.*)")


def read_taper(text: str, *, bare_unit: Unit | None) -> Taper:
    """Read one call-out of a cone.

    A length per length on diameter (`3in/ft`, `0.25in/in`, `50mm/m`), a ratio
    (`1:4`, diameter over length, ISO 3040), an angle per side or included, two
    diameters over a length or at two gauge lines, percent on diameter or per
    side, a slope per side, a published name.  `bare_unit` is the unit of diameters and a length
    without one; None refuses them.

    Raises TextError with the range of the wrong characters; of a text with two
    meanings the hint gives both, with their angles.
    """
    refuse_odd_text(text, "a taper", TAPER_HINT)
    _refuse_sign(text)
    for rule in _RULES:
        taper = rule(text, bare_unit)
        if taper is not None:
            return taper
    raise TextError(text, 0, len(text.rstrip()), "not a taper call-out", hint=TAPER_HINT)


def read_call_out(text: str, *, bare_unit: Unit | None) -> Taper | Flat:
    """Read one call-out of a cone, or of a flat wedge where it begins with `flat`.

    Raises TextError as `read_taper` and `read_flat` do.
    """
    return read_flat(text, bare_unit=bare_unit) if is_flat(text) else read_taper(text, bare_unit=bare_unit)


def _diameters_over_length(text: str, bare_unit: Unit | None) -> Taper | None:
    """`1.25in to 0.75in over 4in`: the large end, the small end, the length between them."""
    match = _OVER.fullmatch(text)
    if match is None:
        return None
    large, small, length = (
        length_at(text, *match.span(name), bare_unit=bare_unit) for name in ("large", "small", "length")
    )
    refuse_mixed_units(text, (large, small, length), bare_unit)
    if small.length >= large.length:
        _refuse_ends(text, match, large, small)
    written = [exact_text(one.length, one.unit) for one in (large, small, length)]
    bare = any(one.bare for one in (large, small, length))
    taken = f" (numbers without a unit read in {unit_name(bare_unit)})" if bare else ""
    reading = f"{written[0]} to {written[1]} diameter over {written[2]}{taken}"
    return of_rate(text, Fraction(large.length - small.length, length.length), reading)


def _included_angle(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`14.25deg included`: the whole angle of the cone."""
    match = _INCLUDED.fullmatch(text)
    if match is None:
        return None
    read = angle_at(text, *match.span("after" if match["angle"] is None else "angle"))
    half = Angle(arcseconds=read.angle.arcseconds / 2)
    return of_half(text, half, f"{dms_text(read.angle)} included angle")


def _angle_per_side(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`7.125deg/side`: the angle between flank and axis."""
    match = _PER_SIDE.fullmatch(text)
    if match is None:
        return None
    if "/" in match["angle"]:
        hint = "write slope before it, like slope 0.125in/ft per side, or twice it for the diameter"
        refuse(text, "a rate per side: rates are read on diameter", hint)
    read = angle_at(text, *match.span("angle"))
    return of_half(text, read.angle, f"{dms_text(read.angle)} per side (half angle)")


def _ratio(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`1:4`: diameter over length, ISO 3040."""
    match = _RATIO.fullmatch(text)
    if match is None:
        return None
    over, under = Fraction(match["over"]), Fraction(match["under"])
    if over == 0 or under == 0:
        refuse(text, "a ratio with zero is no taper", TAPER_HINT)
    refuse_minutes_like_ratio(text, match["over"], match["under"])
    reading = f"{match['over']}:{match['under']} on diameter (ISO 3040)"
    return of_rate(text, over / under, reading)


def _rate(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`3in/ft`, `3 in per foot`, `1mm/20mm`: a length on diameter per length along the axis."""
    match = _RATE.fullmatch(text)
    if match is None:
        return None
    over = _rise(text, *match.span("over"))
    if over.length == 0:
        refuse(text, "a rate of zero is no taper", TAPER_HINT)
    under = per_length_at(text, *match.span("under"))
    name = _PER_NAMES.get(under.length) or exact_text(under.length, under.unit)
    reading = f"{exact_text(over.length, over.unit)} per {name} on diameter"
    return of_rate(text, Fraction(over.length, under.length), reading, per_inch=name == "inch")


def _rise(text: str, start: int, end: int) -> ReadLength:
    """Read the length on diameter of a rate; where no length can be read, the hint shows tapers."""
    try:
        return length_at(text, start, end, bare_unit=None, signed=True)
    except TextError as error:
        hint = TAPER_HINT if error.hint == LENGTH_HINT else error.hint
        raise TextError(text, error.start, error.end, error.sentence, hint=hint) from None


def _published(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`morse 3`, `jarno 6`, `7/24`: a taper by its standard name."""
    if not looks_like_a_name(text):
        return None
    return find_published(text).taper(text)


def _refuse_flat(text: str, bare_unit: Unit | None) -> Taper | None:
    """Refuse `flat 1:12`: a wedge has one angle, not a half and an included one."""
    if not is_flat(text):
        return None
    flat = read_flat(text, bare_unit=bare_unit)
    hint = (
        f"its one angle is {dms_text(flat.angle)} ({short_degrees_text(flat.angle, 6)}): set it as an angle"
    )
    refuse(text, "a flat wedge is no cone: it has no half and no included angle", hint)


_RULES: tuple[Callable[[str, Unit | None], Taper | None], ...] = (
    _refuse_flat,
    diameters_at,
    _diameters_over_length,
    percent,
    slope_per_side,
    _included_angle,
    _angle_per_side,
    refuse_one_in,
    _ratio,
    _published,
    refuse_lone_length,
    refuse_bare_fraction,
    _rate,
    refuse_bare_number,
    refuse_lone_angle,
)


def _refuse_ends(text: str, match: re.Match[str], large: ReadLength, small: ReadLength) -> None:
    """Refuse two diameters that do not fall."""
    first, second = exact_text(large.length, large.unit), exact_text(small.length, small.unit)
    sentence = f"both ends are {first}: no taper"
    if small.length > large.length:
        sentence = f"the second diameter, {second}, is larger than the first, {first}"
    hint = "write the large end first, like 1.25in to 0.75in over 4in"
    raise TextError(text, match.start("large"), match.end("small"), sentence, hint=hint)


def _refuse_sign(text: str) -> None:
    """Refuse a taper below zero."""
    begin = len(text) - len(text.lstrip())
    if text[begin] in "-\N{MINUS SIGN}":
        raise TextError(text, begin, len(text.rstrip()), "below zero: a taper has no sign", hint=TAPER_HINT)
