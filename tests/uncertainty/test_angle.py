import math

import pytest

from gaugestack.angles.angle import Angle
from gaugestack.angles.sine import SineBar, bar_of_length, error_growth, stack_height
from gaugestack.angles.sine import height as sine_height
from gaugestack.blocks import Block, CalibrationUncertainty, Certificate, Stack
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, Unit
from gaugestack.uncertainty.angle import (
    ARCSECONDS_PER_RADIAN,
    AngleUncertainty,
    BarLimits,
    angle_uncertainty,
    bar_components,
    rise,
    taper_error,
    turned_by_centre_distance,
    turned_by_height,
    turned_by_warmth,
    turned_by_yaw,
    usual_limits,
)
from gaugestack.uncertainty.budget import Budget, Component
from gaugestack.uncertainty.conditions import Conditions
from gaugestack.uncertainty.knowledge import Knowledge
from gaugestack.uncertainty.stack import Height

MM = 1_000_000_000
INCH = 25_400_000_000
BAR = bar_of_length(Length(100 * MM), Unit.MILLIMETRE)
FIVE_INCH = bar_of_length(Length(5 * INCH), Unit.INCH)
NO_LIMITS = BarLimits(
    centre_distance=0.0,
    roll_difference=0.0,
    parallelism=0.0,
    face_flatness=0.0,
    plate_flatness=0.0,
    yaw_degrees=0.0,
)
STILL = Conditions(room_limit=0.0, blocks_limit=0.0, bar_limit=0.0, wringing_limit=0.0)


def at(degrees):
    return Angle.from_degrees(degrees)


def known(expanded_nm):
    stated = CalibrationUncertainty(fixed=Length(round(expanded_nm * 1000)))
    return {"": Knowledge(certificate=Certificate(uncertainty=stated))}


def height_for(degrees, bar=BAR, *, expanded_nm=0.0, material="steel"):
    block = Block(
        nominal=stack_height(at(degrees), bar), unit=bar.unit, deviation=Length(0), material=material
    )
    return Height(stack=Stack(blocks=(block,)), knowledge=known(expanded_nm))


# Computed from the tolerance of IS 5359:1969 (seen as quoted in a textbook) through the derivative.
@pytest.mark.parametrize(
    ("degrees", "arcseconds"),
    [(0, 0.0), (5, 0.5), (15, 1.658), (30, 3.573), (45, 6.188), (60, 10.718), (75, 23.094)],
)
def test_three_micrometres_on_a_100_mm_bar_grow_with_the_tangent(degrees, arcseconds):
    turned = -turned_by_centre_distance(at(degrees), BAR, 3000)
    assert turned == pytest.approx(arcseconds, abs=0.05 if degrees == 5 else 5e-4)


# Computed: 0.0002 in of centre distance on 5 in.
@pytest.mark.parametrize(("degrees", "arcseconds"), [(15, 2.211), (30, 4.763), (45, 8.251), (60, 14.290)])
def test_two_tenths_on_a_5_in_bar_grow_with_the_tangent(degrees, arcseconds):
    assert -turned_by_centre_distance(at(degrees), FIVE_INCH, 0.0002 * 25.4e6) == pytest.approx(
        arcseconds, abs=5e-4
    )


# Computed: 1 µm of height on 100 mm; 0.0001 in on 5 in.
@pytest.mark.parametrize(
    ("degrees", "metric", "inch"),
    [
        (5, 2.071, 4.141),
        (15, 2.135, 4.271),
        (30, 2.382, 4.763),
        (45, 2.917, 5.834),
        (60, 4.125, 8.251),
        (75, 7.969, 15.939),
    ],
)
def test_a_height_error_grows_with_one_over_the_cosine(degrees, metric, inch):
    assert turned_by_height(at(degrees), BAR, 1000) == pytest.approx(metric, abs=5e-4)
    assert turned_by_height(at(degrees), FIVE_INCH, 2540) == pytest.approx(inch, abs=5e-4)


def test_a_stack_hand_warm_by_five_kelvin_moves_30_degrees_by_6_9_arcseconds():
    turned = turned_by_warmth(at(30), BAR, height_for(30), Conditions(blocks_above=5))
    assert turned == pytest.approx(6.9, abs=0.06)


@pytest.mark.parametrize("room", [-5.0, 20.0, 31.7])
@pytest.mark.parametrize("degrees", [3, 30, 45, 80])
def test_a_steel_bar_and_steel_blocks_equally_warm_do_not_move_the_angle_at_all(room, degrees):
    assert turned_by_warmth(at(degrees), BAR, height_for(degrees), Conditions(room=room)) == 0


def test_ceramic_blocks_on_a_steel_bar_ten_kelvin_off_move_30_degrees_by_2_4_arcseconds():
    turned = turned_by_warmth(at(30), BAR, height_for(30, material="ceramic"), Conditions(room=30))
    assert turned == pytest.approx(-2.4, abs=0.03)


