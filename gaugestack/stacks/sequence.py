"""Many stacks in one job: choice and order of the stacks with the fewest wrings.

    >>> sequence(JobRequest(requests=requests, free=True))   # JobFound | JobImpossible | JobUndecided

A joint made counts one, a joint kept from the set-up before counts none; what
may stay together is defined in sequencejoints.py.  Order of preference, which
leaves one answer:

    1. fewest wrings over the job
    2. fewest blocks over the job
    3. the set-ups in the order asked, as far as that goes
    4. set-up by set-up the stack that comes first: fewest blocks, then largest
    5. the order of the blocks, the larger ones lower

Considered for a set-up: every stack of its nominal height with the fewest
blocks, and with up to `extra` more, MOST_STACKS each.  The height is that of
the best stack alone, so that no set-up is made worse for the sake of another;
on certified lengths a stack of that nominal height must lie within the
tolerance.  Proven for free orders up to MOST_FREE set-ups and for fixed ones;
beyond that the order is found step by step and the answer says what is proven.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from gaugestack.blocks import Block, Stack, in_order, total
from gaugestack.errors import OurBug, UsageError
from gaugestack.stacks import judge, sequencejudge
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.request import Built, Found, Impossible, Undecided
from gaugestack.stacks.sequencegains import WRING, State, worth_a_look
from gaugestack.stacks.sequencejoints import MOST_ORDERED, joints
from gaugestack.stacks.sequencelarge import chain_of, most_saved
from gaugestack.stacks.sequencerequest import (
    JobFound,
    JobImpossible,
    JobOutcome,
    JobPlan,
    JobRequest,
    JobStep,
    JobUndecided,
)
from gaugestack.stacks.sequencesearch import MOST_NODES, Search
from gaugestack.stacks.sequencestacks import Lister
from gaugestack.stacks.solve import compose

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from gaugestack.stacks.request import StackRequest
    from gaugestack.stacks.sequencesearch import Result

MOST_STACKS = 2000
"""Stacks of one height and one count that are considered."""
MOST_FREE = 12
"""Set-ups whose free order is searched to the end."""


def sequence(request: JobRequest, effort: Effort | None = None, nodes: int = MOST_NODES) -> JobOutcome:
    """Return the plan of a job.

    `effort` limits the search for stacks, all together, `nodes` that for their
    order, so that a run repeats.  Raises OurBug where the judge refuses a plan or a request is no
    request of one height, UsageError where wear pairs are asked for.
    """
    _refuse_odd(request)
    effort = effort or Effort()
    alone = []
    for setup, one in enumerate(request.requests):
        outcome = compose(one, effort)
        if isinstance(outcome, Impossible | Undecided):
            return JobImpossible(setup=setup, outcome=outcome)
        alone.append(outcome)
    return _Job(request, alone).outcome(nodes)


class _Job:
    """A job whose set-ups can all be made."""

    def __init__(self, request: JobRequest, alone: Sequence[Found]) -> None:
        """List the stacks of all set-ups, in piece numbers that count from the largest."""
        self.request = request
        self.pieces = in_order({block for one in request.requests for block in one.pool})
        self.number = {block: index for index, block in enumerate(self.pieces)}
        self.naive = sum(len(found.stacks[0].blocks) - 1 for found in alone)
        self.complete = True
        listers: dict[tuple[Block, ...], Lister] = {}
        top = max(total(found.stacks[0].blocks) for found in alone)
        self.states: list[State] = []
        for setup, found in enumerate(alone):
            pool = request.requests[setup].pool
            lister = listers.setdefault(pool, Lister(pool, top))
            self._list(setup, found.stacks[0], lister)

    def outcome(self, nodes: int) -> JobOutcome:
        """Return the plan, proven the best or not."""
        plan, least = self._searched(nodes)
        sequencejudge.approve(self.request, plan)
        if plan.wrings == least and self.complete:
            return JobFound(plan=plan)
        return JobUndecided(plan=plan, at_least=least if self.complete else 0)

    def _list(self, setup: int, best: Built, lister: Lister) -> None:
        """Add the stacks that would do for a set-up, in the order of preference."""
        request = self.request.requests[setup]
        height, fewest = total(best.blocks), len(best.blocks)
        before = len(self.states)
        for extra in range(self.request.extra + 1):
            listing = lister.stacks(height, fewest + extra, MOST_STACKS)
            self.complete &= listing.complete and fewest + extra <= MOST_ORDERED
            for blocks in listing.stacks:
                if self._does(request, blocks):
                    self.states.append(self._state(setup, blocks, extra))
        if all(state.extra for state in self.states[before:]):
            self.states.insert(before, self._state(setup, best.blocks, 0))

    def _does(self, request: StackRequest, blocks: tuple[Block, ...]) -> bool:
        """Return whether blocks meet every rule of a set-up's request, and can stand in some order."""
        built = Built(target=request.targets[0], blocks=blocks, basis=request.basis)
        return not judge.broken_rules(request, [built])

    def _state(self, setup: int, blocks: tuple[Block, ...], extra: int) -> State:
        """Return the numbers of one stack."""
        one_face = self.request.requests[setup].end_only
        return State(
            setup=setup,
            pieces=tuple(sorted(self.number[block] for block in blocks)),
            thin=frozenset(self.number[block] for block in blocks if block.thin and block not in one_face),
            one_face=frozenset(self.number[block] for block in blocks if block in one_face),
            extra=extra,
        )

    def _searched(self, nodes: int) -> tuple[JobPlan, int]:
        """Return the best plan found and the least wrings there can be."""
        count, free = len(self.request.requests), self.request.free
        self.states = worth_a_look(self.states, count, free=free)
        if not free or count <= MOST_FREE:
            result = Search(self.states, count, free=free, nodes=nodes).run()
            return self._plan(result, self.states), self._wrings(result.bound)
        order = chain_of(self.states, count)
        states = sorted(self.states, key=lambda state: order.index(state.setup))
        moved = [_moved(state, order.index(state.setup)) for state in states]
        result = Search(moved, count, free=False, nodes=nodes).run()
        return self._plan(result, states), self.naive - most_saved(self.states, count)

    def _wrings(self, score: int) -> int:
        """Return the wrings a score stands for."""
        return self.naive + -score // WRING

    def _plan(self, result: Result, states: Sequence[State]) -> JobPlan:
        """Return the plan of a walk."""
        steps: list[JobStep] = []
        before: tuple[int, ...] = ()
        for index, order in zip(result.walk.states, result.walk.orders, strict=True):
            steps.append(self._step(states[index].setup, before, order))
            before = order
        return JobPlan(steps=tuple(steps), naive=self.naive)

    def _step(self, setup: int, before: tuple[int, ...], order: tuple[int, ...]) -> JobStep:
        """Return one step: what stays wrung, what comes off, what goes on."""
        stay = joints(before) & joints(order)
        piles = _piles(order, before)
        kept = tuple(self._blocks(pile) for pile in piles)
        held = {piece for pile in piles for piece in pile}
        return JobStep(
            setup=setup,
            stack=Stack(blocks=self._blocks(order)),
            kept=kept,
            loose=self._blocks(piece for piece in order if piece in before and piece not in held),
            off=self._blocks(piece for piece in before if piece not in order),
            on=self._blocks(piece for piece in order if piece not in before),
            wrings=len(order) - 1 - len(stay),
        )

    def _blocks(self, numbers: Iterable[int]) -> tuple[Block, ...]:
        """Return the blocks with these numbers."""
        return tuple(self.pieces[number] for number in numbers)


def _piles(order: tuple[int, ...], before: tuple[int, ...]) -> list[list[int]]:
    """Return the piles of two or more blocks of a stack that stood wrung in the one before."""
    stay = joints(before) & joints(order)
    piles: list[list[int]] = [[order[0]]]
    for below, piece in pairwise(order):
        if joints((below, piece)) <= stay:
            piles[-1].append(piece)
        else:
            piles.append([piece])
    return [pile for pile in piles if len(pile) > 1]


def _moved(state: State, setup: int) -> State:
    """Return a state under another number of its set-up."""
    return replace(state, setup=setup)


def _refuse_odd(request: JobRequest) -> None:
    """Refuse a job without set-ups, a set-up of several heights, and wear pairs."""
    if not request.requests or any(len(one.targets) != 1 for one in request.requests):
        raise OurBug.because(["a job needs at least one set-up, each of one height"])
    if any(one.ends for one in request.requests):
        raise UsageError.about("wear", "a job is planned without wear pairs", hint="plan each stack alone")
