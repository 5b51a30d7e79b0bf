"""Wear trends, against scipy, against a certified regression, and at the bench."""

import datetime as dt
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from gaugestack.lengths import Length, Unit
from gaugestack.trend import (
    DAYS_A_YEAR,
    Calibration,
    Direction,
    NoTrend,
    Trend,
    leaving_of,
    student_factor,
    trend_of,
)

START = dt.date(2018, 3, 1)
UIN = 25_400
# NIST Statistical Reference Datasets, linear regression, data set Norris (x, y).  The
# data are from memory; that they give the certified values to 12 digits confirms them.
NORRIS = """
0.2 0.1  337.4 338.8  118.2 118.1  884.6 888.0  10.1 9.2  226.5 228.1  666.3 668.5  996.3 998.5
448.6 449.1  777.0 778.9  558.2 559.2  0.4 0.3  0.6 0.1  775.5 778.1  666.9 668.8  338.0 339.3
447.5 448.9  11.6 10.8  556.0 557.7  228.1 228.3  995.8 998.0  887.6 888.8  120.2 119.6  0.3 0.3
0.3 0.6  556.8 557.6  339.1 339.3  887.2 888.0  999.0 998.5  779.0 778.9  11.1 10.2  118.3 117.6
229.2 228.9  669.1 668.4  448.9 449.2  0.5 0.2
"""
NORRIS_SLOPE, NORRIS_SLOPE_DEVIATION = 1.00211681802045, 0.429796848199937e-03


def points(*pairs, uncertainty=None):
    """Calibrations of (years after the start, deviation in µin)."""
    return [
        Calibration(
            on=START + dt.timedelta(days=round(years * DAYS_A_YEAR)),
            deviation=Length(round(deviation * UIN)),
            uncertainty=None if uncertainty is None else Length(uncertainty * UIN),
        )
        for years, deviation in pairs
    ]


WEARING = points((0, 0), (1, -2.1), (2, -3.9), (3, -6.1), (4, -7.9))


@pytest.mark.parametrize("degrees", [*range(1, 40), 100, 1000])
@pytest.mark.parametrize("confidence", [0.5, 0.95, 0.99])
def test_the_factor_is_that_of_student(degrees, confidence):
    expected = stats.t.ppf((1 + confidence) / 2, degrees)

    assert student_factor(degrees, confidence) == pytest.approx(expected, rel=1e-11)


def test_the_line_is_the_certified_one_of_the_norris_data():
    numbers = [float(word) for word in NORRIS.split()]
    calibrations = [
        Calibration(on=dt.date(1, 1, 1) + dt.timedelta(days=round(x * 10)), deviation=Length(round(y * 10)))
        for x, y in zip(numbers[::2], numbers[1::2], strict=True)
    ]

    trend = trend_of(calibrations)

    assert len(calibrations) == 36
    assert trend.slope / DAYS_A_YEAR == pytest.approx(NORRIS_SLOPE, rel=1e-12)
    assert trend.slope_uncertainty / DAYS_A_YEAR == pytest.approx(NORRIS_SLOPE_DEVIATION, rel=1e-10)


def _on(calibration):
    return calibration.on


@given(
    days=st.lists(st.integers(0, 9000), min_size=3, max_size=20, unique=True).filter(
        lambda days: max(days) - min(days) >= 365
    ),
    data=st.data(),
)
def test_the_line_is_that_of_scipy_and_numpy(days, data):
    deviations = [data.draw(st.integers(-1_000_000, 1_000_000)) for _ in days]
    calibrations = [
        Calibration(on=START + dt.timedelta(days=day), deviation=Length(deviation))
        for day, deviation in zip(days, deviations, strict=True)
    ]
    years = np.array(days) / DAYS_A_YEAR
    slope, at_start = np.polyfit(years, deviations, 1)
    squares = np.sum((np.array(deviations) - at_start - slope * years) ** 2)
    error = math.sqrt(squares / (len(days) - 2) / np.sum((years - years.mean()) ** 2))

    trend = trend_of(calibrations)

    assert (trend.first, trend.last) == (min(calibrations, key=_on).on, max(calibrations, key=_on).on)
    assert trend.count == len(days)
    assert trend.middle == pytest.approx(np.mean(days) - min(days), rel=1e-9, abs=1e-6)
    assert trend.mean == pytest.approx(np.mean(deviations), rel=1e-9, abs=1e-6)
    scatter = math.sqrt(squares / (len(days) - 2) / len(days))
    assert trend.mean_uncertainty == pytest.approx(scatter, rel=1e-5, abs=1e-2)
    assert trend.slope == pytest.approx(stats.linregress(years, deviations).slope, rel=1e-7, abs=1e-3)
    assert trend.slope_uncertainty == pytest.approx(error, rel=1e-5, abs=1e-2)
    half = stats.t.ppf(0.975, len(days) - 2) * error
    assert trend.highest - trend.slope == pytest.approx(half, rel=1e-5, abs=0.2)


