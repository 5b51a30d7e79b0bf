"""What holds for every budget, stack, temperature and decision."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from gaugestack.blocks import Block, CalibrationUncertainty, Certificate, Stack
from gaugestack.errors import TextError
from gaugestack.lengths import Length, Unit
from gaugestack.uncertainty.budget import Budget, Component, scaled
from gaugestack.uncertainty.conditions import Conditions
from gaugestack.uncertainty.correction import Warm, corrected_height
from gaugestack.uncertainty.decision import Tolerance, Verdict, decide, dominant_line, improve_first
from gaugestack.uncertainty.distribution import Distribution
from gaugestack.uncertainty.knowledge import Knowledge
from gaugestack.uncertainty.materials import BLOCK_MATERIALS, WORK_MATERIALS
from gaugestack.uncertainty.rounding import two_digits_up
from gaugestack.uncertainty.stack import Height, stack_uncertainty
from gaugestack.uncertainty.student import coverage_factor
from gaugestack.uncertainty.temperature import read_temperature

MM = 1_000_000_000
COMPONENTS = st.builds(
    Component,
    name=st.sampled_from(["film", "warmth", "grade"]),
    value=st.floats(0.01, 1000),
    unit=st.just("nm"),
    distribution=st.sampled_from(Distribution),
    degrees_of_freedom=st.sampled_from([1, 2, 4.5, 50, math.inf]),
    sensitivity=st.floats(-10, 10).filter(lambda value: abs(value) > 0.01),
    group=st.sampled_from(["", "", "g", "h"]),
)
BUDGETS = st.lists(COMPONENTS, min_size=1, max_size=8).map(
    lambda items: Budget(quantity="stack", unit="nm", components=tuple(items))
)


@given(BUDGETS)
def test_the_order_of_the_components_changes_nothing(budget):
    turned = replace(budget, components=budget.components[::-1])
    assert turned.combined == pytest.approx(budget.combined, rel=1e-12, abs=1e-9)
    assert turned.k == budget.k


@given(BUDGETS, st.sampled_from([1e-9, 1e-3, 25.4, 1e6]))
def test_another_unit_scales_the_result_and_leaves_k_alone(budget, factor):
    assume(budget.combined > 1e-6)
    other = replace(budget, components=scaled(budget.components, factor))
    assert other.expanded == pytest.approx(budget.expanded * factor, rel=1e-9)
    assert other.effective_degrees_of_freedom == pytest.approx(budget.effective_degrees_of_freedom, rel=1e-9)


@given(BUDGETS)
def test_shares_make_one_and_the_largest_line_comes_first(budget):
    assume(budget.combined > 1e-6)
    lines = budget.lines()
    assert math.fsum(line.share for line in lines) == pytest.approx(1)
    assert math.fsum(budget.share(item) for item in budget.components) == pytest.approx(1)
    assert [line.share for line in lines] == sorted((line.share for line in lines), reverse=True)
    assert lines[0].name in dominant_line(budget)


@given(BUDGETS, COMPONENTS)
def test_one_more_independent_doubt_never_makes_the_result_surer(budget, another):
    more = replace(budget, components=(*budget.components, replace(another, group="")))
    assert more.combined >= budget.combined


@given(BUDGETS)
def test_effective_degrees_lie_between_the_fewest_and_the_sum(budget):
    assume(budget.combined > 1e-6)
    degrees = [line.degrees_of_freedom for line in budget.lines()]
    assert min(degrees) * (1 - 1e-9) <= budget.effective_degrees_of_freedom
    assert budget.effective_degrees_of_freedom <= sum(degrees) * (1 + 1e-9) or any(
        math.isinf(value) for value in degrees
    )


@given(BUDGETS)
def test_no_other_line_is_better_to_improve_first(budget):
    assume(budget.combined > 1e-6)
    better = improve_first(budget)
    for line in budget.lines():
        if line.components[0].distribution is not Distribution.PRODUCT:
            halved = tuple(
                replace(item, value=item.value / 2) if any(item is one for one in line.components) else item
                for item in budget.components
            )
            assert better.expanded_then <= replace(budget, components=halved).expanded * (1 + 1e-12)


@given(st.floats(0.01, 0.9999), st.integers(1, 3000))
def test_k_is_above_that_of_the_normal_distribution(probability, degrees):
    assert coverage_factor(probability, degrees) > coverage_factor(probability, math.inf) * (1 - 1e-12)


@given(st.lists(st.integers(1, 200), min_size=1, max_size=6, unique=True), st.floats(0, 1))
def test_a_stack_is_surest_where_its_blocks_share_nothing(halves, shared):
    known = Knowledge(certificate=Certificate(uncertainty=CalibrationUncertainty(fixed=Length(60_000))))
    blocks = tuple(
        Block(nominal=Length(n * MM // 2), unit=Unit.MILLIMETRE, deviation=Length(0)) for n in halves
    )
    height = Height(stack=Stack(blocks=blocks), knowledge={"": known})
    apart, between, together = (
        stack_uncertainty(height, Conditions(calibration_shared=share)).budget.combined
        for share in (0, shared, 1)
    )
    assert apart * (1 - 1e-9) <= between <= together * (1 + 1e-9)


@given(st.floats(-1e4, 1e4), st.floats(0, 1e3), st.floats(-1e3, 1e3), st.floats(0.1, 1e3))
def test_more_doubt_never_turns_a_no_into_a_yes_or_back(value, band, lower, width):
    tolerance = Tolerance(lower=lower, upper=lower + width)
    surer, vaguer = (decide(value, tolerance, guard).verdict for guard in (band, band * 2 + 1))
    assert vaguer in (surer, Verdict.CANNOT_TELL)


@given(st.floats(1e-6, 1e9))
def test_an_expanded_uncertainty_is_never_printed_smaller_and_never_a_tenth_larger(value):
    printed = float(two_digits_up(value))
    assert value * (1 - 2e-9) <= printed <= value * 1.1 * (1 + 1e-9)


@given(st.decimals(-10, 60, places=3))
def test_celsius_and_fahrenheit_of_one_temperature_read_alike(celsius):
    fahrenheit = celsius * 9 / 5 + 32
    assert (
        read_temperature(f"{celsius} °C").celsius
        == read_temperature(f"{fahrenheit:f} °F").celsius
        == Fraction(celsius)
    )


@given(st.text(max_size=12))
def test_any_text_is_a_temperature_or_refused_with_a_place_in_it(text):
    refusal = None
    try:
        read = read_temperature(text)
    except TextError as error:
        refusal = error
    if refusal is None:
        assert -10 <= read.celsius <= 60
    else:
        assert 0 <= refusal.start < refusal.end


@given(
    st.integers(1, 300 * MM),
    st.sampled_from([*BLOCK_MATERIALS, *WORK_MATERIALS]),
    st.sampled_from(BLOCK_MATERIALS),
    st.floats(-10, 60),
    st.floats(-10, 60),
)
def test_a_corrected_height_stands_as_high_as_the_part_has_grown(wanted, work, steel, warm, cool):
    part, blocks = Warm(expansion=work, celsius=warm), Warm(expansion=steel, celsius=cool)
    laid = corrected_height(Length(wanted), against=part, blocks=blocks)
    assert abs(laid * blocks.stretch - wanted * part.stretch) <= Fraction(51, 100)
