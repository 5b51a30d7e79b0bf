from fractions import Fraction

import mpmath
import pytest

from gaugestack.angles.angle import (
    Angle,
    arcsec_text,
    degrees_text,
    dms_text,
    read_angle,
    short_degrees_text,
)
from gaugestack.errors import TextError, UsageError

mpmath.mp.dps = 50


def seconds(text, **how):
    return read_angle(text, **how).angle.arcseconds


@pytest.mark.parametrize(
    "text",
    [
        "7d7m30s",
        "7°7'30\"",
        "7\N{DEGREE SIGN}7\N{PRIME}30\N{DOUBLE PRIME}",
        "7\N{DEGREE SIGN} 7\N{RIGHT SINGLE QUOTATION MARK} 30\N{RIGHT DOUBLE QUOTATION MARK}",
        "7:07:30",
        "7 : 07 : 30",
        "7:07.5",
        "7.125deg",
        "7.125°",
        "7.125 degrees",
        "7.125",
        " 7d 7.5min ",
        "7deg 7min 30sec",
        "7DEG7MIN30SEC",
        "7°7'30''",
        "427'30\"",
        "427.5arcmin",
        "25650s",
        "+7.125deg",
    ],
)
def test_every_way_of_writing_it_reads_as_the_same_angle(text):
    assert seconds(text) == 25650


@pytest.mark.parametrize(
    ("text", "arcseconds"),
    [
        ("0d3m", 180),
        ("30'", 1800),
        ("30m", 1800),
        ("3' 20\"", 200),
        ("15min", 900),
        ("40arcsec", 40),
        ("7d30s", 25230),
        ("7:07", 25620),
        (".5deg", 1800),
        ("7.deg", 25200),
        ("90'", 5400),
        ("0", 0),
        ("360deg", 1296000),
    ],
)
def test_parts_count_as_written(text, arcseconds):
    assert seconds(text) == arcseconds


def test_radians_read_to_the_last_place_of_a_float():
    assert read_angle("0.1rad").angle.radians == 0.1
    exact = mpmath.mpf("0.1") * 648000 / mpmath.pi
    assert abs(mpmath.mpf(seconds("0.1 rad").numerator) / seconds("0.1rad").denominator - exact) < 1e-14


def test_an_angle_keeps_its_text_and_may_be_64_characters_long():
    long = f"7.{'0' * 59}deg"
    assert (len(long), seconds(f"{long}")) == (64, 25200)
    assert read_angle(" 7d 30s ").text == "7d 30s"


def test_a_bare_number_counts_degrees_and_says_so():
    assert read_angle("7.125").bare
    assert not read_angle("7.125deg").bare
    assert not read_angle("7:07:30").bare


def test_a_minus_is_read_only_where_a_sign_is_wanted():
    assert seconds("-0d3m", signed=True) == -180
    assert seconds("\N{MINUS SIGN}3'", signed=True) == -180
    assert seconds("3'", signed=True) == 180
    with pytest.raises(TextError, match="below zero"):
        read_angle("-3'")


BAD = [
    # text, first and last wrong character, sentence
    ("", (0, 1), "empty: an angle is wanted"),
    ("   ", (0, 1), "empty: an angle is wanted"),
    ("7" * 65, (64, 65), "too long to be an angle"),
    ("7,5deg", (1, 2), "a comma: write the decimal point as a point"),
    ("7e1deg", (1, 3), "powers of ten are not read: write the number out"),
    ("nan", (0, 3), "not a finite number"),
    ("-inf deg", (1, 4), "not a finite number"),
    ("-3deg", (0, 5), "below zero: an angle is not negative"),
    ("7d75m", (2, 5), "60 minutes or more beside degrees"),
    ("7d60m", (2, 5), "60 minutes or more beside degrees"),
    ("3'60\"", (2, 5), "60 seconds or more beside minutes"),
    ("7:60", (2, 4), "60 minutes or more beside degrees"),
    ("7.5d30m", (0, 4), "decimals stand only in the last part"),
    ("7:7.5:30", (2, 5), "decimals stand only in the last part"),
    ("7m7d", (2, 4), "degrees, minutes and seconds stand in that order, each once"),
    ("7d7d", (2, 4), "degrees, minutes and seconds stand in that order, each once"),
    ("7d30", (2, 4), "a mark is missing: degrees, minutes or seconds?"),
    ("7 30", (0, 1), "a mark is missing: degrees, minutes or seconds?"),
    ("1rad 3m", (0, 4), "radians stand alone"),
    ("3d1rad", (2, 6), "radians stand alone"),
    ("5in", (1, 3), "'in' is not a mark of degrees, minutes or seconds"),
    ("7#", (1, 2), "'#' is not a mark of degrees, minutes or seconds"),
    ("7_000", (1, 2), "no number here"),
    ("deg", (0, 1), "no number here"),
    ("X7deg", (0, 1), "no number here"),
    ("7d-7m", (2, 3), "no number here"),
    ("--7", (0, 3), "below zero: an angle is not negative"),
    ("1:2:3:4", (5, 7), "more than degrees, minutes and seconds"),
    ("7::30", (2, 3), "not a plain number between the colons"),
    ("7:7d", (2, 4), "not a plain number between the colons"),
    (" 7 :  x ", (6, 7), "not a plain number between the colons"),
    ("  -3deg ", (2, 7), "below zero: an angle is not negative"),
    ("  361deg ", (2, 8), "more than a full turn"),
    (" 7d  -7m", (5, 6), "no number here"),
    ("1 : 2 : 3 :  4", (12, 14), "more than degrees, minutes and seconds"),
    ("361deg", (0, 6), "more than a full turn"),
    ("7rad", (0, 4), "more than a full turn"),
    ("\N{ARABIC-INDIC DIGIT SEVEN}deg", (0, 1), "no number here"),
]


