"""Set-ups that make or hold a taper: what to set, with units, and what cannot be set.

    >>> from gaugestack.angles.callout import read_taper
    >>> swing = compound_swing(read_taper("3in/ft", bare_unit=None))
    >>> round(swing.swing.degrees, 4), round(swing.other_scale.degrees, 4)
    (7.125, 82.875)

Lathe slides and the tailstock here; bars and plates in plates.py.  Every
length is in picometres, every angle exact.  Does not choose blocks.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle, short_degrees_text
from gaugestack.angles.sine import complement_of
from gaugestack.angles.trig import amount, arcsine, half_sine
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, exact_text

if TYPE_CHECKING:
    from gaugestack.angles.taper import Taper
    from gaugestack.lengths import Unit

SENSIBLE_OFFSET = Fraction(1, 50)
"""Largest usual tailstock offset over the work's whole length (common practice)."""


class Graduated(StrEnum):
    """What the scale of a taper attachment counts; half and included look alike on it."""

    PER_FOOT = "inches per foot on diameter"
    HALF = "degrees of the half angle"
    INCLUDED = "degrees of the included angle"


@dataclass(frozen=True, slots=True, kw_only=True)
class CompoundSwing:
    """How far the compound slide is swung from the axis of the work.

    `swing` is the half angle; `other_scale` what a scale reads that counts
    from square to the axis (90 degrees minus the half angle).
    """

    swing: Angle
    other_scale: Angle


@dataclass(frozen=True, slots=True, kw_only=True)
class TailstockOffset:
    """How far the tailstock is set over, in picometres.

    `exact` takes the distance between the centre points as the hypotenuse,
    `usual` is the shop rule L C / 2; `excess` is usual minus exact.
    `end_difference` is the diameter difference cut over the taper length,
    `sentence` says that the offset is above the sensible one, or is empty.
    """

    exact: Length
    usual: Length
    end_difference: Length
    share: Fraction
    sentence: str

    @property
    def excess(self) -> Length:
        """What the shop rule sets too much."""
        return Length(self.usual - self.exact)


@dataclass(frozen=True, slots=True, kw_only=True)
class AttachmentSetting:
    """What to set a taper attachment to: the one its scale counts, and all three for a check."""

    graduated: Graduated
    text: str
    per_foot: Fraction
    half: Angle
    included: Angle


def compound_swing(taper: Taper) -> CompoundSwing:
    """Return the swing of the compound slide: the half angle, never the included one.

    Source: Machinery's Handbook, tapers (angle with centre line); scales
    that count from the cross slide are common practice.
    """
    return CompoundSwing(swing=taper.half, other_scale=complement_of(taper.half))


def tailstock_offset(
    taper: Taper, *, between_centres: Length, taper_length: Length, unit: Unit, limit: Length | None = None
) -> TailstockOffset:
    """Return the offset for work of a length between the centre points.

    exact = L sin(half), usual = L C / 2 = L TPF / 24, L the whole length
    between centres, never the length of the taper.  `limit` is the furthest
    the tailstock goes.

    Raises UsageError where a length is not above zero, the taper is longer
    than the work, or the exact offset is above `limit`, and says by how much.
    Source: Machinery's Handbook and books on turning (usual); exact derived.
    """
    _refuse_lengths(between_centres, taper_length, unit)
    exact = Length(round(between_centres * half_sine(taper)))
    if limit is not None and exact > limit:
        sentence = (
            f"an offset of {amount(exact, unit)} is {amount(exact - limit, unit)} "
            f"more than the tailstock goes, {exact_text(limit, unit)}"
        )
        raise UsageError.about("offset", sentence, hint="swing the compound slide or use a taper attachment")
    rate = taper.exact_rate
    share = Fraction(exact, between_centres)
    return TailstockOffset(
        exact=exact,
        usual=Length(round(between_centres * rate / 2)),
        end_difference=Length(round(taper_length * rate)),
        share=share,
        sentence=_offset_sentence(share),
    )


def half_of_offset(offset: Length, *, between_centres: Length, unit: Unit) -> Angle:
    """Return the half angle an offset turns: asin(offset / L).  Raises UsageError above L and below zero."""
    return arcsine(offset, between_centres, argument="offset", unit=unit)


def attachment_setting(taper: Taper, graduated: Graduated | None) -> AttachmentSetting:
    """Return what to set a taper attachment to.

    Raises UsageError where it is not said what its scale counts: the half and
    the included angle differ by a factor of two.  Source: common practice.
    """
    per_foot = 12 * taper.exact_rate
    texts = {
        Graduated.PER_FOOT: taper.per_foot_text,
        Graduated.HALF: f"{short_degrees_text(taper.half)} half angle",
        Graduated.INCLUDED: f"{short_degrees_text(taper.included)} included angle",
    }
    if graduated is None:
        hint = "; ".join(f"{one.value}: {text}" for one, text in texts.items())
        raise UsageError.about("graduated", "what does the scale of the attachment count?", hint=hint)
    return AttachmentSetting(
        graduated=graduated,
        text=texts[graduated],
        per_foot=per_foot,
        half=taper.half,
        included=taper.included,
    )


def _refuse_lengths(between_centres: Length, taper_length: Length, unit: Unit) -> None:
    """Refuse lengths that are not above zero, and a taper longer than the work."""
    for name, length in (("between centres", between_centres), ("taper length", taper_length)):
        if length <= 0:
            raise UsageError.about(name, f"{exact_text(length, unit)} is not above zero")
    if taper_length > between_centres:
        over = exact_text(taper_length - between_centres, unit)
        sentence = f"the taper is {over} longer than the work between centres"
        raise UsageError.about(
            "taper length", sentence, hint="give the whole length between the centre points"
        )


def _offset_sentence(share: Fraction) -> str:
    """Say that an offset is above the sensible one; empty where it is not."""
    if share <= SENSIBLE_OFFSET:
        return ""
    return (
        f"the offset is {float(share):.3f} of the length, above 1/50 (common practice): "
        "the centres bear on their edges"
    )