def test_a_year_is_365_and_a_quarter_days():
    """The Julian year (IAU; from memory)."""
    daily = [Calibration(on=START + dt.timedelta(days=d), deviation=Length(4 * d)) for d in (0, 400, 900)]

    assert trend_of(daily).slope == pytest.approx(1461, rel=1e-12)


def test_the_order_of_the_calibrations_changes_nothing():
    assert trend_of(WEARING[::-1]) == trend_of(WEARING)


@pytest.mark.parametrize(
    ("calibrations", "why"),
    [
        ([], "no calibration: a trend needs at least 3"),
        (points((0, 1)), "one calibration: a trend needs at least 3"),
        (points((0, 1), (5, 1)), "2 calibrations: a trend needs at least 3"),
        (
            points((0, 1), (0.2, 1), (0.5, 2)),
            "all calibrations lie within 183 days: a trend needs at least a year",
        ),
    ],
)
def test_without_enough_calibrations_there_is_no_trend(calibrations, why):
    assert trend_of(calibrations) == NoTrend(why=why)


def test_three_calibrations_over_a_year_are_enough():
    calibrations = [Calibration(on=START + dt.timedelta(days=d), deviation=Length(0)) for d in (0, 100, 365)]

    assert trend_of(calibrations).slope == 0


def test_a_day_less_than_a_year_is_not_enough():
    calibrations = [Calibration(on=START + dt.timedelta(days=d), deviation=Length(0)) for d in (0, 100, 364)]

    assert isinstance(trend_of(calibrations), NoTrend)


def test_a_wearing_block_is_said_to_wear_and_how_surely():
    trend = trend_of(WEARING)

    assert trend.direction is Direction.WEARS
    assert trend.question == ""
    assert (
        trend.sentence(Unit.INCH)
        == "wears: -2.0 µin a year (95 %: -2.1 µin to -1.9 µin; 5 calibrations over 4.0 years)"
    )


def test_a_block_that_only_scatters_is_steady():
    trend = trend_of(points((0, 1), (1, -1), (2, 1), (3, -1)))

    # t(0.975, 2) = 4.3027 and s / sqrt(5) = sqrt(3.2 / 2 / 5) = 0.5657: -0.4 - 2.43 and -0.4 + 2.43
    assert trend.direction is Direction.STEADY
    assert trend.sentence(Unit.INCH) == (
        "no change can be told from the scatter: -0.4 µin a year "
        "(95 %: -2.8 µin to +2.0 µin; 4 calibrations over 3.0 years)"
    )


def test_a_block_that_grew_is_a_question():
    trend = trend_of(points((0, 0), (1, 2.1), (2, 3.9), (3, 6.1)))

    assert trend.direction is Direction.GREW
    assert trend.question == "grew: stable steel does not grow; ask the laboratory"
    # slope 2.01, s = sqrt(0.027 / 2) = 0.1162, / sqrt(5) = 0.05196, times 4.3027 = 0.2236
    assert trend.sentence(Unit.INCH) == (
        "grew: stable steel does not grow; ask the laboratory: +2.0 µin a year "
        "(95 %: +1.8 µin to +2.2 µin; 4 calibrations over 3.0 years)"
    )


def test_a_slope_whose_interval_touches_zero_is_steady():
    trend = trend_of(WEARING)

    for slope in (1.0, -1.0):
        touching = replace(trend, slope=slope, slope_uncertainty=0.5, factor=2.0)
        assert 0 in (touching.lowest, touching.highest)
        assert touching.direction is Direction.STEADY
    assert replace(trend, slope=1.5, slope_uncertainty=0.5, factor=2.0).direction is Direction.GREW
    assert replace(trend, slope=-1.5, slope_uncertainty=0.5, factor=2.0).direction is Direction.WEARS


