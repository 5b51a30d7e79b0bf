"""A taper's answer as JSON: the forms "gaugestack/taper" of a cone and of a flat wedge.

    >>> jsonform.text(taper_form(answer))

A cone's `roles` are compound and inspection; a wedge's only role is `flat`,
and it has `slope` and `flat_height` in place of the fields of a cone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.cards.jsonform import Form, angle_fields, bar_form, degrees, headed, seconds
from gaugestack.lengths import exact_text

if TYPE_CHECKING:
    from gaugestack.angles.fit import Fit
    from gaugestack.angles.published import Published
    from gaugestack.angles.published_step import TableStep
    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.taper import FlatAnswer, Role, TaperAnswer


def taper_form(answer: TaperAnswer | FlatAnswer) -> Form:
    """Return the form "gaugestack/taper": `stacks` holds one entry a role found, as alternatives."""
    from gaugestack.answers.taper import FlatAnswer  # noqa: PLC0415  (numpy: a published taper needs none)

    if isinstance(answer, FlatAnswer):
        return headed("taper", _flat_fields(answer))
    taper, unit = answer.taper, answer.bar.unit
    fields: Form = {
        "call_out": taper.call_out,
        "reading": taper.reading,
        "half_angle_degrees": degrees(taper.half),
        "included_angle_degrees": degrees(taper.included),
        "half_height": exact_text(answer.half_height, unit),
        "included_height": exact_text(answer.included_height, unit),
        "taper_per_foot": taper.per_foot_text,
        "one_in": taper.one_in_text,
        "holding": fit_form(answer.fit),
        "bar": bar_form(answer.bar),
        "remarks": list(answer.remarks),
        **_roles([_role_fields(role) for role in answer.roles]),
    }
    if answer.published:
        fields["published"] = published_form(answer.published)
    return headed("taper", fields)


def published_form(published: Published) -> Form:
    """Return a published taper: its document, how well the row is known, its defining datum."""
    return {
        "name": published.name,
        "title": published.title,
        "document": published.document,
        "edition": published.edition,
        "basis": published.basis,
        "defining": published.defining,
        "note": published.note,
    }


def fit_form(fit: Fit) -> Form:
    """Return what is published about a taper's holding, what friction says, the cautions."""
    return {
        "classification": fit.published.holding.value,
        "source": fit.published.source,
        "basis": fit.published.basis,
        "by_friction": [
            {
                "pair": one.friction.pair,
                "low": float(one.friction.low),
                "high": float(one.friction.high),
                "needed": round(one.needed, 9),
                "verdict": one.verdict.value,
                "source": one.friction.source,
            }
            for one in fit.by_friction
        ],
        "cautions": list(fit.cautions),
    }


def _flat_fields(answer: FlatAnswer) -> Form:
    """Return the fields of a flat wedge: one angle, one role."""
    flat = answer.flat
    return {
        "call_out": flat.call_out,
        "reading": flat.reading,
        "flat_angle_degrees": degrees(flat.angle),
        "flat_height": exact_text(answer.angle.height, answer.bar.unit),
        "slope": round(float(flat.exact_slope), 12),
        "bar": bar_form(answer.bar),
        "remarks": list(answer.remarks),
        **_roles([_set_fields(answer.angle, "flat", answer.table)]),
    }


def _roles(roles: list[Form]) -> Form:
    """Return the roles, their stacks as alternatives, the worst outcome."""
    outcomes = {fields["outcome"] for fields in roles}
    return {
        "outcome": next(word for word in ("impossible", "undecided", "found") if word in outcomes),
        "roles": roles,
        "stacks": [stack for fields in roles for stack in fields["stacks"]],
    }


def _role_fields(role: Role) -> Form:
    """Return one set-up of a cone, with what the short cut would have set."""
    fields = _set_fields(role.angle, role.use.value, role.table)
    cut, unit = role.short_cut, role.angle.bar.unit
    if cut:
        fields["short_cut"] = {
            "height": exact_text(cut.height, unit),
            "height_error": exact_text(cut.height_error, unit),
            "angle_degrees": degrees(cut.angle),
            "angle_error_arcsec": seconds(cut.angle_error_arcsec),
        }
    return fields


def _set_fields(answer: AngleAnswer, role: str, table: TableStep) -> Form:
    """Return one set-up; its stacks carry the role."""
    fields = angle_fields(answer)
    return {
        **fields,
        "role": role,
        "stacks": [_of_role(stack, role) for stack in fields["stacks"]],
        "ten_minute_table": {
            "angle_degrees": degrees(table.book_angle),
            "error_arcsec": seconds(table.error_arcsec),
        },
    }


def _of_role(stack: Form, role: str) -> Form:
    """Return a stack with its role; `roll` says under which roll one of a difference stands."""
    return {**stack, "role": role, **({"roll": stack["role"]} if "role" in stack else {})}
