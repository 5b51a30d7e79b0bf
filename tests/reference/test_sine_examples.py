"""Published and computed sine-bar values; source and basis stand beside each."""

from fractions import Fraction

import mpmath
import pytest

from gaugestack.angles.angle import Angle, arcsec_text, degrees_text, dms_text, read_angle
from gaugestack.angles.sine import SineBar, angle_of, bar_of_length, error_growth, height, sensitivity
from gaugestack.lengths import Length, Unit, read_length, rounded_text

mpmath.mp.dps = 50

HANDBOOK = "Machinery's Handbook, 31st ed., p. 695"
ARMY = "US Army TC 9-524, appendix C"


def bar_of(text):
    read = read_length(text)
    return bar_of_length(read.length, read.unit)


def in_other_unit(bar):
    other = Unit.MILLIMETRE if bar.unit is Unit.INCH else Unit.INCH
    return SineBar(name="other", centre_distance=bar.centre_distance, unit=other)


def rounds_to(length, printed):
    """Whether a length prints as a published text, at the decimals of that text."""
    number, unit = printed.split()
    places = len(number.partition(".")[2])
    return rounded_text(length, Unit(unit), places) == printed


def degrees(number, minutes=0, seconds=0):
    return Angle(arcseconds=Fraction(number * 3600 + minutes * 60 + seconds))


HEIGHTS = [
    # angle, centre distance, height, source, basis
    ("23d41m", "5in", "2.0084 in", ARMY, "seen"),
    (
        "34d25m",
        "5in",
        "2.826 in",
        "Handbook of Machining and Metalworking Calculations, chapter 4, fig. 4.1",
        "seen",
    ),
    ("18deg", "5in", "1.545 in", "shop web page on sine bars", "seen"),
    ("60deg", "5in", "4.3301 in", "shop tutorial on gauge-block stacks", "seen"),
    ("30deg", "5in", "2.5 in", "workshop handbook page on slip gauges and sine bars", "seen"),
    ("25deg", "100mm", "42.26 mm", "trade test question (sine given as 0.4226)", "seen"),
    ("33deg", "100mm", "54.464 mm", "metrology textbook problem, 87-piece set", "from memory"),
    ("28d38m1s", "5in", "2.396 in", f"{HANDBOOK}, plug gauge of 6 1/8 in/ft", "seen"),
    ("12deg", "5in", "1.03956 in", f"{HANDBOOK}, templet with two angles", "seen"),
    ("30deg", "100mm", "50 mm", "college question bank on angular measurement", "seen"),
    ("27deg", "5in", "2.2700 in", "shop supplier's list of questions", "seen"),
    ("32d5m6s", "200mm", "106.23535706 mm", "metrology textbook problem, target only", "computed"),
    ("42d17m26s", "5in", "3.36445 in", "chapter 4 of the same calculations handbook, case only", "computed"),
    ("23d41m", "5in", "2.00840702 in", ARMY, "computed"),
    ("34d25m", "5in", "2.82603498 in", "", "computed"),
    ("18deg", "5in", "1.54508497 in", "", "computed"),
    ("60deg", "5in", "4.33012702 in", "", "computed"),
    ("25deg", "100mm", "42.26182617 mm", "", "computed"),
    ("33deg", "100mm", "54.46390350 mm", "", "computed"),
    ("28d38m1s", "5in", "2.39603411 in", "", "computed"),
    ("12deg", "5in", "1.03955845 in", "", "computed"),
    ("20deg", "100mm", "34.2020 mm", "collet seat of 20 degrees included", "computed"),
    ("10deg", "5in", "0.86824 in", "the same seat, half angle", "computed"),
    ("16d51m", "5in", "1.44934 in", "", "computed"),
]


@pytest.mark.parametrize(("angle", "length", "printed", "source", "basis"), HEIGHTS)
def test_a_height_prints_as_published(angle, length, printed, source, basis):
    found = height(read_angle(angle).angle, bar_of(length))
    assert _agrees(found, printed), f"{source} ({basis})"


