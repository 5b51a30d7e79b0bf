"""The ledger of a set: what happened to its blocks, one line an event, never rewritten.

    ledger = read_ledger(Path("bench.yaml"), block_set)
    records = append(Path("bench.yaml"), block_set, [event], clock_now=now)

The ledger of `bench.yaml` is `bench.ledger.yaml` beside it.  A set without one
has an empty ledger.  Two processes may append at the same time: each takes its
turn under a lock.  Several events of one call are one write, but each line
counts for itself: a machine that dies while writing may leave the first ones.
What the records mean for the blocks is said in state.py.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from gaugestack.errors import Place, Problem, UsageError
from gaugestack.inventory.events import Record, faults_of
from gaugestack.inventory.ledgerfile import locked
from gaugestack.inventory.ledgerlines import MOST_RECORDS, head_line, line_of
from gaugestack.inventory.ledgerrecords import LedgerReading
from gaugestack.inventory.statepieces import Shelf

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Sequence

    from gaugestack.blocks import BlockSet
    from gaugestack.inventory.events import Event


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledger:
    """What a ledger says.

    `records` in the order of the file, which is that of their numbers.  `torn`
    names lines that were never finished and do not count; `warnings` says what
    is odd but readable: a clock that went back, records that contradict others.
    """

    records: tuple[Record, ...] = ()
    torn: tuple[Problem, ...] = ()
    warnings: tuple[Problem, ...] = ()
    file: str = ""


def ledger_path(set_path: Path | str) -> Path:
    """Return where the ledger of a set file lies."""
    path = Path(set_path)
    return path.with_name(f"{path.stem}.ledger.yaml")


def read_ledger(set_path: Path | str, block_set: BlockSet) -> Ledger:
    """Return the ledger of a set; an empty one where there is none.

    Raises RefusedFile with everything that is wrong.
    """
    path = ledger_path(set_path)
    try:
        with locked(path, for_writing=False) as file:
            data = file.read()
    except FileNotFoundError:
        return Ledger(file=str(path))
    return ledger_of_bytes(data, block_set, file=str(path))


def ledger_of_bytes(data: bytes, block_set: BlockSet, *, file: str) -> Ledger:
    """Return the ledger that bytes describe; `file` names it in places.  Raises RefusedFile."""
    reading = _read(data, block_set, file)
    return Ledger(
        records=tuple(reading.records),
        torn=tuple(reading.torn),
        warnings=tuple(reading.warnings),
        file=file,
    )


def append(
    set_path: Path | str, block_set: BlockSet, events: Iterable[Event], clock_now: dt.datetime
) -> tuple[Record, ...]:
    """Record events; when this returns they are on the disk.

    Each is written with the serial of its piece.  Raises UsageError where an
    event is faulty or cannot be true now, and RefusedFile where the ledger is
    faulty or cannot be written; either way nothing was recorded.
    """
    wanted = _named(events, block_set)
    path = ledger_path(set_path)
    written = clock_now.replace(microsecond=0, tzinfo=None)
    if not _exists(path):
        _numbered((), wanted, block_set, written)
    with locked(path, for_writing=True) as file:
        data = file.read()
        reading = _read(data, block_set, str(path))
        records = _numbered(reading.records, wanted, block_set, written)
        if records:
            file.add(_addition(data, records, block_set, has_head=reading.has_head))
    return records


def _exists(path: Path) -> bool:
    """Return whether the ledger is there already: a refused event makes no new file."""
    try:
        return path.exists()
    except OSError:
        return False


def _read(data: bytes, block_set: BlockSet, file: str) -> LedgerReading:
    """Return the finished reading of a ledger."""
    reading = LedgerReading(block_set, file)
    reading.take_all(data)
    return reading


def _addition(data: bytes, records: Iterable[Record], block_set: BlockSet, *, has_head: bool) -> bytes:
    """Return what is added to the file: on a line of its own, below a head."""
    lines = "".join(line_of(record) for record in records)
    head = "" if has_head else head_line(block_set.name)
    own_line = "\n" if data and not data.endswith(b"\n") else ""
    return f"{own_line}{head}{lines}".encode()


def _named(events: Iterable[Event], block_set: BlockSet) -> tuple[Event, ...]:
    """Return the events, each with its piece's serial.  Raises UsageError with every fault."""
    shelf = Shelf(block_set)
    problems, named = [], []
    for event in events:
        found = [_problem(event, sentence) for _, sentence in faults_of(event)]
        sentence, hint = shelf.naming_fault(event)
        if sentence:
            found.append(_problem(event, sentence, hint=hint))
        if event.unit is not block_set.unit:
            found.append(_problem(event, f"this set is engraved in {block_set.unit.value}"))
        problems += found
        if not found:
            named.append(replace(event, serial=shelf.serial_of(event)))
    if problems:
        raise UsageError(problems)
    return tuple(named)


def _numbered(
    before: Sequence[Record], events: Iterable[Event], block_set: BlockSet, written: dt.datetime
) -> tuple[Record, ...]:
    """Return the events as the next records.  Raises UsageError where they contradict the ledger."""
    first = len(before) + 1
    records = tuple(
        Record(n=first + index, event=event, written=written) for index, event in enumerate(events)
    )
    if records and records[-1].n > MOST_RECORDS:
        raise UsageError.about("ledger", f"a ledger holds at most {MOST_RECORDS} records")
    shelf = Shelf(block_set)
    _, old = shelf.run(before)
    _, new = shelf.run((*before, *records))
    known = {contradiction.record.n for contradiction in old}
    problems = [
        _problem(found.record.event, _contradicts(found.record, found.sentence, first))
        for found in new
        if found.record.n not in known
    ]
    if problems:
        raise UsageError(problems)
    return records


def _contradicts(record: Record, sentence: str, first: int) -> str:
    """Say what an event contradicts; an older record may contradict a new one of an earlier day."""
    if record.n >= first:
        return sentence
    return f"record {record.n}, of {record.event.on}, could not be true then: {sentence}"


def _problem(event: Event, sentence: str, *, hint: str = "") -> Problem:
    """Return the problem of an event that is to be recorded."""
    return Problem(place=Place(file=event.kind.value), sentence=sentence, hint=hint)
