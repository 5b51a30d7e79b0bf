"""What every form of a list of answers says of one: how it ended, its blocks, why not.

>>> blocks_text(plan.stack.blocks)
'0.400 + 0.1002 + 0.120 in'
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.owners import NO_LABELS, blocks_said
from gaugestack.cards.screen import unit_of
from gaugestack.errors import visible
from gaugestack.lengths import engraved_text
from gaugestack.stacks.request import Found, Impossible

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from gaugestack.answers.stack import StackAnswer
    from gaugestack.blocks import Block
    from gaugestack.inventory.targetsfile import Target
    from gaugestack.stacks.request import Outcome, WayOut

FOUND, IMPOSSIBLE, UNDECIDED = "found", "impossible", "undecided"
"""How an answer ended, the words of the JSON forms."""
_SIDES = ("below", "above")


def ended(outcome: Outcome) -> str:
    """Return how an answer ended."""
    if isinstance(outcome, Found):
        return FOUND
    return IMPOSSIBLE if isinstance(outcome, Impossible) else UNDECIDED


def line_of(target: Target) -> int:
    """Return the line of the list a target stood in; 0 where it came from no list."""
    return target.place.line if target.place else 0


def blocks_text(blocks: Sequence[Block], labels: Mapping[str, str] = NO_LABELS) -> str:
    """Return blocks in one line, the unit once where all have the same."""
    names = [visible(name) for name in blocks_said(blocks, labels)]
    units = {block.unit for block in blocks}
    if len(units) > 1 or labels:
        return " + ".join(names)
    unit = f" {unit_of(blocks).value}"
    return " + ".join(name.replace(unit, "", 1) for name in names) + unit


def stacks_text(answer: StackAnswer, labels: Mapping[str, str] = NO_LABELS) -> str:
    """Return the stacks found from the bottom up, each with its role where there are two."""
    stacks = [blocks_text(plan.stack.blocks, labels) for plan in answer.plans]
    roles = [f"{role}: " for role in answer.roles] or [""] * len(stacks)
    return "; ".join(role + stack for role, stack in zip(roles, stacks, strict=True))


def why_not(outcome: Outcome, labels: Mapping[str, str] = NO_LABELS) -> str:
    """Return why there is no stack, and the lengths nearest to it; nothing where there is one."""
    if isinstance(outcome, Found):
        return ""
    if isinstance(outcome, Impossible):
        near = [f"{_length(way)} {way.kind}" for way in outcome.ways_out if way.kind in _SIDES and way.built]
        return f"not possible: {outcome.sentence}" + (f"; nearest {', '.join(near)}" if near else "")
    best = [f"best known {blocks_text(built.blocks, labels)}" for built in outcome.best]
    least = f"at least {outcome.at_least} blocks are needed"
    return "; ".join((f"undecided: {outcome.sentence}", least, *best))


def _length(way: WayOut) -> str:
    """Return the length of the stack a way out leads to."""
    return engraved_text(way.built.length, unit_of(way.built.blocks)) if way.built else ""
