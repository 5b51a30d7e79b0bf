"""The reversal check: the same vee, the part turned end for end, the fixture's error gone.

>>> from gaugestack.lengths import Length
>>> found = reversal(Length(5000), Length(-1000))
>>> found.part, found.fixture
(Fraction(3000, 1), Fraction(2000, 1))

Both readings are rises over the same span, positive where the far end is
higher; the fixture is not touched between them.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gaugestack.lengths import Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Reversal:
    """The share of the part and of the fixture in two rises, in picometres."""

    part: Fraction
    fixture: Fraction


def reversal(first: Length, second: Length) -> Reversal:
    """Return part = (first - second) / 2 and fixture = (first + second) / 2.

    Turning the part end for end turns the sign of its own slope and leaves the
    fixture's: first = fixture + part, second = fixture - part.
    Source: derived; reversal is common practice.
    """
    return Reversal(part=Fraction(first - second, 2), fixture=Fraction(first + second, 2))
