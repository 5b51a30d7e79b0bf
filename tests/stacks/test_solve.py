import random
from dataclasses import replace
from functools import cache

import pytest

from gaugestack.blocks import Basis
from gaugestack.errors import OurBug
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_names, shipped_path
from gaugestack.lengths import Length
from gaugestack.stacks import judge, reach
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.request import Found, Impossible, Proof, StackRequest, Undecided
from gaugestack.stacks.solve import Composer, compose, exactly, one_after_the_other
from tests.stacks.making import block, built, mm, request, sizes, wear_pair

FIVE, THREE, TWO, ONE = block(5), block(3), block(2), block(1)
POOL = (FIVE, THREE, TWO, ONE)
PAIR = wear_pair(2)
HEIGHTS = 2000
QUICK = 200
WEAR_ONLY = {name for name in shipped_names() if "wear" in name}
SETS = [name for name in shipped_names() if name not in WEAR_ONLY]


def found(*targets, pool=POOL, **asked):
    outcome = compose(request(*targets, pool=pool, **asked))
    assert isinstance(outcome, Found)
    return [sizes(stack) for stack in outcome]


def proof(*targets, pool=POOL, **asked):
    outcome = compose(request(*targets, pool=pool, **asked))
    assert isinstance(outcome, Impossible)
    return outcome.proof


def test_the_fewest_blocks_are_taken():
    assert found(5) == [["5"]]


def test_of_as_few_blocks_the_nearest_are_taken():
    assert found("7.4", tolerance=1) == [["5", "2"]]


def test_fewer_blocks_further_off_are_preferred_within_the_tolerance():
    assert found("5.9", tolerance=1) == [["5"]]
    assert found("5.9", tolerance="0.1") == [["5", "1"]]


def test_of_as_few_and_as_near_those_with_fewest_thin_blocks_are_taken():
    pool = [block(6), block(2), block(5), block(3)]

    assert found(8, pool=pool) == [["5", "3"]]


def test_of_what_is_left_the_largest_blocks_are_taken():
    pool = [block(7), block(3), block(6), block(4)]

    assert found(10, pool=pool) == [["7", "3"]]


def test_heights_as_far_below_as_above_are_settled_by_the_largest_block():
    assert found("7.5", pool=[block(7), block(8)], tolerance="0.5") == [["8"]]


def test_several_heights_use_no_block_twice():
    assert found(5, 5) == [["5"], ["3", "2"]]


def test_several_heights_answer_in_the_order_asked():
    assert found(3, 5) == [["3"], ["5"]]


def test_of_several_heights_the_first_gets_the_largest_blocks():
    pool = [block(7), block(6), block(4), block(3)]

    assert found(10, 10, pool=pool) == [["7", "3"], ["6", "4"]]


def test_the_wear_pair_stands_outside_and_counts_in_the_height():
    outcome = compose(request(12, pool=POOL, ends=(PAIR,)))

    assert outcome.stacks[0].blocks == (PAIR[0], FIVE, THREE, PAIR[1])


def test_a_wear_pair_may_be_the_whole_height():
    assert found(4, ends=(PAIR,)) == [["2", "2"]]


def test_the_wear_pair_counts_in_the_number_of_blocks():
    assert found(12, ends=(PAIR,), most=4) == [["2", "5", "3", "2"]]
    assert proof(12, ends=(PAIR,), most=3) is Proof.COUNT


def test_each_of_several_heights_gets_its_own_wear_pair():
    assert found(9, 7, ends=(PAIR, wear_pair(2, first=3))) == [["2", "5", "2"], ["2", "3", "2"]]


def test_a_block_kept_in_is_used():
    assert found(5, kept_in=(TWO,)) == [["3", "2"]]


def test_blocks_kept_in_may_be_the_whole_height():
    assert found(3, kept_in=(TWO, ONE)) == [["2", "1"]]


def test_a_block_kept_in_stands_in_whichever_stack_it_costs_least():
    assert found(8, 3, kept_in=(TWO,)) == [["5", "3"], ["2", "1"]]


def test_of_several_heights_each_keeps_within_the_largest_count():
    assert found(8, 3, most=2) == [["5", "3"], ["2", "1"]]
    assert proof(8, 3, most=1) is Proof.COUNT


def test_equal_pieces_are_taken_by_serial():
    pieces = [block(5, serial="K-9"), block(5, serial="K-1"), THREE]

    assert compose(request(5, pool=pieces)).stacks[0].blocks == (pieces[1],)


