"""Tables of the limits of gauge blocks, as the standards print them.

    for table in TABLES: ...

Each table states its source and, beside each grade, its basis: `seen` where the
numbers were read in a print of the table, `memory` where they were not, and
`derived` where a seen sentence equates them with seen numbers.  Metric tables
count nanometres, inch tables microinches, and neither is converted into the
other: a block keeps the table of its own unit.  The questions are in grades.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from gaugestack.lengths import Unit

Row: TypeAlias = tuple[int, ...]
"""Upper end of the nominal lengths in thousandths of the unit, then the numbers of each grade."""


class Standard(StrEnum):
    """The standards whose limits are known here."""

    ISO_3650 = "ISO 3650"
    ASME_B89_1_9 = "ASME B89.1.9"
    GGG_G_15C = "GGG-G-15C"


class Cells(StrEnum):
    """What the numbers of one grade in a row are."""

    LENGTH_AND_VARIATION = "limit deviation, plus and minus, and tolerance for the variation in length"
    LENGTH = "limit deviation, plus and minus"
    PLUS_AND_MINUS = "limit above and limit below"


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One printed table: rows for rising nominal lengths, grades in one order in all rows.

    `over` is the lower end of the first row in thousandths of the unit;
    `from_included` tells whether that very length belongs to it.  Every upper
    end belongs to its row.  `basis` goes with `grades`, one text a grade.
    """

    standard: Standard
    unit: Unit
    grades: tuple[str, ...]
    cells: Cells
    rows: tuple[Row, ...]
    over: int
    from_included: bool
    source: str
    basis: tuple[str, ...]

    @property
    def one(self) -> int:
        """How many picometres the numbers of a row count: 1 nm or 1 µin."""
        return 25_400 if self.unit is Unit.INCH else 1000

    @property
    def width(self) -> int:
        """How many numbers one grade has in a row."""
        return 1 if self.cells is Cells.LENGTH else 2


# ISO 3650:1998, clause 7, te and tv.  Grades 0, 1, 2 seen in DIN 861 reprints of the
# same table; K from memory (te of grade 1, tv of the former grade 00).  Over 900 mm
# two of three prints seen give 1.50 µm for tv of grade 2: taken as a slip of copying.
_ISO_ROWS: tuple[Row, ...] = (
    (10_000, 120, 100, 200, 50, 200, 160, 450, 300),
    (25_000, 140, 100, 300, 50, 300, 160, 600, 300),
    (50_000, 200, 100, 400, 60, 400, 180, 800, 300),
    (75_000, 250, 120, 500, 60, 500, 180, 1000, 350),
    (100_000, 300, 120, 600, 70, 600, 200, 1200, 350),
    (150_000, 400, 140, 800, 80, 800, 200, 1600, 400),
    (200_000, 500, 160, 1000, 90, 1000, 250, 2000, 400),
    (250_000, 600, 160, 1200, 100, 1200, 250, 2400, 450),
    (300_000, 700, 180, 1400, 100, 1400, 250, 2800, 500),
    (400_000, 900, 200, 1800, 120, 1800, 300, 3600, 500),
    (500_000, 1100, 250, 2200, 140, 2200, 350, 4400, 600),
    (600_000, 1300, 250, 2600, 160, 2600, 400, 5000, 700),
    (700_000, 1500, 300, 3000, 180, 3000, 450, 6000, 700),
    (800_000, 1700, 300, 3400, 200, 3400, 500, 6500, 800),
    (900_000, 1900, 350, 3800, 200, 3800, 500, 7500, 900),
    (1_000_000, 2000, 400, 4200, 250, 4200, 600, 8000, 1000),
)
# ASME B89.1.9-2002, metric: K, 0, AS-1, AS-2 have the characteristics of ISO 3650
# K, 0, 1, 2 (seen in the scope); 00 is the DIN 861 row, but 0.07 µm up to 10 mm (memory).
_ASME_METRIC_ROWS: tuple[Row, ...] = (
    (10_000, 70, 50, 120, 100, 200, 50, 200, 160, 450, 300),
    (25_000, 70, 50, 140, 100, 300, 50, 300, 160, 600, 300),
    (50_000, 100, 60, 200, 100, 400, 60, 400, 180, 800, 300),
    (75_000, 120, 60, 250, 120, 500, 60, 500, 180, 1000, 350),
    (100_000, 140, 70, 300, 120, 600, 70, 600, 200, 1200, 350),
    (150_000, 200, 80, 400, 140, 800, 80, 800, 200, 1600, 400),
    (200_000, 250, 90, 500, 160, 1000, 90, 1000, 250, 2000, 400),
    (250_000, 300, 100, 600, 160, 1200, 100, 1200, 250, 2400, 450),
    (300_000, 350, 100, 700, 180, 1400, 100, 1400, 250, 2800, 500),
    (400_000, 450, 120, 900, 200, 1800, 120, 1800, 300, 3600, 500),
    (500_000, 500, 140, 1100, 250, 2200, 140, 2200, 350, 4400, 600),
    (600_000, 600, 160, 1300, 250, 2600, 160, 2600, 400, 5000, 700),
    (700_000, 700, 180, 1500, 300, 3000, 180, 3000, 450, 6000, 700),
    (800_000, 800, 200, 1700, 300, 3400, 200, 3400, 500, 6500, 800),
    (900_000, 900, 200, 1900, 350, 3800, 200, 3800, 500, 7500, 900),
    (1_000_000, 1000, 250, 2000, 400, 4200, 250, 4200, 600, 8000, 1000),
)
# ASME B89.1.9-2002, inch, limit deviations: all memory.  No variation is given, because
# none was read.  Over 8 to 10 in, 104 for AS-2 is doubtful: the neighbours suggest 96.
_ASME_INCH_ROWS: tuple[Row, ...] = (
    (50, 4, 6, 12, 12, 24),
    (400, 3, 5, 8, 8, 18),
    (1_000, 3, 6, 12, 12, 24),
    (2_000, 4, 8, 16, 16, 32),
    (3_000, 5, 10, 20, 20, 40),
    (4_000, 6, 12, 24, 24, 48),
    (5_000, 8, 16, 32, 32, 64),
    (6_000, 8, 16, 32, 32, 64),
    (7_000, 10, 20, 40, 40, 80),
    (8_000, 10, 20, 40, 40, 80),
    (10_000, 12, 24, 48, 48, 104),
    (12_000, 14, 28, 56, 56, 112),
    (16_000, 18, 36, 72, 72, 144),
    (20_000, 20, 44, 88, 88, 176),
)
# GGG-G-15C (1975), inch: memory; up to 4 in with confidence, longer rows follow the pattern.
_FEDERAL_INCH_ROWS: tuple[Row, ...] = (
    (1_000, 1, -1, 2, -2, 4, -2, 8, -4),
    (2_000, 2, -2, 4, -4, 8, -4, 16, -8),
    (3_000, 3, -3, 5, -5, 10, -5, 20, -10),
    (4_000, 4, -4, 6, -6, 12, -6, 24, -12),
    (5_000, 5, -5, 7, -7, 14, -7, 28, -14),
    (6_000, 6, -6, 8, -8, 16, -8, 32, -16),
    (7_000, 7, -7, 9, -9, 18, -9, 36, -18),
    (8_000, 8, -8, 10, -10, 20, -10, 40, -20),
    (10_000, 10, -10, 12, -12, 24, -12, 48, -24),
    (12_000, 12, -12, 14, -14, 28, -14, 56, -28),
    (16_000, 16, -16, 18, -18, 36, -18, 72, -36),
    (20_000, 20, -20, 20, -20, 40, -20, 80, -40),
)
# GGG-G-15C (1975), metric: memory; no conversion of the inch table, which it differs from.
_FEDERAL_METRIC_ROWS: tuple[Row, ...] = (
    (10_000, 30, -30, 50, -50, 100, -50, 200, -100),
    (25_000, 30, -30, 50, -50, 100, -50, 300, -150),
    (50_000, 50, -50, 100, -100, 200, -100, 400, -200),
    (75_000, 80, -80, 130, -130, 250, -130, 450, -230),
    (100_000, 100, -100, 150, -150, 300, -150, 600, -300),
    (125_000, 130, -130, 180, -180, 360, -180, 700, -350),
    (150_000, 150, -150, 200, -200, 410, -200, 800, -400),
    (175_000, 180, -180, 230, -230, 460, -230, 900, -450),
    (200_000, 200, -200, 250, -250, 510, -250, 1000, -500),
    (250_000, 250, -250, 300, -300, 600, -300, 1200, -600),
    (300_000, 300, -300, 350, -350, 700, -350, 1400, -700),
    (400_000, 400, -400, 450, -450, 900, -450, 1800, -900),
    (500_000, 500, -500, 500, -500, 1100, -550, 2000, -1000),
)
_FEDERAL_GRADES = ("0.5", "1", "2", "3")
_ASME_GRADES = ("00", "0", "K", "AS-1", "AS-2")