def test_a_bar_warmer_than_the_blocks_stands_flatter():
    assert turned_by_warmth(at(30), BAR, height_for(30), Conditions(bar_above=5)) == pytest.approx(
        -6.85, abs=0.01
    )


def test_the_part_turns_no_angle_whatever_its_material():
    one, other = (
        angle_uncertainty(at(30), BAR, height_for(30), Conditions(part_material=name, part_above=9))
        for name in ("steel", "aluminium")
    )
    assert one == other


def test_a_plate_with_a_base_height_still_does_not_move_with_the_room():
    plate = SineBar(
        name="k", centre_distance=Length(100 * MM), unit=Unit.MILLIMETRE, base_height=Length(10 * MM)
    )
    assert turned_by_warmth(at(30), plate, height_for(30, plate), Conditions(room=33)) == 0


# Computed: work turned on the bar reads asin(sin(angle) cos(yaw)).
@pytest.mark.parametrize(
    ("degrees", "yaw", "arcseconds"),
    [(10, 1, 5.54), (30, 0.5, 4.53), (30, 1, 18.14), (45, 1, 31.41), (45, 5, 783.4), (30, 0, 0)],
)
def test_work_turned_on_the_bar_reads_low(degrees, yaw, arcseconds):
    assert turned_by_yaw(at(degrees), yaw) == pytest.approx(arcseconds, abs=0.05 if yaw == 5 else 0.005)


@pytest.mark.parametrize("yaw", [-0.1, 90, math.nan])
def test_a_yaw_outside_its_range_is_refused(yaw):
    with pytest.raises(UsageError, match="it lies from 0° to below 90°"):
        turned_by_yaw(at(30), yaw)


# Computed cases: bar, angle, standard uncertainty of stack and of centre distance, result in arcseconds.
@pytest.mark.parametrize(
    ("degrees", "from_stack", "from_centre", "combined"),
    [
        (math.degrees(math.asin(0.09975062)), 0.207, 0.207, 0.293),
        (30, 0.238, 1.191, 1.214),
        (45, 0.292, 2.063, 2.083),
        (60, 0.413, 3.573, 3.596),
    ],
)
def test_stack_and_centre_distance_combine_as_computed(degrees, from_stack, from_centre, combined):
    bar_limits = BarLimits(
        centre_distance=2000,
        centre_distance_k=2,
        roll_difference=0.0,
        parallelism=0.0,
        face_flatness=0.0,
        plate_flatness=0.0,
        yaw_degrees=0.0,
    )
    height = height_for(degrees, expanded_nm=200)
    budget = angle_uncertainty(at(degrees), BAR, height, STILL, limits=bar_limits).budget
    by_name = {line.components[0].name: line.contribution for line in budget.lines()}
    assert by_name["centre distance of the bar"] == pytest.approx(from_centre, abs=2e-3)
    assert min(by_name.values()) == pytest.approx(from_stack, abs=1e-3)
    assert budget.combined == pytest.approx(combined, abs=2e-3)


# Computed: a difference of the rolls counts half; 1 µm on 100 mm is 1.031 arcsec at 0, 1.459 at 45 degrees.
@pytest.mark.parametrize(("degrees", "arcseconds"), [(0.001, 1.031), (45, 1.459)])
def test_half_the_difference_of_the_rolls_counts_as_height(degrees, arcseconds):
    (only,) = bar_components(
        at(degrees), BAR, BarLimits(**{**fields_of(NO_LIMITS), "roll_difference": 1000.0})
    )
    assert only.value * only.sensitivity == pytest.approx(arcseconds, abs=5e-4)


# Computed: 3 µm over 100 mm under the bar is 6.19 arcsec.
def test_the_plate_under_a_bar_nearly_level_adds_its_slope():
    (only,) = bar_components(at(0.001), BAR, BarLimits(**{**fields_of(NO_LIMITS), "plate_flatness": 3000.0}))
    assert only.value * only.sensitivity == pytest.approx(6.19, abs=5e-3)


def fields_of(limits):
    return {name: getattr(limits, name) for name in limits.__slots__}


def test_a_calibrated_centre_distance_counts_by_its_k_and_an_uncalibrated_one_as_a_limit():
    limit, calibrated = (
        bar_components(at(45), BAR, BarLimits(**{**fields_of(NO_LIMITS), "centre_distance": 1000.0, **more}))[
            0
        ]
        for more in ({}, {"centre_distance_k": 2.0})
    )
    assert (limit.distribution.value, calibrated.distribution.value) == ("rectangular", "normal")
    assert abs(calibrated.contribution) == pytest.approx(2.0626 / 2, abs=1e-4)


def test_a_k_of_zero_for_the_centre_distance_is_refused():
    limits = BarLimits(**{**fields_of(NO_LIMITS), "centre_distance": 1000.0, "centre_distance_k": 0.0})
    with pytest.raises(UsageError, match="a coverage factor k of 0"):
        bar_components(at(45), BAR, limits)


