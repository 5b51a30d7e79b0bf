r"""Angles: text to an exact value and back.

An `Angle` counts arcseconds exactly, so degrees, minutes and seconds lose
nothing; floats appear only where trigonometry takes them.

    >>> dms_text(read_angle("7.125deg").angle)
    '7°07\'30"'
    >>> read_angle("7:07:30").angle.degrees
    7.125

Does not know tapers, bars or what an angle is for: zero and steep angles are
read here and judged by the caller.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import NoReturn

from gaugestack.errors import TextError, UsageError

ARCSECONDS_PER_DEGREE = 3600
LONGEST_TEXT = 64
ANGLE_HINT = "write an angle like 7d7m30s, 7:07:30, 7.125deg or 0.1rad"

_PI = Fraction("3.14159265358979323846264338327950288419716939937510582097494459")
_ARCSECONDS_PER_RADIAN = 648_000 / _PI
_RADIAN_GRID = 10**15
_FULL_TURN = 360 * ARCSECONDS_PER_DEGREE


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Angle:
    """An angle in exact arcseconds; compares and sorts by size."""

    arcseconds: Fraction

    @classmethod
    def from_degrees(cls, degrees: Fraction | float) -> Angle:
        """Return the angle of so many degrees; a float counts as the decimal it prints as.

        Raises UsageError on NaN and infinity.
        """
        exact = Fraction(_finite(degrees)) if isinstance(degrees, float) else Fraction(degrees)
        return cls(arcseconds=exact * ARCSECONDS_PER_DEGREE)

    @classmethod
    def from_radians(cls, radians: float) -> Angle:
        """Return the angle of so many radians, kept to 1e-15 arcsecond.

        Raises UsageError on NaN and infinity.
        """
        _finite(radians)
        return cls(arcseconds=_of_radians(Fraction(radians)))

    @property
    def degrees(self) -> float:
        """The nearest float in degrees."""
        return float(self.arcseconds / ARCSECONDS_PER_DEGREE)

    @property
    def radians(self) -> float:
        """The nearest float in radians (pi taken to 62 decimals, rounded once)."""
        return float(self.arcseconds / _ARCSECONDS_PER_RADIAN)

    def __sub__(self, other: Angle) -> Fraction:
        """Return the difference in arcseconds."""
        return self.arcseconds - other.arcseconds


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadAngle:
    """An angle as somebody wrote it; `bare` is true where no unit stood and degrees were taken."""

    angle: Angle
    bare: bool
    text: str


def read_angle(text: str, *, signed: bool = False) -> ReadAngle:
    """Read one angle of at most a full turn.

    Degrees, minutes and seconds with marks or colons, decimal degrees,
    radians; a bare number counts degrees.  Zero is read; `signed` admits a
    minus.

    Raises TextError with the range of the wrong characters.
    """
    refuse_odd_text(text, "an angle", ANGLE_HINT)
    minus, begin = _read_sign(text, signed=signed)
    parts = _colon_parts(text, begin) if ":" in text else _marked_parts(text, begin)
    for before, part in pairwise(parts):
        _refuse_bad_part(text, before, part)
    size = sum((part.arcseconds for part in parts), start=Fraction(0))
    if size > _FULL_TURN:
        _refuse(text, begin, len(text.rstrip()), "more than a full turn")
    return ReadAngle(
        angle=Angle(arcseconds=-size if minus else size), bare=parts[0].mark is None, text=text.strip()
    )


def dms_text(angle: Angle, places: int = 0) -> str:
    """Print degrees, minutes and seconds, rounded half to even to `places` decimals of a second."""
    scaled = round(angle.arcseconds * 10**places)
    whole_minutes, seconds = divmod(abs(scaled), 60 * 10**places)
    degrees, minutes = divmod(whole_minutes, 60)
    sign = "-" if scaled < 0 else ""
    return f"{sign}{degrees}\N{DEGREE SIGN}{minutes:02d}'{_decimal(seconds, places, width=2)}\""


def degrees_text(angle: Angle, places: int = 6) -> str:
    """Print decimal degrees, rounded half to even to `places` decimals."""
    scaled = round(angle.arcseconds * 10**places / ARCSECONDS_PER_DEGREE)
    return f"{_decimal(scaled, places)}\N{DEGREE SIGN}"


def short_degrees_text(angle: Angle, places: int = 4) -> str:
    """Print decimal degrees without closing zeros."""
    number = degrees_text(angle, places)[:-1]
    return f"{number.rstrip('0').removesuffix('.') if places else number}\N{DEGREE SIGN}"


def arcsec_text(arcseconds: Fraction | float, places: int = 1) -> str:
    """Print a signed difference in arcseconds, rounded half to even to `places` decimals."""
    scaled = round(Fraction(arcseconds) * 10**places)
    return f'{"+" if scaled > 0 else ""}{_decimal(scaled, places)}"'


def refuse_odd_text(text: str, thing: str, hint: str) -> None:
    """Refuse what no reader of angles or tapers takes: empty, long, comma, powers of ten, no number.

    `thing` is what is wanted, with its article.  Raises TextError.
    """
    if not text.strip():
        raise TextError(text, 0, 1, f"empty: {thing} is wanted", hint=hint)
    if len(text) > LONGEST_TEXT:
        raise TextError(text, LONGEST_TEXT, len(text), f"too long to be {thing}", hint=hint)
    for pattern, sentence in _ODD:
        found = pattern.search(text)
        if found:
            raise TextError(text, found.start(), found.end(), sentence, hint=hint)


_ODD = (
    (re.compile(","), "a comma: write the decimal point as a point"),
    (re.compile(r"(?<=[0-9.])[eE][+-]?[0-9]+"), "powers of ten are not read: write the number out"),
    (re.compile(r"(?i)\b(?:nan|inf|infinity)\b"), "not a finite number"),
)
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]*)?|\.[0-9]+")
_MARK = re.compile(r"[^\W\d_]+|''|[^\w\s.+\-:]")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mark:
    """A unit of angle: its name, its place in degrees-minutes-seconds, its size."""

    name: str
    rank: int
    arcseconds: Fraction


_DEGREES = _Mark(name="degrees", rank=0, arcseconds=Fraction(ARCSECONDS_PER_DEGREE))
_MINUTES = _Mark(name="minutes", rank=1, arcseconds=Fraction(60))
_SECONDS = _Mark(name="seconds", rank=2, arcseconds=Fraction(1))
_RADIANS = _Mark(name="radians", rank=-1, arcseconds=_ARCSECONDS_PER_RADIAN)
_MARKS: dict[str, _Mark] = {
    **dict.fromkeys(
        ("d", "deg", "degree", "degrees", "\N{DEGREE SIGN}", "\N{MASCULINE ORDINAL INDICATOR}"), _DEGREES
    ),
    **dict.fromkeys(("m", "min", "minute", "minutes", "arcmin"), _MINUTES),
    **dict.fromkeys(("'", "\N{PRIME}", "\N{RIGHT SINGLE QUOTATION MARK}"), _MINUTES),
    **dict.fromkeys(("s", "sec", "second", "seconds", "arcsec"), _SECONDS),
    **dict.fromkeys(('"', "''", "\N{DOUBLE PRIME}", "\N{RIGHT DOUBLE QUOTATION MARK}"), _SECONDS),
    **dict.fromkeys(("rad", "radian", "radians"), _RADIANS),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """One number of an angle with its mark and where it stands; no mark is a bare number."""

    number: str
    mark: _Mark | None
    start: int
    end: int

    @property
    def arcseconds(self) -> Fraction:
        """The size of this part."""
        if self.mark is _RADIANS:
            return _of_radians(Fraction(self.number))
        return Fraction(self.number) * (self.mark or _DEGREES).arcseconds


def _read_sign(text: str, *, signed: bool) -> tuple[bool, int]:
    """Return whether a minus stands first, and where the number begins."""
    begin = len(text) - len(text.lstrip())
    if text[begin] not in "+-\N{MINUS SIGN}":
        return False, begin
    if text[begin] == "+":
        return False, begin + 1
    if not signed:
        _refuse(text, begin, len(text.rstrip()), "below zero: an angle is not negative")
    return True, begin + 1


def _colon_parts(text: str, begin: int) -> list[_Part]:
    """Return the parts of degrees:minutes or degrees:minutes:seconds."""
    parts: list[_Part] = []
    position = begin
    for field in text[begin:].split(":"):
        number = field.strip()
        start = position + len(field) - len(field.lstrip())
        if _NUMBER.fullmatch(number) is None:
            _refuse(text, start, start + len(number), "not a plain number between the colons")
        if len(parts) == 3:
            _refuse(text, start - 1, start + len(number), "more than degrees, minutes and seconds")
        mark = (_DEGREES, _MINUTES, _SECONDS)[len(parts)]
        parts.append(_Part(number=number, mark=mark, start=start, end=start + len(number)))
        position += len(field) + 1
    return parts


def _marked_parts(text: str, begin: int) -> list[_Part]:
    """Return the parts of an angle written with marks, or the one bare number."""
    parts: list[_Part] = []
    position = _skip_spaces(text, begin)
    while position < len(text) or not parts:
        number = _NUMBER.match(text, position)
        if number is None:
            _refuse(text, position, position + 1, "no number here")
        after = _skip_spaces(text, number.end())
        mark = _MARK.match(text, after)
        end = mark.end() if mark else number.end()
        parts.append(
            _Part(number=number[0], mark=_known_mark(text, mark) if mark else None, start=position, end=end)
        )
        position = _skip_spaces(text, end)
    return parts


def _known_mark(text: str, match: re.Match[str]) -> _Mark:
    """Return the unit a mark stands for."""
    found = _MARKS.get(match[0].casefold())
    if found is None:
        _refuse(
            text, match.start(), match.end(), f"{match[0]!r} is not a mark of degrees, minutes or seconds"
        )
    return found


def _refuse_bad_part(text: str, before: _Part, part: _Part) -> None:
    """Refuse a part that cannot follow `before`: marks fall, no decimals before the last, below 60."""
    for one in (before, part):
        if one.mark is None:
            _refuse(text, one.start, one.end, "a mark is missing: degrees, minutes or seconds?")
        if one.mark is _RADIANS:
            _refuse(text, one.start, one.end, "radians stand alone")
    if before.mark is None or part.mark is None or part.mark.rank <= before.mark.rank:
        _refuse(text, part.start, part.end, "degrees, minutes and seconds stand in that order, each once")
    if "." in before.number:
        _refuse(text, before.start, before.end, "decimals stand only in the last part")
    if Fraction(part.number) >= 60:
        _refuse(text, part.start, part.end, f"60 {part.mark.name} or more beside {before.mark.name}")


def _refuse(text: str, start: int, end: int, sentence: str) -> NoReturn:
    """Raise the error of a text that is no angle."""
    raise TextError(text, start, end, sentence, hint=ANGLE_HINT)


def _skip_spaces(text: str, position: int) -> int:
    """Return where the next character that is no space stands."""
    return len(text) - len(text[position:].lstrip())


def _of_radians(radians: Fraction) -> Fraction:
    """Return arcseconds on a grid of 1e-15, far below the last place of a float."""
    return Fraction(round(radians * _ARCSECONDS_PER_RADIAN * _RADIAN_GRID), _RADIAN_GRID)


def _finite(number: float) -> str:
    """Return a float as it prints, if it is finite."""
    text = repr(float(number))
    if not text[-1].isdigit():
        raise UsageError.about("angle", "not a finite number", hint=ANGLE_HINT)
    return text


def _decimal(scaled: int, places: int, width: int = 1) -> str:
    """Print `scaled` / 10**places with `places` decimals and at least `width` digits before them."""
    digits = str(abs(scaled)).rjust(places + width, "0")
    sign = "-" if scaled < 0 else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else f"{sign}{digits}"
