from fractions import Fraction

import mpmath
import pytest

from gaugestack.angles.angle import Angle
from gaugestack.angles.callout import read_taper
from gaugestack.angles.correction import (
    below_resolution,
    compound_nudge,
    correct,
    error_from_rise,
    error_on_seat,
    part_error,
    true_reading,
)
from gaugestack.angles.sine import KNOWN_BARS, height
from gaugestack.errors import UsageError
from gaugestack.lengths import Length, Unit, read_length

mpmath.mp.dps = 50
FIVE, _, HUNDRED, _ = KNOWN_BARS
IN = Unit.INCH


def pm(text):
    return read_length(text, signed=True).length


def deg(number):
    return Angle.from_degrees(Fraction(number))


def sec(number):
    return Angle(arcseconds=Fraction(number))


def mp(angle):
    return mpmath.mpf(angle.arcseconds.numerator) / angle.arcseconds.denominator * mpmath.pi / 648000


@pytest.mark.parametrize("bar", KNOWN_BARS)
@pytest.mark.parametrize("angle", [1, 15, 30, 45, 60])
@pytest.mark.parametrize("error", [-600, -30, 30, 600])
def test_a_correction_is_the_difference_of_two_sines(bar, angle, error):
    found = correct(deg(angle), sec(error), bar)
    exact = bar.effective * (mpmath.sin(mp(deg(angle)) - mp(sec(error))) - mpmath.sin(mp(deg(angle))))
    assert abs(found.change - exact) <= bar.step
    assert found.new_height == height(found.new_angle, bar)
    assert (found.error, found.old_angle) == (sec(error), deg(angle))
    school = -bar.effective * mpmath.tan(mp(sec(error)))
    assert abs(found.school_change - school) <= bar.step
    assert found.over_correction == pytest.approx(float(school / exact), rel=1e-12)
    assert (found.change < 0) == (error > 0)


@pytest.mark.parametrize(("angle", "percent"), [(30, 15), (45, 41)])
def test_the_school_form_over_corrects_by_the_secant(angle, percent):
    # bench practice: 15 % at 30 degrees, 41 % at 45 degrees (computed)
    found = correct(deg(angle), sec(20), FIVE)
    assert round((found.over_correction - 1) * 100) == percent
    assert found.school_change / found.change == pytest.approx(
        found.over_correction, rel=1e-4
    )  # heights are rounded
    assert correct(deg(angle), sec(0), FIVE).over_correction == pytest.approx(found.over_correction, rel=1e-3)


def test_no_error_changes_nothing():
    assert correct(deg(30), sec(0), FIVE).change == 0


def test_a_correction_that_leaves_no_angle_is_refused_with_what_is_left():
    assert correct(deg(1), sec(3599), FIVE).new_angle == sec(1)
    with pytest.raises(UsageError) as refused:
        correct(deg(1), sec(3660), FIVE)
    assert str(refused.value) == (
        "error: taking 1°01'00.0\" off leaves -0°01'00.0\": no height sets it\n"
        "  check the sign: positive is too steep"
    )
    with pytest.raises(UsageError) as refused:
        correct(deg(89), sec(-3660), FIVE)
    assert str(refused.value) == (
        "error: the corrected angle is 0°01'00.0\" above 90 degrees, or at it\n"
        "  check the sign: positive is too steep"
    )


@pytest.mark.parametrize(
    ("angle", "error", "sentence"),
    [
        (1, 3600, "taking 1°00'00.0\" off leaves 0°00'00.0\": no height sets it"),
        (89, -3600, "the corrected angle is 0°00'00.0\" above 90 degrees, or at it"),
    ],
)
def test_a_correction_to_level_or_upright_is_refused(angle, error, sentence):
    with pytest.raises(UsageError) as refused:
        correct(deg(angle), sec(error), FIVE)
    assert str(refused.value) == f"error: {sentence}\n  check the sign: positive is too steep"


@pytest.mark.parametrize(("tip", "share"), [("0", "1.00"), ("10", "0.98"), ("20", "0.94"), ("30", "0.87")])
def test_a_lever_indicator_shows_too_much_by_its_tip_angle(tip, share):
    # Machinery's Handbook (values read in a page on the cosine error): 0.98, 0.94, 0.87
    assert f"{true_reading(pm('1in'), deg(tip)) / pm('1in'):.2f}" == share


def test_a_tip_angle_is_from_nothing_to_below_sixty_degrees():
    assert true_reading(pm("2in"), deg("59.999")) == pytest.approx(pm("1in"), rel=1e-4)
    assert true_reading(pm("1in"), deg(0)) == pm("1in")
    with pytest.raises(UsageError) as refused:
        true_reading(pm("1in"), deg(60))
    assert str(refused.value) == (
        "tip angle: 60°00'00\" is not from 0 to below 60 degrees\n  set the arm nearly level with the surface"
    )
    with pytest.raises(UsageError, match="is not from 0 to below 60 degrees"):
        true_reading(pm("1in"), deg(-1))


