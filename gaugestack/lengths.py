"""Exact lengths: text to whole picometres and back.

The only place that reads or prints a length.  A length is an `int` counting
picometres: 1 in = 25.4 mm exactly = 25 400 000 000 pm, 0.01 microinch = 254 pm.
No float enters or leaves.

    >>> read_length("0.6202in").length
    15753080000
    >>> exact_text(read_length("5/8in").length, Unit.INCH)
    '0.625 in'

Does not know tolerances, angles or sets.
Source of the inch: international yard and pound agreement, July 1959.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import NewType

from gaugestack.errors import TextError

Length = NewType("Length", int)
"""A length or a difference of lengths in whole picometres."""

PM_PER_MM = 1_000_000_000
PM_PER_INCH = 25_400_000_000
LONGEST = Length(100_000 * PM_PER_MM)
"""100 m: anything longer is a slip of the keyboard."""
LONGEST_TEXT = 64


class Unit(StrEnum):
    """The two units a set is engraved in."""

    INCH = "in"
    MILLIMETRE = "mm"

    @property
    def picometres(self) -> int:
        """How many picometres one unit holds."""
        return PM_PER_INCH if self is Unit.INCH else PM_PER_MM

    @property
    def small(self) -> str:
        """Name of a millionth of an inch or a thousandth of a millimetre."""
        return "µin" if self is Unit.INCH else "µm"

    @property
    def small_picometres(self) -> int:
        """How many picometres the small unit holds."""
        return 25_400 if self is Unit.INCH else 1_000_000


_UNITS: dict[str, tuple[int, Unit]] = {
    **dict.fromkeys(
        ("in", "inch", "inches", '"', "\N{DOUBLE PRIME}", "\N{RIGHT DOUBLE QUOTATION MARK}"),
        (PM_PER_INCH, Unit.INCH),
    ),
    **dict.fromkeys(("ft", "foot", "feet"), (12 * PM_PER_INCH, Unit.INCH)),
    **dict.fromkeys(("thou",), (PM_PER_INCH // 1000, Unit.INCH)),
    **dict.fromkeys(("\N{GREEK SMALL LETTER MU}in", "uin"), (25_400, Unit.INCH)),
    "mm": (PM_PER_MM, Unit.MILLIMETRE),
    "cm": (10 * PM_PER_MM, Unit.MILLIMETRE),
    "m": (1000 * PM_PER_MM, Unit.MILLIMETRE),
    **dict.fromkeys(("\N{GREEK SMALL LETTER MU}m", "um"), (1_000_000, Unit.MILLIMETRE)),
    "nm": (1000, Unit.MILLIMETRE),
}
"""Units by their casefolded name, which makes a micro sign a mu."""
LENGTH_HINT = "write a length like 0.6202in, 15.752mm, 12 µm, 40 µin, 5/8in or 1-3/8in"
_NUMBER = re.compile(
    r"(?P<sign>[+\-\N{MINUS SIGN}]?)\s*"
    r"(?:(?P<whole>[0-9]{1,12})(?:\s*-\s*|\s+))?(?P<over>[0-9]{1,12})\s*/\s*(?P<under>[0-9]{1,12})"
    r"|(?P<sign2>[+\-\N{MINUS SIGN}]?)\s*(?P<decimal>[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
)
_POWER = re.compile(r"[eE][+\-]?[0-9]")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadLength:
    """A length as somebody wrote it.

    `unit` is the unit of the answer (inch texts answer in inches); `bare` is
    true where no unit stood and the caller's was taken.
    """

    length: Length
    unit: Unit
    bare: bool
    text: str


def read_length(text: str, *, bare_unit: Unit | None = None, signed: bool = False) -> ReadLength:
    """Read one length.

    `bare_unit` is the unit of a number that has none; without it such a number
    is refused.  `signed` admits a sign and zero (a deviation); otherwise the
    length must be above zero.

    Raises TextError with the range of the wrong characters.
    """
    value, end = _read_number(text)
    length, unit, bare = _apply_unit(text, value, end, bare_unit)
    if not signed:
        _refuse_not_positive(text, value, end)
    if abs(length) > LONGEST:
        raise TextError(text, 0, len(text), "longer than 100 m", hint="check the unit")
    return ReadLength(length=length, unit=unit, bare=bare, text=text.strip())


def small_bare(text: str, unit: Unit) -> Length:
    """Read a signed deviation; a bare number counts µin beside inches, µm beside millimetres.

    Raises TextError.
    """
    value, end = _read_number(text)
    if text[end:].strip():
        return read_length(text, signed=True).length
    return _whole(text, value * unit.small_picometres)


def counted(text: str, one: Length) -> Length:
    """Read a signed number without a unit that counts `one`, as the cells of a column do.

    Raises TextError, also where a unit or anything else follows the number.
    """
    value, end = _read_number(text)
    rest = text[end:].strip()
    if rest:
        start = text.index(rest[0], end)
        sentence = "a comma in a number" if rest[0] == "," else f"a plain number is wanted, without {rest!r}"
        raise TextError(text, start, start + len(rest), sentence)
    return _whole(text, value * one)


def exact_text(length: int, unit: Unit) -> str:
    """Print a length without any rounding, with its unit.

    In `unit` where its decimals end there, else in millimetres, where they
    always do (nine at most).
    """
    digits = _exact_digits(length, unit)
    return f"{digits} {unit.value}" if digits else f"{_exact_digits(length, Unit.MILLIMETRE)} mm"


def engraved_text(length: int, unit: Unit) -> str:
    """Print a block's size as it is engraved: at least three decimals in inches."""
    digits = _exact_digits(length, unit)
    if digits is None:
        return exact_text(length, unit)
    whole, _, decimals = digits.partition(".")
    padded = decimals.ljust(3, "0") if unit is Unit.INCH else decimals
    return f"{whole}.{padded} {unit.value}" if padded else f"{whole} {unit.value}"


