"""A set looked at as a whole, before it is bought or sent for calibration.

    >>> found = health(pool, issued, most=5)
    >>> found.verdict, found.sentences

Everything is counted from nominal sizes: what is there, what was issued, what
that does to the heights.  Wear, rust and what a certificate says are not seen
here.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from gaugestack.blocks import grid, in_order
from gaugestack.errors import UsageError
from gaugestack.lengths import exact_text
from gaugestack.stacks.ranking import what_is_missed
from gaugestack.stacks.survey import Span, every_step, survey

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from fractions import Fraction

    from gaugestack.blocks import Block
    from gaugestack.lengths import Unit
    from gaugestack.stacks.ranking import BlockValue
    from gaugestack.stacks.survey import Stretch, Survey

USUAL_MOST = 5
"""Above this many blocks practice stops: usually not above 4, at most 5 (training texts)."""
WORST = 5
"""How many missing blocks are named."""


class Verdict(StrEnum):
    """What the numbers say: no piece missing; some missing and no height lost; heights lost."""

    COMPLETE = "complete"
    NOTHING_LOST = "nothing lost"
    HEIGHTS_LOST = "heights lost"


@dataclass(frozen=True, slots=True, kw_only=True)
class Health:
    """A set as it stands, beside the set as issued.

    `pieces` of `pieces_issued` are there, wear blocks included; `survey` looks
    at the usual range, without wear blocks; `worst` are the missing blocks
    whose want costs most there, each while the others stay away.
    """

    pieces: int
    pieces_issued: int
    missing: tuple[Block, ...]
    survey: Survey
    worst: tuple[BlockValue, ...]
    verdict: Verdict
    sentences: tuple[str, ...]


def health(
    pool: Sequence[Block],
    issued: Sequence[Block],
    *,
    most: int = USUAL_MOST,
    span: Span | None = None,
    whole: str = "as issued",
) -> Health:
    """Return the health of a set; `span` is its own usual range where none is given.

    `whole` is what the sentences call the set with all that was issued.

    Pieces are told apart by size, owner, serial, copy and wear, so a new
    deviation makes no new piece.  Raises UsageError where there is no
    ordinary block, or the range cannot be looked at.
    """
    missing = missing_pieces(pool, issued)
    plain, plain_issued = _ordinary(pool), _ordinary(issued)
    looked = span or usual_span(plain_issued)
    found = survey(plain, plain_issued, looked, most)
    costs = what_is_missed(plain, _ordinary(missing), looked, most)
    worst = tuple(cost for cost in costs if cost.lost or cost.longer)[:WORST]
    count = f"{len(pool)} of {len(issued)} pieces are there"
    return Health(
        pieces=len(pool),
        pieces_issued=len(issued),
        missing=missing,
        survey=found,
        worst=worst,
        verdict=_verdict(missing, found),
        sentences=(count, *_words(found, worst, issued[0].unit, whole)),
    )


def missing_pieces(pool: Sequence[Block], issued: Sequence[Block]) -> tuple[Block, ...]:
    """Return the pieces that were issued and are not there, in canonical order."""
    there = Counter(block.order for block in pool)
    missing = []
    for block in issued:
        if there[block.order]:
            there[block.order] -= 1
        else:
            missing.append(block)
    return in_order(missing)


def usual_span(issued: Sequence[Block]) -> Span:
    """Return the usual range of a set: from where it makes every step to its largest block.

    In steps of its grid.  A set that makes no such run is looked at from its
    smallest block to its largest.  This range is our own choice, so that sets
    of one make compare.  Raises UsageError where there is no block.
    """
    if not issued:
        raise UsageError.about("set", "the set has no ordinary block")
    step = grid(issued)
    run = every_step(issued, step)
    small, large = min(block.nominal for block in issued), max(block.nominal for block in issued)
    low = run.first if run and run.first < large else small
    return Span(low=low, high=large, step=step)


def percent_text(share: Fraction) -> str:
    """Print a share as per cent, one decimal, cut and never rounded up: 100 % means all."""
    tenths = share.numerator * 1000 // share.denominator
    return "100 %" if tenths == 1000 else f"{tenths // 10}.{tenths % 10} %"


def _ordinary(blocks: Sequence[Block]) -> tuple[Block, ...]:
    """Return the blocks that are no wear blocks."""
    return tuple(block for block in blocks if not block.wear)


def _verdict(missing: Sequence[Block], found: Survey) -> Verdict:
    """Return the verdict: it rests on pieces missing and heights lost, on nothing else."""
    if not missing:
        return Verdict.COMPLETE
    return Verdict.HEIGHTS_LOST if found.lost else Verdict.NOTHING_LOST


def _words(found: Survey, worst: Sequence[BlockValue], unit: Unit, whole: str) -> Iterator[str]:
    """Put the numbers of a set in words."""
    yield _share_words(found, unit, whole)
    yield _run_words(found, unit, whole)
    for cost in worst:
        lost = f"{cost.lost} height{'s' * (cost.lost != 1)} lost"
        longer = f"{cost.longer} take{'s' * (cost.longer == 1)} more blocks"
        yield f"without {cost.block.engraved}: {lost}, {longer}"


def _share_words(found: Survey, unit: Unit, whole: str) -> str:
    """Say how much of the range is made, and how much was as issued."""
    now, before = found.share(found.most), found.share_issued(found.most)
    low, high = exact_text(found.span.low, unit), exact_text(found.span.high, unit)
    made = f"at most {found.most} blocks make {percent_text(now)} of the heights from {low} to {high}"
    return made if now == before else f"{made}; {whole} {percent_text(before)}"


def _run_words(found: Survey, unit: Unit, whole: str) -> str:
    """Say from where to where every step is made with any number of blocks, and was as issued."""
    step = exact_text(found.span.step, unit)
    now, before = _from_to(found.every_step, unit), _from_to(found.every_step_issued, unit)
    makes = f"no two neighbouring steps of {step}" if now == _NO_TWO else f"every step of {step} {now}"
    made = f"with any number of blocks it makes {makes}"
    return made if now == before else f"{made}; {whole} {before}"


_NO_TWO = "none"


def _from_to(run: Stretch | None, unit: Unit) -> str:
    """Print a run of heights; a height alone is none."""
    if run is None:
        return "nowhere"
    if run.first == run.last:
        return _NO_TWO
    return f"from {exact_text(run.first, unit)} to {exact_text(run.last, unit)}"
