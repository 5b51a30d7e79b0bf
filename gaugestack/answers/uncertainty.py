"""What is known of the blocks at hand: by certificate, ledger or grade, as the budgets want it.

    >>> height = height_of(plan.stack.blocks, Basis.CERTIFIED, stock)
    >>> best_basis(stock)

A calibration of the ledger counts for its own block, the set file's certificate
for the others.  Drift since the calibration: from the block's trend where the
ledger has one, else what its standard permits a year; none on nominal sizes.
Makes no budget and chooses nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from gaugestack.answers.options import OWN
from gaugestack.answers.stock import Stock, load
from gaugestack.blocks import Basis, Block, CalibrationUncertainty, Certificate, Stack
from gaugestack.grades import permissible_change
from gaugestack.trend import DAYS_A_YEAR, Trend, trend_of
from gaugestack.uncertainty.knowledge import PM_PER_NM, Knowledge, knowledge_of
from gaugestack.uncertainty.stack import Height

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from gaugestack.inventory.stockroom import Piece

LEDGER_COVERAGE = "2"
"""The ledger keeps expanded uncertainties with this factor."""
_NOTHING = (0.0, "nothing said")


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What a stock tells of its blocks: by owner, and of the pieces the ledger saw calibrated."""

    stock: Stock
    by_owner: Mapping[str, Knowledge]
    pieces: Mapping[Block, Piece]

    def height(self, blocks: Sequence[Block], basis: Basis, low: Sequence[Block] = ()) -> Height:
        """Return a stack of blocks, less a low one, with all that is known of them."""
        every = (*blocks, *low)
        drifts = [self._drift(block, basis) for block in every]
        drifting = any(limit for limit, _ in drifts)
        return Height(
            stack=Stack(blocks=tuple(blocks)),
            low=Stack(blocks=tuple(low)),
            knowledge=self.by_owner,
            basis=basis,
            drift_limits=tuple(limit for limit, _ in drifts) if drifting else (),
            drift_sources=tuple(source for _, source in drifts) if drifting else (),
            recalibrated={block: self._recalibrated(block) for block in every if self._in_ledger(block)},
        )

    def _in_ledger(self, block: Block) -> bool:
        """Tell whether the newest calibration of a block stands in the ledger."""
        piece = self.pieces.get(block)
        return piece is not None and piece.calibrated is not None

    def _recalibrated(self, block: Block) -> Knowledge:
        """Return what is known of a block that the ledger saw calibrated."""
        piece, owner = self.pieces[block], self._of_owner(block)
        stated = piece.uncertainty
        certificate = Certificate(
            number=f"of {piece.calibrated}",
            date=piece.calibrated,
            uncertainty=CalibrationUncertainty(fixed=stated, coverage=LEDGER_COVERAGE) if stated else None,
            source=block.trust,
        )
        return replace(owner, certificate=certificate)

    def _of_owner(self, block: Block) -> Knowledge:
        """Return what a block's own set says."""
        return self.by_owner.get(block.owner, Knowledge())

    def _drift(self, block: Block, basis: Basis) -> tuple[float, str]:
        """Return how far a block may have changed since its calibration, nm, and who says so."""
        calibrated = self._calibrated_on(block)
        if basis is Basis.NOMINAL or block.deviation is None or calibrated is None or self.stock.on is None:
            return _NOTHING
        trend = self._trend(block)
        if trend:
            fastest = max(abs(trend.lowest), abs(trend.highest))
            years = _years(trend.last, self.stock.on)
            return fastest * years / PM_PER_NM, f"trend of {trend.count} calibrations in the ledger"
        known = self._of_owner(block)
        if known.standard is None:
            return _NOTHING
        change = permissible_change(known.standard, known.grade, block.nominal) or 0
        source = f"permissible change a year, grade {known.grade}"
        return change * _years(calibrated, self.stock.on) / PM_PER_NM, source

    def _calibrated_on(self, block: Block) -> dt.date | None:
        """Return the day of the calibration that counts."""
        piece, certificate = self.pieces.get(block), self._of_owner(block).certificate
        if piece is not None and piece.calibrated is not None:
            return piece.calibrated
        return certificate.date if certificate else None

    def _trend(self, block: Block) -> Trend | None:
        """Return the trend of a block's calibrations up to the day, if there are enough."""
        place = dict(zip(self.stock.owners, range(len(self.stock.sets)), strict=True)).get(block.owner)
        if place is None or place >= len(self.stock.records) or not self.stock.records[place]:
            return None
        from gaugestack.inventory.state import calibrations_of  # noqa: PLC0415  (only where a ledger is)

        block_set, on = self.stock.sets[place], self.stock.on
        records = [record for record in self.stock.records[place] if on is None or record.event.on <= on]
        own = replace(block, owner=block_set.name)
        found = calibrations_of(block_set, records, own)
        trend = trend_of(point for point in found if on is None or point.on <= on)
        return trend if isinstance(trend, Trend) else None


def known_of(stock: Stock, wear: str | None = None) -> Known:
    """Return what a stock tells, and the set that a wear pair comes from (`Choice.wear`)."""
    by_owner = {owner: knowledge_of(found) for owner, found in zip(stock.owners, stock.sets, strict=True)}
    for found in _wear_sets(wear):
        by_owner.setdefault(found.name, knowledge_of(found.block_set))
    return Known(stock=stock, by_owner=by_owner, pieces={piece.block: piece for piece in stock.pieces})


def height_of(blocks: Sequence[Block], basis: Basis, stock: Stock, wear: str | None = None) -> Height:
    """Return a stack of blocks with all that a stock knows of them."""
    return known_of(stock, wear).height(blocks, basis)


def best_basis(stock: Stock) -> Basis:
    """Return the certified length where a certificate or the ledger states its uncertainty, else nominal."""
    stated = {
        owner
        for owner, found in zip(stock.owners, stock.sets, strict=True)
        if found.certificate and found.certificate.uncertainty
    }
    for piece in stock.pieces:
        known = piece.uncertainty is not None if piece.calibrated else piece.block.owner in stated
        if piece.fit and piece.block.deviation is not None and known:
            return Basis.CERTIFIED
    return Basis.NOMINAL


def _wear_sets(wear: str | None) -> list[Stock]:
    """Return the set a wear pair was borrowed from, if from another one."""
    if wear is None or wear == OWN or wear[:1].isdigit() or wear[:1] == ".":
        return []
    return [load([wear])]


def _years(since: dt.date, on: dt.date) -> float:
    """Return the years between two days, none below zero."""
    return max(0, (on - since).days) / DAYS_A_YEAR
