"""Ledgers as plain text for a terminal of 80 columns: `record` and `history`.

    >>> print(record_text(answer))
    >>> print(history_text(answer))

Texts from ledgers pass through `visible`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.certifiedscreen import fine_text
from gaugestack.cards.screen import page, remark_lines, wrapped
from gaugestack.cards.trendrows import trend_rows
from gaugestack.errors import visible
from gaugestack.inventory.events import Kind, piece_name
from gaugestack.trend import Trend

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from gaugestack.answers.history import Entry, History, Outlook
    from gaugestack.answers.record import Recorded
    from gaugestack.inventory.events import Event, Record
    from gaugestack.inventory.stockroom import Piece
    from gaugestack.lengths import Length, Unit
    from gaugestack.trend import Leaving

MOST_SHOWN = 12
"""Records and pieces shown before the rest is counted."""


def record_text(answer: Recorded) -> str:
    """Return the screen of `record`: what was written, and how the pieces stand now."""
    lines = wrapped(visible(f"Recorded in {answer.ledger.name}:"), "", "  ")
    for record in answer.records[:MOST_SHOWN]:
        lines += _record_lines(record, record.event.piece)
    lines += _and_more(len(answer.records))
    lines.append("")
    for piece in answer.pieces[:MOST_SHOWN]:
        lines += wrapped(visible(f"{_name(piece)} is {_standing(piece)}"), "  ", "    ")
    lines += _and_more(len(answer.pieces))
    lines.append(f"  {answer.at_hand} of {answer.issued} pieces are fit for use")
    return page((*lines, *remark_lines(visible(remark) for remark in answer.remarks)))


def history_text(answer: History, *, jobs_only: bool = False) -> str:
    """Return the screen of `history`; `jobs_only` leaves all but the jobs away."""
    head = f"{_name(answer.piece)} of {answer.block_set.name}, on {answer.on}"
    lines = wrapped(visible(head), "", "  ")
    lines += wrapped(visible(_standing(answer.piece)), "  ", "  ")
    if not jobs_only:
        lines += ["", *_entries(answer)]
    lines += ["", *_jobs(answer)]
    if not jobs_only:
        lines += ["", *_wear(answer)]
    return page((*lines, *remark_lines(visible(remark) for remark in answer.remarks)))


def copy_text(shipped: str, path: Path) -> str:
    """Return the screen of `set copy`."""
    lines = wrapped(visible(f"{shipped} copied to {path}: it is yours to edit"), "", "  ")
    lines += wrapped(visible(f"gaugestack record missing SIZE --set {path}"), "  next: ", "  ")
    return page(lines)


def details_said(event: Event) -> str:
    """Return what an event says beyond its kind: `to Ola, back 2026-02-10`."""
    small = (
        fine_text(event.deviation, event.unit) if event.deviation is not None else "",
        f"variation {_plain(event.variation, event.unit)}" if event.variation is not None else "",
        f"uncertainty {_plain(event.uncertainty, event.unit)}" if event.uncertainty is not None else "",
    )
    said = (
        f"strikes record {event.record}" if event.record else "",
        event.to and f"to {event.to}",
        f"back {event.back}" if event.back else "",
        event.job and f"in {event.job}" if event.kind is not Kind.RESERVED else f"for {event.job}",
        event.why,
        *small,
        event.trust.value if event.trust else "",
        event.source,
    )
    return ", ".join(filter(None, said))


def _plain(length: Length, unit: Unit) -> str:
    """Return a length that has no direction."""
    return fine_text(length, unit).lstrip("+")


def _and_more(count: int) -> list[str]:
    """Return a line that counts what is not shown."""
    return [f"  and {count - MOST_SHOWN} more"] if count > MOST_SHOWN else []


def _name(piece: Piece) -> str:
    """Return the piece as it is spoken of."""
    return piece_name(piece.block.engraved, piece.block.serial, wear=piece.block.wear)


def _standing(piece: Piece) -> str:
    """Say whether a piece is fit, what it deviates, and how often it was used."""
    fit = "fit for use" if piece.fit else f"not fit: {'; '.join(piece.reasons)}"
    said = [f"{fit}, at an end only (one good face)" if piece.fit and piece.end_only else fit]
    if piece.block.deviation is not None:
        when = f", {piece.calibrated}" if piece.calibrated else ""
        deviation = fine_text(piece.block.deviation, piece.block.unit)
        said.append(f"{deviation} ({piece.block.trust}{when})")
    if piece.uses:
        said.append(f"used {piece.uses} time{'s' * (piece.uses > 1)}")
    return ", ".join(said)


def _record_lines(record: Record, piece: str = "", note: str = "") -> list[str]:
    """Return one record: number, day, kind, piece, details."""
    event = record.event
    said = ", ".join(filter(None, (piece, details_said(event))))
    text = f"{event.kind:<10} {said}{note}".rstrip()
    return wrapped(visible(text), f"{record.n:>4}  {event.on}  ", " " * 18)


def _entries(answer: History) -> Iterator[str]:
    """Return every record about the block."""
    if not answer.entries:
        yield "  nothing is recorded about it"
    for entry in answer.entries:
        yield from _record_lines(entry.record, note=_struck(entry))


def _struck(entry: Entry) -> str:
    """Say that a record was a mistake."""
    return f" [struck by record {entry.struck.n}: {entry.struck.event.why}]" if entry.struck else ""


def _jobs(answer: History) -> Iterator[str]:
    """Return the jobs that used the block, which want a second look if it turns out bad."""
    since = f" since {answer.since}" if answer.since else ""
    if not answer.jobs:
        yield f"No job is recorded to have used it{since}."
        return
    yield f"Jobs that used it{since}, and whose cards name it:"
    for use in answer.jobs:
        days = f"{use.first}" if use.first == use.last else f"{use.first} to {use.last}"
        yield from wrapped(visible(use.job), f"  {days:<26}", " " * 28)


def _wear(answer: History) -> Iterator[str]:
    """Return the wear trend and when it is expected to leave each limit."""
    unit, trend = answer.block_set.unit, answer.trend
    said = trend.sentence(unit) if isinstance(trend, Trend) else f"no trend yet: {trend.why}"
    yield from wrapped(said, "Wear: ", "  ")
    if len(answer.calibrations) > 1 and answer.outlooks:
        ends = (answer.outlooks[0].lower, answer.outlooks[0].upper)
        yield from (*trend_rows(answer.calibrations, ends, unit), "")
    for outlook in answer.outlooks:
        lower, upper = (fine_text(end, unit) for end in (outlook.lower, outlook.upper))
        lead = f"{outlook.limit} ({lower} to {upper}): "
        yield from wrapped(f"{lead}{outlook_said(outlook)}", "  ", "    ")


def outlook_said(outlook: Outlook) -> str:
    """Say whether the block is inside a limit, and when it is expected to leave it."""
    now = {None: "its deviation is not known", True: "inside", False: "OUTSIDE"}[outlook.inside]
    return f"{now}; {_leaving_said(outlook.leaving)}" if outlook.leaving and outlook.inside else now


def _leaving_said(leaving: Leaving) -> str:
    """Say when a trend leaves a limit, and how sure that is."""
    if leaving.already:
        return "but the trend lies outside already"
    if leaving.expected is None:
        return "not expected to leave it within 100 years"
    latest = leaving.latest.isoformat() if leaving.latest else "never"
    between = f"95 %: {leaving.earliest or leaving.expected} to {latest}"
    if not leaving.sure:
        return f"if there is a trend at all, it leaves about {leaving.expected} ({between}): a guess"
    return f"expected to leave it about {leaving.expected} ({between})"
