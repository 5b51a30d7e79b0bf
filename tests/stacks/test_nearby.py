"""The nearest lengths where no table holds every sum, against plain enumeration."""

from dataclasses import replace
from itertools import combinations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.blocks import Basis, in_order, total
from gaugestack.inventory.setfile import load_set
from gaugestack.inventory.shipped import shipped_path
from gaugestack.lengths import Length, read_length
from gaugestack.stacks import nearby
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.explain import explained
from gaugestack.stacks.judge import broken_rules
from gaugestack.stacks.nearby import nearest_length, nearest_stacks
from gaugestack.stacks.request import Impossible, StackRequest
from tests.property.oracle import one_good_face_can_stand
from tests.property.strategies import certified_requests, marked
from tests.stacks.making import block, mm, request, wear_pair


def off(size, deviation):
    """Return a block with a certified deviation in picometres."""
    return replace(block(size), deviation=Length(deviation))


def sums(asked):
    """Return every length the request's blocks make, with what stands anyway, and its fewest blocks."""
    fixed = (*asked.kept_in, *asked.pair(0))
    most = len(asked.pool) + 2 if asked.most is None else asked.most
    found = {}
    for count in range(len(asked.free) + 1):
        for chosen in combinations(asked.free, count):
            blocks = (*fixed, *chosen)
            if blocks and len(blocks) <= most and one_good_face_can_stand(asked, blocks):
                found.setdefault(total(blocks, asked.basis), len(blocks))
    return found


def expected(asked, side):
    """Return the nearest sum on a side by looking at all."""
    edge = asked.targets[0] + side * asked.tolerance
    beyond = [length for length in sums(asked) if (length - edge) * side > 0]
    return min(beyond, key=lambda length: abs(length - edge), default=None)


def found(asked, side):
    near = nearest_length(asked, side)
    return near and near.length


POOL = in_order((off(5, 3000), off(3, -2000), off(2, 700), off(1, 40)))


@pytest.mark.parametrize("side", [-1, 1])
@pytest.mark.parametrize("height", [0.5, 1, 4, 6, 8, 11, 30])
@pytest.mark.parametrize("asked", [{}, {"most": 2}, {"most": 1}, {"tolerance": 1}, {"ends": (wear_pair(2),)}])
def test_the_nearest_is_that_of_looking_at_every_stack(height, side, asked):
    wanted = request(height, pool=POOL, basis=Basis.CERTIFIED, **asked)

    assert found(wanted, side) == expected(wanted, side)


def test_blocks_kept_in_stand_in_both():
    wanted = request(4, pool=POOL, kept_in=POOL[:1], basis=Basis.CERTIFIED)

    assert found(wanted, -1) is None
    assert found(wanted, 1) == expected(wanted, 1) == mm(5) + 3000


def test_nothing_is_near_without_blocks():
    assert [found(request(4, pool=(), basis=Basis.CERTIFIED), side) for side in (-1, 1)] == [None, None]


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(1, 12), st.integers(-3000, 3000)),
        min_size=1,
        max_size=7,
        unique_by=lambda p: p[0],
    ),
    st.integers(1, 40),
    st.integers(0, 5000),
    st.none() | st.integers(1, 4),
)
def test_halves_find_what_enumeration_finds(pieces, height, tolerance, most):
    pool = in_order(off(size, deviation) for size, deviation in pieces)
    wanted = StackRequest(
        targets=(mm(height),), tolerance=Length(tolerance), pool=pool, most=most, basis=Basis.CERTIFIED
    )

    for side in (-1, 1):
        assert found(wanted, side) == expected(wanted, side)


@settings(max_examples=200, deadline=None)
@given(marked(certified_requests()))
def test_with_one_good_face_the_nearest_is_that_of_looking_at_every_stack(wanted):
    for name, side in (("below", -1), ("above", 1)):
        near = {kind: (near, built) for kind, near, built in nearest_stacks(wanted)}.get(name)

        assert (near and near[0].length) == expected(wanted, side)
        assert near is None or len(near[1].blocks) == sums(wanted)[near[0].length]


def test_a_block_with_one_good_face_to_be_kept_in_is_not_offered_alone():
    pool = in_order((off(5, 0), off(3, 0)))
    wanted = request(4, pool=pool, kept_in=pool[1:], end_only=pool[1:], basis=Basis.CERTIFIED)

    assert [(name, built.length) for name, _, built in nearest_stacks(wanted)] == [("above", mm(8))]


