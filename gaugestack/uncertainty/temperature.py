"""Temperatures as somebody wrote them, to exact degrees Celsius and kelvin.

    read_temperature("68 °F").celsius                 # Fraction(20)
    read_temperature_difference("2 °F")               # Fraction(10, 9), in kelvin

A bare number is never guessed at: 68 is asked back as 68 °F.
Knows no materials.  Reference temperature: 20 °C (ISO 1), 68 °F exactly.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from gaugestack.errors import TextError

REFERENCE = Fraction(20)
"""Lengths are stated at 20 °C (ISO 1:1975 and later)."""
COLDEST, HOTTEST = Fraction(-10), Fraction(60)
"""No bench is colder or hotter."""
_LONGEST_TEXT = 32
_NUMBER = re.compile(
    r"\s*(?:\+/-|\N{PLUS-MINUS SIGN})?\s*(?P<number>[+\-\N{MINUS SIGN}]?[0-9]{1,4}(?:\.[0-9]{0,6})?)\s*"
)
_CELSIUS = ("°C", "C", "degC", "deg C", "\N{DEGREE CELSIUS}", "celsius")
_FAHRENHEIT = ("°F", "F", "degF", "deg F", "\N{DEGREE FAHRENHEIT}", "fahrenheit")
_HINT = "write a temperature like 20 °C or 68 °F"
_DIFFERENCE_HINT = "write a difference like 0.5 K, 0.5 °C or 1 °F"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadTemperature:
    """A temperature as somebody wrote it, in exact degrees Celsius."""

    celsius: Fraction
    text: str

    @property
    def above_reference(self) -> Fraction:
        """How many kelvin it is above 20 °C; below zero where it is colder."""
        return self.celsius - REFERENCE


def read_temperature(text: str) -> ReadTemperature:
    """Read a temperature in °C or °F, -10 °C to 60 °C.  Raises TextError with the wrong characters."""
    number, end = _number(text, _HINT)
    scale = _scale(text, end)
    if not scale:
        raise TextError(text, 0, len(text.rstrip()), _question(number), hint=_HINT)
    if scale == "K":
        raise TextError(text, end, len(text), "kelvin are for differences here", hint=_HINT)
    celsius = _celsius(number) if scale == "F" else number
    if not COLDEST <= celsius <= HOTTEST:
        raise TextError(text, 0, len(text.rstrip()), _odd(number, scale), hint=_HINT)
    return ReadTemperature(celsius=celsius, text=text.strip())


def read_temperature_difference(text: str) -> Fraction:
    """Read a difference of temperature in K, °C or °F; return kelvin, -70 to 70.  Raises TextError."""
    number, end = _number(text, _DIFFERENCE_HINT)
    scale = _scale(text, end)
    if not scale:
        sentence = f"{text.strip()} of what: K, °C or °F?"
        raise TextError(text, 0, len(text.rstrip()), sentence, hint=_DIFFERENCE_HINT)
    kelvin = number * Fraction(5, 9) if scale == "F" else number
    if abs(kelvin) > HOTTEST - COLDEST:
        sentence = "a difference larger than between any two benches"
        raise TextError(text, 0, len(text.rstrip()), sentence, hint=_DIFFERENCE_HINT)
    return kelvin


def _number(text: str, hint: str) -> tuple[Fraction, int]:
    """Return the number a text begins with and where its scale begins."""
    if len(text) > _LONGEST_TEXT:
        raise TextError(text, _LONGEST_TEXT, len(text), "too long to be a temperature", hint=hint)
    match = _NUMBER.match(text)
    if match is None:
        begin = min(len(text) - len(text.lstrip()), max(0, len(text) - 1))
        raise TextError(text, begin, begin + 1, "no temperature here", hint=hint)
    return Fraction(match["number"].replace("\N{MINUS SIGN}", "-")), match.end()


def _scale(text: str, end: int) -> str:
    """Return C, F, K, or nothing for a bare number."""
    name = text[end:].strip().casefold()
    if not name:
        return ""
    if name in ("k", "kelvin"):
        return "K"
    for letter, names in (("C", _CELSIUS), ("F", _FAHRENHEIT)):
        if name in [known.casefold() for known in names]:
            return letter
    sentence = f"{text[end:].strip()!r} is no scale of temperature"
    raise TextError(text, end, len(text.rstrip()), sentence, hint="°C or °F")


def _celsius(fahrenheit: Fraction) -> Fraction:
    """Return degrees Celsius."""
    return (fahrenheit - 32) * Fraction(5, 9)


def _question(number: Fraction) -> str:
    """Ask back what scale a bare number counts: only the plausible ones are offered."""
    shown = f"{float(number):g}"
    if COLDEST <= number <= 40:
        return f"{shown}: °C?"
    if number > 40 and _celsius(number) <= HOTTEST:
        return f"{shown}: °F? ({shown} °F is {float(_celsius(number)):.4g} °C)"
    return f"{shown}: °C or °F?"


def _odd(number: Fraction, scale: str) -> str:
    """Say that no bench has this temperature; offer the other scale where it has."""
    shown = f"{float(number):g}"
    if scale == "C" and COLDEST <= _celsius(number) <= HOTTEST:
        return f"{shown} °C is too hot for a bench: {shown} °F?"
    return f"{shown} °{scale} is no temperature of a bench"
