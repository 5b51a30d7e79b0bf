"""What is asked of the composer, and the three ways it can end.

    StackRequest                    heights, tolerance, blocks that may be used
    Found | Impossible | Undecided  the outcome; no solver status leaves stacks/

Pure values: lengths are whole picometres, blocks come from blocks.py.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from gaugestack.blocks import Basis, Block, Stack, total
from gaugestack.lengths import Length

if TYPE_CHECKING:
    from collections.abc import Iterator


@dataclass(frozen=True, slots=True, kw_only=True)
class Withheld:
    """A block of the set that this request may not use, and the state that bit."""

    block: Block
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StackRequest:
    """One or several heights to be made at once from one pool of blocks.

    targets    heights in picometres, in the order asked; above zero
    tolerance  largest |length - target| allowed, picometres; 0 asks for exactly
    pool       ordinary blocks that may be used, each once
    kept_in    blocks of the pool that must be used
    ends       a wear pair for each target, or empty; counted in height and number
    most       largest number of blocks in one stack, wear blocks included
    withheld   pieces of the set that are out, for the explanation only
    scarce     blocks of the pool that are not at hand: the outcome uses the
               fewest of them, and names them rather than the best stack
    end_only   blocks of the pool with one good face: they stand at an end,
               that face inward, never alone and never under a wear block
    uses       how often a block was used; of stacks equal so far the one with
               the fewest uses is taken
    barred     stacks that are not to be taken again, pieces that nothing tells
               apart counting as one; for one target only
    """

    targets: tuple[Length, ...]
    tolerance: Length
    pool: tuple[Block, ...]
    kept_in: tuple[Block, ...] = ()
    ends: tuple[tuple[Block, Block], ...] = ()
    most: int | None = None
    basis: Basis = Basis.NOMINAL
    withheld: tuple[Withheld, ...] = ()
    scarce: tuple[Block, ...] = ()
    end_only: tuple[Block, ...] = ()
    uses: tuple[tuple[Block, int], ...] = ()
    barred: tuple[tuple[Block, ...], ...] = ()

    @property
    def free(self) -> tuple[Block, ...]:
        """Blocks the composer chooses among."""
        return tuple(block for block in self.pool if block not in self.kept_in)

    def pair(self, index: int) -> tuple[Block, ...]:
        """Return the wear blocks of one target's stack: two or none."""
        return self.ends[index] if self.ends else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """A stack chosen for a target.

    `blocks` holds the wear pair outermost when there is one, the others
    largest first; the wringing order is wringing.py's business.
    """

    target: Length
    blocks: tuple[Block, ...]
    basis: Basis = Basis.NOMINAL

    @property
    def stack(self) -> Stack:
        """The blocks as a stack."""
        return Stack(blocks=self.blocks)

    @property
    def length(self) -> Length:
        """Length of the stack on the request's basis."""
        return total(self.blocks, self.basis)

    @property
    def deviation(self) -> Length:
        """Length minus target."""
        return Length(self.length - self.target)


class Proof(StrEnum):
    """Why a request is impossible: what was shown."""

    GRID = "grid"
    TOTAL = "total"
    ENDS = "ends"
    KEPT = "kept"
    TABLE = "table"
    COUNT = "count"
    REMAINDER = "remainder"
    SOLVER = "solver"


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One rung of the ladder below an impossible request.

    `kind` is a word for scripts, `sentence` says it to a person, `built` is
    the stack it leads to where there is one, `blocks` the blocks it needs
    that the request did not allow.
    """

    kind: str
    sentence: str
    built: Built | None = None
    blocks: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Stacks for all targets, approved by the judge and proven the best."""

    stacks: tuple[Built, ...]

    def __iter__(self) -> Iterator[Built]:
        """Walk the stacks in the order asked."""
        return iter(self.stacks)


@dataclass(frozen=True, slots=True, kw_only=True)
class Impossible:
    """No stack meets the request.

    `proof` says what was shown, `sentence` in words; `ways_out` is the ladder,
    nearest below and above first.  `failing` is the place of the one target
    that fails by itself, None where only several together do; `together` are
    then the places of targets that do, none of which can be spared.
    """

    proof: Proof
    sentence: str
    failing: int | None = None
    together: tuple[int, ...] = ()
    ways_out: tuple[WayOut, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Undecided:
    """The limit was reached first.

    `best` holds approved stacks not proven the best, or is empty; `at_least`
    is the proven lower bound on the number of blocks of all stacks together.
    """

    best: tuple[Built, ...] = ()
    at_least: int = 0
    sentence: str = field(default="the limit on effort was reached before an answer was proven")


Outcome = Found | Impossible | Undecided