def test_a_long_block_with_one_good_face_is_near_with_a_thin_one_on_its_other_end():
    pool = in_order((off(50, 0), off(3, 0), off(2, 0)))
    wanted = request(27, pool=pool, end_only=pool[:1], basis=Basis.CERTIFIED)

    found = [(name, built.length) for name, _, built in nearest_stacks(wanted)]
    assert found == [("below", mm(5)), ("above", mm(52))]


def test_a_stack_of_the_nearest_length_meets_every_rule():
    wanted = request(4, pool=POOL, basis=Basis.CERTIFIED)

    for _, near, built in nearest_stacks(wanted):
        asked = replace(wanted, targets=(near.length,))
        assert broken_rules(asked, (replace(built, target=near.length),)) == ()


def test_a_block_with_one_good_face_is_left_out_where_it_cannot_stand():
    pool = in_order((off(5, 0), off(3, 0)))
    wanted = request(4, pool=pool, end_only=pool, most=1, basis=Basis.CERTIFIED)

    assert list(nearest_stacks(wanted)) == []
    one = replace(wanted, end_only=pool[1:])
    assert [(name, built.length) for name, _, built in nearest_stacks(one)] == [("above", mm(5))]


def both_sets():
    sets = [load_set(shipped_path(name))[0] for name in ("inch-81", "metric-88")]
    return in_order(each for found in sets for each in found.blocks)


def test_inch_and_metric_blocks_together_have_rungs():
    asked = StackRequest(
        targets=(read_length("0.0101in").length,), tolerance=Length(0), pool=both_sets(), most=3
    )
    outcome = explained(asked)

    assert isinstance(outcome, Impossible)
    assert {way.kind: way.sentence for way in outcome.ways_out} == {
        "above": "the nearest above is 0.24346 mm away",
    }


def test_how_far_was_looked_is_said_where_it_was_not_to_the_end():
    asked = StackRequest(targets=(read_length("7.00003mm").length,), tolerance=Length(0), pool=both_sets())

    below = nearest_length(asked, -1)
    assert below.at_most == 4
    assert asked.targets[0] - below.length == 10_000


def test_above_every_block_the_nearest_is_all_of_them():
    pool = both_sets()
    asked = StackRequest(targets=(read_length("100in").length,), tolerance=Length(0), pool=pool)

    assert nearest_length(asked, -1).length == total(pool)
    assert nearest_length(asked, 1) is None


@pytest.mark.parametrize(
    ("height", "said"),
    [("5.000002001", "0.000001 mm away"), ("5.00000123", "0.002 µm away"), ("90", "84.999997 mm away")],
)
def test_a_distance_is_rounded_where_it_has_many_digits(height, said):
    pool = (off(5, 3001),)
    outcome = explained(request(height, pool=pool, basis=Basis.CERTIFIED))

    assert [way.sentence.rpartition(" is ")[2] for way in outcome.ways_out] == [said]


def plain(*numbers):
    """Return blocks without deviation."""
    return in_order(off(number, 0) for number in numbers)


@pytest.mark.parametrize("side", [-1, 1])
@pytest.mark.parametrize("height", ["0.5", "4", "8.5"])
def test_deviations_count_for_nothing_where_nominal_sizes_are_asked(height, side):
    wanted = request(height, pool=POOL, kept_in=POOL[2:3], most=3)

    assert found(wanted, side) == expected(wanted, side)
    assert type(found(request(0.5, pool=POOL, kept_in=POOL[:1], basis=Basis.CERTIFIED), 1)) is int


def test_blocks_of_every_way_to_place_those_with_one_good_face_are_told_once():
    """7 mm is 4 + 2 + 1, and 6 + 1 with one good face on the 6."""
    pool = plain(6, 4, 2, 1)
    wanted = request(6.5, pool=pool, end_only=pool[:1], basis=Basis.CERTIFIED)

    assert sorted(nearest_length(wanted, 1).blocks, key=pool.index) == list(pool)


def test_of_one_length_the_blocks_are_those_of_the_fewest():
    """7 mm is 4 + 3, and 4 + 2 + 1."""
    near = nearest_length(request(6.5, pool=plain(4, 3, 2, 1), basis=Basis.CERTIFIED), 1)

    assert near.blocks == plain(4, 3)


