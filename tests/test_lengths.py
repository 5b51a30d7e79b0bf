from fractions import Fraction

import pytest

from gaugestack.errors import TextError
from gaugestack.lengths import (
    LONGEST,
    PM_PER_INCH,
    PM_PER_MM,
    Length,
    Unit,
    counted,
    engraved_text,
    exact_text,
    read_length,
    rounded_text,
    small_bare,
    small_text,
)

HINT = "write a length like 0.6202in, 15.752mm, 12 µm, 40 µin, 5/8in or 1-3/8in"


def refusal(text, **how):
    with pytest.raises(TextError) as caught:
        read_length(text, **how)
    assert caught.value.text == text
    return caught.value


def refused(text, **how):
    error = refusal(text, **how)
    return error.sentence, error.start, error.end


def test_an_inch_is_25_4_mm_exactly():
    """International yard and pound agreement, July 1959 (from memory)."""
    assert PM_PER_INCH * 10 == PM_PER_MM * 254
    assert read_length("1in").length == read_length("25.4mm").length == 25_400_000_000


@pytest.mark.parametrize(
    ("text", "picometres"),
    [
        ("0.62017in", 15_752_318_000),
        (".62017in", 15_752_318_000),
        ('.62017"', 15_752_318_000),
        ("1 inch", 25_400_000_000),
        ("2 inches", 50_800_000_000),
        ("1\N{DOUBLE PRIME}", 25_400_000_000),
        ("1\N{RIGHT DOUBLE QUOTATION MARK}", 25_400_000_000),
        ("1ft", 304_800_000_000),
        ("1 foot", 304_800_000_000),
        ("2 feet", 609_600_000_000),
        ("1 thou", 25_400_000),
        ("40 µin", 1_016_000),
        ("40 \N{GREEK SMALL LETTER MU}in", 1_016_000),
        ("40uin", 1_016_000),
        ("0.01uin", 254),
        ("15.752mm", 15_752_000_000),
        ("15.mm", 15_000_000_000),
        ("1 cm", 10_000_000_000),
        ("1m", 1_000_000_000_000),
        ("12 µm", 12_000_000),
        ("12 \N{GREEK SMALL LETTER MU}m", 12_000_000),
        ("12um", 12_000_000),
        ("0.001nm", 1),
        ("5/8in", 15_875_000_000),
        ("5 / 8 in", 15_875_000_000),
        ("1-3/8 in", 34_925_000_000),
        ("1 3/8in", 34_925_000_000),
        ("+1in", 25_400_000_000),
        ("  1 MM ", 1_000_000_000),
        ("1IN", 25_400_000_000),
        ("010 mm", 10_000_000_000),
        ("2.000mm", 2_000_000_000),
    ],
)
def test_a_length_is_read_exactly(text, picometres):
    assert read_length(text).length == picometres


@pytest.mark.parametrize(
    ("text", "unit"),
    [("1ft", Unit.INCH), ("40µin", Unit.INCH), ("1cm", Unit.MILLIMETRE), ("9nm", Unit.MILLIMETRE)],
)
def test_a_length_answers_in_the_unit_it_was_asked_in(text, unit):
    read = read_length(text)

    assert (read.unit, read.bare) == (unit, False)


def test_a_bare_number_takes_the_unit_of_the_caller_and_says_so():
    read = read_length(" 0.5 ", bare_unit=Unit.INCH)

    assert (read.length, read.unit, read.bare, read.text) == (12_700_000_000, Unit.INCH, True, "0.5")


def test_a_bare_number_without_a_unit_of_the_caller_is_refused():
    assert refused("0.5") == ("a unit is missing", 3, 4)


