"""The next best stacks and the trade-offs, against a list of every stack there is."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.stacks.alternatives import next_best, proof_stack, trade_offs
from gaugestack.stacks.request import Found
from gaugestack.stacks.solve import compose
from tests.property.oracle import best, every_answer, preference, preference_of
from tests.property.strategies import certified_requests, requests

ASKED = st.one_of(requests(blocks=7), certified_requests(blocks=6))


def without_kept(request):
    return replace(request, kept_in=(), most=None)


def ranked(request):
    """Return the preference of every answer once, the best first; equal pieces make no other answer."""
    answers = {}
    for dealt in every_answer(request):
        told_apart = sorted((block.nominal, block.length(request.basis)) for block in dealt[0])
        answers[tuple(told_apart)] = preference(request, dealt)
    return sorted(answers.values())


def plain(request, stacks):
    return [preference(request, [[block for block in built.blocks if not block.wear]]) for built in stacks]


@settings(max_examples=250, deadline=None)
@given(ASKED)
def test_the_next_best_stacks_are_those_that_come_next(request):
    outcome = compose(request)

    if isinstance(outcome, Found):
        listed = next_best(request, outcome.stacks[0], 4)
        every = ranked(request)

        assert plain(request, [*outcome.stacks, *listed.stacks]) == every[:5]
        assert listed.complete is (len(every) < 5)


@settings(max_examples=150, deadline=None)
@given(ASKED)
def test_the_proof_stack_is_the_best_of_what_is_left(request):
    request = without_kept(replace(request, ends=()))
    outcome = compose(request)

    if isinstance(outcome, Found):
        used = outcome.stacks[0].blocks
        left = replace(request, pool=tuple(block for block in request.pool if block not in used))
        proof = proof_stack(request, outcome.stacks[0])

        assert (preference_of(left, proof) if isinstance(proof, Found) else None) == best(left)


@settings(max_examples=150, deadline=None)
@given(certified_requests(blocks=6))
def test_no_stack_beats_a_trade_off_in_blocks_and_in_deviation(request):
    outcome = compose(request)

    if isinstance(outcome, Found):
        every = {answer[:2] for answer in ranked(request)}
        front = {
            one for one in every if not any(o != one and o[0] <= one[0] and o[1] <= one[1] for o in every)
        }
        found = trade_offs(request, outcome.stacks[0]).stacks

        assert [one[:2] for one in plain(request, found)] == sorted(front)
