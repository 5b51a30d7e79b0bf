"""In which order to stack and to wring, with a reason for each step.

    >>> plan(built.blocks)      # WringingPlan: the order from the bottom, the steps

The order has the thickest block as base, the second thickest on top, and the
thin ones between, each against a thicker one; wear blocks stand outside, the
marked face out; a block with one good face stands at an end, that face inward.
One small function a rule; each step says what its reason rests on.
Preparation, soaking and clamps stand in benchwork.py.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from gaugestack.blocks import Block, Stack, in_order

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

COMMON_PRACTICE = "common practice"
THIN_SOURCE = "ISO 3650:1998, 7.2 (thin: up to 2.5 mm); wringing thin to thick is common practice"
WEAR_SOURCE = "NPL FAQ on selecting gauge blocks (both ends, counted); marked face out is common practice"
PART_SOURCE = "US Army subcourse OD1642 (slide apart); TM 9-243 (wipe, oil, back in the case)"
CLEAN_SOURCE = "US Army TM 9-243; common practice"
MANY_BLOCKS = 5
"""Above this many blocks the answer says so: usually not above 4, at most 5 (training texts)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to do: `action`, the `reason` for it, and what that rests on.

    `block` is the block in hand, if any.
    """

    action: str
    reason: str
    basis: str
    block: Block | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WringingPlan:
    """A stack in its order from the bottom, the steps to build it, what to mind."""

    stack: Stack
    steps: tuple[Step, ...]
    remarks: tuple[str, ...] = ()


def plan(blocks: Sequence[Block], end_only: Sequence[Block] = ()) -> WringingPlan:
    """Return the wringing plan of chosen blocks; wear blocks, if any, are one pair.

    At most two of the blocks are `end_only`, with one good face, and none where
    there is a wear pair.
    """
    ends = [block for block in blocks if block in end_only]
    stack = Stack(blocks=stacking_order(blocks, ends))
    steps = tuple(good_face_inward(step, stack, ends) for rule in _STEP_RULES for step in rule(stack))
    remarks = tuple(text for rule in _REMARK_RULES for text in rule(stack))
    return WringingPlan(stack=stack, steps=steps, remarks=remarks)


def stacking_order(blocks: Sequence[Block], end_only: Sequence[Block] = ()) -> tuple[Block, ...]:
    """Return the blocks from the bottom up: base, thin between thick, top, wear blocks outside.

    Blocks with one good face take the ends.
    """
    wear = in_order(block for block in blocks if block.wear)
    inner = in_order(block for block in blocks if not block.wear)
    outer = _ends(inner, [block for block in inner if block in end_only])
    base, top, rest = outer[:1], outer[1:2], [block for block in inner if block not in outer]
    between: list[Block] = []
    while rest:
        between.append(rest.pop())
        if rest:
            between.append(rest.pop(0))
    return (*wear[:1], *base, *between, *top, *wear[1:])


def _ends(inner: tuple[Block, ...], one_face: Sequence[Block]) -> tuple[Block, ...]:
    """Return the blocks of the two ends: those with one good face, else the thickest, the base first."""
    others = [block for block in inner if block not in one_face]
    return in_order((*one_face, *others[: max(0, 2 - len(one_face))]))


def order_faults(order: Sequence[Block]) -> tuple[str, ...]:
    """Return every rule of the order that a stack breaks, from the bottom up; () where none."""
    return tuple(fault for rule in _ORDER_RULES for fault in rule(order))


def base_is_thickest(order: Sequence[Block]) -> Iterator[str]:
    """Require the lowest block that is no wear block to be the thickest."""
    inner = [block for block in order if not block.wear]
    if inner and inner[0].nominal < max(block.nominal for block in inner):
        yield "the base is not the thickest block"


def thin_blocks_inside(order: Sequence[Block]) -> Iterator[str]:
    """Require no thin block at an end of the inner stack while two thicker ones could stand there."""
    inner = [block for block in order if not block.wear]
    thick = sum(not block.thin for block in inner)
    ends = [inner[0], inner[-1]] if inner else []
    if sum(block.thin for block in ends) > max(0, 2 - thick):
        yield "a thin block stands at an end"


def wear_blocks_outside(order: Sequence[Block]) -> Iterator[str]:
    """Require wear blocks at the very ends only."""
    if any(block.wear for block in order[1:-1]):
        yield "a wear block stands inside"


_ORDER_RULES = (base_is_thickest, thin_blocks_inside, wear_blocks_outside)


def clean_first(stack: Stack) -> Iterator[Step]:
    """Clean before wringing: grit scratches both faces for good."""
    if len(stack.blocks) > 1:
        yield Step(
            action="Wipe every face, feel for burrs",
            reason="grit spoils both faces and the height",
            basis=CLEAN_SOURCE,
        )


def take_the_base(stack: Stack) -> Iterator[Step]:
    """Begin with the thickest block: it is stiff and gives the hand something to hold."""
    block = _inner(stack)[0] if _inner(stack) else stack.blocks[0]
    alone = len(stack.blocks) == 1
    yield Step(
        action=f"{'Stand' if alone else 'Take'} {block.engraved}{'' if alone else ' as base'}",
        reason="one block is the whole height" if alone else "thickest, so it keeps the rest flat",
        basis=COMMON_PRACTICE,
        block=block,
    )


def wring_upwards(stack: Stack) -> Iterator[Step]:
    """Wring the blocks on in their order from the base up."""
    inner = _inner(stack)
    for below, block in pairwise(inner):
        if block.thin and not below.thin:
            reason, basis = f"thin: {below.engraved} under it holds it flat", THIN_SOURCE
        elif below.thin:
            reason, basis = f"keeps the thin {below.engraved} inside", THIN_SOURCE
        else:
            last = block is inner[-1]
            reason = "second thickest: it closes the stack" if last else "larger ones take the ends"
            basis = COMMON_PRACTICE
        yield Step(action=f"Wring {block.engraved} on top", reason=reason, basis=basis, block=block)


def wear_blocks_last(stack: Stack) -> Iterator[Step]:
    """Put the wear blocks on last, outside, the marked face out."""
    if not stack.blocks[0].wear:
        return
    reason = "takes the wear"
    for where, block in (("on top", stack.blocks[-1]), ("underneath", stack.blocks[0])):
        if block is not stack.blocks[0] or _inner(stack):
            action = f"Wring wear block {block.engraved} {where}, marked face out"
            yield Step(action=action, reason=reason, basis=WEAR_SOURCE, block=block)


def part_the_same_day(stack: Stack) -> Iterator[Step]:
    """Slide the stack apart the same day: left wrung, steel faces may seize."""
    if len(stack.blocks) > 1:
        yield Step(
            action="By tonight slide apart, wipe, oil, put away",
            reason="left wrung, faces seize",
            basis=PART_SOURCE,
        )


def good_face_inward(step: Step, stack: Stack, end_only: Sequence[Block]) -> Step:
    """Tell which way the one good face of an end block lies; both ends so taken push the rest inside."""
    inner = _inner(stack)
    if step.block in end_only:
        face = "up" if step.block == inner[0] else "down"
        reason = "it has one good face, so it stands at an end, that face inward"
        return replace(step, action=f"{step.action}, good face {face}", reason=reason, basis=COMMON_PRACTICE)
    if len(end_only) > 1 and step.block in inner and not step.reason.startswith(("thin", "keeps")):
        reason = "the ends are for the blocks with one good face"
        return replace(step, reason=reason)
    return step


_STEP_RULES: tuple[Callable[[Stack], Iterator[Step]], ...] = (
    clean_first,
    take_the_base,
    wring_upwards,
    wear_blocks_last,
    part_the_same_day,
)


def many_blocks(stack: Stack) -> Iterator[str]:
    """Say when a stack has more blocks than practice likes."""
    if len(stack.blocks) > MANY_BLOCKS:
        yield (
            f"{len(stack.blocks)} blocks: every joint adds heat, film and error; "
            f"practice stops at {MANY_BLOCKS} (training texts)"
        )


def mixed_materials(stack: Stack) -> Iterator[str]:
    """Name the materials where they differ: they grow differently away from 20 °C."""
    materials = sorted({block.material for block in stack.blocks})
    if len(materials) > 1:
        yield f"materials mixed ({', '.join(materials)}): they expand differently; work near 20 °C"


def thin_at_an_end(stack: Stack) -> Iterator[str]:
    """Say when a thin block has to stand at an end for want of thick ones."""
    ends = (stack.blocks[0], stack.blocks[-1]) if len(stack.blocks) > 1 else ()
    if any(block.thin and not block.wear for block in ends):
        yield "a thin block has to stand at an end: press it flat, or ask for wear blocks"


_REMARK_RULES: tuple[Callable[[Stack], Iterator[str]], ...] = (many_blocks, mixed_materials, thin_at_an_end)


def _inner(stack: Stack) -> tuple[Block, ...]:
    """Return the blocks that are no wear blocks, from the bottom up."""
    return tuple(block for block in stack.blocks if not block.wear)
