"""Published tapers by their standard names: document, defining data, computed angles.

    >>> published = find_published("morse 3")
    >>> published.defining, published.taper("morse 3").one_in_text
    ('0.60235 in/ft on diameter', '1:19.922')

The rows stand in published_rows.py; the angle always comes from the defining
rate, never from a printed table.  A name with several meanings (`taper pin`,
`propeller shaft`, `hsk`) is refused with each of them.  Knows no tolerances
of shanks and sockets.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, NoReturn

from gaugestack.angles.ambiguity import spelled
from gaugestack.angles.published_rows import PROPELLER_ISO, SERIES
from gaugestack.angles.taper import taper_of_rate
from gaugestack.errors import TextError, nearest
from gaugestack.lengths import PM_PER_INCH, Length, Unit, exact_text, read_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.angles.published_rows import Basis, Holding, Row, Series
    from gaugestack.angles.taper import Taper

_SHAFT = re.compile(
    r"(?:marine |inch |sae )?(?:marine |propeller )?shaft (?P<size>[0-9.].*)"
    r"|(?:marine )?propeller (?P<other>[0-9.].*)"
)
_SHAFT_WORDS = frozenset({"propeller shaft", "marine shaft", "marine propeller shaft", "shaft"})
_PIN_WORDS = re.compile(r"(?:taper )?pin(?: (?P<number>[0-9/]+))?")
_SMALL_SHAFT = Length(11 * PM_PER_INCH // 2)
_LARGE_SHAFT = (Length(6 * PM_PER_INCH), Length(8 * PM_PER_INCH))
_SMALLEST_SHAFT = Length(3 * PM_PER_INCH // 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """One published taper.

    `rate` is the exact C on diameter, `defining` the datum it comes from as
    printed; `gauge_line`, `large_end`, `small_end` and `length` are None where
    the document was not read for them.  `basis` is `seen` or `memory`.
    """

    name: str
    title: str
    document: str
    edition: str
    basis: Basis
    holding: Holding
    rate: Fraction
    defining: str
    gauge_line: Length | None = None
    large_end: Length | None = None
    small_end: Length | None = None
    length: Length | None = None
    note: str = ""

    @property
    def rate_from_ends(self) -> Fraction | None:
        """(large - small) / length where all three were read, a check of `rate`; else None."""
        if self.large_end is None or self.small_end is None or self.length is None:
            return None
        return Fraction(self.large_end - self.small_end, self.length)

    def taper(self, call_out: str) -> Taper:
        """Return the cone, its angles computed from the defining rate."""
        return taper_of_rate(
            self.rate,
            call_out=call_out.strip(),
            reading=f"{self.title}, {self.defining} ({self.document})",
            question="" if self.basis == "seen" else f"{self.defining} is from memory: check the document",
        )


def looks_like_a_name(text: str) -> bool:
    """Return whether a text begins with a letter, or with `7/24` as a whole word."""
    plain = text.strip()
    return (
        plain[:1].isalpha() or re.match(r"7/24(?![0-9./])(?:\s+(?:no\.?\s*)?[0-9]+|\s*\Z)", plain) is not None
    )


def published_names() -> tuple[str, ...]:
    """Return the first name of every published taper, in the order of the series, for completion."""
    return tuple(_name(series, row) for series in SERIES for row in series.rows)


def all_published() -> tuple[Published, ...]:
    """Return every published taper with a name of its own (propeller shafts by size are not among them)."""
    return tuple(_published(series, row) for series in SERIES for row in series.rows)


def find_published(text: str) -> Published:
    """Return the published taper of a name: `morse 3`, `MT3`, `B&S 7`, `jarno no. 6`, `7/24`.

    Case, hyphens, `no.` and the word taper do not count.  Raises TextError for
    a name with several meanings, with each of them, and for an unknown one,
    with the nearest.
    """
    name = _plain(text)
    shaft = _propeller_shaft(text, name)
    if shaft is not None:
        return shaft
    for series in SERIES:
        for row in series.rows:
            if name in _spellings(series, row):
                return _published(series, row)
    _refuse_many_meanings(text, name)
    return _refuse_unknown(text, name)


def _plain(text: str) -> str:
    """Return a name in small letters, without `taper`, `no.` and punctuation."""
    name = text.strip().casefold().replace("&", " and ").replace("#", " ")
    name = re.sub(r"\b(?:number|no)\b\.?", " ", name)
    name = re.sub(r"(?<=[a-z])-(?=[a-z])|(?<=[a-z])-(?=[0-9])", " ", name)
    name = re.sub(r"\btapers?\b(?! pin)", " ", name)
    name = re.sub(r"(?<=[0-9])\s+(?=[0-9]+/[1-9])", "-", name)
    return " ".join(name.split())


def _spellings(series: Series, row: Row) -> Iterator[str]:
    """Yield every plain spelling of one published taper."""
    for name in series.names:
        yield f"{name} {row.number}".strip()
    for short in series.short:
        plain = short.replace("&", " and ")
        yield f"{plain}{row.number}"
        yield f"{plain} {row.number}"


def _name(series: Series, row: Row) -> str:
    """Return the first name of one published taper."""
    return f"{series.names[0]} {row.number}".strip()


def _published(series: Series, row: Row) -> Published:
    """Return one row with its numbers read."""
    ratio = ":" in row.rate
    over, _, under = row.rate.partition(":")
    large, small, length = [_length(text) for text in row.ends or ("", "", "")]
    return Published(
        name=_name(series, row),
        title=f"{series.title} {row.number}".strip(),
        document=series.document,
        edition=series.edition,
        basis=row.basis,
        holding=series.holding,
        rate=Fraction(over) / Fraction(under) if ratio else Fraction(row.rate) / 12,
        defining=f"{row.rate} on diameter" if ratio else f"{row.rate} in/ft on diameter",
        gauge_line=_length(row.gauge_line),
        large_end=large,
        small_end=small,
        length=length,
        note=series.note,
    )


def _length(text: str) -> Length | None:
    """Read a printed length, or None where there is none."""
    return read_length(text).length if text else None


def _propeller_shaft(text: str, name: str) -> Published | None:
    """`propeller shaft 2in`: 1:16 from 3/4 to 5 1/2 in, 1:12 from 6 to 8 in (SAE J755, 2015)."""
    match = _SHAFT.fullmatch(name)
    if match is None:
        return None
    size = match["size"] or match["other"]
    try:
        read = read_length(size)
    except TextError as error:
        raise TextError(
            text, 0, len(text), f"the shaft diameter: {error.sentence}", hint=error.hint
        ) from None
    if read.unit is not Unit.INCH:
        hint = "; ".join((f"write {PROPELLER_ISO.names[0]} for 1:10 (ISO 4566)", "or the diameter in inches"))
        _refuse(text, "SAE J755 gives shaft diameters in inches", hint)
    return _sae_shaft(text, read.length)


def _sae_shaft(text: str, diameter: Length) -> Published:
    """Return the SAE J755 taper of a shaft diameter.  Raises TextError between and outside its sizes."""
    small = _SMALLEST_SHAFT <= diameter <= _SMALL_SHAFT
    if not small and not _LARGE_SHAFT[0] <= diameter <= _LARGE_SHAFT[1]:
        hint = "1:16 from 0.75 in to 5.5 in, 1:12 from 6 in to 8 in"
        _refuse(text, f"SAE J755 has no shaft of {exact_text(diameter, Unit.INCH)}", hint)
    return Published(
        name=f"propeller shaft {exact_text(diameter, Unit.INCH).replace(' ', '')}",
        title=f"Propeller shaft {exact_text(diameter, Unit.INCH)}",
        document="SAE J755",
        edition="2015",
        basis="seen",
        holding="not classified",
        rate=Fraction(1, 16) if small else Fraction(1, 12),
        defining="0.7500 in/ft on diameter" if small else "1.0000 in/ft on diameter",
        large_end=diameter,
    )


def _refuse_many_meanings(text: str, name: str) -> None:
    """Refuse a name that several documents give different tapers."""
    pin = _PIN_WORDS.fullmatch(name)
    if pin is not None:
        _refuse_pin(text, pin["number"])
    if name in _SHAFT_WORDS:
        meanings = (
            spelled("propeller shaft 2in", Fraction(1, 16), " (to 5.5 in, SAE J755)"),
            spelled("propeller shaft 6in", Fraction(1, 12), " (6 to 8 in, SAE J755)"),
            spelled("metric propeller shaft", Fraction(1, 10), " (ISO 4566)"),
        )
        _refuse(text, "the taper of a propeller shaft depends on its size and document", "; ".join(meanings))
    if re.fullmatch(r"hsk(?: ?[a-f]? ?[0-9]+)?", name):
        readings = (
            spelled("1:10", Fraction(1, 10), " (nominal)"),
            spelled("1:9.98", Fraction(100, 998), " (10.02 percent)"),
            spelled("9.98% on diameter", Fraction(998, 10_000), " (1:10.02)"),
        )
        _refuse(text, "sources give this taper three ways, 82 seconds apart", "; ".join(readings))


def _refuse_pin(text: str, number: str | None) -> NoReturn:
    """Refuse `taper pin`: the inch and the metric one differ."""
    inch = f"inch taper pin {number}" if number else "inch taper pin"
    meanings = (
        spelled(inch, Fraction(1, 48), " (1:48, ASME B18.8.2)"),
        spelled("metric taper pin", Fraction(1, 50), " (1:50, ISO 2339)"),
    )
    _refuse(text, "a taper pin is 1:48 in inches and 1:50 in millimetres", "; ".join(meanings))


def _refuse_unknown(text: str, name: str) -> NoReturn:
    """Refuse a name nobody published, with the nearest one known."""
    for series in SERIES:
        if any(name == one or name.startswith(f"{one} ") for one in series.names):
            numbers = ", ".join(row.number for row in series.rows if row.number)
            _refuse(text, f"{text.strip()!r}: {series.title} has no such number", f"its numbers: {numbers}")
    known = {spelling for series in SERIES for row in series.rows for spelling in _spellings(series, row)}
    hint = nearest(name, known)
    if hint.startswith("known:"):
        hint = f"write its taper per foot, like 0.60235in/ft, or its ratio; names: {_series_names()}"
    _refuse(text, f"{text.strip()!r} is no published taper known here", hint)


def _series_names() -> str:
    """Return the first name of each series."""
    return ", ".join(series.names[0] for series in SERIES)


def _refuse(text: str, sentence: str, hint: str) -> NoReturn:
    """Raise the error of a whole text."""
    begin = len(text) - len(text.lstrip())
    raise TextError(text, begin, len(text.rstrip()), sentence, hint=hint)
