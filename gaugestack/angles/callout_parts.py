"""Pieces the forms of a call-out share: a length, a rate or an angle inside a longer text.

A mistake of a piece keeps its place in the whole text.  The forms themselves
stand in callout.py, callout_slopes.py and flat.py.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from gaugestack.angles.ambiguity import TAPER_HINT, not_zero, refuse, refuse_ratio_like_angle
from gaugestack.angles.angle import Angle, ReadAngle, read_angle, short_degrees_text
from gaugestack.angles.taper import Taper, half_of_rate, taper_of_rate
from gaugestack.errors import TextError
from gaugestack.lengths import ReadLength, Unit, read_length

STEEPEST_RATE = Fraction(2)
"""A rate on diameter above this (45 degrees a side) is taken for a slip and refused."""
UNUSUAL_RATE = Fraction(1, 2)
"""A rate on diameter above this is asked about."""
__all__ = ["angle_at", "length_at", "not_zero", "of_half", "of_rate", "per_length_at", "refuse_mixed_units"]

NUMBER = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"


def of_rate(text: str, rate: Fraction, reading: str, *, per_inch: bool = False) -> Taper:
    """Return the taper of a rate, refused above 2 or without an angle, and asked about above 0.5."""
    taper = taper_of_rate(rate, call_out=text.strip(), reading=reading)
    if taper.half.arcseconds == 0:
        refuse(text, "so slender a taper has no angle", TAPER_HINT)
    if rate > STEEPEST_RATE:
        _refuse_steep(text, taper, per_inch=per_inch)
    if rate <= UNUSUAL_RATE:
        return taper
    question = f"{text.strip()} is {short_degrees_text(taper.half)} per side: is so steep a cone meant?"
    if per_inch:
        question = f"{text.strip()} is {taper.one_in_text}: was that per foot?"
    return replace(taper, question=question)


def of_half(text: str, half: Angle, reading: str) -> Taper:
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
    per_foot = half_of_rate(taper.exact_rate / 12)
    hint = f"per foot it is {short_degrees_text(per_foot)} per side; {included}"
    refuse(text, f"{sentence}\N{DEGREE SIGN}: was per foot typed as per inch?", hint)


def refuse_mixed_units(text: str, read: tuple[ReadLength, ...], bare_unit: Unit | None) -> None:
    """Refuse numbers without a unit beside lengths of the other system."""
    if any(one.bare for one in read) and any(one.unit is not bare_unit for one in read):
        hint = "write the unit of all three"
        refuse(text, f"numbers without a unit would be {unit_name(bare_unit)}, beside another unit", hint)


def unit_name(unit: Unit | None) -> str:
    """Return a unit's name in words."""
    return "inches" if unit is Unit.INCH else "millimetres"


def length_at(text: str, start: int, end: int, *, bare_unit: Unit | None, signed: bool = False) -> ReadLength:
    """Read the length in text[start:end]; a mistake keeps its place in the whole text."""
    try:
        return read_length(text[start:end], bare_unit=bare_unit, signed=signed)
    except TextError as error:
        raise _moved(text, start, error) from None


def per_length_at(text: str, start: int, end: int) -> ReadLength:
    """Read what stands after `per`: a length, or a unit alone, which counts one."""
    part = text[start:end]
    if not part.strip() or not part.strip()[0].isalpha():
        return length_at(text, start, end, bare_unit=None)
    try:
        return read_length(f"1{part}")
    except TextError as error:
        raise _moved(text, start - 1, error) from None


def angle_at(text: str, start: int, end: int) -> ReadAngle:
    """Read the angle in text[start:end]; a mistake keeps its place in the whole text."""
    refuse_ratio_like_angle(text, text[start:end])
    try:
        return read_angle(text[start:end])
    except TextError as error:
        raise _moved(text, start, error) from None


def _moved(text: str, by: int, error: TextError) -> TextError:
    """Return an error of a part as an error of the whole text."""
    return TextError(text, by + error.start, by + error.end, error.sentence, hint=error.hint)
