"""Certified lengths, blocks with one good face and counted uses, against enumeration."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.blocks import Basis
from gaugestack.lengths import Length
from gaugestack.stacks.request import Found, Impossible, StackRequest
from gaugestack.stacks.solve import compose
from tests.property.oracle import best, preference_of
from tests.property.strategies import STEP, certified_requests, marked, pieces, requests


def answer(request):
    """Return how good the stacks found are, or None where the request is impossible."""
    outcome = compose(request)
    assert isinstance(outcome, Found | Impossible)
    return preference_of(request, outcome) if isinstance(outcome, Found) else None


@settings(max_examples=300, deadline=None)
@given(certified_requests())
def test_one_stack_of_certified_blocks_is_the_best_of_all_stacks(request):
    assert answer(request) == best(request)


@settings(max_examples=150, deadline=None)
@given(certified_requests(targets=2, blocks=6))
def test_two_stacks_of_certified_blocks_are_the_best_of_all_pairs(request):
    assert answer(request) == best(request)


@settings(max_examples=300, deadline=None)
@given(marked(st.one_of(requests(), requests(targets=2, blocks=6))))
def test_with_one_good_face_and_uses_the_best_of_all_stacks_is_found(request):
    assert answer(request) == best(request)


@settings(max_examples=200, deadline=None)
@given(marked(st.one_of(certified_requests(), certified_requests(targets=2, blocks=5))))
def test_with_every_mark_at_once_the_best_of_all_stacks_is_found(request):
    assert answer(request) == best(request)


def test_the_largest_blocks_come_first_though_some_of_a_size_have_one_good_face():
    """14.5 mm of 6, 5, 3 and 0.5 mm, not of 6, 4, 4 and 0.5: a mark on a piece is no size."""
    pool = pieces([12, 12, 10, 8, 8, 6, 4, 1])
    faces = (pool[0], pool[2], pool[-1])
    request = StackRequest(
        targets=(Length(29 * STEP),), tolerance=Length(0), pool=pool, most=4, end_only=faces
    )

    assert answer(request) == best(request)


def test_a_height_within_the_tolerance_of_nothing_still_gets_a_block():
    """Of two certified heights the lower may lie within its tolerance of zero."""
    pool = tuple(replace(block, deviation=Length(1000)) for block in pieces([10, 8, 6]))
    request = StackRequest(
        targets=(Length(STEP), Length(6 * STEP)), tolerance=Length(STEP), pool=pool, basis=Basis.CERTIFIED
    )

    assert answer(request) == best(request)
