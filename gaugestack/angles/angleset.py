"""Angle gauge blocks and sets of them: frozen values and their plain questions.

    AngleBlock   one physical piece; wrung on either way round
    AngleSet     everything an angle set file describes

A block adds its angle where its mark points the way of the others and takes it
away where it is turned round (laboratory session notes on angle gauges).  A
square gives 90 degrees whichever way it lies.  Nothing here chooses blocks.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from functools import reduce
from math import gcd
from typing import TYPE_CHECKING

from gaugestack.angles.angle import ARCSECONDS_PER_DEGREE, Angle

if TYPE_CHECKING:
    from collections.abc import Iterable

    from gaugestack.errors import Place

RIGHT_ANGLE = Angle(arcseconds=Fraction(90 * ARCSECONDS_PER_DEGREE))


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleBlock:
    """One physical angle gauge block, or the square of a set.

    `angle` is what is engraved; a `square` is 90 degrees and never turned round.
    """

    angle: Angle
    square: bool = False
    serial: str = ""
    place: Place | None = field(default=None, compare=False)

    @property
    def engraved(self) -> str:
        """The angle as it is engraved, without empty parts: `27°`, `3'`, `18"`, `41°30'`."""
        tenths = round(self.angle.arcseconds * 10)
        minutes, seconds = divmod(tenths, 600)
        degrees, minutes = divmod(minutes, 60)
        whole, tenth = divmod(seconds, 10)
        second = f"{whole}.{tenth}" if tenth else f"{whole}" if whole else ""
        parts = ((str(degrees or ""), "\N{DEGREE SIGN}"), (str(minutes or ""), "'"), (second, '"'))
        return "".join(f"{number}{mark}" for number, mark in parts if number)

    @property
    def order(self) -> tuple[Fraction, bool, str]:
        """The canonical order: largest first, then the square, then by serial."""
        return (-self.angle.arcseconds, not self.square, self.serial)


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleSet:
    """Everything an angle set file describes, blocks in canonical order.

    `blocks` are the pieces that are there, the square among them; `source`
    says where the composition comes from, with its basis in brackets.
    """

    name: str
    blocks: tuple[AngleBlock, ...]
    absent: tuple[AngleBlock, ...] = ()
    source: str = ""
    file: str = ""

    @property
    def issued(self) -> tuple[AngleBlock, ...]:
        """Every piece of the set as it was issued."""
        return in_order((*self.blocks, *self.absent))

    @property
    def gauges(self) -> tuple[AngleBlock, ...]:
        """The pieces that are there, without the square."""
        return tuple(block for block in self.blocks if not block.square)

    @property
    def finest_step(self) -> Angle:
        """The grid of the set as issued: the greatest common divisor of its angles."""
        return Angle(arcseconds=grid(self.issued))


def in_order(blocks: Iterable[AngleBlock]) -> tuple[AngleBlock, ...]:
    """Return the blocks in canonical order."""
    return tuple(sorted(blocks, key=lambda block: block.order))


def grid(blocks: Iterable[AngleBlock]) -> Fraction:
    """Return the greatest common divisor of the blocks' angles in arcseconds; 0 for none."""
    return reduce(_divisor, (block.angle.arcseconds for block in blocks), Fraction(0))


def _divisor(one: Fraction, other: Fraction) -> Fraction:
    """Return the greatest number that goes a whole number of times into both."""
    under = one.denominator * other.denominator
    return Fraction(gcd(one.numerator * other.denominator, other.numerator * one.denominator), under)