def test_a_deviation_is_length_minus_target():
    outcome = compose(request("5.5", pool=[FIVE], tolerance="0.5"))

    assert (outcome.stacks[0].length, outcome.stacks[0].deviation) == (mm(5), -mm("0.5"))


def test_a_height_off_the_grid_is_impossible_by_the_grid():
    assert proof("5.5") is Proof.GRID


def test_a_height_off_the_grid_is_made_within_the_tolerance():
    assert found("5.5", tolerance="0.5") == [["5"]]


def test_a_tolerance_just_too_small_is_impossible_by_the_grid():
    assert proof("5.5", tolerance="0.499999999") is Proof.GRID


def test_a_height_nearer_to_nothing_than_to_the_thinnest_block_is_impossible():
    assert proof("0.4", tolerance="0.5") is Proof.GRID


def test_all_blocks_together_make_the_tallest_stack():
    assert found(11) == [["5", "3", "2", "1"]]


def test_more_than_all_blocks_together_is_impossible_by_their_total():
    assert proof(12) is Proof.TOTAL


def test_more_than_all_blocks_together_is_made_within_the_tolerance():
    assert found(12, tolerance=1) == [["5", "3", "2", "1"]]


def test_a_height_below_the_wear_pair_is_impossible_by_the_ends():
    assert proof(3, ends=(PAIR,)) is Proof.ENDS


def test_more_wear_blocks_than_blocks_allowed_are_impossible_by_the_count():
    assert proof(4, ends=(PAIR,), most=1) is Proof.COUNT


def test_a_wear_pair_a_little_too_tall_is_allowed_within_the_tolerance():
    assert found("3.5", ends=(PAIR,), tolerance="0.5") == [["2", "2"]]


def test_a_height_below_the_blocks_kept_in_is_impossible_by_them():
    assert proof(4, kept_in=(FIVE,)) is Proof.KEPT


def test_more_blocks_kept_in_than_allowed_are_impossible_by_the_count():
    assert proof(8, kept_in=(FIVE, THREE), most=1) is Proof.COUNT


def test_as_many_blocks_kept_in_as_allowed_are_fine():
    assert found(8, kept_in=(FIVE, THREE), most=2) == [["5", "3"]]


def test_a_height_in_a_gap_is_impossible_by_the_table():
    assert proof(4, pool=[FIVE, THREE, TWO]) is Proof.TABLE


def test_a_height_beside_a_gap_is_made():
    assert found(5, pool=[FIVE, THREE, TWO]) == [["5"]]


def test_a_height_in_a_gap_is_made_within_the_tolerance():
    assert found(4, pool=[FIVE, THREE, TWO], tolerance=1) == [["5"]]


def test_a_height_that_needs_more_blocks_is_impossible_by_the_count():
    assert proof(9, most=2) is Proof.COUNT


def test_a_height_with_as_many_blocks_as_allowed_is_made():
    assert found(9, most=3) == [["5", "3", "1"]]


def test_heights_that_want_the_same_block_are_impossible_by_the_solver():
    outcome = compose(request(5, 8, pool=[FIVE, THREE]))

    assert outcome == Impossible(
        proof=Proof.SOLVER, sentence="each height can be made, but not all at once: they want the same blocks"
    )


def test_heights_that_want_different_blocks_are_made_at_once():
    assert found(5, 3, pool=[FIVE, THREE]) == [["5"], ["3"]]


def test_a_second_piece_makes_both_heights_possible():
    assert found(5, 8, pool=[FIVE, THREE, block(5, copy=2)]) == [["5"], ["5", "3"]]


def test_no_block_at_all_makes_nothing():
    assert proof(5, pool=()) is Proof.TOTAL


@pytest.mark.parametrize("asked", [{"targets": (), "tolerance": 0}, {"targets": (mm(5),), "tolerance": -1}])
def test_a_request_for_nothing_or_with_a_tolerance_below_zero_is_our_bug(asked):
    with pytest.raises(OurBug, match="a request needs at least one height and no tolerance below zero"):
        compose(StackRequest(pool=POOL, **asked))


def test_an_answer_the_judge_refuses_is_our_bug(monkeypatch):
    monkeypatch.setattr(judge, "broken_rules", lambda *_: ("the sum is wrong",))

    with pytest.raises(OurBug, match="the sum is wrong"):
        compose(request(5, pool=POOL))


def test_exactly_makes_a_height_without_tolerance():
    asked = request("5.5", pool=POOL, tolerance=1)

    assert exactly(asked, mm(6)) == built(6, FIVE, ONE)


