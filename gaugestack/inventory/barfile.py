"""Sine bars: the `bars:` section of a set file, or a file of their own.

    bars = load_bars(Path("bars.yaml"))

A bar file of format 1 has `format: 1`, `bars:` and, for bare numbers, `unit:`.
A bar: {name, centre_distance, error, roll_diameter, kind, base_height}; its
lengths may be in any unit, because a metric bar may stand beside an inch set.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.sine import SineBar, centre_distance_fault
from gaugestack.errors import TextError
from gaugestack.inventory.fields import NOTE_LIMIT, Fields, fields_of, items_of
from gaugestack.inventory.findings import Findings
from gaugestack.inventory.located import parse
from gaugestack.inventory.setformat import fields_of_format
from gaugestack.inventory.textfile import read_text_file
from gaugestack.lengths import Length, ReadLength, Unit, exact_text, read_length

if TYPE_CHECKING:
    from pathlib import Path

    from gaugestack.inventory.nodes import Node

FILE_KEYS = ("format", "unit", "bars", "note")
BAR_KEYS = ("name", "centre_distance", "error", "roll_diameter", "kind", "base_height")
KINDS = ("single", "compound")
LARGEST_ERROR = Length(100_000_000)
"""0.1 mm: a bar so far out is another bar."""
MOST_BARS = 100


def load_bars(path: Path | str) -> tuple[SineBar, ...]:
    """Return the bars a file describes, in its order.  Raises RefusedFile with every problem."""
    return bars_of_text(read_text_file(path), file=str(path))


def bars_of_text(text: str, *, file: str) -> tuple[SineBar, ...]:
    """Return the bars a text describes; `file` names it in places.  Raises RefusedFile."""
    findings = Findings()
    fields = fields_of_format(parse(text, file=file), "a bar file", FILE_KEYS, findings)
    unit = fields.choice("unit", [unit.value for unit in Unit])
    fields.text("note", NOTE_LIMIT)
    fields.need("bars")
    bars = read_bars(fields.get("bars"), Unit(unit) if unit else None, findings)
    findings.refuse_if_any()
    return bars


def read_bars(node: Node | None, unit: Unit | None, findings: Findings) -> tuple[SineBar, ...]:
    """Return the bars of a list; each name stands once.

    `unit` is that of bare numbers; without it they are problems.
    """
    items = items_of(node, "bars", findings)
    if node is not None and len(items) > MOST_BARS:
        findings.add(node.problem(f"{len(items)} bars: a file describes at most {MOST_BARS}"))
        return ()
    bars: dict[str, SineBar] = {}
    for item in items:
        fields = fields_of(item, "a bar", BAR_KEYS, findings)
        bar = None if fields is None else _read_bar(fields, unit, findings)
        if bar is None:
            continue
        if bar.name.casefold() in bars:
            findings.add(item.problem(f"the bar {bar.name!r} stands twice"))
        bars[bar.name.casefold()] = bar
    return tuple(bars.values())


def _read_bar(fields: Fields, unit: Unit | None, findings: Findings) -> SineBar | None:
    """Return one bar; None where its name or centre distance cannot be had."""
    before = len(findings)
    name = fields.text("name")
    kind = fields.choice("kind", KINDS)
    centre = _length(fields, "centre_distance", unit, findings)
    roll = _length(fields, "roll_diameter", unit, findings)
    base = _length(fields, "base_height", unit, findings)
    error = _error(fields, centre.unit if centre else Unit.INCH, findings)
    if not fields.need("name", "centre_distance") or not name or centre is None:
        return None
    _refuse_dimensions(fields, centre, error, findings)
    _refuse_at_most(fields, "roll_diameter", roll, Length(centre.length // 2), findings)
    _refuse_at_most(fields, "base_height", base, centre.length, findings)
    if len(findings) > before:
        return None
    return SineBar(
        name=name,
        centre_distance=centre.length,
        error=error,
        unit=centre.unit,
        roll_diameter=roll.length if roll else None,
        kind="compound" if kind == "compound" else "single",
        base_height=base.length if base else Length(0),
        file=fields.node.place.file,
    )


def _length(fields: Fields, key: str, unit: Unit | None, findings: Findings) -> ReadLength | None:
    """Return a length of the bar."""
    scalar = fields.scalar(key)
    if scalar is None:
        return None
    try:
        return read_length(scalar.text, bare_unit=unit, signed=key == "base_height")
    except TextError as error:
        findings.add(scalar.text_problem(error))
        return None


def _error(fields: Fields, unit: Unit, findings: Findings) -> Length:
    """Return the measured error of the centre distance; bare numbers count µin or µm."""
    error = fields.deviation("error", unit)
    if error is not None and abs(error) > LARGEST_ERROR:
        node = fields.get("error") or fields.node
        findings.add(node.problem("an error of the centre distance above 0.1 mm: a slip?"))
    return error or Length(0)


def _refuse_dimensions(fields: Fields, centre: ReadLength, error: Length, findings: Findings) -> None:
    """Refuse a centre distance that no sine bar has, its error included."""
    fault = centre_distance_fault(Length(centre.length + error), centre.unit)
    if fault:
        node = fields.get("centre_distance") or fields.node
        findings.add(node.problem(fault, hint="check the unit"))


def _refuse_at_most(
    fields: Fields, key: str, read: ReadLength | None, highest: Length, findings: Findings
) -> None:
    """Refuse a length below zero or above `highest`."""
    if read is None or 0 <= read.length <= highest:
        return
    node = fields.get(key) or fields.node
    sentence = f"{key} lies between 0 and {exact_text(highest, read.unit)} on this bar"
    findings.add(node.problem(sentence, hint="check the unit"))
