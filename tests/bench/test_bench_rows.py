"""Rows refuse a figure without a peer, ratios point the right way, peers are right on a tiny set."""

import importlib
from itertools import combinations
from pathlib import Path

import pytest

SIZES, THIN = [7, 5, 4, 3, 1], [False, False, False, True, True]


@pytest.fixture
def bench(monkeypatch):
    """Give access to the bench's modules, which import each other as a script's neighbours."""
    monkeypatch.syspath_prepend(str(Path(__file__).parent))
    return importlib.import_module


def row(bench, *, floor=False, **times):
    rows = bench("rows")
    return rows.Row(figure="f", beside="b", goal=rows.Goal(aim=2, fails=1, floor=floor), **times)


def test_a_figure_without_a_peer_is_refused(bench):
    with pytest.raises(ValueError, match="needs its peer"):
        row(bench, ours=(1.0,), same=(1.0,))


def test_what_could_not_be_measured_is_a_row_without_ratio_that_does_not_pass(bench):
    missing = row(bench, missing="exit code 2")
    assert missing.ratio is None
    assert not missing.holds(0)


def test_a_peer_four_times_slower_is_four_times_beaten_and_a_quicker_one_fails(bench):
    times = {"ours": (1.0, 9.0), "same": (1.0,)}
    assert row(bench, **times, peer=(4.0,)).ratio == 4
    assert row(bench, **times, peer=(4.0,)).holds(2)
    assert not row(bench, **times, peer=(0.5,)).holds(1)


def test_ours_four_times_the_floor_is_too_much_where_two_are_allowed(bench):
    assert row(bench, floor=True, ours=(4.0,), same=(4.0,), peer=(1.0,)).ratio == 4
    assert not row(bench, floor=True, ours=(4.0,), same=(4.0,), peer=(1.0,)).holds(2)
    assert row(bench, floor=True, ours=(1.5,), same=(1.5,), peer=(1.0,)).holds(2)


def test_the_plain_model_takes_fewest_then_fewest_thin_then_the_largest_first(bench):
    answer = bench("peers").plain_cp_sat(SIZES, THIN, [11], 5.0)
    assert answer.proven
    assert answer.stacks == ((0, 2),)
    assert bench("peers").plain_cp_sat(SIZES, THIN, [8], 5.0).stacks == ((0, 4),)
    assert bench("peers").plain_cp_sat([5, 4, 3, 2], [False] * 4, [7], 5.0).stacks == ((0, 3),)


def test_the_plain_model_knows_when_there_is_no_stack_or_not_for_both(bench):
    plain = bench("peers").plain_cp_sat
    assert plain(SIZES, THIN, [18], 5.0).proven
    assert plain(SIZES, THIN, [18], 5.0).stacks == ()
    assert plain(SIZES, THIN, [7, 1, 1], 5.0).stacks == ()
    assert plain(SIZES, THIN, [7, 1], 5.0).stacks == ((0,), (4,))


def test_every_peer_counts_the_same_fewest_blocks(bench):
    peers = bench("peers")
    table = peers.dict_table(SIZES, 20)
    for height in (1, 2, 6, 11, 13, 20):
        stacks = peers.plain_cp_sat(SIZES, THIN, [height], 5.0).stacks
        assert table.get(height) == (len(stacks[0]) if stacks else None)
        assert table.get(height) == peers.highs_fewest(SIZES, height, 5.0)


def test_the_peer_that_leaves_out_each_block_agrees_with_looking_at_every_choice(bench):
    def made(kept):
        chosen = (choice for count in range(3) for choice in combinations(kept, count))
        return len({sum(choice) for choice in chosen} & set(range(2, 13)))

    expected = [made(SIZES) - made(SIZES[:place] + SIZES[place + 1 :]) for place in range(len(SIZES))]
    assert bench("peers").left_out(SIZES, 2, 12, most=2) == expected


def test_heights_at_once_that_take_more_blocks_than_there_are_get_a_reason_and_no_figure(bench):
    growth = bench("growth")
    row = growth._at_once_row(growth.Grown("81 blocks", ["inch-81"]), 100, bench("plan").QUICK)
    assert (row.ratio, row.missing) == (None, "cannot be: they take at least 198 blocks")
