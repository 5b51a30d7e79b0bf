"""How a set stands on a day: calibration due, grades, trust of its values, loans.

    >>> checked(stock, on=day).problems

Grades are those of new blocks in the set's own standard; what no deviation is
known of counts neither for nor against.  Blocks that are not fit for use are
out of the set as it stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.blocks import Due, DueState, Trust, due_state
from gaugestack.errors import TextError
from gaugestack.grades import grade_still_met, known_grades, outside_grade, read_standard

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.grades import GradeMet
    from gaugestack.grades_tables import Standard
    from gaugestack.inventory.stockroom import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Outside:
    """A block that leaves the grade of its set, and a sentence for each value that does."""

    block: Block
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What a look at a set on the day `on` finds.

    `due` is that of the set file's certificate; `superseded` tells that every
    value at hand is of a later calibration, so that its due day says nothing.
    `met` is None where the standard is not known.  `trusts` counts the fit
    pieces by where their values come from, the most trusted first.
    """

    on: dt.date | None
    due: Due
    due_day: dt.date | None
    superseded: bool
    grade: str
    outside: tuple[Outside, ...]
    met: GradeMet | None
    trusts: tuple[tuple[Trust, int], ...]
    lent: tuple[Piece, ...]

    @property
    def overdue_loans(self) -> tuple[Piece, ...]:
        """The lent pieces whose day has passed."""
        return tuple(piece for piece in self.lent if piece.overdue)

    @property
    def problems(self) -> tuple[str, ...]:
        """What must be seen to: overdue calibration, blocks outside their grade, overdue loans."""
        return (*_calibration(self), *_grades(self), *_loans(self))


def checked(stock: Stock, on: dt.date | None = None) -> Checked:
    """Return how the first set of a stock stands; without a day nothing is due."""
    block_set = stock.block_set
    at_hand = tuple(piece for piece in stock.pieces if piece.fit)
    blocks = tuple(piece.block for piece in at_hand)
    standard = _standard(block_set.standard)
    certificate = block_set.certificate
    return Checked(
        on=on,
        due=due_state(certificate, on) if on else Due(state=DueState.NONE),
        due_day=certificate.due if certificate else None,
        superseded=_superseded(at_hand),
        grade=block_set.grade if standard and block_set.grade in known_grades(standard) else "",
        outside=tuple(_outside(blocks, standard, block_set.grade)),
        met=grade_still_met(blocks, standard) if standard else None,
        trusts=_trusts(blocks),
        lent=tuple(piece for piece in stock.pieces if piece.lent_to),
    )


def _standard(text: str) -> Standard | None:
    """Return the standard a set names, where its grades are known."""
    try:
        return read_standard(text) if text else None
    except TextError:
        return None


def _superseded(at_hand: tuple[Piece, ...]) -> bool:
    """Return whether every value at hand is of a later calibration than the set file's certificate."""
    valued = [piece for piece in at_hand if piece.block.deviation is not None]
    return bool(valued) and all(piece.calibrated for piece in valued)


def _outside(blocks: tuple[Block, ...], standard: Standard | None, grade: str) -> Iterator[Outside]:
    """Return the blocks whose values leave the grade of the set."""
    for block in blocks if standard and grade else ():
        sentences = outside_grade(block, standard, grade) if standard else ()
        if sentences:
            yield Outside(block=block, sentences=sentences)


def _trusts(blocks: tuple[Block, ...]) -> tuple[tuple[Trust, int], ...]:
    """Return how many blocks have a value of each trust, the most trusted first."""
    counts = ((trust, sum(block.trust is trust for block in blocks)) for trust in Trust)
    return tuple((trust, count) for trust, count in counts if count)


def _calibration(found: Checked) -> Iterator[str]:
    """Name an overdue calibration."""
    if found.due.state is DueState.OVERDUE and not found.superseded:
        days = -(found.due.days or 0)
        yield f"calibration is overdue by {days} day{'s' * (days > 1)}: it was due {found.due_day}"


def _grades(found: Checked) -> Iterator[str]:
    """Name each block that leaves its grade."""
    for outside in found.outside:
        serial = f" ({outside.block.serial})" if outside.block.serial else ""
        yield f"{outside.block.engraved}{serial}: {'; '.join(outside.sentences)}"


def _loans(found: Checked) -> Iterator[str]:
    """Name each block that is lent and should be back."""
    for piece in found.overdue_loans:
        yield f"{piece.block.engraved} is lent to {piece.lent_to} and was promised for {piece.back_on}"
