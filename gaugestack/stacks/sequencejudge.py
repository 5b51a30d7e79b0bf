"""Is this plan one for this job?  Names every broken rule; knows no search.

    >>> broken_rules(request, plan)   # () where all is well

Counts the joints again from the stacks alone, and asks the judge of stacks
about every one.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from gaugestack.errors import OurBug
from gaugestack.stacks import judge
from gaugestack.stacks.request import Built
from gaugestack.stacks.wringing import thin_blocks_inside

if TYPE_CHECKING:
    from collections.abc import Iterator

    from gaugestack.blocks import Block, Stack
    from gaugestack.stacks.sequencerequest import JobPlan, JobRequest


def approve(request: JobRequest, plan: JobPlan) -> None:
    """Raise OurBug naming every rule the plan breaks; say nothing where it breaks none."""
    broken = broken_rules(request, plan)
    if broken:
        raise OurBug.because(broken)


def broken_rules(request: JobRequest, plan: JobPlan) -> tuple[str, ...]:
    """Return one sentence for every rule of the job that the plan breaks."""
    every = every_set_up_once(request, plan)
    return (*every, *(sentence for rule in _RULES for sentence in rule(request, plan)))


def every_set_up_once(request: JobRequest, plan: JobPlan) -> tuple[str, ...]:
    """Require every set-up once, in the order asked where that is fixed."""
    made, asked = [step.setup for step in plan.steps], list(range(len(request.requests)))
    if sorted(made) != asked:
        return ("not every set-up is made once",)
    return () if request.free or made == asked else ("the set-ups are not made in their fixed order",)


def every_stack_will_do(request: JobRequest, plan: JobPlan) -> Iterator[str]:
    """Require every stack to meet the request of its set-up."""
    for step in plan.steps:
        one = request.requests[step.setup] if step.setup < len(request.requests) else None
        if one is not None:
            built = Built(target=one.targets[0], blocks=step.stack.blocks, basis=one.basis)
            yield from judge.broken_rules(one, [built])


def every_order_is_allowed(request: JobRequest, plan: JobPlan) -> Iterator[str]:
    """Require thin blocks inside where two thicker ones are there, and one-faced blocks at an end."""
    for step in plan.steps:
        faces = request.requests[step.setup].end_only if step.setup < len(request.requests) else ()
        blocks = step.stack.blocks
        if not any(block in faces for block in blocks):
            yield from thin_blocks_inside(blocks)
        if any(block in faces for block in blocks[1:-1]):
            yield "a block with one good face stands inside"


def wrings_are_counted_right(request: JobRequest, plan: JobPlan) -> Iterator[str]:
    """Require each step's wrings to be its joints less those the stack before has too."""
    del request
    before: frozenset[frozenset[Block]] = frozenset()
    for step in plan.steps:
        made = _joints(step.stack)
        if step.wrings != len(made - before):
            yield f"step {step.setup + 1} counts {step.wrings} wrings where it takes {len(made - before)}"
        before = made


def never_worse_than_afresh(request: JobRequest, plan: JobPlan) -> Iterator[str]:
    """Require no more wrings than each best stack made afresh would take."""
    del request
    if plan.wrings > plan.naive:
        yield f"the plan takes {plan.wrings} wrings, {plan.naive} without a plan"


_RULES = (
    every_stack_will_do,
    every_order_is_allowed,
    wrings_are_counted_right,
    never_worse_than_afresh,
)


def _joints(stack: Stack) -> frozenset[frozenset[Block]]:
    """Return the unordered pairs of neighbours."""
    return frozenset(frozenset(pair) for pair in pairwise(stack.blocks))
