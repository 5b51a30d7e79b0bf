from dataclasses import replace

import pytest

from gaugestack.blocks import Basis
from gaugestack.errors import OurBug
from gaugestack.lengths import Length
from gaugestack.stacks import difference, differencejudge, meeting
from gaugestack.stacks.difference import compose_difference
from gaugestack.stacks.differencerequest import DifferenceFound, DifferenceRequest
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.model import Decision, Verdict, decide
from gaugestack.stacks.request import Built, Impossible, Proof, Undecided
from tests.stacks.making import block, built, mm, request, sizes, wear_pair

POOL = (block(9), block(7), block(6), block(5), block(3))


def asked(difference, pool=POOL, **rules):
    one = request(difference, pool=pool, **rules)
    return DifferenceRequest(target=one.targets[0], rules=one)


def stacks(difference, **rules):
    found = compose_difference(asked(difference, **rules))
    assert isinstance(found, DifferenceFound)
    return sizes(found.high), sizes(found.low)


def broken(difference, high, low, **rules):
    return differencejudge.broken_rules(asked(difference, **rules), high, low)


def stack(*blocks):
    return built(sum(int(one.nominal) for one in blocks) // 10**9, *blocks)


def test_a_difference_no_single_stack_makes_is_made_of_two():
    """1 is 7 - 6 and 6 - 5: the lower the better."""
    assert stacks(1) == (["6"], ["5"])


def test_fewer_blocks_come_before_a_lower_stack():
    """8 is no difference of two single blocks: 6 + 5 - 3."""
    assert stacks(8) == (["6", "5"], ["3"])


def test_a_smaller_deviation_comes_before_a_lower_stack():
    pool = (block(9), block("7.5"), block("4.2"), block(3))

    assert stacks("1.4", pool=pool, tolerance="0.3") == (["9"], ["7.5"])


def test_fewer_thin_blocks_come_before_a_lower_stack():
    pool = (block(9), block(8), block(3), block(2))

    assert stacks(1, pool=pool) == (["9"], ["8"])


def test_each_stack_is_its_own_target():
    found = compose_difference(asked(1))

    assert (found.high.target, found.low.target) == (mm(6), mm(5))
    assert (found.difference, found.deviation) == (mm(1), 0)


def test_the_difference_may_deviate_within_the_tolerance():
    found = compose_difference(asked("1.25", tolerance="0.25"))

    assert found.deviation == -mm("0.25")


def test_beyond_the_tolerance_no_two_stacks_are_taken():
    outcome = compose_difference(asked("1.5", pool=(block("9.1"), block(5)), tolerance="0.25"))

    assert isinstance(outcome, Impossible)
    assert outcome.proof is Proof.SOLVER
    assert outcome.sentence == "no two stacks of the blocks differ by it within the tolerance"


def test_off_the_grid_nothing_needs_to_be_tried():
    assert compose_difference(asked("0.5")).proof is Proof.GRID


def test_wear_pairs_of_equal_thickness_cancel_out():
    pairs = (wear_pair(2), wear_pair(2, first=3))

    assert stacks(1, ends=pairs) == (["2", "6", "2"], ["2", "5", "2"])


def test_wear_pairs_of_other_thickness_are_part_of_the_difference():
    """Two pairs of 2 and of 1 differ by 2 already."""
    pairs = (wear_pair(2), wear_pair(1, first=3))

    assert stacks(2, ends=pairs) == (["2", "2"], ["1", "1"])
    assert stacks(3, ends=pairs) == (["2", "6", "2"], ["1", "5", "1"])


def test_a_block_kept_in_stands_in_one_of_the_two():
    """1 with the 9: 9 - 5 - 3, though 6 - 5 has fewer blocks."""
    assert stacks(1, kept_in=(POOL[0],)) == (["9"], ["5", "3"])


def test_no_stack_has_more_blocks_than_allowed():
    assert isinstance(compose_difference(asked(8, most=1)), Impossible)
    assert stacks(8, most=2) == (["6", "5"], ["3"])


def test_at_the_limit_nothing_is_claimed():
    outcome = compose_difference(asked(1), Effort(limit=0))

    assert isinstance(outcome, Undecided)
    assert outcome.at_least == 2


def test_the_judge_approves_of_a_difference_within_tolerance():
    assert broken(2, stack(POOL[1]), stack(POOL[3])) == ()
    assert broken("1.5", stack(POOL[1]), stack(POOL[3]), tolerance="0.5") == ()


def test_the_judge_refuses_a_difference_beyond_the_tolerance():
    assert broken("1.5", stack(POOL[1]), stack(POOL[3]), tolerance="0.4") == (
        "the stacks differ by 2 mm where 1.5 mm was asked",
    )
    assert broken(2, stack(POOL[3]), stack(POOL[1])) == ("the stacks differ by -2 mm where 2 mm was asked",)


def test_the_judge_counts_the_difference_on_the_basis_asked():
    long = block(7, deviation=Length(700))
    pool = (long, POOL[3])
    nominal = broken(2, stack(long), stack(POOL[3]), pool=pool)
    certified = [
        replace(one, basis=Basis.CERTIFIED, target=Length(one.target + off))
        for one, off in ((stack(long), 700), (stack(POOL[3]), 0))
    ]
    assert nominal == ()
    assert broken(2, *certified, pool=pool, basis=Basis.CERTIFIED) == (
        "the stacks differ by 2.0000007 mm where 2 mm was asked",
    )


def test_each_of_two_stacks_is_to_be_exactly_its_own_length():
    both = asked(2, tolerance="0.5").each(mm(7), mm(5))
    assert (both.targets, both.tolerance) == ((mm(7), mm(5)), 0)


def test_the_judge_refuses_a_stack_measured_against_another_length():
    off = replace(stack(POOL[1]), target=mm(6))

    assert "a stack of a difference has a target that is not its own length" in broken(2, off, stack(POOL[3]))


def test_the_judge_refuses_one_block_in_both_stacks():
    six = POOL[2]

    assert broken(4, stack(POOL[1], six), stack(six, POOL[4])) == ("block 6 mm is used 2 times",)


def test_the_judge_refuses_an_empty_stack():
    empty = Built(target=Length(0), blocks=())

    assert broken(3, stack(POOL[4]), empty) == ("a stack without blocks",)


def test_approval_raises_what_is_broken():
    with pytest.raises(OurBug, match="differ by"):
        differencejudge.approve(asked(1), stack(POOL[1]), stack(POOL[3]))


def test_a_wear_pair_of_another_thickness_and_one_block_more_make_a_difference():
    """8 is 2 of the pairs and the 6: one block, though 9 - 3 would do as well."""
    pairs = (wear_pair(2), wear_pair(1, first=3))

    assert stacks(8, ends=pairs) == (["2", "6", "2"], ["1", "1"])


def test_at_the_limit_wear_pairs_that_make_the_difference_alone_are_not_forgotten():
    pairs = (wear_pair(2), wear_pair(1, first=3))
    outcome = compose_difference(asked(2, ends=pairs), Effort(limit=0))

    assert isinstance(outcome, Undecided)
    assert outcome.at_least == 4


@pytest.mark.parametrize(
    ("pool", "found"), [((19, 13, 7, 3), (["7"], ["3"])), ((16, 12, 9, 3), (["9"], ["3"]))]
)
def test_of_differences_as_far_off_on_both_sides_the_lower_stack_decides(pool, found):
    """5 wanted: 7 - 3 and 13 - 7, or 16 - 12 and 9 - 3, miss by one on either side."""
    assert stacks(5, pool=tuple(block(size) for size in pool), tolerance=1) == found


def test_on_certified_lengths_each_stack_is_its_own_certified_length():
    pool = (block(9, deviation=Length(300)), block(7, deviation=Length(-200)), block(3))
    found = compose_difference(asked(2, pool=pool, tolerance="0.001", basis=Basis.CERTIFIED))

    assert (found.high.target, found.low.target) == (mm(9) + 300, mm(7) - 200)
    assert found.deviation == 500


@pytest.fixture
def met_up_to_four(monkeypatch):
    """Meet four blocks at most, that a small pool shows what comes after."""
    monkeypatch.setattr(difference, "MOST_MET", 4)


@pytest.mark.usefixtures("met_up_to_four")
def test_a_difference_of_more_blocks_than_are_met_is_left_to_the_model():
    """24 is 9 + 7 + 6 + 5 - 3, and nothing else makes it."""
    assert stacks(24) == (["9", "7", "6", "5"], ["3"])


def counting_to_the_limit(puzzle, effort):
    """Decide a puzzle of so many blocks; end at the limit where they would have to be counted."""
    return Decision(verdict=Verdict.LIMIT) if puzzle.total is None else decide(puzzle, effort)


@pytest.mark.usefixtures("met_up_to_four")
@pytest.mark.parametrize(
    ("height", "pairs", "blocks"), [(24, (), 5), (30, (wear_pair(2), wear_pair(2, first=3)), 4 + 5)]
)
def test_where_no_few_blocks_make_it_so_much_is_known_at_the_limit(monkeypatch, height, pairs, blocks):
    monkeypatch.setattr(difference, "decide", counting_to_the_limit)
    undecided = compose_difference(asked(height, ends=pairs))

    assert (undecided.best, undecided.at_least) == ((), blocks)


@pytest.mark.parametrize("height", [1, 2, 8, 11, 13, 24])
def test_where_too_many_sides_meet_to_be_looked_at_the_answer_is_the_same(monkeypatch, height):
    found = stacks(height)
    monkeypatch.setattr(meeting, "MOST_PAIRS", 0)

    assert stacks(height) == found


def test_an_answer_not_proven_by_the_limit_is_told_as_such(monkeypatch):
    monkeypatch.setattr(difference, "decide", lambda *given: replace(decide(*given), verdict=Verdict.LIMIT))
    undecided = compose_difference(asked(1))

    assert isinstance(undecided, Undecided)
    assert [sizes(stack) for stack in undecided.best] == [["6"], ["5"]]
    assert undecided.at_least == 2


def test_wear_pairs_count_with_their_certified_lengths():
    """The pairs differ by 2 mm and 600 pm; 8 mm and 600 pm is made with the 6."""
    thick = tuple(replace(one, deviation=Length(300)) for one in wear_pair(2))
    found = compose_difference(asked("8.0000006", ends=(thick, wear_pair(1, first=3)), basis=Basis.CERTIFIED))

    assert (sizes(found.high), sizes(found.low), found.deviation) == (["2", "6", "2"], ["1", "1"], 0)


def test_wear_pairs_alone_have_no_grid():
    pairs = (wear_pair(2), wear_pair(1, first=3))

    assert compose_difference(asked("2.000000001", pool=(), ends=pairs)).proof is Proof.SOLVER


def test_on_nominal_sizes_deviations_count_for_nothing():
    thick = tuple(replace(one, deviation=Length(300)) for one in wear_pair(2))
    pool = (block(6, deviation=Length(100)),)
    found = compose_difference(asked(8, pool=pool, ends=(thick, wear_pair(1, first=3))))

    assert (found.high.target, found.low.target, found.deviation) == (mm(10), mm(2), 0)
