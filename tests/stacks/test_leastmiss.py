"""The least miss of many certified blocks, against every stack counted out."""

from itertools import combinations
from random import Random

import pytest

from gaugestack.blocks import Basis
from gaugestack.lengths import Length
from gaugestack.stacks import leastmiss, reach
from gaugestack.stacks.closest import Field, Guide
from gaugestack.stacks.effort import Effort
from gaugestack.stacks.leastmiss import Sides, fewest_thin, least_miss
from gaugestack.stacks.request import Found
from gaugestack.stacks.solve import compose
from tests.stacks.making import block, mm, request

THIN = (1001, 1002, 1003, 1005, 1008, 1010, 1020, 1050)
THICK = (3000, 3500, 4000, 4500, 5000, 6500, 7000, 8000, 9000, 10000)
NOMINAL = (*reversed(THICK), *reversed(THIN))


@pytest.fixture(autouse=True)
def small_stacks_too(monkeypatch):
    monkeypatch.setattr(leastmiss, "WORTH_IT", 2)


def of(size, deviation=0):
    return block(size / 1000, deviation=deviation * 10_000)


def field_of(deviations, aim, within=30):
    """Return a field of lengths in hundredths of a step, and its sides."""
    lengths = [100 * size + deviation for size, deviation in zip(NOMINAL, deviations, strict=True)]
    whole = reach.priced(NOMINAL, [0] * len(NOMINAL), Length(1), sum(NOMINAL))
    near = [height for height in range(1, whole.top) if abs(100 * height - aim) <= within + 300]
    heights = tuple(height for height in near if whole.count(height) is not None)
    guide = Guide(table=whole, sizes=NOMINAL, heights=heights)
    thick = reach.priced([size // 500 for size in THICK], [0] * len(THICK), Length(500), sum(THICK) // 500)
    sides = Sides(thin=tuple(size < 2500 for size in NOMINAL), table=thick)
    return Field(lengths=lengths, aim=aim, within=within, guide=guide), sides


def counted_out(field, sides, count):
    """Return the stacks that miss least of all, with the fewest thin blocks: every one looked at."""
    ranked = {}
    for chosen in combinations(range(len(field.lengths)), count):
        miss = abs(sum(field.lengths[place] for place in chosen) - field.aim)
        if miss <= field.within:
            ranked.setdefault((miss, sum(sides.thin[place] for place in chosen)), []).append(chosen)
    best = min(ranked, default=None)
    return best, sorted({place for chosen in ranked.get(best, ()) for place in chosen})


def test_no_sum_comes_nearer_than_the_lattice():
    assert least_miss((100, 130, 160), 2, 255) == 5
    assert least_miss((100, 130, 160), 2, 260) == 0
    assert least_miss((100, 130, 160), 2, 245) == 15
    assert least_miss((7, 7, 7), 3, 20) == 1
    assert least_miss((7,), 1, 20) == 13


@pytest.mark.parametrize("seed", range(40))
def test_all_stacks_of_the_least_miss_with_the_fewest_thin_blocks_are_found(seed):
    random = Random(seed)  # noqa: S311  (a sample, no secret)
    count = random.randint(2, 6)
    deviations = [10 * random.randint(-3, 3) for _ in NOMINAL]
    aim = 100 * sum(random.sample(NOMINAL, count)) + random.randint(-8, 8)
    field, sides = field_of(deviations, aim)
    best, members = counted_out(field, sides, count)
    found = fewest_thin(field, sides, count)

    if found:
        assert (found.miss, list(found.members)) == (best[0], members)
    else:
        least = least_miss(field.lengths, count, aim)
        assert best is None or best[0] > least or best[1] > leastmiss.MOST_THIN


def test_the_sample_does_find_stacks():
    found = 0
    for seed in range(40):
        random = Random(seed)  # noqa: S311  (a sample, no secret)
        count = random.randint(2, 6)
        deviations = [10 * random.randint(-3, 3) for _ in NOMINAL]
        aim = 100 * sum(random.sample(NOMINAL, count)) + random.randint(-8, 8)
        found += fewest_thin(*field_of(deviations, aim), count) is not None

    assert found >= 10


def test_what_is_looked_at_is_spent():
    field, sides = field_of([0] * len(NOMINAL), 1_500_000)
    effort = Effort()
    spending = Field(lengths=field.lengths, aim=field.aim, within=30, guide=field.guide, effort=effort)
    fewest_thin(spending, sides, 3)

    assert effort.spent > 0


def test_a_stack_is_the_same_found_either_way(monkeypatch):
    """Shorter stacks are found by halves; here both ways are asked."""
    random = Random(5)  # noqa: S311  (a sample, no secret)
    pool = tuple(of(size, random.randint(-2, 2)) for size in NOMINAL)
    for target in ("17.024", "23.011", "12.055"):
        asked = request(target, pool=pool, tolerance="0.0005", basis=Basis.CERTIFIED)
        monkeypatch.setattr(leastmiss, "WORTH_IT", 2)
        quick = compose(asked)
        monkeypatch.setattr(leastmiss, "WORTH_IT", 99)

        assert quick == compose(asked)
        assert isinstance(quick, Found)
        assert quick.stacks[0].length <= mm(target) + mm("0.0005")


def test_where_every_block_is_thin_the_thick_ones_are_not_looked_for(monkeypatch):
    """The table of no thick block has no step to count in."""
    pool = tuple(
        of(size, deviation) for size, deviation in zip(THIN, (1, -2, 0, 2, 1, 0, -1, 2), strict=True)
    )
    asked = request("3.006", pool=pool, tolerance="0.0005", basis=Basis.CERTIFIED)
    quick = compose(asked)
    monkeypatch.setattr(leastmiss, "WORTH_IT", 99)

    assert quick == compose(asked)
    assert isinstance(quick, Found)


def exact_field(sizes, wanted, within=0, aim=None):
    """Return a field of exact blocks with one height to look at, and its sides."""
    fine = reach.priced(sizes, [0] * len(sizes), Length(1), sum(sizes))
    thick = [size // 500 for size in sizes if size > 2500]
    sides = Sides(
        thin=tuple(size < 2500 for size in sizes),
        table=reach.priced(thick, [0] * len(thick), Length(500), sum(thick)),
    )
    guide = Guide(table=fine, sizes=sizes, heights=(wanted,))
    lengths = [100 * size for size in sizes]
    return Field(lengths=lengths, aim=aim or 100 * wanted, within=within, guide=guide), sides


def test_every_stack_of_the_least_miss_gives_its_sum_and_its_blocks():
    """7.5 mm is 4.5 + 3 and 4 + 3.5."""
    found = fewest_thin(*exact_field(NOMINAL, 7500), 2)

    assert (found.miss, found.sums) == (0, (750_000,))
    assert [NOMINAL[place] for place in found.members] == [4500, 4000, 3500, 3000]


def test_a_thin_block_is_completed_by_thick_ones_where_only_one_height_is_near():
    found = fewest_thin(*exact_field(NOMINAL, 7508), 3)

    assert [NOMINAL[place] for place in found.members] == [3500, 3000, 1008]


def test_a_miss_as_large_as_may_be_is_found():
    assert fewest_thin(*exact_field(NOMINAL, 7500, within=5, aim=750_005), 2).miss == 5
    assert fewest_thin(*exact_field(NOMINAL, 7500, within=4, aim=750_005), 2) is None


def test_a_stack_of_more_thin_blocks_than_are_looked_for_is_left_to_the_halves():
    """Two thick blocks and three thin ones are at least 9.503 mm high."""
    sizes = (3000, 1005, 1003, 1002, 1001)

    assert fewest_thin(*exact_field(sizes, sum(sizes)), 5) is None
    assert len(fewest_thin(*exact_field((3500, *sizes[:4]), 9510), 5).members) == 5


def test_all_blocks_there_are_may_be_one_stack():
    assert fewest_thin(*exact_field((5000, 4000, 3000, 1001), 13_001), 4).members == (0, 1, 2, 3)
    assert fewest_thin(*exact_field((5000, 4000, 3000, 1001), 13_001), 5) is None


def test_without_thin_blocks_the_thick_ones_are_found():
    assert fewest_thin(*exact_field((5000, 4000, 3000), 8000), 2).members == (0, 2)


def test_few_blocks_are_left_to_the_halves(monkeypatch):
    monkeypatch.setattr(leastmiss, "WORTH_IT", 3)

    assert fewest_thin(*exact_field(NOMINAL, 7500), 2) is None
    assert fewest_thin(*exact_field(NOMINAL, 7508), 3) is not None
