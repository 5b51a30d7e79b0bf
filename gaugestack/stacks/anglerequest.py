"""What is asked of the angle blocks, and the three ways it can end.

    AngleRequest                                   the angle, the tolerance, the blocks
    AngleFound | AngleImpossible | AngleUndecided  the outcome

Pure values: angles are exact, a tolerance counts arcseconds.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle

if TYPE_CHECKING:
    from gaugestack.angles.angleset import AngleBlock
    from gaugestack.stacks.request import Proof

EXACTLY = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleRequest:
    """One angle to be made from one pool of angle blocks.

    target     above zero
    tolerance  largest |angle - target| allowed, arcseconds; 0 asks for exactly
    pool       blocks that may be used, each once, a square among them or not
    most       largest number of blocks, the square included
    """

    target: Angle
    pool: tuple[AngleBlock, ...]
    tolerance: Fraction = EXACTLY
    most: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A block and which way it points: `turned` round it takes its angle away."""

    block: AngleBlock
    turned: bool = False

    @property
    def arcseconds(self) -> Fraction:
        """What the block adds, below zero where it is turned round."""
        return -self.block.angle.arcseconds if self.turned else self.block.angle.arcseconds


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleBuilt:
    """Blocks chosen for an angle, largest first."""

    target: Angle
    placed: tuple[Placed, ...]

    @property
    def angle(self) -> Angle:
        """The angle the blocks make together."""
        return Angle(arcseconds=sum((one.arcseconds for one in self.placed), start=Fraction(0)))

    @property
    def deviation(self) -> Fraction:
        """Angle minus target in arcseconds."""
        return self.angle - self.target


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleFound:
    """Blocks for the angle, approved by the judge and proven the best."""

    built: AngleBuilt


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleImpossible:
    """No blocks meet the request: what was shown, in words, and the nearest angles that can be made.

    `below` and `above` lie outside the tolerance and keep to the largest count.
    """

    proof: Proof
    sentence: str
    below: AngleBuilt | None = None
    above: AngleBuilt | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleUndecided:
    """The limit was reached first: approved blocks not proven the best, or none; a proven lower bound."""

    best: AngleBuilt | None = None
    at_least: int = 0
    sentence: str = "the limit on effort was reached before an answer was proven"


AngleOutcome = AngleFound | AngleImpossible | AngleUndecided