def rounded_text(length: int | Fraction, unit: Unit, places: int) -> str:
    """Print a length rounded half to even to `places` decimals, with its unit."""
    scaled = round(Fraction(length) * 10**places / unit.picometres)
    return f"{_decimal(scaled, places)} {unit.value}"


def small_text(length: int | Fraction, unit: Unit, places: int = 1) -> str:
    """Print a signed deviation in µin or µm, rounded half to even to `places` decimals."""
    scaled = round(Fraction(length) * 10**places / unit.small_picometres)
    sign = "+" if scaled > 0 else ""
    return f"{sign}{_decimal(scaled, places)} {unit.small}"


def _read_number(text: str) -> tuple[Fraction, int]:
    """Return the number a text begins with and where it ends."""
    if not text.strip():
        raise TextError(text, 0, 1, "empty: a length is wanted", hint=LENGTH_HINT)
    if len(text) > LONGEST_TEXT:
        raise TextError(text, LONGEST_TEXT, len(text), "too long to be a length", hint=LENGTH_HINT)
    begin = len(text) - len(text.lstrip())
    match = _NUMBER.match(text, begin)
    if match is None:
        raise TextError(text, begin, begin + 1, "no number here", hint=LENGTH_HINT)
    return _number_of(text, match), match.end()


def _number_of(text: str, match: re.Match[str]) -> Fraction:
    """Return the exact number of a match, with its sign."""
    minus = (match["sign"] or match["sign2"] or "") in ("-", "\N{MINUS SIGN}")
    if match["decimal"]:
        value = Fraction(match["decimal"])
    else:
        if int(match["under"]) == 0:
            raise TextError(
                text, match.start("under"), match.end("under"), "a fraction over zero", hint=LENGTH_HINT
            )
        value = Fraction(int(match["over"]), int(match["under"])) + int(match["whole"] or 0)
    return -value if minus else value


def _apply_unit(text: str, value: Fraction, end: int, bare_unit: Unit | None) -> tuple[Length, Unit, bool]:
    """Return the length, the unit it answers in, and whether it was bare."""
    rest = text[end:]
    name = rest.strip()
    if not name:
        if bare_unit is None:
            raise TextError(text, end, end + 1, "a unit is missing", hint=LENGTH_HINT)
        return _whole(text, value * bare_unit.picometres), bare_unit, True
    found = _UNITS.get(name.casefold())
    if found is None:
        start = end + len(rest) - len(rest.lstrip())
        raise TextError(text, start, start + len(name), _unit_sentence(name), hint=LENGTH_HINT)
    return _whole(text, value * found[0]), found[1], False


def _unit_sentence(name: str) -> str:
    """Say what is wrong with the text where a unit should stand."""
    if name[0] == ",":
        return "a comma: write the decimal point as a point"
    if name[0].isdigit():
        return "a second number: one length is wanted"
    if _POWER.match(name):
        return "powers of ten are not read: write the number out"
    return f"{name!r} is not a unit of length"


def _refuse_not_positive(text: str, value: Fraction, end: int) -> None:
    """Refuse zero and below."""
    if value < 0:
        raise TextError(text, 0, end, "below zero: a length is above zero", hint=LENGTH_HINT)
    if value == 0:
        raise TextError(text, 0, end, "zero: a length is above zero", hint=LENGTH_HINT)


def _whole(text: str, picometres: Fraction) -> Length:
    """Return the length if it is a whole number of picometres."""
    if picometres.denominator != 1:
        raise TextError(
            text,
            0,
            len(text.rstrip()),
            "not a whole number of picometres",
            hint="write fewer decimals; a fraction must end as a decimal",
        )
    return Length(picometres.numerator)


def _exact_digits(length: int, unit: Unit) -> str | None:
    """Return all decimals of a length in a unit, or None where they never end.

    Those that end do so at the ninth: 1 mm is 2**9 * 5**9 pm, 1 in is 127 * 2**9 * 5**8 pm.
    """
    scaled = Fraction(length * 10**9, unit.picometres)
    if scaled.denominator != 1:
        return None
    return _decimal(scaled.numerator, 9).rstrip("0").removesuffix(".")


def _decimal(scaled: int, places: int) -> str:
    """Print `scaled` / 10**places with exactly `places` decimals."""
    digits = str(abs(scaled)).rjust(places + 1, "0")
    sign = "-" if scaled < 0 else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else f"{sign}{digits}"
