"""The budgets against peers: derivatives by mpmath, linear propagation, random draws (JCGM 101)."""

import math

import mpmath
import numpy as np
import pytest
import uncertainties.umath as um
from uncertainties import ufloat

from gaugestack.angles.angle import Angle
from gaugestack.angles.sine import bar_of_length
from gaugestack.angles.sine import height as sine_height
from gaugestack.blocks import Block, CalibrationUncertainty, Certificate, Stack
from gaugestack.lengths import Length, Unit
from gaugestack.uncertainty.angle import (
    ARCSECONDS_PER_RADIAN,
    BarLimits,
    angle_uncertainty,
    turned_by_centre_distance,
    turned_by_height,
    turned_by_warmth,
)
from gaugestack.uncertainty.budget import Budget, Component
from gaugestack.uncertainty.conditions import Conditions
from gaugestack.uncertainty.knowledge import Knowledge
from gaugestack.uncertainty.stack import Height, stack_uncertainty

MM = 1_000_000_000
BAR = bar_of_length(Length(100 * MM), Unit.MILLIMETRE)
DRAWS = 400_000
SIZES = (1.005, 1.34, 7.5, 40.0)
CONDITIONS = Conditions(
    room=23.0, room_limit=1.5, blocks_above=0.4, blocks_limit=0.6, part_above=-0.3, part_limit=0.8,
    bar_above=0.2, bar_limit=0.3, part_material="aluminium",
)  # fmt: skip
LIMITS = BarLimits(
    centre_distance=800.0,
    centre_distance_k=2.0,
    roll_difference=500.0,
    parallelism=300.0,
    face_flatness=200.0,
    plate_flatness=700.0,
    yaw_degrees=0.0,
)


def stack_height(*sizes):
    stated = CalibrationUncertainty(fixed=Length(80_000), per_length=500_000)
    blocks = tuple(
        Block(nominal=Length(round(size * MM)), unit=Unit.MILLIMETRE, deviation=Length(0)) for size in sizes
    )
    return Height(
        stack=Stack(blocks=blocks), knowledge={"": Knowledge(certificate=Certificate(uncertainty=stated))}
    )


def bar_height(degrees):
    nominal = sine_height(Angle.from_degrees(degrees), BAR)
    return stack_height(nominal / MM / 2, nominal / MM / 2)


def standard_of(values):
    """The spread of draws and its own sampling error, from the fourth moment."""
    spread = values.std()
    kurtosis = ((values - values.mean()) ** 4).mean() / spread**4
    return spread, spread * math.sqrt((kurtosis - 1) / (4 * len(values)))


def rectangular(rng, middle, half):
    return middle + half * (2 * rng.random(DRAWS) - 1)


@pytest.mark.parametrize("degrees", [1, 5, 15, 30, 45, 60, 80, 89])
def test_the_two_sensitivities_are_the_derivatives_of_the_sine_formula(degrees):
    mpmath.mp.dps = 40
    sine = mpmath.sin(mpmath.radians(degrees))
    length, height = mpmath.mpf(100e6), 100e6 * sine
    by_height = mpmath.diff(lambda h: mpmath.asin(h / length), height)
    by_length = mpmath.diff(lambda x: mpmath.asin(height / x), length)
    angle = Angle.from_degrees(degrees)
    assert turned_by_height(angle, BAR, 1.0) == pytest.approx(
        float(by_height * ARCSECONDS_PER_RADIAN), rel=1e-12
    )
    assert turned_by_centre_distance(angle, BAR, 1.0) == pytest.approx(
        float(by_length * ARCSECONDS_PER_RADIAN), rel=1e-12
    )


def thermal_model(arguments):
    """The stack's excess over the part, nm, as the budget's docstring states it."""
    room, above_blocks, above_part, alpha_blocks, alpha_part = arguments
    length = sum(SIZES) * 1e6
    return length * (alpha_blocks * (room + above_blocks) - alpha_part * (room + above_part))