def test_exactly_returns_none_where_the_height_cannot_be_made():
    assert exactly(request("5.5", pool=POOL, tolerance=1), mm("5.5")) is None


def test_exactly_keeps_the_other_rules():
    asked = request(12, pool=POOL, ends=(PAIR,), most=3)

    assert exactly(asked, mm(9)) == built(9, PAIR[0], FIVE, PAIR[1])
    assert exactly(asked, mm(12)) is None


def test_a_tiny_limit_ends_undecided_with_the_bound_of_the_table():
    outcome = compose(request(12, pool=POOL, ends=(PAIR,)), Effort(limit=1e-9))

    assert outcome == Undecided(best=(), at_least=4)


def test_a_tiny_limit_without_a_table_ends_undecided_too(monkeypatch):
    monkeypatch.setattr(reach, "QUICK_CELLS", -1)

    outcome = compose(request(12, pool=POOL, ends=(PAIR,)), Effort(limit=1e-9))

    assert isinstance(outcome, Undecided)
    assert (outcome.best, outcome.at_least <= 4) == ((), True)


def test_what_needs_no_solver_is_decided_under_any_limit():
    assert isinstance(compose(request(12, pool=POOL), Effort(limit=0)), Impossible)


def test_the_best_known_at_the_limit_is_approved_by_the_judge():
    pool = tuple(block(number, copy=1) for number in range(1, 60))
    asked = request(300, 290, 280, 270, pool=pool, most=12)
    outcomes = [compose(asked, Effort(limit=10 ** (power / 2))) for power in range(-10, 1)]

    for outcome in outcomes:
        stacks = outcome.best if isinstance(outcome, Undecided) else outcome.stacks
        assert not stacks or judge.broken_rules(asked, stacks) == ()
    assert isinstance(outcomes[0], Undecided)
    assert isinstance(outcomes[-1], Found)


def test_a_limit_is_repeatable():
    pool = tuple(block(number) for number in range(1, 60))
    asked = request(300, 290, 280, 270, pool=pool, most=12)

    assert compose(asked, Effort(limit=0.001)) == compose(asked, Effort(limit=0.001))


@cache
def ordinary(name):
    return load_set(shipped_path(name))[0].ordinary


@cache
def whole_table(name):
    return reach.table(ordinary(name), Length(10**12))


def heights_of(name):
    """Return random heights of a shipped set in steps of its grid, the same in every run."""
    rng = random.Random(name)  # noqa: S311  (a sample, no secret)
    return [rng.randint(1, whole_table(name).top) for _ in range(HEIGHTS)]


def disagreements(name, heights):
    """Return the heights for which solver and table differ in the number of blocks."""
    table, pool = whole_table(name), ordinary(name)
    wrong = []
    for height in heights:
        asked = StackRequest(targets=(Length(height * table.step),), tolerance=Length(0), pool=pool)
        outcome = Composer(asked, table=table).outcome()
        count = len(outcome.stacks[0].blocks) if isinstance(outcome, Found) else None
        if isinstance(outcome, Undecided) or count != table.count(height):
            wrong.append(height)
    return wrong


def test_wear_blocks_are_no_ordinary_blocks():
    assert [ordinary(name) for name in WEAR_ONLY] == [()] * len(WEAR_ONLY)


@pytest.mark.parametrize("name", SETS)
def test_solver_and_table_count_the_same_on_random_heights_of_a_shipped_set(name):
    assert disagreements(name, heights_of(name)[:QUICK]) == []


@pytest.mark.slow
@pytest.mark.parametrize("name", SETS)
def test_solver_and_table_count_the_same_on_many_heights_of_a_shipped_set(name):
    assert disagreements(name, heights_of(name)[QUICK:]) == []


@pytest.mark.parametrize("name", ["inch-36", "inch-81", "metric-45", "metric-112"])
def test_order_seed_and_workers_change_nothing_on_a_shipped_set(name):
    rng = random.Random(name)  # noqa: S311  (a sample, no secret)
    pool, table = ordinary(name), whole_table(name)
    for height in heights_of(name)[:6]:
        targets = (Length(height * table.step),)
        shuffled = tuple(rng.sample(pool, len(pool)))
        plain = compose(StackRequest(targets=targets, tolerance=Length(0), pool=pool))

        assert compose(StackRequest(targets=targets, tolerance=Length(0), pool=shuffled)) == plain
        for effort in (Effort(seed=7), Effort(seed=12345), Effort(workers=2), Effort(workers=4)):
            assert compose(StackRequest(targets=targets, tolerance=Length(0), pool=pool), effort) == plain


