from fractions import Fraction

import mpmath
import pytest

from gaugestack.angles.angle import Angle
from gaugestack.angles.sine import KNOWN_BARS, height
from gaugestack.angles.taper import Taper, Use, angle_for, short_cut, taper_of_rate

mpmath.mp.dps = 50

RATES = [Fraction(1, 200), Fraction(60235, 1_200_000), Fraction(1, 4), Fraction(7, 24), Fraction(3, 2)]


def of(rate):
    return taper_of_rate(rate, call_out="", reading="")


def mp(value):
    return mpmath.mpf(value.numerator) / value.denominator


@pytest.mark.parametrize("rate", RATES)
def test_the_half_angle_is_the_arctangent_of_half_the_rate_to_fifty_digits(rate):
    exact = mpmath.atan(mp(rate) / 2) * 648000 / mpmath.pi
    assert abs(mp(of(rate).half.arcseconds) - exact) < 1e-9


@pytest.mark.parametrize("rate", RATES)
def test_the_included_angle_closes_the_triangle_of_two_diameters(rate):
    # second derivation: the flanks from (0, D/2) to (l, d/2) and its mirror image, by their dot product
    one, other = mpmath.matrix([1, -mp(rate) / 2]), mpmath.matrix([1, mp(rate) / 2])
    cosine = (one.T * other)[0] / (mpmath.norm(one) * mpmath.norm(other))
    exact = mpmath.acos(cosine) * 648000 / mpmath.pi
    assert abs(mp(of(rate).included.arcseconds) - exact) < 1e-8


@pytest.mark.parametrize("rate", RATES)
def test_the_included_angle_is_exactly_twice_the_half_angle(rate):
    assert of(rate).included.arcseconds == 2 * of(rate).half.arcseconds


def test_a_rate_is_exact_and_an_angle_gives_its_float():
    assert of(Fraction(1, 4)).exact_rate == Fraction(1, 4)
    angled = Taper(call_out="", reading="", half=Angle.from_degrees(Fraction(57, 8)))
    assert angled.rate is None
    exact = 2 * mpmath.tan(mpmath.radians(mpmath.mpf("7.125")))
    assert angled.rate_value == pytest.approx(float(exact), rel=4e-16)


@pytest.mark.parametrize(
    ("rate", "per_foot", "ratio"),
    [
        (Fraction(1, 4), "3 in/ft", "1:4"),
        (Fraction(60235, 1_200_000), "0.60235 in/ft", "1:19.922"),
        (Fraction(7, 24), "3.5 in/ft", "1:3.429"),
        (Fraction(1, 10), "1.2 in/ft", "1:10"),
        (Fraction(2), "24 in/ft", "1:0.5"),
    ],
)
def test_a_taper_prints_per_foot_and_as_a_ratio(rate, per_foot, ratio):
    assert of(rate).per_foot_text == per_foot
    assert of(rate).one_in_text == ratio


def test_the_compound_takes_the_half_angle_and_a_plug_on_its_flank_the_included_one():
    taper = of(Fraction(1, 4))
    assert angle_for(taper, Use.COMPOUND) == taper.half
    assert angle_for(taper, Use.INSPECTION) == taper.included
    assert [use.value for use in Use] == ["compound", "inspection"]


@pytest.mark.parametrize("bar", KNOWN_BARS)
@pytest.mark.parametrize("use", Use)
@pytest.mark.parametrize("rate", RATES[:4])
def test_the_short_cut_is_the_rate_taken_as_a_sine(bar, use, rate):
    found = short_cut(of(rate), bar, use)
    sine = mp(rate) / 2 if use is Use.COMPOUND else mp(rate)
    right = mpmath.atan(mp(rate) / 2) * (1 if use is Use.COMPOUND else 2)
    assert abs(found.height - bar.effective * sine) <= bar.step / 2
    assert found.height_error == found.height - height(angle_for(of(rate), use), bar)
    assert found.angle.radians == pytest.approx(float(mpmath.asin(sine)), rel=1e-14)
    exact = (mpmath.asin(sine) - right) * 648000 / mpmath.pi
    assert abs(mp(found.angle_error_arcsec) - exact) < 1e-8
    assert found.height_error > 0


@pytest.mark.parametrize(
    ("rate", "use", "possible"),
    [
        (Fraction(1), Use.INSPECTION, False),
        (Fraction(999, 1000), Use.INSPECTION, True),
        (Fraction(3, 2), Use.COMPOUND, True),
        (Fraction(2), Use.COMPOUND, False),
    ],
)
def test_no_short_cut_stands_where_its_sine_would_reach_one(rate, use, possible):
    assert (short_cut(of(rate), KNOWN_BARS[0], use) is not None) == possible
