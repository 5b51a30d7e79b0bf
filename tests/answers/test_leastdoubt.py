"""The search by uncertainty, against every stack there is of a small set."""

import random
from itertools import combinations

import pytest

from gaugestack.answers.budget import Wish, stack_budget
from gaugestack.answers.circumstances import Circumstances
from gaugestack.answers.doubtfloor import Floor, Single
from gaugestack.answers.knowing import StackView
from gaugestack.answers.options import Choice
from gaugestack.answers.stock import stock_of
from gaugestack.answers.uncertainty import known_of
from gaugestack.blocks import Basis
from gaugestack.errors import UsageError
from gaugestack.inventory.setfile import set_of_text
from gaugestack.lengths import Length
from gaugestack.stacks.request import Built

MM = 1_000_000_000
SIZES = [1, 2, 3, 4, 5, 6, 7, 8, 10, 13]


def stock(seed, *, grade="0"):
    """Return a small set some of whose blocks have certified lengths."""
    dice = random.Random(seed)  # noqa: S311  (cases, no secrets)
    certified = dice.sample(SIZES, 5)
    deviations = ", ".join(f"{size}: {dice.randint(-9, 9) / 100}" for size in certified)
    text = (
        f'format: 1\nname: Small\nunit: mm\nstandard: ISO 3650\ngrade: "{grade}"\n'
        f"blocks: [{', '.join(f'{{size: {size}}}' for size in SIZES)}]\n"
        "certificate:\n  source: laboratory report\n"
        f"  uncertainty: {{fixed: {dice.choice(['0.03', '0.09'])} µm, per_length: 0.5 µm/m}}\n"
        f"  deviations: {{{deviations}}}\n"
    )
    block_set, _ = set_of_text(text, file="small.yaml")
    return stock_of(block_set)


def every(found, target, circumstances):
    """Return every stack of a height with its uncertainty: (U, number of blocks, blocks)."""
    view, known = StackView(conditions=circumstances.conditions()), known_of(found)
    stacks = []
    for count in range(1, len(SIZES) + 1):
        for blocks in combinations(found.fit, count):
            built = Built(target=Length(target), blocks=blocks, basis=Basis.CERTIFIED)
            if abs(built.deviation) <= MM // 2:
                height = known.height(blocks, Basis.CERTIFIED)
                stacks.append((view.seen(height).budget.expanded, count))
    return stacks


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("circumstances", [Circumstances(), Circumstances(shared="0", joints_together=True)])
def test_the_least_uncertainty_found_is_the_least_there_is(seed, circumstances):
    found = stock(seed)
    target = 11 + 3 * seed
    wish = Wish(circumstances=circumstances, least=True)
    answer = stack_budget([f"{target}mm"], stock=found, wish=wish)

    assert answer.search.proven
    assert answer.search.expanded == pytest.approx(min(every(found, target * MM, circumstances))[0])
    assert answer.known[0].budget.expanded == pytest.approx(answer.search.expanded)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("among", [0, 3, 10])
def test_within_a_limit_the_fewest_blocks_there_are_are_taken(seed, among):
    found, target = stock(seed), 11 + 3 * seed
    stacks = sorted(every(found, target * MM, Circumstances()))
    limit = stacks[min(among, len(stacks) - 1)][0] * 1.0001 / 1000
    wish = Wish(within=f"{limit:.6f}um")
    answer = stack_budget([f"{target}mm"], stock=found, wish=wish)
    fewest = min(count for expanded, count in stacks if expanded <= limit * 1000)

    assert answer.search.met
    assert len(answer.search.built.blocks) == fewest


@pytest.mark.parametrize("seed", range(8))
def test_a_limit_below_the_least_there_is_is_not_kept_and_that_is_proven(seed):
    found, target = stock(seed), 11 + 3 * seed
    least = min(every(found, target * MM, Circumstances()))[0]
    answer = stack_budget([f"{target}mm"], stock=found, wish=Wish(within=f"{least * 0.9999 / 1000:.6f}um"))

    assert not answer.search.met
    assert answer.search.proven


@pytest.mark.parametrize("seed", range(4))
def test_the_floor_is_never_above_what_is_measured(seed):
    found, dice = stock(seed), random.Random(seed)  # noqa: S311  (cases, no secrets)
    circumstances = Circumstances()
    view, known = StackView(conditions=circumstances.conditions()), known_of(found)
    from gaugestack.answers.choosing import _floor  # noqa: PLC0415

    request = Choice(basis=Basis.CERTIFIED).request(found, [Length(11 * MM)])
    first = Built(target=Length(11 * MM), blocks=found.fit[-4:], basis=Basis.CERTIFIED)
    floor = _floor(request, first, known, view)
    for _ in range(100):
        blocks = tuple(dice.sample(found.fit, dice.randint(1, 8)))
        measured = view.seen(known.height(blocks, Basis.CERTIFIED)).budget.expanded
        low = sum(block.nominal for block in blocks)

        assert floor.of_stack(blocks) <= measured * (1 + 1e-9)
        assert floor.of_count(len(blocks), low) <= floor.of_stack(blocks) * (1 + 1e-9)


def test_the_floor_of_more_blocks_than_there_are_is_infinite():
    floor = Floor(rest=1.0, reference=10, singles={1: Single(alone=1.0)}, joint=0.0, k=2.0)

    assert floor.of_count(1, 10) == pytest.approx(2 * 2**0.5)
    assert floor.of_count(2, 10) == float("inf")


def test_blocks_kept_in_stand_in_the_stack_chosen_by_its_uncertainty():
    found = stock(1)
    answer = stack_budget(["14mm"], stock=found, choice=Choice(keep=("3",)), wish=Wish(least=True))

    assert "3 mm" in [block.engraved for block in answer.search.built.blocks]


def test_too_many_blocks_are_not_chosen_by_their_uncertainty():
    answer = stack_budget(["14mm"], stock=stock(1), choice=Choice(most=2), wish=Wish(least=True))

    assert len(answer.search.built.blocks) <= 2
    assert answer.search.most_blocks <= 2


def test_a_limit_of_zero_is_refused():
    with pytest.raises(UsageError, match="within zero"):
        stack_budget(["14mm"], stock=stock(1), wish=Wish(within="0mm"))
