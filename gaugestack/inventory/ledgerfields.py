"""The careful way from a line to its record: every mistake with its place.

    fields = fields_of_line(line, number, "a record", KEYS, file, findings)
    record = record_of(fields, Unit.INCH, number, findings)

For lines edited or written by hand, and for the faults of all the others.
Knows no rule that joins two records.
"""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING

from gaugestack.blocks import Trust
from gaugestack.errors import Place, Problem, RefusedFile, nearest
from gaugestack.inventory.events import MEASURED, TEXT_LIMITS, TRUSTS, Event, Kind, Record, faults_of
from gaugestack.inventory.fields import Fields, fields_of
from gaugestack.inventory.ledgerlines import MOST_RECORDS
from gaugestack.inventory.located import parse
from gaugestack.inventory.nodes import Mapping, Sequence

if TYPE_CHECKING:
    from gaugestack.inventory.findings import Findings
    from gaugestack.lengths import Unit

_NEEDED = ("n", "on", "event", "size", "written")
_MOMENT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}")
_FOREIGN_BREAK = re.compile("[\r\x85\u2028\u2029]")
"""What ends a line in YAML, but none of the ledger."""
_HINT = 'as in - {n: 1, on: 2026-02-03, event: missing, size: "0.105 in", written: 2026-02-03T09:15:00}'


def line_problem(file: str, number: int, source: str, sentence: str, *, hint: str = "") -> Problem:
    """Return a problem of a whole line."""
    place = Place(file=file, line=number, column=1)
    return Problem(place=place, sentence=sentence, source=source, width=max(1, len(source)), hint=hint)


def fields_of_line(
    line: str, number: int, what: str, keys: tuple[str, ...], file: str, findings: Findings
) -> Fields | None:
    """Return the fields of the one mapping a line holds; None, and a problem, for any other line."""
    node = None
    foreign = _FOREIGN_BREAK.search(line)
    if foreign:
        findings.add(_break_problem(foreign, number, line, file))
        return None
    if line.startswith("- {"):
        try:
            root = parse("\n" * (number - 1) + line, file=file)
        except RefusedFile as refused:
            for problem in refused.problems:
                findings.add(problem)
            return None
        node = root.items[0] if isinstance(root, Sequence) and len(root.items) == 1 else None
    if not isinstance(node, Mapping):
        findings.add(line_problem(file, number, line, f"{what} is written in one line", hint=_HINT))
        return None
    return fields_of(node, what, keys, findings)


def _break_problem(foreign: re.Match[str], number: int, line: str, file: str) -> Problem:
    """Say that a character would end the line for one reader and not for another."""
    place = Place(file=file, line=number, column=foreign.start() + 1)
    sentence = f"a line break (U+{ord(foreign[0]):04X}) in the middle of a line"
    hint = "one record stands in one line, and a newline ends it"
    return Problem(place=place, sentence=sentence, source=line, start=foreign.start(), hint=hint)


def record_of(fields: Fields, unit: Unit, findings: Findings) -> Record | None:
    """Return the record of a line's fields; None where anything is wrong with it."""
    before = len(findings)
    fields.need(*_NEEDED)
    number = fields.whole("n", MOST_RECORDS)
    event = _event(fields, unit, findings)
    written = _moment(fields, findings)
    if event is None or number is None or written is None or len(findings) > before:
        return None
    for key, sentence in faults_of(event):
        findings.add((fields.get(key) or fields.node).problem(sentence))
    if len(findings) > before:
        return None
    place = Place(file=fields.node.place.file, line=fields.node.place.line, column=1)
    return Record(n=number, event=event, written=written, place=place)


def _event(fields: Fields, unit: Unit, findings: Findings) -> Event | None:
    """Return the event of a record's fields."""
    kind = _kind(fields, findings)
    on, size, back = fields.day("on"), fields.size("size", unit), fields.day("back")
    trust, wear = fields.choice("trust", TRUSTS), fields.truth("wear")
    struck = fields.whole("record", MOST_RECORDS)
    texts = {key: fields.text(key, limit) for key, limit in TEXT_LIMITS.items()}
    lengths = {key: fields.deviation(key, unit) for key in MEASURED}
    if kind is None or on is None or size is None:
        return None
    return Event(
        kind=kind,
        on=on,
        size=size,
        unit=unit,
        wear=wear,
        back=back,
        trust=Trust(trust) if trust else None,
        record=struck,
        **texts,  # type: ignore[arg-type]  # texts only
        **lengths,  # type: ignore[arg-type]  # lengths only
    )


def _kind(fields: Fields, findings: Findings) -> Kind | None:
    """Return the kind of event; an unknown one is a problem that names the nearest."""
    scalar = fields.scalar("event")
    if scalar is None:
        return None
    if scalar.text not in tuple(Kind):
        hint = nearest(scalar.text, [kind.value for kind in Kind])
        findings.add(scalar.problem(f"no event is called {scalar.text!r}", hint=hint))
        return None
    return Kind(scalar.text)


def _moment(fields: Fields, findings: Findings) -> dt.datetime | None:
    """Return when a record was written, to the second."""
    scalar = fields.scalar("written")
    if scalar is None:
        return None
    if not _MOMENT.fullmatch(scalar.text):
        hint = "write it as in 2026-02-03T09:15:00"
        findings.add(scalar.problem(f"{scalar.text!r} is no day and time", hint=hint))
        return None
    try:
        return dt.datetime.fromisoformat(scalar.text)
    except ValueError:
        findings.add(scalar.problem(f"the calendar has no {scalar.text}"))
        return None
