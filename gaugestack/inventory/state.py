"""Which blocks are fit for use on a day, and why the others are not.

    state = fold(block_set, ledger.records, on=day, job="MT3 socket")
    state.fit                   the blocks a stack may use
    state.pieces[0].reasons     ("lent to Ola since 2026-02-03, back 2026-02-10 (overdue)",)
    history(ledger.records, block), jobs_that_used(ledger.records, block)
    calibrations_of(block_set, ledger.records, block)       for trend.trend_of

Pure: the same set, records and day always give the same state.  Records after
the day do not count.  Whether a certificate is due is not asked here.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.inventory.events import Kind
from gaugestack.inventory.statepieces import Shelf, words_of
from gaugestack.inventory.strikes import standing
from gaugestack.lengths import Length, small_text
from gaugestack.trend import Calibration

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from gaugestack.blocks import Block, BlockSet, CalibrationUncertainty
    from gaugestack.inventory.events import Event, Record
    from gaugestack.inventory.statepieces import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceState:
    """How one piece of the set as issued stands on a day.

    `block` carries the newest deviation, of the set file or the ledger.
    `reasons` say why it is unfit, in the order they arose; none where `fit`.
    `end_only`: fit, but only at an end, its good face inward.
    `since` is the first day of the oldest reason that has one.
    `calibrated` and `uncertainty` (expanded, coverage factor 2) are those of
    the ledger's calibration, where that is the newest.
    """

    block: Block
    fit: bool
    reasons: tuple[str, ...] = ()
    end_only: bool = False
    uses: int = 0
    lent_to: str = ""
    back_on: dt.date | None = None
    overdue: bool = False
    since: dt.date | None = None
    calibrated: dt.date | None = None
    uncertainty: Length | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetState:
    """Every piece of the set as issued, in canonical order, on the day `on` for the job `job`."""

    on: dt.date
    pieces: tuple[PieceState, ...]
    job: str = ""

    @property
    def fit(self) -> tuple[Block, ...]:
        """The blocks that are fit for use, those that are only fit for an end too."""
        return tuple(piece.block for piece in self.pieces if piece.fit)

    @property
    def end_only(self) -> tuple[Block, ...]:
        """The fit blocks that have one good face."""
        return tuple(piece.block for piece in self.pieces if piece.fit and piece.end_only)

    @property
    def unfit(self) -> tuple[PieceState, ...]:
        """The pieces that are not fit, with their reasons."""
        return tuple(piece for piece in self.pieces if not piece.fit)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobUse:
    """A job a block was used in, and the first and last day of it in the ledger."""

    job: str
    first: dt.date
    last: dt.date


def fold(block_set: BlockSet, records: Iterable[Record], on: dt.date, job: str = "") -> SetState:
    """Return how every piece stands at the end of the day `on`.

    A block reserved for `job` is fit for it.  The records are those of a
    ledger of this very set: each names a piece of it.  What was struck later
    counts on no day, for it was never true.
    """
    counting, _ = standing(records)
    known = [record for record in counting if record.event.on <= on]
    pieces, _ = Shelf(block_set).run(known)
    states = (_state(piece, block_set, on, job) for piece in pieces)
    return SetState(on=on, pieces=tuple(states), job=job)


def history(records: Iterable[Record], block: Block) -> tuple[Record, ...]:
    """Return the records about a block in the order of their days, struck ones too.

    Identical pieces without serials share their history: nothing tells them apart.
    """
    about = [record for record in records if _names(record.event, block)]
    return tuple(sorted(about, key=lambda record: (record.event.on, record.n)))


def jobs_that_used(
    records: Iterable[Record], block: Block, since: dt.date | None = None
) -> tuple[JobUse, ...]:
    """Return the jobs a block was used or stood in, from the day `since`, by their first day.

    For the block that turned out bad: the work of these jobs wants a second look.
    """
    days: dict[str, list[dt.date]] = {}
    counting, _ = standing(records)
    for record in history(counting, block):
        event = record.event
        if event.kind in (Kind.USED, Kind.STANDING) and (since is None or event.on >= since):
            days.setdefault(event.job, []).append(event.on)
    return tuple(JobUse(job=job, first=min(on), last=max(on)) for job, on in days.items())


def calibrations_of(block_set: BlockSet, records: Iterable[Record], block: Block) -> tuple[Calibration, ...]:
    """Return every dated calibration of a block, of the set file and the ledger, by its day.

    A certificate that stands in both counts once, as the ledger has it.
    """
    counting, _ = standing(records)
    events = [record.event for record in history(counting, block) if record.event.kind is Kind.CALIBRATED]
    found = {
        (event.on, event.deviation): Calibration(
            on=event.on, deviation=event.deviation, uncertainty=event.uncertainty
        )
        for event in events
        if event.deviation is not None
    }
    issued = next((known for known in block_set.issued if known.order == block.order), block)
    certificate = block_set.certificate
    if certificate and certificate.date and issued.deviation is not None:
        found.setdefault(
            (certificate.date, issued.deviation),
            Calibration(
                on=certificate.date,
                deviation=issued.deviation,
                uncertainty=_expanded(certificate.uncertainty, issued),
            ),
        )
    return tuple(sorted(found.values(), key=lambda calibration: calibration.on))


def _expanded(uncertainty: CalibrationUncertainty | None, block: Block) -> Length | None:
    """Return a certificate's uncertainty at a block's size, expanded with factor 2."""
    if uncertainty is None:
        return None
    at_size = uncertainty.fixed + Fraction(uncertainty.per_length * block.nominal, 10**12)
    return Length(round(at_size * 2 / Fraction(uncertainty.coverage)))


def _names(event: Event, block: Block) -> bool:
    """Return whether an event's words fit a block."""
    return (event.size, event.wear) == (block.nominal, block.wear) and event.serial in ("", block.serial)


