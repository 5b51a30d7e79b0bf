"""Heights that want the same odd blocks, against every stack counted out."""

from itertools import combinations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.stacks.effort import Effort
from gaugestack.stacks.request import Found, Impossible, Proof
from gaugestack.stacks.residues import Shortage, shortage
from gaugestack.stacks.solve import compose
from tests.stacks.making import block, request


def exactly(*heights):
    return [range(height, height + 1) for height in heights]


def counted(*sizes):
    return tuple((size, sizes.count(size)) for size in sorted(set(sizes), reverse=True))


def possible(sizes, heights):
    """Tell whether disjoint stacks make all heights at once: every way looked at."""
    places = range(len(sizes))
    stacks = [
        [
            set(chosen)
            for count in range(1, len(sizes) + 1)
            for chosen in combinations(places, count)
            if sum(sizes[place] for place in chosen) == height
        ]
        for height in heights
    ]
    return any(len(set().union(*way)) == sum(len(one) for one in way) for way in product(*stacks))


def test_one_half_is_not_two_halves():
    """11.5 and 21.5 of one block with a half, in halves."""
    sizes = counted(3, 20, 20, 40, 2)

    assert shortage(sizes, exactly(23, 43)) == Shortage(modulus=2, wanted=2, there=1)
    assert shortage(sizes, exactly(23, 40)) is None
    assert shortage(counted(3, 3, 20, 20, 40, 2), exactly(23, 43)) is None


def test_a_height_within_a_tolerance_takes_the_remainder_that_is_cheapest():
    sizes = counted(3, 20, 20, 40, 2)

    assert shortage(sizes, [range(22, 24), range(42, 44)]) is None


def test_remainders_that_take_two_blocks_count_two():
    """On a step of ten 7 is 3 + 4: two such heights take four blocks, three are there."""
    sizes = counted(13, 14, 13, 10, 20, 30, 50)

    assert shortage(sizes, exactly(57, 77)) == Shortage(modulus=10, wanted=4, there=3)


@settings(max_examples=300)
@given(
    sizes=st.lists(st.sampled_from((1, 3, 5, 10, 11, 12, 13, 15, 20, 30, 50, 60)), min_size=2, max_size=6),
    heights=st.lists(st.integers(1, 80), min_size=2, max_size=3),
)
def test_what_is_called_short_cannot_be_made(sizes, heights):
    if shortage(counted(*sizes), exactly(*heights)):
        assert not possible(sizes, heights)


def test_the_answer_says_what_is_short_and_takes_no_search():
    pool = [block(size) for size in ("1.0005", "1.001", "1.002", 5, 10, 20)]
    outcome = compose(request("6.0005", "11.0005", pool=pool), Effort(limit=0))

    assert isinstance(outcome, Impossible)
    assert (outcome.proof, outcome.failing) == (Proof.REMAINDER, None)
    assert outcome.sentence == (
        "each height can be made, but not all at once: "
        "they take 2 blocks that are no whole multiple of 0.001 mm, and only 1 is there"
    )


def test_with_a_second_such_block_both_are_made():
    pool = [block(size) for size in ("1.0005", "1.001", "1.002", 5, 10, 20)]

    assert isinstance(compose(request("6.0005", "11.0005", pool=[*pool, block("1.0005", copy=2)])), Found)