def test_the_usual_limits_follow_the_length_and_the_unit_of_the_bar():
    assert usual_limits(BAR).centre_distance == pytest.approx(3000)
    assert usual_limits(FIVE_INCH).centre_distance == pytest.approx(0.0002 * 25.4e6)
    assert usual_limits(bar_of_length(Length(200 * MM), Unit.MILLIMETRE)).centre_distance == pytest.approx(
        6000
    )


def test_the_usual_limits_say_that_they_are_assumed():
    lines = usual_limits(BAR).lines()
    assert lines[0].startswith("bar: assumed: IS 5359:1969")
    assert lines[1] == "centre distance right within 3 µm"


def test_given_limits_say_with_which_k():
    assert BarLimits(centre_distance=500, centre_distance_k=2).lines()[:2] == (
        "bar: given",
        "centre distance right within 0.5 µm, k = 2",
    )


@pytest.mark.parametrize("degrees", [0, 5, 45, 75])
def test_the_growth_is_shown(degrees):
    result = angle_uncertainty(at(degrees), BAR, height_for(degrees or 5), Conditions())
    assert result.height_growth == pytest.approx(error_growth(at(degrees)))
    assert result.centre_distance_growth == pytest.approx(math.tan(math.radians(degrees)))
    assert f"{result.height_growth:.2f} times" in result.growth_line()


@pytest.mark.parametrize("degrees", [-1, 90, 120])
def test_an_angle_no_bar_sets_is_refused(degrees):
    with pytest.raises(UsageError, match="a sine bar stands from 0 to below 90 degrees"):
        angle_uncertainty(at(degrees), BAR, height_for(30), Conditions())


# Computed: 0.0001 in over 3 in is 6.9 arcsec; 1 minute over 3 in is 0.00087 in.
def test_an_angle_error_is_a_rise_over_a_length_of_the_surface():
    assert rise(60, Length(3 * INCH)) / INCH == pytest.approx(0.00087, abs=5e-6)
    assert rise(6.9, Length(3 * INCH)) / INCH == pytest.approx(0.0001, abs=5e-7)


def test_the_rise_of_a_result_is_that_of_its_expanded_uncertainty():
    result = angle_uncertainty(at(30), BAR, height_for(30), Conditions())
    assert result.rise(Length(75 * MM)) == pytest.approx(rise(result.budget.expanded, Length(75 * MM)))


@pytest.mark.parametrize(
    ("length", "unit", "said"),
    [
        (75 * MM, Unit.MILLIMETRE, "0.75 µm over 75 mm of the work"),
        (3 * INCH, Unit.INCH, "30 µin over 3 in of the work"),
    ],
)
def test_the_rise_is_said_in_the_unit_of_the_part(length, unit, said):
    """A standard uncertainty of 1 µm of height on 100 mm at 0 degrees, k = 1: 1 part in 100 000."""
    only = Component(name="height", value=1 / 100_000 * ARCSECONDS_PER_RADIAN, unit="arcsec")
    result = AngleUncertainty(
        budget=Budget(quantity="angle", unit="arcsec", components=(only,), coverage_factor=1.0),
        height_growth=1.0,
        centre_distance_growth=0.0,
        shift=0.0,
    )
    assert result.rise_line(Length(length), unit) == said


def test_limits_nobody_measured_are_named_in_the_budget_and_given_ones_are_not():
    usual = angle_uncertainty(at(30), BAR, height_for(30), Conditions()).budget.remarks
    given = angle_uncertainty(
        at(30), BAR, height_for(30), Conditions(), limits=usual_limits(BAR)
    ).budget.remarks
    assert "nobody measured the bar: its limits are the usual ones" in usual
    assert len(given) == len(usual) - 1


def test_a_wanted_probability_changes_k_alone():
    usual, wide = (
        angle_uncertainty(at(30), BAR, height_for(30), Conditions(), probability=share).budget
        for share in (0.95, 0.99)
    )
    assert usual.combined == wide.combined
    assert wide.k / usual.k == pytest.approx(2.5758293 / 1.9599640)


def test_work_turned_on_the_bar_counts_with_what_it_reads_low_as_a_limit():
    """18.14 arcseconds for 1 degree at 30 (computed), over the square root of three."""
    (only,) = bar_components(at(30), BAR, BarLimits(**{**fields_of(NO_LIMITS), "yaw_degrees": 1.0}))
    assert only.contribution == pytest.approx(18.14 / math.sqrt(3), abs=0.005)


def test_a_taper_error_counts_along_the_axis():
    step = 1e-3  # arcseconds
    before, after = (math.tan(math.radians(20) + sign * step / 2 * math.pi / 648000) for sign in (-1, 1))
    assert taper_error(at(20), step, Length(100 * MM)) == pytest.approx((after - before) * 100 * MM, rel=1e-6)


def test_the_remarks_of_the_height_reach_the_budget():
    assert "drift" in angle_uncertainty(at(30), BAR, height_for(30), Conditions()).budget.remarks[0]


def test_the_height_used_here_is_that_of_the_sine():
    assert height_for(30).length == sine_height(at(30), BAR)
