"""Round trips of set-ups, readings and corrections."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from gaugestack.angles.angle import Angle
from gaugestack.angles.callout import read_call_out, read_taper
from gaugestack.angles.correction import correct
from gaugestack.angles.flat import flat_of_slope
from gaugestack.angles.plates import Seat, Views, bar_setting, compound_plate, from_stack, true_tilt
from gaugestack.angles.published import published_names
from gaugestack.angles.readings import (
    carriage_reading,
    collar_cut,
    collar_spacing,
    half_of_carriage_reading,
    half_of_slide_reading,
    slide_reading,
)
from gaugestack.angles.readings_balls import InBore, half_of_balls, mouth_of_ball, top_of_ball
from gaugestack.angles.readings_discs import angle_of_discs, disc_spacing
from gaugestack.angles.readings_rolls import (
    OverRolls,
    Stands,
    end_diameter_of_rolls,
    half_of_rolls,
    over_rolls,
)
from gaugestack.angles.setups import half_of_offset, tailstock_offset
from gaugestack.angles.sine import KNOWN_BARS, sensitivity
from gaugestack.angles.taper import taper_of_rate
from gaugestack.errors import TextError
from gaugestack.lengths import Length, Unit

MM = Unit.MILLIMETRE
ARCSECOND = Fraction(1)
RATES = st.fractions(Fraction(1, 1000), Fraction(3, 2), max_denominator=10_000)
TAPERS = RATES.map(lambda rate: taper_of_rate(rate, call_out="any", reading=""))
TRAVELS = st.integers(10**10, 10**12).map(Length)
ANGLES = st.fractions(Fraction(3600), Fraction(200_000), max_denominator=1000).map(
    lambda a: Angle(arcseconds=a)
)
BARS = st.sampled_from(KNOWN_BARS)


def close(one, other, arcseconds=Fraction(1, 1000)):
    return abs(one - other) < arcseconds


@given(TAPERS, TRAVELS)
def test_a_reading_gives_back_the_half_angle(taper, travel):
    slide = slide_reading(taper, travel).per_side
    carriage = carriage_reading(taper, travel).per_side
    assert close(half_of_slide_reading(slide, travel=travel, unit=MM), taper.half)
    assert close(half_of_carriage_reading(carriage, travel=travel, unit=MM), taper.half)
    assert slide <= carriage


@given(TAPERS, TRAVELS)
def test_an_offset_gives_back_the_half_angle_and_the_shop_rule_is_never_smaller(taper, between):
    found = tailstock_offset(taper, between_centres=between, taper_length=between, unit=MM)
    assert close(half_of_offset(found.exact, between_centres=between, unit=MM), taper.half)
    assert found.usual >= found.exact


@given(TAPERS, st.integers(5 * 10**9, 10**11).map(Length), st.sampled_from(Stands))
def test_rolls_give_back_the_plug(taper, roll, stands):
    end, high = Length(4 * 10**11), Length(5 * 10**10)
    low = over_rolls(taper, end, roll, Length(0), stands=stands)
    top = over_rolls(taper, end, roll, high, stands=stands)
    measured = OverRolls(low=low, high=top, low_stack=Length(0), high_stack=high)
    half = half_of_rolls(measured, stands=stands, unit=MM)
    assert close(half, taper.half)
    found = end_diameter_of_rolls(low, half, roll, Length(0), stands=stands, unit=MM)
    assert abs(found - end) < 1000


@given(TAPERS, st.integers(10, 90), st.integers(10, 90))
def test_balls_give_back_the_bore(taper, share, small_share):
    mouth = Length(10**11)
    # a ball whose radius over cos(half) is at most half the mouth touches below the face
    largest = 10**11 / (1 + (float(taper.rate) / 2) ** 2) ** 0.5
    large = Length(int(largest * share / 100))
    small = Length(int(large * small_share / 100))
    tops = [top_of_ball(taper, mouth, ball, unit=MM) for ball in (large, small)]
    balls = InBore(large=large, small=small, large_top=tops[0], small_top=tops[1])
    half = half_of_balls(balls, unit=MM)
    assert close(half, taper.half)
    assert abs(mouth_of_ball(large, tops[0], half, unit=MM) - mouth) < 10_000


@given(TAPERS, st.integers(10, 95))
def test_discs_give_back_the_angle(taper, share):
    sine = (float(taper.rate) / 2) / (1 + (float(taper.rate) / 2) ** 2) ** 0.5
    large = Length(10**11)
    small = Length(int(large * (1 - sine) / (1 + sine) * share / 100))
    found = disc_spacing(taper.included, large=large, small=small, unit=MM)
    assert found.gap >= 0
    assert close(angle_of_discs(large=large, small=small, gap=found.gap, unit=MM), taper.included)


@given(TAPERS, st.integers(10**8, 10**10).map(Length))
def test_a_perfect_collar_cut_has_no_error(taper, difference):
    spacing = collar_spacing(taper, difference, unit=MM)
    small = Length(10**10)
    cut = collar_cut(taper, large=Length(small + difference), small=small, spacing=spacing, unit=MM)
    assert abs(cut.error_arcsec) < Fraction(1, 100)


@given(TAPERS, BARS, st.sampled_from(Seat))
def test_a_stack_gives_back_its_taper(taper, bar, seat):
    found = from_stack(bar_setting(taper, bar, seat).rise, bar, seat)
    assert close(found.taper.half, taper.half)
    assert found.taper.included.arcseconds == 2 * found.taper.half.arcseconds


@given(ANGLES, ANGLES, st.sampled_from(Views))
def test_both_uses_of_a_compound_plate_tilt_alike_and_never_more_than_uncorrected(first, second, views):
    plate = compound_plate(first, second, bottom=KNOWN_BARS[0], top=KNOWN_BARS[2], views=views)
    other = compound_plate(second, first, bottom=KNOWN_BARS[2], top=KNOWN_BARS[0], views=views)
    assert close(plate.tilt, other.tilt)
    assert plate.left_over.arcseconds >= 0
    assert plate.tilt <= Angle(arcseconds=true_tilt(first, second).arcseconds + Fraction(1, 10**9))
    assert max(first, second).arcseconds <= plate.tilt.arcseconds + Fraction(1, 10**6)


@given(ANGLES, st.integers(-1000, 1000), BARS)
def test_a_correction_and_back_is_where_it_began(angle, error, bar):
    there = correct(angle, Angle(arcseconds=Fraction(error)), bar)
    back = correct(there.new_angle, Angle(arcseconds=Fraction(-error)), bar)
    assert back.new_height == there.old_height
    assert back.change == -there.change
    assert there.over_correction >= 1 - 1e-2


@given(ANGLES, st.integers(1, 30), BARS)
def test_a_small_correction_is_the_sensitivity_times_the_error(angle, error, bar):
    found = correct(angle, Angle(arcseconds=Fraction(error)), bar)
    assert abs(found.change + sensitivity(angle, bar) * error) < bar.effective * 1e-7


@given(st.fractions(Fraction(1, 1000), Fraction(10), max_denominator=1000))
def test_a_flat_is_no_cone(slope):
    flat = flat_of_slope(slope, call_out="", reading="")
    cone = taper_of_rate(slope, call_out="", reading="")
    assert flat.angle < cone.included
    assert flat.angle > cone.half


@given(st.sampled_from(published_names()), st.text(alphabet="abcmorsejnt 0123/-&.#", max_size=3))
def test_a_name_with_anything_behind_it_is_read_or_refused_with_a_hint(name, behind):
    hints = []
    try:
        hints.append(read_taper(name + behind, bare_unit=None).reading)
    except TextError as error:
        hints.append(error.hint)
    assert all(hints)


@given(st.text(alphabet="0123456789.:/%- flatwedgeslopepersidinchovm", max_size=40))
def test_any_text_is_a_call_out_or_a_usage_error(text):
    problems = []
    try:
        assert read_call_out(f"flat {text}", bare_unit=Unit.INCH).angle.arcseconds > 0
    except TextError as error:
        problems.append(error.sentence)
    assert all(problems)
