"""What is composed where the effort ends, of exactly one length, and of one stack after the other."""

from dataclasses import replace

import pytest

from gaugestack.blocks import Basis
from gaugestack.errors import OurBug
from gaugestack.lengths import Length
from gaugestack.stacks import certified, reach, solve
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.model import Decision, Kind, Pile, Puzzle, Verdict
from gaugestack.stacks.puzzles import SHARED
from gaugestack.stacks.request import Proof, Undecided
from gaugestack.stacks.solve import Composer, best_of, compose, exactly, one_after_the_other
from tests.stacks.making import block, mm, request, sizes, wear_pair

FIVE, THREE, TWO, ONE = POOL = (block(5), block(3), block(2), block(1))


def test_a_stack_known_at_the_limit_is_the_one_told(monkeypatch):
    known = Decision(verdict=Verdict.LIMIT, counts=((0, 1, 1, 0),))
    monkeypatch.setattr(solve, "best_of", lambda _puzzles, _effort: known)
    outcome = compose(request(5, pool=POOL))

    assert isinstance(outcome, Undecided)
    assert [sizes(stack) for stack in outcome.best] == [["3", "2"]]


def test_where_no_puzzle_has_an_answer_there_is_none():
    assert best_of((), Effort()).verdict is Verdict.INFEASIBLE


def test_of_puzzles_as_good_as_each_other_the_first_answers():
    kinds = (Kind(size=5, pieces=1, thin=False),)
    puzzle = Puzzle(kinds=kinds, piles=(Pile(aim=5, heights=((5, 5),), kinds=(0,)),))

    assert best_of((puzzle, puzzle), Effort()).counts == ((1,),)


def test_a_request_for_nothing_is_our_bug():
    with pytest.raises(OurBug) as refused:
        compose(request(pool=POOL))

    assert "a request needs at least one height and no tolerance below zero" in str(refused.value)
    assert "XX" not in str(refused.value)


def test_one_after_the_other_has_a_small_effort_of_its_own(monkeypatch):
    assert [sizes(stack) for stack in one_after_the_other(request(5, 3, pool=POOL))] == [["5"], ["3"]]

    monkeypatch.setattr(solve, "AT_THE_LIMIT", 0)
    assert one_after_the_other(request(5, 3, pool=POOL)) == ()


def test_one_after_the_other_stands_a_block_kept_in_once():
    found = one_after_the_other(request(7, 3, pool=POOL, kept_in=(TWO,)))

    assert [sizes(stack) for stack in found] == [["5", "2"], ["3"]]


def test_one_after_the_other_gives_each_its_own_wear_pair():
    ends = (wear_pair(2), wear_pair(2, first=3))
    found = one_after_the_other(request(9, 7, pool=POOL, ends=ends))

    assert [stack.blocks[0] for stack in found] == [ends[0][0], ends[1][0]]


def test_exactly_is_to_the_picometre_and_within_the_effort():
    asked = request(5, pool=(replace(FIVE, deviation=Length(1)),), tolerance=1, basis=Basis.CERTIFIED)

    assert exactly(asked, mm(5)) is None
    assert sizes(exactly(asked, Length(mm(5) + 1))) == ["5"]
    assert exactly(request(5, pool=POOL), mm(5), Effort(limit=0)) is None


def test_several_odd_blocks_are_there():
    """In tenths: 7 is 3 + 4, and two such heights take four blocks of three."""
    pool = [block("1.3"), block("1.3", copy=2), block("1.4"), *(block(size) for size in (1, 2, 3, 5))]

    assert compose(request("5.7", "7.7", pool=pool)).sentence.endswith(
        "they take 4 blocks that are no whole multiple of 1 mm, and only 3 are there"
    )


def off(size, deviation, **more):
    """Return a block with a certified deviation in picometres."""
    return replace(block(size, **more), deviation=Length(deviation))


def bound(monkeypatch, asked):
    """Return the bound told where every number of blocks tried fails and then the limit comes."""

    def failing(puzzles, _effort):
        return Decision(verdict=Verdict.LIMIT if puzzles[0].total is None else Verdict.INFEASIBLE)

    monkeypatch.setattr(solve, "best_of", failing)
    return compose(asked).at_least


def test_numbers_of_blocks_that_were_tried_and_failed_are_counted(monkeypatch):
    """7 takes two blocks at least, 7 and 1 three; so many more than the fewest are tried."""
    assert bound(monkeypatch, request(7, pool=POOL)) == 2 + SHARED + 1
    assert bound(monkeypatch, request(7, 1, pool=POOL)) == 3 + SHARED + 1


def test_a_number_of_blocks_is_tried_to_the_end_for_one_certified_stack_alone(monkeypatch):
    """Of several stacks only their own closest are tried."""
    monkeypatch.setattr(certified, "MOST_ENUMERATED", 1)

    assert bound(monkeypatch, request(5, pool=POOL, basis=Basis.CERTIFIED)) == 2
    assert bound(monkeypatch, request(5, 3, pool=POOL, basis=Basis.CERTIFIED)) == 2


def test_where_the_limit_comes_among_puzzles_the_best_known_is_not_proven(monkeypatch):
    kinds = (Kind(size=5, pieces=1, thin=False),)
    puzzle = Puzzle(kinds=kinds, piles=(Pile(aim=5, heights=((5, 5),), kinds=(0,)),))
    known, limit = Decision(verdict=Verdict.OPTIMAL, counts=((1,),)), Decision(verdict=Verdict.LIMIT)
    for second in (limit, replace(limit, counts=known.counts)):
        decisions = iter([known, second])
        monkeypatch.setattr(solve, "decide", lambda _puzzle, _effort, told=decisions: next(told))

        assert best_of((puzzle, puzzle), Effort()) == replace(limit, counts=known.counts)


@pytest.mark.parametrize("cells", [-1, reach.QUICK_CELLS])
@pytest.mark.parametrize("basis", list(Basis))
def test_what_is_looked_at_for_a_request_is_its_own_effort(monkeypatch, basis, cells):
    monkeypatch.setattr(reach, "QUICK_CELLS", cells)
    effort = Effort()

    assert Composer(request(5, pool=POOL, basis=basis), effort).grounds.effort is effort


def test_a_wear_pair_and_all_blocks_are_as_long_as_the_basis_says():
    pair = (off(2, 1, wear=True), off(2, 1, wear=True, copy=2))
    short = (off(5, -3), off(3, -2))

    assert compose(request(4, pool=POOL, ends=(pair,), basis=Basis.CERTIFIED)).proof is Proof.ENDS
    assert sizes(compose(request(4, pool=POOL, ends=(pair,))).stacks[0]) == ["2", "2"]
    assert compose(request(8, pool=short, basis=Basis.CERTIFIED)).proof is Proof.TOTAL
    assert compose(request("8.000000001", pool=(off(5, 3), off(3, 2)))).proof is Proof.TOTAL
