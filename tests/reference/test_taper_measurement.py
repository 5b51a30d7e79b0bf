"""Published examples of measuring and cutting tapers; source and basis stand beside each."""

from fractions import Fraction

import pytest

from gaugestack.angles.angle import Angle, degrees_text, dms_text, read_angle
from gaugestack.angles.callout import read_call_out, read_taper
from gaugestack.angles.plates import Seat, Views, bar_setting, compound_plate, from_stack
from gaugestack.angles.readings import (
    carriage_reading,
    collar_cut,
    reading_per_minute,
    slide_reading,
    top_reading,
)
from gaugestack.angles.readings_balls import InBore, half_of_balls
from gaugestack.angles.readings_discs import angle_of_discs, corner_distance, disc_spacing
from gaugestack.angles.readings_rolls import (
    OverRolls,
    Stands,
    end_diameter_of_rolls,
    half_of_rolls,
    over_rolls,
)
from gaugestack.angles.setups import compound_swing, tailstock_offset
from gaugestack.angles.sine import KNOWN_BARS
from gaugestack.lengths import Length, Unit, read_length, rounded_text

IN, MM = Unit.INCH, Unit.MILLIMETRE
FIVE = KNOWN_BARS[0]
SMALL_DOWN = Stands.SMALL_END_DOWN


def pm(text):
    return read_length(text, signed=True).length


def cone(text):
    return read_taper(text, bare_unit=None)


def deg(number):
    return Angle.from_degrees(Fraction(number))


def test_rolls_on_the_plate_and_on_stacks():
    # computed check of the two-roll method: half angle 2.5 degrees, 20 mm end, 10 mm rolls, 25 mm stacks
    taper = cone("2.5deg/side")
    low, high = (over_rolls(taper, pm("20mm"), pm("10mm"), pm(h), stands=SMALL_DOWN) for h in ("0mm", "25mm"))
    assert rounded_text(low, MM, 6) == "40.446136 mm"
    assert rounded_text(high, MM, 6) == "42.629183 mm"
    measured = OverRolls(low=low, high=high, low_stack=Length(0), high_stack=pm("25mm"))
    half = half_of_rolls(measured, stands=SMALL_DOWN, unit=MM)
    assert degrees_text(half, 6) == "2.500000°"
    end = end_diameter_of_rolls(low, half, pm("10mm"), Length(0), stands=SMALL_DOWN, unit=MM)
    assert rounded_text(end, MM, 6) == "20.000000 mm"


def test_rolls_under_a_morse_three():
    # bench practice (computed): rolls 0.250 in, 0.778 in end, stacks 0 and 2.000 in
    sizes = [
        over_rolls(cone("morse 3"), pm("0.778in"), pm("0.25in"), pm(h), stands=SMALL_DOWN)
        for h in ("0in", "2in")
    ]
    assert [rounded_text(size, IN, 5) for size in sizes] == ["1.28435 in", "1.38474 in"]


def test_a_caliper_over_blocks():
    # a hobby machinists' page (seen): 0.745 in and 0.620 in, 1 in apart; half angle 3.5763 degrees, 3 34 35
    measured = OverRolls(low=pm("0.620in"), high=pm("0.745in"), low_stack=Length(0), high_stack=pm("1in"))
    half = half_of_rolls(measured, stands=SMALL_DOWN, unit=IN)
    assert degrees_text(half, 4) == "3.5763°"
    assert dms_text(half) == "3°34'35\""
    assert cone("0.745in to 0.620in over 1in").one_in_text == "1:8"
    assert cone("slope 0.0625in/in per side").one_in_text == "1:8"


@pytest.mark.parametrize(
    ("balls", "tops", "distance", "half", "included"),
    [
        # metrology and quality control questions (seen): printed 14.47 and 28.95
        (("12mm", "8mm"), ("25mm", "15mm"), "8 mm", "14.4775", "28.9550"),
        # examination question (seen): 8 mm above the face, 76 mm below
        (("40mm", "32mm"), ("8mm", "-76mm"), "80 mm", "2.8660", "5.7320"),
        # GATE PI 2015 (seen): 5 mm above the face, 35 mm below; 7 38 42.4 computed
        (("20mm", "15mm"), ("5mm", "-35mm"), "37.5 mm", "3.8226", "7.6451"),
    ],
)
def test_two_balls_in_a_bore(balls, tops, distance, half, included):
    found = InBore(large=pm(balls[0]), small=pm(balls[1]), large_top=pm(tops[0]), small_top=pm(tops[1]))
    angle = half_of_balls(found, unit=MM)
    assert found.doubled_centre_distance == 2 * pm(distance.replace(" ", ""))
    assert degrees_text(angle, 4) == f"{half}°"
    assert abs(2 * angle.degrees - float(included)) < 1e-4