def test_a_growth_that_is_not_sure_is_no_question():
    assert trend_of(points((0, 0), (1, 3), (2, 0), (3, 3))).question == ""


def test_stated_uncertainties_widen_an_interval_that_is_too_good_to_be_true():
    straight = [(0, 0), (1, -1), (2, -2), (3, -3)]

    bare, stated = trend_of(points(*straight)), trend_of(points(*straight, uncertainty=4))

    assert bare.direction is Direction.WEARS
    assert stated.direction is Direction.STEADY
    # u(slope) = u / sqrt(sum of (x - mean)^2) with u = 2 µin and the sum 5
    assert stated.slope_uncertainty == pytest.approx(2 * UIN / math.sqrt(5), rel=1e-2)
    assert stated.factor == 2
    assert stated.mean_uncertainty == pytest.approx(2 * UIN / math.sqrt(4), rel=1e-2)


@pytest.mark.parametrize("uncertainty", [1, 6])
def test_stated_uncertainties_do_not_narrow_an_interval(uncertainty):
    scattered = [(0, 0), (1, -4), (2, 1), (3, -5)]

    bare, stated = trend_of(points(*scattered)), trend_of(points(*scattered, uncertainty=uncertainty))

    assert (stated.lowest, stated.highest) == (bare.lowest, bare.highest)


def test_uncertainties_count_only_where_every_calibration_states_one():
    mixed = [*points((0, 0), (1, -1), (2, -2), uncertainty=4), *points((3, -3))]

    assert trend_of(mixed) == trend_of(points((0, 0), (1, -1), (2, -2), (3, -3)))


def band(trend, day):
    """The line's 95 % band on a day, computed the textbook way."""
    years = ((day - trend.first).days - trend.middle) / DAYS_A_YEAR
    half = trend.factor * math.hypot(trend.mean_uncertainty, trend.slope_uncertainty * years)
    line = trend.mean + trend.slope * years
    return line - half, line, line + half


def test_a_wearing_block_leaves_its_lower_limit_where_line_and_band_cross_it():
    trend = trend_of(WEARING)
    lower, next_day = Length(-20 * UIN), dt.timedelta(days=1)

    leaving = leaving_of(trend, lower, Length(10 * UIN))

    assert leaving.earliest < leaving.expected < leaving.latest
    for day, side in ((leaving.earliest, 0), (leaving.expected, 1), (leaving.latest, 2)):
        assert band(trend, day)[side] >= lower > band(trend, day + next_day)[side]
    assert (leaving.already, leaving.sure) == (False, True)
    assert leaving.expected.year == 2028


def test_a_growing_block_leaves_its_upper_limit():
    leaving = leaving_of(
        trend_of(points((0, 0), (1, 2.1), (2, 3.9), (3, 6.1))), Length(-10 * UIN), Length(10 * UIN)
    )

    assert leaving.earliest < leaving.expected < leaving.latest
    assert leaving.expected.year == 2023


def test_a_scattering_block_may_leave_early_and_has_no_latest_day():
    trend = trend_of(points((0, 1), (1, -1), (2, 1), (3, -1)))

    leaving = leaving_of(trend, Length(-20 * UIN), Length(20 * UIN))

    assert leaving.earliest > trend.first + dt.timedelta(days=548)
    assert leaving.earliest < leaving.expected
    assert (leaving.latest, leaving.sure) == (None, False)


def test_a_block_without_any_slope_never_leaves():
    leaving = leaving_of(trend_of(points((0, 0), (1, 0), (2, 0))), Length(-UIN), Length(UIN))

    assert (leaving.expected, leaving.earliest, leaving.latest, leaving.sure) == (None, None, None, False)


def test_a_block_that_is_out_already_is_said_to_be():
    leaving = leaving_of(trend_of(WEARING), Length(-5 * UIN), Length(5 * UIN))

    assert leaving.already
    assert leaving.expected < WEARING[-1].on


def test_a_day_beyond_a_hundred_years_is_not_named():
    leaving = leaving_of(trend_of(WEARING), Length(-1000 * UIN), Length(1000 * UIN))

    assert (leaving.expected, leaving.latest) == (None, None)


