"""A list's answers are those of its targets asked alone, whatever set, choice and order; the judge knows."""

import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugestack.answers.angle import angle
from gaugestack.answers.bars import find_bar
from gaugestack.answers.batch import angle_each, stack_each
from gaugestack.answers.options import Choice
from gaugestack.answers.stack import stack
from gaugestack.answers.stock import load, stock_of
from gaugestack.blocks import Basis, BlockSet
from gaugestack.inventory.targetsfile import Target
from gaugestack.lengths import Unit, exact_text
from gaugestack.stacks import judge
from gaugestack.stacks.request import Found
from tests.property.strategies import OFFSETS, STEP, pools, wear_pair

CHOICES = st.builds(
    Choice,
    tolerance=st.sampled_from([None, "0", "0.1mm", "0.7mm"]),
    basis=st.sampled_from(list(Basis)),
    wear=st.sampled_from([None, "own"]),
    most=st.sampled_from([None, 1, 3]),
)
HEIGHTS = st.builds(
    lambda halves, off: exact_text(halves * STEP + off, Unit.MILLIMETRE),
    st.integers(1, 40),
    st.sampled_from(OFFSETS),
)
TARGETS = st.builds(Target, text=HEIGHTS, tolerance=st.sampled_from([None, None, "0", "2mm"]))
BENCH = load(["inch-81"])
BAR = find_bar("5in", BENCH, ())


def one_by_one(targets, stock, choice):
    """Return the answers of the function for one target."""
    for target in targets:
        mine = choice if target.tolerance is None else replace(choice, tolerance=target.tolerance)
        yield stack([target.text], stock=stock, choice=mine)


@settings(max_examples=150, deadline=None)
@given(pool=pools(), strays=st.lists(st.sampled_from([None, 0, 1000, -2000]), min_size=8), data=st.data())
def test_a_list_is_answered_as_its_heights_are_alone(pool, strays, data):
    blocks = tuple(replace(each, deviation=stray) for each, stray in zip(pool, strays, strict=False))
    wear = wear_pair(2, first=1)
    stock = stock_of(BlockSet(name="bench", unit=Unit.MILLIMETRE, blocks=(*blocks, *wear)))
    targets, choice = data.draw(st.lists(TARGETS, min_size=1, max_size=5)), data.draw(CHOICES)

    answers = list(stack_each(targets, stock=stock, choice=choice))

    assert answers == list(one_by_one(targets, stock, choice))
    for answer in answers:
        if isinstance(answer.outcome, Found):
            assert judge.broken_rules(answer.request, answer.outcome.stacks) == ()


@settings(max_examples=25, deadline=None)
@given(st.lists(st.integers(500, 120_000), min_size=1, max_size=6))
def test_a_list_from_a_shipped_set_is_answered_as_its_heights_are_alone(heights):
    texts = [f"{height / 10_000:.4f}" for height in heights]

    assert list(stack_each(texts, stock=BENCH)) == [stack([text], stock=BENCH) for text in texts]


@settings(max_examples=20, deadline=None)
@given(st.lists(st.tuples(st.integers(3, 80), st.integers(0, 59)), min_size=1, max_size=4), st.booleans())
def test_a_list_of_angles_is_answered_as_its_angles_are_alone(asked, bare):
    texts = [str(degrees) if bare else f"{degrees}d{minutes}m" for degrees, minutes in asked]

    together = list(angle_each(texts, bar=BAR, stock=BENCH))

    assert together == [angle(text, bar=BAR, stock=BENCH) for text in texts]


@pytest.mark.parametrize("tolerance", [None, "0.00001in"])
def test_an_angle_that_takes_two_stacks_or_none_is_answered_as_it_is_alone(tolerance):
    texts, choice = ["0d3m", "7d7m30s"], Choice(tolerance=tolerance)

    together = list(angle_each(texts, bar=BAR, stock=BENCH, bars=(BAR,), choice=choice))

    assert together == [angle(text, bar=BAR, stock=BENCH, bars=(BAR,), choice=choice) for text in texts]
    assert (together[0].difference is None) is bool(tolerance)


def test_a_tolerance_of_its_own_can_reach_above_all_other_heights():
    targets = [Target(text="0.1in"), Target(text="0.3in", tolerance="9in")]
    stock = stock_of(BlockSet(name="high", unit=Unit.INCH, blocks=load(["inch-81"]).fit[:2]))

    found = [answer.outcome for answer in stack_each(targets, stock=stock)]

    assert found[1] == next(one_by_one(targets[1:], stock, Choice())).outcome
    assert isinstance(found[1], Found)


def test_blocks_of_two_sets_and_a_worn_set_make_a_list_as_they_make_one():
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "bench.yaml"
        path.write_text(
            "format: 1\nname: Bench\nunit: in\nstandard: ASME B89.1.9\ngrade: AS-1\nabsent: [0.105]\n"
            "blocks:\n  - {from: 0.101, to: 0.149, step: 0.001}\n  - {from: 0.1, to: 0.9, step: 0.1}\n"
        )
        stock = load([str(path), "metric-47"])
    texts = ["0.105", "30mm", "1.234in", "0.05in"]

    assert list(stack_each(texts, stock=stock)) == [stack([text], stock=stock) for text in texts]
