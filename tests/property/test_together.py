"""Heights that fail only together, against trying every way to deal out the blocks."""

from dataclasses import replace

from hypothesis import given, settings

from gaugestack.stacks.request import Found
from gaugestack.stacks.solve import compose
from gaugestack.stacks.together import conflict, only
from tests.property.oracle import best, preference_of
from tests.property.strategies import requests


@settings(max_examples=80, deadline=None)
@given(requests(targets=3, blocks=5))
def test_a_conflict_fails_and_none_of_it_can_be_spared(request):
    request = replace(request, kept_in=())
    places = conflict(request)

    assert (places == ()) is (best(request) is not None)
    if places:
        assert best(only(request, places)) is None
    for place in places if len(places) > 2 else ():
        rest = [one for one in places if one != place]
        assert best(only(request, rest)) is not None


@settings(max_examples=80, deadline=None)
@given(requests(targets=3, blocks=6))
def test_three_stacks_are_the_best_of_all_triples_of_stacks(request):
    outcome = compose(request)

    assert (preference_of(request, outcome) if isinstance(outcome, Found) else None) == best(request)
