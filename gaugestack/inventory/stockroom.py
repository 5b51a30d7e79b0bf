"""A set as it stands on a day: its file, its ledger, and which pieces are fit for use.

    >>> opened = open_set("bench.yaml", on=day, job="MT3 socket")
    >>> [piece.block for piece in opened.pieces if piece.fit]

A shipped set has no ledger.  The ledger's modules are imported only where a
ledger, or a limit of the owner's, is there to be read.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import find_set, shipped_names, shipped_path

if TYPE_CHECKING:
    from pathlib import Path

    from gaugestack.angles.sine import SineBar
    from gaugestack.blocks import Block, BlockSet
    from gaugestack.inventory.events import Record
    from gaugestack.inventory.state import PieceState
    from gaugestack.lengths import Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece of a set as issued: fit for use or not, and why not.

    `block` carries the newest deviation; `end_only` pieces are fit for an end
    position only; `uses` counts the jobs the ledger knows; `lent_to`, `back_on`
    and `overdue` tell who has it and until when.  `calibrated` and
    `uncertainty` (expanded, coverage factor 2) are those of the ledger's
    calibration, where that is the newest.
    """

    block: Block
    fit: bool = True
    reasons: tuple[str, ...] = ()
    end_only: bool = False
    uses: int = 0
    calibrated: dt.date | None = None
    uncertainty: Length | None = None
    lent_to: str = ""
    back_on: dt.date | None = None
    overdue: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A set with its bars, its pieces in canonical order, its ledger's records and what is odd about them."""

    block_set: BlockSet
    bars: tuple[SineBar, ...]
    pieces: tuple[Piece, ...]
    path: Path
    warnings: tuple[str, ...] = ()
    records: tuple[Record, ...] = ()


def open_set(name: str, *, on: dt.date | None = None, job: str = "") -> Opened:
    """Return a set by file or shipped name as it stands at the end of the day `on`.

    Without a day every record counts.  Raises UsageError for an unknown name,
    RefusedFile with every fault of the set file or of its ledger.
    """
    path = find_set(name)
    block_set, bars = load_set(path)
    if is_shipped(path) or not (has_ledger(path) or block_set.retire_beyond is not None):
        return Opened(block_set=block_set, bars=bars, pieces=as_described(block_set), path=path)
    return _with_ledger(block_set, bars, path, on or dt.date.max, job)


def as_described(block_set: BlockSet) -> tuple[Piece, ...]:
    """Return the pieces of a set without a ledger: there, or absent."""
    gone = set(block_set.absent)
    return tuple(
        Piece(block=block, fit=block not in gone, reasons=("absent",) if block in gone else ())
        for block in block_set.issued
    )


def has_ledger(path: Path) -> bool:
    """Tell whether a ledger lies beside a set file."""
    return path.with_name(f"{path.stem}.ledger.yaml").exists()


def is_shipped(path: Path) -> bool:
    """Tell whether a path is one of the shipped sets, which nobody's ledger belongs to."""
    return path.stem in shipped_names() and path == shipped_path(path.stem)


def _with_ledger(block_set: BlockSet, bars: tuple[SineBar, ...], path: Path, on: dt.date, job: str) -> Opened:
    """Return a set folded with its ledger."""
    from gaugestack.inventory.ledger import read_ledger  # noqa: PLC0415
    from gaugestack.inventory.state import fold  # noqa: PLC0415

    ledger = read_ledger(path, block_set)
    state = fold(block_set, ledger.records, on, job)
    pieces = tuple(_piece(found) for found in state.pieces)
    warnings = tuple(str(problem) for problem in (*ledger.torn, *ledger.warnings))
    return Opened(
        block_set=block_set, bars=bars, pieces=pieces, path=path, warnings=warnings, records=ledger.records
    )


def _piece(found: PieceState) -> Piece:
    """Return what a composer needs of a piece's state."""
    return Piece(
        block=found.block,
        fit=found.fit,
        reasons=found.reasons,
        end_only=found.end_only,
        uses=found.uses,
        calibrated=found.calibrated,
        uncertainty=found.uncertainty,
        lent_to=found.lent_to,
        back_on=found.back_on,
        overdue=found.overdue,
    )
