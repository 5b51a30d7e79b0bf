from fractions import Fraction

import mpmath
import pytest

from gaugestack.angles.angle import Angle, read_angle
from gaugestack.angles.sine import (
    KNOWN_BARS,
    SineBar,
    angle_of,
    bar_of_length,
    complement_of,
    error_growth,
    height,
    sensitivity,
    smallest_angle,
    stack_height,
    steep_caution,
)
from gaugestack.errors import UsageError
from gaugestack.lengths import PM_PER_INCH, Length, Unit, exact_text, read_length

mpmath.mp.dps = 50

MM = 1_000_000_000
FIVE_INCH = bar_of_length(Length(5 * PM_PER_INCH), Unit.INCH)
METRIC = bar_of_length(Length(100 * MM), Unit.MILLIMETRE)
ANGLES = ["1s", "3m", "34m22s", "1deg", "7d7m30s", "30deg", "45deg", "60deg", "75deg", "89deg", "89d59m59s"]


def angle(text):
    return read_angle(text).angle


def exact_radians(value):
    return mpmath.mpf(value.arcseconds.numerator) / value.arcseconds.denominator * mpmath.pi / 648000


@pytest.mark.parametrize("bar", [*KNOWN_BARS, bar_of_length(Length(2000 * MM), Unit.MILLIMETRE)])
@pytest.mark.parametrize("text", ANGLES)
def test_a_height_is_the_sine_to_fifty_digits_rounded_once(bar, text):
    exact = bar.effective * mpmath.sin(exact_radians(angle(text)))
    assert height(angle(text), bar) == int(mpmath.nint(exact / bar.step)) * bar.step


@pytest.mark.parametrize("bar", KNOWN_BARS)
@pytest.mark.parametrize("text", ANGLES)
def test_the_text_of_a_height_ends_in_the_unit_of_its_bar(bar, text):
    assert exact_text(height(angle(text), bar), bar.unit).endswith(f" {bar.unit.value}")


def test_the_measured_error_of_the_bar_counts():
    long = SineBar(name="k", centre_distance=Length(100 * MM), error=Length(2_000_000), unit=Unit.MILLIMETRE)
    assert long.effective == 100_002_000_000
    assert height(angle("30deg"), long) == 50_001_000_000
    assert angle_of(Length(50_001_000_000), long) - angle("30deg") == pytest.approx(0, abs=1e-9)


def test_the_base_height_stands_under_the_stack():
    plate = SineBar(
        name="plate", centre_distance=Length(100 * MM), base_height=Length(2 * MM), unit=Unit.MILLIMETRE
    )
    assert stack_height(angle("30deg"), plate) == 52 * MM
    assert height(angle("30deg"), plate) == 50 * MM


@pytest.mark.parametrize(
    ("arcseconds", "sentence", "hint"),
    [
        (Fraction(0), "the bar lies flat on the plate: no blocks", "zero degrees"),
        (
            Fraction(1, 10**9),
            "the bar lies flat on the plate: no blocks",
            "the height is below the last decimal that is kept",
        ),
        (Fraction(-1, 2), "below zero: no height sets it", "turn the bar round"),
        (Fraction(324_000), "a sine bar stands below 90 degrees", "set it from another face of the work"),
        (Fraction(400_000), "a sine bar stands below 90 degrees", "set it from another face of the work"),
    ],
)
def test_an_angle_no_sine_bar_sets_is_refused(arcseconds, sentence, hint):
    with pytest.raises(UsageError) as refused:
        height(Angle(arcseconds=arcseconds), FIVE_INCH)
    assert str(refused.value) == f"ANGLE: {sentence}\n  {hint}"


def test_the_angles_beside_the_refused_ones_are_set():
    assert height(angle("0.001s"), METRIC) > 0
    assert height(angle("89d59m"), METRIC) < METRIC.effective


def test_a_height_never_rounds_above_the_centre_distance():
    odd = SineBar(name="odd", centre_distance=Length(10_010_000_045), unit=Unit.INCH)
    assert height(angle("89d59m58s"), odd) <= odd.effective
    assert height(angle("89d59m58s"), odd) % odd.step == 0
    assert angle_of(height(angle("89d59m58s"), odd), odd) < angle("90deg")


