"""What is asked of a job of many set-ups, and how it can end.

    JobRequest                            one request a set-up, order free or not
    JobFound | JobImpossible | JobUndecided

Pure values; the physics stands in sequencejoints.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gaugestack.blocks import Block, Stack
    from gaugestack.stacks.request import Impossible, StackRequest, Undecided


@dataclass(frozen=True, slots=True, kw_only=True)
class JobRequest:
    """Set-ups made one after the other, each the request of one height.

    `free` lets them change places; `extra` is how many blocks more than the
    fewest a stack may have where that saves wrings.  Wear pairs are not
    planned here.
    """

    requests: tuple[StackRequest, ...]
    free: bool = False
    extra: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class JobStep:
    """One set-up of the plan.

    setup   its number in the request, from 0
    stack   blocks from the bottom up
    kept    piles that stay wrung from the stack before, each from the bottom up
            as it stands in this one (it may have been the other way up)
    loose   blocks that stood in the stack before, parted and used again
    off     blocks of the stack before that are not used here
    on      blocks that were not in the stack before
    wrings  joints to make
    """

    setup: int
    stack: Stack
    kept: tuple[tuple[Block, ...], ...]
    loose: tuple[Block, ...]
    off: tuple[Block, ...]
    on: tuple[Block, ...]
    wrings: int


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPlan:
    """Set-ups in the order they are made; `naive` counts the wrings with each best stack made afresh."""

    steps: tuple[JobStep, ...]
    naive: int

    @property
    def wrings(self) -> int:
        """Joints to make over the whole job."""
        return sum(step.wrings for step in self.steps)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFound:
    """A plan approved by the judge; no choice and order of the stacks considered takes fewer wrings."""

    plan: JobPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class JobImpossible:
    """A set-up of the job that cannot be made, or not decided, alone."""

    setup: int
    outcome: Impossible | Undecided


@dataclass(frozen=True, slots=True, kw_only=True)
class JobUndecided:
    """A good plan, approved by the judge, not proven the best: no plan takes fewer than `at_least` wrings.

    `at_least` is 0 where not every stack could be listed.
    """

    plan: JobPlan
    at_least: int = 0
    sentence: str = "the limit on effort was reached before the fewest wrings were proven"


JobOutcome = JobFound | JobImpossible | JobUndecided