@pytest.mark.parametrize(
    ("name", "orders"),
    [
        ("room temperature", (1, 0, 0, 0, 0)),
        ("warmth of the blocks against the room", (0, 1, 0, 0, 0)),
        ("warmth of the part against the room", (0, 0, 1, 0, 0)),
        ("expansion of steel of the blocks", (0, 0, 0, 1, 0)),
        ("expansion of aluminium of the part", (0, 0, 0, 0, 1)),
        ("expansion of steel of the blocks x room temperature", (1, 0, 0, 1, 0)),
        ("expansion of steel of the blocks x its warmth", (0, 1, 0, 1, 0)),
        ("expansion of aluminium of the part x room temperature", (1, 0, 0, 0, 1)),
        ("expansion of aluminium of the part x its warmth", (0, 0, 1, 0, 1)),
    ],
)
def test_the_thermal_sensitivities_are_first_and_mixed_derivatives(name, orders):
    mpmath.mp.dps = 40
    at = (mpmath.mpf(3), mpmath.mpf("0.4"), mpmath.mpf("-0.3"), mpmath.mpf("11.5e-6"), mpmath.mpf("23.1e-6"))
    exact = mpmath.diff(lambda *arguments: thermal_model(arguments), at, orders)
    budget = stack_uncertainty(stack_height(*SIZES), CONDITIONS).budget
    found = next(component for component in budget.components if component.name == name)
    assert found.sensitivity == pytest.approx(float(exact), rel=1e-9)


@pytest.mark.parametrize("degrees", [5, 30, 60])
def test_first_order_propagation_of_an_angle_agrees_with_a_general_library(degrees):
    budget = angle_uncertainty(
        Angle.from_degrees(degrees), BAR, bar_height(degrees), CONDITIONS, limits=LIMITS
    ).budget
    first_order = math.hypot(
        *(line.contribution for line in budget.lines() if line.components[0].distribution != "product")
    )
    # 1e-4: the library takes its derivatives with bodies 3 K warm, the budget at 20 °C
    assert first_order == pytest.approx(by_library(degrees).std_dev * ARCSECONDS_PER_RADIAN, rel=1e-4)


def by_library(degrees):
    """The angle with all its inputs as correlated numbers of a general library."""
    third, nominal = math.sqrt(3), float(sine_height(Angle.from_degrees(degrees), BAR)) / 1000
    shared = ufloat(0, 1)
    stack = nominal + 2 * shared * (80 + 0.5e-6 * nominal / 2) / 2
    stack += ufloat(0, 25 / third) + ufloat(0, 25 / third)
    room = ufloat(3, 1.5 / third)
    warm_blocks, warm_bar = room + ufloat(0.4, 0.6 / third), room + ufloat(0.2, 0.3 / third)
    steel, bar_steel = ufloat(11.5e-6, 1e-6 / third), ufloat(11.5e-6, 1.5e-6 / third)
    height = stack + nominal * steel * warm_blocks + ufloat(0, 500 / third) / 2 + ufloat(0, 700 / third)
    # linear about the wanted angle, as the budget is: the thermal shift is left in the model's terms
    height -= nominal * 11.5e-6 * (3.4 - 3.2)
    bar = ufloat(100e6, 400) * (1 + bar_steel * warm_bar)
    bar -= 100e6 * 11.5e-6 * 3.2
    face = (ufloat(0, 300 / third) + ufloat(0, 200 / third)) / 100e6
    height -= nominal * 11.5e-6 * 3.2
    return um.asin(height / bar) + face


def test_the_stack_budget_agrees_with_random_draws_of_its_exact_model():
    rng = np.random.default_rng(20)
    values = np.zeros(DRAWS)
    common = rng.standard_normal(DRAWS)
    for size in SIZES:
        values += common * (80 + 0.5 * size) / 2 + rectangular(rng, 0, 25)
    room = rectangular(rng, 3, 1.5)
    warm_blocks, warm_part = room + rectangular(rng, 0.4, 0.6), room + rectangular(rng, -0.3, 0.8)
    length = sum(SIZES) * 1e6
    values += length * rectangular(rng, 11.5e-6, 1e-6) * warm_blocks
    values -= length * rectangular(rng, 23.1e-6, 1.2e-6) * warm_part
    result = stack_uncertainty(stack_height(*SIZES), CONDITIONS)
    spread, error = standard_of(values)
    assert result.budget.combined == pytest.approx(spread, abs=5 * error)
    assert result.shift == pytest.approx(values.mean(), abs=5 * spread / math.sqrt(DRAWS))


