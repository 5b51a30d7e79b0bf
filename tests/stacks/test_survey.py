"""What a set can do over a range, against counting every subset of small sets."""

import time
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.blocks import Block, in_order
from gaugestack.errors import UsageError
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import PM_PER_MM, Length, Unit
from gaugestack.stacks import reach
from gaugestack.stacks.survey import Gap, Span, Stretch, bins, every_step, survey

STEP = PM_PER_MM // 2


def blocks_of(*sizes):
    """Blocks of whole steps of half a millimetre."""
    return in_order(
        Block(nominal=Length(size * STEP), unit=Unit.MILLIMETRE, copy=copy)
        for copy, size in enumerate(sizes, 1)
    )


def span_of(low, high, step=1):
    return Span(low=Length(low * STEP), high=Length(high * STEP), step=Length(step * STEP))


def fewest_by_hand(sizes):
    fewest = {}
    for count in range(len(sizes) + 1):
        for chosen in combinations(sizes, count):
            fewest.setdefault(sum(chosen), count)
    return fewest


def unfold(gaps, step):
    return [
        height
        for gap in gaps
        for time_ in range(gap.times)
        for height in range(gap.first + time_ * gap.every, gap.last + time_ * gap.every + 1, step)
    ]


small_sets = st.lists(st.integers(1, 12), min_size=1, max_size=7)


@settings(max_examples=150, deadline=None)
@given(small_sets, st.sets(st.integers(0, 6)), st.integers(1, 20), st.integers(0, 30), st.integers(1, 3))
def test_a_survey_counts_as_every_subset_does(sizes, gone, low, width, step):
    sizes = [1, *sizes]
    pool = [size for place, size in enumerate(sizes) if place not in gone]
    span = span_of(low, low + width, step)
    now, before = fewest_by_hand(pool), fewest_by_hand(sizes)
    heights = range(low, low + width + 1, step)
    for most in (1, 2, 3, None):
        found = survey(blocks_of(*pool), blocks_of(*sizes), span, most)
        limit = 99 if most is None else most
        made = [h for h in heights if now.get(h, 999) <= limit]
        lost = [h for h in heights if h not in made and before.get(h, 999) <= limit]
        assert [found.within(k) for k in range(4)] == [
            sum(now.get(h, 999) <= k for h in heights) for k in range(4)
        ]
        assert found.share_issued(2) == Fraction(sum(before.get(h, 999) <= 2 for h in heights), len(heights))
        assert sorted(unfold(found.gaps, span.step)) == [h * STEP for h in heights if h not in made]
        assert sorted(unfold(found.lost, span.step)) == [h * STEP for h in lost]
        assert sum(gap.heights for gap in found.gaps) == len(heights) - len(made)
        assert found.longer == sum(now[h] > before[h] for h in made)
        assert found.highest == (made[-1] * STEP if made else None)
        assert found.total == sum(pool) * STEP


@settings(max_examples=100, deadline=None)
@given(small_sets, st.integers(1, 3))
def test_every_step_is_the_longest_run_of_sums(sizes, step):
    sums = {h for h in fewest_by_hand(sizes) if h and h % step == 0}
    runs = []
    for first in sorted(h for h in sums if h - step not in sums):
        last = first
        while last + step in sums:
            last += step
        runs.append((last - first, -first))
    found = every_step(blocks_of(*sizes), Length(step * STEP))
    if not runs:
        assert found is None
    else:
        length, first = max(runs)
        assert found == Stretch(first=Length(-first * STEP), last=Length((length - first) * STEP))


@settings(max_examples=100, deadline=None)
@given(st.lists(st.booleans(), min_size=1, max_size=60))
def test_series_unfold_to_the_runs_they_were_folded_from(flags):
    counts = reach.np.array([9 if flag else 1 for flag in flags], dtype=reach.np.uint8)
    series = reach.Window(counts=counts).runs_beyond(5)
    unfolded = [
        place + turn * one.every
        for one in series
        for turn in range(one.times)
        for place in range(one.first, one.last + 1)
    ]
    assert sorted(unfolded) == [place for place, flag in enumerate(flags) if flag]
    assert len(unfolded) == len(set(unfolded))


def test_a_gap_that_returns_three_times_is_written_once():
    found = survey(blocks_of(2, 4, 8), blocks_of(2, 4, 8, 1), span_of(1, 7))
    assert found.gaps == (
        Gap(first=Length(STEP), last=Length(STEP), heights=4, times=4, every=Length(2 * STEP)),
    )


