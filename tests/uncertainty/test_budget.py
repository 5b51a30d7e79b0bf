import math

import pytest

from gaugestack.errors import UsageError
from gaugestack.uncertainty.budget import (
    USUAL_PROBABILITY,
    Budget,
    Component,
    degrees_from_reliability,
    scaled,
    second_order,
)
from gaugestack.uncertainty.distribution import Distribution


def doubt(value, **more):
    return Component(**{"name": "doubt", "unit": "nm", "value": value, **more})


def budget(*components, **more):
    return Budget(**{"quantity": "stack", "unit": "nm", "components": components, **more})


def test_an_expanded_uncertainty_is_divided_by_its_k():
    assert doubt(75, divisor=3).standard == 25


def test_a_limit_is_divided_by_the_divisor_of_its_distribution():
    assert doubt(30, distribution=Distribution.RECTANGULAR).standard == pytest.approx(30 / math.sqrt(3))


def test_a_contribution_has_the_sign_of_its_sensitivity():
    assert doubt(2, sensitivity=-3).contribution == -6


def test_a_value_below_zero_is_refused():
    with pytest.raises(UsageError, match=r"an uncertainty of -5 nm: it cannot be below zero"):
        doubt(-5)


def test_a_value_of_zero_is_allowed():
    assert budget(doubt(0)).expanded == 0


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_value_that_is_not_finite_is_refused(value):
    with pytest.raises(UsageError, match="not a finite number"):
        doubt(value)


@pytest.mark.parametrize("sensitivity", [math.nan, math.inf])
def test_a_sensitivity_that_is_not_finite_is_refused(sensitivity):
    with pytest.raises(UsageError, match="not a finite number"):
        doubt(1, sensitivity=sensitivity)


@pytest.mark.parametrize("factor", [0, -2, math.nan, math.inf])
def test_a_divisor_of_zero_or_below_is_refused(factor):
    with pytest.raises(UsageError, match=r"a coverage factor k of .*: it is above zero"):
        doubt(5, divisor=factor)


@pytest.mark.parametrize("factor", [0, -2, math.nan, math.inf])
def test_a_fixed_k_of_zero_or_below_is_refused(factor):
    with pytest.raises(UsageError, match=r"a coverage factor k of .*: it is above zero"):
        budget(doubt(5), coverage_factor=factor)


@pytest.mark.parametrize("factor", [0.001, 1, 2, 3])
def test_a_fixed_k_above_zero_is_used_as_it_is(factor):
    assert budget(doubt(5, degrees_of_freedom=2), coverage_factor=factor).expanded == 5 * factor


@pytest.mark.parametrize("degrees", [0, 0.9, -1, math.nan])
def test_degrees_of_freedom_below_one_are_refused(degrees):
    with pytest.raises(UsageError, match="degrees of freedom"):
        doubt(5, degrees_of_freedom=degrees)


@pytest.mark.parametrize("degrees", [1, 1.5, math.inf])
def test_degrees_of_freedom_from_one_are_allowed(degrees):
    assert doubt(5, degrees_of_freedom=degrees).degrees_of_freedom == degrees


def test_an_unknown_distribution_is_refused():
    with pytest.raises(UsageError, match="'lognormal' is no distribution"):
        doubt(5, distribution="lognormal")


def test_a_distribution_may_be_given_as_its_word():
    assert doubt(5, distribution="triangular").distribution is Distribution.TRIANGULAR


def test_a_budget_without_components_is_refused():
    with pytest.raises(UsageError, match="a budget without a single component"):
        budget()


def test_independent_contributions_add_as_root_of_the_sum_of_squares():
    assert budget(doubt(3), doubt(4, sensitivity=-1)).combined == pytest.approx(5)


def test_those_of_one_group_add_before_they_are_squared():
    assert budget(doubt(3, group="g"), doubt(4, group="g")).combined == pytest.approx(7)


def test_those_of_one_group_with_opposite_signs_cancel():
    assert budget(doubt(4, group="g"), doubt(4, group="g", sensitivity=-1)).combined == 0


def test_two_groups_are_independent_of_each_other():
    assert budget(doubt(3, group="g"), doubt(4, group="h")).combined == pytest.approx(5)


