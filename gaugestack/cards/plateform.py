"""The answers of `plate`, `correct`, `from-stack` as JSON.

    >>> jsonform.text(plate_form(answer))

Schemas "gaugestack/plate", "gaugestack/correct", "gaugestack/from-stack".
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.flat import Flat
from gaugestack.cards.jsonform import Form, bar_form, block_form, degrees, headed, seconds, stack_fields
from gaugestack.cards.latheform import cone_fields, length_text
from gaugestack.lengths import exact_text

if TYPE_CHECKING:
    from gaugestack.answers.correct import CorrectAnswer
    from gaugestack.answers.fromstack import CertifiedSum, FromStackAnswer
    from gaugestack.answers.plate import PlateAnswer

_PLATES = ("bottom", "top")


def plate_form(answer: PlateAnswer) -> Form:
    """Return the form "gaugestack/plate"; `stacks` has role bottom and top."""
    plate, done = answer.plate, answer.achieved
    fields = stack_fields(answer.stack)
    form: Form = {
        **fields,
        "stacks": [{**stack, "role": role} for role, stack in zip(_PLATES, fields["stacks"], strict=False)],
        "first_view_degrees": degrees(answer.first),
        "second_view_degrees": degrees(answer.second),
        "views": plate.views.value,
        "bottom_angle_degrees": degrees(plate.bottom_angle),
        "top_angle_degrees": degrees(plate.top_angle),
        "bottom_height": exact_text(plate.bottom_stack, answer.bottom_bar.unit),
        "top_height": exact_text(plate.top_stack, answer.top_bar.unit),
        "bottom_bar": bar_form(answer.bottom_bar),
        "top_bar": bar_form(answer.top_bar),
        "true_tilt_degrees": degrees(plate.tilt),
        "direction_degrees": degrees(plate.direction),
        "left_over_if_uncorrected_degrees": degrees(plate.left_over),
        "remarks": list(answer.remarks),
    }
    if done:
        form |= {
            "achieved_bottom_degrees": degrees(done.bottom),
            "achieved_top_degrees": degrees(done.top),
            "achieved_tilt_degrees": degrees(done.tilt),
            "bottom_error_arcsec": seconds(done.bottom_error),
            "top_error_arcsec": seconds(done.top_error),
            "tilt_error_arcsec": seconds(done.tilt_error),
        }
    return headed("plate", form)


def correct_form(answer: CorrectAnswer) -> Form:
    """Return the form "gaugestack/correct"; `stacks` holds the new one."""
    found, unit = answer.correction, answer.bar.unit
    form: Form = {
        **stack_fields(answer.new),
        **_called_fields(answer),
        "old_angle_degrees": degrees(found.old_angle),
        "error_degrees": degrees(found.error),
        "error_measured_arcsec": seconds(found.error.arcseconds),
        "new_angle_degrees": degrees(found.new_angle),
        "old_height": exact_text(found.old_height, unit),
        "new_height": exact_text(found.new_height, unit),
        "change": exact_text(found.change, unit),
        "school_change": exact_text(found.school_change, unit),
        "over_correction": round(found.over_correction, 9),
        "below_resolution": answer.resolution.below,
        "resolution": answer.resolution.sentence,
        "old_stack": [block_form(block) for block in answer.standing],
        "achieved_angle_degrees": None if answer.achieved is None else degrees(answer.achieved),
        "error_arcsec": None if answer.error_arcsec is None else seconds(answer.error_arcsec),
        "bar": bar_form(answer.bar),
        "remarks": [*answer.remarks],
    }
    if answer.change:
        form["take_out"] = [block_form(block) for block in answer.change.out]
        form["put_in"] = [block_form(block) for block in answer.change.into]
        form["one_block_changes"] = answer.change.one_block
        form["rest_stays"] = answer.change.keeps_the_rest
    if answer.part:
        form["diameter_error"] = length_text(answer.part.on_diameter, unit)
        form["diameter_error_said"] = answer.part.text
    return headed("correct", form)


def _called_fields(answer: CorrectAnswer) -> Form:
    """Return the taper that was set, and for which use; nothing where an angle was said."""
    if isinstance(answer.called, Flat):
        return {"call_out": answer.called.call_out, "reading": answer.called.reading}
    if answer.called is None or answer.use is None:
        return {}
    return {**cone_fields(answer.called), "for": answer.use.value}


def from_stack_form(answer: FromStackAnswer) -> Form:
    """Return the form "gaugestack/from-stack"; one entry of `seats` a way the part may lie."""
    unit = answer.blocks[0].unit
    certified = {"certified": _certified(answer.certified, answer)} if answer.certified else {}
    return headed(
        "from-stack",
        {
            **certified,
            "blocks": [exact_text(block.length, block.unit) for block in answer.blocks],
            "length": exact_text(answer.length, unit),
            "bar": bar_form(answer.bar),
            "angle_degrees": degrees(answer.angle),
            "flat_slope": round(float(answer.flat.exact_slope), 12),
            "seats": [{"seat": one.seat.value, **cone_fields(one.taper)} for one in answer.seats],
            "remarks": list(answer.remarks),
        },
    )


def _certified(found: CertifiedSum, answer: FromStackAnswer) -> Form:
    """Return the sum of the certified lengths and its angle; null where it leaves the bar."""
    angle = found.angle
    return {
        "length": exact_text(found.length, answer.blocks[0].unit),
        "deviation": exact_text(found.length - answer.length, answer.blocks[0].unit),
        "counted": found.counted,
        "known_from": [trust.value for trust in found.sources],
        "angle_degrees": None if angle is None else degrees(angle),
        "difference_arcsec": None if angle is None else seconds(angle - answer.angle),
    }