def test_two_unequal_rollers_with_a_stack_between():
    # examination question on two precision rollers (seen): radii 8 and 5 mm, 15.54 mm between; the answer 12
    angle = angle_of_discs(large=pm("16mm"), small=pm("10mm"), gap=pm("15.54mm"), unit=MM)
    assert degrees_text(angle, 4) == "12.0677°"


def test_discs_set_to_a_taper():
    # Machinery's Handbook, 31st ed., p. 701 (seen): 3/4 in/ft, 1 1/4 and 1 1/2 in; printed 4.002 in
    found = disc_spacing(cone("3/4in/ft").included, large=pm("1.5in"), small=pm("1.25in"), unit=IN)
    assert rounded_text(found.centre_distance, IN, 6) == "4.001953 in"
    assert rounded_text(found.centre_distance, IN, 3) == "4.002 in"


def test_the_taper_of_two_discs():
    # Machinery's Handbook, 31st ed., p. 701 (seen): 1 and 1 1/2 in, 5 in apart; printed 1.2015 in/ft
    whole = angle_of_discs(large=pm("1.5in"), small=pm("1in"), gap=pm("3.75in"), unit=IN)
    assert cone(f"{whole.degrees:.12f}deg included").per_foot_text == "1.201503 in/ft"


def test_discs_of_a_taper_square_to_one_side():
    # Machinery's Handbook, 31st ed., p. 701 (problem seen, answer computed): 6.9 in/ft, 2 and 5 in
    flat = read_call_out("flat 6.9in/ft", bare_unit=None)
    found = disc_spacing(flat.angle, large=pm("5in"), small=pm("2in"), unit=IN)
    assert rounded_text(found.centre_distance, IN, 6) == "5.814703 in"


def test_a_disc_in_the_corner_of_a_square():
    # Precision Locating and Dividing Methods, disk-and-square method (seen): 15 10, 2 in; printed 8.5113 in
    assert rounded_text(corner_distance(read_angle("15d10m").angle, pm("2in")), IN, 4) == "8.5113 in"


@pytest.mark.parametrize(
    ("call_out", "length", "usual", "exact"),
    [
        # books on turning and modern machine-shop practice (seen): 1/2 in and 1 1/2 in
        ("1-1/2in/ft", "8in", "0.500000 in", "0.499026 in"),
        ("1in/ft", "36in", "1.500000 in", "1.498700 in"),
        # examination question (seen): printed 0.46875 in
        ("0.0625in/in", "15in", "0.468750 in", "0.468521 in"),
        # bench practice (computed): morse 3 over 12 in; 1/2 in in 4 in over 10 in
        ("morse 3", "12in", "0.301175 in", "0.301080 in"),
        ("1in to 0.5in over 4in", "10in", "0.625000 in", "0.623783 in"),
    ],
)
def test_a_tailstock_is_set_over(call_out, length, usual, exact):
    found = tailstock_offset(cone(call_out), between_centres=pm(length), taper_length=pm("1in"), unit=IN)
    assert rounded_text(found.usual, IN, 6) == usual
    assert rounded_text(found.exact, IN, 6) == exact


def test_the_slide_of_a_taper_on_radius():
    # home shop machinists' page (seen): 1/4 in per foot on radius is 1.1935 degrees, 1 11 36
    swing = compound_swing(cone("slope 0.25in/ft per side")).swing
    assert degrees_text(swing, 4) == "1.1935°"
    assert dms_text(swing, 1) == "1°11'36.6\""


def test_the_slide_of_two_diameters():
    # pen turners' page (seen): .500 and .750 over 2.000 in is exactly 3.58 degrees
    assert degrees_text(compound_swing(cone("0.75in to 0.5in over 2in")).swing, 2) == "3.58°"


def test_an_indicator_over_three_inches_of_carriage():
    # rule common practice, figures computed: 5/8 in/ft
    taper = cone("5/8in/ft")
    assert rounded_text(carriage_reading(taper, pm("3in")).per_side, IN, 6) == "0.078125 in"
    assert rounded_text(slide_reading(taper, pm("3in")).per_side, IN, 6) == "0.078099 in"


