import subprocess
import sys
from dataclasses import replace

import pytest

from gaugestack.blocks import Basis
from gaugestack.errors import OurBug
from gaugestack.stacks.judge import approve, broken_rules
from gaugestack.stacks.request import Withheld
from tests.stacks.making import block, built, request, wear_pair

FIVE, THREE, TWO, ONE = block(5), block(3), block(2), block(1)
POOL = (FIVE, THREE, TWO, ONE)
PAIR = wear_pair(2)


def broken(*stacks, **asked):
    targets = asked.pop("targets", (8,))
    return broken_rules(request(*targets, pool=POOL, **asked), stacks)


def test_a_right_stack_breaks_no_rule():
    assert broken(built(8, FIVE, THREE)) == ()


def test_another_right_stack_of_the_same_height_breaks_no_rule_either():
    assert broken(built(8, FIVE, TWO, ONE)) == ()


def test_approve_says_nothing_of_a_right_stack():
    approve(request(8, pool=POOL), [built(8, FIVE, THREE)])


def test_approve_raises_our_bug_with_every_broken_rule():
    with pytest.raises(OurBug) as caught:
        approve(request(8, pool=POOL), [built(8, block(9), block(9))])

    assert [problem.sentence for problem in caught.value.problems] == [
        "a stack of 18 mm misses 8 mm by more than 0 mm",
        "block 9 mm is used 2 times",
        "block 9 mm is not among the blocks allowed",
        "block 9 mm is not among the blocks allowed",
    ]


def test_as_many_stacks_as_heights_are_wanted():
    assert broken(built(5, FIVE), built(3, THREE), targets=(5, 3)) == ()


def test_a_missing_stack_is_named():
    assert broken(built(5, FIVE), targets=(5, 3)) == (
        "1 stacks do not answer the 2 heights asked, in their order",
    )


def test_a_stack_too_many_is_named():
    assert broken(built(8, FIVE, THREE), built(2, TWO)) == (
        "2 stacks do not answer the 1 heights asked, in their order",
    )


def test_stacks_in_the_wrong_order_are_named():
    assert broken(built(3, THREE), built(5, FIVE), targets=(5, 3)) == (
        "2 stacks do not answer the 2 heights asked, in their order",
    )


def test_a_stack_for_another_height_is_named():
    assert broken(built(5, FIVE)) == ("1 stacks do not answer the 1 heights asked, in their order",)


def test_a_deviation_as_large_as_the_tolerance_is_allowed():
    assert broken(built("8.5", FIVE, THREE), targets=("8.5",), tolerance="0.5") == ()


def test_a_deviation_above_the_tolerance_is_named():
    assert broken(built("8.5", FIVE, THREE), targets=("8.5",), tolerance="0.499999999") == (
        "a stack of 8 mm misses 8.5 mm by more than 0.499999999 mm",
    )


def test_a_deviation_upwards_counts_like_one_downwards():
    assert broken(built("7.5", FIVE, THREE), targets=("7.5",), tolerance="0.5") == ()
    assert broken(built("7.5", FIVE, THREE), targets=("7.5",), tolerance="0.4") == (
        "a stack of 8 mm misses 7.5 mm by more than 0.4 mm",
    )


def test_on_the_certified_basis_the_deviations_count():
    long = block(8, deviation=1_000)
    asked = request(8, pool=[long], basis=Basis.CERTIFIED)

    measured = replace(built(8, long), basis=Basis.CERTIFIED)

    assert broken_rules(asked, [measured]) == ("a stack of 8.000001 mm misses 8 mm by more than 0 mm",)
    assert broken_rules(replace(asked, tolerance=1_000), [measured]) == ()
    assert broken_rules(replace(asked, basis=Basis.NOMINAL), [built(8, long)]) == ()


def test_a_stack_measured_on_the_other_basis_is_named():
    sentence = "a stack does not count its lengths on the nominal basis"

    assert broken_rules(request(8, pool=[FIVE, THREE]), [built(8, FIVE, THREE)]) == ()
    assert broken(replace(built(8, FIVE, THREE), basis=Basis.CERTIFIED), targets=(8,)) == (sentence,)


