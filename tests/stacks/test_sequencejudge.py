"""The judge of a job: each rule where it holds and where it does not, in its words."""

from dataclasses import replace

import pytest

from gaugestack.blocks import Stack
from gaugestack.errors import OurBug, UsageError
from gaugestack.stacks.sequence import sequence
from gaugestack.stacks.sequencejudge import approve, broken_rules
from gaugestack.stacks.sequencerequest import JobPlan, JobRequest, JobStep, JobUndecided
from tests.stacks.making import block, request, wear_pair

TWENTY, TEN, SEVEN, ONE = block(20), block(10), block(7), block(1)
POOL = (TWENTY, TEN, SEVEN, ONE)


def job(*targets, free=False, **more):
    return JobRequest(requests=tuple(request(target, pool=POOL, **more) for target in targets), free=free)


def step(setup, wrings, *blocks):
    return JobStep(setup=setup, stack=Stack(blocks=blocks), kept=(), loose=(), off=(), on=(), wrings=wrings)


def plan(*steps, naive=9):
    return JobPlan(steps=steps, naive=naive)


GOOD = plan(step(0, 1, TWENTY, TEN), step(1, 1, TWENTY, TEN, SEVEN))


def test_a_good_plan_breaks_no_rule_and_is_approved():
    assert broken_rules(job(30, 37), GOOD) == ()
    approve(job(30, 37), GOOD)


def test_a_joint_of_the_stack_before_counts_no_wring_whichever_way_up_it_stands():
    turned = plan(step(0, 1, TWENTY, TEN), step(1, 1, SEVEN, TEN, TWENTY))
    parted = plan(step(0, 1, TWENTY, TEN), step(1, 2, TWENTY, SEVEN, TEN))
    assert broken_rules(job(30, 37), turned) == broken_rules(job(30, 37), parted) == ()


def test_a_joint_of_an_earlier_stack_is_made_anew():
    third = plan(step(0, 1, TWENTY, TEN), step(1, 1, TEN, SEVEN), step(2, 0, TWENTY, TEN))
    assert broken_rules(job(30, 17, 30), third) == ("step 3 counts 0 wrings where it takes 1",)


def test_the_first_stack_counts_every_joint():
    assert broken_rules(job(37), plan(step(0, 1, TWENTY, TEN, SEVEN))) == (
        "step 1 counts 1 wrings where it takes 2",
    )


@pytest.mark.parametrize("setups", [(0,), (0, 0), (0, 1, 2), (1, 2)])
def test_set_ups_left_out_made_twice_or_not_asked_are_named(setups):
    made = plan(*(step(setup, 0, *GOOD.steps[min(setup, 1)].stack.blocks) for setup in setups))
    assert broken_rules(job(30, 37), made)[0] == "not every set-up is made once"


def test_a_changed_order_is_a_fault_only_where_it_is_fixed():
    back = plan(step(1, 2, TWENTY, TEN, SEVEN), step(0, 0, TWENTY, TEN))
    assert broken_rules(job(30, 37), back) == ("the set-ups are not made in their fixed order",)
    assert broken_rules(job(30, 37, free=True), back) == ()


def test_each_stack_is_judged_by_the_request_of_its_own_set_up():
    back = plan(step(1, 1, TWENTY, TEN), step(0, 1, TWENTY, TEN, SEVEN))
    assert broken_rules(job(30, 37, free=True), back) == (
        "a stack of 30 mm misses 37 mm by more than 0 mm",
        "a stack of 37 mm misses 30 mm by more than 0 mm",
    )


def test_a_thin_block_at_an_end_is_a_fault_unless_it_has_one_good_face():
    end = plan(step(0, 2, TWENTY, TEN, ONE))
    assert broken_rules(job(31), end) == ("a thin block stands at an end",)
    assert broken_rules(job(31, end_only=(ONE,)), end) == ()


def test_a_block_with_one_good_face_inside_is_a_fault():
    inside = plan(step(0, 2, TWENTY, TEN, SEVEN))
    assert broken_rules(job(37, end_only=(TEN,)), inside) == ("a block with one good face stands inside",)
    assert broken_rules(job(37, end_only=(TWENTY, SEVEN)), inside) == ()


def test_as_many_wrings_as_afresh_are_allowed_and_one_more_is_a_fault():
    made = (step(0, 2, TWENTY, TEN, SEVEN),)
    assert broken_rules(job(37), plan(*made, naive=2)) == ()
    assert broken_rules(job(37), plan(*made, naive=1)) == ("the plan takes 2 wrings, 1 without a plan",)


def test_approval_raises_every_broken_rule():
    with pytest.raises(OurBug) as caught:
        approve(job(37), plan(step(0, 1, TWENTY, SEVEN, TEN), naive=0))
    assert [problem.sentence for problem in caught.value.problems] == [
        "step 1 counts 1 wrings where it takes 2",
        "the plan takes 1 wrings, 0 without a plan",
    ]


def test_a_job_that_is_none_is_refused_in_words():
    two_heights = JobRequest(requests=(request(30, 37, pool=POOL),))
    for odd in (JobRequest(requests=()), two_heights):
        with pytest.raises(OurBug) as caught:
            sequence(odd)
        assert [problem.sentence for problem in caught.value.problems] == [
            "a job needs at least one set-up, each of one height"
        ]
    with pytest.raises(UsageError) as refused:
        sequence(JobRequest(requests=(request(30, pool=POOL), request(34, pool=POOL, ends=(wear_pair(2),)))))
    assert str(refused.value) == "wear: a job is planned without wear pairs\n  plan each stack alone"


def test_an_undecided_job_says_why():
    assert JobUndecided(plan=GOOD).sentence == (
        "the limit on effort was reached before the fewest wrings were proven"
    )
    assert replace(JobUndecided(plan=GOOD)).at_least == 0
