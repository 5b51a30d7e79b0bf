"""Jobs of many set-ups: never worse than afresh, and as good as exhaustive search finds."""

import random
from dataclasses import replace
from itertools import combinations, pairwise, permutations

import pytest

from gaugestack.blocks import Stack
from gaugestack.errors import OurBug, UsageError
from gaugestack.stacks import sequencejudge
from gaugestack.stacks.sequence import sequence
from gaugestack.stacks.sequencegains import State
from gaugestack.stacks.sequencejoints import Bounds, allowed, orders
from gaugestack.stacks.sequencelarge import chain_of, most_saved
from gaugestack.stacks.sequencerequest import JobFound, JobImpossible, JobPlan, JobRequest, JobUndecided
from gaugestack.stacks.sequencestacks import Lister
from gaugestack.stacks.wringing import thin_blocks_inside
from tests.stacks.making import block, mm, request, wear_pair

POOL = tuple(block(size) for size in (1, 2, 3, 4, 5, 7, 10, 20))


def job(*targets, pool=POOL, free=False, **more):
    """Return a job in millimetres."""
    return JobRequest(requests=tuple(request(target, pool=pool) for target in targets), free=free, **more)


def words(plan):
    """Return the stacks of a plan as sizes from the bottom up."""
    return [" ".join(b.engraved.removesuffix(" mm") for b in step.stack.blocks) for step in plan.steps]


def made(order):
    """Return the unordered neighbours of an order."""
    return {frozenset(pair) for pair in pairwise(order)}


def every_order(pool, target, extra):
    """Return the joints of every allowed order of every stack considered for a height."""
    sums = [
        stack
        for count in range(1, len(pool) + 1)
        for stack in combinations(pool, count)
        if sum(piece.nominal for piece in stack) == mm(target)
    ]
    fewest = min(map(len, sums))
    return [
        made(order)
        for stack in sums
        if len(stack) <= fewest + extra
        for order in permutations(stack)
        if not list(thin_blocks_inside(order))
    ]


