"""The defining data of published tapers: rates, gauge lines, diameters; no angles.

One tuple a series, one row a number; lengths and rates are texts as printed.
`basis` says how well a row is known: `seen` was read in the named document or
a copy of its table, `memory` was recalled and should be checked before use.
Angles are computed from these in published.py, never stored.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Basis = Literal["seen", "memory"]
Holding = Literal["self-holding", "self-releasing", "not classified"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One number of a series.

    `rate` is inches per foot where it has no colon, else a ratio; `ends` is
    large end, small end and length between them, as printed.
    """

    number: str
    rate: str
    basis: Basis
    gauge_line: str = ""
    ends: tuple[str, str, str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """One published series: its names, its document and what holds for all its rows.

    `edition` is the edition that was read, `not stated` where the copy does
    not say.  `short` are names written against the number, like `mt3`.
    """

    names: tuple[str, ...]
    short: tuple[str, ...]
    title: str
    document: str
    edition: str
    holding: Holding
    rows: tuple[Row, ...]
    note: str = ""


def _per_foot(number: str, rate: str, basis: Basis, gauge_line: str, *ends: str) -> Row:
    """Return one inch row; `ends` are empty or large end, small end, length."""
    three = (ends[0], ends[1], ends[2]) if ends else None
    return Row(number=number, rate=rate, basis=basis, gauge_line=gauge_line and f"{gauge_line}in", ends=three)


def _same(ratio: str, rows: tuple[tuple[str, str, Basis], ...]) -> tuple[Row, ...]:
    """Return rows of one ratio: number, gauge-line diameter, basis."""
    return tuple(Row(number=n, rate=ratio, basis=basis, gauge_line=line) for n, line, basis in rows)


def _jarno(number: int, basis: Basis) -> Row:
    """Return Jarno n: large end n/8 in, small end n/10 in, length n/2 in."""
    large, small = f"{number * 125 / 1000:.4f}in", f"{number / 10:.4f}in"
    ends = (large, small, f"{number / 2:.4f}in")
    return Row(number=str(number), rate="1:20", basis=basis, gauge_line=large, ends=ends)


MORSE = Series(
    names=("morse",),
    short=("mt",),
    title="Morse",
    document="Machinery's Handbook, dimensions of standard tapers; ASME B5.10; ratios ISO 296",
    edition="not stated",
    holding="self-holding",
    rows=(
        _per_foot("0", "0.62460", "seen", "0.3561"),
        _per_foot("1", "0.59858", "memory", "0.475"),
        _per_foot("2", "0.59941", "seen", "0.700"),
        _per_foot("3", "0.60235", "seen", "0.938"),
        _per_foot("4", "0.62326", "seen", "1.231"),
        _per_foot("4-1/2", "0.62400", "seen", "1.500"),
        _per_foot("5", "0.63151", "seen", "1.748"),
        _per_foot("6", "0.62565", "seen", "2.494"),
        _per_foot("7", "0.62400", "memory", "3.270"),
    ),
    note="tolerance 0.002 in/ft on the rate: of shanks only above, of sockets only below",
)
BROWN_AND_SHARPE = Series(
    names=("brown and sharpe", "b and s"),
    short=("b&s",),
    title="Brown and Sharpe",
    document="Machinery's Handbook, dimensions of standard tapers",
    edition="not stated",
    holding="self-holding",
    rows=(
        _per_foot("1", "0.50200", "memory", ""),
        _per_foot("2", "0.50200", "seen", "", "0.29968in", "0.25000in", "1.1875in"),
        _per_foot("3", "0.50200", "seen", "", "0.37525in", "0.31250in", "1.5in"),
        _per_foot("4", "0.50240", "memory", ""),
        _per_foot("5", "0.50160", "seen", "", "0.52315in", "0.45000in", "1.75in"),
        _per_foot("6", "0.50329", "seen", "", "0.59961in", "0.50000in", "2.375in"),
        _per_foot("7", "0.50147", "memory", ""),
        _per_foot("8", "0.50100", "seen", "", "0.89873in", "0.75000in", "3.5625in"),
        _per_foot("9", "0.50085", "seen", "", "1.06705in", "0.90010in", "4in"),
        _per_foot("10", "0.51612", "seen", "", "1.28927in", "1.04465in", "5.6875in"),
        _per_foot("11", "0.50100", "memory", ""),
        _per_foot("12", "0.49973", "seen", "", "1.79681in", "1.50010in", "7.125in"),
        _per_foot("13", "0.50020", "memory", ""),
        _per_foot("14", "0.50000", "seen", "", "2.34375in", "2.00000in", "8.25in"),
        _per_foot("15", "0.50000", "seen", "", "2.61458in", "2.25000in", "8.75in"),
        _per_foot("16", "0.50000", "memory", ""),
        _per_foot("17", "0.50000", "memory", ""),
        _per_foot("18", "0.50000", "memory", ""),
    ),
    note="the fifth place of the rate is from memory; four places and the diameters were seen and agree; "
    "large ends differ with the plug depth",
)
JARNO = Series(
    names=("jarno",),
    short=(),
    title="Jarno",
    document="Machinery's Handbook, dimensions of standard tapers",
    edition="not stated",
    holding="self-holding",
    rows=tuple(_jarno(n, "seen" if n <= 12 else "memory") for n in range(2, 21)),
    note="number n: large end n/8 in, small end n/10 in, length n/2 in",
)
JACOBS = Series(
    names=("jacobs",),
    short=("jt",),
    title="Jacobs",
    document="ASME B5.10, drill chuck tapers",
    edition="not stated",
    holding="not classified",
    rows=(
        _per_foot("0", "0.5915", "seen", "", "0.25000in", "0.22844in", "0.4375in"),
        _per_foot("1", "0.9251", "memory", "", "0.38400in", "0.33341in", "0.65625in"),
        _per_foot("2", "0.9786", "seen", "", "0.55900in", "0.48764in", "0.875in"),
        _per_foot("2 short", "0.9786", "seen", "", "0.54880in", "0.48764in", "0.75in"),
        _per_foot("3", "0.6390", "memory", "", "0.81100in", "0.74610in", "1.21875in"),
        _per_foot("4", "0.6289", "memory", "", "1.12400in", "1.03720in", "1.65625in"),
        _per_foot("5", "0.6201", "seen", "", "1.41300in", "1.31611in", "1.875in"),
        _per_foot("6", "0.6229", "memory", "", "0.67600in", "0.62409in", "1in"),
        _per_foot("33", "0.7619", "seen", "", "0.62401in", "0.56051in", "1in"),
    ),
    note="number 0 is printed 0.5915 in/ft; its diameters give 0.5914",
)
STEEP = Series(
    names=("7/24", "steep", "steep 7/24"),
    short=(),
    title="Steep 7/24",
    document="ISO 297; ISO 7388-1; ASME B5.10, steep series",
    edition="not stated",
    holding="self-releasing",
    rows=(
        Row(number="", rate="7:24", basis="seen"),
        *_same(
            "7:24",
            (
                ("10", "0.625in", "memory"),
                ("20", "0.875in", "memory"),
                ("25", "1.000in", "memory"),
                ("30", "1.250in", "seen"),
                ("35", "1.500in", "memory"),
                ("40", "1.750in", "seen"),
                ("45", "2.250in", "memory"),
                ("50", "2.750in", "seen"),
                ("60", "4.250in", "memory"),
            ),
        ),
    ),
    note="the angle printed in ISO 1119 is that of the rounded ratio 1:3.4285714, 0.0005 seconds more",
)
METRIC = Series(
    names=("metric",),
    short=(),
    title="Metric 1:20",
    document="ISO 296, metric 5 percent tapers",
    edition="1991",
    holding="self-holding",
    rows=_same(
        "1:20",
        (
            ("4", "4mm", "seen"),
            ("6", "6mm", "seen"),
            ("80", "80mm", "seen"),
            ("100", "100mm", "memory"),
            ("120", "120mm", "memory"),
            ("160", "160mm", "memory"),
            ("200", "200mm", "seen"),
        ),
    ),
    note="the number is the diameter at the gauge plane in millimetres",
)
_PIN_ENDS = (
    ("7/0", "0.0625in", "memory"),
    ("6/0", "0.078in", "memory"),
    ("5/0", "0.094in", "memory"),
    ("4/0", "0.109in", "memory"),
    ("3/0", "0.125in", "memory"),
    ("2/0", "0.141in", "memory"),
    ("0", "0.156in", "memory"),
    ("1", "0.172in", "memory"),
    ("2", "0.193in", "memory"),
    ("3", "0.219in", "memory"),
    ("4", "0.250in", "memory"),
    ("5", "0.289in", "memory"),
    ("6", "0.341in", "memory"),
    ("7", "0.409in", "memory"),
    ("8", "0.492in", "memory"),
    ("9", "0.591in", "memory"),
    ("10", "0.706in", "memory"),
)
INCH_PIN = Series(
    names=("inch taper pin", "inch pin"),
    short=(),
    title="Taper pin, inch",
    document="ASME B18.8.2",
    edition="not stated",
    holding="not classified",
    rows=(
        Row(number="", rate="1:48", basis="seen"),
        *(Row(number=n, rate="1:48", basis="seen", gauge_line=end) for n, end, _ in _PIN_ENDS),
    ),
    note="the number's diameter is the large end, from memory; the taper, 1/4 in/ft, was seen",
)
METRIC_PIN = Series(
    names=("metric taper pin", "metric pin"),
    short=(),
    title="Taper pin, metric",
    document="ISO 2339",
    edition="not stated",
    holding="not classified",
    rows=(Row(number="", rate="1:50", basis="seen"),),
    note="the nominal diameter is the small end",
)
PIPE = Series(
    names=("pipe", "pipe thread", "npt"),
    short=(),
    title="Pipe thread",
    document="ASME B1.20.1; ISO 7",
    edition="not stated",
    holding="not classified",
    rows=(Row(number="", rate="1:16", basis="seen"),),
)
PROPELLER_ISO = Series(
    names=("metric propeller shaft", "iso propeller shaft"),
    short=(),
    title="Propeller shaft, metric",
    document="ISO 4566",
    edition="not stated",
    holding="not classified",
    rows=(Row(number="", rate="1:10", basis="seen"),),
)
OTHERS = (
    Series(
        names=("spindle nose", "short spindle nose"),
        short=(),
        title="Short spindle nose cone",
        document="ASME B5.9; ISO 702-1",
        edition="not stated",
        holding="not classified",
        rows=(Row(number="", rate="1:4", basis="memory"),),
        note="3 in/ft; its half angle is printed 7 degrees 7 minutes 30 seconds",
    ),
    Series(
        names=("anaesthetic connector", "anesthetic connector"),
        short=(),
        title="Anaesthetic connector",
        document="ISO 5356-1",
        edition="not stated",
        holding="not classified",
        rows=(Row(number="", rate="1:40", basis="seen"),),
    ),
    Series(
        names=("luer",),
        short=(),
        title="Luer 6 percent",
        document="ISO 1119, table 2",
        edition="1998 and 2011",
        holding="not classified",
        rows=(Row(number="", rate="6:100", basis="memory"),),
    ),
    Series(
        names=("american standard self holding", "american self holding"),
        short=(),
        title="American Standard self-holding, 3/4 in series",
        document="ASME B5.10",
        edition="not stated",
        holding="self-holding",
        rows=(Row(number="", rate="0.750", basis="memory"),),
        note="numbers 200 to 1200, all 3/4 in/ft",
    ),
)
SERIES: tuple[Series, ...] = (
    MORSE,
    BROWN_AND_SHARPE,
    JARNO,
    JACOBS,
    STEEP,
    METRIC,
    INCH_PIN,
    METRIC_PIN,
    PIPE,
    PROPELLER_ISO,
    *OTHERS,
)
