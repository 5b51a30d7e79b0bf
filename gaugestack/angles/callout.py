"""Taper call-outs: what stands on a drawing, read into a `Taper`.

    >>> read_taper("3in/ft", bare_unit=None).one_in_text
    '1:4'
    >>> read_taper("7.125deg/side", bare_unit=None).included.degrees
    14.25

Each form is one small rule of `_RULES`, tried in order: it returns a Taper,
or None where the text is not of its form.  Texts with two meanings are not
guessed at: ambiguity.py refuses them and spells the meanings out.
Published tapers by name are not read here.
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
    refuse_name,
    refuse_one_in,
    refuse_ratio_like_angle,
)
from gaugestack.angles.angle import (
    Angle,
    ReadAngle,
    dms_text,
    read_angle,
    refuse_odd_text,
    short_degrees_text,
)
from gaugestack.angles.taper import Taper, taper_of_rate
from gaugestack.errors import TextError
from gaugestack.lengths import PM_PER_INCH, PM_PER_MM, ReadLength, Unit, exact_text, read_length

if TYPE_CHECKING:
    from collections.abc import Callable

STEEPEST_RATE = Fraction(2)
"""A rate on diameter above this (45 degrees a side) is taken for a slip and refused."""
UNUSUAL_RATE = Fraction(1, 2)
"""A rate on diameter above this is asked about."""

_PER_NAMES = {
    PM_PER_INCH: "inch",
    12 * PM_PER_INCH: "foot",
    PM_PER_MM: "mm",
    10 * PM_PER_MM: "cm",
    1000 * PM_PER_MM: "metre",
}
_NUMBER = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_OVER = re.compile(r"(?is)(?P<large>.*?)\bto\b(?P<small>.*?)\bover\b(?P<length>.*)")
_INCLUDED = re.compile(
    r"(?is)(?P<angle>.*?)(?<![a-z])(?:included|incl\.?)(?:\s+angle)?\s*|\s*included\s+(?P<after>.*)"
)
_PER_SIDE = re.compile(r"(?is)(?P<angle>.*?)(?:/|\b(?:per|each)\b)\s*side\s*")
_RATIO = re.compile(rf"\s*(?P<over>{_NUMBER})\s*:\s*(?P<under>{_NUMBER})\s*")
_RATE = re.compile(r"(?is)(?P<over>.*)(?:/|\bper\b)(?P<under>.*)")


def read_taper(text: str, *, bare_unit: Unit | None) -> Taper:
    """Read one call-out of a cone.

    A length per length on diameter (`3in/ft`, `0.25in/in`, `50mm/m`), a ratio
    (`1:4`, diameter over length, ISO 3040), an angle per side or included, two
    diameters over a length.  `bare_unit` is the unit of diameters and a length
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


def _diameters_over_length(text: str, bare_unit: Unit | None) -> Taper | None:
    """`1.25in to 0.75in over 4in`: the large end, the small end, the length between them."""
    match = _OVER.fullmatch(text)
    if match is None:
        return None
    large, small, length = (
        _length_at(text, *match.span(name), bare_unit=bare_unit) for name in ("large", "small", "length")
    )
    _refuse_mixed_units(text, (large, small, length), bare_unit)
    if small.length >= large.length:
        _refuse_ends(text, match, large, small)
    written = [exact_text(one.length, one.unit) for one in (large, small, length)]
    bare = any(one.bare for one in (large, small, length))
    taken = f" (numbers without a unit read in {_unit_name(bare_unit)})" if bare else ""
    reading = f"{written[0]} to {written[1]} diameter over {written[2]}{taken}"
    return _of_rate(text, Fraction(large.length - small.length, length.length), reading)


