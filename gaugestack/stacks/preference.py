"""The order of preference among stacks, as the digits of one number.

    >>> list(packed(list(digits(draft))))      # objectives, minimised in turn

Each digit is an expression of the model in 0..upper, the smaller the better,
the most significant first; which ones there are is written in model.py.  The
expressions are the model's own: nothing is imported or solved here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from gaugestack.stacks.model import Draft, Lift, Puzzle

MOST_BITS = 50
"""An objective packs digits up to this many bits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Digit:
    """One digit of the objective: `expression` in 0..`upper`, the smaller the better."""

    expression: Any
    upper: int


def digits(draft: Draft) -> Iterator[Digit]:
    """Return the order of preference, the most significant digit first."""
    puzzle, total = draft.puzzle, draft.cp.LinearExpr.sum
    scarce = draft.scarce()
    if scarce:
        yield Digit(
            expression=total([v for vs in scarce.values() for v in vs]), upper=_pieces(puzzle, scarce)
        )
    if puzzle.total is None:
        yield Digit(expression=total(draft.all()), upper=_pieces(puzzle, range(len(puzzle.kinds))))
    for kind, variables in scarce.items():
        yield Digit(expression=puzzle.kinds[kind].pieces - total(variables), upper=puzzle.kinds[kind].pieces)
    if scarce:
        return
    yield from _deviation_digit(draft)
    thin = draft.thin()
    if puzzle.thin is None and thin:
        yield Digit(expression=total(thin), upper=_pieces(puzzle, range(len(puzzle.kinds))))
    yield from _uses_digit(draft)
    yield from _low_digit(draft)
    yield from _size_digits(draft)


def _size_digits(draft: Draft) -> Iterator[Digit]:
    """Return the digits of the largest blocks first, then those of kinds that share a size."""
    kinds = draft.puzzle.kinds
    groups: list[tuple[dict[int, Any], list[int]]] = []
    for count in draft.count:
        by_size: dict[int, list[int]] = {}
        for k in count:
            by_size.setdefault(kinds[k].nominal or kinds[k].size, []).append(k)
        groups += [(count, same) for same in by_size.values()]
    groups += [(count, [k]) for count, same in groups if len(same) > 1 for k in same]
    for count, same in groups:
        pieces = _pieces(draft.puzzle, same)
        yield Digit(expression=pieces - draft.cp.LinearExpr.sum([count[k] for k in same]), upper=pieces)


def _uses_digit(draft: Draft) -> Iterator[Digit]:
    """Return the uses so far of all blocks taken, where the puzzle counts them."""
    kinds = draft.puzzle.kinds
    worn = [(v, kinds[k].uses) for pile in draft.count for k, v in pile.items() if kinds[k].uses]
    if worn:
        expression = draft.cp.LinearExpr.weighted_sum([v for v, _ in worn], [uses for _, uses in worn])
        yield Digit(expression=expression, upper=sum(kind.uses * kind.pieces for kind in kinds))


def _low_digit(draft: Draft) -> Iterator[Digit]:
    """Return the nominal height of the second stack, where only the difference of two counts."""
    kinds, lift = draft.puzzle.kinds, draft.puzzle.lift
    if lift:
        count = draft.count[1]
        steps = {k: (kinds[k].nominal or kinds[k].size) // lift.step for k in count}
        expression = draft.cp.LinearExpr.weighted_sum(list(count.values()), list(steps.values()))
        yield Digit(expression=expression, upper=sum(steps[k] * kinds[k].pieces for k in count))


def _pieces(puzzle: Puzzle, kinds: Iterable[int]) -> int:
    """Return how many pieces these kinds have together."""
    return sum(puzzle.kinds[kind].pieces for kind in kinds)


def _deviation_digit(draft: Draft) -> Iterator[Digit]:
    """Return the sum of absolute deviations, where it is not the same for every answer."""
    if draft.puzzle.lift:
        yield from _lift_digit(draft, draft.puzzle.lift)
        return
    worst = 0
    deviations = []
    for pile, count in zip(draft.puzzle.piles, draft.count, strict=True):
        ends = {abs(end - pile.aim) for ends in pile.heights for end in ends}
        if len(ends) == 1 and all(low == high for low, high in pile.heights):
            continue
        deviation = draft.model.new_int_var(0, max(ends), "")
        draft.model.add_abs_equality(deviation, draft.height(count) - pile.aim)
        deviations.append(deviation)
        worst += max(ends)
    if deviations:
        yield Digit(expression=draft.cp.LinearExpr.sum(deviations), upper=worst)


def _lift_digit(draft: Draft, lift: Lift) -> Iterator[Digit]:
    """Return the absolute deviation of a difference."""
    if lift.low < lift.high:
        worst = max(abs(end - lift.aim) for end in (lift.low, lift.high))
        deviation = draft.model.new_int_var(0, worst, "")
        draft.model.add_abs_equality(deviation, draft.difference() - lift.aim)
        yield Digit(expression=deviation, upper=worst)


def packed(digits: Sequence[Digit]) -> Iterator[Any]:
    """Return objectives, each the number written by as many digits as fit."""
    expression: Any = None
    span = 1
    for digit in digits:
        if expression is not None and span * (digit.upper + 1) >= 1 << MOST_BITS:
            yield expression
            expression, span = None, 1
        base = digit.upper + 1
        expression = digit.expression if expression is None else expression * base + digit.expression
        span *= base
    if expression is not None:
        yield expression
