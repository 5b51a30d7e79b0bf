"""Certificate tables: a CSV file to the deviations of a set's blocks.

    layout = TableLayout(value=ValueKind.DEVIATION, columns=ColumnTexts(deviation="Dev."))
    table = read_table(Path("values.csv"), layout, block_set)
    block_set = with_table(block_set, table)

The first line that is not blank names the columns.  Whether the values are
deviations, actual sizes or wear is stated in the layout and never guessed; a
unit stands in each header or in the layout.  What was detected by itself, the
marks between columns and in numbers, is told in `remarks`.  Every row that
cannot be used is a problem, and one is enough to refuse the file.  Does not
write tables, and knows no certificate head.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import islice
from typing import TYPE_CHECKING

from gaugestack.blocks import Block, BlockSet, Trust
from gaugestack.inventory.certtablecells import DELIMITERS, Sheet, read_sheet
from gaugestack.inventory.certtablehead import Columns, ColumnTexts, TableLayout, ValueKind, find_columns
from gaugestack.inventory.certtablerows import CertifiedValue, Frame, decimal_mark, number_in, read_rows
from gaugestack.inventory.findings import Findings
from gaugestack.inventory.textfile import read_text_file
from gaugestack.lengths import Length, Unit, exact_text

if TYPE_CHECKING:
    from pathlib import Path

    from gaugestack.errors import Problem

__all__ = [
    "CertifiedTable", "CertifiedValue", "ColumnTexts", "TableLayout", "ValueKind",
    "read_table", "table_of_text", "with_table",
]  # fmt: skip
_SHOWN = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class CertifiedTable:
    """A table that was read: one value a row, in the order of the file.

    `missing` are the blocks that are there and have no row; `delimiter` and
    `decimal` are the marks that were detected; `remarks` are sentences.
    """

    file: str
    kind: ValueKind
    values: tuple[CertifiedValue, ...]
    missing: tuple[Block, ...]
    delimiter: str
    decimal: str
    remarks: tuple[str, ...]


def read_table(path: Path | str, layout: TableLayout, block_set: BlockSet) -> CertifiedTable:
    """Return what the table in a file says about the blocks of a set.

    Raises RefusedFile with every problem of the file.
    """
    return table_of_text(read_text_file(path), file=str(path), layout=layout, block_set=block_set)


def table_of_text(text: str, *, file: str, layout: TableLayout, block_set: BlockSet) -> CertifiedTable:
    """Return what a table's text says; `file` names it in places.  Raises RefusedFile."""
    findings = Findings()
    sheet = read_sheet(text, file=file, findings=findings)
    columns = find_columns(sheet, layout, findings)
    decimal = decimal_mark(sheet, columns)
    if layout.value is None:
        findings.add(_no_kind(sheet, columns, decimal, block_set.unit))
        findings.refuse_if_any()
    kind = layout.value or ValueKind.DEVIATION
    frame = Frame(
        columns=columns, kind=kind, decimal=decimal, unit=block_set.unit, by_size=_by_size(block_set)
    )
    values = read_rows(sheet, frame, findings)
    findings.refuse_if_any()
    with_row = {value.block for value in values}
    missing = tuple(block for block in block_set.blocks if block not in with_row)
    return CertifiedTable(
        file=file, kind=kind, values=values, missing=missing, delimiter=sheet.delimiter, decimal=decimal,
        remarks=_remarks(sheet, decimal, missing, [block for block in block_set.absent if block in with_row]),
    )  # fmt: skip


def with_table(block_set: BlockSet, table: CertifiedTable, trust: Trust | None = None) -> BlockSet:
    """Return the set with the table's deviations and variations.

    `trust` is where the values come from; without it, what the set's
    certificate says, and without that an unverified sheet.  A block without a
    row keeps what it has.
    """
    if trust is None:
        trust = block_set.certificate.source if block_set.certificate else Trust.UNVERIFIED_SHEET
    found = {value.block: value for value in table.values}
    return replace(
        block_set,
        blocks=tuple(_certified(block, found.get(block), trust) for block in block_set.blocks),
        absent=tuple(_certified(block, found.get(block), trust) for block in block_set.absent),
        remarks=(*block_set.remarks, *(f"{table.file}: {remark}" for remark in table.remarks)),
    )


def _certified(block: Block, value: CertifiedValue | None, trust: Trust) -> Block:
    """Return a block with the value of its row."""
    if value is None:
        return block
    return replace(block, deviation=value.deviation, variation=value.variation, trust=trust)


def _by_size(block_set: BlockSet) -> dict[Length, list[Block]]:
    """Return the pieces of each size, as the set was issued."""
    by_size: dict[Length, list[Block]] = {}
    for block in block_set.issued:
        by_size.setdefault(block.nominal, []).append(block)
    return by_size


def _remarks(sheet: Sheet, decimal: str, missing: tuple[Block, ...], absent: list[Block]) -> tuple[str, ...]:
    """Return what was detected, which blocks have no row and which rows no block."""
    mark = "comma" if decimal == "," else "point"
    remarks = [f"columns parted by {DELIMITERS[sheet.delimiter]}, decimals written with a {mark}"]
    if missing:
        remarks.append(f"no row for {_named(missing)}")
    if absent:
        remarks.append(f"a row for {_named(absent)}, though the set file says absent")
    return tuple(remarks)


def _named(blocks: list[Block] | tuple[Block, ...]) -> str:
    """Name up to five blocks and count the others."""
    named = ", ".join(block.engraved for block in islice(blocks, _SHOWN))
    return f"{named} and {len(blocks) - _SHOWN} more" if len(blocks) > _SHOWN else named


def _no_kind(sheet: Sheet, columns: Columns, decimal: str, unit: Unit) -> Problem:
    """Say that the kind of value is not stated, and what the first row would mean each way."""
    sentence = "it is not stated what the values are: deviations, actual sizes or wear"
    cells = sheet.rows[0].cells
    index = columns.value.index if columns.value else _likely_value(columns)
    about = cells[index] if index < len(cells) else cells[0]
    lengths = _first_lengths(sheet, columns, decimal)
    if lengths is None:
        hint = (
            f"for {about.text!r}: value: deviation, the block is its nominal plus that; "
            "value: actual, it is that long; value: wear, its nominal less that"
        )
    else:
        nominal, value = lengths
        plus, less = (exact_text(nominal + sign * value, unit) for sign in (1, -1))
        hint = (
            f"value: deviation reads this block as {plus}; "
            f"value: actual as {exact_text(value, unit)}; value: wear as {less}"
        )
    return about.problem(sentence, hint=hint)


def _likely_value(columns: Columns) -> int:
    """Return the column beside the nominal one, to have something to point at."""
    return 1 if columns.nominal is None or columns.nominal.index == 0 else 0


def _first_lengths(sheet: Sheet, columns: Columns, decimal: str) -> tuple[Length, Length] | None:
    """Return the two lengths of the first row, or None where they cannot be read."""
    cells, found = sheet.rows[0].cells, []
    for column in (columns.nominal, columns.value):
        if column is None or not column.one or column.index >= len(cells):
            return None
        number = number_in(cells[column.index], column, decimal, Findings())
        if number is None:
            return None
        found.append(number)
    return found[0], found[1]
