from dataclasses import replace

from gaugestack.blocks import Basis
from gaugestack.lengths import Length
from gaugestack.stacks import alternatives
from gaugestack.stacks.alternatives import next_best, proof_stack, trade_offs
from gaugestack.stacks.judge import broken_rules
from gaugestack.stacks.model import Effort, Kind, Pile, Puzzle, Verdict, decide
from gaugestack.stacks.request import Found, Impossible, Undecided
from gaugestack.stacks.solve import compose
from tests.stacks.making import block, built, mm, request, sizes, wear_pair

POOL = (block(9), block(6), block(5), block(4), block(3))
NINE, SIX, FIVE, FOUR, THREE = POOL


def best(asked):
    found = compose(asked)
    assert isinstance(found, Found)
    return found.stacks[0]


def following(asked, count, **more):
    listed = next_best(asked, best(asked), count, **more)
    return [sizes(stack) for stack in listed.stacks], listed.complete


def puzzle(*barred, pieces=1):
    """9 of 9, 6 + 3 or 5 + 4; kinds from the largest."""
    kinds = tuple(Kind(size=size, pieces=pieces, thin=False) for size in (9, 6, 5, 4, 3))
    return Puzzle(kinds=kinds, piles=(Pile(aim=9, heights=((9, 9),), kinds=range(5)),), barred=barred)


def test_without_a_bar_the_best_answer_is_given():
    assert decide(puzzle()).counts == ((1, 0, 0, 0, 0),)


def test_a_barred_answer_is_not_given_again():
    assert decide(puzzle((1, 0, 0, 0, 0))).counts == ((0, 1, 0, 0, 1),)
    assert decide(puzzle((1, 0, 0, 0, 0), (0, 1, 0, 0, 1))).counts == ((0, 0, 1, 1, 0),)


def test_where_every_answer_is_barred_there_is_none():
    barred = puzzle((1, 0, 0, 0, 0), (0, 1, 0, 0, 1), (0, 0, 1, 1, 0))

    assert decide(barred).verdict is Verdict.INFEASIBLE


def test_an_answer_that_holds_a_barred_one_and_more_is_another():
    """Up to 12 may be made: with 9 barred and nothing but 9 and 3 there, 9 + 3 will do."""
    asked = replace(puzzle((1, 0, 0, 0, 0)), piles=(Pile(aim=9, heights=((9, 12),), kinds=(0, 4)),))

    assert decide(asked).counts == ((1, 0, 0, 0, 1),)


def test_fewer_of_a_kind_make_another_answer():
    """9 of three 3 or of 6 and 3."""
    three = puzzle((1, 0, 0, 0, 0), (0, 1, 0, 0, 1), (0, 0, 1, 1, 0), pieces=3)

    assert decide(three).counts == ((0, 0, 0, 0, 3),)


def test_the_next_stacks_come_in_the_order_of_preference():
    assert following(request(9, pool=POOL), 2) == ([["6", "3"], ["5", "4"]], False)


def test_where_there_are_no_more_the_list_is_complete():
    assert following(request(9, pool=POOL), 5) == ([["6", "3"], ["5", "4"]], True)


def test_at_the_limit_nobody_says_that_there_are_no_more():
    asked = request(9, pool=POOL)

    assert next_best(asked, built(9, NINE), 2, Effort(limit=0)).complete is None


def test_a_wear_pair_is_part_of_every_next_stack():
    asked = request(13, pool=POOL, ends=(wear_pair(2),))

    assert following(asked, 1) == ([["2", "6", "3", "2"]], False)


def test_pieces_that_nothing_tells_apart_make_no_other_stack():
    twins = (block(5), block(5, copy=2), block(3))

    assert following(request(5, pool=twins), 3) == ([], True)


def test_on_certified_lengths_they_do():
    twins = (block(5, deviation=Length(0)), block(5, copy=2, deviation=Length(1000)))
    asked = request(5, pool=twins, tolerance="0.001", basis=Basis.CERTIFIED)

    assert following(asked, 3) == ([["5"]], True)


def test_the_judge_refuses_a_stack_that_is_not_to_be_taken_again():
    asked = request(9, pool=POOL, barred=((SIX, THREE),))

    assert broken_rules(asked, [built(9, THREE, SIX)]) == ("a stack that was not to be taken again",)
    assert broken_rules(asked, [built(9, FIVE, FOUR)]) == ()
    assert broken_rules(replace(asked, barred=()), [built(9, SIX, THREE)]) == ()