@pytest.mark.parametrize(("text", "wrong", "sentence"), BAD)
def test_what_is_no_angle_is_refused_under_a_caret(text, wrong, sentence):
    with pytest.raises(TextError) as refused:
        read_angle(text)
    assert refused.value.sentence == sentence
    assert (refused.value.start, refused.value.end) == wrong
    assert refused.value.text == text
    assert refused.value.hint == "write an angle like 7d7m30s, 7:07:30, 7.125deg or 0.1rad"


def test_degrees_minutes_and_seconds_carry_and_never_show_sixty():
    assert dms_text(Angle(arcseconds=Fraction(25650))) == "7°07'30\""
    assert dms_text(Angle(arcseconds=Fraction(35999, 10))) == "1°00'00\""
    assert dms_text(Angle(arcseconds=Fraction(35994, 10)), 0) == "0°59'59\""
    assert dms_text(Angle(arcseconds=Fraction(359996, 100)), 1) == "1°00'00.0\""
    assert dms_text(Angle(arcseconds=Fraction(61, 10)), 1) == "0°00'06.1\""


def test_a_negative_angle_prints_one_minus():
    assert dms_text(Angle(arcseconds=Fraction(-180))) == "-0°03'00\""
    assert dms_text(Angle(arcseconds=Fraction(-1, 10))) == "0°00'00\""
    assert degrees_text(Angle(arcseconds=Fraction(-1800)), 2) == "-0.50°"


def test_decimal_degrees_keep_their_places_or_drop_closing_zeros():
    angle = Angle.from_degrees(Fraction(57, 8))
    assert degrees_text(angle) == "7.125000°"
    assert degrees_text(angle, 0) == "7°"
    assert short_degrees_text(angle) == "7.125°"
    assert short_degrees_text(Angle.from_degrees(30)) == "30°"
    assert short_degrees_text(Angle.from_degrees(30), 0) == "30°"


@pytest.mark.parametrize(
    ("value", "text"),
    [(3.3, '+3.3"'), (-3.25, '-3.2"'), (Fraction(1, 100), '0.0"'), (-0.01, '0.0"'), (Fraction(0), '0.0"')],
)
def test_a_difference_in_arcseconds_carries_its_sign(value, text):
    assert arcsec_text(value) == text


def test_a_difference_in_arcseconds_has_the_places_asked_for():
    assert arcsec_text(Fraction(1, 3), 3) == '+0.333"'
    assert arcsec_text(0.1) == '+0.1"'
    assert arcsec_text(12.5, 0) == '+12"'


def test_a_float_of_degrees_counts_as_the_decimal_it_prints_as():
    assert Angle.from_degrees(7.1) == read_angle("7.1deg").angle
    assert Angle.from_degrees(1e-7).arcseconds == Fraction(36, 100_000)
    assert Angle.from_degrees(7).arcseconds == 25200
    assert Angle.from_degrees(Fraction(1, 3)).arcseconds == 1200


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_an_angle_of_no_finite_number_is_refused(number):
    for make in (Angle.from_degrees, Angle.from_radians):
        with pytest.raises(UsageError) as refused:
            make(number)
        assert str(refused.value) == (
            "angle: not a finite number\n  write an angle like 7d7m30s, 7:07:30, 7.125deg or 0.1rad"
        )


def test_angles_sort_and_subtract():
    small, large = Angle.from_degrees(7), Angle.from_degrees(8)
    assert small < large
    assert not large < small
    assert large - small == 3600
    assert small - large == -3600


@pytest.mark.parametrize("text", ["0.0001s", "7d7m30s", "30deg", "45deg", "89d59m59.99s", "359d"])
def test_radians_are_the_nearest_float(text):
    angle = read_angle(text).angle
    exact = mpmath.mpf(angle.arcseconds.numerator) / angle.arcseconds.denominator * mpmath.pi / 648000
    assert angle.radians == float(exact)