TABLES: tuple[Table, ...] = (
    Table(
        standard=Standard.ISO_3650,
        unit=Unit.MILLIMETRE,
        grades=("0", "K", "1", "2"),
        cells=Cells.LENGTH_AND_VARIATION,
        rows=_ISO_ROWS,
        over=500,
        from_included=True,
        source="ISO 3650:1998, clause 7, table of te and tv",
        basis=("seen", "memory", "seen", "seen"),
    ),
    Table(
        standard=Standard.ASME_B89_1_9,
        unit=Unit.MILLIMETRE,
        grades=_ASME_GRADES,
        cells=Cells.LENGTH_AND_VARIATION,
        rows=_ASME_METRIC_ROWS,
        over=500,
        from_included=True,
        source="ASME B89.1.9-2002, metric table of limit deviations",
        basis=("memory", "derived", "memory", "derived", "derived"),
    ),
    Table(
        standard=Standard.ASME_B89_1_9,
        unit=Unit.INCH,
        grades=_ASME_GRADES,
        cells=Cells.LENGTH,
        rows=_ASME_INCH_ROWS,
        over=10,
        from_included=True,
        source="ASME B89.1.9-2002, inch table of limit deviations",
        basis=("memory",) * 5,
    ),
    Table(
        standard=Standard.GGG_G_15C,
        unit=Unit.INCH,
        grades=_FEDERAL_GRADES,
        cells=Cells.PLUS_AND_MINUS,
        rows=_FEDERAL_INCH_ROWS,
        over=0,
        from_included=False,
        source="US Federal Specification GGG-G-15C (1975), inch table",
        basis=("memory",) * 4,
    ),
    Table(
        standard=Standard.GGG_G_15C,
        unit=Unit.MILLIMETRE,
        grades=_FEDERAL_GRADES,
        cells=Cells.PLUS_AND_MINUS,
        rows=_FEDERAL_METRIC_ROWS,
        over=0,
        from_included=False,
        source="US Federal Specification GGG-G-15C (1975), metric table",
        basis=("memory",) * 4,
    ),
)
