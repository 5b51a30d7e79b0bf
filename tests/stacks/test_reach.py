from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.lengths import Length
from gaugestack.stacks import reach
from gaugestack.stacks.reach import SMALL_SET, SMALL_WEIGHT, WEIGHT, priced, table
from tests.property.strategies import STEP, pieces, pools
from tests.stacks.making import block, mm

BLOCKS = tuple(block(size) for size in ("1", "2", "3", "10"))
TABLE = table(BLOCKS, mm(16))


def every_stack(pool):
    """Return every subset of the pool."""
    return [subset for count in range(len(pool) + 1) for subset in combinations(pool, count)]


def least(pool):
    """Return for each height the fewest blocks and, among those, the fewest thin ones, by enumeration."""
    found = {}
    for subset in every_stack(pool):
        height = sum(piece.nominal for piece in subset)
        price = (len(subset), sum(piece.thin for piece in subset))
        found[height] = min(found.get(height, price), price)
    return found


@settings(deadline=None)
@given(pools(most=9))
def test_the_table_is_what_enumeration_finds(pool):
    made, found = table(pool, 10**12), least(pool)

    assert made.top * made.step == sum(piece.nominal for piece in pool)
    for cell in range(made.top + 1):
        price = found.get(cell * made.step)
        assert made.count(cell) == (price and price[0])
        assert made.price(cell) == (price and price[0] * made.weight + price[1])


