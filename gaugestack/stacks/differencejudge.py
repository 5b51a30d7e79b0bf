"""Do these two stacks make this difference?  Names every broken rule; knows no solver.

    >>> broken_rules(request, high, low)   # () where all is well

The rules of each stack are asked of judge.py; here stand those of the two.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.errors import OurBug
from gaugestack.lengths import Unit, exact_text
from gaugestack.stacks import judge

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.stacks.differencerequest import DifferenceRequest
    from gaugestack.stacks.request import Built


def approve(request: DifferenceRequest, high: Built, low: Built) -> None:
    """Raise OurBug naming every rule the two stacks break; say nothing where they break none."""
    broken = broken_rules(request, high, low)
    if broken:
        raise OurBug.because(broken)


def broken_rules(request: DifferenceRequest, high: Built, low: Built) -> tuple[str, ...]:
    """Return one sentence for every rule that the two stacks break."""
    return tuple(sentence for rule in _RULES for sentence in rule(request, high, low))


def difference_within_tolerance(request: DifferenceRequest, high: Built, low: Built) -> Iterator[str]:
    """Require the difference of the two sums within the tolerance of the one asked."""
    basis = request.rules.basis
    over, under = (sum(block.length(basis) for block in built.blocks) for built in (high, low))
    if abs(over - under - request.target) > request.rules.tolerance:
        asked = exact_text(request.target, Unit.MILLIMETRE)
        yield f"the stacks differ by {exact_text(over - under, Unit.MILLIMETRE)} where {asked} was asked"


def each_is_its_own_target(request: DifferenceRequest, high: Built, low: Built) -> Iterator[str]:
    """Require each stack to be measured against its own length: only the difference was asked."""
    del request
    if high.deviation or low.deviation:
        yield "a stack of a difference has a target that is not its own length"


def stacks_keep_the_rules(request: DifferenceRequest, high: Built, low: Built) -> Iterator[str]:
    """Require of both together what is required of any two stacks from one pool."""
    yield from judge.broken_rules(request.each(high.target, low.target), (high, low))


_RULES = (difference_within_tolerance, each_is_its_own_target, stacks_keep_the_rules)
