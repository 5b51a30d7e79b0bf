"""Several heights that fail only together: which of them, and what would free them.

    >>> conflict(request, effort)        # (0, 2): the first and the third want the same blocks

None of the heights named can be spared: with any one left out the rest of
them can be made.  One small function a way out, as in explain.py.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from gaugestack.blocks import in_order
from gaugestack.lengths import exact_text
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.request import Found, Impossible, StackRequest, Undecided, WayOut
from gaugestack.stacks.solve import compose

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.blocks import Block


SECOND = 1_000_000
"""Added to the copy number of a piece that is only imagined."""


class NotFoundOut(Exception):  # noqa: N818  (a limit, not a fault)
    """The effort ended before it was known which targets fail together."""


def only(request: StackRequest, places: Sequence[int]) -> StackRequest:
    """Return the request for some of its targets alone, nothing kept in; one target's is itself."""
    if len(request.targets) == 1:
        return request
    ends = tuple(request.ends[place] for place in places) if request.ends else ()
    return replace(request, targets=tuple(request.targets[place] for place in places), ends=ends, kept_in=())


def conflict(request: StackRequest, effort: Effort | None = None) -> tuple[int, ...]:
    """Return the places of targets that fail together, none of which can be spared.

    () where all can be made at once as soon as nothing is to be kept in.
    Raises NotFoundOut where the effort ends first.
    """
    places = tuple(range(len(request.targets)))
    if not _fails(request, places, effort):
        return ()
    for place in reversed(range(len(request.targets))):
        rest = tuple(one for one in places if one != place)
        if len(rest) > 1 and _fails(request, rest, effort):
            places = rest
    return places


def told(request: StackRequest, outcome: Impossible, effort: Effort | None) -> Impossible:
    """Return the outcome with the targets that fail together named, where the effort lets that be known."""
    try:
        places = conflict(request, effort)
    except NotFoundOut:
        return outcome
    if not places:
        sentence = "each height can be made, but not all at once with the blocks to be kept in"
    elif len(places) == len(request.targets):
        return replace(outcome, together=places)
    else:
        named = " and ".join(_named(request, place) for place in places)
        sentence = f"{named} can each be made, but not at once: they want the same blocks"
    return replace(outcome, sentence=sentence, together=places)


def leave_one_out(request: StackRequest, outcome: Impossible, effort: Effort | None) -> Iterator[WayOut]:
    """Name each height without which all others can be made at once."""
    if len(request.targets) < 3:
        return
    for place in outcome.together:
        rest = [one for one in range(len(request.targets)) if one != place]
        if isinstance(compose(only(request, rest), effort), Found):
            sentence = f"without {_named(request, place)} all the others can be made at once"
            yield WayOut(kind="leave out", sentence=sentence)


def second_piece(request: StackRequest, outcome: Impossible, effort: Effort | None) -> Iterator[WayOut]:
    """Name the fewest further pieces of sizes that are there which would free the heights."""
    if not outcome.together:
        return
    second = {replace(block, copy=block.copy + SECOND): block for block in request.pool}
    wide = replace(request, pool=in_order((*request.pool, *second)), scarce=tuple(second))
    with (effort or Effort()).half() as half:
        found = compose(wide, half)
    if isinstance(found, Found):
        needed = in_order(block for built in found for block in built.blocks if block in second)
        originals = tuple(second[block] for block in needed)
        sentence = f"with a second {_listed(originals)} all can be made at once"
        yield WayOut(kind="second piece", sentence=sentence, blocks=originals)


def _fails(request: StackRequest, places: tuple[int, ...], effort: Effort | None) -> bool:
    """Return whether these targets alone are proven impossible.  Raises NotFoundOut."""
    outcome = compose(only(request, places), effort)
    if isinstance(outcome, Undecided):
        raise NotFoundOut
    return isinstance(outcome, Impossible)


def _named(request: StackRequest, place: int) -> str:
    """Name a height by its length."""
    return exact_text(request.targets[place], request.pool[0].unit)


def _listed(blocks: tuple[Block, ...]) -> str:
    """Name blocks in a sentence."""
    return " and a second ".join(block.engraved for block in blocks)
