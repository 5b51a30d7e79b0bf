"""The certificate table that a set file names, and what it gives the set's blocks.

    table = read_table_key(fields.get("certificate"), folder, findings)
    block_set = with_certificate_table(block_set, table)

In the set file:

    certificate:
      source: laboratory report
      table: values.csv            beside the set file
      value: deviation             or actual, or wear (positive is smaller)
      columns: {nominal: Nominal, deviation: Dev., serial: S/N, variation: v}
      table_unit: {deviation: µin}

`columns` and `table_unit` may be left away where the header says it all; `value`
may not.  `deviation` in both is the column of the values, whatever their kind.
The table itself is read in certtable.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.errors import Problem, RefusedFile, TextError
from gaugestack.inventory.certtable import CertifiedTable, table_of_text, with_table
from gaugestack.inventory.certtablehead import ColumnTexts, TableLayout, ValueKind, unit_length
from gaugestack.inventory.fields import Fields, fields_of
from gaugestack.inventory.nodes import Mapping
from gaugestack.inventory.textfile import read_text_file

if TYPE_CHECKING:
    from pathlib import Path

    from gaugestack.blocks import BlockSet
    from gaugestack.inventory.findings import Findings
    from gaugestack.inventory.nodes import Node, Scalar

_ABOUT_TABLE = ("columns", "value", "table_unit")
_COLUMNS = ("nominal", "deviation", "serial", "variation")
_VALUES = "deviation"
_MEASURED = ("nominal", "deviation", "variation")


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedTable:
    """A table that a set file names: its text, not yet read, and how it is laid out."""

    file: str
    text: str
    layout: TableLayout


def read_table_key(node: Node | None, folder: Path, findings: Findings) -> NamedTable | None:
    """Return the table a certificate names; None where there is none or it cannot be had.

    A file that cannot be had is a problem at the place that names it.
    """
    if not isinstance(node, Mapping):
        return None
    fields = Fields(node, findings)
    if "table" not in fields:
        for key in (key for key in _ABOUT_TABLE if key in fields):
            findings.add(fields.key(key).problem(f"{key!r} belongs to a table, and there is none"))
        return None
    if "deviations" in fields:
        findings.add(fields.key("table").problem("a table beside deviations: write one of the two"))
    layout = _layout(fields, findings)
    name = fields.scalar("table")
    return None if name is None else _named_table(name, folder, layout, findings)


def with_certificate_table(block_set: BlockSet, named: NamedTable | None) -> BlockSet:
    """Return the set with the values of the table its file names.

    Raises RefusedFile with every problem of the table.
    """
    if named is None:
        return block_set
    table = table_of_text(named.text, file=named.file, layout=named.layout, block_set=block_set)
    _refuse_twice(table)
    return with_table(block_set, table)


def _named_table(name: Scalar, folder: Path, layout: TableLayout, findings: Findings) -> NamedTable | None:
    """Return the text of the table and its name."""
    path = folder / name.text
    try:
        return NamedTable(file=str(path), text=read_text_file(path), layout=layout)
    except RefusedFile as refused:
        first = refused.problems[0]
        findings.add(name.problem(f"the table {name.text!r}: {first.sentence}", hint=first.hint))
        return None


def _layout(fields: Fields, findings: Findings) -> TableLayout:
    """Return how the table is laid out, as far as the set file says."""
    value = fields.choice("value", [kind.value for kind in ValueKind])
    own = (value,) if value and value not in _COLUMNS else ()
    columns = _texts(fields, "columns", (*_COLUMNS, *own), findings)
    units = _texts(fields, "table_unit", (*_MEASURED, *own), findings)
    for key, text in units.items():
        _refuse_unit(fields, key, text, findings)
    return TableLayout(
        value=ValueKind(value) if value else None,
        columns=ColumnTexts(**columns),
        units=ColumnTexts(**units),
    )


def _texts(fields: Fields, what: str, known: tuple[str, ...], findings: Findings) -> dict[str, str]:
    """Return one text a column; the column of the values may be called by their kind, `wear: Dev`.

    It is then that of `deviation`; to call it both is refused.
    """
    node = fields.get(what)
    inner = None if node is None else fields_of(node, what, known, findings)
    texts = {} if inner is None else {key: inner.text(key) for key in known if key in inner}
    for kind in known[known.index("variation") + 1 :]:
        if node and kind in texts and _VALUES in texts:
            findings.add(
                node.problem(f"{what}: {_VALUES} and {kind} are the same column", hint="name it once")
            )
        elif kind in texts:
            texts[_VALUES] = texts[kind]
        texts.pop(kind, None)
    return texts


def _refuse_unit(fields: Fields, key: str, text: str, findings: Findings) -> None:
    """Refuse a text that is no unit of length."""
    try:
        unit_length(text)
    except TextError:
        about = fields.get("table_unit") or fields.node
        hint = "write µin, µm, nm, in or mm, or a count of them such as 0.00001 in"
        findings.add(about.problem(f"{key}: {text!r} is not a unit of length", hint=hint))


def _refuse_twice(table: CertifiedTable) -> None:
    """Refuse a value for a block whose own entry in the set file has one."""
    twice = [value for value in table.values if value.block.deviation is not None]
    if twice:
        raise RefusedFile(
            Problem(
                place=value.place,
                sentence=f"the deviation of {value.block.engraved} is given twice: "
                f"also in line {value.block.place.line if value.block.place else 0} of the set file",
            )
            for value in twice
        )