def test_a_block_twice_in_one_stack_is_named():
    assert broken(built(10, FIVE, FIVE), targets=(10,)) == ("block 5 mm is used 2 times",)


def test_a_block_in_two_stacks_is_named():
    assert broken(built(8, FIVE, THREE), built(5, FIVE), targets=(8, 5)) == ("block 5 mm is used 2 times",)


def test_two_pieces_of_one_size_are_no_block_twice():
    other = block(5, copy=2)

    assert broken_rules(request(10, pool=[FIVE, other]), [built(10, FIVE, other)]) == ()


def test_a_block_outside_the_pool_is_named():
    assert broken(built(8, block(8))) == ("block 8 mm is not among the blocks allowed",)


def test_another_piece_of_a_size_in_the_pool_is_named_too():
    assert broken(built(8, FIVE, block(3, serial="K-117"))) == ("block 3 mm is not among the blocks allowed",)


def test_wear_blocks_asked_for_need_not_be_in_the_pool():
    assert broken(built(12, PAIR[0], FIVE, THREE, PAIR[1]), targets=(12,), ends=(PAIR,)) == ()


def test_a_withheld_block_is_named_with_the_reason():
    assert broken(built(8, FIVE, THREE), withheld=(Withheld(block=THREE, reason="lent"),)) == (
        "block 3 mm is out (lent)",
    )


def test_a_withheld_block_that_is_not_used_is_no_fault():
    assert broken(built(8, FIVE, THREE), withheld=(Withheld(block=TWO, reason="lent"),)) == ()


def test_withholding_one_piece_leaves_its_equal_allowed():
    assert broken(built(8, FIVE, THREE), withheld=(Withheld(block=block(3, copy=2), reason="lent"),)) == ()


def test_a_block_kept_in_is_wanted():
    assert broken(built(8, FIVE, TWO, ONE), kept_in=(TWO,)) == ()


def test_a_block_kept_in_and_not_used_is_named():
    assert broken(built(8, FIVE, THREE), kept_in=(TWO,)) == ("block 2 mm was to be kept in and is not used",)


def test_a_block_kept_in_may_stand_in_any_of_the_stacks():
    assert broken(built(5, FIVE), built(3, TWO, ONE), targets=(5, 3), kept_in=(TWO,)) == ()


@pytest.mark.parametrize(
    "blocks",
    [
        (FIVE, THREE, *PAIR),
        (*PAIR, FIVE, THREE),
        (PAIR[0], FIVE, PAIR[1], THREE),
        (FIVE, *PAIR, THREE),
    ],
)
def test_a_wear_pair_that_is_not_at_both_ends_is_named(blocks):
    assert broken(built(12, *blocks), targets=(12,), ends=(PAIR,)) == (
        "the wear pair does not stand at both ends",
    )


def test_either_wear_block_may_be_the_lower():
    assert broken(built(12, PAIR[1], FIVE, THREE, PAIR[0]), targets=(12,), ends=(PAIR,)) == ()


def test_a_missing_wear_pair_is_named():
    assert broken(built(8, FIVE, THREE), ends=(PAIR,)) == ("the wear pair does not stand at both ends",)


def test_one_wear_block_alone_is_no_pair():
    assert broken(built(2, PAIR[0]), targets=(2,), ends=(PAIR,)) == (
        "the wear pair does not stand at both ends",
    )


def test_a_block_with_one_good_face_has_no_end_under_a_wear_pair():
    inside = [built(7, PAIR[0], THREE, PAIR[1])]
    asked = {"pool": POOL, "ends": (PAIR,), "end_only": (THREE,)}

    assert broken_rules(request(7, **asked), inside) == ("a block with one good face has no end to stand at",)
    assert broken_rules(request(8, pool=POOL, end_only=(THREE,)), [built(8, FIVE, THREE)]) == ()


