"""Building the reach table, beside a floor in numpy and a plain dict.

The floor touches the slices of memory that a table has to touch, the dict is
what one writes first.  The dict gets a range it can finish; ours is measured
on the very same range, so nothing is scaled.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from cases import Case, load_case
from peers import Touch, dict_table
from rows import Check, Goal, Row, timed

from gaugestack.stacks import reach

if TYPE_CHECKING:
    from collections.abc import Iterator

    from plan import Plan

RANGES = {"inch-81": (10, 10), "metric-112": (300, 100), "metric-122": (300, 100)}
"""Range beside the floor and beside the dict, in whole inches or millimetres."""


def table_rows(plan: Plan) -> Iterator[Row]:
    """Return two rows for each set that is in the plan."""
    for name, (whole, part) in RANGES.items():
        if name in plan.sets:
            case = load_case(name)
            yield _beside_floor(case, whole, plan.tables)
            yield _beside_dict(case, part, plan.tables)


def _beside_floor(case: Case, units: int, times: int) -> Row:
    """Return the row beside the floor, both measured in turns."""
    top = units * case.unit.picometres
    floor = Touch(tuple(case.sizes), min(top // case.step, sum(case.sizes)))
    turns = [(timed(partial(reach.table, case.pool, top))[0], timed(floor)[0]) for _ in range(times)]
    ours = tuple(mine for mine, _ in turns)
    return Row(
        figure=f"reach table, {case.name}, {units} {case.unit}",
        beside="floor: one np.minimum a block over the same slices",
        goal=Goal(aim=4, fails=40, floor=True),
        ours=ours,
        same=ours,
        peer=tuple(theirs for _, theirs in turns),
    )


def _beside_dict(case: Case, units: int, times: int) -> Row:
    """Return the row beside the dict, and whether both know the same counts."""
    top = units * case.unit.picometres
    runs = [timed(partial(reach.table, case.pool, top)) for _ in range(times)]
    seconds, fewest = timed(partial(dict_table, case.sizes, top // case.step))
    table = runs[0][1]
    heights = range(top // case.step + 1)
    agreed = sum(table is not None and table.count(h) == fewest.get(h) for h in heights)
    ours = tuple(mine for mine, _ in runs)
    return Row(
        figure=f"reach table, {case.name}, {units} {case.unit}",
        beside="plain dict, a loop a block and height",
        goal=Goal(aim=100, fails=10),
        ours=ours,
        same=ours,
        peer=(seconds,),
        checks=(Check(what="same count a height", compared=len(heights), agreed=agreed),),
    )
