"""What a request and a built stack say of themselves."""

from gaugestack.blocks import Basis, Stack
from gaugestack.lengths import Length
from gaugestack.stacks.request import Built, StackRequest, Undecided
from tests.stacks.making import block, built, mm, request, wear_pair

FIVE, THREE = block(5), block(3)


def test_a_request_that_says_nothing_more_asks_for_exactly_that_height_on_nominal_sizes():
    plain = StackRequest(targets=(mm(8),), tolerance=Length(0), pool=(FIVE, THREE))

    assert (plain.basis, plain.most, plain.kept_in, plain.ends) == (Basis.NOMINAL, None, (), ())
    assert plain.free == plain.pool


def test_the_blocks_to_choose_among_are_those_not_kept_in():
    assert request(8, pool=(FIVE, THREE), kept_in=(THREE,)).free == (FIVE,)


def test_each_target_has_its_own_wear_pair_or_none():
    pairs = (wear_pair(2), wear_pair(2, first=3))

    assert [request(8, 9, ends=pairs).pair(place) for place in (0, 1)] == list(pairs)
    assert request(8, 9).pair(1) == ()


def test_a_built_stack_knows_its_blocks_its_length_and_how_far_it_is_off():
    off = built(9, FIVE, THREE)

    assert off.stack == Stack(blocks=(FIVE, THREE))
    assert (off.length, off.deviation) == (mm(8), -mm(1))


def test_a_built_stack_counts_certified_lengths_on_the_certified_basis_alone():
    long = block(5, deviation=Length(700))

    assert [
        Built(target=mm(5), blocks=(long,), basis=basis).deviation
        for basis in (Basis.CERTIFIED, Basis.NOMINAL)
    ] == [700, 0]


def test_an_undecided_outcome_says_why_it_ends():
    assert Undecided().sentence == "the limit on effort was reached before an answer was proven"
