"""The one-line summaries of summary.py, once a set tells enough.

    >>> stack_summaries(outcome, stock, None)

The length that counts is the one the stack was chosen by; where nothing is said
of nominal lengths, the certified one.  Circumstances: the assumed ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gaugestack.answers.uncertainty import known_of
from gaugestack.blocks import Basis
from gaugestack.errors import UsageError
from gaugestack.uncertainty.angle import angle_uncertainty
from gaugestack.uncertainty.conditions import Conditions
from gaugestack.uncertainty.decision import dominant_line
from gaugestack.uncertainty.rounding import length_text, two_digits_up
from gaugestack.uncertainty.stack import stack_uncertainty

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.stock import Stock
    from gaugestack.answers.uncertainty import Known
    from gaugestack.blocks import Block
    from gaugestack.stacks.request import Built, Found
    from gaugestack.uncertainty.budget import Budget
    from gaugestack.uncertainty.stack import Height

_CONDITIONS = Conditions()


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """How well one result is known: `expanded` as text, its factor k, `mostly` what that comes from.

    `basis` is the length it holds for, `first` the largest doubt, `assumed` tells the circumstances it was
    reckoned for.
    """

    expanded: str
    k: float
    basis: str
    mostly: str
    first: str
    assumed: str

    @property
    def sentence(self) -> str:
        """Say it in one sentence."""
        head = f"right within {self.expanded} (k = {self.k:.2f}) by {self.basis} lengths"
        return f"{head}, {self.mostly}; assumed: {self.assumed}"

    def line(self, command: str) -> str:
        """Say it in one line that names the command of the whole budget."""
        return f"{self.expanded} (95%), first {self.first}; see {command}"


def stack_summaries(found: Found, stock: Stock, wear: str | None) -> tuple[Summary, ...]:
    """Return one summary a stack; () where one of them cannot be said."""
    known = known_of(stock, wear)
    summaries = []
    for built in found:
        told = _budget(built, known, lambda height: stack_uncertainty(height, _CONDITIONS).budget)
        if told is None:
            return ()
        expanded = length_text(told[0].expanded, built.blocks[0].unit)
        summaries.append(_summary(*told, expanded, f"steel part, {_assumed()}"))
    return tuple(summaries)


def angle_summary(found: Found, stock: Stock, at: tuple[Angle, SineBar], wear: str | None) -> Summary | None:
    """Return the summary of an angle on a bar, in arcseconds; None where it cannot be said.

    A second stack of `found` is the low one, under the other roll.
    """
    known = known_of(stock, wear)
    told = _budget(
        found.stacks[0],
        known,
        lambda height: angle_uncertainty(at[0], at[1], height, _CONDITIONS).budget,
        [block for low in found.stacks[1:] for block in low.blocks],
    )
    if told is None:
        return None
    return _summary(*told, f'{two_digits_up(told[0].expanded)}"', f"usual bar limits, {_assumed()}")


def _summary(budget: Budget, basis: Basis, expanded: str, assumed: str) -> Summary:
    """Return the summary of a budget on its basis."""
    return Summary(
        expanded=expanded,
        k=budget.k,
        basis=basis.value,
        mostly=dominant_line(budget),
        first=budget.lines()[0].name,
        assumed=assumed,
    )


def _budget(
    built: Built, known: Known, of: Callable[[Height], Budget], low: Sequence[Block] = ()
) -> tuple[Budget, Basis] | None:
    """Return the budget on the basis of the stack, else by certified lengths, else None."""
    for basis in dict.fromkeys((built.basis, Basis.CERTIFIED)):
        try:
            return of(known.height(built.blocks, basis, low)), basis
        except UsageError:
            continue
    return None


def _assumed() -> str:
    """Say the assumed circumstances in short."""
    c = _CONDITIONS
    return f"{c.room:g} \N{DEGREE SIGN}C within {c.room_limit:g} K, warmth alike within {c.part_limit:g} K"
