"""The bytes of a ledger to its records; everything wrong is said at once.

    reading = LedgerReading(block_set, file="bench.ledger.yaml")
    reading.take_all(data)
    reading.records, reading.torn, reading.warnings

Refused: what is no record, an unknown event, keys that are missing or do not
belong, numbers out of sequence, days not in the calendar, pieces not in the
set, the ledger of another set.  Torn lines, a clock that went back and records
that contradict others are warnings.  Does not open files.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.errors import Place, Problem
from gaugestack.inventory.fields import NOTE_LIMIT, Fields
from gaugestack.inventory.findings import Findings
from gaugestack.inventory.ledgerfields import fields_of_line, line_problem, record_of
from gaugestack.inventory.ledgerlines import (
    HEAD_KEYS,
    KEYS,
    decoded,
    head_line,
    is_torn_head,
    is_torn_record,
)
from gaugestack.inventory.ledgerquick import QuickReader
from gaugestack.inventory.setformat import FORMAT
from gaugestack.inventory.statepieces import Shelf

if TYPE_CHECKING:
    from gaugestack.blocks import BlockSet
    from gaugestack.inventory.events import Record

_SEQUENCE_HINT = "a line was removed, doubled or moved: put the ledger back as it was"


class LedgerReading:
    """One reading of one ledger; lives as long as the reading."""

    __slots__ = (
        "_file", "_findings", "_lines", "_next", "_quick", "_set", "_shelf",
        "has_head", "records", "torn", "warnings",
    )  # fmt: skip

    def __init__(self, block_set: BlockSet, file: str) -> None:
        """Begin before the first line."""
        self.records: list[Record] = []
        self.torn: list[Problem] = []
        self.warnings: list[Problem] = []
        self.has_head = False
        self._file = file
        self._set = block_set
        self._shelf = Shelf(block_set)
        self._quick = QuickReader(block_set.unit, file)
        self._findings = Findings()
        self._lines: list[bytes] = []
        self._next = 1

    def take_all(self, data: bytes) -> None:
        """Read the whole ledger.  Raises RefusedFile with everything that is wrong."""
        self._lines = data.removeprefix(b"\xef\xbb\xbf").split(b"\n")
        for number, raw in enumerate(self._lines, start=1):
            line = decoded(raw.removesuffix(b"\r"))
            if line is None:
                self._findings.add(self._problem(number, "this line is not UTF-8 text"))
            elif line.strip() and not line.startswith("#"):
                self._take(number, line)
        self._findings.refuse_if_any()
        self._warn_of_contradictions()

    def _take(self, number: int, line: str) -> None:
        """Take one line: the head first, then records and torn lines."""
        if not self.has_head:
            self._take_head(number, line)
            return
        record = self._quick.record(line, number)
        if record is None and is_torn_record(line, self._next):
            self._take_torn(number)
            return
        record = record or self._careful_record(number, line)
        if record is not None:
            self._take_record(record, number)

    def _take_torn(self, number: int) -> None:
        """Name a torn line; it stays in the file as it is."""
        sentence = "a torn line: the writing was cut off here, and nothing of it counts"
        self.torn.append(self._problem(number, sentence))

    def _take_head(self, number: int, line: str) -> None:
        """Take the first line: the format, and whose ledger this is."""
        if is_torn_head(line):
            self._take_torn(number)
            return
        self.has_head = True
        if f"{line}\n" == head_line(self._set.name):
            return
        if not any(key in line for key in HEAD_KEYS):
            hint = f"as in {head_line(self._set.name).rstrip()}"
            self._findings.stop(self._problem(number, "a ledger begins with its head", hint=hint))
        what = "the head of a ledger"
        fields = fields_of_line(line, number, what, HEAD_KEYS, self._file, self._findings)
        if fields is None or not fields.need(*HEAD_KEYS):
            self._findings.refuse_if_any()
        else:
            self._refuse_other_ledger(fields)

    def _refuse_other_ledger(self, fields: Fields) -> None:
        """Refuse a ledger of another format or of another set; it is read no further."""
        form, name = fields.scalar("format"), fields.text("ledger of", NOTE_LIMIT)
        if form is not None and form.text != FORMAT:
            sentence = f"format {form.text!r} is not known: this program reads format {FORMAT}"
            self._findings.stop(form.problem(sentence))
        if name != self._set.name:
            about = fields.get("ledger of") or fields.node
            sentence = f"this is the ledger of {name!r}, not of {self._set.name!r}"
            hint = "if the set was given another name, write that name here"
            self._findings.stop(about.problem(sentence, hint=hint))

    def _careful_record(self, number: int, line: str) -> Record | None:
        """Return the record of a line we did not write like this; its mistakes are found."""
        fields = fields_of_line(line, number, "a record", KEYS, self._file, self._findings)
        record = None if fields is None else record_of(fields, self._set.unit, self._findings)
        if record is None:
            self._next += 1
        return record

    def _take_record(self, record: Record, number: int) -> None:
        """Take a record in its sequence; its piece must be one of the set."""
        if record.n != self._next:
            sentence = f"record {record.n} stands where record {self._next} is wanted"
            self._findings.add(self._problem(number, sentence, "n:", hint=_SEQUENCE_HINT))
        self._next = record.n + 1
        sentence, hint = self._shelf.naming_fault(record.event)
        if sentence:
            self._findings.add(self._problem(number, sentence, "size:", hint=hint))
            return
        self._warn_of_clock(record, number)
        self.records.append(record)

    def _warn_of_clock(self, record: Record, number: int) -> None:
        """Warn of a record written before the one above it: the file's order counts, not the clock."""
        if self.records and record.written < self.records[-1].written:
            last = self.records[-1].written
            sentence = f"the clock went back: written {record.written}, after {last}"
            self.warnings.append(self._problem(number, sentence, "written:"))

    def _warn_of_contradictions(self) -> None:
        """Warn of records that cannot be true after the ones before them."""
        _, contradictions = self._shelf.run(self.records)
        for found in contradictions:
            line = found.record.place.line if found.record.place else 1
            sentence = f"{found.record.event.kind} on {found.record.event.on}, but {found.sentence}"
            self.warnings.append(self._problem(line, sentence, "event:"))

    def _problem(self, number: int, sentence: str, about: str = "", *, hint: str = "") -> Problem:
        """Return a problem of a line, its caret under `about`, or under the whole line."""
        source = self._lines[number - 1].decode("utf-8", errors="replace")
        start = source.find(about) if about else -1
        if start < 0:
            return line_problem(self._file, number, source, sentence, hint=hint)
        place = Place(file=self._file, line=number, column=start + 1)
        return Problem(
            place=place, sentence=sentence, source=source, start=start, width=len(about) - 1, hint=hint
        )