@pytest.mark.parametrize(("angle", "length"), [(row[0], row[1]) for row in HEIGHTS])
def test_the_same_height_comes_from_the_bar_in_the_other_unit(angle, length):
    bar = bar_of(length)
    value = read_angle(angle).angle
    assert abs(height(value, bar) - height(value, in_other_unit(bar))) <= 177


def _agrees(found, printed):
    """Whether it lies within half of the last printed place, give or take half the step heights keep."""
    number, unit = printed.split()
    last = Fraction(Unit(unit).picometres, 10 ** len(number.partition(".")[2]))
    return abs(found - Fraction(number) * Unit(unit).picometres) <= last / 2 + 127


def test_sixty_degrees_is_not_the_value_of_a_sine_cut_to_four_places():
    # the two copies of the shop tutorial print 4.3300 in and 4.3301 in; seen
    assert not rounds_to(height(degrees(60), bar_of("5in")), "4.3300 in")


REVERSE = [
    # centre distance, height, degrees to five places or fewer, source, basis
    ("60mm", "28.55mm", "28.41362", "manufacturing textbook problem, metric form", "computed"),
    ("6in", "2.855in", "28.41", "Fundamentals of Modern Manufacturing, inspection problem", "from memory"),
    ("5in", "2.5in", "30", "workshop handbook page on slip gauges and sine bars", "seen"),
    ("250mm", "90mm", "21.1", "GATE PI 2012 (options seen)", "seen"),
    ("250mm", "90mm", "21.100196", "GATE PI 2012", "computed"),
]


@pytest.mark.parametrize(("length", "stack", "printed", "source", "basis"), REVERSE)
def test_a_measured_height_gives_the_published_angle(length, stack, printed, source, basis):
    found = angle_of(read_length(stack).length, bar_of(length))
    places = len(printed.partition(".")[2])
    assert degrees_text(found, places)[:-1] == printed, f"{source} ({basis})"


def test_the_reverse_examples_agree_in_degrees_minutes_and_seconds():
    # computed beside the two textbook problems above
    assert dms_text(angle_of(read_length("28.55mm").length, bar_of("60mm")), 1) == "28°24'49.0\""
    assert dms_text(angle_of(read_length("90mm").length, bar_of("250mm")), 1) == "21°06'00.7\""


def test_an_inspected_taper_reads_back_as_the_school_page_has_it():
    # 0.2520 in on 5 in, trade-school page on inspecting a taper; angle seen
    assert dms_text(angle_of(read_length("0.2520in").length, bar_of("5in"))) == "2°53'20\""