@pytest.mark.parametrize(
    ("length", "sentence"),
    [
        (10 * MM - 1, "a centre distance of 9.999999999 mm is below 10 mm"),
        (2000 * MM + 1, "a centre distance of 2000.000000001 mm is above 2 m"),
        (0, "a centre distance of 0 mm is below 10 mm"),
    ],
)
def test_a_centre_distance_no_bar_has_is_refused(length, sentence):
    with pytest.raises(UsageError) as refused:
        bar_of_length(Length(length), Unit.MILLIMETRE)
    assert str(refused.value) == f"bar: {sentence}\n  the centre distance of the rolls, like 5in or 100mm"


def test_the_shortest_and_the_longest_bar_are_taken():
    assert bar_of_length(Length(10 * MM), Unit.MILLIMETRE).name == "10mm"
    assert bar_of_length(Length(2000 * MM), Unit.MILLIMETRE).name == "2000mm"


def test_the_usual_bars_are_known_by_their_length():
    assert [bar.name for bar in KNOWN_BARS] == ["5in", "10in", "100mm", "200mm"]
    for bar in KNOWN_BARS:
        read = read_length(bar.name)
        assert bar_of_length(read.length, read.unit) == bar


@pytest.mark.parametrize("text", ANGLES)
def test_the_angle_of_a_height_is_its_arcsine_to_a_millionth_of_an_arcsecond(text):
    found = height(angle(text), METRIC)
    exact = mpmath.asin(mpmath.mpf(found) / METRIC.effective) * 648000 / mpmath.pi
    back = angle_of(found, METRIC).arcseconds
    assert abs(mpmath.mpf(back.numerator) / back.denominator - exact) < 1e-9


def test_a_height_from_zero_to_the_centre_distance_has_an_angle():
    assert angle_of(Length(0), METRIC).degrees == 0
    assert angle_of(METRIC.effective, METRIC).degrees == pytest.approx(90, abs=1e-12)


@pytest.mark.parametrize(
    ("length", "screen"),
    [
        (
            100 * MM + 1,
            (
                "height: 100.000000001 mm is more than the centre distance, 100 mm\n"
                "  no angle has a sine above 1"
            ),
        ),
        (-1, "height: -0.000000001 mm is below zero"),
    ],
)
def test_a_height_without_an_angle_is_refused(length, screen):
    with pytest.raises(UsageError) as refused:
        angle_of(Length(length), METRIC)
    assert str(refused.value) == screen


@pytest.mark.parametrize("text", ANGLES)
def test_the_sensitivity_is_the_derivative_of_the_height(text):
    bar = FIVE_INCH
    step = mpmath.mpf("1e-20")
    middle = exact_radians(angle(text)) * 648000 / mpmath.pi

    def exact_height(arcseconds):
        return bar.effective * mpmath.sin(arcseconds * mpmath.pi / 648000)

    slope = (exact_height(middle + step) - exact_height(middle - step)) / (2 * step)
    assert sensitivity(angle(text), bar) == pytest.approx(float(slope), rel=1e-10)


@pytest.mark.parametrize("text", ANGLES)
def test_the_growth_of_an_error_is_the_ratio_of_two_sensitivities(text):
    ratio = sensitivity(angle("0"), METRIC) / sensitivity(angle(text), METRIC)
    assert error_growth(angle(text)) == pytest.approx(ratio, rel=1e-12)


def test_a_steep_angle_is_cautioned_with_its_complement():
    caution = steep_caution(angle("60deg"))
    assert caution.complement == angle("30deg")
    assert caution.growth == pytest.approx(2)
    assert caution.sentence == (
        "60°00'00\" is above 45°: a height error turns the bar 2.00 times as far as at 0°; "
        "set 30°00'00\" from the other face"
    )
    assert caution.source == "lecture notes on sine bars; setting the complement: common practice"


@pytest.mark.parametrize(("text", "cautioned"), [("45deg", False), ("45d0m1s", True), ("7deg", False)])
def test_caution_begins_above_forty_five_degrees(text, cautioned):
    assert (steep_caution(angle(text)) is not None) == cautioned


@pytest.mark.parametrize("text", ["90deg", "120deg"])
def test_an_angle_without_a_complement_has_no_caution(text):
    assert steep_caution(angle(text)) is None


def test_the_complement_is_exact():
    assert complement_of(angle("52d17m30.25s")) == angle("37d42m29.75s")


@pytest.mark.parametrize(
    ("least", "bar", "text"),
    # the thinnest block under a bar; computed
    [("0.050in", FIVE_INCH, "34m23s"), ("1mm", METRIC, "34m23s"), ("0.5mm", METRIC, "17m11s")],
)
def test_the_thinnest_block_bounds_the_angles_of_one_stack(least, bar, text):
    assert round(smallest_angle(read_length(least).length, bar).arcseconds) == angle(text).arcseconds
