"""The answers of `measure` as JSON: "gaugestack/rolls", "balls", "discs", "bar-on-part".

>>> jsonform.text(rolls_form(answer))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.jsonform import Form, bar_form, degrees, headed, seconds, stack_fields
from gaugestack.cards.latheform import cone_fields, length_text, measured_form
from gaugestack.lengths import exact_text

if TYPE_CHECKING:
    from gaugestack.answers.bores import BallsAnswer, DiscsAnswer
    from gaugestack.answers.onpart import OnPartAnswer
    from gaugestack.answers.rolls import RollsAnswer
    from gaugestack.answers.stack import StackAnswer

_SIDES = ("left", "right")


def rolls_form(answer: RollsAnswer) -> Form:
    """Return the form "gaugestack/rolls"; `stacks` has role left or right and the pair it belongs to."""
    over, unit = answer.over, answer.unit
    form: Form = {
        **(cone_fields(answer.taper) if answer.taper else {}),
        "stands": answer.stands.value,
        "over_rolls": {"low": length_text(over.low, unit), "high": length_text(over.high, unit)},
        "stack_heights": {"low": exact_text(over.low_stack, unit), "high": exact_text(over.high_stack, unit)},
        "roll": exact_text(answer.roll, unit) if answer.roll else None,
        "end_diameter": length_text(answer.end_diameter, unit) if answer.end_diameter else None,
        "remarks": list(answer.remarks),
    }
    if answer.measured:
        form["measured"] = measured_form(answer.measured)
    if answer.pairs:
        form |= _pairs(answer.pairs)
    return headed("rolls", form)


def balls_form(answer: BallsAnswer) -> Form:
    """Return the form "gaugestack/balls"; a top is above the face where it is positive."""
    bore, unit = answer.bore, answer.unit
    form: Form = {
        **(cone_fields(answer.taper) if answer.taper else {}),
        "large_ball": {"diameter": exact_text(bore.large, unit), "top": length_text(bore.large_top, unit)},
        "small_ball": {"diameter": exact_text(bore.small, unit), "top": length_text(bore.small_top, unit)},
        "centre_distance": length_text(answer.centre_distance, unit),
        "mouth": length_text(answer.mouth, unit),
    }
    if answer.measured:
        form["measured"] = measured_form(answer.measured)
    return headed("balls", form)


def discs_form(answer: DiscsAnswer) -> Form:
    """Return the form "gaugestack/discs"; `stacks` holds the one between the discs where there is a gap."""
    unit = answer.unit
    form: Form = {
        "angle_degrees": degrees(answer.angle),
        "large_disc": exact_text(answer.large, unit),
        "small_disc": exact_text(answer.small, unit),
        "centre_distance": length_text(answer.centre_distance, unit),
        "gap": length_text(answer.gap, unit),
        "error_arcsec": None if answer.error_arcsec is None else seconds(answer.error_arcsec),
        **(stack_fields(answer.stack) if answer.stack else {}),
    }
    return headed("discs", form)


def on_part_form(answer: OnPartAnswer) -> Form:
    """Return the form "gaugestack/bar-on-part"; `stacks` has role low and high."""
    unit = answer.bar.unit
    form: Form = {
        **(cone_fields(answer.taper) if answer.taper else {}),
        "seat": answer.seat.value,
        "bar": bar_form(answer.bar),
        "angle_degrees": degrees(answer.angle),
        "rise": exact_text(answer.rise, unit),
        "heights": {"low": exact_text(answer.low, unit), "high": exact_text(answer.high, unit)},
        "achieved_angle_degrees": degrees(answer.achieved) if answer.achieved else None,
        "error_arcsec": seconds(answer.achieved - answer.angle) if answer.achieved else None,
    }
    if answer.measured:
        form["measured"] = measured_form(answer.measured)
    if answer.stack:
        fields = stack_fields(answer.stack)
        stacks = zip(("low", "high"), fields["stacks"], strict=False)
        form |= {**fields, "stacks": [{**stack, "role": role} for role, stack in stacks]}
    return headed("bar-on-part", form)


def worst_of(outcomes: set[str]) -> str:
    """Return the worst of several outcomes."""
    return next(word for word in ("impossible", "undecided", "found") if word in outcomes)


def _pairs(pairs: tuple[StackAnswer, ...]) -> Form:
    """Return the pairs of stacks, the high one first."""
    fields = [stack_fields(pair) for pair in pairs]
    names = ("high", "low")[: len(pairs)]
    stacks = [
        {**stack, "role": side, "pair": name}
        for name, pair in zip(names, fields, strict=True)
        for side, stack in zip(_SIDES, pair["stacks"], strict=False)
    ]
    return {
        "outcome": worst_of({pair["outcome"] for pair in fields}),
        "stacks": stacks,
        "pairs": [{**pair, "pair": name} for name, pair in zip(names, fields, strict=True)],
    }
