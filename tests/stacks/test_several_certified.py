"""Several heights at once on certified lengths: no presolve that takes gigabytes, one budget."""

import resource
import time
from dataclasses import replace

from gaugestack.blocks import Basis
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import Length, read_length
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.judge import broken_rules
from gaugestack.stacks.request import Found, StackRequest, Undecided
from gaugestack.stacks.solve import compose

MEGABYTE = 1024


def asked(name, *heights):
    blocks, _ = load_set(shipped_path(name))
    pool = tuple(
        replace(block, deviation=Length(254 * (place * 317 % 801 - 400)))
        for place, block in enumerate(blocks.ordinary)
    )
    targets = tuple(read_length(height).length for height in heights)
    step = read_length("0.00005in").length
    return StackRequest(targets=targets, tolerance=step, pool=pool, basis=Basis.CERTIFIED)


def test_two_heights_of_a_whole_set_are_decided_in_seconds_and_little_memory():
    """Presolve with both sums linked took minutes and gigabytes, and counted for nothing."""
    request = asked("inch-81", "0.6202in", "2.1365in")
    begun, before = time.process_time(), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    outcome = compose(request, Effort(limit=5))

    assert isinstance(outcome, Found | Undecided)
    assert time.process_time() - begun < 20
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 500 * MEGABYTE


def test_at_the_limit_the_stacks_known_keep_every_rule_and_the_bound_is_told():
    request = asked("inch-81", "0.6202in", "0.6202in", "0.8405in", "0.8405in")
    outcome = compose(request, Effort(limit=0.05))

    assert isinstance(outcome, Undecided)
    assert broken_rules(request, outcome.best) == ()
    assert 4 * 2 <= outcome.at_least <= sum(len(stack.blocks) for stack in outcome.best)


def test_where_each_has_its_own_closest_stack_no_joint_search_is_needed():
    request = asked("inch-81", "0.6202in", "0.7303in", "0.8405in", "0.9106in", "1.0127in")
    effort = Effort()
    together = compose(request, effort)
    alone = [compose(replace(request, targets=(target,))) for target in request.targets]

    assert together == Found(stacks=tuple(outcome.stacks[0] for outcome in alone))
    assert effort.spent < 0.5