def test_what_was_never_estimated_from_readings_has_infinite_degrees_and_k_two():
    of_limits = budget(doubt(3), doubt(4))
    assert math.isinf(of_limits.effective_degrees_of_freedom)
    assert of_limits.k == pytest.approx(2, rel=1e-14)


def test_welch_satterthwaite_takes_unrounded_values_and_cuts_the_result():
    of_readings = budget(doubt(3, degrees_of_freedom=4), doubt(4, degrees_of_freedom=9))
    exact = 625 / (81 / 4 + 256 / 9)
    assert of_readings.effective_degrees_of_freedom == pytest.approx(exact)
    assert of_readings.degrees_used == math.floor(exact)


@pytest.mark.parametrize(("degrees", "used"), [(1.0, 1), (1.9, 1), (4, 4), (4.999, 4), (math.inf, math.inf)])
def test_degrees_are_cut_never_rounded_up_and_never_below_one(degrees, used):
    assert budget(doubt(3, degrees_of_freedom=degrees)).degrees_used == used


def test_a_group_counts_its_fewest_degrees_once():
    together = budget(doubt(3, group="g", degrees_of_freedom=9), doubt(4, group="g", degrees_of_freedom=5))
    assert together.effective_degrees_of_freedom == pytest.approx(5)


def test_lines_come_largest_first_and_their_shares_make_one():
    lines = budget(doubt(1, name="a"), doubt(3, name="b"), doubt(2, name="c", group="g")).lines()
    assert [line.name for line in lines] == ["b", "g", "a"]
    assert sum(line.share for line in lines) == pytest.approx(1)
    assert lines[0].share == pytest.approx(9 / 14)


def test_the_shares_of_components_make_one_even_where_some_cancel():
    parts = (doubt(4, group="g"), doubt(1, group="g", sensitivity=-1), doubt(2))
    of_all = budget(*parts)
    assert sum(of_all.share(part) for part in parts) == pytest.approx(1)
    assert of_all.share(parts[1]) < 0


def test_nothing_in_doubt_has_no_shares():
    nothing = budget(doubt(0))
    assert nothing.share(nothing.components[0]) == 0
    assert nothing.lines()[0].share == 0


def test_a_product_of_two_doubts_is_the_product_of_their_standard_uncertainties():
    first = doubt(3, distribution=Distribution.RECTANGULAR, unit="1/K", sensitivity=77)
    second = doubt(5, divisor=2, unit="K")
    product = second_order(first, second, mixed=-10, name="both")
    assert product.contribution == pytest.approx(-10 * math.sqrt(3) * 2.5)
    assert product.distribution is Distribution.PRODUCT


@pytest.mark.parametrize(
    ("first", "second", "degrees"),
    [(math.inf, math.inf, math.inf), (8, math.inf, 8), (8, 8, 4), (1, 1, 1)],
)
def test_the_degrees_of_a_product_combine_as_reciprocals_and_stay_from_one(first, second, degrees):
    product = second_order(
        doubt(1, degrees_of_freedom=first), doubt(1, degrees_of_freedom=second), mixed=1, name="both"
    )
    assert product.degrees_of_freedom == pytest.approx(degrees)


def test_scaling_changes_sensitivities_and_nothing_else():
    (only,) = scaled((doubt(5, sensitivity=2, group="g"),), -3)
    assert (only.value, only.sensitivity, only.group) == (5, -6, "g")


# JCGM 100:2008, G.4.2 and H.1 (25, 10 and 50 percent).
@pytest.mark.parametrize(("relative", "degrees"), [(0.25, 8), (0.1, 50), (0.5, 2)])
def test_reliability_gives_degrees_of_freedom(relative, degrees):
    assert degrees_from_reliability(relative) == pytest.approx(degrees)


@pytest.mark.parametrize("relative", [0, -0.1, 0.7, 25, math.nan])
def test_a_reliability_outside_its_range_is_refused(relative):
    with pytest.raises(UsageError, match="a reliability of"):
        degrees_from_reliability(relative)


def test_the_usual_probability_is_the_one_k_two_stands_for():
    assert pytest.approx(0.9545, abs=1e-5) == USUAL_PROBABILITY
