"""Round trips and bounds of angles, sine bars and tapers."""

from fractions import Fraction

import mpmath
from hypothesis import given
from hypothesis import strategies as st

from gaugestack.angles.angle import Angle, degrees_text, dms_text, read_angle
from gaugestack.angles.callout import read_taper
from gaugestack.angles.sine import SineBar, angle_of, complement_of, height, sensitivity
from gaugestack.angles.taper import Use, angle_for, taper_of_rate
from gaugestack.errors import TextError
from gaugestack.lengths import Length, Unit, exact_text

mpmath.mp.dps = 50

PLACES = st.integers(0, 6)
BARS = st.builds(
    SineBar,
    name=st.just("any"),
    centre_distance=st.integers(10_000_000_000 + 10**7, 2_000_000_000_000 - 10**7).map(Length),
    error=st.integers(-(10**7), 10**7).map(Length),
    unit=st.sampled_from(Unit),
)
BELOW_RIGHT = st.fractions(Fraction(1), Fraction(323_999), max_denominator=1000).map(
    lambda a: Angle(arcseconds=a)
)
RATES = st.fractions(Fraction(1, 10_000), Fraction(2), max_denominator=10_000)
CHARACTERS = st.text(
    alphabet="0123456789.:/-+,° 'dmsgeradintofvpluc\"\N{PRIME}\N{DOUBLE PRIME}µ", max_size=70
)


@given(st.data(), PLACES)
def test_an_angle_printed_in_degrees_minutes_and_seconds_reads_back(data, places):
    scaled = data.draw(st.integers(0, 1_296_000 * 10**places))
    angle = Angle(arcseconds=Fraction(scaled, 10**places))
    assert read_angle(dms_text(angle, places)).angle == angle


@given(st.data(), PLACES)
def test_a_signed_angle_reads_back(data, places):
    scaled = data.draw(st.integers(-1_296_000 * 10**places, 1_296_000 * 10**places))
    angle = Angle(arcseconds=Fraction(scaled, 10**places))
    assert read_angle(dms_text(angle, places), signed=True).angle == angle


@given(st.data(), PLACES)
def test_decimal_degrees_read_back(data, places):
    angle = Angle.from_degrees(Fraction(data.draw(st.integers(0, 360 * 10**places)), 10**places))
    assert read_angle(degrees_text(angle, places)).angle == angle


@given(st.fractions(Fraction(0), Fraction(1_295_999), max_denominator=10**6), PLACES)
def test_sixty_is_never_printed(arcseconds, places):
    text = dms_text(Angle(arcseconds=arcseconds), places)
    assert "'60" not in text
    assert "°60" not in text


@given(st.floats(1e-3, 6.28))
def test_radians_come_back_as_the_same_float(radians):
    assert Angle.from_radians(radians).radians == radians


@given(CHARACTERS)
def test_an_angle_is_read_or_refused_with_a_range_inside_the_text(text):
    try:
        read_angle(text, signed=True)
    except TextError as refused:
        assert 0 <= refused.start < refused.end <= max(len(text), refused.start) + 1  # noqa: PT017 - either way


@given(CHARACTERS)
def test_a_taper_is_read_or_refused_with_a_range_inside_the_text(text):
    try:
        taper = read_taper(text, bare_unit=Unit.INCH)
    except TextError as refused:
        assert 0 <= refused.start < refused.end <= max(len(text), refused.start) + 1  # noqa: PT017 - either way
    else:
        assert 0 < taper.half.degrees < 90


@given(BELOW_RIGHT, BARS)
def test_a_height_is_the_sine_within_half_a_step_and_ends_in_its_unit(angle, bar):
    radians = mpmath.mpf(angle.arcseconds.numerator) / angle.arcseconds.denominator * mpmath.pi / 648000
    found = height(angle, bar)
    exact = bar.effective * mpmath.sin(radians)
    assert abs(found - exact) <= bar.step / 2 + 0.001 or bar.effective - bar.step < found <= bar.effective
    assert exact_text(found, bar.unit).endswith(bar.unit.value)


@given(BELOW_RIGHT, BARS)
def test_the_angle_of_a_height_comes_back_within_the_step(angle, bar):
    back = angle_of(height(angle, bar), bar)
    allowed = 2 * bar.step / max(sensitivity(angle, bar), 1e-9)
    assert abs(back - angle) <= allowed + 1e-9


@given(BELOW_RIGHT, BARS)
def test_a_height_and_that_of_the_complement_close_the_right_triangle(angle, bar):
    one, other = height(angle, bar), height(complement_of(angle), bar)
    assert abs(one * one + other * other - bar.effective**2) <= 3 * bar.step * bar.effective


@given(RATES)
def test_a_rate_written_as_a_ratio_reads_back(rate):
    read = read_taper(f"{rate.numerator}:{rate.denominator}", bare_unit=None)
    assert read.rate == rate
    assert read.half == taper_of_rate(rate, call_out="", reading="").half


@given(st.integers(1, 10**9), st.integers(1, 10**9), st.integers(1, 10**9), st.sampled_from(Unit))
def test_two_diameters_are_read_whatever_the_unit(small, more, length, unit):
    rate = Fraction(more, length)
    if rate > 2:
        length, rate = more, Fraction(1)
    texts = [exact_text(Length(one * 254), unit) for one in (small + more, small, length)]
    assert read_taper("{} to {} over {}".format(*texts), bare_unit=None).rate == rate


@given(RATES)
def test_the_diameters_of_a_cone_are_recovered_from_its_half_angle(rate):
    taper = taper_of_rate(rate, call_out="", reading="")
    half = angle_for(taper, Use.COMPOUND)
    assert abs(2 * mpmath.tan(half.radians) - mpmath.mpf(rate.numerator) / rate.denominator) < 1e-15
    assert angle_for(taper, Use.INSPECTION) - half == half.arcseconds