def test_an_inch_of_morse_three_on_carriage_and_slide():
    # bench practice (computed)
    assert rounded_text(carriage_reading(cone("morse 3"), pm("1in")).per_side, IN, 6) == "0.025098 in"
    assert rounded_text(slide_reading(cone("morse 3"), pm("1in")).per_side, IN, 6) == "0.025090 in"


def test_a_slide_at_thirty_degrees_gives_half_its_travel():
    # home shop page (seen): 1 in of slide is 0.500 in of cross-slide
    assert rounded_text(slide_reading(cone("30deg/side"), pm("1in")).per_side, IN, 3) == "0.500 in"


def test_a_minute_and_a_second_along_the_top():
    # bench practice (computed): 1 minute over 1 in, 1 second over 100 mm
    assert rounded_text(reading_per_minute(pm("1in")), IN, 6) == "0.000291 in"
    assert rounded_text(top_reading(Angle(arcseconds=Fraction(1)), pm("100mm")), MM, 6) == "0.000485 mm"


@pytest.mark.parametrize("views", Views)
@pytest.mark.parametrize(
    ("first", "second", "corrected", "tilt", "left_over"),
    [
        # computed with vectors; no published example was found
        ("20", "15", "14.132723", "24.321237", "0°52'02.2\""),
        ("20", "30", "28.481238", "34.313577", None),
        ("10", "15", "14.782166", "17.784244", None),
    ],
)
def test_a_compound_plate_corrects_the_second_view(views, first, second, corrected, tilt, left_over):
    found = compound_plate(deg(first), deg(second), bottom=FIVE, top=FIVE, views=views)
    angles = [found.bottom_angle, found.top_angle]
    if views is Views.OF_THE_PART:
        angles.reverse()
    assert angles[0] == deg(first)
    assert degrees_text(angles[1], 6) == f"{corrected}°"
    assert degrees_text(found.tilt, 6) == f"{tilt}°"
    if left_over:
        assert dms_text(found.left_over, 1) == left_over


def test_both_stacks_of_a_compound_plate():
    # bench practice (computed): 20 and 30 degrees on 5 in: 1.7101 and 2.3844 in
    found = compound_plate(deg(20), deg(30), bottom=FIVE, top=FIVE, views=Views.OF_THE_PART)
    assert rounded_text(found.top_stack, IN, 4) == "1.7101 in"
    assert rounded_text(found.bottom_stack, IN, 4) == "2.3844 in"


def test_a_stack_read_back_as_a_taper():
    # trade-school page on inspecting a taper (seen): 0.2520 in on 5 in; printed 0.6051, four figures
    found = from_stack(pm("0.2520in"), FIVE, Seat.FLANK_ON_BAR)
    assert dms_text(found.angle) == "2°53'20\""
    assert rounded_text(Length(round(found.taper.exact_rate * pm("12in"))), IN, 4) == "0.6052 in"


@pytest.mark.parametrize(
    ("seat", "rise"), [(Seat.FLANK_ON_BAR, "0.25082 in"), (Seat.AXIS_ON_BAR, "0.12545 in")]
)
def test_a_morse_three_lies_on_its_flank_or_along_its_axis(seat, rise):
    # bench practice (computed)
    assert rounded_text(bar_setting(cone("morse 3"), FIVE, seat).rise, IN, 5) == rise


def test_two_collars_measured():
    # a home-shop answer (seen), corrected: .218 and .146 over .758 is 2.7191 degrees
    cut = collar_cut(cone("1:10"), large=pm("0.218in"), small=pm("0.146in"), spacing=pm("0.758in"), unit=IN)
    assert degrees_text(cut.half, 4) == "2.7191°"


def test_the_true_tilt_of_a_block_of_two_component_angles():
    # Machinery's Handbook, 31st ed., p. 122, fig. 4 (seen): 47 14 and 38 10; 36 0.9 and 53 12
    found = compound_plate(
        read_angle("47d14m").angle,
        read_angle("38d10m").angle,
        bottom=FIVE,
        top=FIVE,
        views=Views.OF_THE_PLATE,
    )
    assert dms_text(found.direction, 1) == "36°00'58.7\""
    assert dms_text(found.tilt, 1) == "53°11'55.5\""
