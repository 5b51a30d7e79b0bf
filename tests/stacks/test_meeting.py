"""Which blocks meet in a difference, against every way to place so many blocks."""

from itertools import combinations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.stacks import meeting
from gaugestack.stacks.effort import COUNTED, Effort
from gaugestack.stacks.meeting import Meeting
from gaugestack.stacks.model import Kind, Lift

SIZES = (1, 2, 3, 5, 8, 9, 11, 14)


def kinds(sizes):
    return [Kind(size=size, pieces=1, thin=size < 3) for size in sizes]


def lift(low, high):
    return Lift(aim=(low + high) // 2, low=low, high=high, step=1)


def counted_out(sizes, wanted, count):
    """Return all ways of so many blocks in the range, and of those the ones that miss least, fewest thin."""
    ways = {}
    for chosen in combinations(range(len(sizes)), count):
        for signs in product((1, -1), repeat=count):
            total = sum(sizes[place] * sign for place, sign in zip(chosen, signs, strict=True))
            if wanted.low <= total <= wanted.high:
                rank = (abs(total - wanted.aim), sum(sizes[place] < 3 for place in chosen))
                ways.setdefault(rank, set()).update(zip(chosen, signs, strict=True))
    return set().union(*ways.values()), ways.get(min(ways, default=None), set()), min(ways, default=None)


@settings(max_examples=300)
@given(
    sizes=st.lists(st.sampled_from(SIZES), min_size=5, max_size=7, unique=True),
    count=st.integers(1, 5),
    low=st.integers(-3, 20),
    width=st.integers(0, 3),
)
def test_what_meets_is_what_every_way_counted_out_gives(sizes, count, low, width):
    wanted = lift(low, low + width)
    met = Meeting(kinds(sizes), wanted).met(count)
    everything, best, rank = counted_out(sizes, wanted, count)

    if met is None:
        assert not everything
    else:
        assert (set(met.sides), set(met.best)) == (everything, best)
        assert (met.miss, met.thin) == rank


def test_two_pieces_of_a_kind_may_stand_twice():
    pair = [Kind(size=5, pieces=2, thin=False), Kind(size=3, pieces=1, thin=False)]

    assert Meeting(pair, lift(10, 10)).met(2).best == {(0, 1)}
    assert Meeting(kinds((5, 3)), lift(10, 10)).met(2) is None


def test_five_pieces_of_a_kind_may_stand_in_one_stack():
    five = [Kind(size=5, pieces=5, thin=False), Kind(size=3, pieces=1, thin=False)]

    assert Meeting(five, lift(25, 25)).met(5).best == {(0, 1)}


def test_without_blocks_nothing_meets():
    assert Meeting([], lift(5, 5)).met(2) is None


def test_as_many_ways_as_may_be_looked_at_are_looked_at(monkeypatch):
    """5 + 3 and 3 + 5."""
    monkeypatch.setattr(meeting, "MOST_PAIRS", 2)
    assert Meeting(kinds((5, 3)), lift(8, 8)).met(2).best == {(0, 1), (1, 1)}

    monkeypatch.setattr(meeting, "MOST_PAIRS", 1)
    assert Meeting(kinds((5, 3)), lift(8, 8)).met(2).best is None


def test_too_many_ways_leave_every_side_to_the_model(monkeypatch):
    monkeypatch.setattr(meeting, "MOST_PAIRS", 3)
    met = Meeting(kinds(SIZES), lift(0, 5)).met(3)

    assert (len(met.sides), met.best) == (2 * len(SIZES), None)


def test_what_meets_is_spent():
    effort = Effort()
    Meeting(kinds(SIZES), lift(0, 5), effort).met(4)

    assert effort.spent > 0


def test_both_sides_and_what_meets_are_counted():
    """Four sides of two blocks on either hand, and two ways to make 8."""
    effort = Effort()
    Meeting(kinds((5, 3)), lift(8, 8), effort).met(2)

    assert effort.spent == (4 + 4 + 2) / COUNTED
