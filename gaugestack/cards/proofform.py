"""The answers of `proof` and `tapers` as JSON: "gaugestack/proof", "gaugestack/tapers".

>>> jsonform.text(proof_form(answer))
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle
from gaugestack.angles.flat import Flat
from gaugestack.angles.taper import Taper
from gaugestack.cards.jsonform import Form, degrees, headed, seconds
from gaugestack.cards.latheform import cone_fields, length_text
from gaugestack.cards.taperform import published_form
from gaugestack.lengths import Unit, exact_text

if TYPE_CHECKING:
    from gaugestack.answers.proof import ProofAnswer, ProofRow, ReversalAnswer
    from gaugestack.answers.tapers import PublishedTaper


def proof_form(answer: ProofAnswer) -> Form:
    """Return the form "gaugestack/proof"."""
    form: Form = {
        **_asked_fields(answer.asked),
        "checks": [
            {
                "name": one.name,
                "set_up": one.kind,
                "do": one.do,
                "finds": one.finds,
                "cannot_detect": one.cannot_detect,
                "basis": one.basis,
            }
            for one in answer.checks
        ],
        "readings": [_row(one) for one in answer.rows],
    }
    if answer.reversal:
        form["reversal"] = _reversal(answer.reversal)
    return headed("proof", form)


def tapers_form(found: tuple[PublishedTaper, ...]) -> Form:
    """Return the form "gaugestack/tapers"."""
    return headed("tapers", {"tapers": [_published(one) for one in found]})


def _published(one: PublishedTaper) -> Form:
    """Return one published taper with its angles and sizes."""
    published = one.published
    unit = Unit.INCH if "in/ft" in published.defining else Unit.MILLIMETRE
    sizes = {
        "gauge_line": published.gauge_line,
        "large_end": published.large_end,
        "small_end": published.small_end,
        "length": published.length,
    }
    known = one.classification
    return {
        **published_form(published),
        "half_angle_degrees": degrees(one.taper.half),
        "included_angle_degrees": degrees(one.taper.included),
        "one_in": one.taper.one_in_text,
        "taper_per_foot": one.taper.per_foot_text,
        "holding": {"classification": known.holding.value, "source": known.source, "basis": known.basis},
        **{name: exact_text(size, unit) for name, size in sizes.items() if size is not None},
    }


def _asked_fields(asked: Taper | Flat | Angle | None) -> Form:
    """Return what is to be proven."""
    if isinstance(asked, Taper):
        return cone_fields(asked)
    if isinstance(asked, Flat):
        return {"call_out": asked.call_out, "angle_degrees": degrees(asked.angle)}
    return {"angle_degrees": degrees(asked)} if isinstance(asked, Angle) else {}


def _row(one: ProofRow) -> Form:
    """Return the readings over one span."""
    unit = one.span.unit
    return {
        "span": exact_text(one.span.length, unit),
        "per_minute": length_text(one.minute, unit),
        "half_for_included": None if one.confused is None else length_text(one.confused, unit),
    }


def _reversal(found: ReversalAnswer) -> Form:
    """Return both shares of a reversal."""
    unit = found.span.unit
    return {
        "span": exact_text(found.span.length, unit),
        "part": length_text(found.part, unit),
        "fixture": length_text(found.fixture, unit),
        "part_arcsec": seconds(found.part_angle.arcseconds),
        "fixture_arcsec": seconds(found.fixture_angle.arcseconds),
    }
