from itertools import combinations, combinations_with_replacement

import pytest

from gaugestack.stacks import model
from gaugestack.stacks.model import Decision, Effort, Kind, Pile, Puzzle, Verdict, decide


def kind(size, pieces=1, *, thin=False, **more):
    return Kind(size=size, pieces=pieces, thin=thin, **more)


def pile(aim, *kinds, heights=None, most=None):
    return Pile(aim=aim, heights=heights or ((aim, aim),), kinds=kinds, most=most)


def puzzle(sizes, *piles, **more):
    kinds = tuple(size if isinstance(size, Kind) else kind(size) for size in sizes)
    return Puzzle(kinds=kinds, piles=piles, **more)


def counts(asked, **effort):
    """Return the counts of the proven best answer, or None where it is infeasible."""
    decision = decide(asked, Effort(**effort))
    assert decision.verdict in (Verdict.OPTIMAL, Verdict.INFEASIBLE)
    return decision.counts if decision.verdict is Verdict.OPTIMAL else None


def test_sizes_add_up_to_the_height():
    assert counts(puzzle([5, 3], pile(8, 0, 1))) == ((1, 1),)


def test_a_height_that_no_sizes_add_up_to_is_infeasible():
    assert counts(puzzle([5, 3], pile(7, 0, 1))) is None


def test_any_height_of_a_range_will_do():
    assert counts(puzzle([5, 3], pile(7, 0, 1, heights=((6, 9),)))) == ((1, 1),)


def test_heights_between_the_allowed_ones_will_not_do():
    assert counts(puzzle([5, 3], pile(7, 0, 1, heights=((6, 7), (9, 12))))) is None


def test_a_pile_without_any_height_is_infeasible():
    assert counts(puzzle([5], Pile(aim=5, heights=(), kinds=(0,)))) is None


def test_only_kinds_of_the_pile_may_stand_in_it():
    assert counts(puzzle([5, 3], pile(8, 0))) is None


def test_as_many_pieces_as_there_are_can_be_used():
    assert counts(puzzle([kind(5, 2)], pile(10, 0))) == ((2,),)


def test_no_more_pieces_than_there_are_can_be_used():
    assert counts(puzzle([kind(5, 2)], pile(15, 0))) is None


def test_two_piles_share_the_pieces_of_a_kind():
    assert counts(puzzle([kind(5, 2)], pile(5, 0), pile(5, 0))) == ((1,), (1,))
    assert counts(puzzle([kind(5, 1)], pile(5, 0), pile(5, 0))) is None


def test_a_kind_kept_in_is_used():
    assert counts(puzzle([8, kind(5, least=1), 3], pile(8, 0, 1, 2))) == ((0, 1, 1),)


def test_a_kind_kept_in_that_cannot_be_used_is_infeasible():
    assert counts(puzzle([8, kind(5, least=1)], pile(8, 0, 1))) is None


def test_a_kind_that_need_not_be_used_is_left_out():
    assert counts(puzzle([8, kind(5, least=0), 3], pile(8, 0, 1, 2))) == ((1, 0, 0),)


def test_a_kind_kept_in_may_stand_in_any_pile():
    assert counts(puzzle([8, kind(5, least=1), 3], pile(8, 0, 1, 2), pile(5, 0, 1, 2))) == (
        (1, 0, 0),
        (0, 1, 0),
    )


def test_a_kind_kept_in_that_may_stand_nowhere_is_infeasible():
    assert counts(puzzle([8, kind(5, least=1)], pile(8, 0))) is None


def test_as_many_blocks_as_allowed_may_stand():
    assert counts(puzzle([5, 3], pile(8, 0, 1, most=2))) == ((1, 1),)


def test_more_blocks_than_allowed_are_infeasible():
    assert counts(puzzle([5, 3], pile(8, 0, 1, most=1))) is None


def test_the_largest_count_is_one_of_each_pile():
    assert counts(puzzle([5, 3, 2], pile(5, 0, 1, 2, most=1), pile(5, 1, 2, most=2))) == (
        (1, 0, 0),
        (0, 1, 1),
    )


