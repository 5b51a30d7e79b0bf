"""The rows of a certificate table: whose value each is, and what it says.

    values = read_rows(sheet, frame, findings)

One small function a rule.  A row that breaks one is refused by name and place,
and the reading goes on.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.errors import TextError, visible
from gaugestack.inventory.absentpieces import nearest_size
from gaugestack.inventory.blockentries import deviation_sentence, too_large
from gaugestack.inventory.certtablehead import Columns, ValueKind
from gaugestack.inventory.fields import SERIAL_LIMIT
from gaugestack.lengths import Length, counted, engraved_text, exact_text

if TYPE_CHECKING:
    from gaugestack.blocks import Block
    from gaugestack.errors import Place
    from gaugestack.inventory.certtablecells import Row, Sheet
    from gaugestack.inventory.certtablehead import Column
    from gaugestack.inventory.findings import Findings
    from gaugestack.inventory.nodes import Scalar
    from gaugestack.lengths import Unit

_LEADING_ZERO = re.compile(r"[+-]?0[0-9]+")
_MARKS = {".": "point", ",": "comma"}
_THOUSANDS = "leave thousands unparted, and write one decimal mark throughout"


@dataclass(frozen=True, slots=True, kw_only=True)
class CertifiedValue:
    """What a row says about a block: its deviation (actual minus nominal), and where the row stands.

    `variation` is None and `serial` empty where the table has none.
    """

    block: Block
    deviation: Length
    variation: Length | None
    serial: str
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What all rows are read with: the columns, the kind of value, the decimal mark, the set's pieces."""

    columns: Columns
    kind: ValueKind
    decimal: str
    unit: Unit
    by_size: dict[Length, list[Block]]


def decimal_mark(sheet: Sheet, columns: Columns) -> str:
    """Return the decimal mark of a table: the one that more of its numbers have.

    Where commas part the columns it is the point.
    """
    if sheet.delimiter == ",":
        return "."
    measured = [column for column in (columns.nominal, columns.value, columns.variation) if column]
    texts = [cell.text for row in sheet.rows for column in measured for cell in row.cells[column.index :][:1]]
    commas, points = (sum(mark in text for text in texts) for mark in (",", "."))
    return "," if commas > points else "."


def read_rows(sheet: Sheet, frame: Frame, findings: Findings) -> tuple[CertifiedValue, ...]:
    """Return the value of every row that can be read; each piece has one row."""
    values: list[CertifiedValue] = []
    lines: dict[Block, int] = {}
    for row in sheet.rows:
        if not _fits_header(row, sheet, frame, findings):
            continue
        value = _read_row(row, frame, findings)
        if value is None:
            continue
        first = lines.setdefault(value.block, row.line)
        if first != row.line:
            sentence = f"a second row for the {value.block.engraved} block: first in line {first}"
            findings.add(row.cells[0].problem(sentence))
        values.append(value)
    return tuple(values)


def number_in(cell: Scalar, column: Column, decimal: str, findings: Findings) -> Length | None:
    """Return the length a cell's number means; an empty cell or another text is a problem."""
    if not cell.text:
        findings.add(cell.problem(f"an empty cell in the column {column.head.text!r}"))
        return None
    foreign = "," if decimal == "." else "."
    at = cell.text.find(foreign)
    if at >= 0:
        sentence = f"a {_MARKS[foreign]} in a number, and this table has decimal {_MARKS[decimal]}s"
        findings.add(cell.text_problem(TextError(cell.text, at, at + 1, sentence, hint=_THOUSANDS)))
        return None
    if _LEADING_ZERO.fullmatch(cell.text):
        hint = "did a decimal comma part a column here?"
        findings.add(cell.problem(f"{cell.text!r} begins with 0 and has no decimal mark", hint=hint))
        return None
    try:
        return counted(cell.text.replace(",", "."), column.one)
    except TextError as error:
        hint = "write numbers alone; the unit stands in the header"
        problem = TextError(cell.text, error.start, error.end, error.sentence, hint=hint)
        findings.add(cell.text_problem(problem))
        return None


def _fits_header(row: Row, sheet: Sheet, frame: Frame, findings: Findings) -> bool:
    """Refuse a row whose cells do not reach the columns, or go beyond the header."""
    cells, columns = len(row.cells), len(sheet.header.cells)
    if cells <= frame.columns.last:
        findings.add(row.cells[-1].problem(f"too few cells: {cells} where the header has {columns}"))
        return False
    surplus = [cell for cell in row.cells[columns:] if cell.text]
    if surplus:
        sentence = f"too many cells: {cells} where the header has {columns}"
        hint = "a comma in a number needs another mark between columns" if sheet.delimiter == "," else ""
        findings.add(surplus[0].problem(sentence, hint=hint))
    return not surplus