@settings(deadline=None)
@given(pools(most=7), st.integers(0, 60), st.integers(0, 60), st.one_of(st.none(), st.integers(0, 5)))
def test_ranges_are_what_enumeration_finds(pool, low, high, count):
    made = table(pool, 10**12)
    unit = made.step // STEP
    counts = {height // STEP // unit: price[0] for height, price in least(pool).items()}
    inside = {cell: fewest for cell, fewest in counts.items() if low <= cell <= high}

    assert made.fewest(low, high) == min(inside.values(), default=None)
    assert made.heights(low, high, count) == sorted(
        cell for cell, fewest in inside.items() if count is None or fewest <= count
    )


@settings(deadline=None)
@given(pools(most=7), st.integers(0, 60), st.one_of(st.none(), st.integers(0, 5)))
def test_nearest_heights_are_what_enumeration_finds(pool, height, count):
    made = table(pool, 10**12)
    cells = [
        total // made.step
        for total, price in least(pool).items()
        if total and (count is None or price[0] <= count)
    ]

    assert made.below(height, count) == max((cell for cell in cells if cell < height), default=None)
    assert made.above(height, count) == min((cell for cell in cells if cell > height), default=None)


@settings(deadline=None)
@given(pools(most=8), st.data())
def test_pruning_never_drops_a_block_of_a_stack_within_the_budget(pool, data):
    made = table(pool, 10**12)
    height = data.draw(
        st.sampled_from(sorted({sum(p.nominal for p in subset) for subset in every_stack(pool)}))
    )
    budget = made.price(height // made.step) + data.draw(st.sampled_from([0, 0, 1, made.weight]))
    sizes = [piece.nominal // made.step for piece in pool]

    usable = made.usable([height // made.step], sizes, [piece.thin for piece in pool], budget)

    for subset in every_stack(pool):
        price = len(subset) * made.weight + sum(piece.thin for piece in subset)
        if sum(piece.nominal for piece in subset) == height and price <= budget:
            assert {pool.index(piece) for piece in subset} <= set(usable)


@settings(deadline=None)
@given(pools(most=8), st.integers(1, 60))
def test_a_table_cut_short_knows_the_same_up_to_its_top(pool, top):
    whole, cut = table(pool, 10**12), table(pool, top * STEP)

    assert cut.top == min(top * STEP // cut.step, whole.top)
    assert [cut.price(cell) for cell in range(cut.top + 1)] == [
        whole.price(cell) for cell in range(cut.top + 1)
    ]


@settings(deadline=None)
@given(pools(most=9), st.integers(1, 3))
def test_16_and_32_bits_say_the_same(pool, extra):
    """A set of more than 240 pieces counts in 32 bits; pieces too tall to matter make it one."""
    tall = [block(100_000, copy=copy) for copy in range(SMALL_SET + extra - len(pool))]
    small, large = table(pool, 10**11), table((*pool, *tall), 10**11)

    assert (small.cost.dtype, small.weight) == (np.uint16, SMALL_WEIGHT)
    assert (large.cost.dtype, large.weight) == (np.uint32, WEIGHT)
    assert [small.count(cell) for cell in range(small.top + 1)] == [
        large.count(cell * small.step // large.step) for cell in range(small.top + 1)
    ]


def test_240_blocks_still_count_in_16_bits_without_overflow():
    made = priced([1] * SMALL_SET, [1] * SMALL_SET, Length(1), SMALL_SET + 5)

    assert made.cost.dtype == np.uint16
    assert made.price(SMALL_SET) == SMALL_SET * (SMALL_WEIGHT + 1) < made.limit
    assert made.count(SMALL_SET + 1) is None


def test_a_thousand_thin_blocks_count_right():
    made = priced([1] * 1000, [1] * 1000, Length(1), 1000)

    assert (made.count(1000), made.price(1000)) == (1000, 1000 * (WEIGHT + 1))


def test_a_height_that_can_be_made_has_its_fewest_blocks():
    assert [TABLE.count(cell) for cell in (1, 3, 6, 16)] == [1, 1, 3, 4]


def test_a_height_that_cannot_be_made_has_none():
    assert [TABLE.count(cell) for cell in (7, 8, 9)] == [None, None, None]
    assert TABLE.price(7) is None


@pytest.mark.parametrize("cell", [-1, 17, 10**9])
def test_a_height_outside_the_table_has_none(cell):
    assert (TABLE.count(cell), TABLE.price(cell)) == (None, None)


def test_no_block_at_all_makes_the_height_zero():
    assert TABLE.count(0) == 0


def test_the_fewest_of_a_range_is_that_of_its_best_height():
    assert TABLE.fewest(7, 11) == 1


def test_a_range_without_a_reachable_height_has_none():
    assert TABLE.fewest(7, 9) is None


@pytest.mark.parametrize(
    ("low", "high", "fewest"), [(-5, -1, None), (-5, 1, 0), (17, 99, None), (15, 99, 3), (9, 7, None)]
)
def test_a_range_past_the_table_is_cut(low, high, fewest):
    assert TABLE.fewest(low, high) == fewest


def test_heights_of_a_range_are_listed():
    assert TABLE.heights(5, 12) == [5, 6, 10, 11, 12]


def test_heights_that_need_too_many_blocks_are_left_out():
    assert TABLE.heights(5, 12, 1) == [10]


def test_an_empty_range_has_no_heights():
    assert TABLE.heights(12, 5) == []


def test_the_nearest_height_below_is_not_the_height_itself():
    assert TABLE.below(10) == 6


def test_nothing_is_below_the_thinnest_block():
    assert TABLE.below(1) is None


def test_the_nearest_height_above_is_not_the_height_itself():
    assert TABLE.above(6) == 10


def test_nothing_is_above_all_blocks_together():
    assert TABLE.above(16) is None


def test_heights_below_zero_have_the_thinnest_block_above_them():
    assert TABLE.above(-7) == 1


def test_the_table_ends_at_the_sum_of_all_blocks():
    assert table(BLOCKS, mm(1000)).top == 16


def test_the_table_ends_at_the_height_asked():
    assert table(BLOCKS, mm("7.5")).top == 7


@pytest.mark.parametrize("top", [0, -(10**9)])
def test_a_table_of_no_height_knows_only_zero(top):
    made = table(BLOCKS, top)

    assert (made.top, made.count(0), made.count(1)) == (0, 0, None)


def test_a_table_of_no_blocks_makes_nothing():
    made = table((), mm(5))

    assert (made.count(0), made.count(1)) == (0, None)
    assert (made.step, made.top, made.cost.dtype) == (1, 0, np.uint16)


def test_a_block_taller_than_the_whole_table_is_not_usable():
    assert table(BLOCKS, mm(3)).usable([3], [1, 2, 3, 10], [False] * 4, 9 * TABLE.weight) == [0, 1, 2]


def test_a_table_as_large_as_allowed_is_made(monkeypatch):
    monkeypatch.setattr(reach, "QUICK_CELLS", 16)

    assert table(BLOCKS, mm(16)).top == 16


def test_a_table_too_large_is_none(monkeypatch):
    monkeypatch.setattr(reach, "QUICK_CELLS", 15)

    assert table(BLOCKS, mm(16)) is None


def test_two_sets_of_different_grids_soon_make_a_table_too_large():
    blocks = [block("0.000001"), block(100)]

    assert table(blocks, mm(101)) is None


def test_a_block_that_can_stand_in_a_best_stack_is_usable():
    assert TABLE.usable([3], [1, 2, 3, 10], [True, True, False, False], TABLE.price(3)) == [2]


def test_a_larger_budget_lets_more_blocks_in():
    budget = 2 * TABLE.weight + 2

    assert TABLE.usable([3], [1, 2, 3, 10], [True, True, False, False], budget) == [0, 1, 2]
    assert TABLE.usable([3], [1, 2, 3, 10], [True, True, False, False], budget - 1) == [2]


def test_usable_blocks_of_several_heights_are_joined():
    assert TABLE.usable([3, 10], [1, 2, 3, 10], [True, True, False, False], TABLE.weight) == [2, 3]


def test_pieces_of_one_size_are_used_once_each():
    assert [table(pieces([2, 2, 2]), 10**12).count(cell) for cell in range(4)] == [0, 1, 2, 3]
