"""Published tapers against printed angles; document and basis stand beside each."""

from fractions import Fraction

import mpmath
import pytest

from gaugestack.angles.angle import Angle, degrees_text, dms_text
from gaugestack.angles.callout import read_taper
from gaugestack.angles.published import find_published
from gaugestack.lengths import Unit, exact_text, read_length, rounded_text

mpmath.mp.dps = 50


def named(name):
    return read_taper(name, bare_unit=None)


# Machinery's Handbook, dimensions of standard tapers: half angles read to four
# decimals in a copy of the table (seen); 1 and 7: rates from memory
MORSE = [
    ("0", "1.4908", "2°58'53.7\""),
    ("2", "1.4307", "2°51'41.0\""),
    ("3", "1.4377", "2°52'31.5\""),
    ("4", "1.4876", "2°58'30.6\""),
    ("4-1/2", "1.4894", "2°58'43.4\""),
    ("5", "1.5073", "3°00'52.4\""),
    ("6", "1.4933", "2°59'11.7\""),
    ("1", "1.4287", None),
    ("7", "1.4894", None),
]


@pytest.mark.parametrize(("number", "half", "included"), MORSE)
def test_morse_has_its_printed_half_angle(number, half, included):
    assert degrees_text(named(f"morse {number}").half, 4) == f"{half}°"
    if included:
        assert dms_text(named(f"morse {number}").included, 1) == included


# ISO 296 and DIN 228: ratios seen, half angles to one second from memory
@pytest.mark.parametrize(
    ("number", "ratio", "half"),
    [
        ("0", "1:19.212", "1°29'27\""),
        ("2", "1:20.02", "1°25'50\""),
        ("3", "1:19.922", "1°26'16\""),
        ("4", "1:19.254", "1°29'15\""),
        ("5", "1:19.002", "1°30'26\""),
        ("6", "1:19.18", "1°29'36\""),
    ],
)
def test_morse_in_inches_has_the_metric_ratio(number, ratio, half):
    taper = named(f"morse {number}")
    assert taper.one_in_text == ratio
    metric = read_taper(ratio, bare_unit=None)
    assert abs(taper.included - metric.included) < Fraction(3, 10)
    assert dms_text(metric.half) == half


# gauge lines: inches seen in two copies of the table; millimetres seen for 2 to 6
@pytest.mark.parametrize(
    ("number", "inch", "metric"),
    [
        ("0", "0.3561 in", "9.045 mm"),
        ("2", "0.7 in", "17.780 mm"),
        ("3", "0.938 in", "23.825 mm"),
        ("4", "1.231 in", "31.267 mm"),
        ("5", "1.748 in", "44.399 mm"),
        ("6", "2.494 in", "63.348 mm"),
    ],
)
def test_morse_has_its_gauge_line_in_both_units(number, inch, metric):
    line = find_published(f"morse {number}").gauge_line
    assert exact_text(line, Unit.INCH) == inch
    assert rounded_text(line, Unit.MILLIMETRE, 3) == metric


# steep tapers: inches of ASME B5.10, steep series, millimetres of ISO 297; 40 and 50 seen, the rest
# from memory
@pytest.mark.parametrize(
    ("number", "inch", "metric"),
    [
        ("10", "0.625 in", "15.875 mm"),
        ("20", "0.875 in", "22.225 mm"),
        ("25", "1 in", "25.400 mm"),
        ("30", "1.25 in", "31.750 mm"),
        ("35", "1.5 in", "38.100 mm"),
        ("40", "1.75 in", "44.450 mm"),
        ("45", "2.25 in", "57.150 mm"),
        ("50", "2.75 in", "69.850 mm"),
        ("60", "4.25 in", "107.950 mm"),
    ],
)
def test_a_steep_taper_has_its_gauge_line_in_both_units(number, inch, metric):
    line = find_published(f"7/24 {number}").gauge_line
    assert exact_text(line, Unit.INCH) == inch
    assert rounded_text(line, Unit.MILLIMETRE, 3) == metric


