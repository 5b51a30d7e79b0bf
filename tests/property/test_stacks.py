"""Solver, table and enumeration agree, and nothing but the request decides the answer."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.blocks import Block, in_order
from gaugestack.lengths import Length, Unit
from gaugestack.stacks import judge, reach
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.request import Found, Impossible, StackRequest
from gaugestack.stacks.solve import compose
from gaugestack.stacks.wringing import order_faults, plan
from tests.property.oracle import best, preference_of
from tests.property.strategies import STEP, pools, requests


def answer(request):
    """Return how good the stacks found are, or None where the request is impossible."""
    outcome = compose(request)
    assert isinstance(outcome, Found | Impossible)
    return preference_of(request, outcome) if isinstance(outcome, Found) else None


@settings(max_examples=400, deadline=None)
@given(requests())
def test_one_stack_is_the_best_of_all_stacks(request):
    assert answer(request) == best(request)


@settings(max_examples=150, deadline=None)
@given(requests(targets=2, blocks=6))
def test_two_stacks_are_the_best_of_all_pairs_of_stacks(request):
    assert answer(request) == best(request)


@settings(max_examples=150, deadline=None)
@given(st.one_of(requests(), requests(targets=2, blocks=6)))
def test_without_a_table_the_answer_is_the_same(request):
    with_table = answer(request)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(reach, "QUICK_CELLS", -1)

        assert reach.table(request.pool, STEP) is None
        assert answer(request) == with_table == best(request)


@settings(max_examples=150, deadline=None)
@given(st.one_of(requests(), requests(targets=2, blocks=6)))
def test_the_judge_approves_of_what_is_found(request):
    outcome = compose(request)

    if isinstance(outcome, Found):
        assert judge.broken_rules(request, outcome.stacks) == ()


@settings(max_examples=100, deadline=None)
@given(st.one_of(requests(), requests(targets=2, blocks=6)), st.randoms(use_true_random=False))
def test_the_order_of_the_pool_changes_nothing(request, random):
    shuffled = list(request.pool)
    random.shuffle(shuffled)

    assert compose(replace(request, pool=tuple(shuffled))) == compose(request)


@settings(max_examples=25, deadline=None)
@given(st.one_of(requests(), requests(targets=2, blocks=6)))
def test_the_seed_of_the_solver_changes_nothing(request):
    outcomes = [compose(request, Effort(seed=seed)) for seed in (1, 2, 3, 97)]

    assert outcomes == outcomes[:1] * 4


@settings(max_examples=15, deadline=None)
@given(st.one_of(requests(), requests(targets=2, blocks=6)))
def test_the_number_of_workers_changes_nothing(request):
    outcomes = [compose(request, Effort(workers=workers)) for workers in (1, 2, 4)]

    assert outcomes == outcomes[:1] * 3


@settings(max_examples=150, deadline=None)
@given(pools(), st.integers(1, 40))
def test_the_solver_needs_as_many_blocks_as_the_table_says(pool, height):
    request = StackRequest(targets=(Length(height * STEP),), tolerance=Length(0), pool=pool)
    table = reach.table(pool, request.targets[0])
    count = table.count(request.targets[0] // table.step) if request.targets[0] % table.step == 0 else None

    found = answer(request)

    assert (found and found[0]) == count


@settings(max_examples=100, deadline=None)
@given(pools(), st.integers(1, 40))
def test_equal_pieces_are_taken_in_canonical_order(pool, height):
    outcome = compose(StackRequest(targets=(Length(height * STEP),), tolerance=Length(0), pool=pool))

    if isinstance(outcome, Found):
        used = outcome.stacks[0].blocks
        for size in {block.nominal for block in used}:
            equals = [block for block in pool if block.nominal == size]
            taken = [block for block in used if block.nominal == size]
            assert taken == equals[: len(taken)]


@st.composite
def chosen(draw):
    sizes = draw(st.lists(st.integers(1, 200), min_size=1, max_size=10))
    blocks = [
        Block(nominal=Length(size * 100_000_000), unit=Unit.MILLIMETRE, copy=copy)
        for copy, size in enumerate(sizes)
    ]
    pair = [Block(nominal=Length(2 * 10**9), unit=Unit.MILLIMETRE, wear=True, copy=copy) for copy in range(2)]
    return draw(st.permutations(blocks + (pair if draw(st.booleans()) else [])))


@given(chosen())
def test_the_wringing_order_breaks_no_rule_of_the_order(blocks):
    made = plan(blocks)

    assert order_faults(made.stack.blocks) == ()
    assert in_order(made.stack.blocks) == in_order(blocks)


@given(chosen())
def test_the_steps_take_each_block_in_hand_once(blocks):
    handled = [step.block for step in plan(blocks).steps if step.block]

    assert in_order(handled) == in_order(blocks)
    assert len(handled) == len(blocks)


@given(chosen(), st.randoms(use_true_random=False))
def test_the_wringing_plan_does_not_depend_on_the_order_given(blocks, random):
    shuffled = list(blocks)
    random.shuffle(shuffled)

    assert plan(shuffled) == plan(blocks)
