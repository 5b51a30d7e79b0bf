"""The best answer of a request by trying every way to deal out its blocks.

Knows no table and no solver and shares no code with them: it is what both are
checked against.  Exponential: only for small sets.
"""

from itertools import product


def every_answer(request):
    """Return every way to deal out the pool that meets the request, one list of blocks a target."""
    return (dealt for dealt in every_deal(request.pool, len(request.targets)) if meets(request, dealt))


def every_deal(pool, piles):
    """Return every way to deal out blocks to piles, or to leave them in the case."""
    for places in product(range(piles + 1), repeat=len(pool)):
        yield [[block for block, at in zip(pool, places, strict=True) if at == i] for i in range(piles)]


def meets(request, dealt):
    """Return whether these blocks, wear pairs not listed, meet the request."""
    used = [block for blocks in dealt for block in blocks]
    for index, blocks in enumerate(dealt):
        whole = [*blocks, *(request.ends[index] if request.ends else ())]
        if not whole or (request.most is not None and len(whole) > request.most):
            return False
        if abs(deviation(request, index, whole)) > request.tolerance:
            return False
        if not one_good_face_can_stand(request, whole):
            return False
    return all(block in used for block in request.kept_in)


def deviation(request, index, blocks):
    return sum(block.length(request.basis) for block in blocks) - request.targets[index]


def one_good_face_can_stand(request, blocks):
    """Return whether every block with one good face has an open end: two a stack, none under a wear pair."""
    ends = 0 if len(blocks) < 2 or any(block.wear for block in blocks) else 2
    return sum(block in getattr(request, "end_only", ()) for block in blocks) <= ends


def uses(request, blocks):
    counted = dict(getattr(request, "uses", ()))
    return sum(counted.get(block, 0) for block in blocks)


def preference(request, dealt):
    """Return the documented order of preference as something to take the least of.

    Fewest blocks; smallest sum of deviations; fewest thin blocks; fewest uses
    so far, where counted; largest blocks first, stack by stack.
    """
    ends = request.ends or ((),) * len(dealt)
    off = sum(
        abs(deviation(request, i, [*blocks, *pair]))
        for i, (blocks, pair) in enumerate(zip(dealt, ends, strict=True))
    )
    used = [block for blocks in dealt for block in blocks]
    sizes = [sorted((block.nominal for block in blocks), reverse=True) for blocks in dealt]
    longest = len(request.pool)
    largest_first = [[-size for size in stack] + [0] * (longest - len(stack)) for stack in sizes]
    return len(used), off, sum(block.thin for block in used), uses(request, used), largest_first


def best(request):
    """Return the best answer's preference; None where there is no answer."""
    return min((preference(request, dealt) for dealt in every_answer(request)), default=None)


def preference_of(request, outcome):
    """Return the preference of found stacks, to be compared with `best`."""
    return preference(
        request, [[block for block in built.blocks if not block.wear] for built in outcome.stacks]
    )
