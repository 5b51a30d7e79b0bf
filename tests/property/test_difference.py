"""Two stacks whose difference counts, against trying every way to deal out the blocks."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.stacks import difference, differencejudge
from gaugestack.stacks.difference import compose_difference
from gaugestack.stacks.differencerequest import DifferenceFound, DifferenceRequest
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.request import Impossible
from tests.property.oracle import every_deal, one_good_face_can_stand, uses
from tests.property.strategies import certified_requests, marked, requests


@st.composite
def differences(draw, asked):
    rules = draw(asked)
    return DifferenceRequest(target=rules.targets[0], rules=rules)


NOMINAL = differences(requests(targets=2, blocks=6))
CERTIFIED = differences(certified_requests(targets=2, blocks=6))
MARKED = differences(
    marked(st.one_of(requests(targets=2, blocks=6), certified_requests(targets=2, blocks=5)))
)


def whole(rules, dealt):
    """Return both stacks with their wear pairs."""
    return [[*blocks, *rules.pair(place)] for place, blocks in enumerate(dealt)]


def off(request, dealt):
    high, low = (
        sum(block.length(request.rules.basis) for block in blocks) for blocks in whole(request.rules, dealt)
    )
    return abs(high - low - request.target)


def meets(request, dealt):
    rules, used = request.rules, [block for blocks in dealt for block in blocks]
    stacks = whole(rules, dealt)
    return (
        all(stacks)
        and off(request, dealt) <= rules.tolerance
        and (rules.most is None or max(map(len, stacks)) <= rules.most)
        and all(one_good_face_can_stand(rules, blocks) for blocks in stacks)
        and all(block in used for block in rules.kept_in)
    )


def preference(request, dealt):
    used = [block for blocks in dealt for block in blocks]
    sizes = [sorted((block.nominal for block in blocks), reverse=True) for blocks in dealt]
    longest = len(request.rules.pool)
    return (
        len(used),
        off(request, dealt),
        sum(block.thin for block in used),
        uses(request.rules, used),
        sum(sizes[1]),
        [[-size for size in stack] + [0] * (longest - len(stack)) for stack in sizes],
    )


def best(request):
    deals = every_deal(request.rules.pool, 2)
    return min((preference(request, dealt) for dealt in deals if meets(request, dealt)), default=None)


def answer(request):
    outcome = compose_difference(request)
    assert isinstance(outcome, DifferenceFound | Impossible)
    if isinstance(outcome, Impossible):
        return None
    assert differencejudge.broken_rules(request, outcome.high, outcome.low) == ()
    return preference(
        request, [[b for b in built.blocks if not b.wear] for built in (outcome.high, outcome.low)]
    )


@settings(max_examples=300, deadline=None)
@given(NOMINAL)
def test_two_stacks_for_a_difference_are_the_best_of_all_pairs(request):
    assert answer(request) == best(request)


@settings(max_examples=150, deadline=None)
@given(CERTIFIED)
def test_on_certified_lengths_they_are_the_best_of_all_pairs(request):
    assert answer(request) == best(request)


@settings(max_examples=150, deadline=None)
@given(MARKED)
def test_with_one_good_face_and_uses_they_are_the_best_of_all_pairs(request):
    assert answer(request) == best(request)


@settings(max_examples=100, deadline=None)
@given(NOMINAL)
def test_without_finding_members_first_the_answer_is_the_same(request):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(difference, "MOST_MET", -1)

        assert answer(request) == best(request)


@settings(max_examples=60, deadline=None)
@given(MARKED, st.randoms(use_true_random=False))
def test_the_order_of_the_pool_and_the_seed_change_nothing(request, random):
    shuffled = list(request.rules.pool)
    random.shuffle(shuffled)
    other = replace(request, rules=replace(request.rules, pool=tuple(shuffled)))

    assert compose_difference(other, Effort(seed=5)) == compose_difference(request)
