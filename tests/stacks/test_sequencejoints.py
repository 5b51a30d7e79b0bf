"""Orders and joints of a job, against looking at every order of real blocks."""

from itertools import pairwise, permutations, product

import pytest

from gaugestack.lengths import Length
from gaugestack.stacks import sequencejoints
from gaugestack.stacks.sequencejoints import Bounds, allowed, joints, orders
from gaugestack.stacks.sequencestacks import Lister
from gaugestack.stacks.wringing import thin_blocks_inside
from tests.stacks.making import block, mm


def may_stand(order, thin, faces):
    """Return whether an order may stand, by the rules of real blocks; numbers count from the largest."""
    blocks = {n: block(1 + n / 100) if n in thin else block(50 - n) for n in order}
    inside = list(thin_blocks_inside([blocks[n] for n in order]))
    return not inside and not any(n in faces for n in order[1:-1])


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_an_order_is_allowed_where_the_rules_of_real_blocks_allow_it(count):
    numbers = range(count)
    for flags in product(range(3), repeat=count):
        thin = {n for n in numbers if flags[n] == 1}
        faces = {n for n in numbers if flags[n] == 2}
        every = [order for order in permutations(numbers) if may_stand(order, thin, faces)]
        assert [order for order in permutations(numbers) if allowed(order, thin, faces)] == every
        assert list(orders(numbers, thin, faces)) == [order for order in every if order[0] <= order[-1]]


def test_a_joint_is_a_pair_whichever_block_lies_below():
    assert joints((3, 1, 2)) == joints((2, 1, 3)) == {(1, 3), (1, 2)}
    assert joints((5,)) == joints(()) == frozenset()


def most_by_hand(both, one, other):
    """Return the most joints any two allowed orders of two stacks have together."""
    common = [("both", n) for n in range(sum(both))]
    thin = {piece for piece in common if piece[1] >= both[0]}
    made = []
    for name, alone in (("one", one), ("other", other)):
        own = [(name, n) for n in range(sum(alone))]
        small = thin | {piece for piece in own if piece[1] >= alone[0]}
        thick = sum(piece not in small for piece in common + own)
        made.append(
            [
                {frozenset(pair) for pair in pairwise(order)}
                for order in permutations(common + own)
                if len(order) < 2 or sum(end in small for end in (order[0], order[-1])) <= max(0, 2 - thick)
            ]
        )
    return max((len(a & b) for a in made[0] for b in made[1]), default=0)


SMALL = [(thick, thin) for thick in range(3) for thin in range(3) if thick + thin <= 2]


@pytest.mark.parametrize(
    "both", [(0, 0), (1, 0), (0, 1), (2, 0), (1, 1), (0, 2), (3, 0), (2, 1), (1, 2), (0, 3)]
)
def test_two_stacks_keep_as_many_joints_as_their_orders_let_them(both):
    bounds = Bounds()
    for one, other in product(SMALL, repeat=2):
        if sum(both) + sum(one) <= 4 and sum(both) + sum(other) <= 4:
            assert bounds.most(both, one, other) == most_by_hand(both, one, other), (one, other)


def test_stacks_too_tall_to_order_may_keep_every_joint_they_share(monkeypatch):
    assert Bounds().most((2, 1), (0, 2), (0, 0)) < 2
    monkeypatch.setattr(sequencejoints, "MOST_ORDERED", 4)
    assert Bounds().most((2, 1), (0, 2), (0, 0)) == 2


POOL = tuple(block(size) for size in (1, 2, 3, 4, 5, 7, 10, 20))


@pytest.mark.parametrize("height", range(54))
def test_every_height_has_the_stacks_of_looking_at_every_choice(height):
    lister = Lister((*POOL, block(3, copy=2)), mm(60))
    for count in range(7):
        by_hand = [
            chosen
            for chosen in _choices(lister.pool, count)
            if sum(piece.nominal for piece in chosen) == height * 10**9
        ]
        listing = lister.stacks(Length(height * 10**9), count, cap=10_000)
        assert (list(listing.stacks), listing.complete) == (by_hand if height and count else [], True)


def _choices(pool, count):
    if count == 0:
        return [()]
    return [
        (piece, *rest)
        for place, piece in enumerate(pool[: len(pool) - count + 1])
        for rest in _choices(pool[place + 1 :], count - 1)
    ]


def test_a_height_above_the_table_has_no_stack_and_one_at_its_top_has():
    assert Lister(POOL, mm(52)).stacks(mm(52), 8, cap=9).stacks
    assert Lister(POOL, mm(51)).stacks(mm(52), 8, cap=9).stacks == ()
    assert Lister((), mm(5)).stacks(mm(5), 1, cap=9).stacks == ()