def test_a_number_with_its_own_unit_does_not_take_the_caller_s():
    read = read_length("0.5mm", bare_unit=Unit.INCH)

    assert (read.length, read.unit, read.bare) == (500_000_000, Unit.MILLIMETRE, False)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", ("empty: a length is wanted", 0, 1)),
        ("   ", ("empty: a length is wanted", 0, 1)),
        ("abc", ("no number here", 0, 1)),
        ("  abc", ("no number here", 2, 3)),
        (".", ("no number here", 0, 1)),
        ("nan mm", ("no number here", 0, 1)),
        ("1,5mm", ("a comma: write the decimal point as a point", 1, 5)),
        ("1.5 2mm", ("a second number: one length is wanted", 4, 7)),
        ("1e3", ("powers of ten are not read: write the number out", 1, 3)),
        ("1E-3", ("powers of ten are not read: write the number out", 1, 4)),
        ("5  furlong ", ("'furlong' is not a unit of length", 3, 10)),
        ("1_000mm", ("'_000mm' is not a unit of length", 1, 7)),
        ("7°", ("'°' is not a unit of length", 1, 2)),
        ("1:30", ("':30' is not a unit of length", 1, 4)),
        ("1/0 in", ("a fraction over zero", 2, 3)),
        ("1/3 mm", ("not a whole number of picometres", 0, 6)),
        ("0.0001nm ", ("not a whole number of picometres", 0, 8)),
        ("-1mm", ("below zero: a length is above zero", 0, 2)),
        ("\N{MINUS SIGN}1mm", ("below zero: a length is above zero", 0, 2)),
        ("0mm", ("zero: a length is above zero", 0, 1)),
        ("100.001m", ("longer than 100 m", 0, 8)),
        ("9" * 63 + "mm", ("too long to be a length", 64, 65)),
    ],
)
def test_a_wrong_length_is_refused_at_its_place(text, expected):
    assert refused(text) == expected


@pytest.mark.parametrize(
    "text", ["", "abc", "9" * 63 + "mm", "1/0 in", "0.5", "5 furlong", "1,5mm", "-1mm", "0mm"]
)
def test_a_refusal_shows_how_a_length_is_written(text):
    assert refusal(text).hint == HINT


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("101m", "check the unit"),
        ("1/3 mm", "write fewer decimals; a fraction must end as a decimal"),
    ],
)
def test_a_number_that_is_too_large_or_too_fine_has_a_hint_of_its_own(text, hint):
    assert refusal(text).hint == hint


def test_a_bare_number_finer_than_a_picometre_is_refused():
    assert refused("0.00000000001", bare_unit=Unit.INCH) == ("not a whole number of picometres", 0, 13)


def test_a_text_of_64_characters_is_still_read():
    text = f"2.{'0' * 60}mm"

    assert (len(text), read_length(text).length) == (64, 2 * PM_PER_MM)


def test_a_refusal_shows_the_text_the_caret_and_how_to_write_it():
    assert str(refusal("5 furlong").named("HEIGHT")) == (
        f"HEIGHT: 'furlong' is not a unit of length\n    5 furlong\n      ^^^^^^^\n  {HINT}"
    )


@pytest.mark.parametrize(
    "text", ["\N{ARABIC-INDIC DIGIT ONE}mm", "\N{FULLWIDTH DIGIT ONE}mm", "\N{SUPERSCRIPT TWO}mm"]
)
def test_digits_of_other_scripts_are_no_numbers(text):
    assert refused(text) == ("no number here", 0, 1)


def test_the_longest_length_is_100_m():
    assert read_length("100m").length == LONGEST


@pytest.mark.parametrize(
    ("text", "picometres"),
    [("-4 µin", -101_600), ("  -4 µin", -101_600), ("\N{MINUS SIGN}1mm", -PM_PER_MM), ("0mm", 0)],
)
def test_a_signed_length_may_be_zero_or_below(text, picometres):
    assert read_length(text, signed=True).length == picometres


def test_a_signed_length_is_not_below_100_m_either():
    assert refused("-101m", signed=True)[0] == "longer than 100 m"


@pytest.mark.parametrize(
    ("text", "unit", "picometres"),
    [
        ("+2", Unit.INCH, 50_800),
        ("-1", Unit.MILLIMETRE, -1_000_000),
        ("0.1", Unit.INCH, 2_540),
        ("-4 µin", Unit.MILLIMETRE, -101_600),
        ("0", Unit.INCH, 0),
    ],
)
def test_a_bare_deviation_counts_the_small_unit(text, unit, picometres):
    assert small_bare(text, unit) == picometres


