from gaugestack.blocks import in_order
from gaugestack.lengths import Length
from gaugestack.stacks.model import Decision, Effort, Kind, Pile, Puzzle, Verdict, decide
from gaugestack.stacks.request import Found, Impossible
from gaugestack.stacks.shares import rank, shares, ways
from gaugestack.stacks.solve import best_of, compose
from tests.stacks.making import block, request, sizes

KINDS = tuple(Kind(size=size, pieces=1, thin=size < 3) for size in (5, 4, 3, 2, 1))


def puzzle(*aims, exactly):
    piles = tuple(
        Pile(aim=aim, heights=((aim, aim),), kinds=tuple(range(5)), exactly=count)
        for aim, count in zip(aims, exactly, strict=True)
    )
    return Puzzle(kinds=KINDS, piles=piles, total=sum(exactly))


def decision(*counts):
    return Decision(verdict=Verdict.OPTIMAL, counts=counts)


def test_one_stack_takes_every_further_block():
    assert list(shares(2, 1)) == [(2,)]


def test_every_share_is_named_once():
    assert list(shares(2, 2)) == [(2, 0), (1, 1), (0, 2)]
    assert len(set(shares(4, 3))) == ways(4, 3) == 15


def test_nothing_to_share_is_one_way():
    assert list(shares(0, 3)) == [(0, 0, 0)]
    assert ways(0, 3) == 1


def test_a_pile_holds_exactly_the_blocks_it_must():
    """5 of one block, or of two: the count decides."""
    assert decide(puzzle(5, exactly=(1,))).counts == ((1, 0, 0, 0, 0),)
    assert decide(puzzle(5, exactly=(2,))).counts == ((0, 1, 0, 0, 1),)


def test_a_pile_cannot_hold_more_blocks_than_its_height_takes():
    assert decide(puzzle(5, exactly=(3,))).verdict is Verdict.INFEASIBLE


def test_the_smaller_deviation_comes_first():
    """6 asked: 5 misses by one, 4 by two; that 4 is no larger changes nothing."""
    asked = puzzle(6, exactly=(1,))

    assert rank(asked, decision((1, 0, 0, 0, 0))) < rank(asked, decision((0, 1, 0, 0, 0)))


def test_fewer_thin_blocks_come_before_the_largest_block():
    """6 of 4 and 2, or of 5 and 1: one thin block each, so the largest decides; 4 and 3 have none."""
    asked = puzzle(7, exactly=(2,))

    assert rank(asked, decision((0, 1, 1, 0, 0))) < rank(asked, decision((1, 0, 0, 1, 0)))


def test_the_smaller_deviation_comes_before_fewer_thin_blocks():
    """2 asked: the thin 2 is exact, the thick 5 is not."""
    asked = puzzle(2, exactly=(1,))

    assert rank(asked, decision((0, 0, 0, 1, 0))) < rank(asked, decision((1, 0, 0, 0, 0)))


def of_kinds(aim, *kinds):
    pile = Pile(aim=aim, heights=((aim - 9, aim + 9),), kinds=tuple(range(len(kinds))))
    return Puzzle(kinds=tuple(Kind(pieces=2, thin=False, **kind) for kind in kinds), piles=(pile,))


def test_fewer_uses_come_before_the_largest_block():
    """45 asked, 50 and 40 are 5 away each: the 40 was never used."""
    asked = of_kinds(45, {"size": 50, "uses": 9}, {"size": 40})

    assert rank(asked, decision((0, 1))) < rank(asked, decision((1, 0)))


def test_the_largest_sizes_come_before_the_first_of_kinds_that_share_one():
    """85 asked: 50 + 40 with the second kind of 50 comes before 50 + 30 with the first."""
    asked = of_kinds(85, {"size": 50}, {"size": 50, "end_only": True}, {"size": 40}, {"size": 30})

    assert rank(asked, decision((0, 1, 1, 0))) < rank(asked, decision((1, 0, 0, 1)))


def test_blocks_of_kinds_that_share_a_size_are_counted_together():
    """95 asked: 50 + 50 of two kinds comes before 50 + 40."""
    asked = of_kinds(95, {"size": 50}, {"size": 50, "end_only": True}, {"size": 40})

    assert rank(asked, decision((1, 1, 0))) < rank(asked, decision((0, 1, 1)))


def test_kinds_that_share_a_nominal_size_are_counted_together_though_certified_apart():
    asked = of_kinds(
        95, {"size": 51, "nominal": 50}, {"size": 49, "nominal": 50}, {"size": 41, "nominal": 40}
    )

    assert rank(asked, decision((1, 1, 0))) < rank(asked, decision((0, 1, 1)))


def test_of_kinds_that_share_a_size_the_first_comes_first():
    asked = of_kinds(90, {"size": 50}, {"size": 50, "end_only": True}, {"size": 40})

    assert rank(asked, decision((1, 0, 1))) < rank(asked, decision((0, 1, 1)))


def test_the_largest_block_of_the_first_stack_comes_first():
    asked = puzzle(5, 5, exactly=(2, 2))
    one, other = ((0, 1, 0, 0, 1), (0, 0, 1, 1, 0)), ((0, 0, 1, 1, 0), (0, 1, 0, 0, 1))

    assert rank(asked, decision(*one)) < rank(asked, decision(*other))


def test_the_best_answer_of_all_shares_is_taken():
    """5 and 5 of three blocks: 5 alone and 4 + 1; the first stack takes the 5."""
    puzzles = [puzzle(5, 5, exactly=(2, 1)), puzzle(5, 5, exactly=(1, 2))]

    assert best_of(puzzles, Effort()).counts == ((1, 0, 0, 0, 0), (0, 1, 0, 0, 1))
    assert best_of(puzzles[:1], Effort()).counts == ((0, 1, 0, 0, 1), (1, 0, 0, 0, 0))


def test_where_no_share_has_an_answer_there_is_none():
    assert best_of([puzzle(5, 5, exactly=(1, 1))], Effort()).verdict is Verdict.INFEASIBLE


def test_a_limit_ends_the_round():
    assert best_of([puzzle(5, exactly=(1,))], Effort(limit=0)).verdict is Verdict.LIMIT


def test_many_stacks_are_made_where_their_shares_are_too_many_to_try():
    """Nine heights that all want the block of their own size, one of them another's."""
    pool = in_order([*(block(size) for size in range(11, 20)), block(6), block(5)])
    targets = [11, *range(11, 19)]

    found = compose(request(*targets, pool=pool))

    assert isinstance(found, Found)
    assert [sizes(stack) for stack in found][:2] == [["11"], ["6", "5"]]


def test_more_stacks_than_blocks_are_impossible():
    assert isinstance(compose(request(5, 5, pool=[block(5)], tolerance=Length(0))), Impossible)
