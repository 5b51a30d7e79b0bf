"""Angle gauge blocks for an angle: the answer of the command `angle-blocks`.

>>> answer = angle_blocks("12d34m56s", name="angle-16")
>>> answer.outcome
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.angle import dms_text
from gaugestack.answers.asked import asked_angle
from gaugestack.errors import UsageError
from gaugestack.inventory.anglesetfile import load_angle_set
from gaugestack.inventory.shipped import find_angle_set
from gaugestack.stacks.angleblocks import compose_angle
from gaugestack.stacks.anglerequest import AngleFound, AngleRequest
from gaugestack.stacks.anglewringing import angle_plan

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.angleset import AngleBlock, AngleSet
    from gaugestack.stacks.anglerequest import AngleOutcome
    from gaugestack.stacks.anglewringing import AnglePlan
    from gaugestack.stacks.effort import Effort

DEFAULT_ANGLE_SET = "angle-16"
"""The set that is taken where none is named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleChoice:
    """How angle blocks are to be chosen, as it was typed.

    tolerance  an angle, "0" for exactly; None takes half the set's finest step
    without    angles of blocks kept out
    most       largest number of blocks, the square included
    """

    tolerance: str | None = None
    without: tuple[str, ...] = ()
    most: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleBlocksAnswer:
    """Angle blocks for an angle, or why there are none; `plan` where they were found."""

    angle_set: AngleSet
    asked: Angle
    request: AngleRequest
    tolerance_said: str
    outcome: AngleOutcome
    plan: AnglePlan | None = None
    remarks: tuple[str, ...] = ()


def angle_blocks(
    text: str,
    *,
    name: str = DEFAULT_ANGLE_SET,
    choice: AngleChoice | None = None,
    effort: Effort | None = None,
) -> AngleBlocksAnswer:
    """Return the angle blocks for an angle as typed, from a set by file or shipped name.

    Raises UsageError for a text that is no angle above zero or an option that
    cannot be met, RefusedFile with every fault of a set file.
    """
    choice = choice or AngleChoice()
    read = asked_angle(text, "ANGLE")
    if not read.angle.arcseconds:
        raise UsageError.about("ANGLE", "zero needs no blocks")
    angle_set = load_angle_set(find_angle_set(name))
    request = _request(read.angle, angle_set, choice)
    outcome = compose_angle(request, effort)
    said = f"{read.text} read as decimal degrees, {dms_text(read.angle, 2)}"
    return AngleBlocksAnswer(
        angle_set=angle_set,
        asked=read.angle,
        request=request,
        tolerance_said=_tolerance_said(choice, angle_set),
        outcome=outcome,
        plan=angle_plan(outcome.built) if isinstance(outcome, AngleFound) else None,
        remarks=(said,) if read.bare else (),
    )


def _request(target: Angle, angle_set: AngleSet, choice: AngleChoice) -> AngleRequest:
    """Return the request for an angle.  Raises UsageError."""
    if choice.most is not None and choice.most < 1:
        raise UsageError.about("--most", f"{choice.most} blocks make no angle", hint="at least 1")
    tolerance = angle_set.finest_step.arcseconds / 2
    if choice.tolerance is not None:
        tolerance = asked_angle(choice.tolerance, "--tolerance").angle.arcseconds
    return AngleRequest(
        target=target,
        pool=_pool(angle_set.blocks, choice.without),
        tolerance=Fraction(tolerance),
        most=choice.most,
    )


def _pool(blocks: Sequence[AngleBlock], without: Sequence[str]) -> tuple[AngleBlock, ...]:
    """Return the blocks that are not kept out.  Raises UsageError for an angle no block has."""
    out = set()
    for text in without:
        angle = asked_angle(text, "--without").angle
        if all(block.angle != angle for block in blocks):
            known = ", ".join(block.engraved for block in blocks)
            raise UsageError.about("--without", f"no block of {dms_text(angle)}", hint=f"there are {known}")
        out.add(angle)
    return tuple(block for block in blocks if block.angle not in out)


def _tolerance_said(choice: AngleChoice, angle_set: AngleSet) -> str:
    """Say where the tolerance comes from."""
    if choice.tolerance is not None:
        return "as asked"
    step = angle_set.finest_step
    return f"half the set's step of {dms_text(step, 0 if step.arcseconds.denominator == 1 else 1)}"