# ISO 296: the number of a metric taper is its diameter at the gauge plane; 6 and 80 seen, the rest
# from memory
@pytest.mark.parametrize("number", [4, 6, 80, 100, 120, 160, 200])
def test_a_metric_taper_is_called_by_its_gauge_line(number):
    assert find_published(f"metric {number}").gauge_line == read_length(f"{number} mm").length


# Machinery's Handbook, dimensions of standard tapers: rates to four places and half angles seen
@pytest.mark.parametrize(
    ("number", "four_places", "half", "included"),
    [
        ("2", "0.5020", "1.1983", "2°23'47.5\""),
        ("3", "0.5020", "1.1983", "2°23'47.5\""),
        ("5", "0.5016", "1.1973", "2°23'40.6\""),
        ("6", "0.5033", "1.2013", "2°24'09.7\""),
        ("8", "0.5010", "1.1959", "2°23'30.3\""),
        ("9", "0.5009", "1.1955", "2°23'27.7\""),
        ("10", "0.5161", "1.2320", "2°27'50.1\""),
        ("12", "0.4997", "1.1928", "2°23'08.5\""),
        ("14", "0.5000", "1.1935", "2°23'13.1\""),
        ("15", "0.5000", "1.1935", "2°23'13.1\""),
    ],
)
def test_brown_and_sharpe_has_its_printed_half_angle(number, four_places, half, included):
    taper = named(f"brown and sharpe {number}")
    assert abs(taper.rate * 12 - Fraction(four_places)) <= Fraction(5, 100_000)
    assert degrees_text(taper.half, 4) == f"{half}°"
    assert dms_text(taper.included, 1) == included


# Machinery's Handbook, dimensions of standard tapers: numbers 2 to 12 seen, 14 to 20 by the rule
@pytest.mark.parametrize("number", [2, 3, 5, 6, 7, 9, 11, 12, 14, 15, 17, 18, 20])
def test_jarno_follows_its_rule(number):
    published = find_published(f"jarno {number}")
    inch = read_length("1in").length
    assert published.large_end == number * inch // 8
    assert published.small_end == number * inch // 10
    assert published.length == number * inch // 2
    assert published.rate_from_ends == published.rate == Fraction(1, 20)
    assert degrees_text(named(f"jarno {number}").half, 4) == "1.4321°"


# ASME B5.10, drill chuck tapers: rates seen; printed angles differ by 0.0001 at most
@pytest.mark.parametrize(
    ("number", "rate", "half"),
    [
        ("0", "0.5915", "1.4118"),
        ("2", "0.9786", "2.3349"),
        ("2 short", "0.9786", "2.3349"),
        ("5", "0.6201", "1.4801"),
        ("33", "0.7619", "1.8183"),
    ],
)
def test_jacobs_has_its_printed_taper(number, rate, half):
    taper = named(f"jacobs {number}")
    assert taper.per_foot_text == f"{rate} in/ft"
    assert degrees_text(taper.half, 4) == f"{half}°"


# ISO 1119, table 2: ratios from memory
@pytest.mark.parametrize(("number", "ratio"), [("2", "12.262"), ("33", "15.748"), ("0", "20.288")])
def test_jacobs_agrees_with_the_ratio_of_the_cone_standard(number, ratio):
    standard = Fraction(12) / Fraction(ratio)
    assert abs(named(f"jacobs {number}").rate * 12 - standard) < Fraction(2, 10_000)


@pytest.mark.parametrize(
    ("name", "half", "basis"),
    [
        ("7/24", "8°17'49.7\"", "ISO 297, ASME B5.10: 3 1/2 in/ft seen"),
        ("metric 80", "1°25'55.5\"", "ISO 296:1991: 5 percent seen"),
        ("pipe taper", "1°47'23.7\"", "ASME B1.20.1: 1:16 seen"),
        ("inch taper pin", "0°35'48.5\"", "ASME B18.8.2: 1/4 in/ft seen"),
        ("metric taper pin", "0°34'22.6\"", "ISO 2339: 1:50 seen"),
        ("propeller shaft 2in", "1°47'23.7\"", "SAE J755 (2015): 1:16 seen, printed 1 47 23"),
        ("propeller shaft 6in", "2°23'09.4\"", "SAE J755 (2015): 1:12 seen, printed 2 23 9"),
        ("metric propeller shaft", "2°51'44.7\"", "ISO 4566: 1:10 seen"),
        ("anaesthetic connector", "0°42'58.2\"", "ISO 5356-1: 1:40 seen"),
    ],
)
def test_a_taper_of_one_ratio_has_its_half_angle(name, half, basis):
    assert dms_text(named(name).half, 1) == half, basis


