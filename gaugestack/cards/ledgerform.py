"""Answers about ledgers as JSON: `record`, `history`, `set copy`.

    >>> jsonform.text(record_form(answer))

The same rules as jsonform: exact lengths as text, sorted keys, fields are
added and never renamed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from gaugestack.cards.jsonform import VERSION
from gaugestack.lengths import engraved_text, exact_text
from gaugestack.trend import Trend

if TYPE_CHECKING:
    from pathlib import Path

    from gaugestack.answers.history import Entry, History, Outlook
    from gaugestack.answers.record import Recorded
    from gaugestack.inventory.events import Event, Record
    from gaugestack.inventory.stockroom import Piece
    from gaugestack.lengths import Unit
    from gaugestack.trend import Leaving, NoTrend

Form = dict[str, Any]
_TEXTS = ("serial", "to", "job", "why", "source")
_LENGTHS = ("deviation", "variation", "uncertainty")


def record_form(answer: Recorded) -> Form:
    """Return the form "gaugestack/record"."""
    return _headed(
        "record",
        {
            "set": answer.block_set.name,
            "ledger": str(answer.ledger),
            "records": [record_fields(record) for record in answer.records],
            "blocks": [piece_fields(piece) for piece in answer.pieces],
            "at_hand": answer.at_hand,
            "pieces": answer.issued,
            "remarks": list(answer.remarks),
        },
    )


def history_form(answer: History) -> Form:
    """Return the form "gaugestack/history"."""
    unit = answer.block_set.unit
    return _headed(
        "history",
        {
            "set": answer.block_set.name,
            "on": answer.on.isoformat(),
            "block": piece_fields(answer.piece),
            "alike": answer.alike,
            "records": [_entry_fields(entry) for entry in answer.entries],
            "since": answer.since.isoformat() if answer.since else None,
            "jobs": [
                {"job": use.job, "first": use.first.isoformat(), "last": use.last.isoformat()}
                for use in answer.jobs
            ],
            "calibrations": [
                {"on": found.on.isoformat(), "deviation": exact_text(found.deviation, unit)}
                for found in answer.calibrations
            ],
            "trend": _trend_fields(answer.trend, unit),
            "limits": [_outlook_fields(outlook, unit) for outlook in answer.outlooks],
            "remarks": list(answer.remarks),
        },
    )


def copy_form(shipped: str, path: Path) -> Form:
    """Return the form "gaugestack/set-copy"."""
    return _headed("set-copy", {"copied": shipped, "file": str(path)})


def record_fields(record: Record) -> Form:
    """Return one record of a ledger."""
    written = record.written.isoformat(timespec="seconds")
    return {"n": record.n, "written": written, **_event_fields(record.event)}


def piece_fields(piece: Piece) -> Form:
    """Return one piece as it stands."""
    block = piece.block
    form: Form = {
        "nominal": block.engraved,
        "fit_for_use": piece.fit,
        "reasons": list(piece.reasons),
        "end_only": piece.end_only,
        "uses": piece.uses,
        "trust": block.trust.value,
    }
    if block.serial:
        form["serial"] = block.serial
    if block.wear:
        form["wear"] = True
    if block.deviation is not None:
        form["deviation"] = exact_text(block.deviation, block.unit)
    if piece.calibrated:
        form["calibrated"] = piece.calibrated.isoformat()
    return form


def _headed(schema: str, form: Form) -> Form:
    """Return a form with its schema and version."""
    return {"schema": f"gaugestack/{schema}", "version": VERSION, **form}


def _event_fields(event: Event) -> Form:
    """Return what an event says; nothing for what it does not say."""
    form: Form = {
        "on": event.on.isoformat(),
        "event": event.kind.value,
        "size": engraved_text(event.size, event.unit),
    }
    form |= {key: text for key in _TEXTS if (text := getattr(event, key))}
    form |= {
        key: exact_text(length, event.unit) for key in _LENGTHS if (length := getattr(event, key)) is not None
    }
    others = {
        "wear": event.wear,
        "back": event.back and event.back.isoformat(),
        "trust": event.trust and event.trust.value,
        "record": event.record,
    }
    return {**form, **{key: value for key, value in others.items() if value}}


def _entry_fields(entry: Entry) -> Form:
    """Return one line of a history, and what struck it."""
    form = record_fields(entry.record)
    return {**form, "struck_by": entry.struck.n} if entry.struck else form


def _trend_fields(trend: Trend | NoTrend, unit: Unit) -> Form:
    """Return the wear trend, or why there is none; lengths a year, rounded to whole picometres."""
    if not isinstance(trend, Trend):
        return {"direction": None, "why": trend.why}
    return {
        "direction": trend.direction.value,
        "sentence": trend.sentence(unit),
        "calibrations": trend.count,
        "slope_per_year": exact_text(round(trend.slope), unit),
        "lowest_per_year": exact_text(round(trend.lowest), unit),
        "highest_per_year": exact_text(round(trend.highest), unit),
    }


def _outlook_fields(outlook: Outlook, unit: Unit) -> Form:
    """Return one limit, and when the block is expected to leave it."""
    return {
        "limit": outlook.limit,
        "lower": exact_text(outlook.lower, unit),
        "upper": exact_text(outlook.upper, unit),
        "inside": outlook.inside,
        "leaving": _leaving_fields(outlook.leaving) if outlook.leaving else None,
    }


def _leaving_fields(leaving: Leaving) -> Form:
    """Return the day a trend leaves a limit, and how sure that is."""
    days = {"expected": leaving.expected, "earliest": leaving.earliest, "latest": leaving.latest}
    return {
        **{key: day.isoformat() if day else None for key, day in days.items()},
        "already": leaving.already,
        "sure": leaving.sure,
    }
