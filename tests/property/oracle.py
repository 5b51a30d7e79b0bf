"""The best answer of a request by trying every way to deal out its blocks.

Knows no table and no solver and shares no code with them: it is what both are
checked against.  Exponential: only for small sets.
"""

from itertools import product


def every_answer(request):
    """Return every way to deal out the pool that meets the request, one tuple of blocks a target."""
    piles = len(request.targets)
    for places in product(range(piles + 1), repeat=len(request.pool)):
        dealt = [
            [block for block, at in zip(request.pool, places, strict=True) if at == i] for i in range(piles)
        ]
        if meets(request, dealt):
            yield dealt


def meets(request, dealt):
    """Return whether these blocks, wear pairs not listed, meet the request."""
    used = [block for blocks in dealt for block in blocks]
    for index, blocks in enumerate(dealt):
        whole = [*blocks, *(request.ends[index] if request.ends else ())]
        if not whole or (request.most is not None and len(whole) > request.most):
            return False
        if abs(deviation(request, index, whole)) > request.tolerance:
            return False
    return all(block in used for block in request.kept_in)


def deviation(request, index, blocks):
    return sum(block.nominal for block in blocks) - request.targets[index]


def preference(request, dealt):
    """Return the documented order of preference as something to take the least of.

    Fewest blocks; smallest sum of deviations; fewest thin blocks; largest
    blocks first, stack by stack.
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
    return len(used), off, sum(block.thin for block in used), largest_first


def best(request):
    """Return the sizes of the best answer, each stack largest first; None where there is no answer."""
    answers = [(preference(request, dealt), dealt) for dealt in every_answer(request)]
    if not answers:
        return None
    _, dealt = min(answers, key=lambda answer: answer[0])
    return [sorted((block.nominal for block in blocks), reverse=True) for blocks in dealt]


def sizes_of(outcome):
    """Return the sizes of found stacks without their wear pairs, each stack largest first."""
    return [
        sorted((block.nominal for block in built.blocks if not block.wear), reverse=True)
        for built in outcome.stacks
    ]
