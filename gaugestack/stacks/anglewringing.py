"""In which order to wring angle blocks, and which way each points.

    >>> angle_plan(built).steps

The square, or else the largest block added, is the base; all others follow
largest first.  A block points the way of the others, or is turned round, so
that its mark points against them.  Nothing here chooses blocks.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.stacks.wringing import CLEAN_SOURCE, COMMON_PRACTICE, PART_SOURCE

if TYPE_CHECKING:
    from gaugestack.stacks.anglerequest import AngleBuilt, Placed

MARK_SOURCE = "laboratory session notes on angle gauges (marks one way add, reversed subtract)"


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleStep:
    """One thing to do: `action`, the `reason` for it, what that rests on, the block in hand if any."""

    action: str
    reason: str
    basis: str
    placed: Placed | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AnglePlan:
    """The blocks in wringing order from the base, and the steps."""

    order: tuple[Placed, ...]
    steps: tuple[AngleStep, ...]


def angle_plan(built: AngleBuilt) -> AnglePlan:
    """Return the order and the steps of chosen blocks."""
    order = wringing_order(built)
    steps = [_base(order[0], alone=len(order) == 1), *(_wrung(one) for one in order[1:])]
    if len(order) > 1:
        steps = [_CLEAN, *steps, _PART]
    return AnglePlan(order=order, steps=tuple(steps))


def wringing_order(built: AngleBuilt) -> tuple[Placed, ...]:
    """Return the blocks from the base: the square, or the largest added; then largest first."""
    order = sorted(built.placed, key=lambda one: one.block.order)
    base = min(order, key=lambda one: (not one.block.square, one.turned))
    return (base, *(one for one in order if one is not base))


def _base(base: Placed, *, alone: bool) -> AngleStep:
    """Begin with the base; its mark is the way all added blocks point."""
    if alone:
        return AngleStep(
            action=f"Take {_named(base)}",
            reason="one block is the whole angle",
            basis=COMMON_PRACTICE,
            placed=base,
        )
    reason = "the others add to it or are taken away from it"
    return AngleStep(action=f"Take {_named(base)} as base", reason=reason, basis=COMMON_PRACTICE, placed=base)


def _wrung(one: Placed) -> AngleStep:
    """Wring one block on, pointing its way."""
    if one.turned:
        action, reason = f"Wring {_named(one)} on, turned round: mark against the others", "it is taken away"
    else:
        action, reason = f"Wring {_named(one)} on, mark the way of the others", "it is added"
    return AngleStep(action=action, reason=reason, basis=MARK_SOURCE, placed=one)


def _named(one: Placed) -> str:
    """Name a block."""
    return "the square" if one.block.square else one.block.engraved


_CLEAN = AngleStep(
    action="Wipe every face, feel for burrs",
    reason="grit spoils both faces and the angle",
    basis=CLEAN_SOURCE,
)
_PART = AngleStep(
    action="By tonight slide apart, wipe, oil, back in the case",
    reason="left wrung, faces seize",
    basis=PART_SOURCE,
)