def _included_angle(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`14.25deg included`: the whole angle of the cone."""
    match = _INCLUDED.fullmatch(text)
    if match is None:
        return None
    read = _angle_at(text, *match.span("after" if match["angle"] is None else "angle"))
    half = Angle(arcseconds=read.angle.arcseconds / 2)
    return _of_half(text, half, f"{dms_text(read.angle)} included angle")


def _angle_per_side(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`7.125deg/side`: the angle between flank and axis."""
    match = _PER_SIDE.fullmatch(text)
    if match is None:
        return None
    if "/" in match["angle"]:
        hint = "a slope per side is half of the taper on diameter: write twice it, like 3in/ft"
        refuse(text, "a rate per side: rates are read on diameter", hint)
    read = _angle_at(text, *match.span("angle"))
    return _of_half(text, read.angle, f"{dms_text(read.angle)} per side (half angle)")


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
    return _of_rate(text, over / under, reading)


def _rate(text: str, _bare_unit: Unit | None) -> Taper | None:
    """`3in/ft`, `3 in per foot`, `1mm/20mm`: a length on diameter per length along the axis."""
    match = _RATE.fullmatch(text)
    if match is None:
        return None
    over = _length_at(text, *match.span("over"), bare_unit=None, signed=True)
    if over.length == 0:
        refuse(text, "a rate of zero is no taper", TAPER_HINT)
    under = _per_length_at(text, *match.span("under"))
    name = _PER_NAMES.get(under.length) or exact_text(under.length, under.unit)
    reading = f"{exact_text(over.length, over.unit)} per {name} on diameter"
    return _of_rate(text, Fraction(over.length, under.length), reading, per_inch=name == "inch")


_RULES: tuple[Callable[[str, Unit | None], Taper | None], ...] = (
    _diameters_over_length,
    _included_angle,
    _angle_per_side,
    refuse_one_in,
    _ratio,
    refuse_lone_length,
    refuse_bare_fraction,
    _rate,
    refuse_bare_number,
    refuse_name,
    refuse_lone_angle,
)


def _of_rate(text: str, rate: Fraction, reading: str, *, per_inch: bool = False) -> Taper:
    """Return the taper of a rate, refused above 2 and asked about above 0.5."""
    taper = taper_of_rate(rate, call_out=text.strip(), reading=reading)
    if rate > STEEPEST_RATE:
        _refuse_steep(text, taper, per_inch=per_inch)
    if rate <= UNUSUAL_RATE:
        return taper
    question = f"{text.strip()} is {short_degrees_text(taper.half)} per side: is so steep a cone meant?"
    if per_inch:
        question = f"{text.strip()} is {taper.one_in_text}: was that per foot?"
    return taper_of_rate(rate, call_out=taper.call_out, reading=reading, question=question)


def _of_half(text: str, half: Angle, reading: str) -> Taper:
    """Return the taper of a half angle above 0 and below 90 degrees."""
    if half.arcseconds == 0:
        refuse(text, "an angle of zero is no taper", TAPER_HINT)
    if half >= Angle.from_degrees(90):
        refuse(text, "a cone's included angle is below 180\N{DEGREE SIGN}", TAPER_HINT)
    return Taper(call_out=text.strip(), reading=reading, half=half)


def _refuse_steep(text: str, taper: Taper, *, per_inch: bool) -> None:
    """Refuse a rate above 2; say what it would be per foot where it was typed per inch."""
    sentence = f"{taper.one_in_text} on diameter is {short_degrees_text(taper.half)} per side, above 45"
    included = f"if it is meant, write {short_degrees_text(taper.included)} included"
    if not per_inch:
        refuse(text, f"{sentence}\N{DEGREE SIGN}", included)
    rate = taper.exact_rate / 12
    per_foot = taper_of_rate(rate, call_out="", reading="")
    hint = f"per foot it is {short_degrees_text(per_foot.half)} per side; {included}"
    refuse(text, f"{sentence}\N{DEGREE SIGN}: was per foot typed as per inch?", hint)


def _refuse_ends(text: str, match: re.Match[str], large: ReadLength, small: ReadLength) -> None:
    """Refuse two diameters that do not fall."""
    first, second = exact_text(large.length, large.unit), exact_text(small.length, small.unit)
    sentence = f"both ends are {first}: no taper"
    if small.length > large.length:
        sentence = f"the second diameter, {second}, is larger than the first, {first}"
    hint = "write the large end first, like 1.25in to 0.75in over 4in"
    raise TextError(text, match.start("large"), match.end("small"), sentence, hint=hint)


def _refuse_mixed_units(text: str, read: tuple[ReadLength, ...], bare_unit: Unit | None) -> None:
    """Refuse numbers without a unit beside lengths of the other system."""
    if any(one.bare for one in read) and any(one.unit is not bare_unit for one in read):
        hint = "write the unit of all three"
        refuse(text, f"numbers without a unit would be {_unit_name(bare_unit)}, beside another unit", hint)


def _unit_name(unit: Unit | None) -> str:
    """Return a unit's name in words."""
    return "inches" if unit is Unit.INCH else "millimetres"


def _refuse_sign(text: str) -> None:
    """Refuse a taper below zero."""
    begin = len(text) - len(text.lstrip())
    if text[begin] in "-\N{MINUS SIGN}":
        raise TextError(text, begin, len(text.rstrip()), "below zero: a taper has no sign", hint=TAPER_HINT)


def _length_at(
    text: str, start: int, end: int, *, bare_unit: Unit | None, signed: bool = False
) -> ReadLength:
    """Read the length in text[start:end]; a mistake keeps its place in the whole text."""
    try:
        return read_length(text[start:end], bare_unit=bare_unit, signed=signed)
    except TextError as error:
        raise _moved(text, start, error) from None


def _per_length_at(text: str, start: int, end: int) -> ReadLength:
    """Read what stands after `per`: a length, or a unit alone, which counts one."""
    part = text[start:end]
    if not part.strip() or not part.strip()[0].isalpha():
        return _length_at(text, start, end, bare_unit=None)
    try:
        return read_length(f"1{part}")
    except TextError as error:
        raise _moved(text, start - 1, error) from None


def _angle_at(text: str, start: int, end: int) -> ReadAngle:
    """Read the angle in text[start:end]; a mistake keeps its place in the whole text."""
    refuse_ratio_like_angle(text, text[start:end])
    try:
        return read_angle(text[start:end])
    except TextError as error:
        raise _moved(text, start, error) from None


def _moved(text: str, by: int, error: TextError) -> TextError:
    """Return an error of a part as an error of the whole text."""
    return TextError(text, by + error.start, by + error.end, error.sentence, hint=error.hint)
