"""Many certified blocks in one stack: decided in seconds, or undecided by the limit that was given."""

import time
from dataclasses import replace

from gaugestack.blocks import Basis
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import Length
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.request import Found, Impossible, StackRequest
from gaugestack.stacks.solve import compose


def test_a_height_that_takes_nearly_all_blocks_does_not_hang():
    blocks, _ = load_set(shipped_path("inch-35"))
    strays = [254 * (place * 317 % 801 - 400) for place in range(len(blocks.ordinary))]
    pool = tuple(
        replace(block, deviation=Length(stray)) for block, stray in zip(blocks.ordinary, strays, strict=True)
    )
    target = sum(block.length(Basis.CERTIFIED) for block in pool[:-3])
    request = StackRequest(targets=(Length(target),), tolerance=Length(0), pool=pool, basis=Basis.CERTIFIED)
    begun = time.perf_counter()

    outcome = compose(request, Effort(limit=2))

    assert isinstance(outcome, Found | Impossible)
    assert time.perf_counter() - begun < 10