# Machinery's Handbook, constants for setting a 5-inch sine bar: the table from
# memory, each value computed as 5 sin(angle); 10 in and 100 mm computed too.
# degrees, 5 in to six places, 5 in to five places, 10 in, 100 mm
WHOLE_DEGREES = [
    (1, "0.087262", "0.08726", "0.174524", "1.74524"),
    (2, "0.174497", "0.17450", "0.348995", "3.48995"),
    (4, "0.348782", "0.34878", "0.697565", "6.97565"),
    (5, "0.435779", "0.43578", "0.871557", "8.71557"),
    (6, "0.522642", "0.52264", "1.045285", "10.45285"),
    (8, "0.695866", "0.69587", "1.391731", "13.91731"),
    (9, "0.782172", "0.78217", "1.564345", "15.64345"),
    (10, "0.868241", "0.86824", "1.736482", "17.36482"),
    (12, "1.039558", "1.03956", "2.079117", "20.79117"),
    (13, "1.124755", "1.12476", "2.249511", "22.49511"),
    (14, "1.209609", "1.20961", "2.419219", "24.19219"),
    (16, "1.378187", "1.37819", "2.756374", "27.56374"),
    (17, "1.461859", "1.46186", "2.923717", "29.23717"),
    (18, "1.545085", "1.54508", "3.090170", "30.90170"),
    (20, "1.710101", "1.71010", "3.420201", "34.20201"),
    (21, "1.791840", "1.79184", "3.583679", "35.83679"),
    (22, "1.873033", "1.87303", "3.746066", "37.46066"),
    (24, "2.033683", "2.03368", "4.067366", "40.67366"),
    (25, "2.113091", "2.11309", "4.226183", "42.26183"),
    (26, "2.191856", "2.19186", "4.383711", "43.83711"),
    (28, "2.347358", "2.34736", "4.694716", "46.94716"),
    (29, "2.424048", "2.42405", "4.848096", "48.48096"),
    (30, "2.500000", "2.50000", "5.000000", "50.00000"),
    (32, "2.649596", "2.64960", "5.299193", "52.99193"),
    (33, "2.723195", "2.72320", "5.446390", "54.46390"),
    (34, "2.795965", "2.79596", "5.591929", "55.91929"),
    (36, "2.938926", "2.93893", "5.877853", "58.77853"),
    (37, "3.009075", "3.00908", "6.018150", "60.18150"),
    (38, "3.078307", "3.07831", "6.156615", "61.56615"),
    (40, "3.213938", "3.21394", "6.427876", "64.27876"),
    (41, "3.280295", "3.28030", "6.560590", "65.60590"),
    (42, "3.345653", "3.34565", "6.691306", "66.91306"),
    (44, "3.473292", "3.47329", "6.946584", "69.46584"),
    (45, "3.535534", "3.53553", "7.071068", "70.71068"),
    (46, "3.596699", "3.59670", "7.193398", "71.93398"),
    (48, "3.715724", "3.71572", "7.431448", "74.31448"),
    (49, "3.773548", "3.77355", "7.547096", "75.47096"),
    (50, "3.830222", "3.83022", "7.660444", "76.60444"),
    (52, "3.940054", "3.94005", "7.880108", "78.80108"),
    (53, "3.993178", "3.99318", "7.986355", "79.86355"),
    (54, "4.045085", "4.04508", "8.090170", "80.90170"),
    (56, "4.145188", "4.14519", "8.290376", "82.90376"),
    (57, "4.193353", "4.19335", "8.386706", "83.86706"),
    (58, "4.240240", "4.24024", "8.480481", "84.80481"),
    (60, "4.330127", "4.33013", "8.660254", "86.60254"),
]
# degrees, minutes, 5 in, 100 mm
WITH_MINUTES = [
    (0, 1, "0.001454", "0.02909"),
    (0, 2, "0.002909", "0.05818"),
    (0, 30, "0.043633", "0.87265"),
    (1, 30, "0.130885", "2.61769"),
    (2, 23, "0.207925", "4.15850"),
    (5, 12, "0.453163", "9.06326"),
    (7, 7, "0.619451", "12.38901"),
    (8, 17, "0.720342", "14.40684"),
    (14, 15, "1.230766", "24.61533"),
    (16, 35, "1.427048", "28.54096"),
    (22, 30, "1.913417", "38.26834"),
    (31, 20, "2.600081", "52.00161"),
    (37, 41, "3.056484", "61.12969"),
    (44, 59, "3.534505", "70.69011"),
]


@pytest.mark.parametrize(("whole", "five", "five_short", "ten", "metric"), WHOLE_DEGREES)
def test_the_constants_of_whole_degrees_agree(whole, five, five_short, ten, metric):
    angle = degrees(whole)
    assert _agrees(height(angle, bar_of("5in")), f"{five} in")
    assert _agrees(height(angle, bar_of("5in")), f"{five_short} in")
    assert _agrees(height(angle, bar_of("10in")), f"{ten} in")
    assert _agrees(height(angle, bar_of("100mm")), f"{metric} mm")


@pytest.mark.parametrize(("whole", "minutes", "five", "metric"), WITH_MINUTES)
def test_the_constants_of_minutes_agree(whole, minutes, five, metric):
    angle = degrees(whole, minutes)
    assert _agrees(height(angle, bar_of("5in")), f"{five} in")
    assert _agrees(height(angle, bar_of("100mm")), f"{metric} mm")