def line(slope, *, slope_uncertainty=0.0, mean=0.0, mean_uncertainty=0.0):
    """A line whose middle is a year after its first day, two years before its last; picometres and years."""
    return Trend(
        first=START,
        last=START + dt.timedelta(days=1096),
        count=5,
        slope=slope,
        slope_uncertainty=slope_uncertainty,
        mean=mean,
        mean_uncertainty=mean_uncertainty,
        middle=DAYS_A_YEAR,
        factor=2.0,
    )


def after(years):
    return START + dt.timedelta(days=math.floor((1 + years) * DAYS_A_YEAR))


def test_growth_leaves_the_upper_limit_on_the_day_wear_leaves_the_lower_one():
    for uncertain in (0.0, 40.0, 70.0):
        wears = line(-100.0, slope_uncertainty=uncertain, mean=30.0, mean_uncertainty=11.0)
        grows = line(100.0, slope_uncertainty=uncertain, mean=-30.0, mean_uncertainty=11.0)

        assert leaving_of(wears, Length(-700), Length(500)) == leaving_of(grows, Length(-500), Length(700))


@pytest.mark.parametrize("slope", [0.5, -0.5, 1.0, -1.0])
def test_the_slowest_slope_still_leaves(slope):
    leaving = leaving_of(line(slope), Length(-10), Length(10))

    assert leaving.expected == after(10 / abs(slope))


@pytest.mark.parametrize("slope", range(1, 200))
def test_a_line_without_doubt_leaves_on_one_day(slope):
    leaving = leaving_of(line(-float(slope)), Length(-3 * slope - 1), Length(0))

    assert leaving.earliest == leaving.expected == leaving.latest == after(3 + 1 / slope)
    assert leaving.sure


def test_a_line_that_begins_at_its_limit_leaves_there():
    leaving = leaving_of(line(-100.0), Length(0), Length(50))

    assert leaving.earliest == leaving.expected == leaving.latest == after(0)


def test_a_line_on_its_limit_on_the_last_day_is_not_out_yet():
    exactly = replace(line(-1000.0), last=START + dt.timedelta(days=1461), middle=1461 - 2 * DAYS_A_YEAR)
    assert not leaving_of(exactly, Length(-2000), Length(0)).already
    assert leaving_of(exactly, Length(-1999), Length(0)).already


def test_a_line_still_inside_on_its_last_day_is_not_out():
    assert not leaving_of(trend_of(WEARING), Length(-10 * UIN), Length(10 * UIN)).already


def test_a_band_that_reaches_the_limit_at_its_middle_may_be_out_already():
    for doubt in (50.0, 51.0):
        trend = line(-100.0, slope_uncertainty=5.0, mean_uncertainty=doubt)

        assert leaving_of(trend, Length(-100), Length(100)).earliest == after(0)


@pytest.mark.parametrize(
    "slope_uncertainty", [50.0, 50.0 * (1 - 1e-14), 50.0 * (1 + 1e-14), 49.0, 51.0, 80.0]
)
@pytest.mark.parametrize("lower", [-30, -80, -2000])
def test_the_outer_side_of_a_band_crosses_on_the_day_named(slope_uncertainty, lower):
    trend = line(-100.0, slope_uncertainty=slope_uncertainty, mean_uncertainty=10.0)
    earliest = leaving_of(trend, Length(lower), Length(500)).earliest

    assert band(trend, earliest)[0] >= lower > band(trend, earliest + dt.timedelta(days=1))[0]


def test_a_slope_that_is_not_sure_has_no_latest_day_even_where_the_middle_is_out():
    trend = line(-100.0, slope_uncertainty=100.0, mean=-1000.0, mean_uncertainty=10.0)

    assert leaving_of(trend, Length(-500), Length(500)).latest is None


def test_a_slope_as_large_as_its_own_doubt_is_not_sure():
    leaving = leaving_of(
        line(-100.0, slope_uncertainty=50.0, mean_uncertainty=10.0), Length(-500), Length(500)
    )

    assert (leaving.latest, leaving.sure) == (None, False)


def test_a_hundred_years_are_the_furthest():
    assert leaving_of(line(-1.0), Length(-100), Length(0)).expected == after(100)
    assert leaving_of(line(-1.0), Length(-101), Length(0)).expected is None


def test_a_metric_trend_is_told_to_a_nanometre():
    points = [
        Calibration(on=dt.date(2020 + year, 1, 1), deviation=Length(-40_000 * year)) for year in range(4)
    ]
    trend = trend_of(points)

    assert "-0.040 µm a year" in trend.sentence(Unit.MILLIMETRE)