def test_without_the_second_order_terms_the_draws_would_disagree():
    rng = np.random.default_rng(21)
    conditions = Conditions(room_limit=3.0, blocks_limit=0.0, part_limit=0.0, wringing_limit=0.0)
    room = rectangular(rng, 0, 3.0)
    values = 1e8 * room * (rectangular(rng, 11.5e-6, 1e-6) - rectangular(rng, 11.5e-6, 1.5e-6))
    values += rng.standard_normal(DRAWS) * 65
    budget = stack_uncertainty(stack_height(100), conditions).budget
    spread, error = standard_of(values)
    plain = tuple(c for c in budget.components if c.distribution != "product")
    assert budget.combined == pytest.approx(spread, abs=5 * error)
    assert spread - Budget(quantity="k", unit="nm", components=plain).combined > 50 * error


@pytest.mark.parametrize("degrees", [5, 45, 75])
def test_the_angle_budget_agrees_with_random_draws_of_the_sine_formula(degrees):
    rng, angle = np.random.default_rng(degrees), Angle.from_degrees(degrees)
    nominal = float(sine_height(angle, BAR)) / 1000
    height = nominal + 2 * rng.standard_normal(DRAWS) * (80 + 0.5e-6 * nominal / 2) / 2
    height += rectangular(rng, 0, 25) + rectangular(rng, 0, 25)
    room = rectangular(rng, 3, 1.5)
    height += nominal * rectangular(rng, 11.5e-6, 1e-6) * (room + rectangular(rng, 0.4, 0.6))
    height += rectangular(rng, 0, 500) / 2 + rectangular(rng, 0, 700)
    bar = 100e6 + 400 * rng.standard_normal(DRAWS)
    bar *= 1 + rectangular(rng, 11.5e-6, 1.5e-6) * (room + rectangular(rng, 0.2, 0.3))
    drawn = np.arcsin(height / bar) + (rectangular(rng, 0, 300) + rectangular(rng, 0, 200)) / 100e6
    drawn = (drawn - angle.radians) * ARCSECONDS_PER_RADIAN
    result = angle_uncertainty(angle, BAR, bar_height(degrees), CONDITIONS, limits=LIMITS)
    spread, error = standard_of(drawn)
    # 1e-4: what the curve of the sine adds is not in the budget
    assert result.budget.combined == pytest.approx(spread, abs=5 * error + 1e-4 * spread)
    assert result.shift == pytest.approx(drawn.mean(), abs=5 * spread / math.sqrt(DRAWS) + 1e-3)
    assert turned_by_warmth(angle, BAR, bar_height(degrees), CONDITIONS) == result.shift


def test_95_times_in_100_the_interval_holds_the_value():
    """Five readings and a rectangular limit, a budget for every trial: it covers at least what it says."""
    rng, trials, sigma, limit = np.random.default_rng(14253), 4000, 10.0, 12.0
    held = 0
    for readings, off in zip(
        rng.normal(0, sigma, (trials, 5)), limit * (2 * rng.random(trials) - 1), strict=True
    ):
        spread = float(readings.std(ddof=1)) / math.sqrt(5)
        budget = Budget(
            quantity="l",
            unit="nm",
            probability=0.95,
            components=(
                Component(name="mean", value=spread, unit="nm", degrees_of_freedom=4),
                Component(name="limit", value=limit, unit="nm", distribution="rectangular"),
            ),
        )
        held += abs(float(readings.mean()) + float(off)) <= budget.expanded
    error = math.sqrt(0.95 * 0.05 / trials)
    assert 0.95 - 4 * error <= held / trials <= 0.985


def test_95_times_in_100_the_interval_of_readings_alone_holds_the_value():
    rng, trials = np.random.default_rng(5), 20_000
    readings = rng.normal(0, 10, (trials, 5))
    one = Component(name="mean", value=1.0, unit="nm", degrees_of_freedom=4)
    k = Budget(quantity="l", unit="nm", probability=0.95, components=(one,)).k
    held = np.abs(readings.mean(axis=1)) <= k * readings.std(axis=1, ddof=1) / math.sqrt(5)
    assert held.mean() == pytest.approx(0.95, abs=4 * math.sqrt(0.95 * 0.05 / trials))