@pytest.mark.parametrize("name", ["inch-28", "metric-32", "metric-45"])
def test_without_a_table_a_shipped_set_gives_the_same_answers(name, monkeypatch):
    pool, table = ordinary(name), whole_table(name)
    heights = [height for height in heights_of(name) if (table.count(height) or 9) <= 5][:4]
    requests = [
        StackRequest(targets=(Length(height * table.step),), tolerance=Length(0), pool=pool)
        for height in heights
    ]
    with_table = [compose(asked) for asked in requests]
    monkeypatch.setattr(reach, "QUICK_CELLS", -1)

    assert [compose(asked) for asked in requests] == with_table
    assert len(with_table) == 4


def test_one_stack_after_the_other_is_something_to_go_on_with():
    """9 takes the 9; a second 9 is made of 6 and 3."""
    pool = (block(9), block(6), block(3))

    assert [sizes(stack) for stack in one_after_the_other(request(9, 9, pool=pool))] == [["9"], ["6", "3"]]


def test_where_the_first_stack_takes_what_the_second_needs_there_is_nothing():
    """11 takes 7 and 4, though 6 and 5 would have left the second its 7."""
    asked = request(11, 7, pool=(block(7), block(6), block(5), block(4)))

    assert one_after_the_other(asked) == ()
    assert isinstance(compose(asked), Found)


def test_a_block_to_be_kept_in_is_not_forgotten():
    pool = (block(9), block(6), block(3), block(5))

    assert one_after_the_other(request(9, 9, pool=pool, kept_in=(pool[3],))) == ()


def test_a_single_height_has_no_other_to_come_after():
    assert one_after_the_other(request(9, pool=(block(9),))) == ()


# ---- blocks that more than their size tells apart


def test_of_equal_pieces_the_least_used_goes_into_the_first_stack():
    worn, fresh = block(5, serial="K-1"), block(5, serial="K-2")

    for uses in (1, 9):
        stacks = compose(request(5, 5, pool=(worn, fresh), uses=((worn, uses),))).stacks
        assert [stack.blocks for stack in stacks] == [(fresh,), (worn,)]


def test_equal_pieces_of_unequal_certified_length_are_told_apart_where_uses_count():
    twins = block(5, serial="K-1", deviation=Length(0)), block(5, serial="K-2", deviation=Length(1000))

    for place, twin in enumerate(twins):
        asked = request(5, pool=(*twins, THREE), basis=Basis.CERTIFIED, uses=((THREE, 3),))
        asked = replace(asked, targets=(Length(mm(5) + 1000 * place),))
        assert compose(asked).stacks[0].blocks == (twin,)


def test_a_block_kept_in_for_several_stacks_is_told_apart_from_its_twin():
    twins = block(5, serial="K-1"), block(5, serial="K-2")

    outcome = compose(request(5, 3, pool=(*twins, THREE), kept_in=twins[1:]))

    assert [stack.blocks for stack in outcome.stacks] == [twins[1:], (THREE,)]


def test_a_block_with_one_good_face_is_told_apart_from_its_twin():
    """Alone stands only the piece with two."""
    one, other = block(5, serial="K-1"), block(5, serial="K-2")

    alone = compose(request(5, pool=(one, other), end_only=(one,)))
    assert alone.stacks[0].blocks == (other,)


def test_one_use_more_counts_before_the_largest_blocks():
    """15 is 6 + 6 + 3, one 6 used once, or 6 + 5 + 4."""
    once = block(6, serial="K-2")
    pool = (block(6, serial="K-1"), once, FIVE, block(4), THREE)

    assert sizes(compose(request(15, pool=pool)).stacks[0]) == ["6", "6", "3"]
    assert sizes(compose(request(15, pool=pool, uses=((once, 1),))).stacks[0]) == ["6", "5", "4"]


def test_at_the_limit_the_table_still_tells_how_many_blocks_it_takes_at_the_least():
    """With scarce blocks no round has a number of blocks of its own."""
    asked = request(8, 3, pool=POOL, scarce=(ONE,))

    assert compose(asked, Effort(limit=0)).at_least == 3
    pair = request(4, pool=POOL, ends=(PAIR,), scarce=(ONE,))
    assert compose(pair, Effort(limit=0)).at_least == 2
