"""Grades of gauge blocks: what a grade allows, and which one a block still meets.

    limits(Standard.ISO_3650, "1", block.nominal)
    outside_grade(block, Standard.ISO_3650, "1")
    grade_still_met(block_set.blocks, Standard.ISO_3650)

Grade names mean different things in different standards, so every question
names its standard.  The limits hold at any point of the face; a certificate
gives mostly the centre, so a block that passes here by less than its variation
may not pass there.  The limits are those of new blocks: no standard known here
gives wider ones for used blocks.  Reads no file.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.errors import TextError, nearest
from gaugestack.grades_tables import TABLES, Cells, Standard, Table
from gaugestack.lengths import Length, Unit, small_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.blocks import Block

_YEAR = re.compile(r"\s*[-:]\s*(?:19|20)[0-9]{2}\s*$")
_NAMES: tuple[tuple[str, Standard], ...] = (
    ("ISO 3650", Standard.ISO_3650),
    ("EN ISO 3650", Standard.ISO_3650),
    ("DIN EN ISO 3650", Standard.ISO_3650),
    ("BS EN ISO 3650", Standard.ISO_3650),
    ("JIS B 7506", Standard.ISO_3650),
    ("ASME B89.1.9", Standard.ASME_B89_1_9),
    ("GGG-G-15C", Standard.GGG_G_15C),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a grade allows a block of one nominal length, in picometres.

    The length lies from nominal + `lower` (below zero) to nominal + `upper`;
    `variation` is the tolerance for greatest minus least length over the face,
    or None where the table has none.  `basis` is seen, derived or memory.
    """

    upper: Length
    lower: Length
    variation: Length | None
    source: str
    basis: str

    @property
    def deviation(self) -> Length:
        """The larger of the limits above and below, above zero."""
        return max(self.upper, Length(-self.lower))

    def hold(self, deviation: int) -> bool:
        """Return whether a deviation lies within the limits; the limits themselves do."""
        return self.lower <= deviation <= self.upper


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeMet:
    """The best grade that every block with a value still meets; None where none is met or can be said.

    `without_values` are the blocks with no deviation, `outside_tables` those
    longer or shorter than the tables go: neither counts for or against.
    `limited_by` are the blocks that the next better grade refuses, and
    `length_only` tells that a variation or its tolerance is not known
    somewhere, so that only the lengths were judged there.
    """

    grade: str | None
    without_values: tuple[Block, ...] = ()
    outside_tables: tuple[Block, ...] = ()
    limited_by: tuple[Block, ...] = ()
    length_only: bool = False


def read_standard(text: str) -> Standard:
    """Return the standard a text names, its year or not: `ISO 3650:1998`, `DIN EN ISO 3650`.

    Raises TextError with the nearest known name.
    """
    plain = _plain(_YEAR.sub("", text))
    for name, standard in _NAMES:
        if _plain(name) == plain:
            return standard
    hint = nearest(_YEAR.sub("", text).strip(), [name for name, _ in _NAMES])
    raise TextError(text, 0, len(text), f"{text!r} is no standard whose grades are known", hint=hint)


def known_grades(standard: Standard) -> tuple[str, ...]:
    """Return the grades of a standard, smallest limit deviation first.

    Grade K has the limit deviation of grade 1 (AS-1) and the variation of grade
    00, so it stands between grades 0 and 1.
    """
    return next(table.grades for table in TABLES if table.standard is standard)


def limits(standard: Standard, grade: str, nominal: Length, *, unit: Unit = Unit.MILLIMETRE) -> Limits | None:
    """Return what a grade allows at a nominal length; None for an unknown grade or length.

    `unit` is that of the block: a standard with an inch and a metric table gives
    the one of the block's unit, ISO 3650 always its metric one.
    """
    table = _table(standard, unit)
    if grade not in table.grades:
        return None
    place = table.grades.index(grade)
    row = _row(table, nominal)
    if row is None:
        return None
    first = 1 + place * table.width
    upper, lower, variation = _in_picometres(table, row[first : first + table.width])
    return Limits(
        upper=upper, lower=lower, variation=variation, source=table.source, basis=table.basis[place]
    )


def outside_grade(block: Block, standard: Standard, grade: str) -> tuple[str, ...]:
    """Return a sentence for each known value of a block that its grade does not allow.

    Empty where the block is inside, and where nothing is known: no deviation, or
    no limits at its length.
    """
    allowed = limits(standard, grade, block.nominal, unit=block.unit)
    if allowed is None:
        return ()
    sentences = []
    if block.deviation is not None and not allowed.hold(block.deviation):
        is_now = _fine(block.deviation, block.unit)
        may = f"{_fine(allowed.lower, block.unit)} to {_fine(allowed.upper, block.unit)}"
        sentences.append(f"the deviation {is_now} is outside grade {grade} ({may}; {allowed.source})")
    varies, most = block.variation, allowed.variation
    if varies is not None and most is not None and varies > most:
        is_now, may = (_fine(length, block.unit).removeprefix("+") for length in (varies, most))
        sentences.append(f"the variation {is_now} is above that of grade {grade} ({may}; {allowed.source})")
    return tuple(sentences)