def test_a_picometre_nearer_is_nearer():
    pool = in_order((off(4, 1), off(3, 0), off(2, 0), off(1, -1)))

    assert found(request(6.5, pool=pool, basis=Basis.CERTIFIED), 1) == mm(7)


def test_above_blocks_of_one_length_stands_one_more_of_them():
    pool = (block(5), block(5, copy=2))

    assert found(request(5, pool=pool, basis=Basis.CERTIFIED), 1) == mm(10)


def test_blocks_of_two_ways_are_put_together_under_every_rule():
    """5 + 3 + 2 is 10 mm as well, but has one good face on three blocks."""
    pool = plain(5, 3, 2, "1.7", "1.4", "1.3", "0.6")
    wanted = request("9.95", pool=pool, end_only=pool[:3], basis=Basis.CERTIFIED)
    _, near, built = list(nearest_stacks(wanted))[1]

    assert (near.length, len(built.blocks)) == (mm(10), 4)
    assert broken_rules(replace(wanted, targets=(near.length,)), (replace(built, target=near.length),)) == ()


def test_without_effort_no_stack_is_built():
    assert list(nearest_stacks(request(4, pool=POOL, basis=Basis.CERTIFIED), Effort(limit=0))) == []


def test_how_far_was_looked_counts_what_stands_anyway(monkeypatch):
    """Of four free blocks those of one and two are looked at; 10 + 5 + 3 are three."""
    monkeypatch.setattr(nearby, "MOST_HALVES", 4)
    pool = plain(10, 5, 3, 2, 1)
    near = nearest_length(request("20.5", pool=pool, kept_in=pool[:1], basis=Basis.CERTIFIED), -1)

    assert (near.length, near.at_most) == (mm(18), 3)


def test_all_was_looked_at_where_more_blocks_are_too_high(monkeypatch):
    monkeypatch.setattr(nearby, "MOST_HALVES", 4)
    pool = plain(5, 3, 2, 1)
    near = nearest_length(request("3.5", pool=pool, basis=Basis.CERTIFIED), -1)
    alone = nearest_length(request("5.5", pool=pool, kept_in=pool[:1], basis=Basis.CERTIFIED), -1)

    assert (near.length, near.at_most) == (mm(3), None)
    assert (alone.length, alone.at_most) == (mm(5), None)


def test_halves_of_half_the_blocks_are_the_most_there_are(monkeypatch):
    """Of six blocks three are chosen in 20 ways, two in 15."""
    monkeypatch.setattr(nearby, "MOST_HALVES", 19)
    near = nearest_length(request("18.5", pool=plain(6, 5, 4, 3, 2, 1), basis=Basis.CERTIFIED), -1)

    assert near.at_most == 4


@pytest.mark.parametrize("seed", range(120))
def test_the_nearest_of_at_most_so_many_blocks_is_that_of_looking_at_all_of_them(monkeypatch, seed):
    random = Random(seed)  # noqa: S311  (a sample, no secret)
    monkeypatch.setattr(nearby, "MOST_HALVES", random.choice((4, 6, 10)))
    pool = in_order(off(size, random.randint(-2000, 2000)) for size in random.sample(range(1, 12), 6))
    marks = tuple(random.sample(pool, random.randint(0, 2)))
    wanted = request(random.randint(5, 30), pool=pool, end_only=marks, basis=Basis.CERTIFIED)
    for side in (-1, 1):
        near = nearest_length(wanted, side)
        if near:
            assert near.length == expected(replace(wanted, most=near.at_most), side)


def test_no_more_than_two_blocks_with_one_good_face_are_near():
    pool = plain(5, 3, 2)
    wanted = request("9.5", pool=pool, end_only=pool, basis=Basis.CERTIFIED)

    assert nearest_length(wanted, 1) is None
    assert nearest_length(replace(wanted, kept_in=pool[:1]), 1) is None


def test_all_blocks_are_all_by_the_sizes_asked_for(monkeypatch):
    """Their deviations would lift them above the height."""
    monkeypatch.setattr(nearby, "MOST_HALVES", 4)
    near = nearest_length(request("11.000001", pool=POOL), -1)
    thicker = (off(5, 3000), block("5.000001"))

    assert (near.length, near.at_most) == (mm(11), None)
    assert found(request("5.0000015", pool=thicker, most=1), -1) == mm("5.000001")
