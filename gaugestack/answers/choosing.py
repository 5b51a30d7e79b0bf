"""What a search by uncertainty measures, and the floor that ends it.

    >>> chosen_by_doubt(request, first, known, view, None).built

Joins leastdoubt.py, which knows no budgets, with the budgets.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from gaugestack.answers.doubtfloor import Floor, Single
from gaugestack.answers.leastdoubt import Gauge, search
from gaugestack.blocks import total
from gaugestack.errors import UsageError
from gaugestack.stacks.wringing import stacking_order
from gaugestack.uncertainty.budget import Budget, scaled
from gaugestack.uncertainty.stack import height_components

if TYPE_CHECKING:
    from gaugestack.answers.knowing import View
    from gaugestack.answers.leastdoubt import Search
    from gaugestack.answers.uncertainty import Known
    from gaugestack.blocks import Basis, Block
    from gaugestack.stacks.request import Built, StackRequest
    from gaugestack.uncertainty.budget import Component
    from gaugestack.uncertainty.conditions import Conditions


def chosen_by_doubt(
    request: StackRequest, first: Built, known: Known, view: View, limit: float | None
) -> Search:
    """Return the stack chosen by its uncertainty; `first` is one of the fewest blocks.

    `limit` None asks for the least uncertainty.  Raises UsageError for several
    heights, for a limit of zero, and where nothing says how far the blocks of
    `first` may be off.
    """
    if limit is not None and limit <= 0:
        raise UsageError.about("--within-uncertainty", "nothing is known within zero", hint="above zero")
    view.seen(known.height(first.blocks, first.basis))

    def measure(built: Built) -> float:
        """Return the expanded uncertainty of a stack; infinite where a block is not known."""
        try:
            return view.seen(
                known.height(stacking_order(built.blocks, request.end_only), built.basis)
            ).budget.expanded
        except UsageError:
            return math.inf

    gauge = Gauge(measure=measure, floor=_floor(request, first, known, view))
    return search(request, first, gauge, limit)


def _floor(request: StackRequest, first: Built, known: Known, view: View) -> Floor:
    """Return the floor under the uncertainty of stacks of so many blocks.

    What does not hang on the choice (warmth, bar) is taken from `first`, and as
    nothing where blocks of several materials could stand there.
    """
    conditions, per_nm = view.conditions, view.per_nm()
    height = known.height(first.blocks, first.basis)
    budget = view.seen(height).budget
    own = _variance(height_components(height, conditions)) * per_nm**2
    pool = (*request.pool, *request.pair(0))
    alike = len({block.material for block in pool}) == 1
    return Floor(
        rest=max(0.0, budget.combined**2 - own) if alike else 0.0,
        reference=total(first.blocks),
        singles={id(block): _single(block, known, request.basis, conditions, per_nm) for block in pool},
        joint=conditions.wringing_limit**2 / 3 * per_nm**2,
        k=budget.k,
    )


def _single(block: Block, known: Known, basis: Basis, conditions: Conditions, per_nm: float) -> Single:
    """Return the doubts of a block by itself, in the budget's unit; infinite where nothing is known of it."""
    dry = replace(conditions, wringing_limit=0.0)
    try:
        found = scaled(height_components(known.height((block,), basis), dry), per_nm)
    except UsageError:
        return Single(alone=math.inf)
    alone = math.fsum(component.contribution**2 for component in found if not component.group)
    grouped = [component for component in found if component.group]
    if not grouped:
        return Single(alone=alone)
    shared = math.fsum(component.contribution for component in grouped)
    return Single(alone=alone, shared=shared, group=grouped[0].group)


def _variance(components: tuple[Component, ...]) -> float:
    """Return the variance of doubts taken together."""
    return Budget(quantity="height", unit="nm", components=components).combined ** 2 if components else 0.0