def test_gaps_that_return_twice_are_written_twice():
    found = survey(blocks_of(2, 4), blocks_of(2, 4, 1), span_of(2, 5))
    assert [gap.times for gap in found.gaps] == [1, 1]


def test_gaps_of_unequal_width_are_not_one_series():
    found = survey(blocks_of(1, 3, 7), blocks_of(1, 3, 7), span_of(1, 10))
    assert [(gap.first // STEP, gap.last // STEP, gap.times) for gap in found.gaps] == [
        (2, 2, 1),
        (5, 6, 1),
        (9, 9, 1),
    ]


def test_no_height_is_lost_where_nothing_is_missing():
    found = survey(blocks_of(1, 2, 5), blocks_of(1, 2, 5), span_of(1, 8))
    assert found.lost == ()
    assert found.gaps
    assert found.longer == 0


def test_a_height_never_made_is_a_gap_and_not_lost():
    found = survey(blocks_of(1, 2), blocks_of(1, 2, 5), span_of(4, 5))
    assert [gap.first // STEP for gap in found.gaps] == [4]
    assert [gap.first // STEP for gap in found.lost] == [5]


def test_a_largest_count_turns_long_stacks_into_gaps():
    blocks = blocks_of(1, 2, 4)
    assert survey(blocks, blocks, span_of(7, 7), 2).gaps
    assert not survey(blocks, blocks, span_of(7, 7), 3).gaps
    assert not survey(blocks, blocks, span_of(7, 7)).gaps


@pytest.mark.parametrize(
    "span",
    [
        span_of(5, 4),
        span_of(0, 4),
        Span(low=Length(STEP), high=Length(4 * STEP), step=Length(0)),
    ],
)
def test_a_range_without_a_height_is_refused(span):
    with pytest.raises(UsageError, match="the range holds no height"):
        survey(blocks_of(1), blocks_of(1), span)


def test_a_range_of_one_height_is_surveyed():
    assert survey(blocks_of(1), blocks_of(1), span_of(1, 1)).share(1) == 1


@pytest.mark.parametrize(("low", "step"), [(STEP + 1, STEP), (STEP, STEP + 1)])
def test_a_range_off_the_grid_is_refused(low, step):
    with pytest.raises(UsageError, match="grid of the set"):
        survey(blocks_of(1), blocks_of(1), Span(low=Length(low), high=Length(9 * STEP), step=Length(step)))


def test_a_range_coarser_than_the_grid_is_surveyed():
    assert survey(blocks_of(1, 2), blocks_of(1, 2), span_of(1, 3, 2)).within(2) == 2


def test_a_range_too_large_for_a_table_is_refused():
    with pytest.raises(UsageError, match="too many steps"):
        survey(blocks_of(1), blocks_of(1), span_of(1, reach.MOST_CELLS + 1))


def test_a_set_without_blocks_has_no_grid_to_survey_on():
    with pytest.raises(UsageError, match="grid of the set"):
        survey((), (), span_of(1, 2))


def test_a_set_that_lost_every_block_is_surveyed_on_the_grid_as_issued():
    found = survey((), blocks_of(1, 2), span_of(1, 3))
    assert found.share(9) == 0
    assert sum(gap.heights for gap in found.lost) == 3
    assert found.every_step is None


def test_columns_count_their_own_heights():
    found = survey(blocks_of(1, 2, 4), blocks_of(1, 2, 4), span_of(1, 10))
    columns = bins(found, 3)
    assert [column.heights for column in columns] == [3, 3, 4]
    assert [column.share for column in columns] == [1, 1, Fraction(1, 4)]
    assert [column.worst for column in columns] == [2, 2, 3]


def test_a_column_where_nothing_is_made_has_no_worst_count():
    found = survey(blocks_of(1), blocks_of(1), span_of(1, 4))
    assert bins(found, 2)[1].worst is None


def test_there_are_no_more_columns_than_heights_and_at_least_one():
    found = survey(blocks_of(1, 2), blocks_of(1, 2), span_of(1, 3))
    assert len(bins(found, 50)) == 3
    assert len(bins(found, 2)) == 2
    assert len(bins(found, 0)) == 1


def test_a_column_counts_only_what_the_largest_count_allows():
    blocks = blocks_of(1, 2, 4)
    assert bins(survey(blocks, blocks, span_of(1, 7), 2), 1)[0].reachable == 6
    assert bins(survey(blocks, blocks, span_of(1, 7), 2), 1)[0].worst == 2


def test_the_table_of_122_pieces_over_300_mm_by_half_a_micrometre_is_quick():
    blocks = load_set(shipped_path("metric-122"))[0].ordinary
    sizes = [block.nominal // 500_000 for block in blocks]
    begin = time.perf_counter()
    reach.counted(sizes, 600_000)
    assert time.perf_counter() - begin < 0.2, "the aim is 20 ms, the bound ten times that"


def test_a_column_says_how_many_blocks_its_heights_take_now_and_took_as_issued():
    (column,) = bins(survey(blocks_of(2, 3), blocks_of(1, 2, 3), span_of(1, 6), 2), 1)
    assert column.counts == (0, 2, 1)
    assert column.counts_issued == (0, 3, 2)
    assert (column.within(1), column.within(2)) == (Fraction(2, 6), Fraction(3, 6))
    assert (column.within_issued(1), column.lost) == (Fraction(3, 6), 2)


def test_the_largest_count_is_one_that_is_needed_and_allowed():
    blocks = blocks_of(1, 2, 3)
    assert survey(blocks[:2], blocks, span_of(1, 6)).top == 3
    assert survey(blocks, blocks, span_of(1, 6), 2).top == 2


def test_every_step_is_told_for_the_set_and_for_the_set_as_issued():
    """2, 4 and 8 steps make every even one; with 1 they make every one."""
    fewer, issued = blocks_of(2, 4, 8), blocks_of(1, 2, 4, 8)
    found = survey(fewer, issued, span_of(1, 5))
    assert found.every_step == Stretch(first=Length(2 * STEP), last=Length(2 * STEP))
    assert found.every_step_issued == Stretch(first=Length(STEP), last=Length(15 * STEP))
    even = survey(fewer, issued, span_of(2, 6, 2))
    assert (
        even.every_step == even.every_step_issued == Stretch(first=Length(2 * STEP), last=Length(14 * STEP))
    )
    whole = survey(issued, issued, span_of(1, 5))
    assert whole.every_step == whole.every_step_issued == found.every_step_issued


def test_the_longest_stretch_lies_within_the_range():
    found = survey(blocks_of(1, 3, 7), blocks_of(1, 3, 7), span_of(2, 9))
    assert found.stretch == Stretch(first=Length(3 * STEP), last=Length(4 * STEP))
    assert survey(blocks_of(1, 2), blocks_of(1, 2), span_of(4, 5)).stretch is None


def test_a_block_bought_since_makes_the_grid_finer():
    assert survey(blocks_of(1, 2), blocks_of(2), span_of(1, 3)).share(2) == 1


def test_a_share_is_one_of_all_heights():
    found = survey(blocks_of(1, 2), blocks_of(1, 2), span_of(1, 4))
    assert (found.share(1), found.share(2)) == (Fraction(1, 2), Fraction(3, 4))


def test_a_range_of_picometres_is_surveyed():
    blocks = tuple(Block(nominal=Length(size), unit=Unit.MILLIMETRE) for size in (2, 1))
    span = Span(low=Length(1), high=Length(4), step=Length(1))
    assert survey(blocks, blocks, span).within(2) == 3


def test_a_range_as_large_as_a_table_may_be_is_surveyed(monkeypatch):
    monkeypatch.setattr(reach, "MOST_CELLS", 4)
    last = Span(low=Length(STEP), high=Length(5 * STEP - 1), step=Length(STEP))
    assert survey(blocks_of(1), blocks_of(1), last).share(1) == Fraction(1, 4)
    with pytest.raises(UsageError, match="too many steps"):
        survey(blocks_of(1), blocks_of(1), span_of(1, 5))


def test_a_set_that_makes_nothing_counts_nothing():
    found = survey((), blocks_of(1, 2), span_of(1, 3))
    assert (found.counts, found.counts_issued) == ((0,), (0, 2, 1))


def test_columns_follow_one_another_over_the_range():
    columns = bins(survey(blocks_of(1, 2, 4), blocks_of(1, 2, 4), span_of(2, 11)), 3)
    assert [(column.first // STEP, column.last // STEP) for column in columns] == [(2, 4), (5, 7), (8, 11)]
