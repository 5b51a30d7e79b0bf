"""Which blocks matter and which to buy, against trying everything on small sets."""

import time
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.blocks import Block, in_order
from gaugestack.errors import UsageError
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import PM_PER_MM, Length, Unit
from gaugestack.stacks import ranking, reach
from gaugestack.stacks.ranking import BlockValue, PurchaseProof, buy_first, what_is_missed, what_matters
from gaugestack.stacks.survey import Span

STEP = PM_PER_MM // 2


def blocks_of(*sizes):
    """Blocks of whole steps of half a millimetre."""
    return in_order(
        Block(nominal=Length(size * STEP), unit=Unit.MILLIMETRE, copy=copy)
        for copy, size in enumerate(sizes, 1)
    )


def span_of(low, high):
    return Span(low=Length(low * STEP), high=Length(high * STEP), step=Length(STEP))


def sizes_of(blocks):
    return [block.nominal // STEP for block in blocks]


def fewest_by_hand(blocks):
    fewest = {}
    for count in range(len(blocks) + 1):
        for chosen in combinations(sizes_of(blocks), count):
            fewest.setdefault(sum(chosen), count)
    return fewest


def made_by_hand(blocks, heights, most):
    fewest = fewest_by_hand(blocks)
    return sum(fewest.get(height, 999) <= most for height in heights)


def cost_by_hand(more, less, heights, most):
    full, left = fewest_by_hand(more), fewest_by_hand(less)
    lost = sum(full.get(h, 999) <= most < left.get(h, 999) for h in heights)
    longer = sum(full.get(h, 999) < left.get(h, 999) <= most for h in heights)
    return lost, longer


small_sets = st.lists(st.integers(1, 12), min_size=1, max_size=6)
counts = st.integers(1, 4)


@settings(max_examples=150, deadline=None)
@given(small_sets, st.integers(1, 10), st.integers(0, 25), counts)
def test_the_worth_of_each_block_is_what_taking_it_out_shows(sizes, low, width, most):
    pool = blocks_of(1, *sizes)
    values = what_matters(pool, span_of(low, low + width), most)
    assert sorted(value.block.order for value in values) == sorted(block.order for block in pool)
    for value in values:
        rest = [block for block in pool if block != value.block]
        assert (value.lost, value.longer) == cost_by_hand(pool, rest, range(low, low + width + 1), most)


@settings(max_examples=100, deadline=None)
@given(small_sets, small_sets, st.lists(st.integers(1, 40), max_size=8), counts)
def test_the_want_of_each_absent_block_is_what_putting_it_back_shows(sizes, gone, heights, most):
    pool, absent = blocks_of(1, *sizes), blocks_of(*gone)
    for value in what_is_missed(pool, absent, [Length(h * STEP) for h in heights], most):
        assert (value.lost, value.longer) == cost_by_hand([*pool, value.block], pool, heights, most)


@settings(max_examples=100, deadline=None)
@given(small_sets, st.lists(st.integers(1, 12), max_size=6), st.integers(1, 4), counts)
def test_an_exact_purchase_is_the_best_of_all_and_none_smaller_is_as_good(sizes, gone, count, most):
    pool, absent = blocks_of(*sizes), blocks_of(*gone)
    unit_pool = (*pool, *blocks_of(1))
    heights = range(1, 31)
    found = buy_first(unit_pool, absent, count, span_of(1, 30), most)
    before = made_by_hand(unit_pool, heights, most)
    best = {
        size: max(
            (made_by_hand([*unit_pool, *chosen], heights, most) for chosen in combinations(absent, size)),
            default=0,
        )
        - before
        for size in range(count + 1)
    }
    assert found.proof is PurchaseProof.EXACT
    assert found.restored == found.bound == max(best.values())
    assert len(found.blocks) == min(size for size, made in best.items() if made == found.restored)
    assert made_by_hand([*unit_pool, *found.blocks], heights, most) - before == found.restored


@settings(max_examples=100, deadline=None)
@given(small_sets, st.lists(st.integers(1, 12), min_size=1, max_size=6), st.integers(1, 4), counts)
def test_a_greedy_purchase_never_beats_its_bound_nor_the_best(sizes, gone, count, most):
    pool, absent = (*blocks_of(*sizes), *blocks_of(1)), blocks_of(*gone)
    exact = buy_first(pool, absent, count, span_of(1, 30), most)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(ranking._Shop, "_work", lambda _shop, _count: ranking.EXACT_WORK + 1)
        greedy = buy_first(pool, absent, count, span_of(1, 30), most)
    assert greedy.restored <= exact.restored <= greedy.bound
    assert len(greedy.blocks) <= count
    if greedy.proof is PurchaseProof.EXACT:
        assert greedy.restored == exact.restored


def test_blocks_stand_in_the_order_lost_longer_canonical():
    values = what_matters(blocks_of(1, 2, 2, 4, 8), span_of(1, 17))
    assert list(values) == sorted(values, key=lambda v: (-v.lost, -v.longer, v.block.order))
    assert values[0].lost > values[-1].lost


def test_one_of_two_equal_blocks_is_worth_only_what_the_other_cannot_do():
    two = what_matters(blocks_of(1, 1), span_of(1, 2))
    assert [(value.lost, value.longer) for value in two] == [(1, 0), (1, 0)]


def test_a_set_without_blocks_has_nothing_to_rank():
    assert what_matters((), [Length(STEP)]) == ()


def test_listed_heights_off_the_grid_count_for_nothing():
    pool = blocks_of(1, 2)
    assert what_matters(pool, [Length(STEP + 1), Length(0)])[0].lost == 0
    assert what_matters(pool, [Length(3 * STEP)])[0].lost == 1
    assert what_matters(pool, [Length(3 * STEP), Length(STEP + 1)])[0].lost == 1


def test_a_height_listed_twice_counts_twice():
    assert what_matters(blocks_of(1), [Length(STEP), Length(STEP)])[0] == BlockValue(
        block=blocks_of(1)[0], lost=2, longer=0
    )


def test_two_blocks_that_restore_only_together_are_found():
    found = buy_first(blocks_of(1), blocks_of(4, 8), 2, [Length(12 * STEP)], 2)
    assert sizes_of(found.blocks) == [8, 4]
    assert found.restored == 1


def test_one_block_too_few_for_a_pair_buys_nothing():
    found = buy_first(blocks_of(1), blocks_of(4, 8), 1, [Length(12 * STEP)], 2)
    assert (found.blocks, found.restored, found.bound) == ((), 0, 0)
    assert found.proof is PurchaseProof.EXACT


def test_where_walking_forward_finds_nothing_walking_back_does(monkeypatch):
    monkeypatch.setattr(ranking._Shop, "_work", lambda _shop, _count: ranking.EXACT_WORK + 1)
    found = buy_first(blocks_of(1), blocks_of(4, 8, 40), 2, [Length(12 * STEP)], 2)
    assert sizes_of(found.blocks) == [8, 4]
    assert found.proof is PurchaseProof.EXACT


def test_a_greedy_purchase_below_its_bound_says_so(monkeypatch):
    monkeypatch.setattr(ranking._Shop, "_work", lambda _shop, _count: ranking.EXACT_WORK + 1)
    found = buy_first(blocks_of(1), blocks_of(4, 8), 1, span_of(1, 13))
    assert found.proof is PurchaseProof.GREEDY
    assert found.restored < found.bound


def test_no_block_is_bought_that_restores_nothing():
    assert buy_first(blocks_of(1, 2), blocks_of(3), 1, span_of(1, 3)).blocks == ()
    assert buy_first(blocks_of(1, 2), blocks_of(3), 1, span_of(1, 4)).restored == 1


@pytest.mark.parametrize("count", [0, -1])
def test_a_purchase_of_no_block_is_refused(count):
    with pytest.raises(UsageError, match="at least one block"):
        buy_first(blocks_of(1), blocks_of(2), count, span_of(1, 3))


def test_a_purchase_of_more_blocks_than_are_absent_is_answered():
    assert len(buy_first(blocks_of(1), blocks_of(2), 9, span_of(1, 3)).blocks) == 1


def test_nothing_absent_is_a_purchase_of_nothing():
    assert buy_first(blocks_of(1), (), 2, span_of(1, 3)).blocks == ()


def test_heights_too_high_for_many_tables_are_refused():
    with pytest.raises(UsageError, match="too many steps"):
        what_matters(blocks_of(1), [Length((ranking.MOST_RANKED_CELLS + 1) * STEP)])


def test_all_122_pieces_are_ranked_quickly_and_as_one_by_one():
    blocks = load_set(shipped_path("metric-122"))[0].ordinary
    span = Span(low=Length(500_000), high=Length(300 * PM_PER_MM), step=Length(500_000))
    begin = time.perf_counter()
    values = what_matters(blocks, span, 5)
    assert time.perf_counter() - begin < 20, "the aim is 2 s, the bound ten times that"
    sizes = [block.nominal // 500_000 for block in blocks]
    picks = span.on(Length(500_000))
    whole = reach.counted(sizes, 600_000).seen(picks)
    for value in values[::12]:
        rest = sizes.copy()
        rest.remove(value.block.nominal // 500_000)
        less = reach.counted(rest, 600_000).seen(picks)
        assert value.lost == whole.within(5) - less.within(5)
        assert value.longer == less.more_than(whole, 5)