def test_a_nominal_sum_that_cannot_meet_the_height_is_left_out():
    """101 and 99 are 100 and 90 by name: 190 together, which must be among the nominal sums."""
    kinds = (kind(101, nominal=100), kind(99, nominal=90))
    heights = ((195, 205),)

    for nominals, found in [(((190, 190),), ((1, 1),)), (((100, 180), (200, 210)), None), ((), ((1, 1),))]:
        asked = Puzzle(kinds=kinds, piles=(Pile(aim=200, heights=heights, kinds=(0, 1), nominals=nominals),))
        assert counts(asked) == found


def test_each_pile_has_its_own_nominal_sums():
    kinds = (kind(101, nominal=100), kind(99, nominal=90))
    piles = [Pile(aim=100, heights=((95, 105),), kinds=(0, 1), nominals=((n, n),)) for n in (90, 100)]

    assert counts(Puzzle(kinds=kinds, piles=tuple(piles))) == ((0, 1), (1, 0))


FACED = (kind(5, end_only=True), kind(3, end_only=True), kind(2, end_only=True), kind(1))


def faced(aim, *kinds, **more):
    return counts(Puzzle(kinds=FACED, piles=(Pile(aim=aim, heights=((aim, aim),), kinds=kinds, **more),)))


def test_two_blocks_with_one_good_face_stand_at_the_two_ends_and_a_third_nowhere():
    assert faced(8, 0, 1) == ((1, 1, 0, 0),)
    assert faced(9, 0, 1, 3) == ((1, 1, 0, 1),)
    assert faced(10, 0, 1, 2) is None


def test_a_block_with_one_good_face_never_stands_alone():
    assert faced(5, 0, 3) is None
    assert faced(6, 0, 3) == ((1, 0, 0, 1),)


def test_blocks_that_stand_anyway_keep_a_block_with_one_good_face_company():
    assert faced(5, 0, standing=1) == ((1, 0, 0, 0),)


def test_good_faces_that_stand_anyway_take_ends_too():
    assert faced(5, 0, standing=1, faces=1) == ((1, 0, 0, 0),)
    assert faced(8, 0, 1, standing=1, faces=1) is None
    assert faced(8, 0, 1, standing=1, faces=0) == ((1, 1, 0, 0),)
    assert faced(1, 3, standing=1, faces=1) == ((0, 0, 0, 1),)
    assert faced(0, standing=1, faces=1) is None


def test_under_a_wear_pair_there_is_no_end_for_one_good_face():
    assert faced(5, 0, standing=2, ends=0) is None
    assert faced(1, 3, standing=2, ends=0) == ((0, 0, 0, 1),)


@pytest.mark.parametrize(("exactly", "found"), [(1, ((1, 0, 0),)), (2, ((0, 1, 1),)), (3, None)])
def test_a_pile_has_the_number_of_blocks_it_must_have(exactly, found):
    only = Pile(aim=8, heights=((8, 8),), kinds=(0, 1, 2), exactly=exactly)

    assert counts(puzzle([8, 5, 3], only)) == found


def test_a_fixed_total_is_kept():
    assert counts(puzzle([8, 5, 3], pile(8, 0, 1, 2), total=2)) == ((0, 1, 1),)


def test_a_fixed_total_that_cannot_be_kept_is_infeasible():
    assert counts(puzzle([8, 5, 3], pile(8, 0, 1, 2), total=3)) is None


def test_without_a_fixed_total_the_fewest_blocks_are_taken():
    assert counts(puzzle([8, 5, 3], pile(8, 0, 1, 2))) == ((1, 0, 0),)


def test_a_fixed_number_of_thin_blocks_is_kept():
    kinds = [5, 3, kind(2, thin=True), 6]

    assert counts(puzzle(kinds, pile(8, 0, 1, 2, 3), thin=1)) == ((0, 0, 1, 1),)
    assert counts(puzzle(kinds, pile(8, 0, 1, 2, 3), thin=0)) == ((1, 1, 0, 0),)
    assert counts(puzzle(kinds, pile(8, 0, 1, 2, 3), thin=2)) is None


