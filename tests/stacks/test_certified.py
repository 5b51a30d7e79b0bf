"""Stacks on certified lengths are the best of all stacks, whichever way they are found."""

from dataclasses import replace
from random import Random

import pytest

from gaugestack.blocks import Basis, in_order, total
from gaugestack.lengths import Length
from gaugestack.stacks import certified, closest, leastmiss, reach
from gaugestack.stacks.certified import CertifiedGrounds
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.request import Found
from gaugestack.stacks.solve import compose
from tests.property.oracle import best, preference_of
from tests.stacks.making import block, mm, request, sizes, wear_pair


def off(size, deviation=0, **more):
    """Return a block with a certified deviation in picometres."""
    return replace(block(size, **more), deviation=Length(deviation))


FIVE, THREE, TWO, ONE = POOL = (off(5), off(3), off(2), off(1))


def grounds(*targets, pool=POOL, **asked):
    return CertifiedGrounds(request=request(*targets, pool=pool, basis=Basis.CERTIFIED, **asked))


def drawn(seed, stacks=1):
    """Return a random request near sums of its own blocks."""
    random = Random(seed)  # noqa: S311  (a sample, no secret)
    blocks = 7 if stacks == 1 else 6
    pool = in_order(
        off(size, 100 * random.randint(-20, 20), copy=place)
        for place, size in enumerate(random.choices(range(1, 10), k=blocks), 1)
    )
    kept_in = tuple(random.sample(pool, random.choice([0, 0, 1, 2]))) if stacks == 1 else ()
    ends = (wear_pair(2, first=20),) if stacks == 1 and random.random() < 0.3 else ()
    wanted = []
    for _ in range(stacks):
        chosen = {*random.sample(pool, random.randint(1, 4 if stacks == 1 else 2)), *kept_in}
        sum_ = total((*chosen, *(ends[0] if ends else ())), Basis.CERTIFIED)
        wanted.append(Length(sum_ + random.choice([0, 0, 700, -1200])))
    asked = request(1, pool=pool, basis=Basis.CERTIFIED, kept_in=kept_in, ends=ends)
    tolerance, most = Length(random.choice([0, 1000, 3000])), random.choice([None, None, 2, 3])
    return replace(asked, targets=tuple(wanted), tolerance=tolerance, most=most)


def answer(asked):
    outcome = compose(asked)
    return preference_of(asked, outcome) if isinstance(outcome, Found) else None


@pytest.mark.parametrize("seed", range(40))
def test_one_stack_is_the_best_of_all_stacks(seed):
    assert answer(drawn(seed)) == best(drawn(seed))


def test_the_samples_do_find_stacks():
    assert sum(answer(drawn(seed)) is not None for seed in range(40)) >= 20
    assert sum(answer(drawn(seed, 2)) is not None for seed in range(12)) >= 4


@pytest.mark.parametrize("seed", range(12))
def test_two_stacks_are_the_best_of_all_pairs(seed):
    assert answer(drawn(seed, 2)) == best(drawn(seed, 2))


@pytest.mark.parametrize(
    ("module", "name", "value"),
    [
        (certified, "MOST_ENUMERATED", 2),
        (leastmiss, "WORTH_IT", 2),
        (closest, "MOST_HALVES", 1),
        (reach, "QUICK_CELLS", -1),
    ],
)
@pytest.mark.parametrize("seed", range(12))
def test_whichever_way_they_are_found(monkeypatch, seed, module, name, value):
    monkeypatch.setattr(module, name, value)

    assert answer(drawn(seed)) == best(drawn(seed))


@pytest.mark.parametrize(
    ("asked", "counts"),
    [
        (grounds(6), range(1, 4)),
        (grounds(6, most=2), range(1, 3)),
        (grounds(6, pool=(FIVE, THREE, TWO, off(1, 1))), range(1, 3)),
        (grounds(6, pool=(FIVE, THREE, TWO, off(1, 1)), tolerance="0.000000001"), range(1, 4)),
        (grounds(8, kept_in=(FIVE,)), range(3)),
        (grounds(5, kept_in=(FIVE,)), range(1)),
        (grounds("0.5"), range(1, 2)),
        (grounds(4, kept_in=(FIVE,)), range(1)),
    ],
)
def test_no_stack_has_more_blocks_than_the_smallest_that_fit(asked, counts):
    assert asked.counts(asked.wants[0]) == counts


@pytest.mark.parametrize(
    ("asked", "fewest"),
    [
        (grounds(8), 2),
        (grounds(8, 6), 4),
        (grounds(5, kept_in=(FIVE,)), 0),
        (grounds("0.5"), 0),
    ],
)
def test_the_fewest_blocks_are_those_of_nominal_sizes_near_enough(asked, fewest):
    assert asked.fewest == fewest


def test_without_a_table_nothing_is_known_of_the_fewest(monkeypatch):
    monkeypatch.setattr(reach, "QUICK_CELLS", -1)

    assert grounds(8).fewest == 0


def test_what_stands_anyway_may_be_all():
    asked = request(5, pool=POOL, kept_in=(FIVE,), basis=Basis.CERTIFIED)

    assert sizes(compose(asked).stacks[0]) == ["5"]
    assert sizes(compose(replace(asked, targets=(mm(5) + 1,), tolerance=Length(1))).stacks[0]) == ["5"]


def test_what_is_looked_at_is_spent():
    effort = Effort()
    list(replace(grounds(6), effort=effort).rounds())

    assert effort.spent > 0


def test_sizes_asked_for_are_those_that_must_fit():
    asked = request(6, pool=(FIVE, THREE, TWO, off(1, 1)))
    nominal = CertifiedGrounds(request=asked)

    assert nominal.counts(nominal.wants[0]) == range(1, 4)


def test_stacks_of_more_blocks_than_are_counted_out_are_found(monkeypatch):
    monkeypatch.setattr(certified, "MOST_ENUMERATED", 2)

    assert sizes(compose(request(10, pool=POOL, basis=Basis.CERTIFIED)).stacks[0]) == ["5", "3", "2"]


def test_of_several_heights_none_takes_a_scarce_block_that_can_be_spared():
    pool = (off(7), *POOL)
    outcome = compose(request(5, 7, pool=pool, scarce=(FIVE,), basis=Basis.CERTIFIED))

    assert [sizes(stack) for stack in outcome.stacks] == [["3", "2"], ["7"]]


def test_a_wear_pair_may_be_one_of_several_stacks():
    ends = (wear_pair(2), wear_pair(2, first=3))
    for tolerance in (0, 1):
        outcome = compose(request(4, 9, pool=POOL, ends=ends, tolerance=tolerance, basis=Basis.CERTIFIED))

        assert [sizes(stack) for stack in outcome.stacks] == [["2", "2"], ["2", "5", "2"]]