@pytest.mark.parametrize("text", ["", "x", "1,5", "0.00001"])
def test_a_wrong_deviation_is_refused(text):
    with pytest.raises(TextError):
        small_bare(text, Unit.INCH)


@pytest.mark.parametrize(
    ("text", "picometres"),
    [("+2", 50_800), ("-1.5", -38_100), (" 3 ", 76_200), ("1/2", 12_700), ("0", 0)],
)
def test_a_number_of_a_column_counts_what_the_column_counts(text, picometres):
    assert counted(text, Length(25_400)) == picometres


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("5 in", ("a plain number is wanted, without 'in'", 2, 4)),
        ("5 mm ", ("a plain number is wanted, without 'mm'", 2, 4)),
        ("1 1", ("a plain number is wanted, without '1'", 2, 3)),
        ("1,5", ("a comma in a number", 1, 3)),
        ("x", ("no number here", 0, 1)),
        ("0.00001", ("not a whole number of picometres", 0, 7)),
    ],
)
def test_a_cell_that_is_no_plain_number_is_refused_at_its_place(text, expected):
    with pytest.raises(TextError) as caught:
        counted(text, Length(25_400))

    assert (caught.value.sentence, caught.value.start, caught.value.end) == expected
    assert caught.value.text == text


@pytest.mark.parametrize(
    ("picometres", "unit", "text"),
    [
        (15_752_318_000, Unit.INCH, "0.62017 in"),
        (25_400_000_000, Unit.INCH, "1 in"),
        (254_000_000_000, Unit.INCH, "10 in"),
        (1, Unit.INCH, "0.000000001 mm"),
        (1, Unit.MILLIMETRE, "0.000000001 mm"),
        (-500_000_000, Unit.MILLIMETRE, "-0.5 mm"),
        (-101_600, Unit.INCH, "-0.000004 in"),
        (0, Unit.INCH, "0 in"),
        (100_000_000_000, Unit.MILLIMETRE, "100 mm"),
    ],
)
def test_a_length_is_printed_without_rounding(picometres, unit, text):
    assert exact_text(picometres, unit) == text


@pytest.mark.parametrize(
    ("text", "engraved"),
    [
        ("1in", "1.000 in"),
        ("0.05in", "0.050 in"),
        ("0.1001in", "0.1001 in"),
        ("0.078125in", "0.078125 in"),
        ("1.005mm", "1.005 mm"),
        ("10mm", "10 mm"),
        ("0.5mm", "0.5 mm"),
    ],
)
def test_a_size_is_printed_as_engraved(text, engraved):
    read = read_length(text)

    assert engraved_text(read.length, read.unit) == engraved


def test_a_metric_size_in_an_inch_set_is_engraved_in_millimetres():
    assert engraved_text(10_000_000_000, Unit.INCH) == "10 mm"


@pytest.mark.parametrize(
    ("length", "unit", "places", "text"),
    [
        (Fraction(25_400_000_000, 3), Unit.INCH, 4, "0.3333 in"),
        (500_000_000, Unit.MILLIMETRE, 0, "0 mm"),
        (1_500_000_000, Unit.MILLIMETRE, 0, "2 mm"),
        (-1, Unit.MILLIMETRE, 3, "0.000 mm"),
        (-1_234_567_890, Unit.MILLIMETRE, 3, "-1.235 mm"),
    ],
)
def test_a_length_is_rounded_half_to_even(length, unit, places, text):
    assert rounded_text(length, unit, places) == text


@pytest.mark.parametrize(
    ("length", "unit", "text"),
    [
        (50_800, Unit.INCH, "+2.0 µin"),
        (2_540, Unit.INCH, "+0.1 µin"),
        (-25_400, Unit.INCH, "-1.0 µin"),
        (0, Unit.MILLIMETRE, "0.0 µm"),
        (Fraction(1_000_000, 3), Unit.MILLIMETRE, "+0.3 µm"),
        (-1, Unit.MILLIMETRE, "0.0 µm"),
    ],
)
def test_a_deviation_is_printed_with_its_sign(length, unit, text):
    assert small_text(length, unit) == text
