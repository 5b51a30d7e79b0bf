"""Heights that want the same odd blocks, against every stack counted out."""

from itertools import combinations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.stacks import residues
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


def test_a_remainder_made_by_one_block_counts_one_though_two_make_it_as_well():
    """57 is 50 + 7 and 37 is 24 + 13."""
    sizes = counted(24, 13, 7, 10, 20, 50)

    assert possible((24, 13, 7, 10, 20, 50), (57, 37))
    assert shortage(sizes, exactly(57, 37)) is None


def test_a_remainder_that_no_blocks_make_wants_more_than_there_are():
    assert shortage(counted(3, 20, 40), exactly(24)) == Shortage(modulus=20, wanted=2, there=1)


def test_the_step_is_one_that_all_round_blocks_share():
    """40 and 60 share 20; neither 40 nor 60 is a step of the other."""
    assert shortage(counted(3, 40, 60), exactly(43, 63)) == Shortage(modulus=20, wanted=2, there=1)


def test_a_step_too_large_for_a_table_is_tried_on_the_round_part_of_it():
    assert shortage(counted(3, 2000, 4000), exactly(2003, 4003)).modulus == 1000
    assert shortage(counted(3, 2500, 5000), exactly(2503, 5003)) == Shortage(modulus=500, wanted=2, there=1)
    assert shortage(counted(7, 600, 600), exactly(607, 607)).modulus == 600


def test_a_table_that_costs_more_than_it_saves_is_not_made(monkeypatch):
    sizes = counted(3, 20, 20, 40, 2)
    monkeypatch.setattr(residues, "MOST_TRIED", 2)
    assert shortage(sizes, exactly(23, 43)) == Shortage(modulus=2, wanted=2, there=1)

    monkeypatch.setattr(residues, "MOST_TRIED", 1)
    assert shortage(sizes, exactly(23, 43)) is None


def test_a_coarser_step_is_tried_where_a_finer_has_too_many_odd_blocks(monkeypatch):
    """Four blocks are no multiple of 7, one is no multiple of 8."""
    monkeypatch.setattr(residues, "MOST_TRIED", 20)
    sizes = counted(32032, 175, 8, 24, 88, 104)

    assert shortage(sizes, exactly(183, 199)) == Shortage(modulus=8, wanted=2, there=1)


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
