"""What is known of each block's length: by certificate, or by grade alone.

    knowledge = knowledge_of(block_set)
    length_components(block, knowledge, Basis.CERTIFIED, shared=1.0)

A certified length with a stated uncertainty takes that; a nominal length, or a
deviation nobody stated the uncertainty of, takes the grade's limit, rectangular.
Where neither is known nothing can be said, and that is refused.
Does not know joints or warmth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.blocks import Basis
from gaugestack.errors import TextError, UsageError
from gaugestack.grades import limits, permissible_change, read_standard
from gaugestack.uncertainty.budget import Component, refuse_no_coverage
from gaugestack.uncertainty.distribution import Distribution

if TYPE_CHECKING:
    from gaugestack.blocks import Block, BlockSet, CalibrationUncertainty, Certificate
    from gaugestack.grades import Limits
    from gaugestack.grades_tables import Standard

PM_PER_NM = 1000
_PER_LENGTH = 10**12


@dataclass(frozen=True, slots=True, kw_only=True)
class Knowledge:
    """What a set's file says of how far its blocks may be off.

    `standard` None and `grade` empty: no grade is known.
    """

    standard: Standard | None = None
    grade: str = ""
    certificate: Certificate | None = None


def knowledge_of(block_set: BlockSet) -> Knowledge:
    """Return what a set says; a standard that is not known counts as none."""
    try:
        standard = read_standard(block_set.standard)
    except TextError:
        standard = None
    return Knowledge(standard=standard, grade=block_set.grade, certificate=block_set.certificate)


def calibration_uncertainty(stated: CalibrationUncertainty, block: Block) -> float:
    """Return the certificate's expanded uncertainty of a block, nm: fixed + per length x length."""
    return (stated.fixed + stated.per_length * block.nominal / _PER_LENGTH) / PM_PER_NM


def length_components(
    block: Block, knowledge: Knowledge, basis: Basis, shared: float
) -> tuple[Component, ...]:
    """Return how far the length that counts for a block may be off, in nm.

    By certificate: two parts, sqrt(shared) of it together with all blocks of that
    certificate, sqrt(1 - shared) alone, which makes any two correlated by `shared`
    (JCGM 100:2008, F.1.2.3).  Then the variation over the face, triangular, where the
    certificate or the grade gives it.  By grade: its limit, rectangular, which
    already holds at any point of the face.

    Raises UsageError where neither is known.
    """
    certificate, allowed = knowledge.certificate, _allowed(block, knowledge)
    measured = basis is Basis.CERTIFIED and block.deviation is not None
    if measured and certificate is not None and certificate.uncertainty is not None:
        own = _by_certificate(block, certificate.number, certificate.uncertainty, shared)
        return (*own, *_variation(block, allowed))
    if allowed is None:
        sentence = f"nothing says how far the block {block.engraved} may be off"
        hint = "give its set a certificate with an uncertainty, or a standard and a grade"
        raise UsageError.about(f"block {block.engraved}", sentence, hint=hint)
    return (
        Component(
            name=f"grade {knowledge.grade} of {block.engraved}",
            value=allowed.deviation / PM_PER_NM,
            unit="nm",
            distribution=Distribution.RECTANGULAR,
            source=f"limit of the grade, {allowed.source} ({allowed.basis})",
        ),
    )


def drift_limits(blocks: tuple[Block, ...], knowledge: Knowledge, years: float) -> tuple[float, ...]:
    """Return how far each block may have changed in `years`, nm; 0 where no standard says.

    Source: the permissible change a year of `grades.permissible_change`.
    Raises UsageError on years below zero.
    """
    if not (math.isfinite(years) and years >= 0):
        raise UsageError.about("years", f"{years:g} years since the calibration: zero or above")
    standard = knowledge.standard
    if standard is None:
        return (0.0,) * len(blocks)
    changes = (permissible_change(standard, knowledge.grade, block.nominal) for block in blocks)
    return tuple((change or 0) * years / PM_PER_NM for change in changes)


def _allowed(block: Block, knowledge: Knowledge) -> Limits | None:
    """Return what the set's grade allows the block, if both are known."""
    if knowledge.standard is None:
        return None
    return limits(knowledge.standard, knowledge.grade, block.nominal, unit=block.unit)


def _by_certificate(
    block: Block, number: str, stated: CalibrationUncertainty, shared: float
) -> list[Component]:
    """Return the part of a certificate's uncertainty that is common, and the part that is not."""
    factor = float(stated.coverage)
    refuse_no_coverage(f"certificate {number}".strip(), factor)
    expanded = calibration_uncertainty(stated, block)
    group = f"calibration, certificate {number or 'without number'} of {block.owner or 'the set'}"
    parts = ((math.sqrt(shared), group), (math.sqrt(1 - shared), ""))
    return [
        Component(
            name=f"calibration of {block.engraved}",
            value=expanded * part,
            unit="nm",
            divisor=factor,
            group=together,
            source=f"U = {expanded:.4g} nm, k = {stated.coverage}",
        )
        for part, together in parts
        if part
    ]


def _variation(block: Block, allowed: Limits | None) -> list[Component]:
    """Return the doubt about the touched point of the face.

    The certificate gives the centre, which lies somewhere between the greatest and
    the least length, and so does the touched point: a difference of two rectangular
    doubts of half the variation is triangular with the whole of it.
    """
    known = block.variation is not None
    variation = block.variation if known else (allowed.variation if allowed else None)
    if not variation:
        return []
    return [
        Component(
            name=f"variation over the face of {block.engraved}",
            value=variation / PM_PER_NM,
            unit="nm",
            distribution=Distribution.TRIANGULAR,
            source="certificate" if known else "tolerance of the grade",
        )
    ]