def least_wrings(one):
    """Return the fewest wrings of a job by looking at everything."""
    pool = one.requests[0].pool
    orders_of = [every_order(pool, asked.targets[0] // 10**9, one.extra) for asked in one.requests]
    numbers = range(len(one.requests))
    best = 10**6
    for line in permutations(numbers) if one.free else [tuple(numbers)]:
        cost = [(len(first), first) for first in orders_of[line[0]]]
        for number in line[1:]:
            cost = [
                (min(had + len(new - old) for had, old in cost), new)
                for new in {frozenset(order) for order in orders_of[number]}
            ]
        best = min(best, *(had for had, _ in cost))
    return best


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("free", [False, True])
def test_small_jobs_take_as_few_wrings_as_exhaustive_search_finds(seed, free):
    chance = random.Random(seed)  # noqa: S311  (a repeatable choice, no secret)
    pool = tuple(block(size) for size in chance.sample(range(1, 14), 7))
    reachable = sorted({sum(b.nominal for b in s) // 10**9 for k in (2, 3) for s in combinations(pool, k)})
    one = job(*chance.sample(reachable, 3), pool=pool, free=free)
    found = sequence(one)
    assert isinstance(found, JobFound)
    assert found.plan.wrings == least_wrings(one)
    assert found.plan.wrings <= found.plan.naive


def test_a_joint_kept_counts_nothing():
    plan = sequence(job(30, 37)).plan
    assert words(plan) == ["20 10", "20 10 7"]
    assert [step.wrings for step in plan.steps] == [1, 1]
    assert (plan.wrings, plan.naive) == (2, 3)
    step = plan.steps[1]
    assert [[b.engraved for b in pile] for pile in step.kept] == [["20 mm", "10 mm"]]
    assert ([b.engraved for b in step.on], step.off, step.loose) == (["7 mm"], (), ())


def test_what_comes_off_is_named():
    step = sequence(job(37, 30)).plan.steps[1]
    assert ([b.engraved for b in step.off], step.on, step.wrings) == (["7 mm"], (), 0)


def test_a_fixed_order_stands_and_a_free_one_saves_more():
    targets = (30, 12, 37)
    fixed, free = sequence(job(*targets)).plan, sequence(job(*targets, free=True)).plan
    assert [step.setup for step in fixed.steps] == [0, 1, 2]
    assert free.wrings < fixed.wrings


def test_one_more_block_is_taken_where_it_saves_wrings_and_not_otherwise():
    pool = tuple(block(size) for size in (50, 20, 10, 9, 8, 6, 5))
    short = sequence(job(38, 43, pool=pool, extra=0)).plan
    longer = sequence(job(38, 43, pool=pool, extra=1)).plan
    assert longer.wrings <= short.wrings
    assert [len(step.stack.blocks) for step in sequence(job(30, 15, pool=pool)).plan.steps] == [2, 2]


def test_thin_blocks_stand_inside_even_where_that_costs_a_wring():
    pool = tuple(block(size) for size in ("20", "10", "1.1", "1.2"))
    plan = sequence(job("31.1", "31.2", pool=pool)).plan
    assert words(plan) == ["20 1.1 10", "20 1.2 10"]
    assert plan.wrings == 4
    thick = tuple(block(size) for size in ("20", "10", "3.1", "3.2"))
    assert sequence(job("33.1", "33.2", pool=thick)).plan.wrings == 3


def test_a_block_with_one_good_face_stands_at_an_end():
    faced = replace(request(37, pool=POOL), end_only=(POOL[6],))
    plan = sequence(JobRequest(requests=(faced, request(30, pool=POOL)))).plan
    assert plan.steps[0].stack.blocks.index(POOL[6]) in (0, 2)


def test_the_order_of_the_pool_changes_nothing():
    targets = (17, 23, 31, 26)
    plans = [sequence(job(*targets, pool=pool, free=True)).plan for pool in (POOL, POOL[::-1])]
    assert words(plans[0]) == words(plans[1])
    assert [s.setup for s in plans[0].steps] == [s.setup for s in plans[1].steps]


def test_a_set_up_that_cannot_be_made_is_named():
    found = sequence(job(30, 500))
    assert isinstance(found, JobImpossible)
    assert found.setup == 1


def test_without_effort_the_plan_is_good_and_says_so():
    targets = (19, 47, 15, 27, 18, 42)
    found = sequence(job(*targets, free=True), nodes=0)
    assert isinstance(found, JobUndecided)
    best = sequence(job(*targets, free=True)).plan
    assert found.at_least <= best.wrings < found.plan.wrings < found.plan.naive


def test_many_free_set_ups_get_a_good_plan_and_an_honest_bound():
    found = sequence(job(*range(20, 36), free=True))
    assert isinstance(found, JobUndecided | JobFound)
    assert sorted(step.setup for step in found.plan.steps) == list(range(16))
    assert found.plan.wrings < found.plan.naive
    if isinstance(found, JobUndecided):
        assert found.at_least < found.plan.wrings


def test_a_job_without_set_ups_is_refused_and_wear_pairs_are_not_planned():
    with pytest.raises(OurBug, match="at least one set-up"):
        sequence(JobRequest(requests=()))
    with pytest.raises(UsageError, match="without wear pairs"):
        sequence(JobRequest(requests=(request(30, pool=POOL, ends=(wear_pair(2),)),)))


def test_every_stack_of_a_count_is_listed_in_canonical_order():
    lister = Lister(POOL, mm(100))
    listing = lister.stacks(mm(17), 3, cap=100)
    threes = combinations(sorted(POOL, key=lambda b: b.order), 3)
    by_hand = [stack for stack in threes if sum(b.nominal for b in stack) == mm(17)]
    assert list(listing.stacks) == by_hand
    assert listing.complete


def test_a_listing_says_when_it_is_cut():
    lister = Lister(POOL, mm(100))
    every = lister.stacks(mm(17), 3, cap=100).stacks
    assert lister.stacks(mm(17), 3, cap=len(every)).complete
    cut = lister.stacks(mm(17), 3, cap=len(every) - 1)
    assert (cut.stacks, cut.complete) == (every[:-1], False)


def test_a_height_off_the_grid_has_no_stack():
    assert Lister(POOL, mm(100)).stacks(mm("17.5"), 3, cap=9).stacks == ()


def test_orders_are_listed_once_with_the_thicker_end_below():
    assert list(orders((0, 1, 2), (), ())) == [(0, 1, 2), (0, 2, 1), (1, 0, 2)]
    assert list(orders((0, 1, 2), (2,), ())) == [(0, 2, 1)]
    assert list(orders((0, 1, 2), (), (1,))) == [(0, 2, 1), (1, 0, 2)]


def test_a_thin_block_may_stand_at_an_end_for_want_of_thick_ones():
    assert allowed((0, 1), (1,), ())
    assert not allowed((0, 2, 1), (1,), ())
    assert allowed((0, 1, 2), (1,), ())


@pytest.mark.parametrize(
    ("both", "one", "other", "most"),
    [
        ((2, 0), (1, 0), (1, 0), 1),
        ((2, 0), (0, 1), (1, 0), 0),
        ((2, 1), (0, 1), (0, 1), 1),
        ((3, 0), (2, 0), (1, 0), 2),
        ((1, 0), (2, 0), (2, 0), 0),
    ],
)
def test_two_stacks_keep_no_more_than_their_orders_let_them(both, one, other, most):
    assert Bounds().most(both, one, other) == Bounds().most(both, other, one) == most


def test_a_chain_puts_neighbours_together_and_its_bound_is_not_below_it():
    states = [State(setup=n, pieces=p) for n, p in enumerate([(0, 1), (2, 3), (0, 1, 4), (2, 3, 5)])]
    chain = chain_of(states, 4)
    assert sorted(chain) == [0, 1, 2, 3]
    assert abs(chain.index(0) - chain.index(2)) == abs(chain.index(1) - chain.index(3)) == 1
    assert most_saved(states, 4) == 3


GOOD = job(30, 37)


def judged(change, one=GOOD):
    """Return the broken rules of a plan changed a little."""
    plan = sequence(GOOD).plan
    return sequencejudge.broken_rules(one, JobPlan(steps=tuple(change(list(plan.steps))), naive=plan.naive))


def test_the_judge_takes_a_good_plan():
    assert judged(lambda steps: steps) == ()


def test_the_judge_refuses_a_set_up_left_out():
    assert judged(lambda steps: steps[:1]) == ("not every set-up is made once",)


def test_the_judge_refuses_a_changed_order_where_it_is_fixed():
    back = [replace(s, wrings=w) for s, w in zip(sequence(GOOD).plan.steps[::-1], (2, 0), strict=True)]
    assert judged(lambda _: back) == ("the set-ups are not made in their fixed order",)
    assert judged(lambda _: back, replace(GOOD, free=True)) == ()


def test_the_judge_refuses_a_wrong_count_of_wrings():
    assert judged(lambda steps: [steps[0], replace(steps[1], wrings=0)]) == (
        "step 2 counts 0 wrings where it takes 1",
    )


def test_the_judge_refuses_a_stack_of_another_height():
    wrong = Stack(blocks=(POOL[7], POOL[6], POOL[5], POOL[0]))
    assert "misses" in judged(lambda steps: [steps[0], replace(steps[1], stack=wrong, wrings=2)])[0]


def test_the_judge_refuses_a_block_with_one_good_face_inside():
    small = job(31, pool=POOL)
    plan = sequence(small).plan
    inside = plan.steps[0].stack.blocks[1]
    asked = replace(small, requests=(replace(small.requests[0], end_only=(inside,)),))

    assert "a block with one good face stands inside" in sequencejudge.broken_rules(asked, plan)


def test_the_judge_refuses_a_plan_that_saves_nothing():
    plan = sequence(GOOD).plan
    worse = replace(plan, naive=plan.wrings - 1)

    said = f"the plan takes {plan.wrings} wrings, {plan.wrings - 1} without a plan"
    assert sequencejudge.broken_rules(GOOD, worse) == (said,)


def test_the_judge_refuses_a_thin_block_at_an_end():
    small = job(31, pool=POOL)
    plan = sequence(small).plan
    assert words(plan) == ["20 1 10"]
    moved = replace(plan.steps[0], stack=Stack(blocks=(POOL[7], POOL[6], POOL[0])))
    assert sequencejudge.broken_rules(small, replace(plan, steps=(moved,))) == (
        "a thin block stands at an end",
    )