def test_a_wear_block_where_none_was_asked_for_is_named():
    wear = block(3, wear=True)

    assert broken_rules(request(8, pool=[FIVE, wear]), [built(8, FIVE, wear)]) == (
        "a wear block stands where none was asked for",
    )


def test_the_wear_pair_of_another_stack_is_named():
    other = wear_pair(2, first=3)
    stacks = [built(9, PAIR[0], FIVE, PAIR[1]), built(7, other[0], THREE, other[1])]
    asked = request(9, 7, pool=POOL, ends=(PAIR, other))

    assert broken_rules(asked, stacks) == ()
    assert broken_rules(replace(asked, ends=(other, PAIR)), stacks) == (
        "the wear pair does not stand at both ends",
        "a wear block stands where none was asked for",
        "the wear pair does not stand at both ends",
        "a wear block stands where none was asked for",
    )


def test_as_many_blocks_as_allowed_are_no_fault():
    assert broken(built(8, FIVE, THREE), most=2) == ()


def test_more_blocks_than_allowed_are_named():
    assert broken(built(8, FIVE, TWO, ONE), most=2) == ("3 blocks where at most 2 were allowed",)


def test_the_wear_pair_counts_among_the_blocks():
    stack = built(12, PAIR[0], FIVE, THREE, PAIR[1])

    assert broken(stack, targets=(12,), ends=(PAIR,), most=4) == ()
    assert broken(stack, targets=(12,), ends=(PAIR,), most=3) == ("4 blocks where at most 3 were allowed",)


def test_the_largest_count_is_one_of_each_stack():
    assert broken(built(5, FIVE), built(3, TWO, ONE), targets=(5, 3), most=2) == ()


def test_a_barred_stack_is_named_in_whatever_order_it_stands_and_another_is_not():
    barred = ((THREE, FIVE),)
    assert broken(built(8, FIVE, THREE), barred=barred) == ("a stack that was not to be taken again",)
    assert broken(built(8, FIVE, TWO, ONE), barred=barred) == ()
    assert broken(built(8, FIVE, THREE), barred=((FIVE, TWO, ONE), (THREE, FIVE))) == (
        "a stack that was not to be taken again",
    )


NO_END = "a block with one good face has no end to stand at"


def test_two_blocks_with_one_good_face_have_both_ends_and_a_third_has_none():
    asked = {"targets": (10,), "end_only": (FIVE, THREE)}
    assert broken(built(10, FIVE, TWO, THREE), **asked) == ()
    asked["end_only"] = (FIVE, THREE, TWO)
    assert broken(built(10, FIVE, TWO, THREE), **asked) == (NO_END,)


def test_a_block_with_one_good_face_does_not_stand_alone():
    assert broken(built(5, FIVE), targets=(5,), end_only=(FIVE,)) == (NO_END,)
    assert broken(built(5, FIVE), targets=(5,), end_only=(THREE,)) == ()


def test_under_a_wear_pair_no_block_with_one_good_face_has_an_end():
    stack = built(12, PAIR[0], FIVE, THREE, PAIR[1])
    assert broken(stack, targets=(12,), ends=(PAIR,), end_only=(THREE,)) == (NO_END,)
    assert broken(stack, targets=(12,), ends=(PAIR,), end_only=(TWO,)) == ()


def test_a_stack_without_blocks_under_a_wear_pair_is_named_for_both():
    assert broken(built(1), targets=(1,), tolerance=1, ends=(PAIR,)) == (
        "the wear pair does not stand at both ends",
        "a stack without blocks",
    )


def test_a_stack_without_blocks_is_named():
    assert broken(built(1), targets=(1,), tolerance=1) == ("a stack without blocks",)


def test_a_single_block_is_a_stack():
    assert broken(built(5, FIVE), targets=(5,)) == ()


def test_the_judge_knows_no_solver_and_no_table():
    program = (
        "import sys; import gaugestack.stacks.judge; "
        "print(sorted(m for m in sys.modules if m.split('.')[0] in ('ortools', 'numpy') "
        "or m.startswith('gaugestack.stacks.')))"
    )

    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)

    assert done.stdout == "['gaugestack.stacks.judge']\n"
