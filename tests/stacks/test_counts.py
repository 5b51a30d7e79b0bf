"""The fewest blocks for many heights at once, against counting by hand."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from gaugestack.stacks import reach
from gaugestack.stacks.reach import (
    NEVER,
    SMALL_SET,
    SMALL_WEIGHT,
    Series,
    Window,
    counted,
    every_step,
    picks,
    turned,
    without_each,
)

small_sets = st.lists(st.integers(1, 9), min_size=1, max_size=6)


def by_hand(sizes):
    """Return the fewest blocks for every sum."""
    fewest = {}
    for count in range(len(sizes) + 1):
        for chosen in combinations(sizes, count):
            fewest.setdefault(sum(chosen), count)
    return fewest


def window(*counts):
    return Window(counts=np.array(counts, dtype=np.uint8))


@settings(deadline=None)
@given(small_sets, st.integers(0, 40))
@example([3, 3, 5], 11)
@example([3, 3, 5], 7)
@example([4], 3)
@example([4], 4)
def test_counts_up_to_any_height_are_those_of_every_subset(sizes, cells):
    fewest = by_hand(sizes)

    assert counted(sizes, cells).cells.dtype == np.uint8
    assert counted(sizes, cells).cells.tolist() == [fewest.get(height, NEVER) for height in range(cells + 1)]


@settings(deadline=None)
@given(small_sets, st.integers(1, 9), st.integers(0, 12), st.integers(0, 30), st.integers(1, 3))
@example([2, 5], 3, 3, 7, 1)
@example([2, 5], 3, 2, 0, 1)
@example([2, 5], 3, 4, 9, 2)
@example([1, 2], 9, 3, 2, 1)
def test_heights_picked_show_the_counts_as_they_are_and_with_one_block_more(sizes, size, low, width, step):
    now, more = by_hand(sizes), by_hand([*sizes, size])
    heights = range(low, low + width + 1, step)
    counts = counted(sizes, low + width)

    for picked in (picks(heights), picks(list(heights))):
        assert counts.seen(picked).counts.tolist() == [now.get(h, NEVER) for h in heights]
        longer = counts.seen_with(picked, size).counts.tolist()
        assert [min(n, NEVER) for n in longer] == [more.get(h, NEVER) for h in heights]
    assert counts.plus(size).cells.tolist() == counted([*sizes, size], low + width).cells.tolist()


def test_no_height_picked_shows_nothing():
    for nothing in (picks(range(0)), picks([])):
        assert counted([1, 2], 3).seen(nothing).counts.tolist() == []
        assert counted([1, 2], 3).seen_with(nothing, 1).counts.tolist() == []


def test_heights_listed_in_any_order_are_looked_at_from_the_lowest():
    assert counted([2, 5], 7).seen(picks([7, 2, 7, 3])).counts.tolist() == [1, NEVER, 2, 2]


@settings(deadline=None)
@given(small_sets, small_sets)
@example([1, 2, 4, 4], [3])
@example([5], [1])
def test_the_counts_without_each_block_are_those_of_all_the_others(sizes, others):
    base = counted(others, sum(sizes) + sum(others))
    found = dict(without_each(sizes, base))

    assert sorted(sizes[place] for place in found) == sorted(set(sizes))
    for place, counts in found.items():
        rest = [size for index, size in enumerate(sizes) if index != place]
        assert counts.cells.tolist() == counted([*others, *rest], len(base.cells) - 1).cells.tolist()


def test_a_window_counts_heights_by_their_blocks():
    seen = window(0, 1, 1, 3, NEVER, NEVER + 1)

    assert [seen.within(most) for most in (0, 1, 2, 3, 253)] == [1, 3, 3, 4, 4]
    assert seen.tally(5) == (1, 2, 0, 1, 0, 0)
    assert window(0, 1, 1, 3).tally(5) == (1, 2, 0, 1, 0, 0)
    assert len(window(0, 1).tally(253)) == 254
    assert sum(seen.tally(253)) == 4


def test_a_window_names_the_heights_that_took_fewer_blocks_elsewhere():
    now, before = window(3, 2, 4, 1, NEVER), window(2, 2, 1, 1, 1)

    assert [now.more_than(before, most) for most in (2, 3, 4)] == [0, 1, 2]
    assert before.more_than(now, 4) == 0


def test_the_longest_run_is_the_first_of_equals_and_counts_what_is_just_allowed():
    seen = window(2, 9, 2, 2, 9, 1, 1, 9)

    assert seen.longest_within(2) == (2, 3)
    assert seen.longest_within(1) == (5, 6)
    assert seen.longest_within(0) is None
    assert seen.longest_within(9) == (0, 7)


def test_the_last_height_within_is_one_with_as_many_blocks_as_allowed():
    seen = window(1, 2, 3, 9)

    assert [seen.last_within(most) for most in (0, 1, 2, 3)] == [None, 0, 1, 2]


def test_runs_beyond_are_those_that_need_more_here_and_no_more_than_that_there():
    now, before = window(1, 9, 9, 2, 9), window(1, 9, 2, 2, 3)

    assert now.runs_beyond(2) == [Series(first=1, last=2), Series(first=4, last=4)]
    assert now.runs_beyond(2, before) == [Series(first=2, last=2)]
    assert now.runs_beyond(3, before) == [Series(first=2, last=2), Series(first=4, last=4)]
    assert now.runs_beyond(9) == []


def folded(runs):
    """Fold runs from the left: as many as go on alike, where that are three or more."""
    found, place = [], 0
    while place < len(runs):
        (first, last), times = runs[place], 1
        every = runs[place + 1][0] - first if place + 1 < len(runs) else 0
        while place + times < len(runs) and runs[place + times] == (
            first + times * every,
            last + times * every,
        ):
            times += 1
        alike = times > 2
        found.append(
            Series(first=first, last=last, times=times, every=every)
            if alike
            else Series(first=first, last=last)
        )
        place += times if alike else 1
    return found


@settings(deadline=None)
@given(st.lists(st.tuples(st.integers(1, 2), st.integers(1, 2)), max_size=14))
@example([(1, 1), (1, 1)])
@example([(1, 1), (1, 1), (1, 1)])
@example([(1, 1), (1, 1), (1, 1), (2, 1), (2, 1)])
@example([(1, 2), (1, 1), (1, 1), (1, 1), (1, 2), (1, 2)])
@example([(1, 1), (1, 2), (1, 1), (1, 2), (1, 2), (1, 2), (1, 2)])
@example([(1, 1), (2, 1), (2, 1), (2, 1), (1, 1), (1, 1), (1, 1)])
def test_three_runs_or_more_of_one_length_at_one_distance_are_one_series(gaps_and_lengths):
    runs, place = [], 0
    for gap, length in gaps_and_lengths:
        runs.append((place + gap, place + gap + length - 1))
        place += gap + length
    flags = np.zeros(place + 1, dtype=np.uint8)
    for first, last in runs:
        flags[first : last + 1] = 9

    assert Window(counts=flags).runs_beyond(5) == folded(runs)


@pytest.mark.parametrize(
    ("sizes", "every", "run"),
    [
        ([1, 2, 4], 1, (1, 7)),
        ([1, 2, 4], 2, (2, 6)),
        ([1, 2, 4], 7, (7, 7)),
        ([2, 3], 1, (2, 3)),
        ([1, 5, 6], 1, (5, 7)),
        ([3], 2, None),
        ([8], 1, (8, 8)),
        ([7, 1], 8, (8, 8)),
    ],
)
def test_every_step_is_the_longest_run_above_zero(sizes, every, run):
    assert every_step(sizes, every) == run


@pytest.mark.parametrize(("most", "run"), [(7, (1, 7)), (6, None)])
def test_more_heights_than_bits_to_look_at_are_not_looked_at(monkeypatch, most, run):
    monkeypatch.setattr(reach, "MOST_BITS", most)

    assert every_step([1, 2, 4], 1) == run


def signed(sizes, turning):
    """Return the least price of every signed sum: so many blocks, so many of them taken away."""
    sums = {0: (0, 0)}
    for size, turns in zip(sizes, turning, strict=True):
        before = dict(sums)
        for total, (blocks, away) in before.items():
            ways = [(total + size, (blocks + 1, away)), *([(total - size, (blocks + 1, away + 1))] * turns)]
            for new, price in ways:
                sums[new] = min(sums.get(new, price), price)
    return sums


@settings(deadline=None)
@given(st.lists(st.tuples(st.integers(1, 9), st.booleans()), min_size=1, max_size=6))
@example([(3, True), (3, False), (1, True)])
@example([(5, True)])
@example([(5, False)])
def test_the_table_of_signed_sums_is_that_of_every_choice(blocks):
    sizes, turning = [size for size, _ in blocks], [turns for _, turns in blocks]
    made, sums, zero = turned(sizes, turning), signed(sizes, turning), sum(sizes)

    assert (made.top, made.step, made.weight, made.cost.dtype) == (2 * zero, 1, SMALL_WEIGHT, np.uint16)
    for total in range(-zero, zero + 1):
        price = sums.get(total)
        assert made.price(total + zero) == (price and price[0] * SMALL_WEIGHT + price[1])
        assert made.count(total + zero) == (price and price[0])


def test_as_many_turned_blocks_as_a_small_set_holds_count_without_overflow():
    made = turned([1] * SMALL_SET, [True] * SMALL_SET)

    assert made.price(0) == SMALL_SET * (SMALL_WEIGHT + 1) < made.limit
    assert made.price(2 * SMALL_SET) == SMALL_SET * SMALL_WEIGHT


@pytest.mark.parametrize(
    ("heights", "count", "inside"),
    [
        ([-100, -1, 0, 1, 3, 6, 7], 0, [0, 0, 1, 0, 0, 0, 0]),
        ([-1, 0, 1, 3, 6, 7, 17, 100], 2, [0, 1, 1, 1, 0, 0, 0, 0]),
        ([15, 16, 17], 4, [1, 1, 0]),
    ],
)
def test_heights_within_a_count_are_told_one_by_one(heights, count, inside):
    made = reach.priced([1, 2, 3, 10], [0, 0, 0, 0], 1, 16)

    assert made.within(np.array(heights), count).tolist() == [bool(one) for one in inside]
