"""The closest stacks of a count, against looking at every one."""

from itertools import combinations
from random import Random

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from gaugestack.lengths import Length
from gaugestack.stacks import closest as module
from gaugestack.stacks import reach
from gaugestack.stacks.closest import Closest, Field, Guide, TooManyHalves, closest
from gaugestack.stacks.effort import COUNTED, Effort


def looked_through(lengths, count, aim, *, within, side=0, beyond=-1, allowed=None):
    """Return the closest stacks by looking at all; `allowed` are the only ones that count, where given."""
    ranked = {}
    for chosen in combinations(range(len(lengths)), count):
        gap = sum(lengths[place] for place in chosen) - aim
        if beyond < abs(gap) <= within and gap * side >= 0 and (allowed is None or chosen in allowed):
            ranked.setdefault(abs(gap), []).append((gap + aim, chosen))
    if not ranked:
        return None
    miss = min(ranked)
    sums = tuple(sorted({total for total, _ in ranked[miss]}))
    members = tuple(sorted({place for _, chosen in ranked[miss] for place in chosen}))
    return Closest(miss=miss, sums=sums, members=members)


def agrees(lengths, count, aim, **asked):
    beyond = asked.pop("beyond", -1)
    found = closest(Field(lengths=lengths, aim=aim, **asked), count, beyond)
    return found == looked_through(lengths, count, aim, beyond=beyond, **asked)


lengths_drawn = st.lists(st.integers(1, 40), min_size=1, max_size=8)


@settings(deadline=None, max_examples=200)
@given(
    lengths_drawn,
    st.integers(1, 6),
    st.integers(0, 150),
    st.integers(0, 20),
    st.sampled_from([-1, 0, 1]),
    st.integers(-1, 6),
)
@example([7], 1, 7, 0, 0, -1)
@example([7, 9], 2, 1, 20, 0, -1)
@example([7, 9, 30], 2, 1, 20, 1, 3)
@example([7, 9], 2, 16, 0, 0, -1)
@example([7, 9], 2, 17, 1, 0, 0)
@example([7, 9], 2, 17, 1, 0, 1)
@example([7, 9], 3, 16, 5, 0, -1)
@example([5, 9], 1, 7, 2, 0, -1)
@example([5, 9], 1, 7, 2, -1, -1)
@example([5, 9], 1, 7, 2, 1, 1)
@example([5, 5, 5, 5], 2, 10, 0, 0, -1)
@example([4, 6, 5, 5], 2, 10, 0, 1, -1)
@example([1, 2, 3, 4, 5, 6], 3, 10, 3, -1, 0)
@example([1, 2, 3, 4, 5, 6], 4, 10, 3, 1, 0)
def test_the_closest_of_a_count_are_those_of_looking_at_every_stack(
    lengths, count, aim, within, side, beyond
):
    assert agrees(lengths, count, aim, within=within, side=side, beyond=beyond)


@pytest.mark.parametrize("seed", range(30))
def test_larger_fields_agree_with_looking_at_every_stack_too(seed):
    random = Random(seed)  # noqa: S311  (a sample, no secret)
    lengths = [random.randint(1000, 9999) for _ in range(12)]
    count = random.randint(2, 5)
    aim = sum(random.sample(lengths, count)) + random.choice([-1, 0, 1]) * random.randint(0, 40)
    for side in (-1, 0, 1):
        for beyond in (-1, 0, 7, 60):
            assert agrees(lengths, count, aim, within=90, side=side, beyond=beyond)


@pytest.mark.parametrize("most", [1, 2, 5, 17])
def test_pairs_of_halves_looked_at_in_portions_leave_out_none(monkeypatch, most):
    monkeypatch.setattr(module, "MOST_PARTNERS", most)
    random = Random(most)  # noqa: S311  (a sample, no secret)
    lengths = [random.randint(10, 30) for _ in range(9)]

    for aim in range(60, 110, 7):
        assert agrees(lengths, 4, aim, within=4)


def guided(lengths, sizes, heights, aim, within):
    table = reach.priced(sizes, [0] * len(sizes), Length(1), sum(sizes))
    guide = Guide(table=table, sizes=tuple(sizes), heights=tuple(heights))
    return Field(lengths=lengths, aim=aim, within=within, guide=guide)


@pytest.mark.parametrize("seed", range(30))
def test_a_guide_leaves_out_no_stack_of_a_height_that_matters(seed):
    """Every stack of one of the heights must be looked at; others may be."""
    random = Random(seed)  # noqa: S311  (a sample, no secret)
    sizes = random.sample(range(1, 25), 9)
    lengths = [1000 * size + random.randint(-300, 300) for size in sizes]
    count = random.randint(1, 5)
    heights = sorted({sum(random.sample(sizes, count)) for _ in range(3)})
    aim = 1000 * heights[0] + random.randint(-50, 50)
    of_heights = {
        chosen for chosen in combinations(range(9), count) if sum(sizes[place] for place in chosen) in heights
    }
    expected = looked_through(lengths, count, aim, within=900, allowed=of_heights)

    found = closest(guided(lengths, sizes, heights, aim, 900), count)

    if expected is None or found.miss < expected.miss:
        assert found == looked_through(lengths, count, aim, within=900)
    else:
        assert found.miss == expected.miss
        assert set(expected.members) <= set(found.members)


def test_a_guide_drops_halves_that_lead_to_no_height_that_matters():
    """10 is 7 + 3; where only 6 = 5 + 1 matters, neither of the two is looked at."""
    sizes, lengths = [7, 3, 5, 1], [7000, 3000, 5000, 1000]

    assert closest(guided(lengths, sizes, [10], 10_000, 0), 2).members == (0, 1)
    assert closest(guided(lengths, sizes, [6, 10], 10_000, 0), 2).members == (0, 1)
    assert closest(guided(lengths, sizes, [6], 10_000, 0), 2) is None
    assert closest(guided(lengths, sizes, [], 10_000, 0), 2) is None


def spent(count, heights=()):
    effort = Effort()
    lengths = [7, 3, 5, 1]
    guide = guided(lengths, lengths, heights, 0, 0).guide if heights else None
    closest(Field(lengths=lengths, aim=10, within=0, guide=guide, effort=effort), count)
    return round(effort.spent * COUNTED)


def test_every_choice_looked_at_is_spent_once_a_block_and_once_a_height():
    """Of four blocks there are 4 choices of one and 6 of two."""
    assert spent(2) == 4 + 4
    assert spent(3) == 4 + (4 + 6 * 2)
    assert spent(2, heights=(10, 12)) == 4 * (1 + 2) * 2


def test_more_halves_than_are_held_at_once_are_too_many(monkeypatch):
    field = Field(lengths=list(range(1, 11)), aim=20, within=0)
    monkeypatch.setattr(module, "MOST_HALVES", 45)
    assert closest(field, 4) is not None
    monkeypatch.setattr(module, "MOST_HALVES", 44)
    with pytest.raises(TooManyHalves):
        closest(field, 4)