# SAE J755 shaft ends (seen, rounded to 0.001 in): the two diameters give nearly 3/4 in/ft
@pytest.mark.parametrize(
    ("shaft", "small", "length", "per_foot"),
    [
        ("0.750", "0.625", "2.000", "0.7500"),
        ("1.000", "0.828", "2.750", "0.7505"),
        ("1.125", "0.930", "3.125", "0.7488"),
        ("1.375", "1.133", "3.875", "0.7494"),
        ("1.500", "1.234", "4.250", "0.7511"),
        ("2.000", "1.641", "5.750", "0.7492"),
        ("2.750", "2.258", "7.875", "0.7497"),
        ("3.500", "2.867", "10.125", "0.7502"),
        ("4.500", "3.828", "10.750", "0.7501"),
        ("5.000", "4.250", "12.000", "0.7500"),
    ],
)
def test_a_shaft_end_is_near_its_taper(shaft, small, length, per_foot):
    read = read_taper(f"{shaft}in to {small}in over {length}in", bare_unit=None)
    assert f"{float(read.rate * 12):.4f}" == per_foot
    assert abs(read.rate - find_published(f"propeller shaft {shaft}in").rate) * 12 <= Fraction(12, 10_000)


# Machinery's Handbook, 26th ed. and later, tapers per foot (rows recalled); seconds of the included angle
@pytest.mark.parametrize(
    ("per_foot", "included"),
    [
        ("1/8", "0°35'49\""),
        ("1/2", "2°23'13\""),
        ("3/4", "3°34'47\""),
        ("1", "4°46'19\""),
        ("3", "14°15'00\""),
    ],
)
def test_taper_per_foot_has_its_included_angle(per_foot, included):
    assert dms_text(named(f"{per_foot}in/ft").included) == included


# a scanned machine tool textbook, appendix table 13 (seen): off by a few seconds in many rows
@pytest.mark.parametrize(
    ("per_foot", "printed", "off"),
    [
        ("7/32", (1, 2, 34), "-5.9"),
        ("11/32", (1, 38, 22), "-6.2"),
        ("5-1/2", (25, 48, 48), "-5.3"),
        ("1/4", (1, 11, 36), "-1.0"),
        ("1/2", (2, 23, 10), "-3.1"),
        ("5/8", (2, 59, 2), "1.5"),
        ("3/4", (3, 34, 44), "-3.4"),
        ("1", (4, 46, 18), "-0.8"),
        ("2", (9, 31, 36), "-2.2"),
        ("3", (14, 15, 0), "-0.1"),
        ("5", (23, 32, 12), "0.3"),
        ("6-3/4", (31, 25, 2), "-0.2"),
    ],
)
def test_an_old_table_is_off_by_what_it_is_known_to_be(per_foot, printed, off):
    degrees, minutes, seconds = printed
    table = Angle(arcseconds=Fraction(3600 * degrees + 60 * minutes + seconds))
    assert f"{float(table - named(f'{per_foot}in/ft').included):.1f}" == off


# a 1902 book on turning and boring tapers (seen): taper per inch of an included angle, printed to five places
@pytest.mark.parametrize(
    ("degrees", "printed", "exact"),
    [
        ("1", "0.01746", "0.0174537"),
        ("3", "0.05236", "0.0523718"),
        ("10", "0.17498", "0.1749773"),
        ("30", "0.53590", "0.5358984"),
        ("45", "0.82842", "0.8284271"),
        ("50", "0.93262", "0.9326153"),
    ],
)
def test_an_included_angle_has_its_taper_per_inch(degrees, printed, exact):
    rate = named(f"{degrees}deg included").rate_value
    assert f"{rate:.7f}" == exact
    assert rate == pytest.approx(float(printed), abs=1.3e-5)