def grade_still_met(blocks: Iterable[Block], standard: Standard) -> GradeMet:
    """Return the best grade that every block with a deviation still meets.

    Grade K is nothing but grade 1 without its variation: it is not given unless that was
    judged on every block.
    """
    every = tuple(blocks)
    without = tuple(block for block in every if block.deviation is None)
    known = [block for block in every if block.deviation is not None]
    outside = tuple(block for block in known if _row(_table(standard, block.unit), block.nominal) is None)
    judged = [block for block in known if block not in outside]
    grade, limited = _best_grade(judged, standard)
    return GradeMet(
        grade=grade,
        without_values=without,
        outside_tables=outside,
        limited_by=limited,
        length_only=not _variation_judged(judged, standard),
    )


def permissible_change(standard: Standard, grade: str, nominal: Length) -> Length | None:
    """Return how far a block's length may change in a year, plus and minus, rounded down to 1 pm.

    Grades K and 0: 0.02 µm + 0.25e-6 l; grades 1 and 2: 0.05 µm + 0.5e-6 l.
    Sources: ISO 3650:1998, 6.2.4 (memory); the same figures for the grades 0,
    AS-1 and AS-2 in US Army TB 9-5210-205-50, table 4 (seen), for K from memory.
    None where no figure is known.
    """
    if standard is Standard.GGG_G_15C:
        return None
    if grade in ("K", "0"):
        return Length(20_000 + nominal // 4_000_000)
    if grade in ("1", "2", "AS-1", "AS-2") and grade in known_grades(standard):
        return Length(50_000 + nominal // 2_000_000)
    return None


def grade_remarks(standard: str, grade: str) -> tuple[str, ...]:
    """Return a sentence where a set's standard or grade is none that is known; both may be empty."""
    if not standard:
        sentence = f"grade {grade!r} without a standard: what it allows cannot be said"
        return (sentence,) if grade else ()
    try:
        read = read_standard(standard)
    except TextError as error:
        return (f"{error.sentence} ({error.hint})",)
    if grade and grade not in known_grades(read):
        hint = nearest(grade, known_grades(read))
        return (f"{read} has no grade {grade!r} that is known here ({hint})",)
    return ()


def _best_grade(judged: list[Block], standard: Standard) -> tuple[str | None, tuple[Block, ...]]:
    """Return the first grade that refuses no block, and the blocks the one before it refuses."""
    limited: tuple[Block, ...] = ()
    for grade in known_grades(standard) if judged else ():
        refused = tuple(block for block in judged if outside_grade(block, standard, grade))
        if not refused and (grade != "K" or _variation_judged(judged, standard)):
            return grade, limited
        limited = refused or limited
    return None, limited


def _variation_judged(blocks: list[Block], standard: Standard) -> bool:
    """Return whether every block has a variation and its table limits it."""
    with_variation = Cells.LENGTH_AND_VARIATION
    return all(
        block.variation is not None and _table(standard, block.unit).cells is with_variation
        for block in blocks
    )


def _plain(name: str) -> str:
    """Return a name without case, spaces and hyphens."""
    return re.sub(r"[\s\-]+", "", name).casefold().removeprefix("ansi/")


def _table(standard: Standard, unit: Unit) -> Table:
    """Return the table of a standard for a unit, or the only one it has."""
    of_standard = [table for table in TABLES if table.standard is standard]
    return next((table for table in of_standard if table.unit is unit), of_standard[0])


def _row(table: Table, nominal: Length) -> tuple[int, ...] | None:
    """Return the row that holds a nominal length."""
    thousandth = table.unit.picometres // 1000
    lowest = table.over * thousandth
    if nominal < lowest or (nominal == lowest and not table.from_included):
        return None
    return next((row for row in table.rows if nominal <= row[0] * thousandth), None)


def _in_picometres(table: Table, numbers: tuple[int, ...]) -> tuple[Length, Length, Length | None]:
    """Return the limits above and below and the variation that the numbers of a grade give."""
    lengths = [Length(number * table.one) for number in numbers]
    if table.cells is Cells.PLUS_AND_MINUS:
        return lengths[0], lengths[1], None
    return lengths[0], Length(-lengths[0]), lengths[1] if table.cells is Cells.LENGTH_AND_VARIATION else None


def _fine(length: int, unit: Unit) -> str:
    """Return a deviation to 1 nm or 0.01 µin, so that a limit and what passes it by little differ."""
    return small_text(length, unit, 2 if unit is Unit.INCH else 3)
