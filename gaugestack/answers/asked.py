"""What was typed for an angle, a length or a cone: read, and refused under the option's own name.

>>> asked_length("3in", "--travel").length

Texts become values here and nowhere else in the answers about angles.  Where
an engine names its own argument (`between centres`), `spoken_of` puts the
option in its place (`--between`).
"""

from __future__ import annotations

import contextlib
from dataclasses import replace
from typing import TYPE_CHECKING

from gaugestack.angles.angle import ReadAngle, read_angle
from gaugestack.angles.callout import read_taper
from gaugestack.errors import Place, TextError, UsageError
from gaugestack.lengths import Length, ReadLength, Unit, read_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from gaugestack.angles.taper import Taper

_INCH_STEP, _METRIC_STEP = 254, 100


def asked_length(
    text: str, argument: str, *, bare_unit: Unit | None = None, signed: bool = False
) -> ReadLength:
    """Return a length as typed; a bare number is refused without `bare_unit`.  Raises UsageError."""
    try:
        return read_length(text, bare_unit=bare_unit, signed=signed)
    except TextError as error:
        raise error.named(argument) from None


def asked_angle(text: str, argument: str, *, signed: bool = False) -> ReadAngle:
    """Return an angle as typed.  Raises UsageError."""
    try:
        return read_angle(text, signed=signed)
    except TextError as error:
        raise error.named(argument) from None


def asked_cone(call_out: str, *, bare_unit: Unit | None = None) -> Taper:
    """Return the cone of a call-out.  Raises UsageError, also for a flat wedge."""
    try:
        return read_taper(call_out, bare_unit=bare_unit)
    except TextError as error:
        raise error.named("CALLOUT") from None


def wanted(option: str, value: str | None, hint: str) -> str:
    """Return the text of an option that must be there.  Raises UsageError."""
    if value is None:
        raise UsageError.about(option, "is wanted here", hint=hint)
    return value


@contextlib.contextmanager
def spoken_of(names: Mapping[str, str]) -> Iterator[None]:
    """Let an engine's refusal name the option instead of the engine's own argument."""
    try:
        yield
    except UsageError as error:
        problems = [
            replace(one, place=Place(file=names.get(one.place.file, one.place.file)))
            for one in error.problems
        ]
        raise UsageError(problems) from None


def kept(length: float, unit: Unit) -> Length:
    """Return a computed length rounded to 0.01 µin or 0.1 nm, so that its text ends in its own unit."""
    step = _INCH_STEP if unit is Unit.INCH else _METRIC_STEP
    return Length(round(length / step) * step)
