"""Does this stack meet this request?  Names every broken rule; knows no solver.

Works from the request and the blocks alone, adding up again, so that a fault
of the table or the model cannot pass through it.

    >>> broken_rules(request, stacks)   # () where all is well
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from gaugestack.errors import OurBug
from gaugestack.lengths import Unit, exact_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from gaugestack.stacks.request import Built, StackRequest


def approve(request: StackRequest, stacks: Sequence[Built]) -> None:
    """Raise OurBug naming every rule the stacks break; say nothing where they break none."""
    broken = broken_rules(request, stacks)
    if broken:
        raise OurBug.because(broken)


def broken_rules(request: StackRequest, stacks: Sequence[Built]) -> tuple[str, ...]:
    """Return one sentence for every rule of the request that the stacks break."""
    return tuple(sentence for rule in _RULES for sentence in rule(request, stacks))


def one_stack_a_target(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require as many stacks as targets, in the order asked."""
    if tuple(built.target for built in stacks) != request.targets:
        yield f"{len(stacks)} stacks do not answer the {len(request.targets)} heights asked, in their order"


def within_tolerance(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require each length within the tolerance of its target."""
    for built in stacks:
        length = sum(block.length(request.basis) for block in built.blocks)
        if abs(length - built.target) > request.tolerance:
            yield f"a stack of {_mm(length)} misses {_mm(built.target)} by more than {_mm(request.tolerance)}"


def measured_on_its_basis(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require each stack to count its lengths on the basis of the request."""
    if any(built.basis is not request.basis for built in stacks):
        yield f"a stack does not count its lengths on the {request.basis.value} basis"


def no_block_twice(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require every physical piece at most once over all stacks."""
    del request
    for block, times in Counter(block for built in stacks for block in built.blocks).items():
        if times > 1:
            yield f"block {block.engraved} is used {times} times"


def only_allowed_blocks(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require every block to come from the pool or the wear pairs of the request."""
    allowed = {*request.pool, *(block for pair in request.ends for block in pair)}
    for built in stacks:
        for block in built.blocks:
            if block not in allowed:
                yield f"block {block.engraved} is not among the blocks allowed"


def nothing_withheld(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require that no withheld block is used, whatever the pool says."""
    out = {withheld.block: withheld.reason for withheld in request.withheld}
    for built in stacks:
        for block in built.blocks:
            if block in out:
                yield f"block {block.engraved} is out ({out[block]})"


def kept_in_are_used(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require every block kept in to stand in one of the stacks."""
    used = {block for built in stacks for block in built.blocks}
    for block in request.kept_in:
        if block not in used:
            yield f"block {block.engraved} was to be kept in and is not used"


def wear_blocks_outside(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require the wear pair at both ends where asked for, and wear blocks nowhere else."""
    for index, built in enumerate(stacks[: len(request.targets)]):
        pair = request.pair(index)
        ends = {built.blocks[0], built.blocks[-1]} if built.blocks else set()
        if pair and ends != set(pair):
            yield "the wear pair does not stand at both ends"
        if any(block.wear and block not in pair for block in built.blocks):
            yield "a wear block stands where none was asked for"


def not_too_many(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require no stack above the largest count."""
    for built in stacks:
        if request.most is not None and len(built.blocks) > request.most:
            yield f"{len(built.blocks)} blocks where at most {request.most} were allowed"


def one_face_at_an_end(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require blocks with one good face to have ends to stand at: two a stack, none under a wear pair."""
    for index, built in enumerate(stacks[: len(request.targets)]):
        ends = 0 if request.pair(index) or len(built.blocks) < 2 else 2
        if sum(block in request.end_only for block in built.blocks) > ends:
            yield "a block with one good face has no end to stand at"


def something_stands(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require at least one block in each stack."""
    del request
    if any(not built.blocks for built in stacks):
        yield "a stack without blocks"


def no_barred_stack(request: StackRequest, stacks: Sequence[Built]) -> Iterator[str]:
    """Require that no stack is one that was not to be taken again."""
    for built in stacks:
        if any(set(built.blocks) == set(barred) for barred in request.barred):
            yield "a stack that was not to be taken again"


_RULES = (
    one_stack_a_target,
    within_tolerance,
    measured_on_its_basis,
    no_block_twice,
    only_allowed_blocks,
    nothing_withheld,
    kept_in_are_used,
    wear_blocks_outside,
    not_too_many,
    one_face_at_an_end,
    something_stands,
    no_barred_stack,
)


def _mm(length: int) -> str:
    """Print a length for a sentence that only we should ever read."""
    return exact_text(length, Unit.MILLIMETRE)
