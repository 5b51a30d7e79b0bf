"""Recording what happened to blocks: the answer of the command `record`.

    >>> record(Told(event="missing", sizes=("0.105",), on=day), name="bench.yaml", now=now)

One call is one append, and when it returns the records are on the disk.  The
clock is the caller's.  A shipped set has no ledger: it is everybody's.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.answers.told import Told, events_of, kind_of, plain_event
from gaugestack.errors import Place, Problem, TextError, UsageError, nearest
from gaugestack.inventory.certtable import ColumnTexts, TableLayout, ValueKind, read_table
from gaugestack.inventory.certtablehead import unit_length
from gaugestack.inventory.events import Kind, faults_of
from gaugestack.inventory.ledger import append, ledger_path
from gaugestack.inventory.stockroom import is_shipped, open_set

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from gaugestack.blocks import BlockSet
    from gaugestack.inventory.events import Event, Record
    from gaugestack.inventory.stockroom import Piece

_COLUMNS = ("nominal", "deviation", "serial", "variation")


@dataclass(frozen=True, slots=True, kw_only=True)
class CertificateTable:
    """A certificate table to record, as it was typed.

    file     the CSV file
    value    deviation, actual or wear; nobody guesses it
    columns  "nominal=Size,deviation=Dev": the names of the columns
    unit     a unit for the values, or "nominal=in,deviation=µin"
    """

    file: str
    value: str = ""
    columns: str = ""
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """What was recorded, in which ledger, and how the pieces it is about stand now.

    `pieces` are the pieces whose standing or value an event could change, in the
    order of the records, on the day the caller's clock says; `at_hand` of `issued` are fit for use.
    """

    block_set: BlockSet
    ledger: Path
    records: tuple[Record, ...]
    pieces: tuple[Piece, ...]
    at_hand: int
    issued: int
    remarks: tuple[str, ...] = ()


def record(told: Told, *, name: str, now: dt.datetime, table: CertificateTable | None = None) -> Recorded:
    """Record events in the ledger of a set, and return what stands there now.

    Raises UsageError for a shipped set and for what is faulty or cannot be
    true, RefusedFile for a set file, table or ledger; nothing was recorded then.
    """
    opened = open_set(name, on=now.date())
    if is_shipped(opened.path):
        raise _no_ledger(name)
    remarks: tuple[str, ...] = ()
    if table is None:
        events = events_of(told, opened.block_set, opened.records)
    else:
        events, remarks = _events_of_table(told, table, opened.block_set)
    _refuse_faults(events)
    records = append(opened.path, opened.block_set, events, now)
    return _recorded(name, records, now.date(), (*remarks, *_ahead(told, now.date())))


def _refuse_faults(events: Sequence[Event]) -> None:
    """Refuse what an event lacks or has too much, by the names of the options.  Raises UsageError."""
    faults = dict.fromkeys(fault for event in events for fault in faults_of(event))
    if faults:
        places = ((Place(file=f"--{key}"), sentence) for key, sentence in faults)
        raise UsageError(Problem(place=place, sentence=sentence) for place, sentence in places)


def _recorded(name: str, records: tuple[Record, ...], today: dt.date, remarks: tuple[str, ...]) -> Recorded:
    """Return what stands in the ledger, read anew."""
    opened = open_set(name, on=today)
    order = {key: place for place, key in enumerate(dict.fromkeys(_key(each.event) for each in records))}
    touched = [piece for piece in opened.pieces if _piece_key(piece) in order]
    touched.sort(key=lambda piece: order[_piece_key(piece)])
    return Recorded(
        block_set=opened.block_set,
        ledger=ledger_path(opened.path),
        records=records,
        pieces=tuple(touched),
        at_hand=sum(piece.fit for piece in opened.pieces),
        issued=len(opened.pieces),
        remarks=(*remarks, *opened.warnings),
    )


def _key(event: Event) -> tuple[int, bool, str]:
    """Return what tells the piece of an event from others."""
    return event.size, event.wear, event.serial


def _piece_key(piece: Piece) -> tuple[int, bool, str]:
    """Return what tells a piece from others."""
    return piece.block.nominal, piece.block.wear, piece.block.serial


def _no_ledger(name: str) -> UsageError:
    """Return the refusal of a shipped set."""
    hint = f"make it your own first: gaugestack set copy {name} my-set.yaml"
    return UsageError.about("--set", f"{name} comes with the program and has no ledger", hint=hint)


def _ahead(told: Told, today: dt.date) -> tuple[str, ...]:
    """Say that a day lies ahead: until then the record changes nothing."""
    return (f"{told.on} lies ahead: until then the record changes nothing",) if told.on > today else ()


def _events_of_table(
    told: Told, table: CertificateTable, block_set: BlockSet
) -> tuple[tuple[Event, ...], tuple[str, ...]]:
    """Return a calibration for each row whose block is there, and what is odd about the table."""
    if kind_of(told.event) is not Kind.CALIBRATED or told.sizes:
        raise UsageError.about("--table", "a certificate table is for `record calibrated` without sizes")
    for option in ("deviation", "variation"):
        if getattr(told, option):
            raise UsageError.about(f"--{option}", "the table says it")
    plain = plain_event(told, Kind.CALIBRATED, block_set.unit)
    found = read_table(table.file, _layout(table), block_set)
    gone = set(block_set.absent)
    events = tuple(
        replace(
            plain,
            size=value.block.nominal,
            serial=value.block.serial,
            wear=value.block.wear,
            deviation=value.deviation,
            variation=value.variation,
        )
        for value in found.values
        if value.block not in gone
    )
    return events, tuple(f"{found.file}: {remark}" for remark in found.remarks)


def _layout(table: CertificateTable) -> TableLayout:
    """Return how a table is laid out, from the words typed.  Raises UsageError."""
    kind = _value(table.value)
    units = _pairs(table.unit, "--table-unit", kind) if "=" in table.unit else {}
    if table.unit and not units:
        units = {"deviation": table.unit, "variation": table.unit}
    for text in units.values():
        _refuse_unit(text)
    return TableLayout(
        value=kind,
        columns=ColumnTexts(**_pairs(table.columns, "--columns", kind)),
        units=ColumnTexts(**units),
    )


def _refuse_unit(text: str) -> None:
    """Refuse a text that is no unit of length.  Raises UsageError."""
    try:
        unit_length(text)
    except TextError:
        hint = "µin, µm, nm, in or mm, or a count of them such as '0.00001 in'"
        raise UsageError.about("--table-unit", f"{text!r} is no unit of length", hint=hint) from None


def _value(text: str) -> ValueKind:
    """Return what the values of a table are.  Raises UsageError where it is not said."""
    kinds = [kind.value for kind in ValueKind]
    if text in kinds:
        return ValueKind(text)
    sentence = f"{text!r} is no kind of value" if text else "say what the values of the table are"
    hint = (
        "deviation (actual minus nominal), actual (the length itself) or wear (nominal minus actual): "
        "lid sheets get the sign wrong, so it is never guessed"
    )
    raise UsageError.about("--value", sentence, hint=nearest(text, kinds) if text else hint)


def _pairs(text: str, option: str, kind: ValueKind) -> Mapping[str, str]:
    """Return what `nominal=Size,deviation=Dev` says; the column of the values may be called by their kind.

    Raises UsageError.
    """
    pairs: dict[str, str] = {}
    for part in filter(None, text.split(",")):
        key, equals, value = (piece.strip() for piece in part.partition("="))
        key = "deviation" if key == kind.value else key
        if key in pairs:
            raise UsageError.about(option, f"{part!r}: that column is named already", hint="name it once")
        if key not in _COLUMNS or not equals or not value:
            hint = f"like nominal=Size,deviation=Dev; known: {', '.join(_COLUMNS)}"
            raise UsageError.about(option, f"{part!r} names no column", hint=hint)
        pairs[key] = value
    return pairs