def test_a_rise_towards_the_raised_roll_means_too_steep_and_lowers_the_stack():
    steep = error_from_rise(pm("0.001in"), span=pm("3in"), unit=IN)
    assert abs(mp(steep) - mpmath.atan(mpmath.mpf(1) / 3000)) < 1e-13
    assert correct(deg(30), steep, FIVE).change < 0
    slow = error_from_rise(pm("-0.001in"), span=pm("3in"), unit=IN)
    assert correct(deg(30), slow, FIVE).change > 0
    tipped = error_from_rise(pm("0.001in"), span=pm("3in"), tip=deg(30), unit=IN)
    assert float(tipped.arcseconds / steep.arcseconds) == pytest.approx(0.8660, abs=1e-4)
    with pytest.raises(UsageError, match="span: 0 in is not above zero"):
        error_from_rise(pm("0.001in"), span=Length(0), unit=IN)


def test_a_correction_made_again_finds_the_right_angle():
    # a part of 30 degrees on a bar set 40 seconds too steep, its top swept over 3 in
    rise = Length(round(float(pm("3in") * mpmath.tan(mp(sec(40))))))
    error = error_from_rise(rise, span=pm("3in"), unit=IN)
    fixed = correct(Angle(arcseconds=deg(30).arcseconds + 40), error, FIVE)
    assert abs(fixed.new_angle - deg(30)) < 1e-4


def test_an_error_of_the_half_angle_counts_twice_where_the_included_one_is_set():
    assert error_on_seat(Fraction(20), included=False) == sec(20)
    assert error_on_seat(Fraction(20), included=True) == sec(40)


def test_the_compound_moves_by_the_tangent_at_the_indicator_and_back_the_other_way():
    moved = compound_nudge(sec(60), radius=pm("5in"), unit=IN)
    assert abs(moved + pm("5in") * mpmath.tan(mp(sec(60)))) < 1
    assert compound_nudge(sec(-60), radius=pm("5in"), unit=IN) == -moved
    with pytest.raises(UsageError, match="radius: 0 in is not above zero"):
        compound_nudge(sec(60), radius=Length(0), unit=IN)


@pytest.mark.parametrize("error", [-120, 0, 120])
def test_an_error_of_angle_is_told_as_thousandths_over_the_part(error):
    taper = read_taper("3in/ft", bare_unit=None)
    found = part_error(taper, sec(error), length=pm("4in"), unit=IN)
    exact = 2 * pm("4in") * (mpmath.tan(mp(taper.half) + mp(sec(error))) - mpmath.tan(mp(taper.half)))
    assert abs(found.on_diameter - exact) < 2
    words = {-120: "-4.7", 0: "0.0", 120: "4.7"}[error]
    assert found.text == f"{words} thousandths of an inch on diameter over 4 in"
    with pytest.raises(UsageError, match="length: 0 in is not above zero"):
        part_error(taper, sec(error), length=Length(0), unit=IN)


def test_an_error_on_a_metric_part_is_told_in_thousandths_of_a_millimetre():
    taper = read_taper("1:4", bare_unit=None)
    found = part_error(taper, sec(120), length=pm("2m"), unit=Unit.MILLIMETRE)
    exact = 4 * (mpmath.tan(mp(taper.half) + mp(sec(120))) - mpmath.tan(mp(taper.half)))  # in metres
    assert found.text == (
        f"{mpmath.nstr(exact * 10**6, 5)} thousandths of a millimetre on diameter over 2000 mm"
    )


@pytest.mark.parametrize(
    ("change", "below"), [("0.00004in", True), ("0.00005in", False), ("-0.00004in", True)]
)
def test_a_change_below_half_a_step_cannot_be_made(change, below):
    found = below_resolution(pm(change), step=pm("0.0001in"), angle=deg(30), bar=FIVE)
    assert found.below == below
    # 1 arcsecond at 30 degrees is 5 in cos(30) pi / 648000 = 20.99 µin (computed)
    turned = {"0.00004in": '+1.9"', "0.00005in": '+2.4"', "-0.00004in": '-1.9"'}[change]
    assert found.sentence == (
        f"{change.removesuffix('in')} in ({turned}) is {'below' if below else 'within'} "
        'what the blocks can make: one step of 0.0001 in is +4.8"'
    )


def test_a_step_of_the_blocks_is_told_as_an_angle():
    # bench practice: 0.0001 in on a 5 in bar is 4.76 seconds at 30 degrees (seen as 0.00132 degrees)
    found = below_resolution(pm("0.0001in"), step=pm("0.0001in"), angle=deg(30), bar=FIVE)
    assert round(found.step_arcsec, 2) == 4.76
    assert found.change_arcsec == found.step_arcsec
    with pytest.raises(UsageError, match="step: 0 mm is not above zero"):
        below_resolution(pm("1mm"), step=Length(0), angle=deg(30), bar=HUNDRED)
