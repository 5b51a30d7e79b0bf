import math

import pytest

from gaugestack.errors import UsageError
from gaugestack.uncertainty.budget import Budget, Component, second_order
from gaugestack.uncertainty.decision import (
    Tolerance,
    Verdict,
    decide,
    dominant_line,
    improve_first,
    ratio_line,
    tolerance_ratio,
)

LIMITS = Tolerance(lower=-500, upper=500, unit="nm")


def doubt(name, value, **more):
    return Component(name=name, value=value, unit="nm", **more)


def budget(*components):
    return Budget(quantity="stack", unit="nm", components=components)


# ISO 14253-1: met within [lower + U, upper - U]; not met from lower - U and upper + U outwards.
@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (0, "yes"),
        (400, "yes"),
        (-400, "yes"),
        (400.001, "cannot tell"),
        (500, "cannot tell"),
        (-500, "cannot tell"),
        (599.999, "cannot tell"),
        (600, "no"),
        (-600, "no"),
        (9000, "no"),
    ],
)
def test_the_guard_band_stands_on_both_sides_of_each_limit(value, verdict):
    assert decide(value, LIMITS, 100).verdict == verdict


def test_without_any_doubt_there_is_no_cannot_tell():
    assert [decide(value, LIMITS, 0).verdict for value in (500, 500.001)] == [Verdict.YES, Verdict.NO]


def test_one_limit_may_be_missing():
    at_least = Tolerance(lower=0, upper=math.inf)
    assert [decide(value, at_least, 10).verdict for value in (10, 0, -10)] == ["yes", "cannot tell", "no"]


@pytest.mark.parametrize(
    ("value", "sentence"),
    [
        (0, "yes: 500 nm inside the nearer limit, and the doubt is 93 nm"),
        (700, "no: 200 nm outside the nearer limit, and the doubt is only 93 nm"),
        (500, "cannot tell: 0 nm inside the nearer limit, which is less than the doubt of 93 nm"),
        (499.5, "cannot tell: 0.5 nm inside the nearer limit, which is less than the doubt of 93 nm"),
        (450, "cannot tell: 50 nm inside the nearer limit, which is less than the doubt of 93 nm"),
        (550, "cannot tell: 50 nm outside the nearer limit, which is less than the doubt of 93 nm"),
    ],
)
def test_each_verdict_says_why(value, sentence):
    assert decide(value, LIMITS, 92.5).sentence == sentence


@pytest.mark.parametrize(("lower", "upper"), [(1, 1), (2, 1), (math.nan, 1), (1, math.nan)])
def test_limits_that_leave_nothing_are_refused(lower, upper):
    with pytest.raises(UsageError, match="the lower one comes first"):
        Tolerance(lower=lower, upper=upper)


@pytest.mark.parametrize(("value", "band"), [(math.nan, 1), (math.inf, 1), (0, -1), (0, math.nan)])
def test_a_value_or_band_that_is_none_is_refused(value, band):
    with pytest.raises(UsageError, match="a value and an uncertainty from zero are wanted"):
        decide(value, LIMITS, band)


# ANSI/NCSL Z540.3: tolerance span over span of the 95 % uncertainty, 4:1.
@pytest.mark.parametrize(("expanded", "ratio"), [(125, 4), (500, 1), (1000, 0.5), (0, math.inf)])
def test_the_ratio_is_span_to_span(expanded, ratio):
    assert tolerance_ratio(LIMITS, expanded) == ratio
    assert decide(0, LIMITS, expanded).ratio == ratio


@pytest.mark.parametrize(
    ("ratio", "word"),
    [(4, "good"), (3.99, "only 4.0 times"), (1, "only 1.0 times"), (0.99, "cannot prove"), (math.inf, "any")],
)
def test_a_ratio_is_judged_in_one_line(ratio, word):
    assert word in ratio_line(ratio)


def test_what_makes_more_than_half_the_variance_is_named_alone():
    assert dominant_line(budget(doubt("warmth", 2), doubt("film", 1))) == "mostly warmth: 80% of the variance"


def test_two_that_make_half_each_are_named_both():
    line = dominant_line(budget(doubt("warmth", 10), doubt("film", 10)))
    assert line == "first warmth (50% of the variance), then film (50%)"


def test_a_single_doubt_is_the_whole_of_it():
    assert dominant_line(budget(doubt("film", 10))) == "mostly film: 100% of the variance"


def test_what_makes_less_than_half_is_named_with_the_next():
    line = dominant_line(budget(doubt("a", 3), doubt("b", 4), doubt("c", 3.5)))
    assert line == "first b (43% of the variance), then c (33%)"


def test_nothing_in_doubt_is_said_so():
    assert "nothing is in doubt" in dominant_line(budget(doubt("a", 0)))


def test_the_line_to_improve_is_the_one_whose_half_helps_most():
    better = improve_first(budget(doubt("a", 3), doubt("b", 4)))
    assert better.line.name == "b"
    assert (better.expanded_now, better.expanded_then) == pytest.approx((10, 2 * math.sqrt(13)))
    assert better.sentence == "improve b first: half of it brings U from 10 to 7.3 nm"


def test_few_readings_can_matter_more_than_size():
    many, few = doubt("many", 10), doubt("few", 9, degrees_of_freedom=1)
    assert improve_first(budget(many, few)).line.name == "few"


def test_a_group_is_improved_as_a_whole():
    together = (doubt("x", 3, group="g"), doubt("y", 3, group="g"))
    assert improve_first(budget(*together, doubt("z", 4))).expanded_then == pytest.approx(10)


def test_a_product_of_doubts_is_passed_over():
    product = second_order(doubt("p", 10), doubt("q", 10), mixed=1, name="p x q")
    assert improve_first(budget(product, doubt("z", 4))).line.name == "z"
    assert improve_first(budget(product)).line.name == "p x q"


def test_nothing_in_doubt_cannot_be_improved():
    with pytest.raises(UsageError, match="nothing to improve"):
        improve_first(budget(doubt("a", 0)))
