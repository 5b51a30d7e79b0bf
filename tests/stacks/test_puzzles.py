"""Every round is exact: what the table leaves out is in no best answer of so many blocks."""

from dataclasses import replace
from random import Random

import pytest

from gaugestack.blocks import Basis, in_order
from gaugestack.stacks import puzzles, reach
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.model import Pile, Puzzle, Verdict, decide
from gaugestack.stacks.puzzles import LIFTS, SHARED, Grounds, Want
from gaugestack.stacks.solve import best_of, compose
from tests.stacks.making import block, request, wear_pair


def whole(grounds, total):
    """Return the puzzle of all blocks and all heights within tolerance, so many blocks in all."""
    step = grounds.table.step
    piles = tuple(
        want.pile(((want.low * step, want.high * step),), tuple(range(len(grounds.kinds))))
        for want in grounds.wants
    )
    return Puzzle(kinds=grounds.kinds, piles=piles, total=total)


def drawn(seed, stacks):
    """Return a random request whose heights can each be made alone."""
    random = Random(seed)  # noqa: S311  (a sample, no secret)
    pool = in_order(block(size, copy=place) for place, size in enumerate(random.choices(range(1, 16), k=8)))
    targets = [sum(piece.nominal for piece in random.sample(pool, 2)) // 10**9 for _ in range(stacks)]
    marks = {
        "end_only": tuple(random.sample(pool, random.choice([0, 0, 3]))),
        "uses": tuple((piece, random.randint(1, 3)) for piece in random.sample(pool, random.choice([0, 3]))),
        "most": random.choice([None, None, 3]),
        "kept_in": tuple(random.sample(pool, random.choice([0, 0, 1]))),
    }
    return request(*targets, pool=pool, tolerance=random.choice([0, 1, 2]), **marks)


@pytest.mark.parametrize("stacks", [1, 2, 3])
@pytest.mark.parametrize("seed", range(12))
def test_a_round_of_so_many_blocks_answers_as_all_blocks_and_heights_do(seed, stacks):
    grounds = Grounds(request=drawn(seed, stacks))
    if any(
        want.low > want.high or grounds.table.fewest(want.low, want.high) is None for want in grounds.wants
    ):
        return
    rounds = list(grounds.rounds())
    totals = [tried[0].total for tried in rounds]
    fewest = sum(grounds.table.fewest(want.low, want.high) for want in grounds.wants)

    assert totals == [fewest, *range(fewest, fewest + SHARED + 1), None]
    for total, tried in zip(totals, rounds, strict=True):
        found, expected = best_of(tried, Effort()), decide(whole(grounds, total), Effort())
        if not tried[0].tight or found.verdict is Verdict.OPTIMAL:
            assert (found.verdict, found.counts) == (expected.verdict, expected.counts)


@pytest.mark.parametrize("seed", range(12))
def test_rounds_of_one_puzzle_each_answer_as_all_blocks_and_heights_do(monkeypatch, seed):
    """What is done where the ways to share are too many, with few stacks that can be checked."""
    monkeypatch.setattr(puzzles, "MOST_SHARES", 0)
    grounds = Grounds(request=drawn(seed, 2))
    if any(
        want.low > want.high or grounds.table.fewest(want.low, want.high) is None for want in grounds.wants
    ):
        return
    fewest = sum(grounds.table.fewest(want.low, want.high) for want in grounds.wants)
    rounds = list(grounds.rounds())[1:]

    assert [(len(found), found[0].total) for found in rounds] == [
        *((1, fewest + lift) for lift in range(LIFTS + 1)),
        (1, None),
    ]
    for (only,) in rounds:
        assert decide(only, Effort()) == decide(whole(grounds, only.total), Effort())


def test_a_wear_pair_within_the_tolerance_is_not_made_nearer_by_a_block():
    pair = wear_pair(2)

    for tolerance in (1, 2):
        built = compose(request(5, pool=(block(1), block(3)), ends=(pair,), tolerance=tolerance)).stacks[0]
        assert built.blocks == pair


def test_the_tightest_round_asks_each_height_for_its_own_best():
    """7 and 9: one block each, none of them thin; that is what both shall have together."""
    pool = tuple(block(size) for size in (9, 7, 5, 2, 1))
    (tight,), *_ = Grounds(request=request(9, 7, pool=pool)).rounds()

    assert (tight.total, tight.thin, tight.tight) == (2, 0, True)
    assert [pile.heights for pile in tight.piles] == [((9 * 10**9,) * 2,), ((7 * 10**9,) * 2,)]
    assert [[tight.kinds[k].size // 10**9 for k in pile.kinds] for pile in tight.piles] == [[9], [7]]


def test_the_tightest_round_takes_the_nearest_heights_with_the_fewest_thin_blocks():
    """8 wanted, 7 and 9 are as near: 7 is of one thick block, 9 of one thick; 8 of two."""
    pool = tuple(block(size) for size in ("9", "7", "5", "3"))
    (tight,), *_ = Grounds(request=request(8, pool=pool, tolerance=1)).rounds()

    assert [[low // 10**9 for low, _ in pile.heights] for pile in tight.piles] == [[7, 9]]
    thin = tuple(block(size) for size in ("2.5", "1.5"))
    (tight,), *_ = Grounds(request=request(2, pool=(*thin, block(30)), tolerance="0.5")).rounds()
    assert (tight.total, tight.thin) == (1, 1)


def test_many_stacks_whose_shares_are_too_many_are_counted_by_one_puzzle_each_round():
    pool = tuple(block(size) for size in range(11, 31))
    grounds = Grounds(request=request(*range(11, 25), pool=pool))
    rounds = list(grounds.rounds())

    assert [(len(tried), tried[0].total) for tried in rounds] == [
        (1, 14),
        (1, 14),
        (14, 15),
        (1, 16),
        (1, None),
    ]


def test_what_a_target_still_wants_is_less_what_stands_anyway():
    pair, five, three = wear_pair(2), block(5), block(3)
    asked = request(12, pool=(five, three, block(4)), ends=(pair,), kept_in=(five,), most=5, tolerance=1)
    (want,) = Grounds(request=asked).wants

    assert (want.aim, want.low, want.high) == (3 * 10**9, 2, 4)
    assert (want.most, want.standing, want.faces, want.ends) == (2, 3, 0, 0)


def test_a_target_without_anything_standing_wants_at_least_one_block():
    five = block(5)
    (bare,) = Grounds(request=request(1, pool=(block(1), five), tolerance=3)).wants
    (kept,) = Grounds(request=request(5, pool=(block(1), five), tolerance=3, kept_in=(five,))).wants
    (faced,) = Grounds(request=replace(request(5, pool=(five,), kept_in=(five,)), end_only=(five,))).wants

    assert (bare.low, bare.most, bare.ends) == (1, None, 2)
    assert (kept.low, kept.high) == (0, 3)
    assert (faced.standing, faced.faces) == (1, 1)


def test_a_pile_carries_what_its_target_wants():
    want = Want(aim=5, low=4, high=6, most=3, standing=2, faces=1, ends=0)

    assert want.pile(((4, 6),), (0, 1)) == Pile(
        aim=5, heights=((4, 6),), kinds=(0, 1), most=3, standing=2, faces=1, ends=0
    )


def test_every_puzzle_bars_the_stacks_that_are_not_to_be_taken_again():
    pool = nine, six, three = tuple(block(size) for size in (9, 6, 3))
    grounds = Grounds(request=request(9, pool=pool, barred=((nine,), (three, six))))

    assert all(one.barred == ((1, 0, 0), (0, 1, 1)) for tried in grounds.rounds() for one in tried)


TWINS = block(5, serial="K-1", deviation=700), block(5, serial="K-2", deviation=-200)


@pytest.mark.parametrize("more", [{}, {"uses": ((block(2), 1),)}])
def test_pieces_of_one_length_on_the_basis_asked_are_one_kind(more):
    pool = (*TWINS, block(2))
    nominal, certified = (
        Grounds(request=request(5, pool=pool, basis=basis, **more)).kinds for basis in Basis
    )
    told = {
        basis: [(one.size, one.pieces, one.thin, one.nominal) for one in kinds]
        for basis, kinds in zip(Basis, (nominal, certified), strict=True)
    }
    five, two = 5 * 10**9, 2 * 10**9

    assert told[Basis.NOMINAL] == [(five, 2, False, five), (two, 1, True, two)]
    assert told[Basis.CERTIFIED] == [
        (five + 700, 1, False, five),
        (five - 200, 1, False, five),
        (two, 1, True, two),
    ]


def test_a_kind_carries_the_marks_of_its_blocks():
    one, other = block(5), block(3)
    marked = request(
        8, 5, pool=(one, other), kept_in=(one,), scarce=(other,), end_only=(one,), uses=((other, 4),)
    )
    kinds = Grounds(request=marked).kinds

    assert [(k.least, k.scarce, k.end_only, k.uses) for k in kinds] == [
        (1, False, True, 0),
        (0, True, False, 4),
    ]


@pytest.mark.parametrize(("basis", "aim"), [(Basis.NOMINAL, 3 * 10**9), (Basis.CERTIFIED, 3 * 10**9 - 700)])
def test_what_stands_anyway_counts_on_the_basis_asked(basis, aim):
    asked = request(8, pool=(*TWINS, block(3)), kept_in=TWINS[:1], basis=basis)
    (want,) = Grounds(request=asked).wants

    assert want.aim == aim


def test_without_a_table_a_want_counts_picometres(monkeypatch):
    monkeypatch.setattr(reach, "QUICK_CELLS", -1)
    (want,) = Grounds(request=request(5, pool=(block(5),), tolerance="0.000000003")).wants

    assert (want.low, want.high) == (5 * 10**9 - 3, 5 * 10**9 + 3)
