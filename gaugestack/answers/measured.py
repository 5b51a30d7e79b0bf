"""A measured half angle beside the wanted one: error, one-sided verdict, what to move on the lathe.

>>> answer = measured(half, taper, Judging(band="2m"))

Signs: an error is what was measured minus what is wanted, positive where the
taper is too steep.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle
from gaugestack.angles.correction import compound_nudge, part_error
from gaugestack.angles.readings import acceptance
from gaugestack.angles.taper import Taper
from gaugestack.answers.asked import asked_angle, asked_length, kept
from gaugestack.errors import UsageError

if TYPE_CHECKING:
    from fractions import Fraction

    from gaugestack.angles.correction import PartError
    from gaugestack.angles.readings import Acceptance
    from gaugestack.lengths import Length, Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Judging:
    """How a measured angle is judged, as typed.

    band     the one-sided tolerance of the half angle, like `1m`
    inside   the taper is a bore: it may err slow instead of steep
    length   the part's length, to say the error in thousandths
    radius   where an indicator touches the compound slide, from its pivot
    """

    band: str | None = None
    inside: bool = False
    length: str | None = None
    radius: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Nudge:
    """How far the compound slide moves at an indicator `radius` from its pivot; negative: swing back."""

    radius: Length
    move: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A cone as measured; the rest is None where nothing was wanted of it."""

    cone: Taper
    unit: Unit
    error_arcsec: Fraction | None = None
    verdict: Acceptance | None = None
    part: PartError | None = None
    nudge: Nudge | None = None


def measured(half: Angle, taper: Taper | None, judging: Judging, unit: Unit) -> Measured:
    """Return a measured half angle with its error against `taper`, judged as asked.

    Raises UsageError where something is to be judged and no call-out stands beside it.
    """
    cone = Taper(call_out="", reading="as measured", half=half)
    if taper is None:
        _refuse_judging(judging)
        return Measured(cone=cone, unit=unit)
    error = half - taper.half
    off = Angle(arcseconds=error)
    return Measured(
        cone=cone,
        unit=unit,
        error_arcsec=error,
        verdict=_verdict(taper, half, judging),
        part=_part(taper, off, judging),
        nudge=_nudge(off, judging),
    )


def _verdict(taper: Taper, half: Angle, judging: Judging) -> Acceptance | None:
    """Return the one-sided verdict where a band is given."""
    if judging.band is None:
        return None
    band = asked_angle(judging.band, "--band").angle.arcseconds
    return acceptance(taper, half, band_arcsec=band, outside=not judging.inside)


def _part(taper: Taper, error: Angle, judging: Judging) -> PartError | None:
    """Return the error over the part's length where one is given."""
    if judging.length is None:
        return None
    read = asked_length(judging.length, "--part-length")
    return part_error(taper, error, length=read.length, unit=read.unit)


def _nudge(error: Angle, judging: Judging) -> Nudge | None:
    """Return what to move at the indicator where a radius is given."""
    if judging.radius is None:
        return None
    read = asked_length(judging.radius, "--radius")
    move = compound_nudge(error, radius=read.length, unit=read.unit)
    return Nudge(radius=read.length, move=kept(move, read.unit))


def _refuse_judging(judging: Judging) -> None:
    """Refuse to judge against nothing."""
    for option, value in (
        ("--band", judging.band),
        ("--part-length", judging.length),
        ("--radius", judging.radius),
    ):
        if value is not None:
            raise UsageError.about(
                option, "needs the call-out that is wanted", hint="like: ... '1:20' --band 1m"
            )
