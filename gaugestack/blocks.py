"""Blocks, sets of blocks and stacks: frozen values and their plain questions.

    Block      one physical piece
    BlockSet   everything a set file describes, blocks in one canonical order
    Stack      blocks lying on one another, listed from the bottom

Lengths are whole picometres.  Nothing here reads a file, solves or prints;
which blocks are fit for use at a date is a question for inventory/.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from functools import reduce
from math import gcd
from typing import TYPE_CHECKING

from gaugestack.lengths import Length, Unit, engraved_text

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from gaugestack.errors import Place

MOST_PIECES = 1000
"""A set file describes at most this many pieces."""
THIN = Length(2_500_000_000)
"""Blocks up to 2.5 mm are thin: ISO 3650:1998, 7.2, gives them a flatness rule of their own."""

DUE_SOON_DAYS = 30
"""A certificate is due soon this many days before its due day (common practice)."""


class Basis(StrEnum):
    """Which length of a block counts."""

    NOMINAL = "nominal"
    CERTIFIED = "certified"


class Trust(StrEnum):
    """Where the deviation of a block comes from; nobody guesses it, the owner says it."""

    LABORATORY_REPORT = "laboratory report"
    OWN_COMPARISON = "own comparison"
    UNVERIFIED_SHEET = "unverified sheet"
    NOMINAL_ONLY = "nominal only"


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One physical gauge block.

    `nominal` is the engraved size, `deviation` what a certificate adds to it
    (actual minus nominal) or None, `variation` the greatest minus the least
    length over the face or None, `trust` where both come from ("nominal only"
    where there is no deviation).  `copy` tells apart pieces that nothing else
    tells apart, `owner` is the name of the set it came from.
    """

    nominal: Length
    unit: Unit
    serial: str = ""
    copy: int = 1
    wear: bool = False
    material: str = "steel"
    deviation: Length | None = None
    variation: Length | None = None
    trust: Trust = Trust.NOMINAL_ONLY
    note: str = ""
    owner: str = ""
    place: Place | None = field(default=None, compare=False)

    def length(self, basis: Basis = Basis.NOMINAL) -> Length:
        """Return the length that counts; without a certificate that is the nominal one.

        A certified length already holds one wringing film (ISO 3650:1998,
        clause 3), so nothing is added for a joint.
        """
        if basis is Basis.NOMINAL or self.deviation is None:
            return self.nominal
        return Length(self.nominal + self.deviation)

    @property
    def engraved(self) -> str:
        """The size as it is engraved, with its unit."""
        return engraved_text(self.nominal, self.unit)

    @property
    def thin(self) -> bool:
        """Whether the block bends when free and wants a thick one beside it."""
        return self.nominal <= THIN

    @property
    def order(self) -> tuple[int, str, str, int, int]:
        """The canonical order: largest first, then owner, serial, copy, wear last."""
        return (-self.nominal, self.owner, self.serial, self.copy, int(self.wear))


@dataclass(frozen=True, slots=True, kw_only=True)
class CalibrationUncertainty:
    """Expanded uncertainty of a certificate: `fixed` + `per_length` x length, factor `coverage`.

    `fixed` in picometres; `per_length` is a pure number times 1e-12, so that
    1 µin/in is 1_000_000; `coverage` is k.
    """

    fixed: Length
    per_length: int = 0
    coverage: str = "2"


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """Head of a certificate; the deviations themselves travel with the blocks.

    `source` is what the file says of where its values come from; a number and
    a date alone make no laboratory report, so the default is the least.
    """

    number: str = ""
    date: dt.date | None = None
    due: dt.date | None = None
    temperature: str = ""
    uncertainty: CalibrationUncertainty | None = None
    source: Trust = Trust.UNVERIFIED_SHEET


class DueState(StrEnum):
    """How a certificate stands on a day."""

    NONE = "none"
    VALID = "valid"
    DUE_SOON = "due soon"
    OVERDUE = "overdue"


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """How a certificate stands, and the days left (below zero: days over); None without a due day."""

    state: DueState
    days: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockSet:
    """A described set.

    `blocks` are the pieces that are there, `absent` those the set was issued
    with and no longer has; both in canonical order, whatever the file's.
    `retire_beyond` is the owner's own limit: a block whose deviation is larger
    is worn for him, whatever its grade.
    `remarks` are sentences about what the file leaves open; they change nothing.
    """

    name: str
    unit: Unit
    blocks: tuple[Block, ...]
    absent: tuple[Block, ...] = ()
    standard: str = ""
    grade: str = ""
    material: str = "steel"
    source: str = ""
    certificate: Certificate | None = None
    retire_beyond: Length | None = None
    file: str = ""
    remarks: tuple[str, ...] = field(default=(), compare=False)

    @property
    def issued(self) -> tuple[Block, ...]:
        """Every piece of the set as it was issued."""
        return in_order((*self.blocks, *self.absent))

    @property
    def ordinary(self) -> tuple[Block, ...]:
        """The pieces that are there and are no wear blocks."""
        return tuple(block for block in self.blocks if not block.wear)

    @property
    def finest_step(self) -> Length:
        """The grid of the set as issued: the greatest common divisor of its sizes."""
        return grid(block for block in self.issued if not block.wear) or grid(self.issued)

    def wear_pairs(self) -> tuple[tuple[Block, Block], ...]:
        """Return one pair of equal wear blocks for each size that has two, largest first."""
        wear = [block for block in self.blocks if block.wear]
        pairs = []
        for size in sorted({block.nominal for block in wear}, reverse=True):
            equals = [block for block in wear if block.nominal == size]
            if len(equals) > 1:
                pairs.append((equals[0], equals[1]))
        return tuple(pairs)


def due_state(certificate: Certificate | None, on: dt.date) -> Due:
    """Return how a certificate stands on a day: due soon from 30 days before (common practice).

    On the due day itself nothing is overdue yet.
    """
    if certificate is None or certificate.due is None:
        return Due(state=DueState.NONE)
    days = (certificate.due - on).days
    if days < 0:
        return Due(state=DueState.OVERDUE, days=days)
    return Due(state=DueState.DUE_SOON if days <= DUE_SOON_DAYS else DueState.VALID, days=days)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """Blocks that stand on one another, from the bottom up."""

    blocks: tuple[Block, ...]

    def length(self, basis: Basis = Basis.NOMINAL) -> Length:
        """Return the sum of the blocks' lengths."""
        return total(self.blocks, basis)

    def running_totals(self) -> tuple[Length, ...]:
        """Return the nominal height after each block, from the bottom up."""
        return tuple(total(self.blocks[: count + 1]) for count in range(len(self.blocks)))


def total(blocks: Iterable[Block], basis: Basis = Basis.NOMINAL) -> Length:
    """Return the sum of the blocks' lengths."""
    return Length(sum(block.length(basis) for block in blocks))


def in_order(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """Return the blocks in canonical order."""
    return tuple(sorted(blocks, key=lambda block: block.order))


def grid(blocks: Iterable[Block]) -> Length:
    """Return the greatest common divisor of the blocks' nominal sizes; 0 for none."""
    return Length(reduce(gcd, (block.nominal for block in blocks), 0))