def test_fewest_blocks_come_before_the_smallest_deviation():
    assert counts(puzzle([9, 5, 3], pile(8, 0, 1, 2, heights=((7, 9),)))) == ((1, 0, 0),)


def test_the_smallest_deviation_comes_before_fewest_thin_blocks():
    kinds = [9, kind(8, thin=True)]

    assert counts(puzzle(kinds, pile(8, 0, 1, heights=((7, 9),)))) == ((0, 1),)


def test_deviations_of_all_piles_are_added_up():
    kinds = [kind(11), kind(9), kind(6)]
    asked = puzzle(kinds, pile(10, 0, 1, heights=((6, 14),)), pile(8, 0, 1, 2, heights=((4, 12),)))

    assert counts(asked) == ((1, 0, 0), (0, 1, 0))


def test_fewest_thin_blocks_come_before_the_largest_blocks():
    kinds = [6, 5, 3, kind(2, thin=True)]

    assert counts(puzzle(kinds, pile(8, 0, 1, 2, 3))) == ((0, 1, 1, 0),)


def test_the_largest_blocks_come_first():
    assert counts(puzzle([6, 5, 3, 2], pile(8, 0, 1, 2, 3))) == ((1, 0, 0, 1),)


def test_the_largest_blocks_come_first_in_the_first_pile():
    kinds = [6, 5, 3, 2]

    assert counts(puzzle(kinds, pile(8, 0, 1, 2, 3), pile(8, 0, 1, 2, 3))) == ((1, 0, 0, 1), (0, 1, 1, 0))


def test_of_kinds_that_share_a_size_it_does_not_matter_which_gives_the_larger_block():
    """The first kind of 12 cannot stand with 10 and 1, for a stack has two ends; the second can."""
    kinds = [kind(12, end_only=True), 12, kind(10, end_only=True), kind(8, 2), 6, kind(1, end_only=True)]

    assert counts(puzzle(kinds, pile(29, *range(6)))) == ((0, 1, 1, 0, 1, 1),)


def test_of_kinds_that_share_a_size_the_first_is_taken_where_both_will_do():
    assert counts(puzzle([kind(12, end_only=True), 12, 5], pile(17, 0, 1, 2))) == ((1, 0, 1),)


def test_heights_equally_far_on_both_sides_are_settled_by_the_largest_block():
    assert counts(puzzle([9, 7], pile(8, 0, 1, heights=((7, 7), (9, 9))))) == ((1, 0),)


def test_fewest_scarce_blocks_come_before_fewest_blocks():
    assert counts(puzzle([kind(8, scarce=True), 5, 3], pile(8, 0, 1, 2))) == ((0, 1, 1),)


def test_scarce_blocks_are_used_where_nothing_else_will_do():
    assert counts(puzzle([kind(8, scarce=True), 5], pile(8, 0, 1))) == ((1, 0),)


def test_of_scarce_blocks_the_largest_is_taken():
    kinds = [kind(6, scarce=True), kind(5, scarce=True), 3, 2]

    assert counts(puzzle(kinds, pile(8, 0, 1, 2, 3))) == ((1, 0, 0, 1),)


def by_enumeration(sizes, low, high, aim, blocks):
    """Return the counts of the best choice of so many different sizes, listed largest first."""
    chosen = min(
        (c for c in combinations(range(len(sizes)), blocks) if low <= sum(sizes[k] for k in c) <= high),
        key=lambda c: (abs(sum(sizes[k] for k in c) - aim), sum(sizes[k] <= 40 for k in c), c),
        default=None,
    )
    return chosen and (tuple(int(k in chosen) for k in range(len(sizes))),)


@pytest.mark.parametrize(("aim", "spread", "blocks"), [(211, 3, 3), (150, 5, 3), (97, 0, 2), (330, 9, 4)])
@pytest.mark.parametrize("tight", [False, True])
def test_digits_of_more_than_50_bits_give_the_optimum_of_enumeration(aim, spread, blocks, tight):
    sizes = [size * 3 - size % 4 for size in range(60, 0, -1)]
    kinds = [kind(size, thin=size <= 40) for size in sizes]
    asked = pile(aim, *range(60), heights=((aim - spread, aim + spread),))

    found = counts(puzzle(kinds, asked, total=blocks, tight=tight))

    assert found == by_enumeration(sizes, aim - spread, aim + spread, aim, blocks)