# degrees, arcsec per µm of height on 100 mm, arcsec per 0.0001 in of height on
# 5 in, arcsec per µm of centre distance on 100 mm, times the error at 0; computed
SENSITIVITY = [
    (5, "2.071", "4.141", "0.180", "1.0038"),
    (15, "2.135", "4.271", "0.553", "1.0353"),
    (30, "2.382", "4.763", "1.191", "1.1547"),
    (45, "2.917", "5.834", "2.063", "1.4142"),
    (60, "4.125", "8.251", "3.573", "2.0000"),
    (75, "7.969", "15.939", "7.698", "3.8637"),
]


@pytest.mark.parametrize(("whole", "metric", "inch", "of_length", "growth"), SENSITIVITY)
def test_the_sensitivity_table_agrees(whole, metric, inch, of_length, growth):
    angle = degrees(whole)
    assert f"{1_000_000 / sensitivity(angle, bar_of('100mm')):.3f}" == metric
    assert f"{2_540_000 / sensitivity(angle, bar_of('5in')):.3f}" == inch
    assert f"{error_growth(angle):.4f}" == growth
    bar = SineBar(name="off", centre_distance=Length(10**11), error=Length(1_000_000), unit=Unit.MILLIMETRE)
    moved = angle - angle_of(height(angle, bar_of("100mm")), bar)
    assert abs(float(moved) - float(of_length)) < 0.0007


@pytest.mark.parametrize(
    ("whole", "printed"),
    # 0.0001 in of height on 5 in: forum thread on sine-bar sensitivity, seen
    [(30, "0.00132"), (60, "0.00229")],
)
def test_the_published_error_of_angle_agrees(whole, printed):
    error = 2_540_000 / sensitivity(degrees(whole), bar_of("5in")) / 3600
    assert f"{error:.5f}" == printed


def test_one_arcsecond_over_100_mm_is_half_a_micrometre():
    # computed: 0.485 µm, at 0 degrees
    assert f"{sensitivity(degrees(0), bar_of('100mm')) / 1e6:.3f}" == "0.485"


def test_one_minute_over_one_inch_is_three_tenths_of_a_thou():
    # computed: 0.000291 in
    assert rounds_to(height(degrees(0, 1), bar_of("1in")), "0.000291 in")


@pytest.mark.parametrize(
    ("whole", "arcseconds"),
    # IS 5359:1969: +/-0.003 mm on 100 mm, quoted in a metrology textbook (seen);
    # what it does to the angle is computed: 0.003 mm times tan(angle) / 100 mm
    [(5, "0.5"), (30, "3.6"), (45, "6.2")],
)
def test_the_allowed_error_of_a_100_mm_bar_turns_the_angle_as_computed(whole, arcseconds):
    long = SineBar(name="long", centre_distance=Length(10**11), error=Length(3_000_000), unit=Unit.MILLIMETRE)
    turned = degrees(whole) - angle_of(height(degrees(whole), bar_of("100mm")), long)
    assert arcsec_text(turned) == f'+{arcseconds}"'


@pytest.mark.parametrize(
    ("base", "top", "plate", "first", "second"),
    # a compound sine plate: tan(plate) = tan(top) cos(base), Machinery's
    # Handbook, compound angles (from memory); values computed
    [
        (20, 15, "14.132723", "1.710101 in", "1.220844 in"),
        (20, 30, "28.4812", "1.7101 in", "2.3844 in"),
        (10, 15, "14.7822", "0.8682 in", "1.2757 in"),
    ],
)
def test_both_plates_of_a_compound_sine_plate_take_the_sine_formula(base, top, plate, first, second):
    angle = mpmath.degrees(mpmath.atan(mpmath.tan(mpmath.radians(top)) * mpmath.cos(mpmath.radians(base))))
    places = len(plate.partition(".")[2])
    corrected = Angle.from_degrees(float(angle))
    assert degrees_text(corrected, places)[:-1] == plate
    assert rounds_to(height(degrees(base), bar_of("5in")), first)
    assert rounds_to(height(corrected, bar_of("5in")), second)
