"""Why a request is impossible, as a ladder of ways out; never a bare no.

    >>> explained(request)       # like solve.compose, with ways_out filled in

One small function a rung.  Rungs that need more than blocks (another bar, the
angle error of the nearest height) are added by the layer above.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from gaugestack.blocks import Basis, in_order
from gaugestack.lengths import Length, exact_text, rounded_text, small_text
from gaugestack.stacks import reach
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.nearby import nearest_stacks
from gaugestack.stacks.onegoodface import can_stand, placings, two_faced, with_two_faces
from gaugestack.stacks.request import (
    Built,
    Found,
    Impossible,
    Outcome,
    Proof,
    StackRequest,
    WayOut,
    Withheld,
)
from gaugestack.stacks.solve import compose, exactly
from gaugestack.stacks.together import leave_one_out, only, second_piece, told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.blocks import Block
    from gaugestack.lengths import Unit

_SHORT = 12
"""Characters of a length that is still read at a glance."""


def explained(
    request: StackRequest, effort: Effort | None = None, table: reach.Reach | None = None
) -> Outcome:
    """Return the outcome of a request; an impossible one carries its ways out.

    The ways out share the effort of the request; where it ends before them, the last says so.
    `table` is one of the same free blocks, high enough for this request.
    """
    effort = effort or Effort()
    outcome = compose(request, effort, table)
    if not isinstance(outcome, Impossible):
        return outcome
    if outcome.failing is None:
        outcome = told(request, outcome, effort)
    asked = request if outcome.failing is None else only(request, (outcome.failing,))
    return replace(outcome, ways_out=ways_out(asked, outcome, effort))


def ways_out(request: StackRequest, outcome: Impossible, effort: Effort | None) -> tuple[WayOut, ...]:
    """Return the ladder of a request that is impossible as it stands."""
    ways = tuple(way for rung in _RUNGS for way in rung(request, outcome, effort))
    return ways if effort is None or effort.left else (*ways, _CUT_SHORT)


def nearest(request: StackRequest, outcome: Impossible, effort: Effort | None) -> Iterator[WayOut]:
    """Return the nearest heights below and above that the allowed blocks make, with their stacks."""
    del outcome
    if len(request.targets) != 1:
        return
    heights = nearest_heights(request) if request.basis is Basis.NOMINAL else {}
    for kind, height in heights.items():
        built = exactly(request, height, effort)
        if built:
            off = exact_text(abs(height - request.targets[0]), built.blocks[0].unit)
            yield WayOut(kind=kind, sentence=f"the nearest {kind} is {off} away", built=_for(request, built))
    if not heights:
        yield from _nearest_off_grid(request, effort)


def _nearest_off_grid(request: StackRequest, effort: Effort | None) -> Iterator[WayOut]:
    """Return the nearest lengths on both sides where no table holds every sum."""
    for side, near, built in nearest_stacks(request, effort):
        among = f" of at most {near.at_most} blocks" if near.at_most else ""
        off = _off_text(abs(near.length - request.targets[0]), built.blocks[0].unit)
        sentence = f"the nearest {side}{among} is {off} away"
        yield WayOut(kind=side, sentence=sentence, built=_for(request, built))


def _off_text(length: int, unit: Unit) -> str:
    """Return a distance, rounded where it has many digits."""
    exact = exact_text(length, unit)
    if len(exact) <= _SHORT:
        return exact
    small = length < 1000 * unit.small_picometres
    return small_text(length, unit, 3).lstrip("+") if small else rounded_text(length, unit, 6)


def more_blocks(request: StackRequest, outcome: Impossible, effort: Effort | None) -> Iterator[WayOut]:
    """Return the stack that a larger count would allow."""
    if outcome.proof is not Proof.COUNT and request.most is None:
        return
    found = compose(replace(request, most=None), effort)
    if isinstance(found, Found):
        count = max(len(built.blocks) for built in found)
        yield WayOut(
            kind="more blocks",
            sentence=f"{count} blocks do it, {_over(request, count)}",
            built=found.stacks[0],
        )


def without_wear_pair(request: StackRequest, outcome: Impossible, effort: Effort | None) -> Iterator[WayOut]:
    """Return the stack without the wear pair, where the pair stands in the way."""
    del outcome
    if not request.ends:
        return
    found = compose(replace(request, ends=()), effort)
    if isinstance(found, Found):
        pair = request.ends[0][0].engraved
        sentence = f"without the pair of {pair} wear blocks it can be made"
        yield WayOut(kind="without wear blocks", sentence=sentence, built=found.stacks[0])


def blocks_that_restore(
    request: StackRequest, outcome: Impossible, effort: Effort | None
) -> Iterator[WayOut]:
    """Return the fewest withheld blocks that would make the request possible, and the stack."""
    del outcome
    out = tuple(w.block for w in request.withheld if not w.block.wear)
    if not out:
        return
    wide = replace(request, pool=in_order((*request.pool, *out)), withheld=(), scarce=out)
    found = compose(wide, effort)
    if not isinstance(found, Found):
        return
    needed = in_order(block for built in found for block in built.blocks if block in out)
    back = replace(request, pool=in_order((*request.pool, *needed)), withheld=_others(request, needed))
    best = compose(back, effort)
    if isinstance(best, Found):
        yield WayOut(kind="restore", sentence=_restored(request, needed), built=best.stacks[0], blocks=needed)


def as_issued(request: StackRequest, outcome: Impossible, effort: Effort | None) -> Iterator[WayOut]:
    """Return what the set as it was issued would have used."""
    del outcome
    out = tuple(w.block for w in request.withheld if not w.block.wear)
    if not out:
        return
    found = compose(replace(request, pool=in_order((*request.pool, *out)), withheld=()), effort)
    if isinstance(found, Found):
        count = len(found.stacks[0].blocks)
        used = in_order(block for built in found for block in built.blocks if block in out)
        sentence = f"the set as issued makes it with {count} block{'s' * (count > 1)}"
        yield WayOut(kind="as issued", sentence=sentence, built=found.stacks[0], blocks=used)


def one_at_a_time(request: StackRequest, outcome: Impossible, effort: Effort | None) -> Iterator[WayOut]:
    """Return the stack of each height alone, where only all at once is impossible."""
    if outcome.failing is not None or len(request.targets) < 2:
        return
    for index, target in enumerate(request.targets):
        found = compose(only(request, (index,)), effort)
        if isinstance(found, Found):
            unit = found.stacks[0].blocks[0].unit
            sentence = f"{exact_text(target, unit)} alone can be made"
            yield WayOut(kind="alone", sentence=sentence, built=found.stacks[0])


_CUT_SHORT = WayOut(
    kind="effort", sentence="there may be more ways out: the limit on effort was reached looking for them"
)
_RUNGS = (
    nearest,
    more_blocks,
    without_wear_pair,
    with_two_faces,
    blocks_that_restore,
    as_issued,
    second_piece,
    leave_one_out,
    one_at_a_time,
)


def nearest_heights(request: StackRequest) -> dict[str, Length]:
    """Return the nearest reachable heights outside the tolerance: "below" and "above", where they are.

    Heights include the wear pair and the blocks kept in, respect the largest
    count, and have an end for every block with one good face.
    """
    most, plain = request.most, two_faced(request)
    placed = [fixed for fixed in placings(request) if most is None or len(fixed) <= most]
    largest = max((block.nominal for block in plain), default=Length(0))
    table = reach.table(plain, request.targets[0] + request.tolerance + 2 * largest)
    sides = [_sides(request, fixed, table) for fixed in placed if table]
    if any("above" not in found and len(fixed) != most for found, fixed in zip(sides, placed, strict=False)):
        whole = reach.table(plain, sum(block.nominal for block in plain))
        sides = [_sides(request, fixed, whole) for fixed in placed if whole]
    best = {"below": max, "above": min}
    heights = {side: [found[side] for found in sides if side in found] for side in best}
    return {side: best[side](found) for side, found in heights.items() if found}


def _sides(request: StackRequest, fixed: tuple[Block, ...], table: reach.Reach) -> dict[str, Length]:
    """Return the nearest heights on both sides with some blocks standing anyway, as far as the table goes."""
    stands = sum(block.nominal for block in fixed)
    count = None if request.most is None else request.most - len(fixed)
    aim, bare = request.targets[0] - stands, can_stand(request, fixed)
    below = table.below(_ceiling(aim - request.tolerance, table.step), count)
    if below is None and bare and aim - request.tolerance > 0:
        below = 0
    above = table.above((aim + request.tolerance) // table.step, count)
    if bare and aim + request.tolerance < 0:
        above = 0
    pairs = {"below": below, "above": above}
    return {side: Length(h * table.step + stands) for side, h in pairs.items() if h is not None}


def _ceiling(length: int, step: int) -> int:
    """Return the least grid height not below `length`."""
    return -(-length // step)


def _for(request: StackRequest, built: Built) -> Built:
    """Return a stack of another height, measured against the target asked for."""
    return replace(built, target=request.targets[0])


def _over(request: StackRequest, count: int) -> str:
    """Say how many more blocks that is than were allowed."""
    over = count - (request.most or 0)
    return f"{over} more than allowed"


def _others(request: StackRequest, needed: tuple[Block, ...]) -> tuple[Withheld, ...]:
    """Return what stays withheld when the needed blocks are back."""
    return tuple(w for w in request.withheld if w.block not in needed)


def _restored(request: StackRequest, needed: tuple[Block, ...]) -> str:
    """Name the blocks that are wanted back, each with the state that bit."""
    reasons = {w.block: w.reason for w in request.withheld}
    named = ", ".join(f"{block.engraved} ({reasons[block]})" for block in needed)
    return f"it could be made with {named}"
