"""Angle gauge blocks as JSON: the form "gaugestack/angle-blocks".

>>> text(angle_blocks_form(answer))

Angles stand as exact arcseconds in text and as degrees rounded to 12 decimals.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.jsonform import Form, degrees, headed, seconds
from gaugestack.inventory.shipped import file_said
from gaugestack.stacks.anglerequest import AngleFound, AngleImpossible

if TYPE_CHECKING:
    from gaugestack.answers.angleblocks import AngleBlocksAnswer
    from gaugestack.stacks.anglerequest import AngleBuilt, AngleOutcome, Placed


def angle_blocks_form(answer: AngleBlocksAnswer) -> Form:
    """Return the form "gaugestack/angle-blocks"; `blocks` stand in wringing order from the base."""
    found = answer.angle_set
    form: Form = {
        "set": {"name": found.name, "file": file_said(found.file), "pieces": len(found.blocks)},
        "at_hand": len(answer.request.pool),
        "tolerance_arcsec": seconds(answer.request.tolerance),
        "tolerance_reason": answer.tolerance_said,
        "angle_degrees": degrees(answer.asked),
        "angle_arcsec": seconds(answer.asked.arcseconds),
        "remarks": list(answer.remarks),
        **_outcome(answer.outcome),
    }
    if answer.plan:
        form["blocks"] = [_placed(one) for one in answer.plan.order]
        form["steps"] = [
            {"action": step.action, "reason": step.reason, "basis": step.basis} for step in answer.plan.steps
        ]
    return headed("angle-blocks", form)


def _outcome(outcome: AngleOutcome) -> Form:
    """Return how it ended."""
    if isinstance(outcome, AngleFound):
        return {"outcome": "found", **_built(outcome.built)}
    if isinstance(outcome, AngleImpossible):
        near = {"below": outcome.below, "above": outcome.above}
        return {
            "outcome": "impossible",
            "proof": outcome.proof.value,
            "reason": outcome.sentence,
            **{side: _built(built) for side, built in near.items() if built},
        }
    return {
        "outcome": "undecided",
        "reason": outcome.sentence,
        "at_least": outcome.at_least,
        "best": outcome.best and _built(outcome.best),
    }


def _built(built: AngleBuilt) -> Form:
    """Return blocks chosen: what they make and how far that is off."""
    return {
        "achieved_angle_degrees": degrees(built.angle),
        "error_arcsec": seconds(built.deviation),
        "blocks": [_placed(one) for one in built.placed],
    }


def _placed(one: Placed) -> Form:
    """Return one block and the way it points."""
    form: Form = {
        "nominal": one.block.engraved,
        "arcsec": seconds(one.block.angle.arcseconds),
        "turned": one.turned,
    }
    if one.block.square:
        form["square"] = True
    if one.block.serial:
        form["serial"] = one.block.serial
    return form
