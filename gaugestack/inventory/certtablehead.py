"""The header of a certificate table: which column is what, and in which unit.

    columns = find_columns(sheet, layout, findings)

A column is named in the layout, or has the plain name `nominal`, `deviation`
(or `actual` or `wear`, as the values are), `serial` or `variation`.  Case does
not matter, nor does what stands in brackets.  The unit stands in brackets in
the header, `Deviation (µin)`, `Wear [0.00001 in]`, or in the layout.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from gaugestack.errors import TextError, nearest
from gaugestack.lengths import Length, read_length

if TYPE_CHECKING:
    from gaugestack.errors import Problem
    from gaugestack.inventory.certtablecells import Sheet
    from gaugestack.inventory.findings import Findings
    from gaugestack.inventory.nodes import Scalar

_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
_NO_UNIT = Length(0)


class ValueKind(StrEnum):
    """How the values of a table are meant; nothing but the owner can say it.

    deviation: actual minus nominal.  actual: the length itself.  wear: nominal
    minus actual, so that a positive number is a smaller block.
    """

    DEVIATION = "deviation"
    ACTUAL = "actual"
    WEAR = "wear"


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnTexts:
    """One text a column: its name, or its unit.  `deviation` is the column of the values of any kind."""

    nominal: str = ""
    deviation: str = ""
    serial: str = ""
    variation: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TableLayout:
    """What the owner says about a table.  Without `value` no table is read."""

    value: ValueKind | None = None
    columns: ColumnTexts = ColumnTexts()
    units: ColumnTexts = ColumnTexts()


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column that was found; `one` is the length a 1 in it means, 0 where that is not known."""

    index: int
    head: Scalar
    one: Length = _NO_UNIT


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """The columns of a table; None where there is none or it could not be told."""

    nominal: Column | None = None
    value: Column | None = None
    serial: Column | None = None
    variation: Column | None = None

    @property
    def last(self) -> int:
        """The index of the last column that is read."""
        found = (self.nominal, self.value, self.serial, self.variation)
        return max((column.index for column in found if column), default=0)


def find_columns(sheet: Sheet, layout: TableLayout, findings: Findings) -> Columns:
    """Return the columns; each that is missing, twice there or without a unit is a problem."""
    names, units = layout.columns, layout.units
    plain = [layout.value.value] if layout.value else [kind.value for kind in ValueKind]
    nominal = _find(sheet, names.nominal, ["nominal"], findings)
    value = _find(sheet, names.deviation, plain, findings, needed=layout.value is not None)
    serial = _find(sheet, names.serial, ["serial"], findings, needed=False)
    variation = _find(sheet, names.variation, ["variation"], findings, needed=False)
    return Columns(
        nominal=_measured(nominal, "nominal", units.nominal, findings),
        value=_measured(value, "deviation", units.deviation, findings),
        serial=serial,
        variation=_measured(variation, "variation", units.variation, findings),
    )


def unit_length(text: str) -> Length:
    """Return the length a unit's text means: `µin`, or `0.00001 in` for a count of them.

    Raises TextError.
    """
    counted = text.strip()[:1].isdigit() or text.strip()[:1] == "."
    return read_length(text if counted else f"1 {text}").length


def _find(
    sheet: Sheet, named: str, plain: list[str], findings: Findings, *, needed: bool = True
) -> Column | None:
    """Return the column with the name of the layout, or else one of the plain names."""
    wanted = [named] if named else plain
    heads = sheet.header.cells
    found = [index for index, head in enumerate(heads) if _is_called(head.text, wanted)]
    if len(found) > 1:
        sentence = f"two columns are called {heads[found[1]].text!r}"
        findings.add(heads[found[1]].problem(sentence, hint="name the one that is meant in columns:"))
    if not found and (named or needed):
        findings.add(_no_column(heads, wanted[0]))
    return Column(index=found[0], head=heads[found[0]]) if found else None


def _is_called(head: str, names: list[str]) -> bool:
    """Return whether a header cell has one of the names, with or without what stands in brackets."""
    plain = head.partition("(")[0].partition("[")[0]
    return bool({" ".join(text.casefold().split()) for text in (head, plain)} & _folded(names))


def _folded(names: list[str]) -> set[str]:
    """Return the names without case and surplus blanks."""
    return {" ".join(name.casefold().split()) for name in names}


def _no_column(heads: tuple[Scalar, ...], name: str) -> Problem:
    """Say that a column is not there, with the nearest that is."""
    hint = nearest(name, {head.text for head in heads if head.text})
    return heads[0].problem(f"there is no column {name!r}", hint=f"{hint}; name the columns in columns:")


def _measured(column: Column | None, key: str, stated: str, findings: Findings) -> Column | None:
    """Return the column with its unit: that of the header's brackets or that of the layout."""
    if column is None:
        return None
    in_header = [one for text in _BRACKETS.findall(column.head.text) if (one := _unit_or_none(text))]
    in_layout = _unit_or_none(stated) if stated else None
    if stated and in_layout is None:
        findings.add(column.head.problem(f"{stated!r} is not a unit of length (table_unit: {key})"))
    if in_layout and in_header and in_layout != in_header[0]:
        sentence = f"the header's unit is not the {stated!r} of table_unit"
        findings.add(column.head.problem(sentence, hint="leave table_unit away, or mend the header"))
    if not in_header and not stated:
        findings.add(_no_unit(column.head, key))
    one = in_layout or next(iter(in_header), _NO_UNIT)
    return Column(index=column.index, head=column.head, one=one)


def _unit_or_none(text: str) -> Length | None:
    """Return the length of a unit, or None where a text is no unit."""
    try:
        return unit_length(text)
    except TextError:
        return None


def _no_unit(head: Scalar, key: str) -> Problem:
    """Say that a column has no unit."""
    name = head.text.partition("(")[0].partition("[")[0].strip() or key
    one, other = ("in", "mm") if key == "nominal" else ("µin", "µm")
    hint = (
        f"write it in brackets, {name} ({one}) or {name} ({other}), or state table_unit: {{{key}: {other}}}"
    )
    return head.problem(f"no unit stands in the header of {head.text!r}", hint=hint)
