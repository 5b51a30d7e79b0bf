"""Records that were a mistake, struck by later ones: a ledger is never rewritten.

    struck = struck_by(records)             {3: the void record that strikes record 3}
    counting, faults = standing(records)    what counts, and voids that strike nothing

A void record says that an earlier record of the same piece never was true, on
no day.  What is struck stays in the file and in the history.  A void is never
struck itself: what it took away is recorded again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.inventory.events import Kind

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from gaugestack.inventory.events import Event, Record


def standing(records: Iterable[Record]) -> tuple[tuple[Record, ...], tuple[tuple[Record, str], ...]]:
    """Return the records that count, and each void that strikes nothing with why."""
    every = tuple(records)
    if not any(record.event.kind is Kind.VOID for record in every):
        return every, ()
    struck, faults = _sorted_out(every)
    counting = (each for each in every if each.event.kind is not Kind.VOID and each.n not in struck)
    return tuple(counting), faults


def struck_by(records: Iterable[Record]) -> Mapping[int, Record]:
    """Return the number of each record that is struck, with the void record that strikes it."""
    return _sorted_out(tuple(records))[0]


def _sorted_out(records: tuple[Record, ...]) -> tuple[dict[int, Record], tuple[tuple[Record, str], ...]]:
    """Return what is struck by what, and the voids that strike nothing."""
    known = {record.n: record for record in records}
    struck: dict[int, Record] = {}
    faults = []
    for record in records:
        number = record.event.record
        if record.event.kind is not Kind.VOID or number is None:
            continue
        fault = _fault(record, known.get(number), struck.get(number))
        if fault:
            faults.append((record, fault))
        else:
            struck[number] = record
    return struck, tuple(faults)


def _fault(void: Record, target: Record | None, before: Record | None) -> str:
    """Return why a void record strikes nothing; nothing where it does."""
    number = void.event.record
    if target is None or target.n >= void.n:
        return f"there is no record {number} before it"
    if target.event.kind is Kind.VOID:
        return f"record {number} strikes another: record again what it took away"
    if before is not None:
        return f"record {number} is struck already, by record {before.n}"
    if not _same_piece(target.event, void.event):
        return f"record {number} is about {target.event.piece}"
    return ""


def _same_piece(one: Event, other: Event) -> bool:
    """Return whether two events can mean the same piece; a line written by hand may lack the serial."""
    alike = (one.size, one.wear) == (other.size, other.wear)
    return alike and (one.serial == other.serial or "" in (one.serial, other.serial))