def _read_row(row: Row, frame: Frame, findings: Findings) -> CertifiedValue | None:
    """Return what one row says."""
    before = len(findings)
    nominal = _number(row, frame.columns.nominal, frame, findings)
    value = _number(row, frame.columns.value, frame, findings)
    variation = _variation(row, frame, findings)
    serial = _serial(row, frame, findings)
    block = None if nominal is None else _piece(row, nominal, serial, frame, findings)
    if nominal is None or value is None or block is None:
        return None
    deviation = _deviation(value, nominal, frame.kind)
    _refuse_slip(row, value, block, frame, findings)
    if len(findings) > before:
        return None
    return CertifiedValue(
        block=block, deviation=deviation, variation=variation, serial=serial, place=row.cells[0].place
    )


def _number(row: Row, column: Column | None, frame: Frame, findings: Findings) -> Length | None:
    """Return the number of a row in a column whose unit is known."""
    if column is None or not column.one:
        return None
    return number_in(row.cells[column.index], column, frame.decimal, findings)


def _variation(row: Row, frame: Frame, findings: Findings) -> Length | None:
    """Return the variation in length, which is never below zero; an empty cell says nothing."""
    column = frame.columns.variation
    if column is None or not row.cells[column.index].text:
        return None
    variation = _number(row, column, frame, findings)
    if variation is not None and not 0 <= variation <= 100_000_000:
        cell = row.cells[column.index]
        findings.add(cell.problem("a variation in length lies between 0 and 0.1 mm", hint="check the unit"))
    return variation


def _serial(row: Row, frame: Frame, findings: Findings) -> str:
    """Return the serial of a row, as written."""
    column = frame.columns.serial
    if column is None:
        return ""
    cell = row.cells[column.index]
    if len(cell.text) > SERIAL_LIMIT:
        findings.add(cell.problem(f"serial is longer than {SERIAL_LIMIT} characters"))
    if visible(cell.text) != cell.text:
        findings.add(cell.problem("serial holds a character that cannot be seen"))
    return cell.text


def _piece(row: Row, nominal: Length, serial: str, frame: Frame, findings: Findings) -> Block | None:
    """Return the one piece a row is about; ordinary blocks come before wear blocks."""
    cell = row.cells[frame.columns.nominal.index if frame.columns.nominal else 0]
    of_size = frame.by_size.get(nominal, [])
    text = engraved_text(nominal, frame.unit)
    if not of_size:
        hint = nearest_size(nominal, frame.by_size, frame.unit)
        findings.add(cell.problem(f"no block of this set is {text}", hint=hint))
        return None
    if serial and any(block.serial for block in of_size):
        return _piece_with_serial(row, serial, of_size, frame, findings)
    fitting = [block for block in of_size if not block.wear] or of_size
    if len(fitting) > 1:
        column = "the row has no serial" if not serial else "the set gives them no serials"
        sentence = f"{len(fitting)} blocks are {text} and {column}: whose value is this?"
        findings.add(cell.problem(sentence, hint="give each piece an entry with its serial in the set file"))
        return None
    return fitting[0]


def _piece_with_serial(
    row: Row, serial: str, of_size: list[Block], frame: Frame, findings: Findings
) -> Block | None:
    """Return the piece of a size that has a serial."""
    found = [block for block in of_size if block.serial.casefold() == serial.casefold()]
    if len(found) == 1:
        return found[0]
    exact = [block for block in found if block.serial == serial]
    if len(exact) == 1:
        return exact[0]
    cell = row.cells[frame.columns.serial.index if frame.columns.serial else 0]
    known = ", ".join(sorted(block.serial for block in of_size if block.serial))
    sentence = f"no {of_size[0].engraved} block of this set has the serial {serial!r}"
    findings.add(cell.problem(sentence, hint=f"serials of this size: {known}"))
    return None


def _deviation(value: Length, nominal: Length, kind: ValueKind) -> Length:
    """Return actual minus nominal."""
    if kind is ValueKind.ACTUAL:
        return Length(value - nominal)
    return Length(-value) if kind is ValueKind.WEAR else value


def _refuse_slip(row: Row, value: Length, block: Block, frame: Frame, findings: Findings) -> None:
    """Refuse a deviation above 0.1 mm or 1 % of the size; say so where it is of another kind."""
    deviation = _deviation(value, block.nominal, frame.kind)
    if not too_large(deviation, block.nominal):
        return
    cell = row.cells[frame.columns.value.index if frame.columns.value else 0]
    if frame.kind is ValueKind.ACTUAL:
        shown = exact_text(value, block.unit)
        sentence = f"an actual size of {shown} at {block.engraved}: a slip?"
        other = "deviation or wear" if not too_large(value, block.nominal) else ""
    else:
        sentence = deviation_sentence(deviation, block.nominal, block.unit)
        other = "actual" if not too_large(Length(value - block.nominal), block.nominal) else ""
    hint = f"this looks like value: {other}" if other else "check the unit"
    findings.add(cell.problem(sentence, hint=hint))
