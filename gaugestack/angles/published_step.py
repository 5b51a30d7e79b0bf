"""What a book costs that prints an angle only to ten minutes, or to whole minutes.

    >>> from fractions import Fraction
    >>> from gaugestack.angles.angle import read_angle
    >>> found = table_step_error(read_angle("7d7m30s").angle, Angle(arcseconds=Fraction(600)))
    >>> float(found.book_angle.degrees), int(found.error_arcsec), int(found.worst_arcsec)
    (7.166666666666667, 150, 300)

Only the rounding: a misprint is another matter.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.angles.angle import Angle
from gaugestack.errors import UsageError

if TYPE_CHECKING:
    from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class TableStep:
    """An angle as a book prints it.

    `error_arcsec` is printed minus exact, `worst_arcsec` the most such a book
    can be off, half its step.
    """

    book_angle: Angle
    error_arcsec: Fraction
    worst_arcsec: Fraction


def table_step_error(angle: Angle, step: Angle) -> TableStep:
    """Return what a table in whole multiples of `step` prints for an angle, and how far off that is.

    Rounded half to even.  Raises UsageError unless the step is above zero.
    Source: derived; bench practice gives 30 seconds for whole minutes.
    """
    if step.arcseconds <= 0:
        raise UsageError.about("step", "a table's step is above zero", hint="like 1m or 10m")
    book = Angle(arcseconds=round(angle.arcseconds / step.arcseconds) * step.arcseconds)
    return TableStep(book_angle=book, error_arcsec=book - angle, worst_arcsec=step.arcseconds / 2)