def test_the_proof_stack_shares_no_block_with_the_first():
    asked = request(9, pool=POOL)

    assert sizes(proof_stack(asked, best(asked)).stacks[0]) == ["6", "3"]


def test_without_enough_blocks_there_is_no_proof_stack():
    asked = request(9, pool=(NINE, SIX))

    assert isinstance(proof_stack(asked, best(asked)), Impossible)


def test_the_proof_stack_stands_on_a_wear_pair_of_its_own():
    pairs = (wear_pair(2), wear_pair(2, first=3))
    asked = request(13, pool=POOL, ends=pairs[:1])
    proof = proof_stack(replace(asked, ends=pairs), best(asked))

    assert proof.stacks[0].blocks == (pairs[1][0], SIX, THREE, pairs[1][1])


CERTIFIED = (
    block(9, deviation=Length(5000)),
    block(6, deviation=Length(3000)),
    block(3, deviation=Length(-1000)),
    block(4, deviation=Length(0)),
    block(2, deviation=Length(0)),
)


def front(tolerance, **more):
    asked = request(9, pool=CERTIFIED, tolerance=tolerance, basis=Basis.CERTIFIED, **more)
    listed = trade_offs(asked, best(asked))
    return [(len(stack.blocks), stack.deviation) for stack in listed.stacks], listed.complete


def test_more_blocks_are_offered_for_a_smaller_deviation():
    """9 is 5 nm off, 6 + 3 is 2 nm off, 4 + 3 + 2 is 1 nm off."""
    assert front("0.001") == ([(1, 5000), (2, 2000), (3, -1000)], True)


def test_no_more_blocks_are_offered_than_allowed():
    assert front("0.001", most=2) == ([(1, 5000), (2, 2000)], True)


def test_an_exact_stack_is_the_whole_front():
    asked = request(9, pool=POOL)

    assert trade_offs(asked, best(asked)).stacks == (built(9, NINE),)
    assert best(asked).target == mm(9)


def test_where_no_effort_is_left_no_alternative_is_found_or_denied():
    asked = request(9, pool=CERTIFIED, tolerance="0.001", basis=Basis.CERTIFIED)

    assert isinstance(proof_stack(asked, best(asked), Effort(limit=0)), Undecided)
    assert trade_offs(asked, best(asked), Effort(limit=0)).complete is None


def test_a_picometre_less_is_a_smaller_deviation():
    pool = (block(9, deviation=Length(2)), block(6, deviation=Length(1)), block(3, deviation=Length(0)))
    asked = request(9, pool=pool, tolerance="0.001", basis=Basis.CERTIFIED)

    assert [stack.deviation for stack in trade_offs(asked, best(asked)).stacks] == [2, 1]


def test_a_block_with_one_good_face_that_the_first_took_binds_the_proof_stack_no_more():
    asked = request(9, pool=POOL[1:], end_only=(SIX, FIVE))

    assert sizes(proof_stack(asked, best(asked)).stacks[0]) == ["5", "4"]


def test_no_more_blocks_are_traded_than_are_looked_for(monkeypatch):
    monkeypatch.setattr(alternatives, "MOST_TRADED", 2)

    assert front("0.001") == ([(1, 5000), (2, 2000)], True)
    assert front("0.001", most=3) == ([(1, 5000), (2, 2000)], True)


def test_a_block_kept_in_the_first_is_not_kept_in_the_proof_stack():
    asked = request(9, pool=POOL, kept_in=(NINE,))

    assert sizes(proof_stack(asked, best(asked)).stacks[0]) == ["6", "3"]


def test_three_blocks_with_one_good_face_are_no_proof_stack():
    pool = (NINE, FOUR, THREE, block(2))
    asked = request(9, pool=pool, end_only=pool[1:])

    assert isinstance(proof_stack(asked, best(asked)), Impossible)


def test_a_closer_stack_of_more_blocks_than_allowed_is_not_offered():
    pool = (CERTIFIED[0], *CERTIFIED[2:])
    asked = request(9, pool=pool, tolerance="0.001", most=2, basis=Basis.CERTIFIED)

    assert [stack.deviation for stack in trade_offs(asked, best(asked)).stacks] == [5000]


def test_a_closer_stack_of_more_blocks_than_are_looked_for_is_not_offered(monkeypatch):
    monkeypatch.setattr(alternatives, "MOST_TRADED", 2)
    asked = request(9, pool=(CERTIFIED[0], *CERTIFIED[2:]), tolerance="0.001", basis=Basis.CERTIFIED)

    assert [stack.deviation for stack in trade_offs(asked, best(asked)).stacks] == [5000]