@pytest.mark.parametrize(("aim", "blocks"), [(57, 3), (61, 4), (33, 4), (20, 5)])
def test_digits_of_several_pieces_are_as_wide_as_their_number(aim, blocks):
    """Counts up to 9 of 20 kinds want more than 50 bits; a digit too narrow would carry into the next."""
    sizes = range(20, 0, -1)
    choices = (c for c in combinations_with_replacement(sizes, blocks) if sum(c) == aim)
    expected = max(tuple(choice.count(size) for size in sizes) for choice in choices)

    assert counts(puzzle([kind(size, 9) for size in sizes], pile(aim, *range(20)), total=blocks)) == (
        expected,
    )


@pytest.mark.parametrize("limit", [0.0, 1e-9])
def test_a_tiny_limit_ends_undecided(limit):
    asked = puzzle([8, 5, 3], pile(8, 0, 1, 2))

    assert decide(asked, Effort(limit=limit)) == Decision(verdict=Verdict.LIMIT)


def test_an_answer_of_an_earlier_stage_is_kept_at_the_limit():
    """With a growing limit the first verdicts are LIMIT, then one with an answer, at last OPTIMAL."""
    sizes = [1009 + 37 * n for n in range(40)]
    asked = puzzle(sizes, pile(9000, *range(40), heights=((8990, 9010),)))
    decisions = [decide(asked, Effort(limit=10 ** (power / 4))) for power in range(-24, 3, 2)]

    assert decisions[0].verdict is Verdict.LIMIT
    assert decisions[-1].verdict is Verdict.OPTIMAL
    for decision in decisions:
        for stack in decision.counts:
            assert 8990 <= sum(size * count for size, count in zip(sizes, stack, strict=True)) <= 9010
    assert any(decision.counts for decision in decisions if decision.verdict is Verdict.LIMIT)


def ending(monkeypatch, *statuses):
    """Let the solver solve, and say of each stage in turn what is asked here."""
    told = iter(statuses)

    def search(draft, solver):
        solver.solve(draft.model)
        return getattr(draft.cp, next(told))

    monkeypatch.setattr(model, "_search", search)
    sizes = [size * 3 - size % 4 for size in range(60, 0, -1)]
    return decide(puzzle(sizes, pile(211, *range(60), heights=((208, 214),)), total=3))


def test_a_stage_that_is_only_feasible_ends_at_the_limit_with_its_answer(monkeypatch):
    decision = ending(monkeypatch, "FEASIBLE")

    assert decision.verdict is Verdict.LIMIT
    assert sum(decision.counts[0]) == 3


def test_a_stage_that_finds_nothing_leaves_the_answer_of_the_stage_before(monkeypatch):
    first = ending(monkeypatch, "FEASIBLE")
    decision = ending(monkeypatch, "OPTIMAL", "UNKNOWN")

    assert decision == Decision(verdict=Verdict.LIMIT, counts=first.counts)
    assert ending(monkeypatch, "UNKNOWN") == Decision(verdict=Verdict.LIMIT)


def test_the_default_effort_decides_a_small_puzzle():
    assert decide(puzzle([5], pile(5, 0))).verdict is Verdict.OPTIMAL


def test_a_pile_that_needs_no_block_is_left_empty():
    assert counts(puzzle([5], pile(0, heights=((0, 0),)))) == ((0,),)


@pytest.mark.parametrize("effort", [{"seed": 2}, {"seed": 99}, {"workers": 2}, {"workers": 4}])
def test_seed_and_workers_change_no_answer(effort):
    asked = puzzle(range(30, 0, -1), pile(61, *range(30), heights=((60, 62),)), pile(33, *range(30)))

    assert counts(asked, **effort) == counts(asked)
