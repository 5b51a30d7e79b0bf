"""One request has one budget, whatever is asked of it on the way."""

from dataclasses import replace

import pytest

from gaugestack.stacks.effort import COUNTED, Effort
from gaugestack.stacks.explain import blocks_that_restore, explained
from gaugestack.stacks.model import Decision, Kind, Pile, Puzzle, Verdict, decide
from gaugestack.stacks.request import Found, Undecided, Withheld
from gaugestack.stacks.solve import compose
from gaugestack.stacks.together import NotFoundOut, conflict, told
from tests.stacks.making import block, request

WIDE = tuple(block(number) for number in range(1, 60))
KINDS = tuple(Kind(size=size, pieces=1, thin=False) for size in range(1, 20))


def puzzle(aim):
    pile = Pile(aim=aim, heights=((aim, aim),), kinds=tuple(range(len(KINDS))))
    return Puzzle(kinds=KINDS, piles=(pile,))


def test_what_a_puzzle_took_is_spent():
    effort = Effort()

    assert decide(puzzle(50), effort).verdict is Verdict.OPTIMAL
    assert 0 < effort.spent < effort.limit
    assert effort.left == effort.limit - effort.spent


def test_the_second_puzzle_gets_what_the_first_left():
    first, both = Effort(), Effort()
    decide(puzzle(50), first)
    decide(puzzle(50), both)
    decide(puzzle(50), both)

    assert both.spent == 2 * first.spent


def test_with_nothing_left_nothing_is_begun():
    effort = Effort(limit=1.0, spent=1.5)

    assert decide(puzzle(50), effort) == Decision(verdict=Verdict.LIMIT)
    assert (effort.left, effort.spent) == (0, 1.5)


def test_what_our_own_searches_look_at_counts_as_well():
    effort = Effort(limit=2.0)
    effort.count(COUNTED)

    assert effort.left == 1.0
    effort.count(COUNTED // 2)
    assert effort.left == 0.5


def test_several_stacks_share_one_budget_and_end_undecided_with_stacks_and_bound():
    asked = request(300, 290, 280, 270, pool=WIDE, most=12)
    effort = Effort(limit=0.001)
    outcome = compose(asked, effort)

    assert isinstance(outcome, Undecided)
    assert outcome.at_least >= 4 * 5
    assert effort.left == 0


def test_requests_that_share_a_budget_end_where_it_ends():
    asked = request(300, 290, 280, 270, pool=WIDE, most=12)
    effort = Effort()
    assert isinstance(compose(asked, effort), Found)

    effort.spend(effort.left)
    assert isinstance(compose(asked, effort), Undecided)


def test_half_of_what_is_left_can_be_lent_and_is_taken_off():
    effort = Effort(limit=8.0, spent=2.0)
    with effort.half() as half:
        assert half.left == 3.0
        half.spend(2.5)

    assert effort.left == 3.5


def test_what_is_lent_searches_as_the_whole_does():
    with Effort(seed=7, workers=3).half() as half:
        assert (half.seed, half.workers) == (7, 3)


def test_ways_out_that_were_not_looked_for_are_not_taken_for_none():
    """Two halves of one block: shown by counting, and nothing left to look for what would free them."""
    pool = [block(size) for size in ("1.0005", 5, 10, 20)]
    outcome = explained(request("6.0005", "11.0005", pool=pool), Effort(limit=0))

    assert outcome.ways_out[-1].kind == "effort"
    said = "there may be more ways out: the limit on effort was reached looking for them"
    assert outcome.ways_out[-1].sentence == said


def test_which_heights_fail_together_is_said_only_where_it_was_found_out():
    pool = [block(size) for size in ("1.0005", 5, 10, 20, 30)]
    asked = request("6.0005", "11.0005", "20", pool=pool)

    assert told(asked, compose(asked), Effort()).together == (0, 1)
    hard = request("300", "290", "280", "270", pool=WIDE, most=12)
    with pytest.raises(NotFoundOut):
        conflict(hard, Effort(limit=0))


def test_both_searches_for_the_blocks_that_restore_a_height_are_spent():
    """One for the fewest blocks wanted back, one for the best stack with them."""
    four, three, two = block(4), block(3), block(2)
    asked = request(7, pool=(three, two), withheld=(Withheld(block=four, reason="lent"),))
    both, one_by_one = Effort(), Effort()
    list(blocks_that_restore(asked, compose(asked), both))
    back = replace(asked, pool=(four, three, two), withheld=())
    compose(replace(back, scarce=(four,)), one_by_one)
    first = one_by_one.spent
    compose(back, one_by_one)

    assert 0 < first < one_by_one.spent
    assert both.spent == pytest.approx(one_by_one.spent)