def _state(piece: Piece, block_set: BlockSet, on: dt.date, job: str) -> PieceState:
    """Return the state of one piece."""
    calibration = _newest_calibration(piece, block_set, on)
    block = _with_calibration(piece.block, calibration)
    lent = piece.marks.get(Kind.LENT)
    overdue = lent is not None and lent.back is not None and lent.back < on
    barring = [mark for mark in piece.marks.values() if _bars(mark, job)]
    reasons = [*(["absent"] if piece.absent else []), *(_reason(mark, on) for mark in barring)]
    reasons += _beyond_limit(block, block_set.retire_beyond)
    return PieceState(
        block=block,
        fit=not reasons,
        reasons=tuple(reasons),
        end_only=Kind.ONE_GOOD_FACE in piece.marks,
        uses=piece.uses,
        lent_to=lent.to if lent else "",
        back_on=lent.back if lent else None,
        overdue=overdue,
        since=min((mark.on for mark in barring), default=None),
        calibrated=calibration.on if calibration else None,
        uncertainty=calibration.uncertainty if calibration else None,
    )


def _bars(mark: Event, job: str) -> bool:
    """Return whether a condition keeps the block from being used for `job`.

    One good face does not: such a block can still be an end block (common practice).
    """
    if mark.kind is Kind.RESERVED:
        return mark.job != job
    return mark.kind is not Kind.ONE_GOOD_FACE


def _reason(mark: Event, on: dt.date) -> str:
    """Return a condition in words; a promise that is broken is said to be."""
    late = mark.back is not None and mark.back < on
    return f"{words_of(mark)}{' (overdue)' if late else ''}"


def _beyond_limit(block: Block, limit: Length | None) -> list[str]:
    """Return why a block with a deviation above the owner's limit is worn, whatever its grade."""
    if limit is None or block.deviation is None or abs(block.deviation) <= limit:
        return []
    deviation, allowed = small_text(block.deviation, block.unit), small_text(limit, block.unit).lstrip("+")
    return [f"worn beyond the owner's limit of {allowed}: {deviation}"]


def _newest_calibration(piece: Piece, block_set: BlockSet, on: dt.date) -> Event | None:
    """Return the ledger's calibration unless the set file's certificate is newer.

    A certificate of a day after `on` was not there yet, and one without a day
    is taken to be older than the ledger.
    """
    calibration, certificate = piece.calibration, block_set.certificate
    dated = certificate.date if certificate and piece.block.deviation is not None else None
    if calibration is None or dated is None or dated > on:
        return calibration
    return calibration if calibration.on >= dated else None


def _with_calibration(block: Block, calibration: Event | None) -> Block:
    """Return the block with what the calibration found."""
    if calibration is None or calibration.trust is None:
        return block
    return replace(
        block,
        deviation=calibration.deviation,
        variation=calibration.variation,
        trust=calibration.trust,
    )
