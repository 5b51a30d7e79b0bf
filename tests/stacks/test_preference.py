"""The digits of the order of preference, packed into numbers: the order is kept, and none is too large."""

from itertools import product

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from gaugestack.stacks import preference
from gaugestack.stacks.model import Effort, Kind, Lift, Pile, Puzzle, Verdict, decide
from gaugestack.stacks.preference import MOST_BITS, Digit, packed


def numbers(values, uppers):
    """Return the objectives of digits with these values."""
    return list(
        packed([Digit(expression=value, upper=upper) for value, upper in zip(values, uppers, strict=True)])
    )


def test_digits_are_written_the_most_significant_first():
    assert numbers([3, 2, 7], [9, 4, 9]) == [(3 * 5 + 2) * 10 + 7]
    assert numbers([3], [9]) == [3]
    assert numbers([], []) == []


def test_a_number_is_begun_where_the_next_digit_would_take_it_to_the_most_bits(monkeypatch):
    monkeypatch.setattr(preference, "MOST_BITS", 6)

    assert numbers([5, 6], [7, 6]) == [5 * 7 + 6]
    assert numbers([5, 6], [7, 7]) == [5, 6]
    assert numbers([5, 6, 1], [7, 7, 6]) == [5, 6 * 7 + 1]
    assert numbers([99, 1], [99, 1]) == [99, 1]


@settings(deadline=None)
@given(st.lists(st.integers(0, 3), min_size=1, max_size=4), st.integers(1, 5))
@example([1, 2, 1], 3)
def test_numbers_stand_in_the_order_of_their_digits(uppers, bits):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(preference, "MOST_BITS", bits)
        every = list(product(*(range(upper + 1) for upper in uppers)))

        assert sorted(every, key=lambda values: numbers(values, uppers)) == every
        assert len({tuple(numbers(values, uppers)) for values in every}) == len(every)


def test_objectives_keep_within_what_the_solver_counts_exactly():
    assert MOST_BITS == 50
    for number in numbers([9] * 40, [9] * 40):
        assert number < 1 << MOST_BITS


def best(kinds, *piles, **more):
    """Return the counts of the proven best answer."""
    decision = decide(Puzzle(kinds=tuple(kinds), piles=piles, **more), Effort())
    assert decision.verdict is Verdict.OPTIMAL
    return decision.counts


def kind(size, pieces=1, *, thin=False, **more):
    return Kind(size=size, pieces=pieces, thin=thin, **more)


def pile(aim, kinds, spread=0, **more):
    return Pile(aim=aim, heights=((aim - spread, aim + spread),), kinds=tuple(kinds), **more)


def test_fewest_uses_come_after_thin_blocks_and_before_the_largest_block():
    used = [kind(6, uses=5), kind(4, uses=1), kind(5), kind(5, uses=2), kind(3, thin=True), kind(7)]

    assert best(used[:4], pile(10, range(4))) == ((0, 0, 1, 1),)
    assert best(used, pile(10, range(6))) == ((0, 0, 1, 1, 0, 0),)


def test_uses_count_once_a_piece():
    """10 of two 5 used three times each, or of 6 and 4 used five times in all."""
    assert best([kind(6, uses=5), kind(5, 2, uses=3), kind(4)], pile(10, range(3))) == ((1, 0, 1),)
    assert best([kind(6, uses=5), kind(5, 2, uses=2), kind(4)], pile(10, range(3))) == ((0, 2, 0),)


def test_uses_of_both_piles_are_added():
    kinds = [kind(6, uses=3), kind(5, uses=1), kind(4), kind(3, uses=1), kind(2)]
    piles = pile(6, range(5)), pile(6, range(5))

    assert best(kinds, *piles, total=3) == ((1, 0, 0, 0, 0), (0, 0, 1, 0, 1))


def lifted(kinds, aim, low, high, step=1, **more):
    highest = sum(one.size * one.pieces for one in kinds)
    sides = [Pile(aim=aim, heights=((1, highest),), kinds=tuple(range(len(kinds)))) for _ in range(2)]
    return best(kinds, *sides, lift=Lift(aim=aim, low=low, high=high, step=step), **more)


def test_a_difference_comes_as_near_as_it_can_whatever_the_lower_stack():
    """5 is wanted, 4 to 7 will do: 9 - 4 is exact, 8 - 2 and 6 - 2 are not."""
    assert lifted([kind(9), kind(8), kind(6), kind(4), kind(2)], 5, 4, 7) == (
        (1, 0, 0, 0, 0),
        (0, 0, 0, 1, 0),
    )


def test_of_differences_as_near_the_one_with_the_lower_second_stack_is_taken():
    """5 is wanted, 4 to 6 will do: 16 - 12 and 9 - 3 miss by one."""
    assert lifted([kind(16), kind(12), kind(9), kind(3)], 5, 4, 6) == ((0, 0, 1, 0), (0, 0, 0, 1))


def test_the_lower_stack_counts_with_its_nominal_height():
    """Both differences are 2: 1 mm lower by certificate is not lower by name."""
    kinds = [
        kind(101, nominal=100),
        kind(99, nominal=100),
        kind(92, nominal=90),
        kind(90, nominal=90),
    ]

    assert lifted(kinds, 2, 2, 2, step=10) == ((0, 0, 1, 0), (0, 0, 0, 1))


def test_a_deviation_that_is_the_same_for_every_answer_counts_for_nothing():
    """Only 9 and 7 will do for 8; the second stack still comes as near as it can."""
    kinds = [kind(9), kind(7), kind(5), kind(4)]
    first = Pile(aim=8, heights=((7, 7), (9, 9)), kinds=(0, 1))
    second = Pile(aim=4, heights=((3, 5),), kinds=(2, 3))

    assert best(kinds, first, second) == ((1, 0, 0, 0), (0, 0, 0, 1))


def test_heights_unequally_far_are_settled_by_their_deviation_before_the_largest_block():
    kinds = [kind(10), kind(7)]

    assert best(kinds, Pile(aim=8, heights=((7, 7), (10, 10)), kinds=(0, 1)), total=1) == ((0, 1),)


def test_fewest_blocks_come_before_the_deviations_of_two_stacks_together():
    """16 and 20 miss 12 and 16 by eight together; 7 + 5 and 16 miss nothing and are three."""
    kinds = [kind(20), kind(16), kind(7), kind(5)]
    piles = pile(12, range(4), spread=4), pile(16, range(4), spread=4)

    assert best(kinds, *piles) == ((0, 1, 0, 0), (1, 0, 0, 0))


def test_a_range_of_heights_with_ends_as_far_off_is_still_judged_by_its_deviation():
    kinds = [kind(9), kind(8)]

    assert best(kinds, Pile(aim=8, heights=((7, 9),), kinds=(0, 1))) == ((0, 1),)


def test_scarce_blocks_are_named_largest_first_and_nothing_more_is_decided():
    kinds = [kind(7, scarce=True), kind(6, scarce=True), kind(4), kind(3), kind(2, thin=True)]

    assert best(kinds, pile(10, range(5))) == ((1, 0, 0, 1, 0),)
    assert best(
        [kind(5, 2, scarce=True), kind(6, scarce=True), kind(4, scarce=True)], pile(10, range(3))
    ) == ((2, 0, 0),)
