"""The answers of `lathe` as JSON: "gaugestack/swing", "offset", "attachment", "collars".

>>> jsonform.text(swing_form(answer))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.answers.asked import kept
from gaugestack.cards.jsonform import Form, degrees, headed, seconds
from gaugestack.lengths import exact_text

if TYPE_CHECKING:
    from gaugestack.angles.readings import Reading
    from gaugestack.angles.taper import Taper
    from gaugestack.answers.lathe import AttachmentAnswer, CollarsAnswer, OffsetAnswer, SwingAnswer, SwingRow
    from gaugestack.answers.measured import Measured
    from gaugestack.lengths import Unit


def swing_form(answer: SwingAnswer) -> Form:
    """Return the form "gaugestack/swing"."""
    fields = {
        **cone_fields(answer.taper),
        "swing_degrees": degrees(answer.swing.swing),
        "other_scale_degrees": degrees(answer.swing.other_scale),
        "readings": [_swing_row(one) for one in answer.rows],
    }
    if answer.measured:
        fields |= {"measured": measured_form(answer.measured), "along": answer.along}
    return headed("swing", fields)


def offset_form(answer: OffsetAnswer) -> Form:
    """Return the form "gaugestack/offset"."""
    offset, unit = answer.offset, answer.between.unit
    fields = {
        **cone_fields(answer.taper),
        "between_centres": exact_text(answer.between.length, unit),
        "taper_length": exact_text(answer.length.length, answer.length.unit),
        "offset": length_text(offset.exact, unit),
        "shop_rule_offset": length_text(offset.usual, unit),
        "shop_rule_excess": length_text(offset.excess, unit),
        "diameter_difference": length_text(offset.end_difference, unit),
        "share_of_length": round(float(offset.share), 9),
        "caution": offset.sentence or None,
    }
    if answer.measured:
        fields["measured"] = measured_form(answer.measured)
    return headed("offset", fields)


def attachment_form(answer: AttachmentAnswer) -> Form:
    """Return the form "gaugestack/attachment"."""
    setting = answer.setting
    return headed(
        "attachment",
        {**cone_fields(answer.taper), "setting": setting.text, "scale_counts": setting.graduated.value},
    )


def collars_form(answer: CollarsAnswer) -> Form:
    """Return the form "gaugestack/collars"."""
    unit = answer.unit_length.unit
    fields = {
        **cone_fields(answer.taper),
        "spacing": length_text(answer.spacing, unit),
        "diameter_difference": length_text(answer.difference, unit),
    }
    if answer.measured:
        fields["measured"] = measured_form(answer.measured)
    return headed("collars", fields)


def cone_fields(taper: Taper) -> Form:
    """Return a cone: how it was called out and read, both angles, ratio and taper per foot."""
    return {
        "call_out": taper.call_out,
        "reading": taper.reading,
        "half_angle_degrees": degrees(taper.half),
        "included_angle_degrees": degrees(taper.included),
        "one_in": taper.one_in_text,
        "taper_per_foot": taper.per_foot_text,
        "remarks": [taper.question] if taper.question else [],
    }


def measured_form(found: Measured) -> Form:
    """Return a measured cone and all that was asked about it."""
    form: Form = {
        "half_angle_degrees": degrees(found.cone.half),
        "included_angle_degrees": degrees(found.cone.included),
        "one_in": found.cone.one_in_text,
        "taper_per_foot": found.cone.per_foot_text,
        "half_angle_error_arcsec": None if found.error_arcsec is None else seconds(found.error_arcsec),
    }
    if found.part:
        form["diameter_error"] = length_text(found.part.on_diameter, found.unit)
        form["diameter_error_said"] = found.part.text
    if found.verdict:
        form["accepted"] = found.verdict.accepted
        form["verdict"] = found.verdict.sentence
        form["outside_by_arcsec"] = seconds(found.verdict.by_arcsec)
    if found.nudge:
        form["move_at_indicator"] = length_text(found.nudge.move, found.unit)
        form["indicator_radius"] = exact_text(found.nudge.radius, found.unit)
    return form


def length_text(length: int, unit: Unit) -> str:
    """Return a computed length to 0.01 µin or 0.1 nm, in its own unit."""
    return exact_text(kept(length, unit), unit)


def _swing_row(one: SwingRow) -> Form:
    """Return the readings over one travel."""
    unit = one.travel.unit
    return {
        "travel": exact_text(one.travel.length, unit),
        "slide": _reading(one.slide, one.slide_minute, unit),
        "carriage": _reading(one.carriage, one.carriage_minute, unit),
    }


def _reading(reading: Reading, minute: int, unit: Unit) -> Form:
    """Return one reading and what a minute of error adds to it."""
    return {
        "per_side": length_text(reading.per_side, unit),
        "on_diameter": length_text(reading.on_diameter, unit),
        "per_minute": length_text(minute, unit),
    }
